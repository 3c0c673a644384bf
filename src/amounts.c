/* Amounts that the options of a call give, read as the notation reads them. */
#include "session.h"

#include "syntax/parse.h"

#include <math.h>

const struct quantity *session_read_quantity(struct potash *potash, const char *option, const char *words)
{
    char *line = arena_format(&potash->arena, "formula \"amount\"\nmakes %s\n", words);
    struct source_file *source = source_add(&potash->sources, option, line, strlen(line), true);
    struct diagnostics aside;
    diagnostics_start(&aside, &potash->arena, &potash->sources);
    struct syntax_file *file = syntax_parse(&potash->arena, &potash->names, &aside, source, false);
    const struct declaration *declaration = file->declarations;
    const struct statement *statement = declaration == NULL ? NULL : declaration->statements;
    bool readable = aside.errors == 0 && statement != NULL && statement->kind == SAY_MAKES && statement->next == NULL &&
                    strchr(words, '\n') == NULL;
    const struct quantity *quantity = readable ? ((const struct quantity_statement *)statement)->quantity : NULL;
    return quantity == NULL || quantity->high != NULL ? NULL : quantity;
}

/* ---- whose pints ---- */

enum { DEEPEST = 64 /* variants of variants, as formulas are checked */ };

static const struct declaration *titled(const struct potash *potash, struct text title)
{
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        for (const struct declaration *at = item->file->declarations; at != NULL; at = at->next) {
            bool formula = at->kind == DECLARE_FORMULA || at->kind == DECLARE_VARIANT;
            if (formula && text_equal(at->title, title)) {
                return at;
            }
        }
    }
    return NULL;
}

/* The measures that a formula says it is in; a variant is in its parent's, unless it says others. */
static enum measures measures_of(struct potash *potash, const struct declaration *formula, int depth)
{
    const struct text_statement *of = NULL;
    for (const struct statement *statement = formula->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_MEASURES) {
            const struct words_statement *words = (const struct words_statement *)statement;
            return formula_measures_named(names_folded(&potash->names, words->words->name)->spelling);
        }
        of = statement->kind == SAY_OF ? (const struct text_statement *)statement : of;
    }
    const struct declaration *parent = of == NULL || depth == DEEPEST ? NULL : titled(potash, of->text);
    return parent == NULL ? MEASURES_UNSTATED : measures_of(potash, parent, depth + 1);
}

/* The formula says that it makes a weight, as a dry mix does; a variant makes what its parent makes, unless it says more. */
static bool weighs(struct potash *potash, const struct declaration *formula, int depth)
{
    const struct text_statement *of = NULL;
    for (const struct statement *statement = formula->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_MAKES) {
            const struct quantity *quantity = ((const struct quantity_statement *)statement)->quantity;
            const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(&potash->library, quantity->unit);
            return unit != NULL && unit->dimension == DIMENSION_MASS && unit->of_liquids == NULL;
        }
        of = statement->kind == SAY_OF ? (const struct text_statement *)statement : of;
    }
    const struct declaration *parent = of == NULL || depth == DEEPEST ? NULL : titled(potash, of->text);
    return parent != NULL && weighs(potash, parent, depth + 1);
}

struct stated session_stated(struct potash *potash)
{
    struct stated all = {MEASURES_UNSTATED, false};
    bool first = true;
    const char *title = potash->options.title;
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        for (const struct declaration *at = item->file->declarations; at != NULL; at = at->next) {
            bool formula = at->kind == DECLARE_FORMULA || at->kind == DECLARE_VARIANT;
            if (!formula || (title == NULL ? !item->file->source->named : !text_is(at->title, title))) {
                continue;
            }
            enum measures one = measures_of(potash, at, 0);
            bool dry = weighs(potash, at, 0);
            all.measures = first || one == all.measures ? one : MEASURES_UNSTATED;
            all.dry = dry && (first || all.dry);
            first = false;
            if (all.measures == MEASURES_UNSTATED && !all.dry) {
                return all;
            }
        }
    }
    return all;
}

/* ---- amounts ---- */

double session_read_amount(struct potash *potash, const char *option, const char *words, struct stated stated, bool *mass)
{
    const struct quantity *quantity = session_read_quantity(potash, option, words);
    double amount = quantity != NULL ? 0 : NAN;
    for (const struct quantity *measure = quantity; measure != NULL; measure = measure->more) {
        const struct unit *unit = measure->unit == NULL ? NULL : library_unit(&potash->library, measure->unit);
        struct unit_reading reading = {0};
        if (unit != NULL) {
            reading = library_read_unit(unit, stated.measures, !stated.dry);
        }
        if (unit != NULL && reading.answer == UNIT_NEEDS_MEASURES && stated.dry) {
            reading.answer = UNIT_GOOD; /* whatever it is, it is no weight */
        }
        if (unit != NULL && reading.answer == UNIT_NEEDS_MEASURES) {
            const char *name = arena_format(&potash->arena, "%.*s", TEXT_ARGUMENTS(reading.unit->name));
            session_unusable(potash, "%s: %s %s is %.4g mL in US and %.4g mL in imperial measure; write \"%.9g US %s\" or \"%.9g imperial %s\"",
                             option, text_article(reading.unit->name), name, reading.unit->us_factor, reading.unit->imperial_factor,
                             measure->value, name, measure->value, name);
            return NAN;
        }
        bool good = unit != NULL && reading.answer == UNIT_GOOD &&
                    (reading.dimension == DIMENSION_VOLUME || reading.dimension == DIMENSION_MASS);
        good = good && (measure == quantity || *mass == (reading.dimension == DIMENSION_MASS));
        *mass = reading.dimension == DIMENSION_MASS;
        amount = good ? amount + measure->value * reading.factor : NAN;
    }
    return amount > 0 ? amount : NAN;
}

double session_read_make(struct potash *potash, const char *words, struct stated stated, bool *mass)
{
    double amount = session_read_amount(potash, "--make", words, stated, mass);
    if (isnan(amount) && potash->message == NULL) {
        session_unusable(potash, "--make: \"%.80s\" is no batch size; write it as 2 L, 500 mL or \"20 imperial fl oz\"", words);
    }
    return amount;
}
