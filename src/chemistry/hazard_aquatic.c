/* Water life, by summation: Regulation (EC) No 1272/2008, Annex I, 4.1.3.5.5, Tables 4.1.1 and 4.1.2 (UN GHS, 4.1.3.5.5). */
#include "chemistry/hazard_rules.h"

#include <math.h>

static const double ENOUGH = 25 - 1e-9; /* % */

/* The category of an ingredient that counts, 0 for none.  From 0.1 %, or 0.1/M, in category 1; from 1 % in the others
 * (4.1.3.1 and Table 1.1). */
static int category_of(const struct ingredient *ingredient, enum hazard_family family)
{
    const struct hazard_entry *entry = hazard_entry_of(ingredient->data, family);
    if (entry == NULL) {
        return 0;
    }
    double m = family == FAMILY_AQUATIC_ACUTE ? ingredient->data->m_acute : ingredient->data->m_chronic;
    double cut_off = entry->class->rank == 1 ? 0.1 / m : 1;
    return ingredient->percent >= cut_off - 1e-12 ? entry->class->rank : 0;
}

/* What an ingredient adds to the sum for a chronic category. */
static double chronic_term(const struct ingredient *ingredient, int result)
{
    int category = category_of(ingredient, FAMILY_AQUATIC_CHRONIC);
    if (category == 0 || (result < 4 && category > result)) {
        return 0;
    }
    if (result == 4) { /* all of them, without factors */
        return ingredient->percent;
    }
    double factor = category == 1 ? ingredient->data->m_chronic : 1;
    for (int step = category; step < result; step++) {
        factor *= 10;
    }
    return factor * ingredient->percent;
}

static void classify_acute(struct classification *classification)
{
    double total = 0;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        total += category_of(ingredient, FAMILY_AQUATIC_ACUTE) == 1 ? ingredient->data->m_acute * ingredient->percent : 0;
    }
    if (total < ENOUGH) {
        return;
    }
    struct hazard_result *result = hazard_add(classification, hazard_class_called("Aquatic Acute 1", "H400"), (struct text){0},
                                              "sum of M x %% = %s %%, from 25 %% on (Annex I, Table 4.1.1)",
                                              hazard_percent(classification->arena, total));
    for (size_t i = 0; i < classification->count; i++) {
        if (category_of(&classification->ingredients[i], FAMILY_AQUATIC_ACUTE) == 1) {
            hazard_blame(classification, result, &classification->ingredients[i]);
        }
    }
}

static bool classify_chronic(struct classification *classification, int category)
{
    static const char *const hazards[] = {"Aquatic Chronic 1", "Aquatic Chronic 2", "Aquatic Chronic 3", "Aquatic Chronic 4"};
    static const char *const codes[] = {"H410", "H411", "H412", "H413"};
    static const char *const sums[] = {"M x chronic 1", "10 x M x chronic 1 + chronic 2",
                                       "100 x M x chronic 1 + 10 x chronic 2 + chronic 3", "chronic 1 to 4"};
    double total = 0;
    for (size_t i = 0; i < classification->count; i++) {
        total += chronic_term(&classification->ingredients[i], category);
    }
    if (total < ENOUGH) {
        return false;
    }
    struct hazard_result *result =
        hazard_add(classification, hazard_class_called(hazards[category - 1], codes[category - 1]), (struct text){0},
                   "sum of %s = %s %%, from 25 %% on (Annex I, Table 4.1.2)", sums[category - 1],
                   hazard_percent(classification->arena, total));
    for (size_t i = 0; i < classification->count; i++) {
        if (chronic_term(&classification->ingredients[i], category) > 0) {
            hazard_blame(classification, result, &classification->ingredients[i]);
        }
    }
    return true;
}

void hazard_aquatic(struct classification *classification)
{
    classify_acute(classification);
    for (int category = 1; category <= 4; category++) {
        if (classify_chronic(classification, category)) {
            return;
        }
    }
}
