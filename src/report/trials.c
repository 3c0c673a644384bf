/* Trials beside a formula: what was tried with its batches, so that a change to it has its reason. */
#include "report/records.h"

#include "base/number.h"
#include "report/json_values.h"

#include <math.h>
#include <stdlib.h>

/* More of them stand in the diary; a page has room for these. */
enum { MOST_SHOWN = 8 };

static int later_first(const void *a, const void *b)
{
    const struct trial *one = *(const struct trial *const *)a;
    const struct trial *other = *(const struct trial *const *)b;
    if (one->day != other->day) {
        return one->day > other->day ? -1 : 1;
    }
    return one->span.begin > other->span.begin ? -1 : 1;
}

/* All trials of a formula, the latest first; *count gets how many. */
static const struct trial **sorted(struct arena *arena, const struct batch_list *list, size_t *count)
{
    *count = 0;
    for (const struct mixing *batch = list->first; batch != NULL; batch = batch->next_alike) {
        for (const struct trial *trial = batch->trials; trial != NULL; trial = trial->next) {
            *count += 1;
        }
    }
    const struct trial **trials = ARENA_ARRAY(arena, const struct trial *, *count + 1);
    size_t at = 0;
    for (const struct mixing *batch = list->first; batch != NULL; batch = batch->next_alike) {
        for (const struct trial *trial = batch->trials; trial != NULL; trial = trial->next) {
            trials[at++] = trial;
        }
    }
    qsort(trials, *count, sizeof *trials, later_first);
    return trials;
}

/* "film at 20 °C, 9 min; speed 200, grade 2". */
static struct text circumstances(struct page *page, const struct trial *trial)
{
    struct buffer out;
    buffer_start(&out, page->arena);
    buffer_text(&out, trial->use);
    const struct time_row *of = &trial->of;
    if (!isnan(of->temperature)) {
        struct text temperature = print_temperature(page, of->temperature, of->temperature_high);
        buffer_format(&out, "%sat %.*s", out.length > 0 ? " " : "", TEXT_ARGUMENTS(temperature));
    }
    if (!isnan(of->time[0])) {
        struct text time = of->time[1] > of->time[0] ? print_time_range(page, of->time[0], of->time[1]) : print_minutes(page, of->time[0]);
        buffer_format(&out, "%s%.*s", out.length > 0 ? ", " : "", TEXT_ARGUMENTS(time));
    }
    print_conditions(page, of, true, &out);
    return (struct text){buffer_finish(&out), out.length};
}

void report_trials(const struct batch_list *list, struct text heading, struct page *page)
{
    size_t count = 0;
    const struct trial **trials = list == NULL ? NULL : sorted(page->arena, list, &count);
    if (count == 0) {
        return;
    }
    page_add_heading(page, 2, heading);
    struct page_table *table = page_add_table(page);
    struct page_column *day = page_table_column(table, TEXT("on"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *batch = page_table_column(table, TEXT("batch"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    struct page_column *how = page_table_column(table, TEXT("how"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *verdict = page_table_column(table, TEXT("it came out"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    for (size_t i = 0; i < count && i < MOST_SHOWN; i++) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, day, calendar_print(page->arena, trials[i]->day));
        page_row_cell(row, batch, trials[i]->batch->id);
        page_row_cell(row, how, circumstances(page, trials[i]));
        page_row_cell(row, verdict, trials[i]->verdict);
    }
    if (count > MOST_SHOWN) {
        page_add_paragraph(page, page_format(page, "%zu earlier trials stand in the diary.", count - MOST_SHOWN));
    }
}

json_t *report_trials_json(const struct batch_list *list, struct arena *arena)
{
    json_t *array = json_array();
    size_t count = 0;
    const struct trial **trials = list == NULL ? NULL : sorted(arena, list, &count);
    for (size_t i = 0; i < count; i++) {
        const struct trial *trial = trials[i];
        const struct time_row *of = &trial->of;
        put_item(&array, json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "date",
                                   text_or_null(calendar_print(arena, trial->day)), "batch", text_json(trial->batch->id), "for",
                                   text_or_null(trial->use), "temperature_C", number_or_null(of->temperature), "time_s",
                                   number_or_null(of->time[0]), "speed", number_or_null(of->speed), "contrast",
                                   number_or_null(of->contrast), "grade", number_or_null(of->grade), "verdict", text_or_null(trial->verdict)));
    }
    return array;
}
