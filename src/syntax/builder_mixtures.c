/* Nodes of dilutions and mixtures. */
#include "syntax/builder.h"

#include "base/number.h"
#include "syntax/reread.h"

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

/* NULL when the words are no dilution, which is reported. */
struct ratio *build_ratio_words(struct builder *builder, struct name *words, struct span span)
{
    struct text folded = names_folded(builder->names, words)->spelling;
    if (text_is(folded, "undiluted") || text_is(folded, "none")) {
        return build_ratio(builder, 1, 0, (struct span){0}, span);
    }
    if (builder->lexer.reread == NULL) {
        struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "expected a dilution such as 1+3, not \"%.*s\"",
                                                        TEXT_ARGUMENTS(words->spelling));
        diagnostics_help(builder->diagnostics, diagnostic, "write parts of stock + parts of water, or: dilute undiluted");
        builder->lexer.line_told = true;
    }
    return NULL;
}

/* A reading of such a ratio, with what it says in `meaning`. */
static void offer_ratio(struct builder *builder, struct diagnostic *diagnostic, struct span span, const char *one, const char *water, const char *meaning)
{
    const struct reread *reread = builder->lexer.reread;
    /* What stands for a line without such figures takes its whole place. */
    bool whole = reread != NULL && span.begin == reread->line.begin && span.end == reread->line.end;
    const char *text = arena_format(builder->arena, "%s%s+%s", whole ? "dilute " : "", one, water);
    diagnostics_fix(builder->diagnostics, diagnostic, span, text, "%s+%s: %s", one, water, meaning);
}

struct ratio *build_ratio_with_colon(struct builder *builder, double first, double second, struct span second_span, struct span span)
{
    struct arena *arena = builder->arena;
    const char *one = number_print(arena, first, 4);
    const char *other = number_print(arena, second, 4);
    struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_RATIO_WITH_COLON, span,
                                                    "%s:%s is read both as %s part of stock + %s of water and as %s in %s in all", one, other, one,
                                                    other, one, other);
    const char *rest = second > first ? number_print(arena, second - first, 4) : NULL;
    if (rest != NULL) {
        diagnostics_help(builder->diagnostics, diagnostic, "write %s+%s if %s of water is added, %s+%s if %s is the whole", one, other, other, one,
                         rest, other);
    } else {
        diagnostics_help(builder->diagnostics, diagnostic, "write %s+%s: parts of stock + parts of water", one, other);
    }
    offer_ratio(builder, diagnostic, span, one, other, arena_format(arena, "%s of stock and %s of water", one, other));
    if (rest != NULL) {
        offer_ratio(builder, diagnostic, span, one, rest, arena_format(arena, "%s of stock in %s altogether", one, other));
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
