/* One formula, one system of units: grams and grains are both "g" to a hurried reader. */
#include "practice/checks/unit_systems.h"

#include "base/number.h"
#include "practice/repairs/repairs.h"

#include <math.h>

void unit_systems_check(struct bench *bench)
{
    const struct step *metric = NULL;
    size_t metric_count = 0;
    size_t old_count = 0;
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            enum unit_system system = repairs_system_of(bench, step);
            old_count += system == SYSTEM_OLD;
            metric_count += system == SYSTEM_METRIC;
            metric = system == SYSTEM_METRIC && step->how == ADD_BY_MASS ? step : metric;
            if (metric_count > 1) {
                return;
            }
        }
    }
    if (metric_count != 1 || metric == NULL || old_count == 0 ||
        bench_said(bench, DIAG_AMOUNT_UNUSUAL, metric->amount_span)) {
        return;
    }
    struct diagnostic *diagnostic = bench_say(bench, DIAG_AMOUNT_UNUSUAL, metric->amount_span,
                                                 "a single weight in metric units among ounces and grains");
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(bench, metric, repairs);
    for (size_t i = 0; i < count; i++) {
        const struct unit *meant = repairs[i].meant == NULL ? NULL : library_unit(bench->formulary->library, repairs[i].meant->name);
        if (meant != NULL && !meant->metric) { /* the likeliest */
            struct arena *arena = bench->formulary->arena;
            diagnostics_help(bench->formulary->diagnostics, diagnostic, "%.*s are meant in most such formulas: this is %s times as much",
                             TEXT_ARGUMENTS(repairs[i].meant->name->spelling), number_print_significant(arena, 1 / repairs[i].factor, 3));
            repair_offer(bench, diagnostic, &repairs[i]);
            return;
        }
    }
}
