/* What to take care of at the bench: the materials' own cautions, and what holds for all powders and liquids. */
#include "report/sheet.h"

static bool is_first_of_material(const struct formula *formula, const struct step *wanted)
{
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (step_is_addition(step) && step->material == wanted->material) {
                return step == wanted;
            }
        }
    }
    return false;
}

static void add_material(const struct sheet *sheet, struct page_list *list, const struct material *material)
{
    struct page *page = sheet->page;
    struct buffer classes;
    buffer_start(&classes, page->arena);
    struct text caution = {0};
    for (const struct statement *statement = material->declaration->statements; statement != NULL;
         statement = statement->next) {
        if (statement->kind == SAY_CAUTION) {
            caution = ((const struct text_statement *)statement)->text;
        }
        if (statement->kind == SAY_HAZARD) {
            const struct figure_statement *hazard = (const struct figure_statement *)statement;
            struct text code = hazard->word->name->spelling;
            if (!text_is(code, "none")) {
                buffer_format(&classes, "%s%.*s", classes.length == 0 ? "" : ", ", TEXT_ARGUMENTS(code));
            }
        }
    }
    if (caution.length == 0 && classes.length == 0) {
        return;
    }
    struct text text = classes.length == 0
                           ? page_format(page, "%.*s: %.*s", TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(caution))
                           : page_format(page, "%.*s (%s): %.*s", TEXT_ARGUMENTS(material->name), buffer_finish(&classes),
                                         TEXT_ARGUMENTS(caution));
    page_list_item(list, text);
}

void sheet_care(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    page_add_heading(page, 2, TEXT("Take care"));
    /* Common practice, no source. */
    page_add_paragraph(page, TEXT("Gloves, eye protection and an apron. Weigh powders out of the draught, keep the dust down "
                                  "and the room aired. Nothing to eat or drink on the bench. Wipe up spills at once."));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (const struct part *part = sheet->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            bool shown = step_is_addition(step) && step->material != NULL && !step->material->is_water &&
                         is_first_of_material(sheet->formula, step);
            if (shown) {
                add_material(sheet, list, step->material);
            }
        }
    }
}
