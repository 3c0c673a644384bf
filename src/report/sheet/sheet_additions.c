/* The additions on the mixing sheet, in mixing order. */
#include "report/sheet/sheet.h"

#include "base/number.h"
#include "practice/practice.h"

#include <math.h>

struct columns {
    struct page_table *table;
    struct page_column *tick, *material, *amount, *written, *how, *per_litre, *role, *error, *weighed, *lot;
};

/* The amount of a line as it was written; of the final volume the figure alone. */
static struct text written_amount_of(const struct sheet *sheet, const struct step *step)
{
    struct span span = step->amount_span;
    if (step->how == ADD_TO_MAKE && step->statement != NULL && step->statement->kind == SAY_ADDITION) {
        const struct amount_words *amount = ((const struct addition_statement *)step->statement)->amount;
        span = amount != NULL && amount->quantity != NULL ? amount->quantity->span : span;
    }
    return print_written(sheet->page, source_text(sheet->context->formulary->sources, span));
}

/* The unit in which an amount was written is not the one that the sheet prints: the reader should see both. */
static bool in_other_units(const struct sheet *sheet, const struct step *step)
{
    struct measure measure = step_measure(sheet->context->formulary->library, sheet->formula, step);
    bool base = measure.dimension == DIMENSION_MASS || measure.dimension == DIMENSION_VOLUME;
    return step_is_addition(step) && measure.fault == MEASURE_GOOD && !(base && measure.unit->metric && measure.second == NULL);
}

bool sheet_in_other_units(const struct sheet *sheet)
{
    for (const struct part *part = sheet->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (step->statement != NULL && in_other_units(sheet, step)) {
                return true;
            }
        }
    }
    return false;
}

static struct columns add_columns(const struct sheet *sheet)
{
    struct columns columns = {.table = page_add_table(sheet->page)};
    struct page_table *table = columns.table;
    columns.tick = page_table_column(table, TEXT(""), PAGE_COLUMN_TICK, PAGE_LEFT, 1);
    columns.material = page_table_column(table, TEXT("add in this order"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.amount = page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    if (sheet->other_units) {
        columns.written = page_table_column(table, TEXT("as written"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    }
    columns.how = page_table_column(table, TEXT("measure"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    columns.per_litre = page_table_column(table, TEXT("per litre"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 4);
    columns.error = page_table_column(table, TEXT("error"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 5);
    columns.role = page_table_column(table, TEXT("role"), PAGE_COLUMN_TEXT, PAGE_LEFT, 6);
    columns.weighed = page_table_column(table, TEXT("taken"), PAGE_COLUMN_BLANK, PAGE_LEFT, 3);
    columns.lot = page_table_column(table, TEXT("lot"), PAGE_COLUMN_BLANK, PAGE_LEFT, 7);
    return columns;
}

/* Warnings that the compiler has for the line stand beside its row.  Whether one of them doubts the amount. */
static bool add_warnings(const struct sheet *sheet, struct page_row *row, struct span line)
{
    const struct diagnostics *diagnostics = sheet->context->formulary->diagnostics;
    bool doubted = false;
    for (size_t i = diagnostics_from(diagnostics, line.begin);
         i < diagnostics->count && diagnostics->items[i]->span.begin < line.end; i++) {
        const struct diagnostic *item = diagnostics->items[i];
        /* The row prints the range, and the last row the volume that is assumed; what is too small to weigh depends on the batch
         * and is said by note_small_weight. */
        bool plain = item->id == DIAG_RANGE_GIVEN || item->id == DIAG_FINAL_VOLUME_ASSUMED || item->id == DIAG_TOO_SMALL_TO_WEIGH;
        if (!plain) {
            page_row_note(row, text_from(diagnostic_message(sheet->page->arena, item)));
        }
        doubted = doubted || item->id == DIAG_AMOUNT_UNUSUAL;
    }
    return doubted;
}

/* A weight or a volume in the column of amounts, with the range in which the formula gives it. */
static void put_amount(const struct sheet *sheet, const struct columns *columns, struct page_row *row, const struct batch_step *at)
{
    const struct step *step = at->one;
    bool by_mass = step->how == ADD_BY_MASS;
    double amount = by_mass ? step->mass : step->volume;
    struct page_words words = print_figure(sheet->context, sheet->page, by_mass ? PAGE_FIGURE_MASS : PAGE_FIGURE_VOLUME, amount,
                                    step->high > 1 ? amount * step->high : 0, sheet->scale);
    page_row_amount(row, columns->amount, words, by_mass ? at->step->mass : at->poured, by_mass ? TEXT("g") : TEXT("mL"));
}

/* By how much an amount may be off that is weighed, or measured. */
static void put_error(const struct sheet *sheet, const struct columns *columns, struct page_row *row, const struct batch_step *step)
{
    bool by_mass = step->one->how == ADD_BY_MASS;
    page_row_amount(row, columns->error,
                    sheet_figure(sheet, by_mass ? PAGE_FIGURE_MASS_ERROR : PAGE_FIGURE_VOLUME_ERROR,
                                 by_mass ? step->one->mass : step->poured_one),
                    step->error * 100, TEXT("%"));
    if (step->error > PRACTICE_ROUGH_SHARE) {
        page_row_emphasize(row, columns->error);
    }
}

static void put_per_litre(const struct sheet *sheet, const struct columns *columns, struct page_row *row,
                          const struct batch_part *part, const struct batch_step *step)
{
    if (isnan(step->grams_per_litre)) {
        return;
    }
    bool volume = step->one->how == ADD_BY_VOLUME;
    double amount = volume ? part_per_litre(part->one, step->poured_one) : step->grams_per_litre;
    page_row_amount(row, columns->per_litre,
                    page_format(sheet->page, "%s\u00A0%s", number_print_significant(sheet->page->arena, amount, 4),
                                volume ? "mL" : "g"),
                    amount, volume ? TEXT("mL/L") : TEXT("g/L"));
}

static void put_water_to_make(const struct sheet *sheet, const struct columns *columns, struct page_row *row,
                              const struct batch_step *step)
{
    page_row_amount(row, columns->amount, page_compose(sheet->page, "to {}", sheet_volume(sheet, step->one->volume)), step->step->volume,
                    TEXT("mL"));
    if (step->poured > 0) {
        page_row_cell(row, columns->how,
                      page_compose(sheet->page, "to the mark, about {}", sheet_volume(sheet, step->poured_one)));
    } else {
        page_row_cell(row, columns->how, TEXT("to the mark"));
    }
    page_row_without(row, columns->lot);
    page_row_without(row, columns->weighed);
}

static void put_addition(const struct sheet *sheet, const struct columns *columns, struct page_row *row,
                         const struct batch_step *at)
{
    struct page *page = sheet->page;
    const struct step *step = at->one;
    switch (step->how) {
    case ADD_BY_MASS:
        put_amount(sheet, columns, row, at);
        page_row_cell(row, columns->how, TEXT("weigh"));
        put_error(sheet, columns, row, at);
        break;
    case ADD_BY_VOLUME:
        put_amount(sheet, columns, row, at);
        page_row_cell(row, columns->how, step->approximate ? TEXT("count, about") : TEXT("measure"));
        put_error(sheet, columns, row, at);
        break;
    case ADD_STOCK:
        put_amount(sheet, columns, row, at);
        page_row_cell(row, columns->how,
                      page_compose(page, "of {}\u00A0% stock ({})", page_plain(text_from(number_print_significant(page->arena, step->stock_percent, 3))),
                                   sheet_mass(sheet, step->mass)));
        put_error(sheet, columns, row, at);
        break;
    case ADD_WATER:
        put_amount(sheet, columns, row, at);
        page_row_without(row, columns->lot);
        break;
    case ADD_SOLUTION:
        put_amount(sheet, columns, row, at);
        page_row_cell(row, columns->how, TEXT("measure"));
        break;
    case ADD_TO_MAKE:
        put_water_to_make(sheet, columns, row, at);
        break;
    case ADD_AS_NEEDED:
    default:
        page_row_cell(row, columns->amount, TEXT("as needed"));
        break;
    }
}

/* Says so of the batches from `from` up to but without `below` times the formula; not of the formula as it is written where that
 * gives proportions. */
static void note_weight_between(const struct sheet *sheet, struct page_row *row, const struct step *step, double from, double below,
                                double percent, bool proportions)
{
    struct page *page = sheet->page;
    struct page_words note = page_compose(page, "{} cannot be weighed well: {} on a scale that shows {}{}", sheet_mass(sheet, step->mass),
                                          sheet_figure(sheet, PAGE_FIGURE_MASS_ERROR, step->mass),
                                          page_plain(print_mass(sheet->context, page, sheet->batch->scales->balance)),
                                          sheet_stock_advice(sheet, step, percent));
    if (!proportions || below <= 1 || from > 1) {
        page_row_note_when(page, row, from, below, note);
        return;
    }
    page_row_note_when(page, row, from, 1 - SHEET_AS_WRITTEN, note);
    page_row_note_when(page, row, 1 + SHEET_AS_WRITTEN, below, note);
}

/* Says of the batches that are too small for it that the weight is (practice_check_formula gives the diagnostic). */
static void note_small_weight(const struct sheet *sheet, struct page_row *row, const struct step *step)
{
    const struct report_context *context = sheet->context;
    if (sheet->formula->silenced[DIAG_TOO_SMALL_TO_WEIGH] ||
        context->formulary->diagnostics->silenced[DIAG_TOO_SMALL_TO_WEIGH]) {
        return;
    }
    /* Other stocks are advised for other sizes. */
    bool proportions = isnan(context->make) && sheet->formula->parts->makes < PRACTICE_SMALLEST_BATCH;
    double percent;
    for (double high = practice_least_weight(sheet->batch->scales->balance); high > 0;) {
        double low = sheet_stock_range(sheet, step, high, &percent);
        note_weight_between(sheet, row, step, low / step->mass, high / step->mass, percent, proportions);
        high = low;
    }
}

static struct text addition_name(const struct sheet *sheet, const struct step *step)
{
    struct page *page = sheet->page;
    if (step->how == ADD_SOLUTION) {
        bool own = step->solution_of == sheet->formula && step->solution != NULL;
        return own ? page_format(page, "solution %.*s", TEXT_ARGUMENTS(step->solution->name->spelling))
                   : page_format(page, "\"%.*s\"", TEXT_ARGUMENTS(step->solution_of == NULL ? (struct text){0} : step->solution_of->title));
    }
    struct text name = print_material(page, step->material, step->form);
    if (!isnan(step->temperature)) {
        name = page_format(page, "%.*s at %.*s", TEXT_ARGUMENTS(name),
                           TEXT_ARGUMENTS(print_temperature(page, step->temperature, NAN)));
    }
    if (step->tails != NULL && step->tails->optional) {
        name = page_format(page, "%.*s, optional", TEXT_ARGUMENTS(name));
    }
    return name;
}

static void add_addition(const struct sheet *sheet, const struct columns *columns, const struct batch_part *part,
                         const struct batch_step *at, const struct dissolving *dissolving)
{
    const struct step *step = at->one;
    struct page_row *row = page_table_row(columns->table);
    page_row_cell(row, columns->material, addition_name(sheet, step));
    put_addition(sheet, columns, row, at);
    if (columns->written != NULL && step->statement != NULL && in_other_units(sheet, step)) {
        page_row_cell(row, columns->written, written_amount_of(sheet, step));
    }
    if (step->how != ADD_WATER && step->how != ADD_TO_MAKE && step->material != NULL) {
        put_per_litre(sheet, columns, row, part, at);
        if (step->material->role_count > 0) {
            page_row_cell(row, columns->role, step->material->roles[0]);
        }
    }
    if (step->tails != NULL && step->tails->note.length > 0) {
        page_row_remark(row, step->tails->note);
    }
    struct text lots = sheet_lots(sheet, at);
    if (lots.length > 0) {
        page_row_cell(row, columns->lot, lots);
    }
    sheet_note_taking(sheet, row, at);
    sheet_note_dissolving(sheet, row, dissolving, step);
    bool doubted = add_warnings(sheet, row, step->span);
    if (step->how == ADD_BY_MASS && !step->from_parts && !doubted) {
        note_small_weight(sheet, row, step);
    }
}

static void add_working_step(const struct sheet *sheet, const struct columns *columns, const struct step *step)
{
    struct page *page = sheet->page;
    struct text text = {0};
    switch (step->kind) {
    case STEP_PINCH:
        text = page_format(page, "a pinch of %.*s, taken from the amount below", TEXT_ARGUMENTS(step->material->name));
        break;
    case STEP_COOL:
        text = page_format(page, "cool to %.*s", TEXT_ARGUMENTS(print_temperature(page, step->temperature, NAN)));
        break;
    case STEP_WARM:
        text = page_format(page, "warm to %.*s", TEXT_ARGUMENTS(print_temperature(page, step->temperature, NAN)));
        break;
    case STEP_STAND:
        text = page_format(page, "let stand %.*s", TEXT_ARGUMENTS(print_time(page, step->duration)));
        break;
    case STEP_FILTER:
        text = TEXT("filter");
        break;
    case STEP_DO:
    default:
        text = step->text;
        break;
    }
    struct page_row *row = page_table_between(columns->table, text);
    add_warnings(sheet, row, step->span);
}

/* Books list the water last; nobody dissolves in a dry vessel. */
static void add_start(const struct sheet *sheet, const struct batch_part *part)
{
    if (part->water_last > 0) {
        page_add_paragraph(sheet->page, page_compose(sheet->page, "Start with about three quarters of the water, {}; the rest comes last.",
                                                     sheet_volume(sheet, part->water_last * SHEET_FIRST_WATER)));
        page_keep_with_next(sheet->page);
    }
}

static size_t count_dissolved(const struct part *part)
{
    size_t count = 0;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        count += step_is_addition(step) && step->how == ADD_BY_MASS;
    }
    return count;
}

void sheet_part(const struct sheet *sheet, const struct batch_part *batch)
{
    const struct part *part = batch->one;
    struct page *page = sheet->page;
    if (part->name != NULL) {
        page_add_heading(page, 2, page_compose(page, "Part {}, {}", page_plain(part->name->spelling),
                                               isnan(part->makes) ? page_plain(TEXT("dry")) : sheet_volume(sheet, part->makes)));
    } else {
        page_add_heading(page, 2, TEXT("Mix"));
    }
    if (count_dissolved(part) > 1) {
        page_add_paragraph(page, TEXT("Dissolve each completely before you add the next."));
        page_keep_with_next(page);
    }
    add_start(sheet, batch);
    struct columns columns = add_columns(sheet);
    const struct dissolving *dissolving = sheet_dissolving(sheet, part);
    for (size_t i = 0; i < batch->step_count; i++) {
        if (step_is_addition(batch->steps[i].one)) {
            add_addition(sheet, &columns, batch, &batch->steps[i], dissolving);
        } else {
            add_working_step(sheet, &columns, batch->steps[i].one);
        }
    }
    if (part->makes_assumed && !isnan(part->makes)) {
        struct page_row *row = page_table_total(columns.table);
        page_row_cell(row, columns.material, TEXT("in all"));
        page_row_amount(row, columns.amount, sheet_volume(sheet, part->makes),
                        batch->part->makes, TEXT("mL"));
        page_row_remark(row, TEXT("no final volume is stated; this is the sum of the liquids, and the solids make it a "
                                "little more"));
    }
    sheet_add_total(sheet, columns.table, columns.material, columns.amount, columns.error, batch);
    for (const struct remark *note = part->notes; note != NULL; note = note->next) {
        page_add_paragraph(page, note->text);
    }
}
