/* The shelf less what was mixed since it was counted. */
#include "store/drawing_down.h"

/* Formulas' worth of it that was mixed after that day; *count gets how many batches. */
static double mixed_since(const struct batch_list *list, long counted, size_t *count)
{
    double makes = list->formula->parts->makes;
    double scale = 0;
    for (const struct batch *batch = list->first; batch != NULL; batch = batch->next_alike) {
        bool since = !batch->faulty && batch->mixed != CALENDAR_NO_DAY && batch->mixed > counted;
        if (since && batch->made > 0 && makes > 0) {
            scale += batch->made / makes;
            ++*count;
        }
    }
    return scale;
}

static void take_off(struct store *store, const struct drawn *drawn)
{
    for (struct pack *pack = store->packs; pack != NULL; pack = pack->next) {
        if (pack == drawn->pack) {
            double left = pack->left - pack_amount(pack, drawn->grams);
            pack->left = left > 1e-9 * pack->size ? left : 0; /* the rounding of doubles is no powder */
        }
    }
}

size_t store_draw_down(struct store *store, const struct batches *batches, long counted, size_t *short_of)
{
    size_t count = 0;
    *short_of = 0;
    for (const struct batch_list *list = batches->formulas; list != NULL; list = list->hh.next) {
        double scale = list->formula == NULL || list->formula->faulty ? 0 : mixed_since(list, counted, &count);
        const struct need *needs = scale > 0 ? needs_of_formula(store->formulary, list->formula, scale) : NULL;
        for (const struct need *need = needs; need != NULL; need = need->next) {
            struct found found = store_find(store, need);
            bool itself = found.how != FOUND_OTHER_MATERIAL;
            *short_of += !itself || found.short_of > 0;
            if (found.how == FOUND_TOO_LITTLE) { /* then all that there is */
                struct need there = *need;
                there.grams = (need->grams - found.short_of) * (1 - 1e-12);
                found = store_find(store, &there);
            }
            for (const struct drawn *drawn = itself ? found.drawn : NULL; drawn != NULL; drawn = drawn->next) {
                take_off(store, drawn);
            }
        }
    }
    return count;
}
