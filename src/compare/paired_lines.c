/* The materials of two parts side by side: what is new, what is gone, how the amounts stand to each other. */
#include "compare/comparing.h"

#include "base/number.h"

static bool is_content(const struct ingredient *ingredient)
{
    return ingredient->kind == INGREDIENT_MATERIAL || ingredient->kind == INGREDIENT_SOLUTION;
}

static bool same_thing(const struct ingredient *a, const struct ingredient *b)
{
    return a->kind == b->kind && text_equal(a->key, b->key);
}

/* The first addition of one material stands against the first of it on the other side, the second against the second. */
static void match_contents(struct compared_part *part)
{
    for (struct ingredient *a = part->ingredients_a; a != NULL; a = a->next) {
        for (struct ingredient *b = part->ingredients_b; is_content(a) && a->match == NULL && b != NULL; b = b->next) {
            if (b->match == NULL && same_thing(a, b)) {
                a->match = b;
                b->match = a;
            }
        }
    }
}

/* All that a side has of a thing. */
struct whole {
    double amount;      /* of `form`; NAN when none of it has a known amount */
    size_t count;
};

static struct whole sum_up(struct ingredient *list, const struct ingredient *of, const struct form *form)
{
    struct whole whole = {NAN, 0};
    for (const struct ingredient *item = list; item != NULL; item = item->next) {
        if (same_thing(item, of)) {
            double amount = compare_reduced(item, form, item->amount);
            whole.amount = isnan(whole.amount) ? amount : isnan(amount) ? whole.amount : whole.amount + amount;
            whole.count++;
        }
    }
    return whole;
}

/* ---- how finely an amount was written ---- */

struct written {
    bool plain;        /* one figure and one unit */
    double per_unit;   /* g, or mL, in one of it */
    double half_place; /* half a last place, as a share of the figure */
};

static struct written written_as(const struct ingredient *ingredient)
{
    const struct step *step = ingredient->step;
    struct written written = {0};
    if (step->statement == NULL || step->statement->kind != SAY_ADDITION || step->material != ingredient->material) {
        return written;
    }
    const struct amount_words *amount = ((const struct addition_statement *)step->statement)->amount;
    const struct quantity *quantity = amount == NULL ? NULL : amount->quantity;
    if (quantity == NULL || quantity->more != NULL || !(quantity->value > 0)) {
        return written;
    }
    double places = 1;
    while (places < 1e6 && fabs(round(quantity->value * places) - quantity->value * places) > 1e-6) {
        places *= 10;
    }
    written.plain = true;
    written.per_unit = (isnan(step->volume) || step->how == ADD_STOCK ? step->mass : step->volume) / quantity->value;
    written.half_place = 0.5 / places / quantity->value;
    return written;
}

/* What rounding may account for: 23 grains for 1.5 g.  Nothing between amounts in one unit and form, where any difference
 * was meant. */
static double slack_between(const struct ingredient *a, const struct ingredient *b)
{
    const double most = 0.01;
    struct written first = written_as(a);
    struct written second = written_as(b);
    if (!first.plain || !second.plain) {
        return 0;
    }
    bool one_form = a->form == b->form || (a->form != NULL && b->form != NULL && text_equal(a->form->label, b->form->label));
    if (one_form && fabs(first.per_unit - second.per_unit) <= 1e-6 * first.per_unit) {
        return 0;
    }
    return fmin(most, fmax(first.half_place, second.half_place));
}

/* ---- changes ---- */

static const char *unit_of(const struct compared_part *part, bool by_volume)
{
    return part->basis == BY_LITRE ? (by_volume ? "mL/L" : "g/L") : by_volume ? "mL/kg" : "g/kg";
}

static struct change *note_line(struct comparison *comparison, const struct compared_part *part,
                                const struct compared_line *line, enum change_what what)
{
    struct change *change = compare_note(comparison, what);
    change->part = part->name;
    change->material = line->a != NULL ? line->a->name : line->b->name;
    return change;
}

static bool is_optional(const struct ingredient *ingredient)
{
    return ingredient->step->tails != NULL && ingredient->step->tails->optional;
}

static void note_form(struct comparison *comparison, const struct compared_part *part, struct compared_line *line)
{
    struct text a = line->a->form == NULL ? (struct text){0} : line->a->form->label;
    struct text b = line->b->form == NULL ? (struct text){0} : line->b->form->label;
    line->form_differs = !text_equal(a, b);
    if (line->form_differs) {
        struct change *change = note_line(comparison, part, line, CHANGE_FORM);
        change->from_text = a;
        change->to_text = b;
        change->percent = 0;
    }
    if (!compare_alike(comparison, line->a->step->stock_percent, line->b->step->stock_percent)) {
        struct change *change = note_line(comparison, part, line, CHANGE_STOCK);
        change->from = line->a->step->stock_percent;
        change->to = line->b->step->stock_percent;
        change->unit = "%";
        line->form_differs = true;
    }
}

static void note_range(struct comparison *comparison, const struct compared_part *part, struct compared_line *line)
{
    double a = line->a->step->high;
    double b = line->b->step->high;
    if (compare_alike(comparison, a, b)) {
        return;
    }
    line->differs = true;
    struct change *change = note_line(comparison, part, line, CHANGE_RANGE);
    compare_figures(change, line->from, line->to, unit_of(part, line->by_volume));
    change->percent = NAN;
    change->from_high = a > 1 ? line->from * a : NAN;
    change->to_high = b > 1 ? line->to * b : NAN;
}

static void note_handling(struct comparison *comparison, const struct compared_part *part, struct compared_line *line)
{
    const double degrees = 0.5; /* temperatures are printed in whole degrees */
    if (is_optional(line->a) != is_optional(line->b)) {
        struct change *change = note_line(comparison, part, line, CHANGE_OPTIONAL);
        change->from_text = is_optional(line->a) ? TEXT("optional") : TEXT("needed");
        change->to_text = is_optional(line->b) ? TEXT("optional") : TEXT("needed");
        line->differs = true;
    }
    double a = line->a->step->temperature;
    double b = line->b->step->temperature;
    if (isnan(a) != isnan(b) || fabs(a - b) >= degrees) {
        struct change *change = note_line(comparison, part, line, CHANGE_WATER);
        compare_figures(change, a, b, "°C");
        change->percent = NAN;
    }
}

static struct text amount_words(struct comparison *comparison, const struct compared_part *part,
                                const struct ingredient *ingredient)
{
    if (isnan(ingredient->amount)) {
        return TEXT("as needed");
    }
    return compare_format(comparison, "%s %s", number_print_significant(comparison->arena, ingredient->amount, 4),
                          unit_of(part, ingredient->by_volume));
}

static void note_amount(struct comparison *comparison, const struct compared_part *part, struct compared_line *line)
{
    bool comparable = line->a->by_volume == line->b->by_volume || isnan(line->from) || isnan(line->to);
    double slack = line->portions_a == 1 && line->portions_b == 1 ? slack_between(line->a, line->b) : 0;
    if (comparable && compare_alike_within(comparison, line->from, line->to, slack)) {
        return;
    }
    line->differs = true;
    struct change *change = note_line(comparison, part, line, CHANGE_AMOUNT);
    if (comparable && !isnan(line->from) && !isnan(line->to)) {
        compare_figures(change, line->from, line->to, unit_of(part, line->by_volume));
        return;
    }
    change->from_text = amount_words(comparison, part, line->a);
    change->to_text = amount_words(comparison, part, line->b);
}

static void note_changes(struct comparison *comparison, const struct compared_part *part, struct compared_line *line)
{
    if (line->a == NULL || line->b == NULL) {
        struct change *change = note_line(comparison, part, line, line->a == NULL ? CHANGE_ADDED : CHANGE_REMOVED);
        const struct ingredient *only = line->a == NULL ? line->b : line->a;
        change->from = line->from;
        change->to = line->to;
        change->unit = isnan(line->from) && isnan(line->to) ? NULL : unit_of(part, line->by_volume);
        struct text words = change->unit == NULL ? amount_words(comparison, part, only) : (struct text){0};
        *(line->a == NULL ? &change->to_text : &change->from_text) = words;
        line->differs = true;
        return;
    }
    note_amount(comparison, part, line);
    if (line->portions_a != line->portions_b) {
        struct change *change = note_line(comparison, part, line, CHANGE_PORTIONS);
        change->from = (double)line->portions_a;
        change->to = (double)line->portions_b;
        line->differs = true;
    } else {
        note_range(comparison, part, line);
    }
    note_handling(comparison, part, line);
    note_form(comparison, part, line);
}

/* ---- lines ---- */

static struct compared_line *new_line(struct comparison *comparison, struct ingredient *a, struct ingredient *b)
{
    struct compared_line *line = ARENA_NEW(comparison->arena, struct compared_line);
    const struct material *material = a != NULL ? a->material : b->material;
    line->a = a;
    line->b = b;
    line->form = material == NULL ? NULL : material->usual;
    line->by_volume = a != NULL ? a->by_volume && (b == NULL || b->by_volume || isnan(b->amount)) : b->by_volume;
    line->from = a == NULL ? NAN : compare_reduced(a, line->form, a->amount);
    line->to = b == NULL ? NAN : compare_reduced(b, line->form, b->amount);
    line->portions_a = a != NULL;
    line->portions_b = b != NULL;
    return line;
}

static bool is_first(const struct ingredient *list, const struct ingredient *ingredient)
{
    while (list != ingredient && !same_thing(list, ingredient)) {
        list = list->next;
    }
    return list == ingredient;
}

/* A line for each addition of the first, and those of the second that it lacks; several portions that do not pair off are
 * one line. */
static void add_lines_of_first(struct comparison *comparison, struct compared_part *part)
{
    struct compared_line **end = &part->lines;
    for (struct ingredient *a = part->ingredients_a; a != NULL; a = a->next) {
        if (!is_content(a)) {
            continue;
        }
        const struct form *form = a->material == NULL ? NULL : a->material->usual;
        struct whole first = sum_up(part->ingredients_a, a, form);
        struct whole second = sum_up(part->ingredients_b, a, form);
        bool summed = second.count > 0 && first.count != second.count;
        if (summed && !is_first(part->ingredients_a, a)) {
            continue;
        }
        struct compared_line *line = new_line(comparison, a, a->match);
        if (summed) {
            line->from = first.amount;
            line->to = second.amount;
            line->portions_a = first.count;
            line->portions_b = second.count;
        }
        *end = line;
        end = &line->next;
    }
}

static struct compared_line *line_of(const struct compared_part *part, const struct ingredient *b)
{
    struct compared_line *line = part->lines;
    while (line != NULL && line->b != b) {
        line = line->next;
    }
    return line;
}

static void add_lines_of_second(struct comparison *comparison, struct compared_part *part)
{
    struct compared_line *before = NULL;
    for (struct ingredient *b = part->ingredients_b; b != NULL; b = b->next) {
        if (!is_content(b)) {
            continue;
        }
        struct compared_line *line = line_of(part, b);
        bool counted = line == NULL && sum_up(part->ingredients_a, b, NULL).count > 0; /* in the line of its first portion */
        if (line == NULL && !counted) {
            line = new_line(comparison, NULL, b);
            struct compared_line **at = before == NULL ? &part->lines : &before->next;
            line->next = *at;
            *at = line;
        }
        before = line == NULL ? before : line;
    }
}

void compare_lines(struct comparison *comparison, struct compared_part *part)
{
    match_contents(part);
    add_lines_of_first(comparison, part);
    add_lines_of_second(comparison, part);
    for (struct compared_line *line = part->lines; line != NULL; line = line->next) {
        note_changes(comparison, part, line);
    }
}
