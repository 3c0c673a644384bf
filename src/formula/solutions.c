/* Solutions that are added: some of another part, or of another formula. */
#include "formula/checking.h"

void check_solution(struct checker *checker, const struct solution_statement *statement)
{
    struct step *step = check_new_step(checker, STEP_ADDITION, &statement->base);
    step->how = ADD_SOLUTION;
    step->tails = statement->tails;
    step->amount_span = statement->quantity == NULL ? statement->base.span : statement->quantity->span;
    check_step_temperature(checker, step, statement->tails);
    if (statement->quantity == NULL) {
        return;
    }
    struct measure reading = check_quantity(checker, statement->quantity, true);
    if (reading.fault != MEASURE_GOOD || !check_amount_in_range(checker, step, &reading)) {
        return;
    }
    if (reading.dimension != DIMENSION_VOLUME && reading.dimension != DIMENSION_PARTS) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_UNIT_MISMATCH, step->amount_span, "a solution is measured by volume"),
                         "write it as in: solution A 10 mL");
        return;
    }
    step->volume = reading.low;
    step->high = reading.high / reading.low;
    step->approximate = reading.approximate;
    step->from_parts = reading.dimension == DIMENSION_PARTS;
    if (step->high > 1) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_RANGE_GIVEN, step->amount_span,
                                   "a range is given; its first figure is reckoned with"),
                         "the sheet prints the whole range");
    }
    if (step->approximate) {
        diagnostics_help(
            checker->diagnostics,
            check_say(checker, DIAG_DROP_APPROXIMATE, step->amount_span, "drops are only about %.3g mL", step->volume),
            "measure it where it matters");
    }
}
