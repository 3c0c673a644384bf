/* Making a batch of a formula. */
#include "batch/batch.h"

#include <math.h>

double formula_makes(const struct formula *formula, bool *dry)
{
    const struct part *part = formula->parts;
    if (dry != NULL) {
        *dry = isnan(part->makes);
    }
    return isnan(part->makes) ? part->makes_mass : part->makes;
}

double batch_scale(const struct formula *formula, double make)
{
    double makes = formula_makes(formula, NULL);
    return isnan(make) || isnan(makes) || makes <= 0 ? 1 : make / makes;
}

static const struct taking *taking_of(const struct taking *takings, const struct step *step)
{
    while (takings != NULL && takings->step != step) {
        takings = takings->next;
    }
    return takings;
}

/* ---- copies ---- */

/* The copy of a formula's part; a part of another formula stands for itself. */
static const struct part *copied_part(const struct formula *from, const struct formula *to, const struct part *part)
{
    const struct part *copy = to->parts;
    for (const struct part *at = from->parts; at != NULL; at = at->next, copy = copy->next) {
        if (at == part) {
            return copy;
        }
    }
    return part;
}

static void take_form(struct step *step, const struct taking *taking)
{
    bool liquid = taking->form->density > 0;
    step->material = taking->material;
    step->form = taking->form;
    step->mass = taking->mass;
    step->how = liquid ? ADD_BY_VOLUME : ADD_BY_MASS;
    step->volume = liquid ? taking->mass / taking->form->density : NAN;
}

static const struct step *copy_steps(struct arena *arena, const struct step *steps, double scale, const struct taking *takings)
{
    const struct step *first = NULL;
    const struct step **end = &first;
    for (; steps != NULL; steps = steps->next) {
        struct step *step = ARENA_NEW(arena, struct step);
        *step = *steps;
        const struct taking *taking = taking_of(takings, steps);
        if (taking != NULL && (taking->form != steps->form || taking->purity < 1)) {
            take_form(step, taking);
        }
        step->mass *= scale;
        step->volume *= scale;
        *end = step;
        end = &step->next;
    }
    return first;
}

static const struct part *copy_parts(struct arena *arena, const struct part *parts, double scale, const struct taking *takings)
{
    const struct part *first = NULL;
    const struct part **end = &first;
    for (; parts != NULL; parts = parts->next) {
        struct part *part = ARENA_NEW(arena, struct part);
        *part = *parts;
        part->makes *= scale;
        part->after_mark *= scale;
        part->makes_mass *= scale;
        part->steps = copy_steps(arena, parts->steps, scale, takings);
        part->last = NULL;
        *end = part;
        end = &part->next;
    }
    return first;
}

static const struct mix_share *copy_mix(struct arena *arena, const struct formula *from, const struct formula *to,
                                        const struct mix_share *mix)
{
    const struct mix_share *first = NULL;
    const struct mix_share **end = &first;
    for (; mix != NULL; mix = mix->next) {
        struct mix_share *share = ARENA_NEW(arena, struct mix_share);
        *share = *mix;
        share->part = copied_part(from, to, mix->part);
        *end = share;
        end = &share->next;
    }
    return first;
}

static const struct pour *copy_pours(struct arena *arena, const struct formula *from, const struct formula *to, const struct pour *pours)
{
    const struct pour *first = NULL;
    const struct pour **end = &first;
    for (; pours != NULL; pours = pours->next) {
        struct pour *pour = ARENA_NEW(arena, struct pour);
        *pour = *pours;
        pour->part = copied_part(from, to, pours->part);
        *end = pour;
        end = &pour->next;
    }
    return first;
}

static const struct use *copy_uses(struct arena *arena, const struct formula *from, const struct formula *to)
{
    const struct use *first = NULL;
    const struct use **end = &first;
    for (const struct use *uses = from->uses; uses != NULL; uses = uses->next) {
        struct use *use = ARENA_NEW(arena, struct use);
        *use = *uses;
        use->mix = copy_mix(arena, from, to, uses->mix);
        use->pours = copy_pours(arena, from, to, uses->pours);
        *end = use;
        end = &use->next;
    }
    return first;
}

/* `scale` times a formula.  What one part takes of another is drawn on the copy of that. */
static const struct formula *copy_formula(struct arena *arena, const struct formula *formula, double scale, const struct taking *takings)
{
    struct formula *copy = ARENA_NEW(arena, struct formula);
    *copy = *formula;
    copy->next = NULL;
    copy->parts = copy_parts(arena, formula->parts, scale, takings);
    copy->uses = copy_uses(arena, formula, copy);
    for (const struct part *part = copy->parts; part != NULL; part = part->next) {
        for (const struct step *at = part->steps; at != NULL; at = at->next) {
            if (step_is_addition(at) && at->how == ADD_SOLUTION && at->solution_of == formula) {
                struct step *step = (struct step *)at; /* made above */
                step->solution = copied_part(formula, copy, at->solution);
                step->solution_of = copy;
            }
        }
    }
    return copy;
}

/* ---- what is measured out ---- */

static double reading_error(const struct scales *scales, const struct step *step, double poured)
{
    switch (step->how) {
    case ADD_BY_MASS:
        return reading_bound(step->mass, scales->balance);
    case ADD_BY_VOLUME:
    case ADD_STOCK:
        return reading_bound(poured, scales_volume_step(scales, poured));
    case ADD_WATER:
    case ADD_TO_MAKE:
    case ADD_SOLUTION:
    case ADD_AS_NEEDED:
    default:
        return NAN;
    }
}

/* Water that a part has in all, when its lines begin with something to dissolve. */
static double water_listed_last(const struct part *part)
{
    const struct step *first = part->steps;
    while (first != NULL && !step_is_addition(first)) {
        first = first->next;
    }
    double water = 0;
    for (const struct step *step = first; step != NULL; step = step->next) {
        bool is_water = step_is_addition(step) && (step->how == ADD_WATER || step->how == ADD_TO_MAKE);
        water += is_water ? step_poured(part, step) : 0;
    }
    return first != NULL && first->how == ADD_BY_MASS && water > 0 ? water : 0;
}

static void measure_part(struct arena *arena, struct batch_part *part, const struct taking *takings, const struct scales *scales)
{
    for (const struct step *step = part->part->steps; step != NULL; step = step->next) {
        part->step_count++;
    }
    struct batch_step *steps = ARENA_ARRAY(arena, struct batch_step, part->step_count + 1);
    const struct step *one = part->one->steps;
    const struct step *written = part->written->steps;
    size_t i = 0;
    for (const struct step *step = part->part->steps; step != NULL; step = step->next, i++) {
        double poured = step_is_addition(step) ? step_poured(part->part, step) : NAN;
        steps[i] = (struct batch_step){.step = step,
                                       .one = one,
                                       .written = written,
                                       .taking = taking_of(takings, written),
                                       .poured = poured,
                                       .poured_one = step_is_addition(step) ? step_poured(part->one, one) : NAN,
                                       .grams_per_litre = part_per_litre(part->one, one->mass),
                                       .moles_per_litre = part_per_litre(part->one, step_moles(one)),
                                       .error = step_is_addition(step) ? reading_error(scales, step, poured) : NAN};
        one = one->next;
        written = written->next;
    }
    part->steps = steps;
    part->water_last = water_listed_last(part->one);
}

const struct batch *batch_make(struct arena *arena, const struct formula *formula, double scale, const struct taking *takings,
                               const struct scales *scales)
{
    struct batch *batch = ARENA_NEW(arena, struct batch);
    const struct formula *one = copy_formula(arena, formula, 1, takings);
    *batch = (struct batch){.formula = scale == 1 ? one : copy_formula(arena, one, scale, NULL),
                            .one = one,
                            .written = formula,
                            .scale = scale,
                            .scales = scales,
                            .asked_shelf = takings != NULL,
                            .part_count = formula->part_count};
    struct batch_part *parts = ARENA_ARRAY(arena, struct batch_part, formula->part_count + 1);
    const struct part *part = batch->formula->parts;
    const struct part *part_one = one->parts;
    size_t i = 0;
    for (const struct part *written = formula->parts; written != NULL; written = written->next, i++) {
        parts[i] = (struct batch_part){.part = part, .one = part_one, .written = written};
        measure_part(arena, &parts[i], takings, scales);
        part = part->next;
        part_one = part_one->next;
    }
    batch->parts = parts;
    return batch;
}

double batch_makes(const struct batch *batch)
{
    double makes = 0;
    for (const struct part *part = batch->formula->parts; part != NULL; part = part->next) {
        makes += part->makes;
    }
    return makes;
}
