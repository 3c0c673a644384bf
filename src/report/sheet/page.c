/* The mixing sheet: what a person takes to the bench (what a master formulation record and a batch record hold: USP General
 * Chapter 795; 21 CFR 211.186 and 211.188). */
#include "report/sheet/sheet.h"

#include "report/notices.h"
#include "report/records.h"

#include "base/number.h"

#include <math.h>

static void add_keeping(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    page_add_heading(page, 2, TEXT("Bottle and record"));
    struct page_facts *facts = page_add_facts(page);
    bool any = false;
    for (const struct keeping *keeping = sheet->formula->keeps; keeping != NULL; keeping = keeping->next) {
        page_facts_add(facts, TEXT("keeps"), print_keeping(page, keeping));
        any = true;
    }
    for (const struct part *part = sheet->formula->parts; part != NULL; part = part->next) {
        for (const struct keeping *keeping = part->keeps; keeping != NULL; keeping = keeping->next) {
            page_facts_add(facts, page_format(page, "part %.*s keeps", TEXT_ARGUMENTS(part->name->spelling)),
                           print_keeping(page, keeping));
            any = true;
        }
    }
    if (!any) {
        page_facts_add(facts, TEXT("keeps"), TEXT("not stated; label it with the day and watch its colour"));
    }
    for (const struct part *part = sheet->formula->parts; part != NULL; part = part->next) {
        sheet_add_coming_out(sheet, facts, part);
    }
    sheet_add_estimates(sheet, facts);
    page_keep_with_next(page);
    struct page_blanks *blanks = page_add_blanks(page);
    page_blank(blanks, TEXT("mixed on"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("by"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("batch no."), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("discard after"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("pH measured"), PAGE_ROOM_FIGURE, (struct text){0});
    page_blank(blanks, TEXT("appearance"), PAGE_ROOM_LINE, (struct text){0});
}

static void add_silenced(const struct sheet *sheet)
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
    if (ids.length > 0) {
        page_add_warning(sheet->page, PAGE_NOTE, TEXT("Turned off for this formula"),
                         page_format(sheet->page, "%s; nothing is said of these here.", buffer_finish(&ids)));
    }
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

/* Stocks that must stand ready before the mixing starts. */
static void add_stocks(const struct sheet *sheet)
{
    struct page_list *list = NULL;
    for (const struct part *part = sheet->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (!step_is_addition(step) || step->how != ADD_STOCK) {
                continue;
            }
            if (list == NULL) {
                page_add_heading(sheet->page, 2, TEXT("Make these first"));
                list = page_add_list(sheet->page, PAGE_TICKS);
            }
            page_list_item(list, stock_line(sheet, step));
        }
    }
}

void report_sheet(const struct report_context *context, const struct batch *batch, struct page *page)
{
    struct sheet sheet = {context, batch, batch->one, page, batch->scale, false};
    sheet.other_units = sheet_in_other_units(&sheet);
    sheet_head(&sheet);
    const struct mixture_safety *safety = safety_of_formula(page->arena, context->formulary, batch->written);
    notice_stops(page, safety);
    notice_unassessed(page, safety);
    sheet_warn_of_bath(&sheet);
    add_silenced(&sheet);
    add_stocks(&sheet);
    for (size_t i = 0; i < batch->part_count; i++) {
        sheet_part(&sheet, &batch->parts[i]);
    }
    sheet_uses(&sheet);
    report_trials(batches_of(context->batches, batch->written), TEXT("Tried"), page);
    add_keeping(&sheet);
    sheet_care(&sheet);
}
