/* The checked form for people: what the compiler made of every line, in base units and as written, one row for one addition. */
#include "report/show/model.h"

#include "report/printing.h"

#include "base/number.h"

#include <math.h>

struct columns {
    struct page_table *table;
    struct page_column *line, *material, *written, *mass, *volume, *per_litre, *moles;
};

static struct columns add_columns(struct page *page)
{
    struct columns columns = {.table = page_add_table(page)};
    struct page_table *table = columns.table;
    columns.line = page_table_column(table, TEXT("line"), PAGE_COLUMN_AMOUNT, PAGE_RIGHT, 2);
    columns.material = page_table_column(table, TEXT("taken as"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.written = page_table_column(table, TEXT("as written"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    columns.mass = page_table_column(table, TEXT("g"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    columns.volume = page_table_column(table, TEXT("mL"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    columns.per_litre = page_table_column(table, TEXT("g/L"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    columns.moles = page_table_column(table, TEXT("mol/L"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 4);
    return columns;
}

static void put(struct page *page, struct page_row *row, const struct page_column *column, double value, const char *unit)
{
    if (isfinite(value)) {
        page_row_amount(row, column, text_from(number_print_significant(page->arena, value, 5)), value, text_from(unit));
    }
}

static struct text name_of(struct page *page, const struct formula *formula, const struct step *step)
{
    if (step->how == ADD_SOLUTION && step->solution_of != NULL) {
        bool own = step->solution_of == formula && step->solution != NULL && step->solution->name != NULL;
        return own ? page_format(page, "part %.*s", TEXT_ARGUMENTS(step->solution->name->spelling))
                   : page_format(page, "\"%.*s\"", TEXT_ARGUMENTS(step->solution_of->title));
    }
    struct text name = step->material == NULL ? TEXT("unknown") : print_material(page, step->material, step->form);
    bool stock = step->how == ADD_STOCK && !isnan(step->stock_percent);
    return stock ? page_format(page, "%.*s, of %s\u00A0%% stock", TEXT_ARGUMENTS(name),
                               number_print_significant(page->arena, step->stock_percent, 3))
                 : name;
}

static void add_row(const struct report_context *context, const struct formula *formula, struct page *page,
                    const struct columns *columns, const struct batch_step *at)
{
    const struct step *step = at->step;
    struct page_row *row = page_table_row(columns->table);
    size_t line = source_place(context->formulary->sources, step->span.begin).line;
    page_row_amount(row, columns->line, page_format(page, "%zu", line), (double)line, (struct text){0});
    page_row_cell(row, columns->material, name_of(page, formula, step));
    page_row_cell(row, columns->written,
                  print_written(page, source_text(context->formulary->sources, step->amount_span)));
    put(page, row, columns->mass, step->mass, "g");
    put(page, row, columns->volume, at->poured, "mL");
    put(page, row, columns->per_litre, at->grams_per_litre, "g/L");
    put(page, row, columns->moles, at->moles_per_litre, "mol/L");
    if (step->form_assumed && step->form->label.length > 0) {
        page_row_remark(row, page_format(page, "no form is written: %.*s is assumed", TEXT_ARGUMENTS(step->form->label)));
    }
    if (step->high > 1) {
        page_row_remark(row, TEXT("a range: reckoned with its first figure"));
    }
    if (step->how == ADD_TO_MAKE) {
        page_row_remark(row, page_format(page, "up to %s\u00A0mL", number_print_significant(page->arena, step->volume, 6)));
    }
}

static void add_part(const struct report_context *context, const struct formula *formula, struct page *page,
                     const struct batch_part *batch)
{
    const struct part *part = batch->part;
    struct text makes = isnan(part->makes) ? (isnan(part->makes_mass) ? TEXT("of unknown volume")
                                                                      : page_format(page, "makes %s\u00A0g, dry", number_print_significant(page->arena, part->makes_mass, 5)))
                                           : page_format(page, "makes %s\u00A0mL", number_print_significant(page->arena, part->makes, 6));
    page_add_heading(page, 2, part->name == NULL ? page_format(page, "Mixture, %.*s", TEXT_ARGUMENTS(makes))
                                                 : page_format(page, "Part %.*s, %.*s", TEXT_ARGUMENTS(part->name->spelling), TEXT_ARGUMENTS(makes)));
    struct columns columns = add_columns(page);
    for (size_t i = 0; i < batch->step_count; i++) {
        if (step_is_addition(batch->steps[i].step)) {
            add_row(context, formula, page, &columns, &batch->steps[i]);
        }
    }
}

static void add_use(struct page *page, const struct use *use, const struct content *contents)
{
    page_add_heading(page, 2, use->name.length > 0 ? page_format(page, "Use for %.*s", TEXT_ARGUMENTS(use->name)) : TEXT("Use"));
    struct page_facts *facts = page_add_facts(page);
    if (!isnan(use->stock_parts)) {
        page_facts_add(facts, TEXT("parts"), print_ratio(page, use->stock_parts, use->water_parts));
    }
    if (!isnan(use->temperature)) {
        page_facts_add(facts, TEXT("temperature"), print_temperature(page, use->temperature, use->temperature_high));
    }
    if (!isnan(use->time[0])) {
        page_facts_add(facts, TEXT("time"), print_time_range(page, use->time[0], use->time[1]));
    }
    for (const struct time_row *row = use->times == NULL ? NULL : use->times->next; row != NULL; row = row->next) {
        page_facts_add(facts, TEXT("time"), print_time_row(page, row));
    }
    for (const struct pour *pour = use->pours; pour != NULL; pour = pour->next) {
        page_facts_add(facts, page_format(page, "bath %.*s", TEXT_ARGUMENTS(pour->part->name == NULL ? (struct text){0} : pour->part->name->spelling)),
                       print_time_row(page, &pour->of));
    }
    for (const struct content *content = contents; content != NULL; content = content->next) {
        struct page_fact *fact =
            page_facts_add(facts, print_material(page, content->material, content->form),
                           page_format(page, "%s\u00A0g/L", number_print_significant(page->arena, content->grams, 5)));
        page_fact_value(fact, content->grams, TEXT("g/L"));
    }
}

void show_page(const struct report_context *context, const struct show_model *model, struct page *page)
{
    const struct batch *batch = model->batch;
    const struct formula *formula = batch->written;
    page_set_title(page, formula->title.length > 0 ? formula->title : TEXT("Untitled"));
    page_set_subtitle(page, page_format(page, "Checked form: %.*s",
                                        TEXT_ARGUMENTS(formula->kind.length > 0 ? formula->kind : TEXT("formula"))));
    page_set_source(page, text_from(formula->declaration->file->name));
    if (context->date != NULL) {
        page_set_date(page, text_from(context->date));
    }
    page_set_caution(page, TEXT("What the compiler understood, for looking over; mix from the mixing sheet."));
    for (size_t i = 0; i < batch->part_count; i++) {
        add_part(context, batch->formula, page, &batch->parts[i]);
    }
    size_t i = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        add_use(page, use, model->contents[i++]);
    }
}
