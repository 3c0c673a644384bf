/* Measures outside of any file: what the options of a call give.  The notation's own lexer finds the numbers and units. */
#include "library/measure.h"

#include "base/number.h"
#include "syntax/tokens.h"

/* A builder whose lexer stands at the start of `text`; what the lexer has to say of it goes to `aside`. */
static struct builder read_aside(struct library *library, const char *text, struct diagnostics *aside)
{
    diagnostics_start(aside, library->arena, library->sources);
    char *copy = arena_copy(library->arena, text, strlen(text));
    struct builder builder = {.arena = library->arena, .names = library->names, .diagnostics = aside};
    builder.file = ARENA_NEW(library->arena, struct syntax_file);
    builder.lexer = (struct lexer){.start = copy, .cursor = copy, .limit = copy + strlen(copy), .mode = LEX_REST};
    return builder;
}

enum { MOST_TOKENS = 12 }; /* of a text that can still be an amount */

struct token {
    int kind;
    union NOTATION_STYPE value;
    struct span span;
};

/* The tokens of a text, the last of which is T_NEWLINE; 0 where they are too many, or the lexer refused one. */
static size_t read_tokens(struct library *library, const char *text, struct token tokens[MOST_TOKENS])
{
    struct diagnostics aside;
    struct builder builder = read_aside(library, text, &aside);
    for (size_t count = 0; count < MOST_TOKENS; count++) {
        struct token *token = &tokens[count];
        token->kind = notation_lex(&token->value, &token->span, &builder);
        if (token->kind == T_NEWLINE || token->kind == T_END) {
            bool all = builder.lexer.cursor >= builder.lexer.limit; /* a second line stands behind */
            return aside.errors == 0 && all ? count + 1 : 0;
        }
    }
    return 0;
}

static const struct quantity *quantity_of(struct library *library, struct token *tokens, size_t count)
{
    struct builder builder = {.arena = library->arena};
    if (count == 2 && tokens[0].kind == T_NUMBER) {
        return build_quantity(&builder, tokens[0].value.number, NULL, tokens[0].span);
    }
    if (count == 3 && tokens[0].kind == T_AMOUNT && tokens[1].kind == T_SIZE) {
        return build_counted(tokens[0].value.quantity, tokens[1].value.size, span_join(tokens[0].span, tokens[1].span));
    }
    struct quantity *sum = NULL;
    for (size_t i = 0; i + 1 < count; i++) {
        if (tokens[i].kind != T_AMOUNT) {
            return NULL;
        }
        sum = sum == NULL ? tokens[i].value.quantity : build_sum(sum, tokens[i].value.quantity);
    }
    return sum;
}

const struct quantity *measure_parse(struct library *library, const char *text)
{
    struct token tokens[MOST_TOKENS];
    return quantity_of(library, tokens, read_tokens(library, text, tokens));
}

/* ---- reasons ---- */

/* Figures of machines, which nobody writes on a bottle: 0x1p-3, 1e9, inf, nan. */
static bool is_of_a_machine(const char *text)
{
    text += strspn(text, " \t-+");
    bool hexadecimal = text[0] == '0' && (text[1] | 0x20) == 'x';
    const char *end = text + strspn(text, "0123456789.");
    bool exponent = end > text && (end[0] | 0x20) == 'e' && end[1 + (end[1] == '-' || end[1] == '+')] >= '0' &&
                    end[1 + (end[1] == '-' || end[1] == '+')] <= '9';
    return hexadecimal || exponent;
}

/* "2 L", for the bounds: the value as it is written, in the unit that was given, else in the base unit. */
static const char *amount_in(struct library *library, double value, enum dimension dimension, const struct unit *unit)
{
    unit = unit != NULL && isnan(unit->factor) ? NULL : unit;
    unit = unit == NULL ? library_base_unit(library, dimension) : unit;
    double shown = unit == NULL ? value : value / unit->factor + unit->zero_at;
    const char *number = number_print_significant(library->arena, shown, 6);
    return unit == NULL ? number : arena_format(library->arena, "%s %.*s", number, TEXT_ARGUMENTS(unit->name));
}

static const char *wanted_phrase(const struct measure_wanted *wanted)
{
    if (wanted->percent) {
        return "a percentage";
    }
    for (int dimension = DIMENSIONS - 1; dimension > DIMENSION_NONE; dimension--) {
        unsigned bit = DIMENSION_BIT(dimension);
        if ((wanted->dimensions & bit) != 0) {
            bool weighed_too = dimension == DIMENSION_VOLUME && (wanted->dimensions & DIMENSION_BIT(DIMENSION_MASS)) != 0;
            return weighed_too ? "a volume or a weight" : dimension_phrases[dimension];
        }
    }
    return wanted->whole ? "a whole number" : dimension_phrases[DIMENSION_NONE];
}

static const char *expected(struct library *library, const struct measure_wanted *wanted)
{
    return arena_format(library->arena, "%s is expected, as in %s", wanted_phrase(wanted), wanted->example);
}

static const char *unknown_unit(struct library *library, const struct measure_wanted *wanted, const struct quantity *quantity)
{
    struct text near[1];
    size_t count = library_near_units(library, quantity->unit->spelling, wanted->dimensions, near, 1);
    const char *what = arena_format(library->arena, "\"%.*s\" is not a known unit", TEXT_ARGUMENTS(quantity->unit->spelling));
    return count > 0 ? arena_format(library->arena, "%s; did you mean %.*s?", what, TEXT_ARGUMENTS(near[0]))
                     : arena_format(library->arena, "%s; write it as in %s", what, wanted->example);
}

static const char *unclear_unit(struct library *library, const struct quantity *quantity)
{
    const struct unit *unit = library_unit(library, quantity->unit);
    const struct word *first = unit == NULL ? NULL : unit->unclear;
    if (first == NULL || first->next == NULL) {
        return arena_format(library->arena, "\"%.*s\" is read in more than one way", TEXT_ARGUMENTS(quantity->unit->spelling));
    }
    return arena_format(library->arena, "\"%.*s\" is read in more than one way; write %.*s or %.*s", TEXT_ARGUMENTS(unit->name),
                        TEXT_ARGUMENTS(first->name->spelling), TEXT_ARGUMENTS(first->next->name->spelling));
}

static const char *unit_of_two(struct library *library, const struct measure *measure)
{
    const struct unit *unit = measure->unit;
    struct text name = unit->name;
    double value = measure->at->value;
    return arena_format(library->arena, "%s %.*s is %.4g mL in US and %.4g mL in imperial measure; write \"%.9g US %.*s\" or \"%.9g imperial %.*s\"",
                        text_article(name), TEXT_ARGUMENTS(name), unit->us_factor, unit->imperial_factor, value,
                        TEXT_ARGUMENTS(name), value, TEXT_ARGUMENTS(name));
}

static const char *fault_words(struct library *library, const struct measure_wanted *wanted, const struct measure *measure)
{
    switch (measure->fault) {
    case MEASURE_UNKNOWN_UNIT:
        return unknown_unit(library, wanted, measure->at);
    case MEASURE_UNCLEAR_UNIT:
        return unclear_unit(library, measure->at);
    case MEASURE_UNIT_OF_TWO:
        return unit_of_two(library, measure);
    case MEASURE_MIXED:
        return arena_format(library->arena, "%s and %s cannot be added up", dimension_phrases[measure->dimension],
                            dimension_phrases[measure->other]);
    case MEASURE_GOOD:
        if ((wanted->dimensions & DIMENSION_BIT(measure->dimension)) == 0) {
            return arena_format(library->arena, "%s is expected, and this is %s; write it as in %s", wanted_phrase(wanted),
                                dimension_phrases[measure->dimension], wanted->example);
        }
        return expected(library, wanted);
    default:
        return expected(library, wanted);
    }
}

/* Too little or too much; NULL when it is neither. */
static const char *out_of_bounds(struct library *library, const struct measure_wanted *wanted, double value, enum dimension dimension,
                                 const struct unit *unit)
{
    bool scale = dimension == DIMENSION_TEMPERATURE; /* whose zero is no nothing */
    if (value < 0 && wanted->least >= 0 && !scale) {
        return arena_format(library->arena, "it is negative; write it as in %s", wanted->example);
    }
    if (value == 0 && (wanted->least > 0 || wanted->above_least) && !scale) {
        return arena_format(library->arena, "it is zero; write it as in %s", wanted->example);
    }
    if (value < wanted->least || (wanted->above_least && value == wanted->least)) {
        return arena_format(library->arena, "it is too little; the least is %s", amount_in(library, wanted->least, dimension, unit));
    }
    if (!(value <= wanted->most)) {
        return arena_format(library->arena, "it is too much; the most is %s", amount_in(library, wanted->most, dimension, unit));
    }
    return NULL;
}

/* What is wrong with the writing, before any unit is looked up; NULL when nothing is. */
static const char *miswritten(struct library *library, const char *text, const struct measure_wanted *wanted)
{
    if (is_of_a_machine(text)) {
        return arena_format(library->arena, "write the number out in decimal digits, as in %s", wanted->example);
    }
    if (strchr(text, ',') != NULL) {
        return "write the number with a decimal point, and with no mark between thousands";
    }
    return NULL;
}

struct measure_given measure_read_text(struct library *library, const char *text, const struct measure_wanted *wanted)
{
    struct measure_given given = {.value = NAN, .reason = miswritten(library, text, wanted)};
    if (given.reason != NULL) {
        return given;
    }
    struct token tokens[MOST_TOKENS];
    size_t count = read_tokens(library, text, tokens);
    if (wanted->percent && count > 2 && tokens[count - 2].kind == T_PERCENT && tokens[count - 2].value.basis == PERCENT_PLAIN) {
        count--;
    }
    const struct quantity *quantity = quantity_of(library, tokens, count);
    bool bare = quantity != NULL && quantity->unit == NULL;
    if (quantity == NULL || quantity->size != NULL || (bare && (wanted->dimensions & DIMENSION_BIT(DIMENSION_NONE)) == 0)) {
        given.reason = expected(library, wanted);
        return given;
    }
    if (bare) {
        given.value = quantity->value;
    } else {
        struct measure measure = measure_read(library, quantity, wanted->measures, wanted->liquid);
        bool fits = measure.leftover == NULL && measure.second == NULL && (wanted->dimensions & DIMENSION_BIT(measure.dimension)) != 0 &&
                    (measure.dimension != DIMENSION_TEMPERATURE || quantity->more == NULL);
        if (measure.fault != MEASURE_GOOD || !fits) {
            given.reason = fault_words(library, wanted, &measure);
            return given;
        }
        given.value = measure.low;
        given.dimension = measure.dimension;
        given.unit = measure.unit;
    }
    given.reason = out_of_bounds(library, wanted, given.value, given.dimension, given.unit);
    if (given.reason == NULL && wanted->whole && given.value != floor(given.value)) {
        given.reason = expected(library, wanted);
    }
    return given;
}

const char *measure_read_pair(struct library *library, const char *text, const struct measure_wanted *wanted, double *first,
                              double *second)
{
    struct token tokens[MOST_TOKENS];
    const char *reason = strchr(text, ',') != NULL ? miswritten(library, text, wanted) : NULL;
    size_t count = read_tokens(library, text, tokens);
    if (reason != NULL || count != 2 || tokens[0].kind != T_SIZE) {
        return reason != NULL ? reason : arena_format(library->arena, "two numbers are expected, as in %s", wanted->example);
    }
    const struct sheet_size *size = tokens[0].value.size;
    const struct unit *unit = size->unit == NULL ? NULL : library_unit(library, size->unit);
    enum dimension dimension = unit == NULL ? DIMENSION_NONE : unit->dimension;
    double factor = unit == NULL ? 1 : unit->factor;
    if (unit != NULL && (wanted->dimensions & DIMENSION_BIT(dimension)) == 0) {
        return arena_format(library->arena, "two numbers are expected, as in %s", wanted->example);
    }
    *first = size->width * factor;
    *second = size->height * factor;
    reason = out_of_bounds(library, wanted, *first, dimension, unit);
    reason = reason != NULL ? reason : out_of_bounds(library, wanted, *second, dimension, unit);
    bool fraction = *first != floor(*first) || *second != floor(*second);
    return reason != NULL || !wanted->whole || !fraction ? reason : expected(library, wanted);
}
