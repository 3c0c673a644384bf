/* The additions on the mixing sheet, as a table. */
#include "report/sheet/model.h"

#include "base/number.h"
#include "practice/practice.h"

#include <math.h>

struct columns {
    struct page_table *table;
    struct page_column *tick, *material, *amount, *written, *how, *per_litre, *role, *error, *weighed, *lot;
};

static struct columns add_columns(const struct sheet *sheet)
{
    struct columns columns = {.table = page_add_table(sheet->page)};
    struct page_table *table = columns.table;
    page_table_at_bench(table);
    columns.tick = page_table_column(table, TEXT(""), PAGE_COLUMN_TICK, PAGE_LEFT, 1);
    columns.material = page_table_column(table, TEXT("add in this order"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.amount = page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    if (sheet->other_units) {
        columns.written = page_table_column(table, TEXT("as written"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
        page_column_for_record(columns.written, TEXT("as written "), (struct text){0});
    }
    columns.how = page_table_column(table, TEXT("measure"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    columns.per_litre = page_table_column(table, TEXT("per litre"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 4);
    columns.error = page_table_column(table, TEXT("error"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 5);
    columns.role = page_table_column(table, TEXT("role"), PAGE_COLUMN_TEXT, PAGE_LEFT, 6);
    page_column_for_record(columns.per_litre, (struct text){0}, TEXT(" per litre"));
    page_column_for_record(columns.error, TEXT("error "), (struct text){0});
    page_column_for_record(columns.role, (struct text){0}, (struct text){0});
    columns.weighed = page_table_column(table, TEXT("taken"), PAGE_COLUMN_BLANK, PAGE_LEFT, 3);
    columns.lot = page_table_column(table, TEXT("lot"), PAGE_COLUMN_BLANK, PAGE_LEFT, 7);
    return columns;
}

static void put_notes(const struct sheet *sheet, struct page_row *row, const struct sheet_note *notes)
{
    for (const struct sheet_note *note = notes; note != NULL; note = note->next) {
        if (note->remark) {
            page_row_remark(row, note->words);
        } else if (note->when.bounded) {
            page_row_note_when(sheet->page, row, note->when.from, note->when.below, note->words);
        } else {
            page_row_note(row, note->words);
        }
    }
}

/* By how much an amount may be off that is weighed, or measured. */
static void put_error(const struct sheet *sheet, const struct columns *columns, struct page_row *row, const struct batch_step *step)
{
    bool by_mass = step->one->how == ADD_BY_MASS;
    page_row_cell(row, columns->error,
                  sheet_figure(sheet, by_mass ? PAGE_FIGURE_MASS_ERROR : PAGE_FIGURE_VOLUME_ERROR, by_mass ? step->one->mass : step->poured_one));
    if (step->error > PRACTICE_ROUGH_SHARE) {
        page_row_emphasize(row, columns->error);
    }
}

static void add_addition(const struct sheet *sheet, const struct columns *columns, const struct sheet_line *line)
{
    const struct step *step = line->at->one;
    struct page_row *row = page_table_row(columns->table);
    page_row_cell(row, columns->material, line->what);
    page_row_cell(row, columns->amount, line->amount);
    if (line->how.text.length > 0) {
        page_row_cell(row, columns->how, line->how);
    }
    if (!isnan(line->at->error)) {
        put_error(sheet, columns, row, line->at);
    }
    if (step->how == ADD_WATER || step->how == ADD_TO_MAKE) {
        page_row_without(row, columns->lot);
    } else if (step->material != NULL && step->material->role_count > 0) {
        page_row_cell(row, columns->role, step->material->roles[0]);
    }
    if (step->how == ADD_TO_MAKE) {
        page_row_without(row, columns->weighed);
    }
    if (line->written.length > 0) {
        page_row_cell(row, columns->written, line->written);
    }
    if (!isnan(line->per_litre)) {
        page_row_cell(row, columns->per_litre,
                      page_format(sheet->page, "%s\u00A0%s", number_print_significant(sheet->page->arena, line->per_litre, 4),
                                  step->how == ADD_BY_VOLUME ? "mL" : "g"));
    }
    if (line->lots.length > 0) {
        page_row_cell(row, columns->lot, line->lots);
    }
    put_notes(sheet, row, line->notes);
}

static void add_total(const struct columns *columns, const struct sheet_part *part)
{
    if (part->weighed_count < 2) {
        return;
    }
    struct page_row *row = page_table_total(columns->table);
    page_row_cell(row, columns->material, TEXT("weighed in all"));
    page_row_cell(row, columns->amount, part->weighed);
}

void sheet_add_part(const struct sheet *sheet, const struct sheet_part *of)
{
    const struct part *part = of->batch->one;
    struct page *page = sheet->page;
    if (part->name != NULL) {
        page_add_heading(page, 2, page_compose(page, "Part {}, {}", page_plain(part->name->spelling),
                                               isnan(part->makes) ? page_plain(TEXT("dry")) : sheet_volume(sheet, part->makes)));
    } else {
        page_add_heading(page, 2, TEXT("Mix"));
    }
    if (of->dissolved > 1) {
        page_add_paragraph(page, TEXT("Dissolve each completely before you add the next."));
        page_keep_with_next(page);
    }
    if (of->start_with > 0) { /* books list the water last; nobody dissolves in a dry vessel */
        page_add_paragraph(page, page_compose(page, "Start with about three quarters of the water, {}; the rest comes last.",
                                              sheet_volume(sheet, of->start_with)));
        page_keep_with_next(page);
    }
    struct columns columns = add_columns(sheet);
    for (size_t i = 0; i < of->batch->step_count; i++) {
        if (step_is_addition(of->lines[i].at->one)) {
            add_addition(sheet, &columns, &of->lines[i]);
        } else {
            put_notes(sheet, page_table_between(columns.table, of->lines[i].what), of->lines[i].notes);
        }
    }
    if (part->makes_assumed && !isnan(part->makes)) {
        struct page_row *row = page_table_total(columns.table);
        page_row_cell(row, columns.material, TEXT("in all"));
        page_row_cell(row, columns.amount, sheet_volume(sheet, part->makes));
        page_row_remark(row, TEXT("no final volume is stated; this is the sum of the liquids, and the solids make it a "
                                  "little more"));
    }
    add_total(&columns, of);
    for (const struct remark *note = part->notes; note != NULL; note = note->next) {
        page_add_paragraph(page, note->text);
    }
}
