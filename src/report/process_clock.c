/* The clock of a process: every pour at its moment, and what to do when the first bath is warmer or colder. */
#include "report/process.h"

#include "base/number.h"
#include "chemistry/time_temperature.h"

#include <math.h>

struct clock_columns {
    struct page_column *tick, *clock, *what, *lasts;
};

static struct page_row *add_row(struct page *page, struct page_table *table, const struct clock_columns *columns, double clock,
                                struct text what, double lasts)
{
    struct page_row *row = page_table_row(table);
    page_row_amount(row, columns->clock, page_clock(page->arena, clock), clock, TEXT("s"));
    page_row_cell(row, columns->what, what);
    if (!isnan(lasts)) {
        page_row_amount(row, columns->lasts, page_clock(page->arena, lasts), lasts, TEXT("s"));
    }
    return row;
}

/* What is worth knowing of the time that the clock gives a bath. */
static void remark_on_time(const struct process_sheet *sheet, const struct plan_stage *planned, struct page_row *row)
{
    struct page *page = sheet->page;
    const struct use *use = planned->stage->use;
    if (use == NULL || isnan(use->time[0])) {
        return;
    }
    struct text range = print_time_range(page, use->time[0], use->time[1]);
    if (planned->stage->part != NULL) {
        return;
    }
    if (planned->time_adjusted && planned->time_by_table) {
        page_row_note(row, page_format(page, "%.*s at %.*s lie between the formula's times at other temperatures: an estimate%s",
                                       TEXT_ARGUMENTS(print_minutes(page, planned->time)),
                                       TEXT_ARGUMENTS(print_temperature(page, planned->temperature, planned->temperature_high)),
                                       planned->time_extrapolated ? ", outside of what its table has" : ""));
    } else if (planned->time_adjusted) {
        page_row_note(row, page_format(page, "the %.*s of the formula at %.*s become %.*s at %.*s by its coefficient of %s for %s\u00A0°C: an "
                                             "estimate%s",
                                       TEXT_ARGUMENTS(range), TEXT_ARGUMENTS(print_temperature(page, use->temperature, NAN)),
                                       TEXT_ARGUMENTS(print_minutes(page, planned->time)),
                                       TEXT_ARGUMENTS(print_temperature(page, planned->temperature, planned->temperature_high)),
                                       number_print(page->arena, use->coefficient, 2), number_print(page->arena, use->coefficient_per, 1),
                                       planned->time_extrapolated ? ", further from the given temperature than such figures hold" : ""));
    } else if (!isnan(planned->stage->time[0]) && (planned->time < use->time[0] - 0.5 || planned->time > use->time[1] + 0.5)) {
        page_row_note(row, page_format(page, "the formula gives %.*s for this use", TEXT_ARGUMENTS(range)));
    } else if (use->time[1] > use->time[0] && isnan(planned->stage->time[0])) {
        page_row_remark(row, page_format(page, "the formula allows %.*s; the clock here takes the shorter", TEXT_ARGUMENTS(range)));
    }
}

static void add_bath(const struct process_sheet *sheet, struct page_table *table, const struct clock_columns *columns,
                     const struct plan_stage *planned)
{
    struct page *page = sheet->page;
    const struct stage *stage = planned->stage;
    bool trays = sheet->plan->process->trays;
    struct text name = process_bath_name(sheet, planned);
    struct page_row *row = add_row(page, table, columns, planned->start,
                                   page_format(page, trays ? "into %.*s" : "pour in %.*s", TEXT_ARGUMENTS(name)), planned->time);
    if (stage->agitation.length > 0) {
        page_row_remark(row, page_format(page, "agitate: %.*s", TEXT_ARGUMENTS(stage->agitation)));
    }
    remark_on_time(sheet, planned, row);
    for (const struct remark *note = stage->use == NULL ? NULL : stage->use->notes; note != NULL; note = note->next) {
        page_row_remark(row, note->text);
    }
    for (const struct remark *note = stage->notes; note != NULL; note = note->next) {
        page_row_remark(row, note->text);
    }
    if (isnan(planned->time)) {
        page_row_remark(row, TEXT("no time is stated: until it is done; stop the clock, and start it again with the next bath"));
        return;
    }
    bool again = !stage_is_once(stage);
    add_row(page, table, columns, planned->pour_out,
            page_format(page, trays ? "lift out and let it drip" : again ? "begin to pour out, back into the bottle" : "begin to pour out; it is not used again"),
            NAN);
}

static void add_wash(const struct process_sheet *sheet, struct page_table *table, const struct clock_columns *columns,
                     const struct plan_stage *planned)
{
    struct page *page = sheet->page;
    const struct stage *stage = planned->stage;
    struct text what = TEXT("wash in running water");
    if (!isnan(stage->changes)) {
        what = page_format(page, "wash in %s change%s of %.*s", number_print(page->arena, stage->changes, 0), stage->changes == 1 ? "" : "s",
                           TEXT_ARGUMENTS(print_volume(sheet->context, page, stage->filling)));
    } else if (!isnan(stage->flow)) {
        what = page_format(page, "wash in running water, %.*s a minute",
                           TEXT_ARGUMENTS(print_volume(sheet->context, page, stage->flow * 60)));
    }
    if (!isnan(planned->temperature)) {
        what = page_format(page, "%.*s at %.*s", TEXT_ARGUMENTS(what), TEXT_ARGUMENTS(print_temperature(page, planned->temperature, planned->temperature_high)));
    }
    struct page_row *row = add_row(page, table, columns, planned->start, what, planned->time);
    if (stage->changes > 1 && !isnan(planned->time)) {
        page_row_remark(row, page_format(page, "change the water every %.*s%s", TEXT_ARGUMENTS(print_minutes(page, planned->time / stage->changes)),
                                         planned->time_assumed ? "; the process states no time, and a minute for each is assumed" : ""));
    }
}

static struct text stage_name(const struct process_sheet *sheet, const struct plan_stage *planned)
{
    return planned->stage->kind == STAGE_BATH   ? planned->stage->title
           : planned->stage->kind == STAGE_WASH ? TEXT("wash")
                                                : page_format(sheet->page, "%.*s", TEXT_ARGUMENTS(planned->stage->title));
}

static void add_course(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    struct page_timeline *timeline = page_add_timeline(page, page_format(page, "The course of one load, %.*s",
                                                                         TEXT_ARGUMENTS(page_clock(page->arena, sheet->plan->length))));
    for (const struct plan_stage *planned = sheet->plan->stages; planned != NULL; planned = planned->next) {
        struct text detail = isnan(planned->temperature) ? (struct text){0} : print_temperature(page, planned->temperature, planned->temperature_high);
        page_stage(timeline, stage_name(sheet, planned), detail, planned->start, planned->time);
    }
}

/* ---- temperature ---- */

/* Between baths of a film this is as much as a step of temperature should be, °C (common practice, no source). */
static const double largest_step = 3;

/* Times of the development at a degree or two more or less, where the formula has a coefficient. */
static void add_drift(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    bool told = false;
    for (const struct plan_stage *planned = sheet->plan->stages; planned != NULL; planned = planned->next) {
        const struct use *use = planned->stage->use;
        bool known = use != NULL && !isnan(use->coefficient) && !isnan(planned->temperature) && !isnan(planned->time);
        if (!known) {
            continue;
        }
        struct buffer line;
        buffer_start(&line, page->arena);
        for (double step = -2; step <= 2; step++) {
            double at = planned->temperature + step;
            double time = time_at_temperature(planned->time, planned->temperature, at, use->coefficient, use->coefficient_per);
            buffer_format(&line, "%s%.*s at %.*s", line.length == 0 ? "" : ", ", TEXT_ARGUMENTS(page_clock(page->arena, round(time / 5) * 5)),
                          TEXT_ARGUMENTS(print_temperature(page, at, NAN)));
        }
        if (!told) {
            page_add_heading(page, 2, TEXT("If it is warmer or colder"));
            told = true;
        }
        page_add_paragraph(page, page_format(page, "%.*s, an estimate by its coefficient: %s. Every later time of the clock shifts by as much.",
                                             TEXT_ARGUMENTS(planned->stage->title), buffer_finish(&line)));
    }
}

static void add_steps(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    const struct plan_stage *before = NULL;
    for (const struct plan_stage *planned = sheet->plan->stages; planned != NULL; planned = planned->next) {
        if (isnan(planned->temperature)) {
            continue;
        }
        /* Of a range, what lies nearest to the bath before can be chosen. */
        double high = isnan(planned->temperature_high) ? planned->temperature : planned->temperature_high;
        double high_before = before == NULL || isnan(before->temperature_high) ? NAN : before->temperature_high;
        high_before = before != NULL && isnan(high_before) ? before->temperature : high_before;
        bool far = before != NULL && (planned->temperature - high_before > largest_step || before->temperature - high > largest_step);
        if (far) {
            page_add_warning(page, PAGE_CAUTION, TEXT("a step of temperature"),
                             page_format(page, "%.*s stands at %.*s and %.*s at %.*s; a sudden step can wrinkle the gelatine. Bring the "
                                               "later baths up or down slowly.",
                                         TEXT_ARGUMENTS(stage_name(sheet, before)), TEXT_ARGUMENTS(print_temperature(page, before->temperature, before->temperature_high)),
                                         TEXT_ARGUMENTS(stage_name(sheet, planned)),
                                         TEXT_ARGUMENTS(print_temperature(page, planned->temperature, planned->temperature_high))));
        }
        before = planned;
    }
}

void process_clock(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    bool trays = sheet->plan->process->trays;
    page_add_heading(page, 2, TEXT("By the clock"));
    struct text drain = print_time(page, sheet->plan->drain);
    const char *assumed = sheet->plan->drain_assumed ? " (assumed)" : "";
    page_add_paragraph(page, trays ? page_format(page, "Times count from the moment the print goes into a tray, and take in the %.*s%s in "
                                                       "which it drips.",
                                                 TEXT_ARGUMENTS(drain), assumed)
                                   : page_format(page, "Times count from the beginning of each pour, and take in the %.*s%s of pouring out.",
                                                 TEXT_ARGUMENTS(drain), assumed));
    struct page_table *table = page_add_table(page);
    page_table_at_bench(table);
    struct clock_columns columns = {0};
    columns.tick = page_table_column(table, (struct text){0}, PAGE_COLUMN_TICK, PAGE_CENTRE, 1);
    columns.clock = page_table_column(table, TEXT("clock"), PAGE_COLUMN_AMOUNT, PAGE_RIGHT, 1);
    columns.what = page_table_column(table, TEXT("do"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.lasts = page_table_column(table, TEXT("for"), PAGE_COLUMN_AMOUNT, PAGE_RIGHT, 1);
    for (const struct plan_stage *planned = sheet->plan->stages; planned != NULL; planned = planned->next) {
        if (planned->stage->kind == STAGE_BATH) {
            add_bath(sheet, table, &columns, planned);
        } else if (planned->stage->kind == STAGE_WASH) {
            add_wash(sheet, table, &columns, planned);
        } else {
            struct page_row *row = add_row(page, table, &columns, planned->start, planned->stage->title, planned->time);
            if (isnan(planned->time)) {
                page_row_remark(row, TEXT("the clock stands still for this"));
            }
        }
    }
    add_row(page, table, &columns, sheet->plan->length, TEXT("end"), NAN);
    add_steps(sheet);
    add_course(sheet);
    add_drift(sheet);
}
