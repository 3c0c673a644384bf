/* Declarations made of a formula: a stock that one of its lines draws on, a variant of it, a batch that was mixed. */
#include "syntax/mentions.h"
#include "workspace/actions.h"

#include <math.h>

/* ---- names that are free ---- */

struct taken {
    enum mention_kind kind;
    struct text name;
    bool found;
};

static void is_taken(void *context, const struct mention *mention)
{
    struct taken *taken = context;
    taken->found = taken->found || (mention->declares && mention->kind == taken->kind && text_equal(mention->text, taken->name));
}

static bool is_free(const struct doing *doing, enum mention_kind kind, const char *name)
{
    struct taken taken = {kind, text_from(name), false};
    for (size_t i = 0; i < doing->snapshot->texts.count; i++) {
        mentions_visit(text_tree(doing->snapshot->texts.items[i].file), is_taken, &taken);
    }
    return !taken.found;
}

/* ---- a stock ---- */

static void offer_stock(struct doing *doing)
{
    const struct step *step = doing->at.step;
    bool weighed = step != NULL && step_is_addition(step) && step->how == ADD_BY_MASS && step->high == 1 && !step->from_parts &&
                   step->statement->kind == SAY_ADDITION && line_is_own(doing->at.formula, step->span);
    if (!weighed) {
        return;
    }
    const struct addition_statement *addition = (const struct addition_statement *)step->statement;
    double most = material_saturated_percent(step->material, step->form);
    bool little = step->mass * 100 <= doing->at.part->makes / 2; /* mL of the stock: the rest of the bath needs its water too */
    if (addition->amount->kind != AMOUNT_PLAIN || addition->amount->quantity->high != NULL || (!isnan(most) && most < 1) || !little) {
        return;
    }
    const struct source_file *source = doing->checked->source;
    uint32_t end = addition->material->form != NULL && addition->material->form->span.end < step->amount_span.begin ? step->amount_span.begin
                                                                                                                    : addition->material->span.end;
    struct text name = text_trim((struct text){source->bytes + (addition->material->span.begin - source->base), end - addition->material->span.begin});
    struct step drawn = *step;
    drawn.stock_percent = 1;
    drawn.basis = PERCENT_PLAIN;
    if (formulary_stock(&doing->checked->session->formulary, &drawn) == NULL) {
        uint32_t above = doing->at.declaration->span.begin;
        doing_edit(doing, span_make(above, above), arena_format(doing->arena, "stock %.*s 1 %%\n\n", TEXT_ARGUMENTS(name)));
    }
    doing_edit(doing, span_make(step->amount_span.end, step->amount_span.end), " from 1 % stock");
    doing_add(doing, POTASH_ACTION_EXTRACT, "take the %.*s from a 1 %% stock", TEXT_ARGUMENTS(step->material->name));
}

/* ---- a variant ---- */

static void offer_variant(struct doing *doing)
{
    struct text title = doing->at.formula->title;
    const char *name = arena_format(doing->arena, "%.*s, variant", TEXT_ARGUMENTS(title));
    for (int number = 2; !is_free(doing, MENTION_TITLE, name); number++) {
        name = arena_format(doing->arena, "%.*s, variant %d", TEXT_ARGUMENTS(title), number);
    }
    doing_edit(doing, doing_behind(doing), arena_format(doing->arena, "\n\nvariant \"%s\"\n    of \"%.*s\"", name, TEXT_ARGUMENTS(title)));
    doing_add(doing, POTASH_ACTION_EXTRACT, "make a variant");
}

/* ---- a batch ---- */

static void offer_batch(struct doing *doing, const char *date)
{
    const struct formula *formula = doing->at.formula;
    const struct part *part = formula->parts;
    bool dry = part != NULL && isnan(part->makes);
    double makes = part == NULL ? NAN : dry ? part->makes_mass : part->makes;
    if (isnan(makes) || part->next != NULL) {
        return;
    }
    char letter = 'a';
    const char *name = arena_format(doing->arena, "%s %c", date, letter);
    while (letter < 'z' && !is_free(doing, MENTION_BATCH, name)) {
        name = arena_format(doing->arena, "%s %c", date, ++letter);
    }
    doing_edit(doing, doing_behind(doing),
               arena_format(doing->arena, "\n\nbatch \"%s\" of \"%.*s\"\n    mixed %s\n    made %s %s", name, TEXT_ARGUMENTS(formula->title), date,
                            number_print_significant(doing->arena, makes, 4), dry ? "g" : "mL"));
    doing_add(doing, POTASH_ACTION_EXTRACT, "record a batch mixed on %s", date);
}

void doing_extract(struct doing *doing, const char *date)
{
    offer_stock(doing);
    offer_variant(doing);
    if (date != NULL) {
        offer_batch(doing, date);
    }
}
