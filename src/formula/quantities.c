/* Amounts: from what was written to base units, with what is wrong about them. */
#include "formula/checking.h"
#include "syntax/apothecary.h"
#include "syntax/sentences.h"

#include <ctype.h>
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

/* How many bytes at the start of `text` spell the unit, in any case and with any run of blanks between its words; 0 when none. */
static size_t spelled_there(struct text text, struct text spelling)
{
    size_t at = 0;
    for (size_t i = 0; i < spelling.length; at++) {
        if (at >= text.length) {
            return 0;
        }
        bool blank = text.at[at] == ' ' || text.at[at] == '\t';
        bool blank_wanted = spelling.at[i] == ' ' || spelling.at[i] == '\t';
        if (blank && !blank_wanted && i > 0 && (spelling.at[i - 1] == ' ' || spelling.at[i - 1] == '\t')) {
            continue; /* a longer run */
        }
        if (blank != blank_wanted || (!blank && tolower((unsigned char)text.at[at]) != tolower((unsigned char)spelling.at[i]))) {
            return 0;
        }
        i++;
    }
    bool goes_on = at < text.length && isalpha((unsigned char)text.at[at]);
    return goes_on ? 0 : at;
}

/* Where the unit of the measure stands; of "5 to 6 gr" behind the second figure.  The whole measure when it is not found. */
static struct span unit_span(const struct checker *checker, const struct quantity *quantity)
{
    struct text whole = source_text(checker->formulary->sources, quantity->span);
    for (size_t at = 1; quantity->unit != NULL && at < whole.length; at++) {
        struct text rest = {whole.at + at, whole.length - at};
        size_t length = isalpha((unsigned char)whole.at[at - 1]) ? 0 : spelled_there(rest, quantity->unit->spelling);
        if (length > 0) {
            uint32_t begin = quantity->span.begin + (uint32_t)at;
            return (struct span){begin, begin + (uint32_t)length};
        }
    }
    return quantity->span;
}

static void say_unclear(struct checker *checker, const struct quantity *quantity, const struct unit *unit)
{
    struct span span = unit_span(checker, quantity);
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
        const char *text = arena_format(checker->arena, "%.*s", TEXT_ARGUMENTS(word->name->spelling));
        diagnostics_fix(checker->diagnostics, diagnostic, span, text, "%s is meant", text);
    }
}

static void say_needs_measures(struct checker *checker, const struct quantity *quantity, const struct unit *unit)
{
    if (checker->told_of_measures) {
        return;
    }
    checker->told_of_measures = true;
    struct span span = unit_span(checker, quantity);
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_UNIT_AMBIGUOUS, span, "%s %.*s is %.4g mL in US and %.4g mL in imperial measure",
                  text_article(unit->name), TEXT_ARGUMENTS(unit->name), unit->us_factor, unit->imperial_factor);
    diagnostics_help(checker->diagnostics, diagnostic,
                     "add \"measures US\" or \"measures imperial\" to the formula, or name it on the spot: US %.*s",
                     TEXT_ARGUMENTS(unit->name));
    const char *us = arena_format(checker->arena, "US %.*s", TEXT_ARGUMENTS(unit->name));
    const char *imperial = arena_format(checker->arena, "imperial %.*s", TEXT_ARGUMENTS(unit->name));
    diagnostics_fix(checker->diagnostics, diagnostic, span, us, "US measure");
    diagnostics_fix(checker->diagnostics, diagnostic, span, imperial, "imperial measure");
}

/* What is usual where nothing near to the word is known. */
static const char *usual_units(enum dimension wanted)
{
    switch (wanted) {
    case DIMENSION_TIME:
        return "usual units are s, min, h, days, weeks, months";
    case DIMENSION_VOLUME:
        return "usual units are mL, L, fl oz, pints";
    default:
        return "usual units are g, mg, mL, L, grains, oz, fl oz";
    }
}

/* The units that may have been meant, the nearest first; a temperature is in one of two, whatever was written. */
static size_t near_units(struct checker *checker, struct text spelling, struct text *near, size_t most)
{
    unsigned amounts = DIMENSION_BIT(DIMENSION_MASS) | DIMENSION_BIT(DIMENSION_VOLUME) | DIMENSION_BIT(DIMENSION_SUBSTANCE) |
                       DIMENSION_BIT(DIMENSION_PARTS);
    unsigned dimensions = checker->wanted == DIMENSION_NONE ? amounts : DIMENSION_BIT(checker->wanted);
    size_t count = library_near_units(checker->library, spelling, dimensions, near, most);
    if (checker->wanted != DIMENSION_TEMPERATURE) {
        return count;
    }
    bool fahrenheit_first = count > 0 && text_is(near[0], "°F");
    near[0] = fahrenheit_first ? TEXT("°F") : TEXT("°C");
    near[1] = fahrenheit_first ? TEXT("°C") : TEXT("°F");
    return 2;
}

static void say_unknown_unit(struct checker *checker, const struct quantity *quantity)
{
    enum { MOST = 3 };
    struct text near[MOST];
    struct text spelling = quantity->unit->spelling;
    size_t count = near_units(checker, spelling, near, MOST);
    struct span span = unit_span(checker, quantity);
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_UNIT_UNKNOWN, span, "\"%.*s\" is not a known unit", TEXT_ARGUMENTS(spelling));
    struct apothecary_amount apothecary =
        apothecary_read(checker->arena, source_text(checker->formulary->sources, quantity->span));
    struct place place = source_place(checker->formulary->sources, span.begin);
    struct text line = source_line(checker->formulary->sources, place);
    size_t margin = strspn(line.at, " \t");
    const char *mixture = syntax_mixture(checker->arena, line);
    if (mixture != NULL) { /* "mix A 1 part and B 1 part" */
        uint32_t begin = place.file->base + place.line_begin;
        struct span whole = {begin + (uint32_t)margin, begin + (uint32_t)line.length};
        syntax_offer_line(checker->diagnostics, diagnostic, whole, mixture);
    } else if (apothecary.readings[1] != NULL) { /* "3 viij" */
        diagnostics_help(checker->diagnostics, diagnostic, "the 3 stands for the sign of the dram or of the ounce: %s or %s",
                         apothecary.readings[0], apothecary.readings[1]);
        for (int i = 0; i < APOTHECARY_READINGS; i++) {
            diagnostics_fix_writing(checker->diagnostics, diagnostic, quantity->span, "%s", apothecary.readings[i]);
        }
    } else if (count > 0) {
        if (checker->wanted == DIMENSION_TEMPERATURE) {
            diagnostics_help(checker->diagnostics, diagnostic, "write it in °C or in °F");
        } else {
            diagnostics_help(checker->diagnostics, diagnostic, "did you mean %.*s?", TEXT_ARGUMENTS(near[0]));
        }
        for (size_t i = 0; i < count; i++) {
            diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "%.*s", TEXT_ARGUMENTS(near[i]));
        }
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "%s", usual_units(checker->wanted));
    }
}

/* The unit of a measure.  What follows the unit's name in the same run of words ("25 g anhydrous") goes to *leftover. */
static const struct unit *find_unit(struct checker *checker, const struct quantity *quantity, struct name **leftover)
{
    const struct unit *unit = library_unit(checker->library, quantity->unit);
    if (unit != NULL) {
        return unit;
    }
    struct text words = quantity->unit->spelling;
    enum { LONGEST_UNIT = 60 }; /* bytes; longer runs of words start with a unit, if at all */
    for (size_t i = words.length < LONGEST_UNIT ? words.length : LONGEST_UNIT; i-- > 1;) {
        if (words.at[i] == ' ' || words.at[i] == '\t') {
            struct text first = text_trim((struct text){words.at, i});
            unit = library_unit(checker->library, names_find(checker->library->names, first));
            if (unit != NULL) {
                struct text rest = text_trim((struct text){words.at + i, words.length - i});
                *leftover = names_find(checker->library->names, rest);
                return unit;
            }
        }
    }
    return NULL;
}

/* One measure in base units; false when it cannot be read, which is reported. */
static bool read_measure(struct checker *checker, const struct quantity *quantity, bool liquid, struct unit_reading *reading,
                         struct name **leftover)
{
    if (quantity->unit == NULL) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_SYNTAX, quantity->span, "this amount has no unit");
        struct span end = {quantity->span.end, quantity->span.end};
        diagnostics_help(checker->diagnostics, diagnostic, "write the unit behind the number, such as 25 g or 10 mL");
        diagnostics_fix_writing(checker->diagnostics, diagnostic, end, "%s", liquid ? " mL" : " g");
        return false;
    }
    const struct unit *unit = find_unit(checker, quantity, leftover);
    if (unit == NULL) {
        say_unknown_unit(checker, quantity);
        return false;
    }
    *reading = library_read_unit(unit, checker->formula->measures, liquid);
    if (reading->answer == UNIT_UNCLEAR) {
        say_unclear(checker, quantity, unit);
        return false;
    }
    if (reading->answer == UNIT_NEEDS_MEASURES) {
        say_needs_measures(checker, quantity, reading->unit);
        checker->formula->faulty = true;
        return false;
    }
    return true;
}

/* Whether the words behind a unit only lead on to another reading: "20 ozs. or 1000 c.c." */
static bool leads_on(const struct name *leftover)
{
    return leftover != NULL && (text_is(leftover->spelling, "or"));
}

/* Whether both are masses, or both volumes, and one is metric and the other is not. */
static bool are_of_two_systems(struct checker *checker, const struct unit *first, const struct unit *second, bool liquid)
{
    enum dimension one = library_read_unit(first, checker->formula->measures, liquid).dimension;
    enum dimension other = library_read_unit(second, checker->formula->measures, liquid).dimension;
    bool reckoned = (one == DIMENSION_MASS || one == DIMENSION_VOLUME) && !first->approximate && !second->approximate;
    return reckoned && one == other && library_unit_is_metric(first) != library_unit_is_metric(second);
}

/* A sum goes down from unit to unit: "1 oz 60 grains", and neither "2 g 4 g" nor "60 grains 1 oz". */
static bool goes_down(const struct checker *checker, const struct unit *from, const struct unit *to, bool liquid)
{
    struct unit_reading larger = library_read_unit(from, checker->formula->measures, liquid);
    struct unit_reading smaller = library_read_unit(to, checker->formula->measures, liquid);
    return larger.dimension != smaller.dimension || larger.dimension == DIMENSION_TEMPERATURE || smaller.factor < larger.factor;
}

/* Grains and then grams on one line are no sum, and no more are 2 g and 4 g: they are two columns of a page, or two readings of one
 * amount.  The first of the measures that begin the second, or NULL. */
static const struct quantity *second_reading(struct checker *checker, const struct quantity *quantity, bool liquid)
{
    struct name *leftover = NULL;
    const struct unit *first = find_unit(checker, quantity, &leftover);
    const struct unit *above = first;
    for (const struct quantity *measure = quantity->more; measure != NULL; measure = measure->more) {
        bool led = leads_on(leftover);
        const struct unit *unit = measure->unit == NULL || first == NULL ? NULL : find_unit(checker, measure, &leftover);
        if (led || (unit != NULL && (are_of_two_systems(checker, first, unit, liquid) || !goes_down(checker, above, unit, liquid)))) {
            return measure;
        }
        above = unit != NULL ? unit : above;
    }
    return NULL;
}

static bool check_sum(struct checker *checker, const struct quantity *quantity, const struct quantity *end, bool liquid,
                      double *total, struct reading *result)
{
    *total = 0;
    for (const struct quantity *measure = quantity; measure != end; measure = measure->more) {
        struct unit_reading reading;
        if (!read_measure(checker, measure, liquid, &reading, &result->leftover)) {
            return false;
        }
        if (leads_on(result->leftover)) {
            result->leftover = NULL;
        }
        if (result->unit == NULL) {
            result->unit = reading.unit;
            result->dimension = reading.dimension;
        } else if (reading.dimension != result->dimension) {
            struct diagnostic *diagnostic =
                check_say(checker, DIAG_UNIT_MISMATCH, quantity->span, "%s and %s cannot be added up",
                          dimension_phrases[result->dimension], dimension_phrases[reading.dimension]);
            diagnostics_help(checker->diagnostics, diagnostic, "give the whole amount in units of one kind");
            return false;
        }
        result->approximate = result->approximate || reading.approximate;
        *total += (measure->value - reading.zero_at) * reading.factor;
    }
    return true;
}

bool check_same_amount(struct checker *checker, const struct reading *first, struct span first_span, const struct quantity *other,
                       struct span other_span, bool liquid)
{
    struct reading second = check_quantity(checker, other, liquid);
    if (!second.good) {
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

struct reading check_quantity(struct checker *checker, const struct quantity *quantity, bool liquid)
{
    /* One amount in a unit that means one thing to everybody, as nearly all are. */
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(checker->library, quantity->unit);
    if (unit != NULL && quantity->more == NULL && quantity->high == NULL && library_unit_is_plain(unit)) {
        double value = (quantity->value - unit->zero_at) * unit->factor + 0.0; /* which leaves no minus before a zero */
        return (struct reading){
            .good = true, .dimension = unit->dimension, .low = value, .high = value, .approximate = unit->approximate, .unit = unit};
    }
    struct reading result = {0};
    const struct quantity *second = quantity->more == NULL || quantity->unit == NULL ? NULL : second_reading(checker, quantity, liquid);
    result.good = check_sum(checker, quantity, second, liquid, &result.low, &result);
    result.high = result.low;
    if (result.good && quantity->high != NULL) {
        result.good = check_sum(checker, quantity->high, NULL, liquid, &result.high, &result);
    }
    if (result.good && second != NULL) {
        struct span first_span = {quantity->span.begin, second->span.begin};
        struct span second_span = {second->span.begin, quantity->span.end};
        result.good = check_same_amount(checker, &result, first_span, second, second_span, liquid);
    }
    return result;
}

/* Whether the measure's unit is known, or is at least a slip of the pen for one. */
static bool may_be_measure(struct checker *checker, const struct quantity *measure)
{
    struct name *leftover = NULL;
    enum { MOST = 3 };
    struct text near[MOST];
    return measure->unit != NULL && (find_unit(checker, measure, &leftover) != NULL ||
                                     near_units(checker, measure->unit->spelling, near, MOST) > 0);
}

struct reading check_quantity_of_unknown(struct checker *checker, const struct quantity *quantity, bool liquid)
{
    for (const struct quantity *measure = quantity; measure != NULL; measure = measure->more) {
        if (!may_be_measure(checker, measure) || (measure->high != NULL && !may_be_measure(checker, measure->high))) {
            return (struct reading){0};
        }
    }
    return check_quantity(checker, quantity, liquid);
}

struct reading check_quantity_of(struct checker *checker, const struct quantity *quantity, enum dimension dimension,
                                 const char *example)
{
    if (quantity->unit == NULL && (dimension == DIMENSION_TEMPERATURE || dimension == DIMENSION_TIME)) {
        bool warmth = dimension == DIMENSION_TEMPERATURE;
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_SYNTAX, quantity->span, "this %s has no unit", dimension_names[dimension]);
        struct span end = {quantity->span.end, quantity->span.end};
        diagnostics_help(checker->diagnostics, diagnostic, "write it as in: %s", example);
        diagnostics_fix_writing(checker->diagnostics, diagnostic, end, "%s", warmth ? " °C" : " min");
        diagnostics_fix_writing(checker->diagnostics, diagnostic, end, "%s", warmth ? " °F" : " s");
        return (struct reading){0};
    }
    checker->wanted = dimension;
    struct reading result = check_quantity(checker, quantity, dimension == DIMENSION_VOLUME);
    checker->wanted = DIMENSION_NONE;
    if (result.good && result.leftover != NULL) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_SYNTAX, quantity->span, "\"%.*s\" has no meaning behind the amount",
                                   TEXT_ARGUMENTS(result.leftover->spelling)),
                         "a remark stands on a line of its own: note \"…\"");
        result.good = false;
    }
    if (result.good && result.dimension != dimension) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_UNIT_MISMATCH, quantity->span, "%s is expected here, and this is %s",
                      dimension_phrases[dimension], dimension_phrases[result.dimension]);
        diagnostics_help(checker->diagnostics, diagnostic, "write it as in: %s", example);
        result.good = false;
    }
    return result;
}
