/* What a part or a working solution holds of each material, solutions within solutions counted through. */
#include "formula/formula.h"

#include <math.h>

enum { DEEPEST = 8 /* solutions within solutions; a formula that needs more goes round in circles */ };

static void add_content(struct arena *arena, struct content **list, const struct step *step, double grams)
{
    struct content **at = list;
    while (*at != NULL && (*at)->material != step->material) {
        at = &(*at)->next;
    }
    if (*at == NULL) {
        *at = ARENA_NEW(arena, struct content);
        (*at)->material = step->material;
        (*at)->form = step->form;
    }
    /* Two forms of one material are added up as the first. */
    double converted = step->form == (*at)->form ? grams : form_equivalent(step->form, (*at)->form, grams);
    (*at)->grams += isnan(converted) ? grams : converted;
}

static void add_part(struct arena *arena, struct content **list, const struct part *part, double scale, int depth)
{
    for (const struct step *step = part->steps; step != NULL && depth < DEEPEST; step = step->next) {
        if (!step_is_addition(step)) {
            continue;
        }
        if (step->how == ADD_SOLUTION && step->solution != NULL && !isnan(step->volume) && step->solution->makes > 0) {
            add_part(arena, list, step->solution, scale * part_share(step->solution, step->volume), depth + 1);
        } else if (step->material != NULL && !isnan(step->mass)) {
            add_content(arena, list, step, step->mass * scale);
        }
    }
}

static const struct step *find_step(const struct part *part, const struct material *material, int depth)
{
    for (const struct step *step = part->steps; step != NULL && depth < DEEPEST; step = step->next) {
        bool addition = step_is_addition(step) || step->kind == STEP_PINCH;
        bool through = step->how == ADD_SOLUTION && step->solution != NULL &&
                       find_step(step->solution, material, depth + 1) != NULL;
        if (addition && (step->material == material || through)) {
            return step;
        }
    }
    return NULL;
}

const struct step *part_find(const struct part *part, const struct material *material)
{
    return find_step(part, material, 0);
}

struct content *part_contents(struct arena *arena, const struct part *part)
{
    struct content *list = NULL;
    add_part(arena, &list, part, 1, 0);
    return list;
}

struct content *use_contents(struct arena *arena, const struct formula *formula, const struct use *use)
{
    struct content *list = NULL;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        double share = use_share(use, formula, part);
        if (share > 0 && part->makes > 0) {
            add_part(arena, &list, part, part_per_litre(part, share), 0);
        }
    }
    double total = use_total_parts(use);
    for (const struct mix_share *share = use->mix; share != NULL && !isnan(total); share = share->next) {
        bool liquid = share->part == NULL && share->material != NULL && !share->material->is_water && share->form != NULL;
        if (liquid && !isnan(share->form->density)) {
            struct step step = {.material = share->material, .form = share->form};
            add_content(arena, &list, &step, share->amount / total * 1000 * share->form->density);
        }
    }
    return list;
}
