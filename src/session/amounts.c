/* Amounts that the options of a call give, read as the notation reads them. */
#include "session/session.h"

#include <math.h>

double session_read_option(struct potash *potash, const char *option, const char *words, const struct measure_wanted *wanted,
                           struct measure_given *given)
{
    *given = measure_read_text(&potash->library, words, wanted);
    if (given->reason != NULL && potash->message == NULL) {
        session_unusable(potash, "%s: \"%.80s\": %s", option, words, given->reason);
    }
    return given->reason == NULL ? given->value : NAN;
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

enum {
    MOST_MADE = 100000000,    /* mL or g: more than any works mixes at once */
    LEAST_MADE_A_MILLION = 1000 /* millionths of a mL or g: less than a balance or a pipette can give */
};

double session_read_make(struct potash *potash, const char *words, struct stated stated, bool *mass)
{
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_VOLUME) | DIMENSION_BIT(DIMENSION_MASS),
                                          .least = LEAST_MADE_A_MILLION / 1e6,
                                          .most = MOST_MADE,
                                          .liquid = !stated.dry,
                                          .measures = stated.measures,
                                          .example = "2 L, 500 mL or \"20 imperial fl oz\""};
    struct measure_given given;
    double amount = session_read_option(potash, "--make", words, &wanted, &given);
    *mass = given.dimension == DIMENSION_MASS;
    return amount;
}

double session_read_working(struct potash *potash, const char *words)
{
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_VOLUME),
                                          .least = LEAST_MADE_A_MILLION / 1e6,
                                          .most = MOST_MADE,
                                          .liquid = true,
                                          .measures = session_stated(potash).measures,
                                          .example = "300 mL"};
    struct measure_given given;
    return session_read_option(potash, "--working", words, &wanted, &given);
}
