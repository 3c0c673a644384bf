/* Acute toxicity of mixtures by the additivity formula: Regulation (EC) No 1272/2008, Annex I, 3.1.3.6 (UN GHS, 3.1.3.6). */
#include "chemistry/hazard_rules.h"

#include "base/number.h"

#include <math.h>

enum { CATEGORIES = 4 };

/* Table 3.1.1: the most that a category holds, and table 3.1.2: the point estimate that stands for a category. */
static const struct {
    const char *words;
    const char *unit;
    enum hazard_family family;
    double upto[CATEGORIES];
    double point[CATEGORIES];
} routes[ROUTES] = {
    [ROUTE_ORAL] = {"oral", "mg/kg", FAMILY_ORAL, {5, 50, 300, 2000}, {0.5, 5, 100, 500}},
    [ROUTE_DERMAL] = {"dermal", "mg/kg", FAMILY_DERMAL, {50, 200, 1000, 2000}, {5, 50, 300, 1100}},
    [ROUTE_GAS] = {"inhaled gas", "ppm", FAMILY_INHALATION, {100, 500, 2500, 20000}, {10, 100, 700, 4500}},
    [ROUTE_VAPOUR] = {"inhaled vapour", "mg/L", FAMILY_INHALATION, {0.5, 2, 10, 20}, {0.05, 0.5, 3, 11}},
    [ROUTE_DUST] = {"inhaled dust or mist", "mg/L", FAMILY_INHALATION, {0.05, 0.5, 1, 5}, {0.005, 0.05, 0.5, 1.5}},
};

static const char *const names[CATEGORIES] = {"Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Acute Tox. 4"};

static const char *code_of(enum hazard_family family, int category)
{
    static const char *const oral[CATEGORIES] = {"H300", "H300", "H301", "H302"};
    static const char *const dermal[CATEGORIES] = {"H310", "H310", "H311", "H312"};
    static const char *const inhaled[CATEGORIES] = {"H330", "H330", "H331", "H332"};
    const char *const *codes = family == FAMILY_ORAL ? oral : family == FAMILY_DERMAL ? dermal : inhaled;
    return codes[category - 1];
}

int hazard_acute_category(enum hazard_route route, double estimate)
{
    for (int category = 1; category <= CATEGORIES; category++) {
        if (estimate <= routes[route].upto[category - 1]) {
            return category;
        }
    }
    return 0;
}

double hazard_acute_estimate(const double *percents, const double *estimates, size_t count, double unknown_percent)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        sum += percents[i] / estimates[i];
    }
    /* 3.1.3.6.1; with more than 10 % unknown, 3.1.3.6.2.3 */
    return (100 - (unknown_percent > 10 ? unknown_percent : 0)) / sum;
}

/* The estimate of an ingredient, and its category; NAN where it counts as not toxic by that route. */
static double estimate_of(const struct hazard_data *data, enum hazard_route route, int *category)
{
    const struct hazard_entry *entry = hazard_entry_of(data, routes[route].family);
    bool this_route = routes[route].family != FAMILY_INHALATION || data->inhaled == route;
    if (!isnan(data->toxicity[route])) {
        *category = hazard_acute_category(route, data->toxicity[route]);
        return *category == 0 ? NAN : data->toxicity[route]; /* beyond category 4: not counted */
    }
    if (entry == NULL || !this_route) {
        return NAN;
    }
    *category = entry->class->rank;
    return routes[route].point[*category - 1];
}

/* Table 1.1: what is less than that is not counted. */
static double cut_off(int category)
{
    return category == 4 ? 1 : 0.1;
}

static double add_unknown(const struct classification *classification, enum hazard_route route)
{
    double unknown = 0;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        unknown += ingredient->toxicity_unknown[route] && ingredient->percent >= 1 ? ingredient->percent : 0;
    }
    return unknown;
}

static void classify_route(struct classification *classification, enum hazard_route route)
{
    struct arena *arena = classification->arena;
    double *percents = ARENA_ARRAY(arena, double, classification->count);
    double *estimates = ARENA_ARRAY(arena, double, classification->count);
    const struct ingredient **counted = ARENA_ARRAY(arena, const struct ingredient *, classification->count);
    size_t count = 0;
    int worst = CATEGORIES;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        int category = 0;
        double estimate = ingredient->toxicity_unknown[route] ? NAN : estimate_of(ingredient->data, route, &category);
        if (!isnan(estimate) && ingredient->percent >= cut_off(category)) {
            percents[count] = ingredient->percent;
            estimates[count] = estimate;
            counted[count++] = ingredient;
            worst = category < worst ? category : worst;
        }
    }
    double unknown = add_unknown(classification, route);
    double estimate = hazard_acute_estimate(percents, estimates, count, unknown);
    int category = count == 0 ? 0 : hazard_acute_category(route, estimate);
    if (category == 0) {
        return;
    }
    /* The point estimate of a category may lie on the bound of the one before; a mixture is never in a more severe one than
     * its worst ingredient (3.1.3.3). */
    category = category < worst ? worst : category;
    struct text code = text_from(code_of(routes[route].family, category));
    const struct hazard_class *class = hazard_class_find(text_from(names[category - 1]), code);
    const char *estimated = number_print_significant(arena, estimate, 3);
    struct hazard_result *result =
        unknown > 10 ? hazard_add(classification, class, code,
                                  "acute toxicity estimate, %s: %s %s, with %s %% of unknown toxicity left out (Annex I, 3.1.3.6.2.3)",
                                  routes[route].words, estimated, routes[route].unit, hazard_percent(arena, unknown))
                     : hazard_add(classification, class, code,
                                  "acute toxicity estimate, %s: %s %s, up to %s (Annex I, 3.1.3.6.1, Table 3.1.1)",
                                  routes[route].words, estimated, routes[route].unit,
                                  number_print_significant(arena, routes[route].upto[category - 1], 4));
    for (size_t i = 0; i < count; i++) {
        hazard_blame(classification, result, counted[i]);
    }
}

void hazard_acute(struct classification *classification)
{
    for (enum hazard_route route = ROUTE_ORAL; route < ROUTES; route++) {
        classify_route(classification, route);
    }
}
