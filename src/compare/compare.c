/* Compares two formulas: properties here, parts and uses in files of their own. */
#include "compare/comparing.h"

#include "base/utf8.h"

#include <stdarg.h>
#include <stdio.h>

const char *const change_names[CHANGE_KINDS] = {
    [CHANGE_KIND] = "kind",
    [CHANGE_PURPOSE] = "purpose",
    [CHANGE_PART] = "part",
    [CHANGE_MAKES] = "makes",
    [CHANGE_SOLVENT] = "solvent",
    [CHANGE_ADDED] = "added",
    [CHANGE_REMOVED] = "removed",
    [CHANGE_AMOUNT] = "amount",
    [CHANGE_RANGE] = "range",
    [CHANGE_OPTIONAL] = "optional",
    [CHANGE_PORTIONS] = "portions",
    [CHANGE_ORDER] = "order",
    [CHANGE_WATER] = "water",
    [CHANGE_STEP] = "step",
    [CHANGE_USE] = "use",
    [CHANGE_DILUTION] = "dilution",
    [CHANGE_TEMPERATURE] = "temperature",
    [CHANGE_TIME] = "time",
    [CHANGE_AGITATION] = "agitation",
    [CHANGE_NEEDS] = "needs",
    [CHANGE_CAPACITY] = "capacity",
    [CHANGE_COEFFICIENT] = "coefficient",
    [CHANGE_KEEPING] = "keeping",
    [CHANGE_FORM] = "form",
    [CHANGE_STOCK] = "stock",
    [CHANGE_START_WATER] = "start-water",
};

/* ---- what the pieces share ---- */

struct change *compare_note(struct comparison *comparison, enum change_what what)
{
    struct change *change = ARENA_NEW(comparison->arena, struct change);
    change->what = what;
    change->remark = what >= CHANGE_FORM;
    change->from = change->to = change->from_high = change->to_high = change->percent = NAN;
    if (comparison->last == NULL) {
        comparison->changes = change;
    } else {
        comparison->last->next = change;
    }
    comparison->last = change;
    comparison->same = comparison->same && change->remark;
    return change;
}

void compare_figures(struct change *change, double from, double to, const char *unit)
{
    change->from = from;
    change->to = to;
    change->unit = unit;
    change->percent = from > 0 ? (to - from) / from * 100 : NAN;
}

bool compare_alike_within(const struct comparison *comparison, double from, double to, double slack)
{
    const double rounding = 0.005; /* of print and of converted units */
    if (isnan(from) || isnan(to)) {
        return isnan(from) && isnan(to);
    }
    double share = isnan(comparison->within) ? fmax(rounding, slack) : comparison->within;
    return fabs(from - to) <= (share + 1e-9) * fmax(fabs(from), fabs(to));
}

bool compare_alike(const struct comparison *comparison, double from, double to)
{
    return compare_alike_within(comparison, from, to, 0);
}

struct text compare_key(struct comparison *comparison, struct text spelling)
{
    return names_fold(comparison->arena, spelling);
}

struct text compare_format(struct comparison *comparison, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_format_list(comparison->arena, format, arguments);
    va_end(arguments);
    return text_from(text);
}

/* ---- properties ---- */

static void compare_kinds(struct comparison *comparison)
{
    if (!text_equal(comparison->a->kind, comparison->b->kind)) {
        struct change *change = compare_note(comparison, CHANGE_KIND);
        change->from_text = comparison->a->kind;
        change->to_text = comparison->b->kind;
    }
}

static bool has_purpose(struct comparison *comparison, const struct word *list, struct text wanted)
{
    for (const struct word *word = list; word != NULL; word = word->next) {
        if (text_equal(compare_key(comparison, word->name->spelling), wanted)) {
            return true;
        }
    }
    return false;
}

static bool all_purposes(struct comparison *comparison, const struct word *of, const struct word *in)
{
    for (const struct word *word = of; word != NULL; word = word->next) {
        if (!has_purpose(comparison, in, compare_key(comparison, word->name->spelling))) {
            return false;
        }
    }
    return true;
}

static struct text purpose_words(struct comparison *comparison, const struct word *list)
{
    struct buffer words;
    buffer_start(&words, comparison->arena);
    for (const struct word *word = list; word != NULL; word = word->next) {
        buffer_string(&words, words.length == 0 ? "" : ", ");
        buffer_text(&words, word->name->spelling);
    }
    return (struct text){words.bytes, words.length};
}

static void compare_purposes(struct comparison *comparison)
{
    const struct word *a = comparison->a->purposes;
    const struct word *b = comparison->b->purposes;
    if (!all_purposes(comparison, a, b) || !all_purposes(comparison, b, a)) {
        struct change *change = compare_note(comparison, CHANGE_PURPOSE);
        change->from_text = purpose_words(comparison, a);
        change->to_text = purpose_words(comparison, b);
    }
}

struct comparison *compare_formulas(struct arena *arena, const struct formula *a, const struct formula *b, double within)
{
    struct comparison *comparison = ARENA_NEW(arena, struct comparison);
    comparison->arena = arena;
    comparison->a = a;
    comparison->b = b;
    comparison->within = within;
    comparison->same = a != NULL && b != NULL;
    if (comparison->same) {
        compare_kinds(comparison);
        compare_purposes(comparison);
        compare_parts(comparison);
        compare_uses(comparison);
        compare_keeping(comparison, (struct text){0}, (struct text){0}, a->keeps, b->keeps);
    }
    return comparison;
}
