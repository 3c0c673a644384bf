/* How two parts are mixed: water and its warmth, working steps, the order of it all. */
#include "compare/comparing.h"

static const double degrees_alike = 0.5; /* °C: temperatures are printed in whole degrees */

/* ---- water ---- */

static size_t count_kind(const struct ingredient *list, enum ingredient_kind kind, struct text key)
{
    size_t count = 0;
    for (const struct ingredient *item = list; item != NULL; item = item->next) {
        count += item->kind == kind && text_equal(item->key, key);
    }
    return count;
}

static struct ingredient *next_unmatched(struct ingredient *list, const struct ingredient *like)
{
    while (list != NULL && (list->match != NULL || list->kind != like->kind || !text_equal(list->key, like->key))) {
        list = list->next;
    }
    return list;
}

static void pair_off(struct ingredient *a, struct ingredient *b)
{
    a->match = b;
    b->match = a;
}

static const struct ingredient *first_water(const struct ingredient *list)
{
    while (list != NULL && list->kind != INGREDIENT_WATER) {
        list = list->next;
    }
    return list;
}

static void compare_warmth(struct comparison *comparison, const struct compared_part *part, const struct ingredient *a,
                           const struct ingredient *b)
{
    double from = a->step->temperature;
    double to = b->step->temperature;
    if (isnan(from) != isnan(to) || fabs(from - to) >= degrees_alike) {
        struct change *change = compare_note(comparison, CHANGE_WATER);
        change->part = part->name;
        change->material = a->name;
        change->from = from;
        change->to = to;
        change->unit = "°C";
    }
}

/* The water to begin with is only measured roughly: a twentieth more or less is not worth a word. */
static void compare_start(struct comparison *comparison, const struct compared_part *part, const struct ingredient *a,
                          const struct ingredient *b)
{
    if (!compare_alike_within(comparison, a->amount, b->amount, 0.05)) {
        struct change *change = compare_note(comparison, CHANGE_START_WATER);
        change->part = part->name;
        change->material = a->name;
        compare_figures(change, a->amount, b->amount, "mL/L");
    }
}

static struct text solvent_of(const struct ingredient *list)
{
    struct text name = {0};
    for (; list != NULL; list = list->next) {
        bool makes_up = list->kind == INGREDIENT_WATER && (name.length == 0 || list->step->how == ADD_TO_MAKE);
        name = makes_up ? list->name : name;
    }
    return name;
}

/* Old pages print all the water in one line, new ones some to begin with and the rest to make: where the number of lines
 * differs, only the warmth of the first is compared. */
static void compare_water(struct comparison *comparison, struct compared_part *part)
{
    struct ingredient *a_list = part->ingredients_a;
    struct ingredient *b_list = part->ingredients_b;
    struct text from = solvent_of(a_list);
    struct text to = solvent_of(b_list);
    if (!text_equal(from, to) && from.length > 0 && to.length > 0) {
        struct change *change = compare_note(comparison, CHANGE_SOLVENT);
        change->part = part->name;
        change->from_text = from;
        change->to_text = to;
    }
    size_t plain = count_kind(a_list, INGREDIENT_WATER, TEXT("water"));
    size_t to_make = count_kind(a_list, INGREDIENT_WATER, TEXT("to make"));
    bool alike = plain == count_kind(b_list, INGREDIENT_WATER, TEXT("water")) &&
                 to_make == count_kind(b_list, INGREDIENT_WATER, TEXT("to make"));
    if (!alike) {
        const struct ingredient *a = first_water(a_list);
        const struct ingredient *b = first_water(b_list);
        if (a != NULL && b != NULL) {
            compare_warmth(comparison, part, a, b);
        }
        return;
    }
    for (struct ingredient *a = a_list; a != NULL; a = a->next) {
        struct ingredient *b = a->kind == INGREDIENT_WATER ? next_unmatched(b_list, a) : NULL;
        if (b != NULL) {
            pair_off(a, b);
            compare_warmth(comparison, part, a, b);
            if (to_make > 0 && a->step->how == ADD_WATER) {
                compare_start(comparison, part, a, b);
            }
        }
    }
}

/* ---- working steps ---- */

static bool step_alike(const struct comparison *comparison, const struct ingredient *a, const struct ingredient *b)
{
    double from = a->step->temperature;
    double to = b->step->temperature;
    bool warmth = isnan(from) == isnan(to) && !(fabs(from - to) >= degrees_alike);
    return warmth && compare_alike(comparison, a->step->duration, b->step->duration);
}

static void note_step(struct comparison *comparison, const struct compared_part *part, const struct ingredient *a,
                      const struct ingredient *b)
{
    struct change *change = compare_note(comparison, CHANGE_STEP);
    change->part = part->name;
    change->from_text = a == NULL ? (struct text){0} : a->name;
    change->to_text = b == NULL ? (struct text){0} : b->name;
}

static void match_steps(const struct comparison *comparison, struct compared_part *part, bool exactly)
{
    for (struct ingredient *a = part->ingredients_a; a != NULL; a = a->next) {
        struct ingredient *b = part->ingredients_b;
        while (a->kind == INGREDIENT_STEP && a->match == NULL && (b = next_unmatched(b, a)) != NULL) {
            if (!exactly || step_alike(comparison, a, b)) {
                pair_off(a, b);
            } else {
                b = b->next;
            }
        }
    }
}

void compare_steps(struct comparison *comparison, struct compared_part *part)
{
    compare_water(comparison, part);
    match_steps(comparison, part, true);
    match_steps(comparison, part, false);
    for (const struct ingredient *a = part->ingredients_a; a != NULL; a = a->next) {
        if (a->kind == INGREDIENT_STEP && (a->match == NULL || !step_alike(comparison, a, a->match))) {
            note_step(comparison, part, a, a->match);
        }
    }
    for (const struct ingredient *b = part->ingredients_b; b != NULL; b = b->next) {
        if (b->kind == INGREDIENT_STEP && b->match == NULL) {
            note_step(comparison, part, NULL, b);
        }
    }
}

/* ---- order ---- */

static size_t matched(struct ingredient *list, struct ingredient **into)
{
    size_t count = 0;
    for (struct ingredient *item = list; item != NULL; item = item->next) {
        if (item->match != NULL && into != NULL) {
            into[count] = item;
        }
        count += item->match != NULL;
    }
    return count;
}

/* Marks what has to be moved to get from one order to the other: all but the longest run that both have in common (the
 * longest increasing subsequence, by patience sorting: a pile for each length, found by halving). */
static void mark_moved(struct arena *arena, struct ingredient **a, const size_t *places, size_t count)
{
    size_t *piles = ARENA_ARRAY(arena, size_t, count + 1);   /* item that ends the best run of length i + 1 */
    size_t *before = ARENA_ARRAY(arena, size_t, count + 1);  /* item before it in its run, + 1; 0 for none */
    size_t longest = 0;
    for (size_t i = 0; i < count; i++) {
        size_t low = 0;
        size_t high = longest;
        while (low < high) {
            size_t middle = (low + high) / 2;
            if (places[piles[middle]] < places[i]) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        piles[low] = i;
        before[i] = low == 0 ? 0 : piles[low - 1] + 1;
        longest = low == longest ? longest + 1 : longest;
        a[i]->moved = a[i]->match->moved = true;
    }
    for (size_t at = longest == 0 ? 0 : piles[longest - 1] + 1; at > 0; at = before[at - 1]) {
        a[at - 1]->moved = a[at - 1]->match->moved = false;
    }
}

/* "after the water", "at the beginning" */
static struct text where(struct comparison *comparison, const struct ingredient *list, const struct ingredient *ingredient)
{
    if (list == ingredient) {
        return TEXT("at the beginning");
    }
    while (list->next != ingredient) {
        list = list->next;
    }
    return compare_format(comparison, list->kind == INGREDIENT_STEP ? "after \"%.*s\"" : "after %.*s", TEXT_ARGUMENTS(list->name));
}

void compare_order(struct comparison *comparison, struct compared_part *part)
{
    size_t count = matched(part->ingredients_a, NULL);
    struct ingredient **a = ARENA_ARRAY(comparison->arena, struct ingredient *, count + 1);
    size_t *places = ARENA_ARRAY(comparison->arena, size_t, count + 1);
    matched(part->ingredients_a, a);
    for (size_t i = 0; i < count; i++) {
        places[i] = a[i]->match->place;
    }
    mark_moved(comparison->arena, a, places, count);
    for (size_t i = 0; i < count; i++) {
        if (a[i]->moved) {
            struct change *change = compare_note(comparison, CHANGE_ORDER);
            change->part = part->name;
            change->material = a[i]->name;
            change->from = (double)a[i]->place;
            change->to = (double)a[i]->match->place;
            change->from_text = where(comparison, part->ingredients_a, a[i]);
            change->to_text = where(comparison, part->ingredients_b, a[i]->match);
        }
    }
}
