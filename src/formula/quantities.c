/* Amounts: from what was written to base units, with what is wrong about them. */
#include "formula/checking.h"

#include <stdarg.h>
#include <stdio.h>

struct diagnostic *check_say(struct checker *checker, enum diagnostic_id id, struct span span, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    struct diagnostic *diagnostic = formula_say(checker->diagnostics, checker->formula, id, span, format, arguments);
    va_end(arguments);
    return diagnostic;
}

static void say_unclear(struct checker *checker, const struct measure *measure)
{
    const struct unit *unit = measure->unit;
    struct span span = measure->unit_span;
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_UNIT_AMBIGUOUS, span, "\"%.*s\" is read in more than one way", TEXT_ARGUMENTS(unit->name));
    const struct word *first = unit->unclear;
    const struct word *second = first->next;
    const struct unit *one = library_unit(checker->library, first->name);
    const struct unit *other = second == NULL ? NULL : library_unit(checker->library, second->name);
    if (one != NULL && other != NULL) {
        double ratio = other->factor / one->factor;
        diagnostics_help(checker->diagnostics, diagnostic, "write %.*s or %.*s; they differ by a factor of %.3g",
                         TEXT_ARGUMENTS(first->name->spelling), TEXT_ARGUMENTS(second->name->spelling),
                         ratio < 1 ? 1 / ratio : ratio);
    }
    for (const struct word *word = first; word != NULL; word = word->next) {
        diagnostics_fix_as(checker->diagnostics, diagnostic, span, "%s is meant", "%.*s", TEXT_ARGUMENTS(word->name->spelling));
    }
}

static void say_unit_of_two(struct checker *checker, const struct measure *measure)
{
    checker->formula->faulty = true;
    if (checker->told_of_measures) {
        return;
    }
    checker->told_of_measures = true;
    const struct unit *unit = measure->unit;
    struct span span = measure->unit_span;
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_UNIT_AMBIGUOUS, span, "%s %.*s is %.4g mL in US and %.4g mL in imperial measure",
                  text_article(unit->name), TEXT_ARGUMENTS(unit->name), unit->us_factor, unit->imperial_factor);
    diagnostics_help(checker->diagnostics, diagnostic,
                     "add \"measures US\" or \"measures imperial\" to the formula, or name it on the spot: US %.*s",
                     TEXT_ARGUMENTS(unit->name));
    diagnostics_fix_as(checker->diagnostics, diagnostic, span, "US measure", "US %.*s", TEXT_ARGUMENTS(unit->name));
    diagnostics_fix_as(checker->diagnostics, diagnostic, span, "imperial measure", "imperial %.*s", TEXT_ARGUMENTS(unit->name));
}

/* Of what the amount that is read may be: of what is asked for, or of whatever can be added. */
static unsigned wanted_dimensions(const struct checker *checker)
{
    unsigned amounts = DIMENSION_BIT(DIMENSION_MASS) | DIMENSION_BIT(DIMENSION_VOLUME);
    return checker->wanted == DIMENSION_NONE ? amounts : DIMENSION_BIT(checker->wanted);
}

/* What is usual where nothing near to the word is known. */
static void help_with_usual_units(struct checker *checker, struct diagnostic *diagnostic)
{
    enum { MOST = 8 };
    const struct unit *usual[MOST];
    size_t count = library_usual_units(checker->library, wanted_dimensions(checker), usual, MOST);
    struct buffer list;
    buffer_start(&list, checker->arena);
    for (size_t i = 0; i < count; i++) {
        buffer_format(&list, "%s%.*s", i == 0 ? "" : ", ", TEXT_ARGUMENTS(library_unit_plural(checker->library, usual[i])));
    }
    diagnostics_help(checker->diagnostics, diagnostic, "usual units are %s", buffer_finish(&list));
}

/* The units that may have been meant, the nearest first; a temperature is in one of two, whatever was written. */
static size_t near_units(struct checker *checker, struct text spelling, struct text *near, size_t most)
{
    unsigned counted = DIMENSION_BIT(DIMENSION_SUBSTANCE) | DIMENSION_BIT(DIMENSION_PARTS);
    unsigned dimensions = wanted_dimensions(checker) | (checker->wanted == DIMENSION_NONE ? counted : 0);
    size_t count = library_near_units(checker->library, spelling, dimensions, near, most);
    if (checker->wanted != DIMENSION_TEMPERATURE) {
        return count;
    }
    const struct unit *scales[2];
    size_t scale_count = library_usual_units(checker->library, dimensions, scales, 2);
    bool second_first = scale_count == 2 && count > 0 && text_equal(near[0], scales[1]->name);
    for (size_t i = 0; i < scale_count; i++) {
        near[second_first ? 1 - i : i] = scales[i]->name;
    }
    return scale_count;
}

static void say_unknown_unit(struct checker *checker, const struct measure *measure)
{
    const struct quantity *quantity = measure->at;
    enum { MOST = 3 };
    struct text near[MOST];
    struct text spelling = quantity->unit->spelling;
    size_t count = near_units(checker, spelling, near, MOST);
    struct span span = measure->unit_span;
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_UNIT_UNKNOWN, span, "\"%.*s\" is not a known unit", TEXT_ARGUMENTS(spelling));
    if (count > 0) {
        if (checker->wanted == DIMENSION_TEMPERATURE) {
            diagnostics_help(checker->diagnostics, diagnostic, "write it in °C or in °F");
        } else {
            diagnostics_help(checker->diagnostics, diagnostic, "did you mean %.*s?", TEXT_ARGUMENTS(near[0]));
        }
        for (size_t i = 0; i < count; i++) {
            diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "%.*s", TEXT_ARGUMENTS(near[i]));
        }
    } else {
        help_with_usual_units(checker, diagnostic);
    }
}

/* Offers the usual units behind a number that has none. */
static void say_no_unit(struct checker *checker, const struct quantity *quantity, struct diagnostic *diagnostic, const char *example,
                        unsigned dimensions, size_t most)
{
    const struct unit *usual[2];
    size_t count = library_usual_units(checker->library, dimensions, usual, most);
    struct span end = {quantity->span.end, quantity->span.end};
    diagnostics_help(checker->diagnostics, diagnostic, "%s", example);
    for (size_t i = 0; i < count; i++) {
        diagnostics_fix_writing(checker->diagnostics, diagnostic, end, " %.*s", TEXT_ARGUMENTS(usual[i]->name));
    }
}

static void say_fault(struct checker *checker, const struct measure *measure, bool liquid)
{
    struct diagnostic *diagnostic;
    switch (measure->fault) {
    case MEASURE_NO_UNIT:
        say_no_unit(checker, measure->at, check_say(checker, DIAG_SYNTAX, measure->at->span, "this amount has no unit"),
                    "write the unit behind the number, such as 25 g or 10 mL", DIMENSION_BIT(liquid ? DIMENSION_VOLUME : DIMENSION_MASS), 1);
        break;
    case MEASURE_UNKNOWN_UNIT:
        say_unknown_unit(checker, measure);
        break;
    case MEASURE_UNCLEAR_UNIT:
        say_unclear(checker, measure);
        break;
    case MEASURE_UNIT_OF_TWO:
        say_unit_of_two(checker, measure);
        break;
    case MEASURE_MIXED:
        diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, measure->at->span, "%s and %s cannot be added up",
                               dimension_phrases[measure->dimension], dimension_phrases[measure->other]);
        diagnostics_help(checker->diagnostics, diagnostic, "give the whole amount in units of one kind");
        break;
    case MEASURE_GOOD:
    case MEASURE_REFUSED:
        break;
    }
}

bool check_same_amount(struct checker *checker, const struct measure *first, struct span first_span, const struct quantity *other,
                       struct span other_span, bool liquid)
{
    struct measure second = check_quantity(checker, other, liquid);
    if (second.fault != MEASURE_GOOD) {
        return false;
    }
    if (second.dimension != first->dimension) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, other->span, "%s beside %s is no other reading of it",
                                                  dimension_phrases[second.dimension], dimension_phrases[first->dimension]);
        diagnostics_help(checker->diagnostics, diagnostic, "one amount for each line; keep the other in a comment: # or a note \"…\"");
        return false;
    }
    const double rounding = 0.06; /* of print: 1 oz = 30 c.c. */
    if (fabs(second.low - first->low) <= rounding * fmax(second.low, first->low)) {
        return true;
    }
    struct source_set *sources = checker->formulary->sources;
    struct text one = text_trim(source_text(sources, first_span));
    if (one.length > 3 && memcmp(one.at + one.length - 3, " or", 3) == 0) {
        one = text_trim((struct text){one.at, one.length - 3});
    }
    struct text two = source_text(sources, other->span);
    struct span both = {first_span.begin, other_span.end};
    struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_AMBIGUOUS, both, "two different amounts stand on this line");
    diagnostics_help(checker->diagnostics, diagnostic,
                     "keep one column of the page on all lines: two columns are often of different volumes");
    diagnostics_fix_writing(checker->diagnostics, diagnostic, both, "%.*s", TEXT_ARGUMENTS(one));
    diagnostics_fix_writing(checker->diagnostics, diagnostic, both, "%.*s", TEXT_ARGUMENTS(two));
    return false;
}

/* The second reading of an amount is the same as the first, or the amount is refused. */
static void check_second(struct checker *checker, const struct quantity *quantity, struct measure *measure, bool liquid)
{
    struct span first_span = {quantity->span.begin, measure->second->span.begin};
    struct span second_span = {measure->second->span.begin, quantity->span.end};
    if (!check_same_amount(checker, measure, first_span, measure->second, second_span, liquid)) {
        measure->fault = MEASURE_REFUSED;
    }
}

struct measure check_quantity(struct checker *checker, const struct quantity *quantity, bool liquid)
{
    struct measure measure = measure_read(checker->library, quantity, checker->formula->measures, liquid);
    if (measure.fault != MEASURE_GOOD) {
        say_fault(checker, &measure, liquid);
    } else if (measure.second != NULL) {
        check_second(checker, quantity, &measure, liquid);
    }
    return measure;
}

/* Whether the measure's unit is known, or is at least a slip of the pen for one. */
static bool may_be_measure(struct checker *checker, const struct quantity *measure)
{
    struct name *leftover;
    enum { MOST = 3 };
    struct text near[MOST];
    return measure->unit != NULL && (measure_find_unit(checker->library, measure->unit, &leftover) != NULL ||
                                     near_units(checker, measure->unit->spelling, near, MOST) > 0);
}

struct measure check_quantity_of_unknown(struct checker *checker, const struct quantity *quantity, bool liquid)
{
    for (const struct quantity *measure = quantity; measure != NULL; measure = measure->more) {
        if (!may_be_measure(checker, measure) || (measure->high != NULL && !may_be_measure(checker, measure->high))) {
            return (struct measure){.fault = MEASURE_REFUSED};
        }
    }
    return check_quantity(checker, quantity, liquid);
}

struct measure check_quantity_of(struct checker *checker, const struct quantity *quantity, enum dimension dimension,
                                 const char *example)
{
    struct measure result = {.fault = MEASURE_REFUSED};
    if (quantity->unit == NULL && (dimension == DIMENSION_TEMPERATURE || dimension == DIMENSION_TIME)) {
        say_no_unit(checker, quantity, check_say(checker, DIAG_SYNTAX, quantity->span, "this %s has no unit", dimension_names[dimension]),
                    arena_format(checker->arena, "write it as in: %s", example), DIMENSION_BIT(dimension), 2);
        return result;
    }
    checker->wanted = dimension;
    result = check_quantity(checker, quantity, dimension == DIMENSION_VOLUME);
    checker->wanted = DIMENSION_NONE;
    if (result.fault == MEASURE_GOOD && result.leftover != NULL) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_SYNTAX, quantity->span, "\"%.*s\" has no meaning behind the amount",
                                   TEXT_ARGUMENTS(result.leftover->spelling)),
                         "a remark stands on a line of its own: note \"…\"");
        result.fault = MEASURE_REFUSED;
    }
    if (result.fault == MEASURE_GOOD && result.dimension != dimension) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_UNIT_MISMATCH, quantity->span, "%s is expected here, and this is %s",
                      dimension_phrases[dimension], dimension_phrases[result.dimension]);
        diagnostics_help(checker->diagnostics, diagnostic, "write it as in: %s", example);
        result.fault = MEASURE_REFUSED;
    }
    return result;
}
