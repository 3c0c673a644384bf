/* Repairs that make an amount usual: another figure, or the name of another material. */
#include "practice/repairs/amount_repairs.h"

#include "practice/ranges.h"
#include "practice/repairs/look_alikes.h"
#include "practice/repairs/repairs.h"

void amount_offer_repairs(struct bench *bench, struct diagnostic *diagnostic, const struct part *part, const struct step *step, bool less)
{
    if (!diagnostics_take_fixes(bench->formulary->diagnostics, diagnostic)) {
        return;
    }
    struct shares shares = ranges_shares(bench->formula, part, NULL, 0);
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(bench, step, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 3; i++) {
        double mass = step->mass * repairs[i].factor;
        if ((repairs[i].factor < 1) == less &&
            ranges_judge(bench->formula, part, step->material, step->form, mass, &shares).verdict == USUAL) {
            repair_offer(bench, diagnostic, &repairs[i]);
            offered++;
        }
    }
}

struct other_name {
    const struct formula *formula;
    const struct part *part;
    const struct step *step;
    const struct shares *shares;
    const struct material *found[3];
    size_t count;
};

static bool would_be_usual(void *context, const struct material *other)
{
    struct other_name *search = context;
    if (ranges_judge(search->formula, search->part, other, NULL, search->step->mass, search->shares).verdict == USUAL) {
        search->found[search->count++] = other;
    }
    return search->count == sizeof search->found / sizeof *search->found;
}

void amount_offer_names(struct bench *bench, struct diagnostic *diagnostic, const struct part *part, const struct step *step)
{
    struct shares shares = ranges_shares(bench->formula, part, NULL, 0);
    struct other_name search = {.formula = bench->formula, .part = part, .step = step, .shares = &shares};
    if (!diagnostics_take_fixes(bench->formulary->diagnostics, diagnostic) || step->statement->kind != SAY_ADDITION) {
        return;
    }
    look_alike_each(bench, step->material, would_be_usual, &search);
    for (size_t i = 0; i < search.count; i++) {
        struct span span =
            look_alike_name_span(bench, (const struct addition_statement *)step->statement, search.found[i]);
        diagnostics_fix_as(bench->formulary->diagnostics, diagnostic, span, "%s is meant", "%.*s",
                           TEXT_ARGUMENTS(search.found[i]->name));
    }
}
