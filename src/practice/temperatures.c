/* Temperatures that no bath is mixed or used at, most of them degrees of the other scale. */
#include "practice/temperatures.h"

#include "library/groups.h"

#include <math.h>

static void say_temperature(const struct practice *practice, struct formula *formula, struct span span, double celsius,
                            const char *what, double low, double high)
{
    struct diagnostic *diagnostic =
        practice_say(practice, formula, DIAG_TEMPERATURE_UNUSUAL, span, "%.3g °C is an unusual temperature for %s", celsius, what);
    diagnostics_help(practice->formulary->diagnostics, diagnostic, "usual are %.3g to %.3g °C; is it in °F?", low, high);
    struct text written = source_text(practice->formulary->sources, span);
    if (written.length > 0 && (written.at[written.length - 1] == 'C' || written.at[written.length - 1] == 'c')) {
        struct span letter = {span.end - 1, span.end};
        double as_fahrenheit = (celsius - 32) * 5 / 9;
        if (as_fahrenheit >= low && as_fahrenheit <= high) {
            diagnostics_fix(practice->formulary->diagnostics, diagnostic, letter, "F", "degrees Fahrenheit are meant");
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
            const struct tails *tails = step->tails;
            struct span span = step_is_addition(step) && tails != NULL && tails->temperature != NULL
                                   ? tails->temperature->span
                                   : step->amount_span;
            say_temperature(practice, formula, span, step->temperature, "mixing", 15, 60);
        }
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        bool hot = use->temperature > WARM && use->temperature > hottest_in_use(formula);
        if (hot || use->temperature < 10) { /* neither when it is not known */
            say_temperature(practice, formula, use->temperature_span, use->temperature, "a bath in use", 16, 30);
        }
    }
}
