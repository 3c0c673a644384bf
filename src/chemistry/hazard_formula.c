/* The hazards of parts, working solutions and formulas. */
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

/* Of two parts that hold the same it is said once. */
static void add_unassessed(struct arena *arena, struct mixture_safety *safety, struct text material, double percent)
{
    for (const struct hazard_cause *known = safety->unassessed; known != NULL; known = known->next) {
        if (text_equal(known->material, material)) {
            return;
        }
    }
    struct hazard_cause *cause = ARENA_NEW(arena, struct hazard_cause);
    *cause = (struct hazard_cause){safety->unassessed, material, percent, BASIS_NONE};
    safety->unassessed = cause;
}

static void add_stop(struct arena *arena, struct mixture_safety *safety, struct text material, struct text words)
{
    for (const struct hazard_stop *known = safety->stops; known != NULL; known = known->next) {
        if (text_equal(known->material, material)) {
            return;
        }
    }
    struct hazard_stop *stop = ARENA_NEW(arena, struct hazard_stop);
    *stop = (struct hazard_stop){safety->stops, material, words};
    safety->stops = stop;
}

/* What no calculation answers for: that nothing is known, and what is too grave to be left to one. */
static void add_reserves(struct arena *arena, struct library *library, struct mixture_safety *safety)
{
    const struct component *const lists[] = {safety->mixture->components, safety->mixture->uncounted};
    for (size_t l = 0; l < 2; l++) {
        for (const struct component *component = lists[l]; component != NULL; component = component->next) {
            const struct hazard_data *data = hazard_data_of(arena, library, component->material);
            bool harmless = data->stated && data->entry_count == 0;
            if (!data->stated || data->not_understood.length > 0 || (l == 1 && !harmless)) {
                add_unassessed(arena, safety, data->name, l == 0 ? component->percent : NAN);
            }
            if (data->stop.length > 0) {
                add_stop(arena, safety, data->name, data->stop);
            }
        }
    }
}

static struct hazard_acidity acidity_of(const struct mixture *mixture, const struct estimate *estimate)
{
    enum { HYDROXIDE = 40 /* g in a mole of sodium hydroxide */ };
    if (!estimate->known) {
        return (struct hazard_acidity){NAN, NAN};
    }
    return (struct hazard_acidity){estimate->pH, estimate->reserve * HYDROXIDE * mixture->millilitres / mixture->grams / 10};
}

static struct mixture_safety *safety_of_mixture(struct arena *arena, struct formulary *formulary,
                                                const struct mixture *mixture, const struct estimate *estimate)
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
    struct hazard_acidity acidity = acidity_of(mixture, estimate);
    struct mixture_safety *safety =
        hazard_label(arena, formulary->library, hazard_classify(arena, ingredients, count, acidity, !mixture->dry));
    safety->mixture = mixture;
    safety->acidity = acidity;
    for (size_t route = 0; route < ROUTES; route++) {
        safety->unknown_percent[route] = unknown[route] >= 1 ? unknown[route] : 0; /* Annex I, 3.1.3.6.2.2 */
    }
    add_reserves(arena, formulary->library, safety);
    return safety;
}

struct mixture_safety *safety_of_part(struct arena *arena, struct formulary *formulary, const struct part *part, const struct estimate *estimate)
{
    return safety_of_mixture(arena, formulary, mixture_of_part(arena, formulary, part), estimate);
}

struct mixture_safety *safety_of_use(struct arena *arena, struct formulary *formulary, const struct formula *formula,
                                     const struct use *use, const struct estimate *estimate)
{
    return safety_of_mixture(arena, formulary, mixture_of_use(arena, formulary, formula, use), estimate);
}

/* Puts a copy of a result into the list of the most severe of each subject. */
static void merge(struct arena *arena, struct hazard_result **list, const struct hazard_result *result)
{
    struct hazard_result **at = hazard_place(list, result->class, result->code);
    if (at != NULL) {
        struct hazard_result *copy = ARENA_NEW(arena, struct hazard_result);
        *copy = *result;
        copy->omitted = false;
        copy->next = *at;
        *at = copy;
    }
}

static const struct mixture_safety *most_severe(struct formulary *formulary, const struct mixture_safety *const *parts, size_t count)
{
    struct arena *arena = formulary->arena;
    if (count <= 1) {
        return count == 0 ? NULL : parts[0];
    }
    struct hazard_result *merged = NULL;
    struct mixture_safety reserves = {0};
    for (size_t i = 0; i < count; i++) {
        const struct mixture_safety *safety = parts[i];
        for (const struct hazard_result *result = safety == NULL ? NULL : safety->classes; result != NULL; result = result->next) {
            merge(arena, &merged, result);
        }
        for (const struct hazard_cause *cause = safety == NULL ? NULL : safety->unassessed; cause != NULL; cause = cause->next) {
            add_unassessed(arena, &reserves, cause->material, cause->percent);
        }
        for (const struct hazard_stop *stop = safety == NULL ? NULL : safety->stops; stop != NULL; stop = stop->next) {
            add_stop(arena, &reserves, stop->material, stop->words);
        }
    }
    struct mixture_safety *whole = hazard_label(arena, formulary->library, merged);
    whole->unassessed = reserves.unassessed;
    whole->stops = reserves.stops;
    return whole;
}

struct solutions solutions_of_formula(struct formulary *formulary, const struct formula *formula)
{
    struct arena *arena = formulary->arena;
    size_t use_count = formula_use_count(formula);
    struct estimate *part_estimates = ARENA_ARRAY(arena, struct estimate, formula->part_count + 1);
    struct estimate *use_estimates = ARENA_ARRAY(arena, struct estimate, use_count + 1);
    struct solutions solutions = {.part_estimates = part_estimates,
                                  .use_estimates = use_estimates,
                                  .parts = ARENA_ARRAY(arena, const struct mixture_safety *, formula->part_count + 1),
                                  .uses = ARENA_ARRAY(arena, const struct mixture_safety *, use_count + 1)};
    size_t i = 0;
    for (const struct part *part = formula->parts; part != NULL; part = part->next, i++) {
        part_estimates[i] = estimate_part(formulary, part, NAN);
        solutions.parts[i] = safety_of_part(arena, formulary, part, &part_estimates[i]);
    }
    i = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next, i++) {
        use_estimates[i] = estimate_use(formulary, formula, use);
        solutions.uses[i] = safety_of_use(arena, formulary, formula, use, &use_estimates[i]);
    }
    solutions.whole = most_severe(formulary, solutions.parts, formula->part_count);
    return solutions;
}
