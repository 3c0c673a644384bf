/* Nodes of dilutions and mixtures. */
#include "syntax/builder.h"

#include "base/number.h"

struct ratio *build_ratio_more(struct builder *builder, struct ratio *ratio, double more, struct span more_span, struct span span)
{
    double *figures = ARENA_ARRAY(builder->arena, double, ratio->count + 1);
    if (ratio->count > 0) {
        memcpy(figures, ratio->figures, ratio->count * sizeof *figures);
    }
    figures[ratio->count++] = more;
    ratio->figures = figures;
    ratio->last_span = more_span;
    ratio->span = span;
    return ratio;
}

struct ratio *build_ratio(struct builder *builder, double first, double second, struct span second_span, struct span span)
{
    struct ratio *ratio = ARENA_NEW(builder->arena, struct ratio);
    return build_ratio_more(builder, build_ratio_more(builder, ratio, first, span, span), second, second_span, span);
}

struct ratio *build_ratio_words(struct builder *builder, struct name *words, struct span span)
{
    struct text folded = names_folded(builder->names, words)->spelling;
    if (!text_is(folded, "undiluted") && !text_is(folded, "none")) {
        struct diagnostic *diagnostic =
            diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "expected a dilution such as 1+3, not \"%.*s\"",
                            TEXT_ARGUMENTS(words->spelling));
        builder->lexer.line_told = true;
        if (!syntax_mend_sentence(builder, diagnostic, span)) {
            diagnostics_help(builder->diagnostics, diagnostic, "write parts of stock + parts of water, or: dilute undiluted");
        }
    }
    return build_ratio(builder, 1, 0, (struct span){0}, span);
}

struct ratio *build_ratio_in(struct builder *builder, double first, struct name *in, double whole, struct span span)
{
    struct diagnostic *diagnostic;
    if (!text_is(names_folded(builder->names, in)->spelling, "in") || whole <= first) {
        diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "expected a dilution such as 1+3");
        diagnostics_help(builder->diagnostics, diagnostic, "write parts of stock + parts of water");
        return build_ratio(builder, 1, 0, (struct span){0}, span);
    }
    const char *plus = arena_format(builder->arena, "%s+%s", number_print(builder->arena, first, 4),
                                    number_print(builder->arena, whole - first, 4));
    diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span,
                                 "a dilution is written as parts of stock + parts of water");
    diagnostics_fix(builder->diagnostics, diagnostic, span, plus, "write %s", plus);
    return build_ratio(builder, first, whole - first, (struct span){0}, span);
}

struct ratio *build_ratio_with_colon(struct builder *builder, double first, double second, struct span first_span,
                                     struct span second_span, struct span span)
{
    struct arena *arena = builder->arena;
    struct text one = source_text(builder->diagnostics->sources, first_span);
    struct text other = source_text(builder->diagnostics->sources, second_span);
    struct diagnostic *diagnostic = diagnostics_add(
        builder->diagnostics, DIAG_RATIO_WITH_COLON, span,
        "%.*s:%.*s is read both as %.*s part of stock + %.*s of water and as %.*s in %.*s in all", TEXT_ARGUMENTS(one),
        TEXT_ARGUMENTS(other), TEXT_ARGUMENTS(one), TEXT_ARGUMENTS(other), TEXT_ARGUMENTS(one), TEXT_ARGUMENTS(other));
    const char *plus = arena_format(arena, "%.*s+%.*s", TEXT_ARGUMENTS(one), TEXT_ARGUMENTS(other));
    if (second > first) {
        const char *in_all =
            arena_format(arena, "%.*s+%s", TEXT_ARGUMENTS(one), number_print(arena, second - first, 3));
        diagnostics_help(builder->diagnostics, diagnostic,
                         "write %s if %.*s of water is added, %s if %.*s is the whole", plus, TEXT_ARGUMENTS(other), in_all,
                         TEXT_ARGUMENTS(other));
        diagnostics_fix(builder->diagnostics, diagnostic, span, plus, "%s: %.*s of stock and %.*s of water", plus,
                        TEXT_ARGUMENTS(one), TEXT_ARGUMENTS(other));
        diagnostics_fix(builder->diagnostics, diagnostic, span, in_all, "%s: %.*s of stock in %.*s altogether", in_all,
                        TEXT_ARGUMENTS(one), TEXT_ARGUMENTS(other));
    } else {
        diagnostics_help(builder->diagnostics, diagnostic, "write %s: parts of stock + parts of water", plus);
        diagnostics_fix(builder->diagnostics, diagnostic, span, plus, "%s: %.*s of stock and %.*s of water", plus,
                        TEXT_ARGUMENTS(one), TEXT_ARGUMENTS(other));
    }
    struct ratio *ratio = build_ratio(builder, first, second, second_span, span);
    ratio->doubtful = true;
    return ratio;
}

struct mix_item *build_mix_item(struct builder *builder, struct material_words *what, double number, struct text title,
                                struct quantity *quantity, struct span span)
{
    struct mix_item *item = ARENA_NEW(builder->arena, struct mix_item);
    if (what != NULL) {
        item->what = *what;
    }
    if (!isnan(number)) {
        struct word *word = build_part_word(builder, what == NULL ? NULL : what->name, number, title, span);
        item->what.name = word->name;
        item->what.span = span;
    }
    item->number = number;
    item->title = title;
    builder->file->draws_on_formulas = builder->file->draws_on_formulas || title.at != NULL;
    item->quantity = quantity;
    item->span = span;
    return item;
}

struct mix_item *build_mix_list(struct mix_item *list, struct mix_item *more)
{
    struct mix_item *last = list;
    while (last->next != NULL) {
        last = last->next;
    }
    last->next = more;
    return list;
}
