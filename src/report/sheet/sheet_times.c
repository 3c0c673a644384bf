/* Times on the mixing sheet: the table of a use, what of it was tried, and the time for the bath in hand. */
#include "report/sheet/model.h"

#include "base/number.h"
#include "chemistry/time_temperature.h"
#include "report/records.h"

#include <math.h>

/* The days on which a row was tried, the latest first, with what came of the last; empty when it was not. */
static struct text tried(const struct sheet *sheet, const struct use *use, const struct time_row *row)
{
    const struct trial *latest = NULL;
    size_t count = 0;
    const struct batch_list *list = batches_of(sheet->context->batches, sheet->batch->written);
    for (const struct mixing *batch = list == NULL ? NULL : list->first; batch != NULL; batch = batch->next_alike) {
        for (const struct trial *trial = batch->trials; trial != NULL; trial = trial->next) {
            bool of_use = trial->use.length == 0 || (trial->use.length == use->name.length && strncasecmp(trial->use.at, use->name.at, use->name.length) == 0);
            if (of_use && time_row_tried(row, &trial->of)) {
                count++;
                latest = latest == NULL || trial->day >= latest->day ? trial : latest;
            }
        }
    }
    if (latest == NULL) {
        return (struct text){0};
    }
    struct buffer out;
    buffer_start(&out, sheet->page->arena);
    buffer_text(&out, calendar_print(sheet->page->arena, latest->day));
    if (latest->verdict.length > 0) {
        buffer_format(&out, ": %.*s", TEXT_ARGUMENTS(latest->verdict));
    }
    if (count > 1) {
        buffer_format(&out, " (and %zu earlier)", count - 1);
    }
    return (struct text){buffer_finish(&out), out.length};
}

/* ---- the table ---- */

/* What a column is about, and its cell of a row; empty where the row says nothing. */
typedef struct text row_cell(const struct sheet *sheet, const struct use *use, const struct time_row *row);

static struct text index_cell(const struct sheet *sheet, double index)
{
    return isnan(index) ? (struct text){0} : text_from(number_print(sheet->page->arena, index, 2));
}

static struct text temperature_cell(const struct sheet *sheet, const struct use *use, const struct time_row *row)
{
    (void)use;
    return isnan(row->temperature) ? (struct text){0} : print_temperature(sheet->page, row->temperature, row->temperature_high);
}

static struct text speed_cell(const struct sheet *sheet, const struct use *use, const struct time_row *row)
{
    (void)use;
    return index_cell(sheet, row->speed);
}

static struct text contrast_cell(const struct sheet *sheet, const struct use *use, const struct time_row *row)
{
    (void)use;
    return index_cell(sheet, row->contrast);
}

static struct text grade_cell(const struct sheet *sheet, const struct use *use, const struct time_row *row)
{
    (void)use;
    return index_cell(sheet, row->grade);
}

/* Only where a row has its own dilution; then each says it. */
static struct text dilution_cell(const struct sheet *sheet, const struct use *use, const struct time_row *row)
{
    bool own = false;
    for (const struct time_row *other = use->times; other != NULL; other = other->next) {
        own = own || other->ratio != NULL;
    }
    return !own || isnan(row->stock_parts) ? (struct text){0} : print_ratio(sheet->page, row->stock_parts, row->water_parts);
}

static struct text time_cell(const struct sheet *sheet, const struct use *use, const struct time_row *row)
{
    (void)use;
    return print_time_range(sheet->page, row->time[0], row->time[1]);
}

static const struct {
    const char *heading;
    row_cell *cell;
} columns[] = {{"at", temperature_cell},        {"for speed", speed_cell}, {"contrast", contrast_cell}, {"grade", grade_cell},
               {"diluted", dilution_cell}, {"time", time_cell},       {"tried", tried}};

enum { COLUMNS = sizeof columns / sizeof *columns };

static void add_sequence(const struct sheet *sheet, const struct use *use)
{
    struct page *page = sheet->page;
    struct page_table *table = page_add_table(page);
    struct page_column *bath = page_table_column(table, TEXT("bath"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *at = page_table_column(table, TEXT("at"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *time = page_table_column(table, TEXT("time"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    for (const struct pour *pour = use->pours; pour != NULL; pour = pour->next) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, bath, pour->part->name == NULL ? TEXT("stock") : page_format(page, "part %.*s", TEXT_ARGUMENTS(pour->part->name->spelling)));
        page_row_cell(row, at, temperature_cell(sheet, use, &pour->of));
        page_row_cell(row, time, isnan(pour->of.time[0]) ? (struct text){0} : time_cell(sheet, use, &pour->of));
    }
}

void sheet_add_times(const struct sheet *sheet, const struct use *use)
{
    if (use->pours != NULL) {
        add_sequence(sheet, use);
    }
    if (!time_table_stands(use)) {
        return;
    }
    struct page_table *table = page_add_table(sheet->page);
    struct page_column *shown[COLUMNS] = {NULL};
    for (size_t i = 0; i < COLUMNS; i++) {
        for (const struct time_row *row = use->times; row != NULL && shown[i] == NULL; row = row->next) {
            if (columns[i].cell(sheet, use, row).length > 0) {
                shown[i] = page_table_column(table, text_from(columns[i].heading), PAGE_COLUMN_TEXT, PAGE_LEFT, columns[i].cell == tried ? 2 : 1);
            }
        }
    }
    for (const struct time_row *row = use->times; row != NULL; row = row->next) {
        struct page_row *line = page_table_row(table);
        for (size_t i = 0; i < COLUMNS; i++) {
            if (shown[i] != NULL) {
                page_row_cell(line, shown[i], columns[i].cell(sheet, use, row));
            }
        }
    }
}

/* ---- the time for the bath in hand ---- */

static struct text minutes(const struct sheet *sheet, const double time[2])
{
    struct page *page = sheet->page;
    struct text first = print_minutes(page, time[0]);
    return time[1] > time[0] ? page_format(page, "%.*s to %.*s", TEXT_ARGUMENTS(first), TEXT_ARGUMENTS(print_minutes(page, time[1]))) : first;
}

static struct text answer_words(const struct sheet *sheet, const struct use *use, const struct time_answer *answer)
{
    struct page *page = sheet->page;
    bool coefficient = answer->source == TIME_BY_COEFFICIENT;
    if (answer->source == TIME_NOT_KNOWN) {
        return isnan(use->coefficient) ? TEXT("not known: the formula declares no temperature coefficient, and no time at another temperature")
                                       : TEXT("not known");
    }
    struct text time = minutes(sheet, answer->row.time);
    if (answer->source == TIME_OF_ROW) {
        return time;
    }
    if (!answer->beyond) {
        return page_format(page, "%.*s (estimate%s)", TEXT_ARGUMENTS(time), coefficient ? "" : ", between rows of the table");
    }
    return coefficient && use->times->next == NULL
               ? page_format(page, "%.*s, an extrapolation: outside %s to %s\u00A0°C a coefficient is not known to hold; make a test",
                             TEXT_ARGUMENTS(time), number_print(page->arena, time_temperature_lowest, 0),
                             number_print(page->arena, time_temperature_highest, 0))
               : page_format(page, "%.*s, an extrapolation: the temperature lies outside the table; make a test", TEXT_ARGUMENTS(time));
}

static bool is_asked(const struct time_row *wanted)
{
    return !isnan(wanted->temperature) || !isnan(wanted->speed) || !isnan(wanted->contrast) || !isnan(wanted->grade);
}

void sheet_fill_times(const struct sheet *sheet, struct sheet_use *of)
{
    static const double usual[] = {18, 20, 22, 24};
    struct arena *arena = sheet->page->arena;
    const struct use *use = of->use;
    if (use->times == NULL || (isnan(use->temperature) && !time_table_stands(use))) {
        return;
    }
    of->asked = is_asked(&sheet->context->wanted);
    if (of->asked) {
        of->times = time_table_find(arena, use, &sheet->context->wanted);
        return;
    }
    const struct time_answer **end = &of->times;
    for (size_t i = 0; !isnan(use->coefficient) && !time_table_stands(use) && i < sizeof usual / sizeof *usual; i++) {
        if (fabs(usual[i] - use->temperature) < 1 || !time_temperature_holds(use->temperature, usual[i])) {
            continue;
        }
        struct time_answer *answer = ARENA_NEW(arena, struct time_answer);
        answer->row = (struct time_row){.temperature = usual[i], .speed = NAN, .contrast = NAN, .grade = NAN};
        answer->source = TIME_BY_COEFFICIENT;
        for (int side = 0; side < 2; side++) {
            answer->row.time[side] =
                time_at_temperature(use->time[side], use->temperature, usual[i], use->coefficient, use->coefficient_per);
        }
        *end = answer;
        end = (const struct time_answer **)&answer->next;
    }
}

static void add_asked(const struct sheet *sheet, const struct sheet_use *of, struct page_facts *facts)
{
    struct page *page = sheet->page;
    const struct time_row *wanted = &sheet->context->wanted;
    struct text label = TEXT("time");
    if (!isnan(wanted->temperature)) {
        label = page_format(page, "time at %s\u00A0°C", number_print(page->arena, wanted->temperature, 1));
    }
    if (of->times == NULL) {
        struct buffer out;
        buffer_start(&out, page->arena);
        print_conditions(page, wanted, false, &out);
        page_facts_add(facts, label, page_format(page, "not given: the table does not reach to %s", buffer_finish(&out)));
    }
    for (const struct time_answer *answer = of->times; answer != NULL; answer = answer->next) {
        struct buffer out;
        buffer_start(&out, page->arena);
        print_conditions(page, &answer->row, dilution_cell(sheet, of->use, &answer->row).length > 0, &out);
        struct text words = answer_words(sheet, of->use, answer);
        page_facts_add(facts, label, out.length == 0 ? words : page_format(page, "%s: %.*s", buffer_finish(&out), TEXT_ARGUMENTS(words)));
    }
}

void sheet_add_other_times(const struct sheet *sheet, const struct sheet_use *of, struct page_facts *facts)
{
    struct page *page = sheet->page;
    const struct use *use = of->use;
    if (of->asked) {
        add_asked(sheet, of, facts);
        return;
    }
    if (use->times == NULL || isnan(use->temperature) || time_table_stands(use)) {
        return;
    }
    struct text days = tried(sheet, use, use->times);
    if (days.length > 0) {
        page_facts_add(facts, TEXT("tried"), days);
    }
    struct buffer list;
    buffer_start(&list, page->arena);
    for (const struct time_answer *answer = of->times; answer != NULL; answer = answer->next) {
        buffer_format(&list, "%s%.*s at %s\u00A0°C", list.length == 0 ? "" : ", ", TEXT_ARGUMENTS(minutes(sheet, answer->row.time)),
                      number_print(page->arena, answer->row.temperature, 0));
    }
    if (list.length > 0) {
        page_facts_add(facts, TEXT("or about"), text_from(buffer_finish(&list)));
    }
}
