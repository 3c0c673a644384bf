/* One formula, one system of units: grams and grains are both "g" to a hurried reader. */
#include "practice/checks/unit_systems.h"

#include "base/number.h"
#include "practice/repairs/repairs.h"

#include <math.h>

enum unit_system { SYSTEM_NONE, SYSTEM_METRIC, SYSTEM_OLD };

/* Drops and spoons are of no system, and neither are parts and stocks. */
static enum unit_system system_of(const struct practice *practice, const struct step *step)
{
    if (!step_is_addition(step) || step->approximate || step->from_parts || step->statement == NULL ||
        step->statement->kind != SAY_ADDITION) {
        return SYSTEM_NONE;
    }
    const struct amount_words *amount = ((const struct addition_statement *)step->statement)->amount;
    if (amount == NULL || amount->quantity == NULL || amount->quantity->unit == NULL || amount->strength != NULL) {
        return SYSTEM_NONE;
    }
    const struct unit *unit = library_unit(practice->formulary->library, amount->quantity->unit);
    if (unit == NULL || (unit->dimension != DIMENSION_MASS && unit->dimension != DIMENSION_VOLUME)) {
        return SYSTEM_NONE;
    }
    return unit->metric ? SYSTEM_METRIC : SYSTEM_OLD;
}

bool unit_systems_is_old(const struct practice *practice, const struct step *step)
{
    return system_of(practice, step) == SYSTEM_OLD;
}

void unit_systems_check(const struct practice *practice, struct formula *formula)
{
    const struct step *metric = NULL;
    size_t metric_count = 0;
    size_t old_count = 0;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            enum unit_system system = system_of(practice, step);
            old_count += system == SYSTEM_OLD;
            metric_count += system == SYSTEM_METRIC;
            metric = system == SYSTEM_METRIC && step->how == ADD_BY_MASS ? step : metric;
            if (metric_count > 1) {
                return;
            }
        }
    }
    if (metric_count != 1 || metric == NULL || old_count == 0 ||
        practice_said(practice, DIAG_AMOUNT_UNUSUAL, metric->amount_span)) {
        return;
    }
    struct diagnostic *diagnostic = practice_say(practice, formula, DIAG_AMOUNT_UNUSUAL, metric->amount_span,
                                                 "a single weight in metric units among ounces and grains");
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(practice, formula, metric, repairs);
    for (size_t i = 0; i < count; i++) {
        const struct unit *meant = repairs[i].meant == NULL ? NULL : library_unit(practice->formulary->library, repairs[i].meant->name);
        if (meant != NULL && !meant->metric) { /* the likeliest */
            struct arena *arena = practice->formulary->arena;
            diagnostics_help(practice->formulary->diagnostics, diagnostic, "%.*s are meant in most such formulas: this is %s times as much",
                             TEXT_ARGUMENTS(repairs[i].meant->name->spelling), number_print_significant(arena, 1 / repairs[i].factor, 3));
            repair_offer(practice, diagnostic, &repairs[i]);
            return;
        }
    }
}
