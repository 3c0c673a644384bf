/* Temperatures that no bath is mixed or used at, most of them degrees of the other scale. */
#include "practice/checks/temperatures.h"

#include "base/number.h"
#include "library/groups.h"

#include <math.h>

/* Says that a temperature is unusual, and offers the other scale where that would make it usual.  `words`: as it was written, or NULL. */
static void say_temperature(const struct practice *practice, struct formula *formula, struct span span, const struct quantity *words,
                            double celsius, const char *what, double low, double high)
{
    struct diagnostic *diagnostic = practice_say(practice, formula, DIAG_TEMPERATURE_UNUSUAL, span, "%s °C is an unusual temperature for %s",
                                                 number_print_significant(practice->formulary->arena, celsius, 3), what);
    diagnostics_help(practice->formulary->diagnostics, diagnostic, "usual are %.3g to %.3g °C; is it in °F?", low, high);
    struct library *library = practice->formulary->library;
    struct measure measure = words == NULL ? (struct measure){.fault = MEASURE_REFUSED} : measure_read(library, words, MEASURES_UNSTATED, false);
    const struct word *meant = measure.fault == MEASURE_GOOD && words->more == NULL ? measure.unit->mistaken : NULL;
    for (; meant != NULL; meant = meant->next) {
        const struct unit *unit = library_unit(library, meant->name);
        double value = unit == NULL || unit->dimension != DIMENSION_TEMPERATURE ? NAN : (words->value - unit->zero_at) * unit->factor;
        if (value >= low && value <= high) {
            formula_offer_unit(practice->formulary, diagnostic, measure.unit_span, meant);
        }
    }
}

static bool holds_role(const struct step *step, struct text role)
{
    return step_is_addition(step) && step->material != NULL && material_has_role(step->material, role);
}

/* Oxalate is one in company only: it makes paper sensitive itself, or develops what iron has made so. */
static bool is_hot_developer(const struct step *step)
{
    return holds_role(step, TEXT("developing agent")) && holds_role(step, TEXT("sensitizer"));
}

static bool is_agent(const struct step *step)
{
    return holds_role(step, TEXT("developing agent")) && !is_hot_developer(step);
}

/* Whether the part begins with another solvent than water. */
static bool begins_without_water(const struct part *part)
{
    const struct step *first = part->steps;
    return first != NULL && step_is_addition(first) && first->material != NULL && !first->material->is_water &&
           first->material->liquid;
}

/* Boiling water stands in old formulas for toners and sizes; other baths are mixed warm at the most (150 °F).  Glycols and amines
 * dissolve little unless they are hot.  Of developers and hardeners a rule says it first, with its reason (common practice). */
static double hottest(const struct formula *formula, const struct part *part)
{
    static const struct {
        const char *kind;
        double celsius;
    } hot[] = {{"toner", 100}, {"sensitizer", 100}, {"other", 100}, {"hardener", 80}, {"developer", 70}, {"replenisher", 70}};
    double most = 66;
    for (size_t i = 0; i < sizeof hot / sizeof *hot; i++) {
        most = text_is(formula->kind, hot[i].kind) ? hot[i].celsius : most;
    }
    return begins_without_water(part) ? 100 : most;
}

/* °C.  A room of 68 °F is a room everywhere; nobody warms a bath to that many degrees of the other scale (common practice). */
static const double ROOM_IN_FAHRENHEIT = 68;

/* °C: all baths but those may be as warm in use. */
static const double WARM = 45;

/* Sulfur toners are used warm, and the oxalate that develops platinum prints hot; developers of iron prints, which hold no developing
 * agent, may be warm too (common practice). */
static double hottest_in_use(const struct formula *formula)
{
    if (!text_is(formula->kind, "developer")) {
        return text_is(formula->kind, "toner") ? 57 : WARM;
    }
    bool oxalate = false;
    EACH_STEP(formula, part, step)
    {
        if (is_agent(step)) {
            return WARM;
        }
        oxalate = oxalate || is_hot_developer(step);
    }
    return oxalate ? 90 : 55;
}

/* How warm a step is, as it was written; NULL where the form of the water says so. */
static const struct quantity *temperature_words(const struct step *step)
{
    if (step->kind == STEP_COOL || step->kind == STEP_WARM) {
        return ((const struct quantity_statement *)step->statement)->quantity;
    }
    const struct tails *tails = step->tails;
    return tails == NULL ? NULL : tails->temperature != NULL ? tails->temperature : tails->other;
}

void temperatures_check(const struct practice *practice, struct formula *formula)
{
    EACH_STEP(formula, part, step)
    {
        if (isnan(step->temperature)) {
            continue;
        }
        double most = step->kind == STEP_COOL ? 45 : hottest(formula, part);
        bool of_a_room = step_is_addition(step) && step->temperature == ROOM_IN_FAHRENHEIT && most > 70;
        if (step->temperature > most || step->temperature < 4 || of_a_room) {
            const struct quantity *words = temperature_words(step);
            say_temperature(practice, formula, words == NULL ? step->amount_span : words->span, words, step->temperature, "mixing", 15, 60);
        }
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        bool hot = use->temperature > WARM && use->temperature > hottest_in_use(formula);
        if (hot || use->temperature < 10) { /* neither when it is not known */
            say_temperature(practice, formula, use->temperature_words->span, use->temperature_words, use->temperature, "a bath in use", 16, 30);
        }
    }
}
