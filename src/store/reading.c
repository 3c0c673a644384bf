/* Dates, times, volumes and titles in the lines of batches and processes. */
#include "store/reading.h"

#include "base/calendar.h"

struct checker store_checker(struct formulary *formulary, struct formula *stand_in)
{
    return (struct checker){.formulary = formulary,
                            .library = formulary->library,
                            .diagnostics = formulary->diagnostics,
                            .arena = formulary->arena,
                            .forms = formulary->arena,
                            .formula = stand_in};
}

long store_read_day(struct checker *checker, struct text date, struct span span)
{
    long day = calendar_day(date);
    if (day == CALENDAR_NO_DAY) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, span, "the calendar has no day %.*s",
                                                  TEXT_ARGUMENTS(date));
        diagnostics_help(checker->diagnostics, diagnostic, "write year, month and day, as in: 2026-03-04");
    }
    return day;
}

double store_read_time(struct checker *checker, const struct quantity *quantity, const char *example)
{
    struct measure reading = check_quantity_of(checker, quantity, DIMENSION_TIME, example);
    if (reading.fault != MEASURE_GOOD) {
        return NAN;
    }
    if (!(reading.low > 0)) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span, "nothing takes this time");
        diagnostics_help(checker->diagnostics, diagnostic, "write a time such as %s", example);
        return NAN;
    }
    return reading.low;
}

double store_read_volume(struct checker *checker, const struct quantity *quantity, const char *example)
{
    struct measure reading = check_quantity_of(checker, quantity, DIMENSION_VOLUME, example);
    if (reading.fault != MEASURE_GOOD) {
        return NAN;
    }
    if (!(reading.low > 0)) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span,
                                                  "a volume must be more than nothing");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as in: %s", example);
        return NAN;
    }
    return reading.low;
}

void store_read_note(struct checker *checker, struct remark **notes, struct text text)
{
    struct remark *note = ARENA_NEW(checker->arena, struct remark);
    note->text = text;
    CHAIN_APPEND(notes, note);
}

void store_say_unknown_formula(struct checker *checker, struct text title, struct span span)
{
    struct diagnostic *diagnostic = check_say(checker, DIAG_FORMULA_UNKNOWN, span,
                                              "there is no formula \"%.*s\" in these files", TEXT_ARGUMENTS(title));
    struct text near = formulary_near_title(checker->formulary, title);
    if (near.length == 0) {
        diagnostics_help(checker->diagnostics, diagnostic,
                         "give its title as its heading has it, and take its file in with: read \"…\"");
        return;
    }
    diagnostics_help(checker->diagnostics, diagnostic, "did you mean \"%.*s\"?", TEXT_ARGUMENTS(near));
    diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "\"%.*s\"", TEXT_ARGUMENTS(near));
}
