/* The bottles that were mixed: what is left in each, until when, and what to mix next; for the shelf's page and its JSON. */
#include "report/records.h"

#include "base/number.h"
#include "report/json_values.h"

#include <math.h>

/* A bottle that lasts so many days more, at the pace at which it was used, is to be mixed anew (common practice, no source). */
enum { DAYS_AHEAD = 14 };

static const char *const state_names[] = {"in use", "discarded", "empty", "exhausted", "too old"};

/* ---- what to mix next ---- */

/* Why a formula should be mixed next; empty when its batches suffice. */
static struct text reason_to_mix(struct page *page, const struct batch_list *list, long today)
{
    struct batch_supply supply = batch_supply(list, today, NULL, NULL);
    if (supply.scarcest != NULL && supply.left < 1) {
        return page_format(page, "no bottle of part %.*s is left", TEXT_ARGUMENTS(supply.scarcest->name->spelling));
    }
    if (supply.last == NULL) {
        return (struct text){0};
    }
    struct mixing_standing last = mixing_standing(supply.last, today, NULL);
    if (supply.in_use == 0) {
        struct text id = supply.last->id;
        struct text day = calendar_print(page->arena, last.state == BATCH_DISCARDED ? supply.last->discarded : last.discard);
        switch (last.state) {
        case BATCH_DISCARDED:
            return page_format(page, "none is left: %.*s was discarded on %.*s", TEXT_ARGUMENTS(id), TEXT_ARGUMENTS(day));
        case BATCH_EMPTY:
            return page_format(page, "none is left: %.*s is used up", TEXT_ARGUMENTS(id));
        case BATCH_EXHAUSTED:
            return page_format(page, "none is left: %.*s has done all that it can", TEXT_ARGUMENTS(id));
        default:
            return page_format(page, "none is left: %.*s kept until %.*s", TEXT_ARGUMENTS(id), TEXT_ARGUMENTS(day));
        }
    }
    if (today != CALENDAR_NO_DAY && supply.discard != CALENDAR_NO_DAY && supply.discard - today <= DAYS_AHEAD) {
        return page_format(page, "what is left keeps until %.*s", TEXT_ARGUMENTS(calendar_print(page->arena, supply.discard)));
    }
    double days = last.per_day > 0 ? supply.left / mixing_does_for(supply.last, last.per_day) : INFINITY;
    if (days <= DAYS_AHEAD) {
        return page_format(page, "at the pace of the last batch it is used up in %s", days < 1.5 ? "a day" : page_format(page, "%.0f days", days).at);
    }
    return (struct text){0};
}

static void add_mix_next(const struct report_context *context, const struct batches *batches, struct page *page)
{
    struct page_list *next = NULL;
    for (const struct batch_list *list = batches->formulas; list != NULL; list = list->hh.next) {
        struct text reason = reason_to_mix(page, list, report_today(context));
        if (reason.length == 0) {
            continue;
        }
        if (next == NULL) {
            page_add_heading(page, 2, TEXT("To mix next"));
            next = page_add_list(page, PAGE_TICKS);
        }
        page_list_item(next, page_format(page, "%.*s: %.*s", TEXT_ARGUMENTS(list->formula->title), TEXT_ARGUMENTS(reason)));
    }
}

/* ---- the bottles ---- */

struct text report_batch_of(struct page *page, const struct mixing *batch)
{
    struct text title = batch->formula->title;
    return batch->part == NULL ? title
                               : page_format(page, "%.*s, part %.*s", TEXT_ARGUMENTS(title), TEXT_ARGUMENTS(batch->part->name->spelling));
}

struct batch_columns {
    struct page_column *id, *formula, *mixed, *left, *still, *keeps;
};

struct text report_batch_amount(const struct report_context *context, struct page *page, const struct mixing *batch, double amount)
{
    return batch->dry ? print_mass(context, page, amount) : print_volume(context, page, amount);
}

static void add_batch(const struct report_context *context, const struct mixing *batch, const struct mixing_standing *standing,
                      struct page_table *table, const struct batch_columns *columns, struct page *page)
{
    struct page_row *row = page_table_row(table);
    page_row_cell(row, columns->id, batch->id);
    page_row_cell(row, columns->formula, report_batch_of(page, batch));
    page_row_cell(row, columns->mixed, calendar_print(page->arena, batch->mixed));
    page_row_amount(row, columns->left, report_batch_amount(context, page, batch, standing->left), standing->left,
                    batch->dry ? TEXT("g") : TEXT("mL"));
    if (standing->still.unit != NULL) {
        page_row_amount(row, columns->still, print_goods(page, &standing->still), standing->still.count, TEXT(""));
    }
    page_row_cell(row, columns->keeps, standing->discard == CALENDAR_NO_DAY ? TEXT("not stated") : calendar_print(page->arena, standing->discard));
    if (standing->state == BATCH_TOO_OLD) {
        page_row_emphasize(row, columns->keeps);
        page_row_note(row, TEXT("past the time that it keeps: do not use it"));
    } else if (standing->state == BATCH_EXHAUSTED) {
        page_row_note(row, TEXT("it has done all that its capacity says: do not use it"));
    }
    for (const struct remark *note = batch->notes; note != NULL; note = note->next) {
        page_row_remark(row, note->text);
    }
}

void report_batches(const struct report_context *context, const struct batches *batches, struct page *page)
{
    if (batches->first == NULL) {
        return;
    }
    struct page_table *table = NULL;
    struct batch_columns columns = {0};
    size_t gone = 0;
    page_add_heading(page, 2, TEXT("Mixed"));
    for (const struct mixing *batch = batches->first; batch != NULL; batch = batch->next) {
        if (batch->faulty || batch->formula == NULL) {
            continue;
        }
        struct mixing_standing standing = mixing_standing(batch, report_today(context), NULL);
        if (standing.state == BATCH_DISCARDED || standing.state == BATCH_EMPTY) {
            gone++;
            continue;
        }
        if (table == NULL) {
            table = page_add_table(page);
            columns.id = page_table_column(table, TEXT("batch"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
            columns.formula = page_table_column(table, TEXT("of"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
            columns.left = page_table_column(table, TEXT("left"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
            columns.still = page_table_column(table, TEXT("still does"), PAGE_COLUMN_AMOUNT, PAGE_LEFT, 1);
            columns.keeps = page_table_column(table, TEXT("keeps until"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
            columns.mixed = page_table_column(table, TEXT("mixed"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
        }
        add_batch(context, batch, &standing, table, &columns, page);
    }
    if (gone > 0) {
        page_add_paragraph(page, page_format(page, "%s%zu batch%s used up or discarded.", table == NULL ? "All " : "Besides, ", gone,
                                             gone == 1 ? " is" : "es are"));
    }
    add_mix_next(context, batches, page);
}

/* ---- as data ---- */

static json_t *day_json(struct arena *arena, long day)
{
    return text_or_null(day == CALENDAR_NO_DAY ? (struct text){0} : calendar_print(arena, day));
}

json_t *report_batches_json(const struct report_context *context, const struct batches *batches)
{
    json_t *array = json_array();
    struct arena *arena = context->formulary->arena;
    struct page page = {.arena = arena};
    for (const struct mixing *batch = batches->first; batch != NULL; batch = batch->next) {
        if (batch->faulty || batch->formula == NULL) {
            continue;
        }
        struct mixing_standing standing = mixing_standing(batch, report_today(context), NULL);
        bool counted = standing.still.unit != NULL;
        put_item(
            &array, json_pack("{s:o, s:o, s:o, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "batch", text_json(batch->id), "of",
                             text_json(batch->formula->title), "part",
                             batch->part == NULL ? json_null() : text_json(batch->part->name->spelling), "state", state_names[standing.state], "mixed", day_json(arena, batch->mixed),
                             "made_mL", number_or_null(batch->dry ? NAN : batch->made), "left_mL", number_or_null(batch->dry ? NAN : standing.left), "made_g",
                             number_or_null(batch->dry ? batch->made : NAN), "left_g",
                             number_or_null(batch->dry ? standing.left : NAN), "still_does",
                             counted ? json_real(floor(standing.still.count + 1e-9)) : json_null(), "still_does_as_written",
                             counted ? text_json(print_goods(&page, &standing.still)) : json_null(), "keeps_until",
                             day_json(arena, standing.discard), "discarded", day_json(arena, batch->discarded)));
    }
    return array;
}

json_t *report_mix_next_json(const struct report_context *context, const struct batches *batches)
{
    json_t *array = json_array();
    struct page page = {.arena = context->formulary->arena};
    for (const struct batch_list *list = batches->formulas; list != NULL; list = list->hh.next) {
        struct text reason = reason_to_mix(&page, list, report_today(context));
        if (reason.length > 0) {
            put_item(&array, json_pack("{s:o, s:o}", "title", text_json(list->formula->title), "reason", text_json(reason)));
        }
    }
    return array;
}
