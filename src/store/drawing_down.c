/* The shelf less what was mixed since it was counted. */
#include "store/drawing_down.h"

#include "base/number.h"
#include "store/reading.h"

#include <math.h>
#include <stdlib.h>

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

/* A batch and what a litre's worth of its formula takes. */
struct withdrawal {
    const struct mixing *batch;
    const struct need *needs; /* of the formula, or of the part that was mixed, as it is written */
    double scale;
    size_t place;             /* in the order that they were found in: equal days keep it */
};

/* The packs of a material in the order in which they are used up; those that are empty for good are taken out. */
struct row {
    const void *key;
    struct pack **packs;
    size_t count;
    bool had_some;            /* on the day of the count */
    struct overdrawn *overdrawn;
    UT_hash_handle hh;
};

struct drawing {
    struct store *store;
    struct batches *batches;
    struct row *rows;
    struct drawn_down answer;
    struct overdrawn **end;
};

/* ---- the batches ---- */

static int by_day(const void *one, const void *other)
{
    const struct withdrawal *a = one;
    const struct withdrawal *b = other;
    if (a->batch->mixed != b->batch->mixed) {
        return a->batch->mixed < b->batch->mixed ? -1 : 1;
    }
    return a->place < b->place ? -1 : a->place > b->place;
}

/* What a batch may draw on: the bottles that stood ready on its day. */
struct ready {
    struct batches *batches;
    long day;
    bool asked;               /* the formula draws on stocks or solutions at all */
};

/* What is drawn from a bottle that the diary has was taken off with that bottle. */
static bool has_a_bottle(void *context, const struct step *step)
{
    struct ready *ready = context;
    struct batches *batches = ready->batches;
    const struct formula *formula = step->solution_of;
    ready->asked = true;
    if (step->how == ADD_STOCK) {
        const struct stock *stock = formulary_stock(batches->formulary, step);
        formula = stock == NULL ? NULL : batches_stock(batches, stock_title(batches->formulary->arena, stock));
    }
    const struct batch_list *list = formula == NULL ? NULL : batches_of(batches, formula);
    const struct mixing *bottle = list == NULL ? NULL : list->first;
    while (bottle != NULL && bottle->mixed > ready->day) { /* of one without a day nobody knows */
        bottle = bottle->next_alike;
    }
    return bottle != NULL;
}

static bool was_mixed_between(const struct mixing *batch, long after, long upto)
{
    return !batch->faulty && batch->mixed != CALENDAR_NO_DAY && batch->mixed > after &&
           (upto == CALENDAR_NO_DAY || batch->mixed <= upto) && batch->made > 0;
}

/* All batches that may have been mixed since, be they sound or not. */
static size_t count_since(const struct batches *batches, long after, long upto)
{
    size_t count = 0;
    for (const struct mixing *batch = batches->first; batch != NULL; batch = batch->next) {
        bool since = batch->mixed > after && (upto == CALENDAR_NO_DAY || batch->mixed <= upto);
        count += batch->mixed == CALENDAR_NO_DAY || since;
    }
    return count;
}

/* What a batch of a formula takes.  `whole` is what all batches of it take that draw on no bottles, once that is known. */
static const struct need *needs_of_batch(const struct drawing *drawing, const struct mixing *batch, const struct need **whole)
{
    if (batch->part == NULL && *whole != NULL) {
        return *whole;
    }
    struct ready ready = {.batches = drawing->batches, .day = batch->mixed};
    const struct need *needs =
        needs_of_formula_beside(drawing->store->formulary, batch->formula, batch->part, has_a_bottle, &ready);
    *whole = batch->part == NULL && !ready.asked ? needs : *whole;
    return needs;
}

/* The batches since that day, by the day. */
static struct withdrawal *gather(struct drawing *drawing, long counted, size_t *count)
{
    struct store *store = drawing->store;
    struct batches *batches = drawing->batches;
    struct withdrawal *withdrawals = ARENA_ARRAY(store->arena, struct withdrawal, batches->count + 1);
    *count = 0;
    for (const struct batch_list *list = batches->formulas; list != NULL; list = list->hh.next) {
        const struct formula *formula = list->formula;
        if (formula == NULL || formula->faulty) {
            continue;
        }
        const struct need *whole = NULL;
        for (const struct mixing *batch = list->first; batch != NULL; batch = batch->next_alike) {
            if (was_mixed_between(batch, counted, store->today) && mixing_scale(batch) > 0) {
                withdrawals[*count] = (struct withdrawal){batch, needs_of_batch(drawing, batch, &whole), mixing_scale(batch), *count};
                ++*count;
            }
        }
    }
    qsort(withdrawals, *count, sizeof *withdrawals, by_day);
    return withdrawals;
}

/* ---- the packs ---- */

static int by_use(const void *one, const void *other)
{
    const struct pack *a = *(struct pack *const *)one;
    const struct pack *b = *(struct pack *const *)other;
    return pack_goes_before(a, b) ? -1 : pack_goes_before(b, a);
}

static void make_rows(struct drawing *drawing)
{
    struct arena *table_arena = drawing->store->arena;
    for (struct supply *supply = drawing->store->supplies; supply != NULL; supply = supply->hh.next) {
        size_t most = 0;
        for (const struct pack *pack = supply->first; pack != NULL; pack = pack->next_of_material) {
            most++;
        }
        struct row *row = ARENA_NEW(table_arena, struct row);
        row->key = supply->key;
        row->packs = ARENA_ARRAY(table_arena, struct pack *, most);
        for (struct pack *pack = supply->first; pack != NULL; pack = pack->next_of_material) {
            if (!pack->sold) {
                row->packs[row->count++] = pack;
                row->had_some = row->had_some || (pack->counted != CALENDAR_NO_DAY && pack->left > 0);
            }
        }
        qsort(row->packs, row->count, sizeof *row->packs, by_use);
        HASH_ADD_PTR(drawing->rows, key, row);
    }
}

/* A day's look at a row: the packs that are good on it, or those that were past their day. */
struct look {
    struct row *row;
    const struct mixing *batch;
    bool old;
};

/* Whether what came from it by then is in its figure. */
static bool is_reckoned(const struct pack *pack, long day)
{
    return pack->counted == CALENDAR_NO_DAY || pack->counted >= day;
}

/* Grams of `as` that a pack had that day: nobody knows how many, of one that was looked at later. */
static double there(const struct look *look, const struct pack *pack, const struct form *as)
{
    const long day = look->batch->mixed;
    bool opened = pack->opened == CALENDAR_NO_DAY || pack->opened <= day;
    bool old = pack->best_before != CALENDAR_NO_DAY && pack->best_before < day;
    if (!opened || old != look->old) {
        return 0;
    }
    if (is_reckoned(pack, day)) {
        return INFINITY;
    }
    double grams = pack_grams(pack, pack->left);
    grams = pack->form == as ? grams : form_equivalent(pack->form, as, grams);
    return isnan(grams) ? 0 : grams;
}

/* The same of all packs of a form; of any form when that is NULL. */
static double there_in_form(const struct look *look, const struct form *form, const struct form *as)
{
    double sum = 0;
    for (size_t i = 0; i < look->row->count; i++) {
        const struct pack *pack = look->row->packs[i];
        sum += form == NULL || pack->form == form ? there(look, pack, as) : 0;
    }
    return sum;
}

/* Takes up to `wanted` grams of `as` from the packs of a form; what is still wanted. */
static double take_form(const struct look *look, const struct form *form, const struct form *as, double wanted)
{
    for (size_t i = 0; i < look->row->count && wanted > 0; i++) {
        struct pack *pack = look->row->packs[i];
        double grams = pack->form == form ? there(look, pack, as) : 0;
        if (!(grams > 0)) {
            continue;
        }
        double taken = fmin(grams, wanted);
        wanted = wanted - taken > 1e-9 * taken ? wanted - taken : 0; /* the rounding of doubles is no powder */
        if (is_reckoned(pack, look->batch->mixed)) {
            continue;
        }
        double left = pack->left * (1 - taken / grams);
        pack->left = left > 1e-9 * pack->size ? left : 0;
        pack->batches += pack->last_batch != look->batch;
        pack->last_batch = look->batch;
    }
    return wanted;
}

/* The form that a need is met with, by the rules of store/on_shelf.h; NULL when none suffices. */
static const struct form *sufficient_form(const struct look *look, const struct need *need)
{
    double enough = need->grams * (1 - 1e-9);
    if (there_in_form(look, need->form, need->form) >= enough) {
        return need->form;
    }
    const struct form *found = NULL;
    double least = INFINITY;
    for (size_t i = 0; i < need->material->form_count; i++) {
        const struct form *form = &need->material->forms[i];
        double all = form == need->form ? 0 : there_in_form(look, form, need->form);
        if (all >= enough && (found == NULL || all < least)) {
            least = all;
            found = form;
        }
    }
    return found;
}

static double take(const struct look *look, const struct need *need)
{
    const struct form *form = sufficient_form(look, need);
    double wanted = take_form(look, form == NULL ? need->form : form, need->form, need->grams);
    for (size_t i = 0; i < need->material->form_count && wanted > 0; i++) {
        const struct form *other = &need->material->forms[i];
        wanted = other == need->form ? wanted : take_form(look, other, need->form, wanted);
    }
    return wanted;
}

/* An empty pack stays empty: the batches come by the day. */
static void drop_empty(struct row *row, long day)
{
    size_t kept = 0;
    for (size_t i = 0; i < row->count; i++) {
        bool reckoned_later = row->packs[i]->counted != CALENDAR_NO_DAY && row->packs[i]->counted >= day;
        if (row->packs[i]->left > 0 || reckoned_later) {
            row->packs[kept++] = row->packs[i];
        }
    }
    row->count = kept;
}

/* ---- what was not there ---- */

static void note_lack(struct drawing *drawing, struct row *row, const struct need *need, const struct mixing *batch, double grams)
{
    if (row->overdrawn == NULL) {
        struct overdrawn *overdrawn = ARENA_NEW(drawing->store->arena, struct overdrawn);
        *overdrawn = (struct overdrawn){.material = need->material, .form = need->form, .first = batch};
        row->overdrawn = *drawing->end = overdrawn;
        drawing->end = &overdrawn->next;
    }
    const struct form *as = row->overdrawn->form;
    double more = need->form == as ? grams : form_equivalent(need->form, as, grams);
    row->overdrawn->grams += isnan(more) ? 0 : more;
    row->overdrawn->batches++;
}

static void draw(struct drawing *drawing, const struct mixing *batch, const struct need *need)
{
    struct row *row = NULL;
    const void *key = need->material->entry;
    HASH_FIND_PTR(drawing->rows, &key, row);
    if (row == NULL || !row->had_some || !(need->grams > 0)) {
        return; /* of what stands nowhere no figure can be wrong */
    }
    drop_empty(row, batch->mixed);
    struct need rest = *need;
    for (int old = 0; old < 2 && rest.grams > 0; old++) {
        struct look look = {row, batch, old == 1};
        rest.grams = take(&look, &rest);
    }
    if (rest.grams > 0) {
        note_lack(drawing, row, need, batch, rest.grams);
    }
}

static void say_overdrawn(struct drawing *drawing)
{
    struct store *store = drawing->store;
    struct formula stand_in = {0}; /* what is said is said of a formula; here it is the batch */
    struct checker checker = store_checker(store->formulary, &stand_in);
    for (const struct overdrawn *overdrawn = drawing->answer.overdrawn; overdrawn != NULL; overdrawn = overdrawn->next) {
        stand_in.declaration = overdrawn->first->declaration;
        struct diagnostic *diagnostic =
            check_say(&checker, DIAG_NOT_ON_SHELF, overdrawn->first->declaration->title_span,
                      overdrawn->batches == 1 ? "of %.*s this batch took %s g more than the shelf can have had by its count"
                                              : "of %.*s this batch and later ones took %s g more than the shelf can have had by its count",
                      TEXT_ARGUMENTS(overdrawn->material->name), number_print_significant(store->arena, overdrawn->grams, 3));
        const struct pack *pack = store_packs(store, overdrawn->material);
        if (pack != NULL) {
            diagnostics_relate(store->diagnostics, diagnostic, pack->statement->base.span, "the shelf has it here");
        }
        diagnostics_help(store->diagnostics, diagnostic,
                         "write down packs that came since, and leave those that were used up in their place; or count the shelf anew");
    }
}

/* ---- all of it ---- */

/* The earliest day on which a pack was counted; CALENDAR_NO_DAY when none was. */
static long first_count(struct store *store, long counted)
{
    long first = CALENDAR_NO_DAY;
    for (struct shelf *shelf = store->shelves; shelf != NULL && counted != CALENDAR_NO_DAY; shelf = shelf->next) {
        shelf->counted = counted;
    }
    for (struct pack *pack = store->packs; pack != NULL; pack = pack->next) {
        if (counted != CALENDAR_NO_DAY && pack->statement->counted.length == 0) {
            pack->counted = counted;
        }
        if (!pack->sold && pack->counted != CALENDAR_NO_DAY && (first == CALENDAR_NO_DAY || pack->counted < first)) {
            first = pack->counted;
        }
    }
    return first;
}

struct drawn_down store_draw_down(struct store *store, struct batches *batches, long counted)
{
    struct drawing drawing = {.store = store, .batches = batches};
    drawing.end = &drawing.answer.overdrawn;
    long first = first_count(store, counted);
    if (first == CALENDAR_NO_DAY) {
        return drawing.answer;
    }
    drawing.answer.counted = true;
    make_rows(&drawing);
    size_t count;
    const struct withdrawal *withdrawals = gather(&drawing, first, &count);
    drawing.answer.left_out = count_since(batches, first, store->today) - count;
    for (size_t i = 0; i < count; i++) {
        const struct mixing *batch = withdrawals[i].batch;
        for (const struct need *of_formula = withdrawals[i].needs; of_formula != NULL; of_formula = of_formula->next) {
            struct need need = *of_formula;
            need.grams *= withdrawals[i].scale;
            draw(&drawing, batch, &need);
        }
        for (struct shelf *shelf = store->shelves; shelf != NULL; shelf = shelf->next) {
            shelf->batches += shelf->counted != CALENDAR_NO_DAY && shelf->counted < batch->mixed;
        }
    }
    say_overdrawn(&drawing);
    return drawing.answer;
}
