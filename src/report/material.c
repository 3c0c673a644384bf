/* What the library knows of a material, for a person. */
#include "report/printing.h"

#include "base/chemical.h"
#include "base/number.h"
#include "chemistry/reactions.h"
#include "report/material_ions.h"

#include <math.h>

static struct text joined(struct page *page, const struct text *texts, size_t count)
{
    struct buffer list;
    buffer_start(&list, page->arena);
    for (size_t i = 0; i < count; i++) {
        buffer_format(&list, "%s%.*s", i == 0 ? "" : ", ", TEXT_ARGUMENTS(texts[i]));
    }
    return text_from(buffer_finish(&list));
}

static void add_forms(const struct material *material, struct page *page)
{
    page_add_heading(page, 2, TEXT("Forms"));
    struct page_table *table = page_add_table(page);
    struct page_column *name = page_table_column(table, TEXT("form"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *chemical = page_table_column(table, TEXT("formula"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *mass = page_table_column(table, TEXT("g/mol"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    struct page_column *equal = page_table_column(table, TEXT("equal weight"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    struct page_column *strength = page_table_column(table, TEXT("% w/w"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    struct page_column *density = page_table_column(table, TEXT("g/mL"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    struct page_column *cas = page_table_column(table, TEXT("CAS"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        struct page_row *row = page_table_row(table);
        struct text label = form->label.length > 0 ? form->label : TEXT("as sold");
        bool usual = form == material->usual && material->form_count > 1;
        page_row_cell(row, name, usual ? page_format(page, "%.*s (usual)", TEXT_ARGUMENTS(label)) : label);
        page_row_cell(row, chemical, chemical_print(page->arena, form->chemical));
        bool unknown = form->cas.length == 0 && material->usual->cas.length > 0; /* of this form alone */
        page_row_cell(row, cas, unknown ? TEXT("not known") : form->cas);
        if (!isnan(form->molar_mass)) {
            page_row_amount(row, mass, text_from(number_print(page->arena, form->molar_mass, 2)), form->molar_mass,
                            TEXT("g/mol"));
        }
        double factor = form_equivalent(material->usual, form, 1);
        if (!isnan(factor) && material->form_count > 1) {
            page_row_amount(row, equal, text_from(number_print(page->arena, factor, 3)), factor, (struct text){0});
        }
        if (!isnan(form->density)) {
            page_row_amount(row, strength, text_from(number_print(page->arena, form->percent, 1)), form->percent, TEXT("%"));
            page_row_amount(row, density, text_from(number_print(page->arena, form->density, 4)), form->density, TEXT("g/mL"));
        }
    }
}

static void add_solubilities(const struct material *material, struct page *page)
{
    if (material->solubility_count == 0) {
        return;
    }
    page_add_heading(page, 2, TEXT("Dissolves"));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (size_t i = 0; i < material->solubility_count; i++) {
        const struct solubility *figure = &material->solubilities[i];
        if (figure->freely) {
            page_list_item(list, figure->solvent.length == 0
                                     ? TEXT("mixes with water in every proportion")
                                     : page_format(page, "dissolves where there is enough %.*s in the bath [%.*s]",
                                                   TEXT_ARGUMENTS(figure->solvent), TEXT_ARGUMENTS(figure->source)));
            continue;
        }
        struct text form = figure->form->label;
        page_list_item(list, page_format(page, "%s g%s%.*s%s in 100 mL of %.*s at %s °C [%.*s]",
                                         number_print_significant(page->arena, figure->grams, 3), form.length > 0 ? " (" : "",
                                         TEXT_ARGUMENTS(form), form.length > 0 ? ")" : "",
                                         TEXT_ARGUMENTS(figure->solvent.length > 0 ? figure->solvent : TEXT("water")),
                                         number_print(page->arena, figure->temperature, 0), TEXT_ARGUMENTS(figure->source)));
    }
}

static void add_typical(const struct material *material, struct page *page)
{
    if (material->typical_count == 0) {
        return;
    }
    static const char *const strengths[] = {"", " stock", ", working solution", " replenisher"};
    page_add_heading(page, 2, TEXT("Usual amounts"));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (size_t i = 0; i < material->typical_count; i++) {
        const struct typical_range *range = &material->typical[i];
        page_list_item(list, page_format(page, "%.*s%s: %s to %s %s [%.*s]", TEXT_ARGUMENTS(range->kind),
                                         strengths[range->strength], number_print_significant(page->arena, range->low, 3),
                                         number_print_significant(page->arena, range->high, 3),
                                         range->by_volume ? "mL/L" : "g/L", TEXT_ARGUMENTS(range->source)));
    }
}

static void add_hazard(struct page *page, struct page_list *list, const struct figure_statement *figure, const char *what)
{
    struct text code = figure->word->name->spelling;
    struct text limit = {0};
    if (figure->base.kind == SAY_LIMIT) {
        limit = isnan(figure->to_percent)
                    ? page_format(page, " from %s %%", number_print(page->arena, figure->from_percent, 4))
                : isnan(figure->from_percent)
                    ? page_format(page, " to %s %%", number_print(page->arena, figure->to_percent, 4))
                    : page_format(page, " from %s to %s %%", number_print(page->arena, figure->from_percent, 4),
                                  number_print(page->arena, figure->to_percent, 4));
    }
    page_list_item(list, page_format(page, "%s%.*s %.*s%.*s [%.*s]", what, TEXT_ARGUMENTS(figure->text),
                                     TEXT_ARGUMENTS(code), TEXT_ARGUMENTS(limit), TEXT_ARGUMENTS(figure->source)));
}

static struct text counted_form(struct library *library, const struct material *material, const struct figure_statement *figure)
{
    const struct form *form = library_form(library, material, figure->form);
    return form == NULL ? material->usual->label : form->label;
}

static void add_care(struct library *library, const struct material *material, struct page *page)
{
    page_add_heading(page, 2, TEXT("Care"));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (const struct statement *statement = material->declaration->statements; statement != NULL;
         statement = statement->next) {
        const struct text_statement *text = (const struct text_statement *)statement;
        const struct figure_statement *figure = (const struct figure_statement *)statement;
        switch (statement->kind) {
        case SAY_HAZARD:
            if (text_is(figure->word->name->spelling, "unknown")) {
                page_list_item(list, page_format(page, "NOT ASSESSED [%.*s]", TEXT_ARGUMENTS(figure->source)));
            } else {
                add_hazard(page, list, figure, "classed ");
            }
            break;
        case SAY_LIMIT:
            add_hazard(page, list, figure, "limit: ");
            break;
        case SAY_FACTOR:
            page_list_item(list, text_is(figure->word->name->spelling, "heat")
                                     ? page_format(page, "a mole gives off %s kJ as it dissolves [%.*s]",
                                                   number_print_significant(page->arena, figure->quantity->value, 3),
                                                   TEXT_ARGUMENTS(figure->source))
                                     : page_format(page, "M factor, %.*s: %s", TEXT_ARGUMENTS(figure->word->name->spelling),
                                                   number_print(page->arena, figure->quantity->value, 0)));
            break;
        case SAY_TOXICITY:
            page_list_item(list, page_format(page, "acute toxicity, %.*s: %s %.*s [%.*s]",
                                             TEXT_ARGUMENTS(figure->word->name->spelling),
                                             number_print_significant(page->arena, figure->quantity->value, 4),
                                             TEXT_ARGUMENTS(figure->quantity->unit == NULL ? (struct text){0} : figure->quantity->unit->spelling),
                                             TEXT_ARGUMENTS(figure->source)));
            break;
        case SAY_COUNTS_AS:
            page_list_item(list, page_format(page, "its percentages are those of the %.*s [%.*s]",
                                             TEXT_ARGUMENTS(counted_form(library, material, figure)), TEXT_ARGUMENTS(figure->source)));
            break;
        case SAY_CAUTION:
        case SAY_NOTE:
            page_list_item(list, text->text);
            break;
        case SAY_STORE:
            page_list_item(list, page_format(page, "store %.*s", TEXT_ARGUMENTS(text->text)));
            break;
        case SAY_MISTAKEN:
            for (const struct word *word = ((const struct words_statement *)statement)->words; word != NULL; word = word->next) {
                page_list_item(list, page_format(page, "not to be mistaken for %.*s", TEXT_ARGUMENTS(word->name->spelling)));
            }
            break;
        default:
            break;
        }
    }
}

static void add_apart(struct library *library, const struct material *material, struct page *page)
{
    const struct meeting *meeting = meetings_of_material(page->arena, library, material);
    if (meeting == NULL) {
        return;
    }
    static const char *const gives[] = {[HARM_DEADLY] = "deadly, ", [HARM_SERIOUS] = "", [HARM_SPOILS] = "it is spoilt: "};
    page_add_heading(page, 2, TEXT("Keep apart, the worst first"));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (; meeting != NULL; meeting = meeting->next) {
        page_list_item(list, page_format(page, "from %.*s: %s%.*s", TEXT_ARGUMENTS(meeting->other), gives[meeting->reaction->harm],
                                         TEXT_ARGUMENTS(meeting->reaction->warn)));
    }
}

void report_material(struct library *library, const struct material *material, struct page *page)
{
    page_set_title(page, material->name);
    page_add_fact(page, TEXT("role"), joined(page, material->roles, material->role_count));
    if (material->also_count > 0) {
        page_add_fact(page, TEXT("also called"), joined(page, material->also, material->also_count));
    }
    page_set_source(page, text_from(material->declaration->file->name));
    page_set_caution(page, TEXT("Check the supplier's safety data sheet. Figures from memory are marked so."));
    if (material->stop.length > 0) {
        page_add_warning(page, PAGE_CAUTION, TEXT("STOP"), material->stop);
    }
    add_forms(material, page);
    material_add_ions(library, material, page);
    add_solubilities(material, page);
    add_typical(material, page);
    add_care(library, material, page);
    add_apart(library, material, page);
    page_add_heading(page, 2, TEXT("Sources"));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (const struct statement *statement = material->declaration->statements; statement != NULL;
         statement = statement->next) {
        if (statement->kind == SAY_SOURCE) {
            page_list_item(list, ((const struct text_statement *)statement)->text);
        }
    }
}
