/* The shelf less what was mixed since it was counted. */
#include "store/drawing_down.h"

#include "base/number.h"
#include "store/ledger.h"
#include "store/reading.h"

#include <math.h>
#include <stdlib.h>

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

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

static bool was_mixed_between(const struct mixing *batch, long after, long upto)
{
    return batch->mixed > after && (upto == CALENDAR_NO_DAY || batch->mixed <= upto);
}

/* All batches that may have been mixed since, be they sound or not. */
static size_t count_since(const struct batches *batches, long after, long upto)
{
    size_t count = 0;
    for (const struct mixing *batch = batches->first; batch != NULL; batch = batch->next) {
        count += batch->mixed == CALENDAR_NO_DAY || was_mixed_between(batch, after, upto);
    }
    return count;
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
    bool calculated;          /* nobody wrote down how much */
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

static void set_left(struct pack *pack, double left, const struct mixing *batch, bool calculated)
{
    pack->left = left > 1e-9 * pack->size ? left : 0;
    pack->batches += pack->last_batch != batch;
    pack->calculated += calculated && pack->last_calculated != batch;
    pack->last_calculated = calculated ? batch : pack->last_calculated;
    pack->last_batch = batch;
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
        set_left(pack, left, look->batch, look->calculated);
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

static struct row *find_row(const struct drawing *drawing, const struct material *material)
{
    struct row *row = NULL;
    const void *key = material->entry;
    HASH_FIND_PTR(drawing->rows, &key, row);
    return row;
}

static void draw(struct drawing *drawing, const struct mixing *batch, const struct need *need, bool calculated)
{
    struct row *row = find_row(drawing, need->material);
    if (row == NULL || !row->had_some || !(need->grams > 0)) {
        return; /* of what stands nowhere no figure can be wrong */
    }
    drop_empty(row, batch->mixed);
    struct need rest = *need;
    for (int old = 0; old < 2 && rest.grams > 0; old++) {
        struct look look = {row, batch, old == 1, calculated};
        rest.grams = take(&look, &rest);
    }
    if (rest.grams > 0) {
        note_lack(drawing, row, need, batch, rest.grams);
    }
}

/* Grams of the pure form in what was taken; NAN when they cannot be told. */
static double took_grams(const struct took *took)
{
    return took->by_volume ? took->amount * took->form->density : took->amount;
}

/* What is written down comes off the packs of its lot, whatever they are thought to hold; without a lot, off those that would be taken. */
static void draw_written(struct drawing *drawing, const struct mixing *batch, const struct took *took)
{
    struct row *row = took->material == NULL || took->bottle != NULL ? NULL : find_row(drawing, took->material);
    struct need need = {.material = took->material, .form = took->form, .grams = row == NULL ? NAN : took_grams(took)};
    if (row == NULL || isnan(need.grams)) {
        return;
    }
    if (took->lot.length == 0) {
        draw(drawing, batch, &need, false);
        return;
    }
    double share = 1; /* of the amount, that is still to be found */
    bool met = false;
    struct pack *pack = (struct pack *)store_packs(drawing->store, took->material);
    for (; pack != NULL && share > 1e-9; pack = pack->next_of_material) {
        if (pack->sold || !text_equal(pack->lot, took->lot)) {
            continue;
        }
        met = true;
        if (is_reckoned(pack, batch->mixed)) {
            return; /* it is in the figure of the pack */
        }
        double amount = pack->by_volume == took->by_volume ? took->amount
                        : pack->by_volume                  ? took->amount / pack->form->density
                                                           : took->amount * pack->form->density;
        double taken = fmin(amount * share, pack->left);
        set_left(pack, pack->left - taken, batch, false);
        share -= taken / amount;
    }
    need.grams *= share;
    if (met && share > 1e-9) {
        note_lack(drawing, row, &need, batch, need.grams);
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
    size_t count = 0;
    for (size_t i = 0; i < batches->sound_count; i++) {
        const struct mixing *batch = batches->by_day[i];
        if (!was_mixed_between(batch, first, store->today)) {
            continue;
        }
        count++;
        for (const struct need *of_formula = batch->needs; of_formula != NULL; of_formula = of_formula->next) {
            struct need need = *of_formula;
            need.grams *= mixing_scale(batch);
            draw(&drawing, batch, &need, true);
        }
        for (const struct took *took = batch->tooks; took != NULL; took = took->next) {
            draw_written(&drawing, batch, took);
        }
        for (struct shelf *shelf = store->shelves; shelf != NULL; shelf = shelf->next) {
            shelf->batches += shelf->counted != CALENDAR_NO_DAY && shelf->counted < batch->mixed;
        }
    }
    drawing.answer.left_out = count_since(batches, first, store->today) - count;
    say_overdrawn(&drawing);
    return drawing.answer;
}
