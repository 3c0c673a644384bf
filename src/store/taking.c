/* Formulas rewritten to what is on the shelf. */
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

static void take_form(struct step *step, const struct pack *pack, double grams)
{
    step->material = pack->material;
    step->form = pack->form;
    step->mass = grams;
    step->how = pack->form->density > 0 ? ADD_BY_VOLUME : ADD_BY_MASS;
    step->volume = pack->form->density > 0 ? grams / pack->form->density : NAN;
}

static void take_step(const struct store *store, const struct found *found, struct step *step, double scale)
{
    struct taking *taking = ARENA_NEW(store->arena, struct taking);
    *taking = (struct taking){.how = found->how,
                              .material = step->material,
                              .form = step->form,
                              .mass = step->mass,
                              .volume = step->volume,
                              .purity = 1,
                              .short_of = found_is_there(found) ? 0 : found->short_of,
                              .scale = scale};
    step->taking = taking;
    if (!found_is_there(found) || found->drawn == NULL) {
        return;
    }
    taking->drawn = found->drawn;
    if (!is_of_one_kind(found->drawn)) {
        taking->several = found->drawn;
        return;
    }
    double drawn = 0;
    double does_for = 0;
    for (const struct drawn *at = found->drawn; at != NULL; at = at->next) {
        drawn += at->grams;
        does_for += at->does_for;
    }
    const struct pack *pack = found->drawn->pack;
    taking->purity = pack->purity;
    if (does_for > 0 && (pack->form != step->form || pack->purity < 1)) {
        take_form(step, pack, step->mass * (drawn / does_for) / pack->purity);
    }
}

static bool is_taken(const struct step *step, const struct need *need)
{
    const struct form *form = step->form != NULL || step->material == NULL ? step->form : step->material->usual;
    return step_is_addition(step) && step->taking == NULL && (step->how == ADD_BY_MASS || step->how == ADD_BY_VOLUME) &&
           step->material != NULL && step->material->entry == need->material->entry && form == need->form && step->mass > 0;
}

void store_take(const struct store *store, struct formula *formula, double scale)
{
    const struct need *needs = store_is_empty(store) ? NULL : needs_of_formula(store->formulary, formula, scale);
    for (const struct need *need = needs; need != NULL; need = need->next) {
        struct found found = store_find(store, need);
        for (struct part *part = formula->parts; part != NULL; part = part->next) {
            for (struct step *step = part->steps; step != NULL; step = step->next) {
                if (is_taken(step, need)) {
                    take_step(store, &found, step, scale);
                }
            }
        }
    }
}
