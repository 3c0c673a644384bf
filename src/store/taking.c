/* Batches of what is on the shelf. */
#include "store/taking.h"

#include <math.h>

/* Whether all that is drawn is one form of one purity. */
static bool is_of_one_kind(const struct drawn *drawn)
{
    for (const struct drawn *at = drawn->next; at != NULL; at = at->next) {
        if (at->pack->form != drawn->pack->form || fabs(at->pack->purity - drawn->pack->purity) > 1e-9) {
            return false;
        }
    }
    return true;
}

static struct taking *take_step(const struct store *store, const struct found *found, const struct step *step)
{
    struct taking *taking = ARENA_NEW(store->arena, struct taking);
    *taking = (struct taking){.step = step,
                              .material = step->material,
                              .form = step->form,
                              .mass = step->mass,
                              .purity = 1,
                              .too_little = found->how == FOUND_TOO_LITTLE,
                              .short_of = found_is_there(found) ? 0 : found->short_of};
    if (!found_is_there(found) || found->drawn == NULL) {
        return taking;
    }
    taking->drawn = found->drawn;
    taking->several = !is_of_one_kind(found->drawn);
    if (taking->several) {
        return taking;
    }
    double drawn = 0;
    double does_for = 0;
    for (const struct drawn *at = found->drawn; at != NULL; at = at->next) {
        drawn += at->grams;
        does_for += at->does_for;
    }
    const struct pack *pack = found->drawn->pack;
    if (does_for > 0) {
        taking->purity = pack->purity;
        taking->material = pack->material;
        taking->form = pack->form;
        taking->mass = step->mass * (drawn / does_for) / pack->purity;
    }
    return taking;
}

static bool is_taken(const struct step *step, const struct need *need)
{
    const struct form *form = step->form != NULL || step->material == NULL ? step->form : step->material->usual;
    return step_is_addition(step) && (step->how == ADD_BY_MASS || step->how == ADD_BY_VOLUME) && step->material != NULL &&
           step->material->entry == need->material->entry && form == need->form && step->mass > 0;
}

const struct batch *store_batch(const struct store *store, const struct formula *formula, double scale, const struct scales *scales)
{
    struct taking *takings = NULL;
    const struct batch *batch = batch_make(store->arena, formula, scale, NULL, scales);
    const struct need *needs = store_is_empty(store) ? NULL : needs_of_formula(store->formulary, batch->formula);
    for (const struct need *need = needs; need != NULL; need = need->next) {
        struct found found = store_find(store, need);
        for (const struct part *part = formula->parts; part != NULL; part = part->next) {
            for (const struct step *step = part->steps; step != NULL; step = step->next) {
                if (is_taken(step, need)) {
                    struct taking *taking = take_step(store, &found, step);
                    taking->next = takings;
                    takings = taking;
                }
            }
        }
    }
    return takings == NULL ? batch : batch_make(store->arena, formula, scale, takings, scales);
}
