/* What the mixing sheet says. */
#include "report/sheet/model.h"

#include "base/number.h"

#include <math.h>

/* Volumes of working solution that are shown, mL: common sizes of tanks and trays (common practice, no source). */
static const double working_volumes[] = {300, 500, 1000};

struct page_words sheet_figure(const struct sheet *sheet, enum page_figure_way way, double number)
{
    return print_figure(sheet->context, sheet->page, way, number, 0, sheet->scale);
}

struct page_words sheet_mass(const struct sheet *sheet, double grams)
{
    return sheet_figure(sheet, PAGE_FIGURE_MASS, grams);
}

struct page_words sheet_volume(const struct sheet *sheet, double millilitres)
{
    return sheet_figure(sheet, PAGE_FIGURE_VOLUME, millilitres);
}

static struct text silenced(const struct sheet *sheet)
{
    struct buffer ids;
    buffer_start(&ids, sheet->page->arena);
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        if (sheet->formula->silenced[id] || sheet->context->formulary->diagnostics->silenced[id]) {
            buffer_format(&ids, "%s%s", ids.length == 0 ? "" : ", ", diagnostic_registry[id].name);
        }
    }
    const struct silenced_rule *lists[] = {sheet->formula->silenced_rules, sheet->context->formulary->silenced_rules};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        for (const struct silenced_rule *rule = lists[i]; rule != NULL; rule = rule->next) {
            buffer_format(&ids, "%srule %.*s", ids.length == 0 ? "" : ", ", TEXT_ARGUMENTS(rule->shown));
        }
    }
    return (struct text){buffer_finish(&ids), ids.length};
}

static struct page_words stock_line(const struct sheet *sheet, const struct step *step)
{
    struct page *page = sheet->page;
    const struct stock *stock = formulary_stock(sheet->context->formulary, step);
    const char *percent = number_print_significant(page->arena, step->stock_percent, 3);
    bool liquid = !isnan(step->form->density);
    struct buffer line;
    buffer_start(&line, page->arena);
    buffer_format(&line, "%s\u00A0%% stock of %.*s: %s\u00A0%s made up to 100\u00A0mL", percent,
                  TEXT_ARGUMENTS(print_material(page, step->material, step->form)), percent, liquid ? "mL" : "g");
    if (stock != NULL && stock->solvent.length > 0) {
        buffer_format(&line, " with %.*s", TEXT_ARGUMENTS(stock->solvent));
    }
    struct page_words words = page_compose(page, "{}; this batch takes {}", page_plain(text_from(buffer_finish(&line))), sheet_volume(sheet, step->volume));
    for (const struct keeping *keeping = stock == NULL ? NULL : stock->keeps; keeping != NULL; keeping = keeping->next) {
        words = page_compose(page, "{}; keeps {}", words, page_plain(print_keeping(page, keeping)));
    }
    return words;
}

static void find_stocks(struct sheet *sheet)
{
    for (const struct part *part = sheet->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (step_is_addition(step) && step->how == ADD_STOCK) {
                sheet_note(sheet, &sheet->stocks, stock_line(sheet, step));
            }
        }
    }
}

static void fill_uses(struct sheet *sheet)
{
    const struct formula *formula = sheet->batch->written;
    sheet->uses = ARENA_ARRAY(sheet->page->arena, struct sheet_use, formula_use_count(formula) + 1);
    size_t at = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next, at++) {
        if (report_wants_use(sheet->context, use)) {
            struct sheet_use *of = &sheet->uses[sheet->use_count++];
            *of = (struct sheet_use){.use = use, .safety = sheet->solutions.uses[at], .label = sheet_short_label(sheet->page, sheet->solutions.uses[at]), .contents = sheet->show.contents[at]};
            sheet_fill_use(sheet, of);
        }
    }
}

struct sheet sheet_model(const struct report_context *context, const struct batch *batch, struct page *page)
{
    bool one_volume = !isnan(context->working);
    struct sheet sheet = {.context = context,
                          .batch = batch,
                          .formula = batch->one,
                          .page = page,
                          .scale = batch->scale,
                          .show = show_model(context, batch, false),
                          .solutions = solutions_of_formula(context->formulary, batch->written),
                          .parts = ARENA_ARRAY(page->arena, struct sheet_part, batch->part_count + 1),
                          .volumes = one_volume ? &context->working : working_volumes,
                          .volume_count = one_volume ? 1 : sizeof working_volumes / sizeof *working_volumes};
    sheet.show.parts = sheet.solutions.part_estimates;
    sheet.show.uses = sheet.solutions.use_estimates;
    sheet.silenced = silenced(&sheet);
    sheet_warn_of_bath(&sheet);
    find_stocks(&sheet);
    for (size_t i = 0; i < batch->part_count; i++) {
        sheet.parts[i] = (struct sheet_part){
            .batch = &batch->parts[i], .safety = sheet.solutions.parts[i], .label = sheet_short_label(page, sheet.solutions.parts[i])};
        sheet_fill_part(&sheet, &sheet.parts[i]);
        for (size_t j = 0; j < batch->parts[i].step_count; j++) {
            sheet.other_units = sheet.other_units || sheet.parts[i].lines[j].written.length > 0;
        }
    }
    fill_uses(&sheet);
    sheet_find_cautions(&sheet);
    return sheet;
}
