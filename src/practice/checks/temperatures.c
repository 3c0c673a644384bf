/* Temperatures that no bath is mixed or used at, most of them degrees of the other scale. */
#include "practice/checks/temperatures.h"

#include "base/number.h"
#include "library/bath_kinds.h"
#include "library/groups.h"

#include <math.h>

struct holder {
    struct library *library;
    const struct formula *formula;
};

/* Whether an addition of the formula answers to the name. */
static bool holds(void *context, struct text name)
{
    const struct holder *holder = context;
    EACH_STEP(holder->formula, part, step)
    {
        if (step_is_addition(step) && step->material != NULL && material_answers_to(holder->library, step->material, name)) {
            return true;
        }
    }
    return false;
}

/* A unit that is written for the measure's by mistake (`next` of it, or the first), and °C that its number comes to in it. */
static const struct word *other_scale(struct library *library, const struct quantity *words, const struct measure *measure,
                                      const struct word *before, double *celsius)
{
    const struct word *meant = before != NULL ? before->next : measure->fault == MEASURE_GOOD && words->more == NULL ? measure->unit->mistaken : NULL;
    for (; meant != NULL; meant = meant->next) {
        const struct unit *unit = library_unit(library, meant->name);
        if (unit != NULL && unit->dimension == DIMENSION_TEMPERATURE) {
            *celsius = (words->value - unit->zero_at) * unit->factor;
            return meant;
        }
    }
    return NULL;
}

static struct measure read_temperature(struct library *library, const struct quantity *words)
{
    return words == NULL ? (struct measure){.fault = MEASURE_REFUSED} : measure_read(library, words, MEASURES_UNSTATED, false);
}

/* Says that a temperature is unusual, and offers the other scale where that would make it usual.  `words`: as it was written, or NULL. */
static void say_temperature(struct bench *bench, struct span span, const struct quantity *words, double celsius, const char *what,
                            enum bath_figure advised)
{
    struct holder holder = {bench->formulary->library, bench->formula};
    struct bath_range usual = library_bath_range(holder.library, bench->formula->kind, advised, NAN, holds, &holder);
    struct diagnostic *diagnostic = bench_say(bench, DIAG_TEMPERATURE_UNUSUAL, span, "%s °C is an unusual temperature for %s",
                                                 number_print_significant(bench->formulary->arena, celsius, 3), what);
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "usual are %.3g to %.3g °C; is it in °F?", usual.low, usual.high);
    struct library *library = bench->formulary->library;
    struct measure measure = read_temperature(library, words);
    double value;
    for (const struct word *meant = NULL; (meant = other_scale(library, words, &measure, meant, &value)) != NULL;) {
        if (value >= usual.low && value <= usual.high) {
            formula_offer_unit(bench->formulary, diagnostic, measure.unit_span, meant);
        }
    }
}

/* Whether the part begins with another solvent than water. */
static bool begins_without_water(const struct part *part)
{
    const struct step *first = part->steps;
    return first != NULL && step_is_addition(first) && first->material != NULL && !first->material->is_water &&
           first->material->liquid;
}

/* Glycols and amines dissolve little unless they are hot. */
static const double HOT_SOLVENT = 100;

/* How warm a step is, as it was written; NULL where the form of the water says so. */
static const struct quantity *temperature_words(const struct step *step)
{
    if (step->kind == STEP_COOL || step->kind == STEP_WARM) {
        return ((const struct quantity_statement *)step->statement)->quantity;
    }
    const struct tails *tails = step->tails;
    return tails == NULL ? NULL : tails->temperature != NULL ? tails->temperature : tails->other;
}

/* Whether the number is that of a room in another scale. */
static bool is_of_a_room(struct library *library, const struct formula *formula, const struct quantity *words)
{
    struct bath_range room = library_bath_range(library, formula->kind, BATH_ROOM, NAN, NULL, NULL);
    struct measure measure = read_temperature(library, words);
    double value;
    const struct word *meant = other_scale(library, words, &measure, NULL, &value);
    return meant != NULL && value >= room.low && value <= room.high && isfinite(room.low);
}

void temperatures_check(struct bench *bench)
{
    struct holder holder = {bench->formulary->library, bench->formula};
    EACH_STEP(bench->formula, part, step)
    {
        if (isnan(step->temperature)) {
            continue;
        }
        bool cools = step->kind == STEP_COOL;
        struct bath_range usual =
            library_bath_range(holder.library, bench->formula->kind, cools ? BATH_COOLING : BATH_MIXING, step->temperature, holds, &holder);
        double most = !cools && begins_without_water(part) ? HOT_SOLVENT : usual.high;
        const struct quantity *words = temperature_words(step);
        if (step->temperature > most || step->temperature < usual.low ||
            (step_is_addition(step) && is_of_a_room(holder.library, bench->formula, words))) {
            say_temperature(bench, words == NULL ? step->amount_span : words->span, words, step->temperature, "mixing", BATH_MIXING_ADVISED);
        }
    }
    for (const struct use *use = bench->formula->uses; use != NULL; use = use->next) {
        struct bath_range usual = library_bath_range(holder.library, bench->formula->kind, BATH_USE, use->temperature, holds, &holder);
        if (use->temperature > usual.high || use->temperature < usual.low) { /* neither when it is not known */
            say_temperature(bench, use->temperature_words->span, use->temperature_words, use->temperature, "a bath in use", BATH_USE_ADVISED);
        }
    }
}
