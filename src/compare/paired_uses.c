/* Uses and keeping: dilution, temperature, time, agitation, capacity. */
#include "compare/comparing.h"

#include "base/number.h"
#include "base/utf8.h"

static const double degrees_alike = 0.5; /* °C: temperatures are printed in whole degrees */

static struct change *note_use(struct comparison *comparison, struct compared_use *pair, enum change_what what)
{
    struct change *change = compare_note(comparison, what);
    change->use = pair->a != NULL ? pair->a->name : pair->b->name;
    pair->differs = true;
    return change;
}

/* ---- mixtures ---- */

static struct text share_words(struct arena *arena, const struct mix_share *share)
{
    struct text name = share->part != NULL && share->part->name != NULL ? share->part->name->spelling
                       : share->material != NULL                       ? share->material->name
                                                                       : TEXT("stock");
    return text_from(arena_format(arena, "%.*s %s%s", TEXT_ARGUMENTS(name), number_print(arena, share->amount, 3),
                                  share->by_volume ? " mL" : ""));
}

struct text compare_mixture_words(struct arena *arena, const struct use *use)
{
    struct buffer words;
    buffer_start(&words, arena);
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        buffer_string(&words, words.length == 0 ? "" : " + ");
        buffer_text(&words, share_words(arena, share));
    }
    if (use->mix == NULL && !isnan(use->stock_parts)) {
        const char *stock = number_print(arena, use->stock_parts, 3);
        if (!(use->water_parts > 0)) {
            return TEXT("undiluted");
        }
        buffer_format(&words, "%s+%s", stock, number_print(arena, use->water_parts, 3));
        if (!isnan(use->water_parts_high)) {
            buffer_format(&words, " to %s+%s", stock, number_print(arena, use->water_parts_high, 3));
        }
    }
    return (struct text){words.bytes, words.length};
}

/* One ingredient of a mixture: a pair of parts, or a material by name. */
struct portion {
    const struct compared_part *part;
    struct text material;
    double amount;
};

struct mixture {
    struct portion *portions;
    size_t count;
    double total;
};

static void add_portion(struct mixture *mixture, const struct compared_part *part, struct text material, double amount)
{
    mixture->total += amount;
    for (size_t i = 0; i < mixture->count; i++) {
        if (mixture->portions[i].part == part && text_equal(mixture->portions[i].material, material)) {
            mixture->portions[i].amount += amount;
            return;
        }
    }
    mixture->portions[mixture->count++] = (struct portion){part, material, amount};
}

static struct mixture mixture_of(const struct comparison *comparison, const struct formula *formula, const struct use *use)
{
    size_t count = 2;
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        count++;
    }
    struct mixture mixture = {ARENA_ARRAY(comparison->arena, struct portion, count), 0, 0};
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        const struct compared_part *part = share->part == NULL ? NULL : compare_pair_of(comparison, share->part);
        bool material = share->part == NULL && share->material != NULL;
        add_portion(&mixture, part, material ? share->material->name : (struct text){0}, share->amount);
    }
    if (use->mix == NULL && formula->part_count == 1) { /* nothing said is undiluted */
        double stock = isnan(use->stock_parts) ? 1 : use->stock_parts;
        double water = isnan(use->water_parts) ? 0 : use->water_parts;
        add_portion(&mixture, compare_pair_of(comparison, formula->parts), (struct text){0}, stock);
        if (water > 0) {
            add_portion(&mixture, NULL, TEXT("water"), water);
        }
    } else if (use->mix == NULL && !isnan(use->stock_parts)) {
        add_portion(&mixture, NULL, TEXT("stock"), use->stock_parts);
        add_portion(&mixture, NULL, TEXT("water"), use->water_parts);
    }
    if (use->mix != NULL && isnan(use_total_parts(use))) {
        mixture.total = 1; /* unlike units: amounts as they are */
    }
    return mixture;
}

static double share_in(const struct mixture *mixture, const struct portion *like)
{
    for (size_t i = 0; i < mixture->count; i++) {
        if (mixture->portions[i].part == like->part && text_equal(mixture->portions[i].material, like->material)) {
            return mixture->portions[i].amount / mixture->total;
        }
    }
    return 0;
}

static bool mixture_within(const struct comparison *comparison, const struct mixture *of, const struct mixture *in)
{
    for (size_t i = 0; i < of->count; i++) {
        if (!compare_alike(comparison, of->portions[i].amount / of->total, share_in(in, &of->portions[i]))) {
            return false;
        }
    }
    return true;
}

static void compare_dilutions(struct comparison *comparison, struct compared_use *pair)
{
    struct mixture a = mixture_of(comparison, comparison->a, pair->a);
    struct mixture b = mixture_of(comparison, comparison->b, pair->b);
    double high_a = pair->a->water_parts_high / pair->a->stock_parts;
    double high_b = pair->b->water_parts_high / pair->b->stock_parts;
    if (mixture_within(comparison, &a, &b) && mixture_within(comparison, &b, &a) && compare_alike(comparison, high_a, high_b)) {
        return;
    }
    struct change *change = note_use(comparison, pair, CHANGE_DILUTION);
    change->from_text = compare_mixture_words(comparison->arena, pair->a);
    change->to_text = compare_mixture_words(comparison->arena, pair->b);
    bool whole = comparison->a->part_count == 1 && comparison->b->part_count == 1 && a.count > 0 && b.count > 0;
    if (whole) { /* a working solution of one stock: so much stronger */
        if (change->from_text.length == 0) {
            change->from_text = TEXT("undiluted");
        }
        if (change->to_text.length == 0) {
            change->to_text = TEXT("undiluted");
        }
        double from = share_in(&a, &a.portions[0]);
        double to = share_in(&b, &a.portions[0]);
        bool alike = compare_alike(comparison, from, to); /* and only the upper ends of ranges differ */
        change->percent = from > 0 && !alike ? (to - from) / from * 100 : NAN;
    }
}

/* ---- figures ---- */

static void compare_temperatures(struct comparison *comparison, struct compared_use *pair)
{
    const struct use *a = pair->a;
    const struct use *b = pair->b;
    bool stated = isnan(a->temperature) == isnan(b->temperature);
    bool alike = stated && (isnan(a->temperature) || (fabs(a->temperature - b->temperature) < degrees_alike &&
                                                      fabs(a->temperature_high - b->temperature_high) < degrees_alike));
    if (!alike) {
        struct change *change = note_use(comparison, pair, CHANGE_TEMPERATURE);
        change->from = a->temperature;
        change->to = b->temperature;
        change->from_high = a->temperature_high > a->temperature ? a->temperature_high : NAN;
        change->to_high = b->temperature_high > b->temperature ? b->temperature_high : NAN;
        change->unit = "°C";
    }
}

/* Where a row says none, its dilution is the use's, which is compared by itself. */
static double own_dilution(const struct time_row *row)
{
    return row->ratio == NULL ? NAN : row->water_parts / row->stock_parts;
}

static double own_temperature(const struct time_row *row)
{
    return row->temperature_words == NULL ? NAN : row->temperature;
}

static bool rows_alike(const struct comparison *comparison, const struct time_row *a, const struct time_row *b, bool first)
{
    bool same = compare_alike(comparison, a->time[0], b->time[0]) && compare_alike(comparison, a->time[1], b->time[1]) &&
                compare_alike(comparison, a->speed, b->speed) && compare_alike(comparison, a->contrast, b->contrast) &&
                compare_alike(comparison, a->grade, b->grade);
    /* The use's temperature and dilution are those of its first row. */
    return same && (first || (compare_alike(comparison, own_temperature(a), own_temperature(b)) &&
                              compare_alike(comparison, own_dilution(a), own_dilution(b))));
}

static size_t count_rows(const struct use *use)
{
    size_t count = 0;
    for (const struct time_row *row = use->times; row != NULL; row = row->next) {
        count++;
    }
    return count;
}

/* Tables of times whose first rows agree, row by row; of a table that differs only the size is told. */
static void compare_tables(struct comparison *comparison, struct compared_use *pair)
{
    const struct time_row *a = pair->a->times;
    const struct time_row *b = pair->b->times;
    while (a != NULL && b != NULL && rows_alike(comparison, a, b, a == pair->a->times)) {
        a = a->next;
        b = b->next;
    }
    if (a == NULL && b == NULL) {
        return;
    }
    struct change *change = note_use(comparison, pair, CHANGE_TIME);
    if (a != NULL && b != NULL) { /* the first row that differs */
        compare_figures(change, a->time[0], b->time[0], "s");
    }
    change->from_text = compare_format(comparison, "a table of %zu", count_rows(pair->a));
    change->to_text = compare_format(comparison, "a table of %zu", count_rows(pair->b));
}

static void compare_times(struct comparison *comparison, struct compared_use *pair)
{
    const double *a = pair->a->time;
    const double *b = pair->b->time;
    if (compare_alike(comparison, a[0], b[0]) && compare_alike(comparison, a[1], b[1])) {
        compare_tables(comparison, pair);
        return;
    }
    struct change *change = note_use(comparison, pair, CHANGE_TIME);
    compare_figures(change, a[0], b[0], "s");
    change->from_high = a[1] > a[0] ? a[1] : NAN;
    change->to_high = b[1] > b[0] ? b[1] : NAN;
}

static void compare_agitation(struct comparison *comparison, struct compared_use *pair)
{
    struct text a = pair->a->agitation;
    struct text b = pair->b->agitation;
    if (!text_equal(compare_key(comparison, a), compare_key(comparison, b))) {
        struct change *change = note_use(comparison, pair, CHANGE_AGITATION);
        change->from_text = a;
        change->to_text = b;
    }
}

static bool same_name(struct comparison *comparison, const struct name *a, const struct name *b)
{
    return a != NULL && b != NULL &&
           text_equal(compare_key(comparison, a->spelling), compare_key(comparison, b->spelling));
}

static void compare_needed(struct comparison *comparison, struct compared_use *pair)
{
    const struct use *a = pair->a;
    const struct use *b = pair->b;
    bool stated = !isnan(a->needs) && !isnan(b->needs);
    bool areas = stated && !isnan(a->needs_area) && !isnan(b->needs_area);
    bool goods = stated && (areas ? a->needs_area == b->needs_area : same_name(comparison, a->needs_per, b->needs_per));
    bool alike = areas ? compare_alike(comparison, a->needs / a->needs_area, b->needs / b->needs_area)
                       : compare_alike(comparison, a->needs, b->needs) && (goods || !stated);
    if (alike) {
        return;
    }
    struct change *change = note_use(comparison, pair, CHANGE_NEEDS);
    if (goods || !stated) {
        compare_figures(change, a->needs, b->needs, "mL");
    }
    const struct use *uses[] = {a, b};
    struct text *words[] = {&change->from_text, &change->to_text};
    for (int i = 0; i < 2; i++) {
        if (!isnan(uses[i]->needs)) {
            *words[i] = compare_format(comparison, "%s\u00A0mL per %.*s", number_print_significant(comparison->arena, uses[i]->needs, 4),
                                       TEXT_ARGUMENTS(uses[i]->needs_per->spelling));
        }
    }
}

struct text compare_capacity_words(struct arena *arena, const struct use *use)
{
    if (isnan(use->capacity)) {
        return (struct text){0};
    }
    const char *count = number_print_significant(arena, use->capacity / use->capacity_per * 1000, 3);
    struct text goods = use->capacity_of->spelling;
    const struct sheet_size *size = use->capacity_size;
    if (size == NULL) {
        return text_from(arena_format(arena, "%s\u00A0%.*s per L", count, TEXT_ARGUMENTS(goods)));
    }
    return text_from(arena_format(arena, "%s\u00A0%.*s %sx%s\u00A0%.*s per L", count, TEXT_ARGUMENTS(goods),
                                  number_print(arena, size->width, 2), number_print(arena, size->height, 2),
                                  TEXT_ARGUMENTS(size->unit == NULL ? TEXT("in") : size->unit->spelling)));
}

static void compare_capacities(struct comparison *comparison, struct compared_use *pair)
{
    const struct use *a = pair->a;
    const struct use *b = pair->b;
    double from = a->capacity / a->capacity_per * 1000;
    double to = b->capacity / b->capacity_per * 1000;
    bool stated = !isnan(from) && !isnan(to);
    bool areas = stated && !isnan(a->capacity_area) && !isnan(b->capacity_area);
    bool goods = stated && (areas ? a->capacity_area == b->capacity_area : same_name(comparison, a->capacity_of, b->capacity_of));
    bool alike = areas ? compare_alike(comparison, from * a->capacity_area, to * b->capacity_area)
                       : compare_alike(comparison, from, to) && (goods || !stated);
    if (alike) {
        return;
    }
    struct change *change = note_use(comparison, pair, CHANGE_CAPACITY);
    if (goods || !stated) {
        compare_figures(change, from, to, "1/L");
    } else if (areas) { /* rolls against sheets: by their area */
        change->percent = (to * b->capacity_area / (from * a->capacity_area) - 1) * 100;
    }
    change->from_text = compare_capacity_words(comparison->arena, a);
    change->to_text = compare_capacity_words(comparison->arena, b);
}

/* By ten degrees, whatever step it was given for. */
static double coefficient_by_ten(const struct use *use)
{
    return isnan(use->coefficient) ? NAN : pow(use->coefficient, 10 / use->coefficient_per);
}

static void compare_coefficients(struct comparison *comparison, struct compared_use *pair)
{
    double from = coefficient_by_ten(pair->a);
    double to = coefficient_by_ten(pair->b);
    if (!compare_alike(comparison, from, to)) {
        compare_figures(note_use(comparison, pair, CHANGE_COEFFICIENT), from, to, "per 10 °C");
    }
}

/* ---- uses ---- */

static void add_use(struct comparison *comparison, const struct use *a, const struct use *b)
{
    struct compared_use *pair = ARENA_NEW(comparison->arena, struct compared_use);
    pair->a = a;
    pair->b = b;
    struct compared_use **end = &comparison->uses;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = pair;
    if (a == NULL || b == NULL) {
        struct change *change = note_use(comparison, pair, CHANGE_USE);
        change->from_text = a == NULL ? (struct text){0} : a->name;
        change->to_text = b == NULL ? (struct text){0} : b->name;
        return;
    }
    compare_dilutions(comparison, pair);
    compare_temperatures(comparison, pair);
    compare_times(comparison, pair);
    compare_agitation(comparison, pair);
    compare_needed(comparison, pair);
    compare_capacities(comparison, pair);
    compare_coefficients(comparison, pair);
    compare_keeping(comparison, (struct text){0}, a->name, a->keeps, b->keeps);
}

static bool is_paired(const struct comparison *comparison, const struct use *use)
{
    for (const struct compared_use *pair = comparison->uses; pair != NULL; pair = pair->next) {
        if (pair->a == use || pair->b == use) {
            return true;
        }
    }
    return false;
}

void compare_uses(struct comparison *comparison)
{
    for (const struct use *a = comparison->a->uses; a != NULL; a = a->next) {
        struct text key = compare_key(comparison, a->name);
        const struct use *b = comparison->b->uses;
        while (b != NULL && (is_paired(comparison, b) || !text_equal(compare_key(comparison, b->name), key))) {
            b = b->next;
        }
        add_use(comparison, a, b);
    }
    for (const struct use *b = comparison->b->uses; b != NULL; b = b->next) {
        if (!is_paired(comparison, b)) {
            add_use(comparison, NULL, b);
        }
    }
}

/* ---- keeping ---- */

/* The nth keeping time in a vessel. */
static const struct keeping *find_keeping(struct comparison *comparison, const struct keeping *list,
                                          const struct keeping *like, size_t skip)
{
    struct text key = compare_key(comparison, like->in);
    for (; list != NULL; list = list->next) {
        if (text_equal(compare_key(comparison, list->in), key) && skip-- == 0) {
            return list;
        }
    }
    return NULL;
}

static size_t earlier_alike(struct comparison *comparison, const struct keeping *list, const struct keeping *keeping)
{
    size_t count = 0;
    struct text key = compare_key(comparison, keeping->in);
    for (; list != keeping; list = list->next) {
        count += text_equal(compare_key(comparison, list->in), key);
    }
    return count;
}

static void note_keeping(struct comparison *comparison, struct text part, struct text use, const struct keeping *a,
                         const struct keeping *b)
{
    struct change *change = compare_note(comparison, CHANGE_KEEPING);
    change->part = part;
    change->use = use;
    change->in = a != NULL ? a->in : b->in;
    compare_figures(change, a == NULL ? NAN : a->duration, b == NULL ? NAN : b->duration, "s");
}

void compare_keeping(struct comparison *comparison, struct text part, struct text use, const struct keeping *a,
                     const struct keeping *b)
{
    for (const struct keeping *keeping = a; keeping != NULL; keeping = keeping->next) {
        const struct keeping *other = find_keeping(comparison, b, keeping, earlier_alike(comparison, a, keeping));
        if (other == NULL || !compare_alike(comparison, keeping->duration, other->duration)) {
            note_keeping(comparison, part, use, keeping, other);
        }
    }
    for (const struct keeping *keeping = b; keeping != NULL; keeping = keeping->next) {
        if (find_keeping(comparison, a, keeping, earlier_alike(comparison, b, keeping)) == NULL) {
            note_keeping(comparison, part, use, NULL, keeping);
        }
    }
}
