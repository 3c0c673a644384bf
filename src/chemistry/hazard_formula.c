/* The hazards of parts, working solutions and formulas. */
#include "chemistry/estimate.h"
#include "chemistry/hazard_rules.h"

#include <math.h>

static size_t count_components(const struct mixture *mixture)
{
    size_t count = 0;
    for (const struct component *component = mixture->components; component != NULL; component = component->next) {
        count++;
    }
    return count;
}

static struct mixture_safety *safety_of_mixture(struct arena *arena, struct formulary *formulary,
                                                const struct mixture *mixture, double ph)
{
    if (mixture == NULL) {
        return NULL;
    }
    struct ingredient *ingredients = ARENA_ARRAY(arena, struct ingredient, count_components(mixture));
    size_t count = 0;
    double unknown[ROUTES] = {0};
    for (const struct component *component = mixture->components; component != NULL; component = component->next) {
        struct ingredient *ingredient = &ingredients[count++];
        ingredient->data = hazard_data_of(arena, formulary->library, component->material);
        ingredient->percent = component->percent;
        for (size_t route = 0; route < ROUTES; route++) {
            ingredient->toxicity_unknown[route] = !ingredient->data->stated;
            unknown[route] += !ingredient->data->stated ? ingredient->percent : 0;
        }
    }
    struct mixture_safety *safety =
        hazard_label(arena, formulary->library, hazard_classify(arena, ingredients, count, ph, !mixture->dry));
    safety->mixture = mixture;
    safety->ph = ph;
    for (size_t route = 0; route < ROUTES; route++) {
        safety->unknown_percent[route] = unknown[route] >= 1 ? unknown[route] : 0; /* Annex I, 3.1.3.6.2.2 */
    }
    return safety;
}

struct mixture_safety *safety_of_part(struct arena *arena, struct formulary *formulary, const struct part *part)
{
    const struct mixture *mixture = mixture_of_part(arena, formulary, part);
    struct estimate estimate = {0};
    if (mixture != NULL && !mixture->dry) {
        estimate = estimate_part(formulary, part, NAN);
    }
    return safety_of_mixture(arena, formulary, mixture, estimate.known ? estimate.pH : NAN);
}

struct mixture_safety *safety_of_use(struct arena *arena, struct formulary *formulary, const struct formula *formula,
                                     const struct use *use)
{
    struct estimate estimate = estimate_use(formulary, formula, use);
    return safety_of_mixture(arena, formulary, mixture_of_use(arena, formulary, formula, use),
                             estimate.known ? estimate.pH : NAN);
}

/* Puts a copy of a result into the list of the most severe of each family. */
static void merge(struct arena *arena, struct hazard_result **list, const struct hazard_result *result)
{
    struct hazard_result **at = list;
    bool supplement = result->class->family == FAMILY_SUPPLEMENT;
    while (*at != NULL && (*at)->class < result->class && ((*at)->class->family != result->class->family || supplement)) {
        at = &(*at)->next;
    }
    struct hazard_result *rest = *at;
    if (rest != NULL && rest->class->family == result->class->family && (!supplement || rest->class == result->class)) {
        if (rest->class->rank <= result->class->rank) {
            return;
        }
        rest = rest->next;
    }
    struct hazard_result *copy = ARENA_NEW(arena, struct hazard_result);
    *copy = *result;
    copy->omitted = false;
    copy->next = rest;
    *at = copy;
}

struct mixture_safety *safety_of_formula(struct arena *arena, struct formulary *formulary, const struct formula *formula)
{
    if (formula->part_count <= 1) {
        return formula->parts == NULL ? NULL : safety_of_part(arena, formulary, formula->parts);
    }
    struct hazard_result *merged = NULL;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        const struct mixture_safety *safety = safety_of_part(arena, formulary, part);
        for (const struct hazard_result *result = safety == NULL ? NULL : safety->classes; result != NULL; result = result->next) {
            merge(arena, &merged, result);
        }
    }
    return hazard_label(arena, formulary->library, merged);
}
