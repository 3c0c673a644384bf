/* What a capture may stand for at a place of a line: numbers, quantities with their units, ratios, names that the library knows. */
#include "library/wording_parts.h"

#include "base/number.h"

#include <math.h>

struct reread_piece wording_typed(const struct matching *matching, size_t from, size_t upto)
{
    const struct item *first = &matching->items[from];
    const struct item *last = &matching->items[upto - 1];
    struct text text = {first->text.at, (size_t)(last->text.at + last->text.length - first->text.at)};
    uint32_t begin = matching->begin + (uint32_t)(text.at - matching->line.at);
    return (struct reread_piece){text, {begin, begin + (uint32_t)text.length}};
}

static struct candidate *add(struct matching *matching, struct candidate **list, size_t end, const struct reread_piece *pieces, size_t count)
{
    struct candidate *candidate = ARENA_NEW(matching->library->arena, struct candidate);
    *candidate = (struct candidate){.end = end, .pieces = pieces, .count = count, .next = *list};
    *list = candidate;
    return candidate;
}

static struct candidate *add_typed(struct matching *matching, struct candidate **list, size_t from, size_t end)
{
    struct reread_piece *piece = ARENA_NEW(matching->library->arena, struct reread_piece);
    *piece = wording_typed(matching, from, end);
    return add(matching, list, end, piece, 1);
}

static bool is_item(const struct matching *matching, size_t at, enum item_kind kind)
{
    return at < matching->count && matching->items[at].kind == kind;
}

static bool is_sign(const struct matching *matching, size_t at, const char *sign)
{
    return at < matching->count && matching->items[at].kind != ITEM_WORD && text_is(matching->items[at].text, sign);
}

/* ---- quantities ---- */

/* The unit whose name is the longest that begins at `at`; *end is the item behind it. */
static const struct unit *unit_at(struct matching *matching, size_t at, size_t *end)
{
    enum { MOST_WORDS = 4 };
    const struct unit *found = NULL;
    size_t words = 0;
    for (size_t upto = at; upto < matching->count && words < MOST_WORDS; upto++) {
        const struct item *item = &matching->items[upto];
        bool point = upto > at && item->kind == ITEM_SOFT && (text_is(item->text, ".") || text_is(item->text, "-"));
        if (item->kind != ITEM_WORD && !point) {
            break;
        }
        words += item->kind == ITEM_WORD;
        struct name *name = names_find(matching->library->names, wording_typed(matching, at, upto + 1).text);
        const struct unit *unit = library_unit(matching->library, name);
        if (unit != NULL) {
            found = unit;
            *end = upto + 1;
        }
    }
    return found;
}

static bool fits(enum capture_kind kind, const struct unit *unit)
{
    switch (kind) {
    case CAPTURE_TIME:
        return unit->dimension == DIMENSION_TIME;
    case CAPTURE_TEMPERATURE:
        return unit->dimension == DIMENSION_TEMPERATURE;
    case CAPTURE_VOLUME:
        return unit->dimension == DIMENSION_VOLUME || unit->of_liquids != NULL;
    case CAPTURE_GOODS:
        return unit->dimension == DIMENSION_COUNT || unit->dimension == DIMENSION_AREA;
    default:
        return unit->unclear != NULL || unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_VOLUME ||
               unit->dimension == DIMENSION_PARTS || unit->dimension == DIMENSION_SUBSTANCE;
    }
}

/* A dash between two numbers, or "to"; the degree sign may stand behind the first. */
static size_t range_sign(const struct matching *matching, size_t at)
{
    if (at < matching->count && text_is(matching->items[at].text, "°")) {
        at++;
    }
    bool dash = is_sign(matching, at, "-") || is_sign(matching, at, "–") || is_sign(matching, at, "—");
    bool to = at < matching->count && matching->items[at].word != NULL && text_is(matching->items[at].word->spelling, "to");
    return dash || to ? at + 1 : 0;
}

static const struct reread_piece *join(struct matching *matching, const struct candidate *first, const char *between, struct reread_piece second,
                                       size_t *count)
{
    struct reread_piece *pieces = ARENA_ARRAY(matching->library->arena, struct reread_piece, first->count + 2);
    memcpy(pieces, first->pieces, first->count * sizeof *pieces);
    pieces[first->count].text = text_from(between);
    pieces[first->count + 1] = second;
    *count = first->count + 2;
    return pieces;
}

/* Whether words in brackets name the unit together with what stands before them. */
static bool qualified_unit(struct matching *matching, size_t unit, size_t unit_end, size_t upto)
{
    struct text first = wording_typed(matching, unit, unit_end).text;
    struct text second = wording_typed(matching, unit_end + 1, upto).text;
    const char *both = arena_format(matching->library->arena, "%.*s %.*s", TEXT_ARGUMENTS(first), TEXT_ARGUMENTS(second));
    return library_unit(matching->library, names_find(matching->library->names, text_from(both))) != NULL;
}

/* A number with its unit behind it, and what is added: `min 30 s`. */
static void quantity_behind(struct matching *matching, enum capture_kind kind, const struct candidate *number, struct candidate **list, size_t from)
{
    size_t end;
    const struct unit *unit = unit_at(matching, number->end, &end);
    if (unit == NULL || !fits(kind, unit)) {
        return;
    }
    size_t added = end;
    while (kind != CAPTURE_GOODS && is_item(matching, added, ITEM_NUMBER)) { /* "9 min 30 s", "3 oz 70 grains" */
        size_t next;
        const struct unit *smaller = unit_at(matching, added + 1, &next);
        if (smaller == NULL || smaller->dimension != unit->dimension || !(smaller->factor < unit->factor)) {
            break;
        }
        added = end = next;
    }
    if (kind == CAPTURE_GOODS && is_item(matching, end, ITEM_SIZE)) {
        end++;
    }
    size_t inside = end + 1;
    while (is_sign(matching, end, "(") && is_item(matching, inside, ITEM_WORD)) { /* "1 pint (imp.)", "1 oz (by weight)" */
        inside++;
    }
    bool qualified = inside > end + 1 && qualified_unit(matching, number->end, end, inside);
    struct candidate *made;
    if (qualified) {
        size_t count;
        struct candidate first = {.pieces = number->pieces, .count = number->count};
        first.pieces = join(matching, &first, " ", wording_typed(matching, number->end, end), &first.count);
        const struct reread_piece *pieces = join(matching, &first, " ", wording_typed(matching, end + 1, inside), &count);
        made = add(matching, list, inside, pieces, count);
    } else if (number->count == 1 && number->pieces[0].typed.end > 0) {
        made = add_typed(matching, list, from, end);
    } else {
        size_t count;
        const struct reread_piece *pieces = join(matching, number, " ", wording_typed(matching, number->end, end), &count);
        made = add(matching, list, end, pieces, count);
    }
    made->dimension = unit->dimension;
    made->unit = unit;
}

/* "9.30 min" is read both as 9 min 30 s and as 9.3 min: each is a candidate, and the line is not read without asking. */
static bool clock_figures(struct matching *matching, const struct candidate *number, struct candidate **list)
{
    size_t end;
    const struct unit *unit = unit_at(matching, number->end, &end);
    struct text figure = number->count == 1 ? number->pieces[0].text : (struct text){0};
    const char *point = figure.length > 3 ? figure.at + figure.length - 3 : NULL;
    bool clock = unit != NULL && unit->dimension == DIMENSION_TIME && unit->factor == 60 && point != NULL && strchr(".,", *point) != NULL &&
                 point[1] >= '0' && point[1] <= '5' && text_is_digit(point[2]);
    if (!clock) {
        return false;
    }
    int whole = (int)(point - figure.at);
    const char *const readings[] = {
        arena_format(matching->library->arena, "%.*s min %.2s s", whole, figure.at, point + 1),
        arena_format(matching->library->arena, "%.*s.%.*s min", whole, figure.at, point[2] == '0' ? 1 : 2, point + 1)};
    for (size_t i = 0; i < 2; i++) {
        struct reread_piece *piece = ARENA_NEW(matching->library->arena, struct reread_piece);
        piece->text = text_from(readings[i]);
        add(matching, list, end, piece, 1);
    }
    return true;
}

static struct candidate *quantity_at(struct matching *matching, enum capture_kind kind, size_t at)
{
    struct candidate *list = NULL;
    for (const struct candidate *number = wording_captured(matching, CAPTURE_NUMBER, at); number != NULL; number = number->next) {
        size_t second = range_sign(matching, number->end);
        if (second > 0 && is_item(matching, second, ITEM_NUMBER)) {
            struct candidate range = {.end = second + 1};
            struct reread_piece piece = wording_typed(matching, at, second + 1);
            range.pieces = &piece;
            range.count = 1;
            quantity_behind(matching, kind, &range, &list, at);
        } else if (kind != CAPTURE_TIME || !clock_figures(matching, number, &list)) {
            quantity_behind(matching, kind, number, &list, at);
        }
    }
    return list;
}

static struct candidate *ratio_at(struct matching *matching, size_t at)
{
    struct candidate *list = NULL;
    size_t end = at;
    while (is_item(matching, end, ITEM_NUMBER) && is_sign(matching, end + 1, "+") && is_item(matching, end + 2, ITEM_NUMBER)) {
        end += 2;
    }
    if (end > at) {
        add_typed(matching, &list, at, end + 1);
    }
    return list;
}

/* ---- names ---- */

enum { MOST_NAME_WORDS = 8 };

/* Words with nothing but hyphens and points between them; where the run from `at` ends. */
static size_t words_end(const struct matching *matching, size_t at)
{
    size_t end = at;
    size_t words = 0;
    for (size_t i = at; i < matching->count && words < MOST_NAME_WORDS; i++) {
        const struct item *item = &matching->items[i];
        bool inside = i > at && item->kind == ITEM_SOFT && (text_is(item->text, "-") || text_is(item->text, "."));
        if (item->kind != ITEM_WORD && !inside) {
            break;
        }
        words += item->kind == ITEM_WORD;
        end = item->kind == ITEM_WORD ? i + 1 : end;
    }
    return end;
}

static struct candidate *material_at(struct matching *matching, size_t at)
{
    struct candidate *list = NULL;
    for (size_t end = words_end(matching, at); end > at; end--) {
        struct name *name = names_find(matching->library->names, wording_typed(matching, at, end).text);
        if (is_item(matching, end - 1, ITEM_WORD) && library_material(matching->library, name) != NULL) {
            add_typed(matching, &list, at, end);
            return list; /* the longest name says the most */
        }
    }
    size_t end = words_end(matching, at);
    if (matching->unknown_materials && end > at) {
        add_typed(matching, &list, at, end);
    }
    return list;
}

/* A strength or a specific gravity, or words in brackets or behind a comma; whether they are a form is seen together with the material. */
static struct candidate *form_at(struct matching *matching, size_t at)
{
    struct candidate *list = NULL;
    bool apart = at > 0 && matching->items[at - 1].kind == ITEM_SOFT;
    if (is_item(matching, at, ITEM_NUMBER) && is_sign(matching, at + 1, "%")) {
        add_typed(matching, &list, at, at + 2);
    } else if (is_item(matching, at, ITEM_NUMBER) && memchr(matching->items[at].text.at, '.', matching->items[at].text.length) != NULL) {
        add_typed(matching, &list, at, at + 1); /* ".880" */
    } else if (apart && words_end(matching, at) > at) {
        add_typed(matching, &list, at, words_end(matching, at));
    }
    return list;
}

/* A part of the formula by its name, before which "No." may stand. */
static struct candidate *part_at(struct matching *matching, size_t at)
{
    struct candidate *list = NULL;
    for (size_t end = at + 1; end <= at + 4 && end <= matching->count; end++) {
        const struct name *name = names_folded(matching->library->names, names_find(matching->library->names, wording_typed(matching, at, end).text));
        for (size_t i = 0; i < matching->place->part_count; i++) {
            if (matching->place->parts[i] == name) {
                add_typed(matching, &list, at, end);
            }
        }
    }
    return list;
}

/* ---- numbers of prescriptions ---- */

static struct candidate *roman_at(struct matching *matching, size_t at)
{
    struct candidate *list = NULL;
    double value = is_item(matching, at, ITEM_WORD) ? number_read_roman(matching->items[at].text) : NAN;
    size_t end = at + 1;
    if (is_item(matching, end, ITEM_WORD) && text_is(matching->items[end].word->spelling, "ss")) { /* "v ss" */
        value += 0.5;
        end++;
    }
    if (!isnan(value)) {
        double whole = floor(value);
        struct reread_piece *piece = ARENA_NEW(matching->library->arena, struct reread_piece);
        const char *figure = value == whole ? number_print(matching->library->arena, value, 4)
                             : whole == 0   ? "1/2"
                                            : arena_format(matching->library->arena, "%.0f 1/2", whole);
        piece->text = text_from(figure);
        add(matching, &list, end, piece, 1);
    }
    return list;
}

/* ---- texts ---- */

/* Any text up to the end of a clause; of words, one that holds no figures, which would be lost in it. */
static struct candidate *text_at(struct matching *matching, size_t at, bool words)
{
    struct candidate *list = NULL;
    for (size_t end = at + 1; end <= matching->count; end++) {
        if (words && (matching->items[end - 1].kind == ITEM_NUMBER || matching->items[end - 1].kind == ITEM_SIZE)) {
            break;
        }
        bool word = matching->items[end - 1].kind != ITEM_SOFT || text_is(matching->items[end - 1].text, ")");
        if (word && (end == matching->count || matching->items[end].ends_clause)) {
            add_typed(matching, &list, at, end);
        }
    }
    return list;
}

static struct candidate *typed_at(struct matching *matching, enum capture_kind kind, size_t at)
{
    struct candidate *list = NULL;
    switch (kind) {
    case CAPTURE_NUMBER:
        if (is_item(matching, at, ITEM_NUMBER)) {
            add_typed(matching, &list, at, at + 1);
        }
        return list;
    case CAPTURE_SIZE:
        if (is_item(matching, at, ITEM_SIZE)) {
            add_typed(matching, &list, at, at + 1);
        }
        return list;
    case CAPTURE_AMOUNT:
    case CAPTURE_VOLUME:
    case CAPTURE_TIME:
    case CAPTURE_TEMPERATURE:
    case CAPTURE_GOODS:
        return quantity_at(matching, kind, at);
    case CAPTURE_RATIO:
        return ratio_at(matching, at);
    case CAPTURE_MATERIAL:
        return material_at(matching, at);
    case CAPTURE_FORM:
        return form_at(matching, at);
    case CAPTURE_PART:
        return part_at(matching, at);
    case CAPTURE_ROMAN:
        return roman_at(matching, at);
    case CAPTURE_TEXT:
    case CAPTURE_WORDS:
        return text_at(matching, at, kind == CAPTURE_WORDS);
    default:
        return NULL; /* a kind that only wordings know */
    }
}

/* With those that wordings read and that end where no other does: what is written as the notation has it needs no wording. */
static struct candidate *with_nested(struct candidate *list, struct candidate *nested)
{
    struct candidate *typed = list;
    while (nested != NULL) {
        struct candidate *next = nested->next;
        const struct candidate *same = typed;
        while (same != NULL && same->end != nested->end) {
            same = same->next;
        }
        if (same == NULL) {
            nested->next = list;
            list = nested;
        }
        nested = next;
    }
    return list;
}

struct candidate *wording_captured(struct matching *matching, enum capture_kind kind, size_t at)
{
    if (at >= matching->count) {
        return NULL;
    }
    if (matching->known[kind] == NULL) {
        matching->known[kind] = ARENA_ARRAY(matching->library->arena, struct candidate *, matching->count);
        matching->asked[kind] = ARENA_ARRAY(matching->library->arena, bool, matching->count);
    }
    if (!matching->asked[kind][at]) {
        matching->asked[kind][at] = true; /* a wording that begins with what it is itself finds nothing there */
        struct candidate *list = typed_at(matching, kind, at);
        matching->known[kind][at] = with_nested(list, wording_nested(matching, kind, at));
    }
    return matching->known[kind][at];
}
