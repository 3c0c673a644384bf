/* Other readings of an amount. */
#include "practice/repairs/repairs.h"

#include "base/number.h"

#include <math.h>

/* The repairs of one amount. */
struct list {
    struct repair *repairs;
    size_t count;
};

static void add_number(struct list *list, struct span span, double value, double factor, const char *title)
{
    if (list->count < MOST_REPAIRS && value > 0.99e-4 && value < 1e9) { /* what nobody would type was not meant */
        list->repairs[list->count++] = (struct repair){.span = span, .number = value, .factor = factor, .title = title};
    }
}

/* The units that this one is written for by mistake and that measure the same. */
static void add_units(struct list *list, struct library *library, const struct measure *measure)
{
    const struct word *meant = measure->unit->mistaken;
    for (; meant != NULL && list->count < MOST_REPAIRS; meant = meant->next) {
        const struct unit *unit = library_unit(library, meant->name);
        double factor = unit == NULL || unit->dimension != measure->dimension ? NAN : unit->factor / measure->unit->factor;
        if (!isnan(factor)) {
            list->repairs[list->count++] = (struct repair){.span = measure->unit_span, .number = NAN, .factor = factor, .meant = meant};
        }
    }
}

void repair_offer(struct bench *bench, struct diagnostic *diagnostic, const struct repair *repair)
{
    struct diagnostics *diagnostics = bench->formulary->diagnostics;
    if (repair->meant == NULL) {
        diagnostics_fix_as(diagnostics, diagnostic, repair->span, repair->title, "%.10g", repair->number);
    } else {
        formula_offer_unit(bench->formulary, diagnostic, repair->span, repair->meant);
    }
}

size_t repairs_of_amount(struct bench *bench, const struct step *step, struct repair *repairs)
{
    struct list list = {repairs, 0};
    struct measure measure = step_measure(bench->formulary->library, bench->formula, step);
    const struct quantity *quantity = step_quantity(step);
    if (measure.fault != MEASURE_GOOD || quantity->more != NULL) {
        return 0;
    }
    const struct strength *strength = step->how == ADD_STOCK ? ((const struct addition_statement *)step->statement)->amount->strength : NULL;
    if (strength != NULL && strength->number_span.end > 0) {
        add_number(&list, strength->number_span, strength->percent * 0.1, 0.1, "the stock is weaker: %s");
        add_number(&list, strength->number_span, strength->percent * 10, 10, "the stock is stronger: %s");
        for (size_t i = 0; i < list.count; i++) {
            repairs[i].of_stock = true;
        }
    }
    bool one = quantity->high == NULL;
    if (one) {
        add_number(&list, quantity_number_span(quantity), quantity->value * 0.1, 0.1, "the point is one place to the left: %s");
        add_number(&list, quantity_number_span(quantity), quantity->value * 10, 10, "the point is one place to the right: %s");
    }
    add_units(&list, bench->formulary->library, &measure);
    if (one) {
        add_number(&list, quantity_number_span(quantity), quantity->value * 0.01, 0.01, "the point is two places to the left: %s");
        add_number(&list, quantity_number_span(quantity), quantity->value * 100, 100, "the point is two places to the right: %s");
    }
    return list.count;
}

size_t repairs_of_volume(struct bench *bench, const struct step *make, struct repair *repairs)
{
    /* Batches are doubled, halved, made for a tank or for a gallon. */
    static const double factors[] = {0.1, 10, 0.5, 2, 0.2, 5, 0.25, 4, 0.4, 2.5};
    struct list list = {repairs, 0};
    struct measure measure = step_measure(bench->formulary->library, bench->formula, make);
    const struct quantity *quantity = step_quantity(make);
    if (measure.fault != MEASURE_GOOD || quantity->more != NULL || quantity->high != NULL) {
        return 0;
    }
    add_units(&list, bench->formulary->library, &measure);
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        add_number(&list, quantity_number_span(quantity), quantity->value * factors[i], factors[i], "another final volume: %s");
    }
    return list.count;
}

/* The figure of the water without one of its digits, or with a nought more. */
size_t repairs_of_ratio(struct bench *bench, const struct use *use, struct repair *repairs)
{
    struct arena *arena = bench->formulary->arena;
    struct list list = {repairs, 0};
    double water = use->water_parts;
    if (use->ratio == NULL || use->ratio->count != 2 || use->ratio->last_span.end == 0 || !(use->stock_parts > 0) || !(water >= 1) ||
        water >= 1e6 || water != floor(water)) {
        return 0;
    }
    const char *stock = number_print(arena, use->stock_parts, 3);
    for (double place = 1; place <= water && water >= 10; place *= 10) { /* of the digit that is left out */
        double above = floor(water / place / 10);
        double without = above * place + fmod(water, place);
        bool again = fmod(above, 10) == fmod(floor(water / place), 10) && above > 0; /* 1+33: either 3 */
        bool nought_first = above == 0 && without < place / 10;
        if (!again && without >= 1 && !nought_first) {
            add_number(&list, use->ratio->last_span, without, without / use->stock_parts,
                       arena_format(arena, "a figure too many: %s+%%s", stock));
        }
    }
    add_number(&list, use->ratio->last_span, water * 10, water * 10 / use->stock_parts,
               arena_format(arena, "a figure too few: %s+%%s", stock));
    return list.count;
}

/* ---- systems of units ---- */

enum unit_system repairs_system_of(struct bench *bench, const struct step *step)
{
    if (!step_is_addition(step) || step->approximate || step->from_parts || step->statement == NULL ||
        step->statement->kind != SAY_ADDITION) {
        return SYSTEM_NONE;
    }
    const struct amount_words *amount = ((const struct addition_statement *)step->statement)->amount;
    if (amount == NULL || amount->quantity == NULL || amount->quantity->unit == NULL || amount->strength != NULL) {
        return SYSTEM_NONE;
    }
    const struct unit *unit = library_unit(bench->formulary->library, amount->quantity->unit);
    if (unit == NULL || (unit->dimension != DIMENSION_MASS && unit->dimension != DIMENSION_VOLUME)) {
        return SYSTEM_NONE;
    }
    return unit->metric ? SYSTEM_METRIC : SYSTEM_OLD;
}
