/* Specific target organs and aspiration: Regulation (EC) No 1272/2008, Annex I, Tables 3.8.3 and 3.9.4, and 3.10.3.3. */
#include "chemistry/hazard_rules.h"

#include <math.h>

static const double EDGE = 1e-9;

struct organ_rule {
    enum hazard_family family;
    const char *hazards[2]; /* category 1, category 2 */
    const char *codes[2];
    const char *place;
};

static const struct organ_rule organ_rules[] = {
    {FAMILY_ORGAN_ONCE, {"STOT SE 1", "STOT SE 2"}, {"H370", "H371"}, "Annex I, Table 3.8.3"},
    {FAMILY_ORGAN_REPEATED, {"STOT RE 1", "STOT RE 2"}, {"H372", "H373"}, "Annex I, Table 3.9.4"},
};

/* The category that an ingredient gives the mixture, 0 for none; *limit by which. */
static int organ_category(const struct ingredient *ingredient, enum hazard_family family, double *limit, bool *specific)
{
    const struct hazard_data *data = ingredient->data;
    *specific = !isnan(hazard_limit_of(data, family, 1, 2));
    if (*specific) {
        for (int category = 1; category <= 2; category++) {
            *limit = hazard_limit_of(data, family, category, category);
            if (ingredient->percent >= *limit - EDGE) {
                return category;
            }
        }
        return 0;
    }
    const struct hazard_entry *entry = hazard_entry_of(data, family);
    if (entry == NULL) {
        return 0;
    }
    *limit = 10;
    if (ingredient->percent >= 10 - EDGE) {
        return entry->class->rank;
    }
    *limit = 1; /* 1 to 10 % of category 1 make category 2 */
    return entry->class->rank == 1 && ingredient->percent >= 1 - EDGE ? 2 : 0;
}

static void classify_organs(struct classification *classification, const struct organ_rule *rule)
{
    int worst = 0;
    for (size_t i = 0; i < classification->count; i++) {
        double limit;
        bool specific;
        int category = organ_category(&classification->ingredients[i], rule->family, &limit, &specific);
        worst = category != 0 && (worst == 0 || category < worst) ? category : worst;
    }
    struct hazard_result *result = NULL;
    for (size_t i = 0; worst != 0 && i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        double limit;
        bool specific;
        if (organ_category(ingredient, rule->family, &limit, &specific) != worst) {
            continue;
        }
        if (result == NULL) {
            result = hazard_add(classification, hazard_class_called(rule->hazards[worst - 1], rule->codes[worst - 1]),
                                (struct text){0}, "%s %%, from %s %% on (%s)",
                                hazard_percent(classification->arena, ingredient->percent),
                                hazard_percent(classification->arena, limit),
                                specific ? "specific limit of the substance" : rule->place);
        }
        hazard_blame(classification, result, ingredient);
    }
}

/* STOT SE 3, airways and narcosis each by themselves: 3.8.3.4.5 calls 20 % appropriate; specific limits go before. */
static double third_category_limit(const struct hazard_data *data, enum hazard_family family)
{
    double specific = hazard_limit_of(data, family, 1, 1);
    return !isnan(specific) ? specific : hazard_entry_of(data, family) != NULL ? 20 : NAN;
}

static void classify_third_category(struct classification *classification, enum hazard_family family, const char *code)
{
    double total = 0;
    bool specific = false;
    size_t count = 0;
    const struct ingredient *only = NULL;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        double limit = third_category_limit(ingredient->data, family);
        if (!isnan(limit) && ingredient->percent >= fmin(1, limit)) {
            total += ingredient->percent / limit;
            specific = specific || limit != 20;
            count++;
            only = ingredient;
        }
    }
    if (total < 1 - EDGE) {
        return;
    }
    const struct hazard_class *class = hazard_class_called("STOT SE 3", code);
    struct hazard_result *result =
        count == 1 ? hazard_add(classification, class, (struct text){0}, "%s %%, from %s %% on (%s)",
                                hazard_percent(classification->arena, only->percent),
                                hazard_percent(classification->arena, third_category_limit(only->data, family)),
                                specific ? "specific limit of the substance" : "Annex I, 3.8.3.4.5")
                   : hazard_add(classification, class, (struct text){0},
                                "per cent over the limit of each (%s), together %s, from 1 on (Annex I, 3.8.3.4.5)",
                                specific ? "specific limits, else 20 %" : "20 %", hazard_percent(classification->arena, total));
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        double limit = third_category_limit(ingredient->data, family);
        if (!isnan(limit) && ingredient->percent >= fmin(1, limit)) {
            hazard_blame(classification, result, ingredient);
        }
    }
}

/* Taken as thin enough to be breathed in (20.5 mm2/s or less at 40 °C), as solvents are. */
static void classify_aspiration(struct classification *classification)
{
    double total = 0;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        total += hazard_entry_of(ingredient->data, FAMILY_ASPIRATION) != NULL ? ingredient->percent : 0;
    }
    if (!classification->liquid || total < 10 - EDGE) {
        return;
    }
    struct hazard_result *result = hazard_add(classification, hazard_class_called("Asp. Tox. 1", "H304"), (struct text){0},
                                              "sum %s %%, from 10 %% on (Annex I, 3.10.3.3.1)",
                                              hazard_percent(classification->arena, total));
    for (size_t i = 0; i < classification->count; i++) {
        if (hazard_entry_of(classification->ingredients[i].data, FAMILY_ASPIRATION) != NULL) {
            hazard_blame(classification, result, &classification->ingredients[i]);
        }
    }
}

void hazard_organs(struct classification *classification)
{
    for (size_t i = 0; i < sizeof organ_rules / sizeof *organ_rules; i++) {
        classify_organs(classification, &organ_rules[i]);
    }
    classify_third_category(classification, FAMILY_AIRWAYS_IRRITANT, "H335");
    classify_third_category(classification, FAMILY_NARCOTIC, "H336");
    classify_aspiration(classification);
}
