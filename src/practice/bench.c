/* What is said of the formula on the bench, and what its class says of its lines. */
#include "practice/bench.h"

#include <math.h>
#include <stdarg.h>

struct diagnostic *bench_say(struct bench *bench, enum diagnostic_id id, struct span span, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    struct diagnostic *diagnostic = formula_say(bench->formulary->diagnostics, bench->formula, id, span, format, arguments);
    va_end(arguments);
    return diagnostic;
}

bool bench_said(const struct bench *bench, enum diagnostic_id id, struct span span)
{
    return diagnostics_any(bench->formulary->diagnostics, id, span, bench->said_from);
}

bool bench_doubts_amount(const struct bench *bench, struct span line)
{
    return bench_said(bench, DIAG_AMOUNT_UNUSUAL, line) || bench_said(bench, DIAG_LOOK_ALIKE, line) ||
           bench_said(bench, DIAG_STOCK_TOO_STRONG, line);
}

double bench_class_place(const struct bench *bench, const struct step *step)
{
    for (size_t i = 0; i < bench->verdict.step_count; i++) {
        if (bench->verdict.steps[i] == step) {
            return bench->verdict.places[i];
        }
    }
    return NAN;
}

bool bench_vouches(const struct bench *bench, const struct step *step)
{
    for (size_t i = 0; i < bench->verdict.usual_count; i++) {
        const struct step *usual = bench->verdict.usual[i];
        if (usual == step) {
            return true;
        }
    }
    return false;
}
