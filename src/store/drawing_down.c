/* The shelf less what was mixed since it was counted. */
#include "store/drawing_down.h"

#include <stdlib.h>

/* A batch and what a litre's worth of its formula takes. */
struct mixing {
    const struct batch *batch;
    const struct need *needs; /* of the formula as it is written */
    double scale;
    size_t place;             /* in the order that they were found in: equal days keep it */
};

static int by_day(const void *one, const void *other)
{
    const struct mixing *a = one;
    const struct mixing *b = other;
    if (a->batch->mixed != b->batch->mixed) {
        return a->batch->mixed < b->batch->mixed ? -1 : 1;
    }
    return a->place < b->place ? -1 : a->place > b->place;
}

/* What is drawn from a bottle that the diary has was taken off with that bottle. */
static bool has_a_bottle(void *context, const struct step *step)
{
    struct batches *batches = context;
    const struct formula *formula = step->solution_of;
    if (step->how == ADD_STOCK) {
        const struct stock *stock = formulary_stock(batches->formulary, step);
        formula = stock == NULL ? NULL : batches_stock(batches, stock_title(batches->formulary->arena, stock));
    }
    return formula != NULL && batches_of(batches, formula) != NULL;
}

static bool was_mixed_since(const struct batch *batch, long counted)
{
    return !batch->faulty && batch->mixed != CALENDAR_NO_DAY && batch->mixed > counted && batch->made > 0;
}

/* The batches since that day, by the day. */
static struct mixing *gather(struct store *store, struct batches *batches, long counted, size_t *count)
{
    struct mixing *mixings = ARENA_ARRAY(store->arena, struct mixing, batches->count + 1);
    *count = 0;
    for (const struct batch_list *list = batches->formulas; list != NULL; list = list->hh.next) {
        const struct formula *formula = list->formula;
        if (formula == NULL || formula->faulty || !(formula->parts->makes > 0)) {
            continue;
        }
        const struct need *needs = needs_of_formula_beside(store->formulary, formula, has_a_bottle, batches);
        for (const struct batch *batch = list->first; batch != NULL; batch = batch->next_alike) {
            if (was_mixed_since(batch, counted)) {
                mixings[*count] = (struct mixing){batch, needs, batch->made / formula->parts->makes, *count};
                ++*count;
            }
        }
    }
    qsort(mixings, *count, sizeof *mixings, by_day);
    return mixings;
}

/* Whether all of it was there; that another material was taken instead, the diary does not say. */
static bool take_off(struct store *store, const struct need *need)
{
    struct found found = store_find_itself(store, need);
    bool whole = !(found.short_of > 0);
    if (found.how == FOUND_TOO_LITTLE) { /* then all that there is */
        struct need there = *need;
        there.grams = (need->grams - found.short_of) * (1 - 1e-12);
        found = store_find_itself(store, &there);
    }
    for (const struct drawn *drawn = found.drawn; drawn != NULL; drawn = drawn->next) {
        store_draw(store, drawn->pack, pack_amount(drawn->pack, drawn->grams));
    }
    return whole;
}

struct drawn_down store_draw_down(struct store *store, struct batches *batches, long counted)
{
    struct drawn_down answer = {0};
    size_t count;
    const struct mixing *mixings = gather(store, batches, counted, &count);
    const long today = store->today;
    for (size_t i = 0; i < count; i++) {
        store->today = mixings[i].batch->mixed; /* what was good then was used, whatever it is now */
        for (const struct need *of_formula = mixings[i].needs; of_formula != NULL; of_formula = of_formula->next) {
            struct need need = *of_formula;
            need.grams *= mixings[i].scale;
            answer.short_of += need.grams > 0 && !take_off(store, &need);
        }
    }
    store->today = today;
    answer.batches = count;
    return answer;
}
