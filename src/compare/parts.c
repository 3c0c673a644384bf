/* Parts: which stands against which, and what each pair is reckoned by. */
#include "compare/comparing.h"

const struct compared_part *compare_pair_of(const struct comparison *comparison, const struct part *part)
{
    const struct compared_part *pair = comparison->parts;
    while (pair != NULL && pair->a != part && pair->b != part) {
        pair = pair->next;
    }
    return pair;
}

static struct text part_name(const struct part *part)
{
    return part == NULL || part->name == NULL ? (struct text){0} : part->name->spelling;
}

static struct compared_part *add_pair(struct comparison *comparison, const struct part *a, const struct part *b)
{
    struct compared_part *pair = ARENA_NEW(comparison->arena, struct compared_part);
    pair->a = a;
    pair->b = b;
    pair->name = part_name(a).length > 0 ? part_name(a) : part_name(b);
    struct compared_part **end = &comparison->parts;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = pair;
    return pair;
}

static const struct part *find_part(struct comparison *comparison, const struct formula *formula, const struct part *wanted)
{
    struct text key = compare_key(comparison, part_name(wanted));
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (text_equal(compare_key(comparison, part_name(part)), key)) {
            return part;
        }
    }
    return NULL;
}

/* Parts in the same number under other names throughout (A, B against 1, 2) are matched in their order. */
static bool renamed(struct comparison *comparison)
{
    if (comparison->a->part_count != comparison->b->part_count) {
        return false;
    }
    for (const struct part *part = comparison->a->parts; part != NULL; part = part->next) {
        if (find_part(comparison, comparison->b, part) != NULL) {
            return false;
        }
    }
    return true;
}

static void match_parts(struct comparison *comparison)
{
    if (renamed(comparison)) {
        const struct part *b = comparison->b->parts;
        for (const struct part *a = comparison->a->parts; a != NULL; a = a->next, b = b->next) {
            add_pair(comparison, a, b);
            if (comparison->a->part_count > 1) { /* the name of a single part says nothing */
                struct change *change = compare_note(comparison, CHANGE_PART);
                change->part = part_name(a);
                change->from_text = part_name(a);
                change->to_text = part_name(b);
            }
        }
        return;
    }
    for (const struct part *a = comparison->a->parts; a != NULL; a = a->next) {
        add_pair(comparison, a, find_part(comparison, comparison->b, a));
    }
    for (const struct part *b = comparison->b->parts; b != NULL; b = b->next) {
        if (find_part(comparison, comparison->a, b) == NULL) {
            add_pair(comparison, NULL, b);
        }
    }
}

/* Grams of everything in a part that has a weight. */
static double weight_of(struct comparison *comparison, const struct part *part)
{
    double grams = 0;
    for (const struct content *content = part_contents(comparison->arena, part); content != NULL; content = content->next) {
        grams += content->grams;
    }
    return grams;
}

static bool makes_volume(const struct part *part)
{
    return part == NULL || (part->makes > 0 && isnan(part->makes_mass));
}

static double scale_of(struct comparison *comparison, const struct compared_part *pair, const struct part *part)
{
    double whole = pair->basis == BY_LITRE ? part_volume(part) : weight_of(comparison, part);
    return whole > 0 ? 1000 / whole : 1;
}

static void compare_pair(struct comparison *comparison, struct compared_part *pair)
{
    bool wet_a = makes_volume(pair->a);
    bool wet_b = makes_volume(pair->b);
    pair->basis = wet_a && wet_b ? BY_LITRE : BY_DRY_WEIGHT;
    if (pair->a != NULL) {
        pair->ingredients_a = compare_ingredients(comparison, comparison->a, pair->a, scale_of(comparison, pair, pair->a));
    }
    if (pair->b != NULL) {
        pair->ingredients_b = compare_ingredients(comparison, comparison->b, pair->b, scale_of(comparison, pair, pair->b));
    }
    if (pair->a == NULL || pair->b == NULL) {
        struct change *change = compare_note(comparison, CHANGE_PART);
        change->part = pair->name;
        change->from_text = pair->a == NULL ? (struct text){0} : pair->name.length > 0 ? pair->name : TEXT("unnamed");
        change->to_text = pair->b == NULL ? (struct text){0} : pair->name.length > 0 ? pair->name : TEXT("unnamed");
    } else if (wet_a != wet_b) {
        struct change *change = compare_note(comparison, CHANGE_MAKES);
        change->part = pair->name;
        change->from_text = wet_a ? TEXT("solution") : TEXT("dry mix");
        change->to_text = wet_b ? TEXT("solution") : TEXT("dry mix");
    }
    compare_lines(comparison, pair);
    if (pair->a != NULL && pair->b != NULL) {
        compare_steps(comparison, pair);
        compare_order(comparison, pair);
        compare_keeping(comparison, pair->name, (struct text){0}, pair->a->keeps, pair->b->keeps);
    }
}

void compare_parts(struct comparison *comparison)
{
    match_parts(comparison);
    for (struct compared_part *pair = comparison->parts; pair != NULL; pair = pair->next) {
        compare_pair(comparison, pair);
    }
}
