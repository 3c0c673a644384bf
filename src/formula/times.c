/* Times of a use: what each holds for, the table that they make, and parts that are used one after the other. */
#include "formula/checking.h"

static struct time_row row_start(void)
{
    struct time_row row = {0};
    row.time[0] = row.time[1] = row.temperature = row.temperature_high = NAN;
    row.speed = row.contrast = row.grade = row.stock_parts = row.water_parts = NAN;
    return row;
}

/* A plain number within bounds; NAN when there is none or it is none, which is reported. */
static double check_index(struct checker *checker, const struct quantity *quantity, double most, const char *what)
{
    if (quantity == NULL) {
        return NAN;
    }
    if (!(quantity->value >= 0) || quantity->value > most) {
        check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span, "no %s is so", what);
        return NAN;
    }
    return quantity->value;
}

static void check_duration(struct checker *checker, const struct quantity *quantity, struct time_row *row)
{
    struct measure reading = check_quantity_of(checker, quantity, DIMENSION_TIME, "5 min");
    if (reading.fault != MEASURE_GOOD) {
        return;
    }
    if (!(reading.low > 0) || reading.high < reading.low) {
        bool backwards = reading.low > 0;
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span,
                      backwards ? "this is a range that ends below its beginning" : "no bath takes this time");
        diagnostics_help(checker->diagnostics, diagnostic,
                         backwards ? "put the shorter time first" : "write a time such as 5 min or 90 s");
        return;
    }
    row->time[0] = reading.low;
    row->time[1] = reading.high;
    row->time_span = quantity->span;
}

void check_conditions(struct checker *checker, const struct conditions *conditions, struct time_row *row)
{
    *row = row_start();
    if (conditions->time != NULL) {
        check_duration(checker, conditions->time, row);
    }
    if (conditions->temperature != NULL) {
        struct measure reading = check_quantity_of(checker, conditions->temperature, DIMENSION_TEMPERATURE, "at 20 °C");
        if (reading.fault == MEASURE_GOOD) {
            row->temperature = reading.low;
            row->temperature_high = reading.high;
            row->temperature_words = conditions->temperature;
        }
    }
    row->speed = check_index(checker, conditions->speed, 1e6, "film speed index");
    row->contrast = check_index(checker, conditions->contrast, 5, "contrast index");
    row->grade = check_index(checker, conditions->grade, 10, "paper grade");
    const struct ratio *ratio = conditions->ratio;
    if (ratio == NULL || ratio->doubtful || !check_ratio(checker, ratio)) {
        return;
    }
    if (ratio->count != 2) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_SYNTAX, ratio->span, "a time holds for one dilution of the bath");
        diagnostics_help(checker->diagnostics, diagnostic, "write parts of stock + parts of water, as in: time 13 min dilute 1+49");
        return;
    }
    row->stock_parts = ratio->figures[0];
    row->water_parts = ratio->figures[1];
    row->ratio = ratio;
}

void check_time(struct checker *checker, struct use *use, const struct time_statement *statement)
{
    struct time_row row;
    check_conditions(checker, &statement->of, &row);
    if (isnan(row.time[0])) {
        return;
    }
    row.span = statement->base.span;
    struct time_row *kept = ARENA_NEW(checker->forms, struct time_row);
    *kept = row;
    *(use->times == NULL ? &use->times : &use->last_time->next) = kept;
    use->last_time = kept;
}

void check_pour(struct checker *checker, struct use *use, const struct pour_statement *statement)
{
    struct part *part = check_open_part(check_find_part(checker->formula, checker->library->names, statement->part.name));
    if (part == NULL) {
        check_say_unknown_part(checker, statement->part.name, statement->part.span);
        return;
    }
    part->used = true;
    struct pour *pour = ARENA_NEW(checker->forms, struct pour);
    check_conditions(checker, &statement->of, &pour->of);
    pour->part = part;
    pour->of.span = statement->base.span;
    *(use->pours == NULL ? &use->pours : &use->last_pour->next) = pour;
    use->last_pour = pour;
}

static bool same_figure(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_conditions(const struct time_row *a, const struct time_row *b)
{
    bool dilution = same_figure(a->water_parts / a->stock_parts, b->water_parts / b->stock_parts);
    return dilution && same_figure(a->temperature, b->temperature) && same_figure(a->speed, b->speed) &&
           same_figure(a->contrast, b->contrast) && same_figure(a->grade, b->grade);
}

/* Two times for the same conditions: only the person knows what the second holds for, and nothing offers to drop it. */
static void refuse_second_time(struct checker *checker, const struct use *use, const struct time_row *row)
{
    for (const struct time_row *other = use->times; other != row; other = other->next) {
        if (same_conditions(other, row)) {
            struct diagnostic *diagnostic = check_say(checker, DIAG_DECLARED_TWICE, row->span, "the time is said a second time");
            diagnostics_relate(checker->diagnostics, diagnostic, other->span, "the first time is here");
            diagnostics_help(checker->diagnostics, diagnostic,
                             "say what each holds for, as in: time 7 min at 24 °C, or: time 13 min dilute 1+49");
            return;
        }
    }
}

/* Parts either go together or follow each other. */
static void refuse_mixture_in_sequence(struct checker *checker, const struct use *use)
{
    if (use->mix == NULL && isnan(use->stock_parts)) {
        return;
    }
    struct diagnostic *diagnostic = check_say(checker, DIAG_DECLARED_TWICE, use->pours->of.span,
                                              "this use mixes or dilutes the parts, and takes them one after the other as well");
    diagnostics_relate(checker->diagnostics, diagnostic, use->dilution_span, "the mixture is here");
    diagnostics_help(checker->diagnostics, diagnostic, "give each its own use, or leave out the mixture");
}

enum { MOST_TIMES = 200 }; /* each is held against those before it */

void check_times(struct checker *checker, struct use *use)
{
    if (use->pours != NULL) {
        refuse_mixture_in_sequence(checker, use);
    }
    for (struct pour *pour = (struct pour *)use->pours; pour != NULL; pour = (struct pour *)pour->next) {
        if (isnan(pour->of.temperature)) {
            pour->of.temperature = use->temperature;
            pour->of.temperature_high = use->temperature_high;
        }
    }
    if (use->times == NULL) {
        return;
    }
    const struct time_row *first = use->times;
    if (isnan(use->stock_parts) && use->mix == NULL && first->ratio != NULL) {
        use->stock_parts = first->stock_parts;
        use->water_parts = first->water_parts;
        use->ratio = first->ratio;
        use->dilution_span = first->span;
    }
    int count = 0;
    for (struct time_row *row = (struct time_row *)use->times; row != NULL; row = (struct time_row *)row->next) {
        if (isnan(row->temperature)) {
            row->temperature = use->temperature;
            row->temperature_high = use->temperature_high;
        }
        if (row->ratio == NULL) {
            row->stock_parts = use->stock_parts;
            row->water_parts = use->water_parts;
        }
        if (++count > MOST_TIMES) {
            diagnostics_help(checker->diagnostics,
                             check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, row->span, "a use has no more than %d times", MOST_TIMES),
                             "give another use the rest");
            row->next = NULL;
            break;
        }
        refuse_second_time(checker, use, row);
    }
    use->time[0] = first->time[0];
    use->time[1] = first->time[1];
    if (first->temperature_words != NULL) {
        use->temperature = first->temperature;
        use->temperature_high = first->temperature_high;
        use->temperature_words = first->temperature_words;
    }
}
