/* The mixing sheet: what a person takes to the bench (what a master formulation record and a batch record hold: USP General
 * Chapter 795; 21 CFR 211.186 and 211.188). */
#include "report/sheet/model.h"

#include "report/notices.h"
#include "report/records.h"

#include "base/number.h"

#include <math.h>

static void add_coming_out(const struct sheet *sheet, struct page_facts *facts, const struct sheet_part *part)
{
    struct page *page = sheet->page;
    if (part->coming_out.material != NULL) {
        const struct name *name = part->batch->part->name;
        page_facts_add(facts, name == NULL ? TEXT("in the cold") : page_format(page, "part %.*s in the cold", TEXT_ARGUMENTS(name->spelling)),
                       page_format(page, "below about %s\u00A0°C %.*s may come out; warm it and stir until it is clear (estimate)",
                                   number_print(page->arena, part->coming_out.below, 0),
                                   TEXT_ARGUMENTS(print_material(page, part->coming_out.material, NULL))));
    }
}

static struct text worded(const struct sheet *sheet, const struct estimate *estimate)
{
    struct page *page = sheet->page;
    if (!estimate->known) {
        return page_format(page, "none: %.*s", TEXT_ARGUMENTS(estimate->reason));
    }
    struct buffer text;
    buffer_start(&text, page->arena);
    struct text figures = estimate_text(page->arena, estimate);
    buffer_format(&text, "%.*s", TEXT_ARGUMENTS(figures));
    for (const struct estimate_caution *caution = estimate->cautions; caution != NULL; caution = caution->next) {
        buffer_format(&text, "; %.*s", TEXT_ARGUMENTS(caution->text));
    }
    return text_from(buffer_finish(&text));
}

/* Used as it is mixed: its estimate is that of the part but for the temperature. */
static bool is_used_whole(const struct formula *formula, const struct use *use)
{
    return formula->part_count == 1 && use_share(use, formula, formula->parts) == 1;
}

static void add_estimates(const struct sheet *sheet, struct page_facts *facts)
{
    struct page *page = sheet->page;
    for (size_t i = 0; i < sheet->batch->part_count; i++) {
        const struct part *part = sheet->parts[i].batch->part;
        if (isnan(part->makes_mass)) {
            page_facts_add(facts, part->name == NULL ? TEXT("estimated pH") : page_format(page, "estimated pH of %.*s", TEXT_ARGUMENTS(part->name->spelling)),
                           worded(sheet, &sheet->solutions.part_estimates[i]));
        }
    }
    size_t i = 0;
    for (const struct use *use = sheet->batch->written->uses; use != NULL; use = use->next, i++) {
        const struct estimate *estimate = &sheet->solutions.use_estimates[i];
        if (!is_used_whole(sheet->batch->written, use) && estimate->known) {
            page_facts_add(facts, page_format(page, "estimated pH for %.*s", TEXT_ARGUMENTS(use->name)), worded(sheet, estimate));
        }
    }
}

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
    for (size_t i = 0; i < sheet->batch->part_count; i++) {
        add_coming_out(sheet, facts, &sheet->parts[i]);
    }
    add_estimates(sheet, facts);
    page_keep_with_next(page);
    struct page_blanks *blanks = page_add_blanks(page);
    page_blank(blanks, TEXT("mixed on"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("by"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("batch no."), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("discard after"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("pH measured"), PAGE_ROOM_FIGURE, (struct text){0});
    page_blank(blanks, TEXT("appearance"), PAGE_ROOM_LINE, (struct text){0});
}

void sheet_add_boxes(const struct sheet *sheet, const struct sheet_note *notes)
{
    for (const struct sheet_note *note = notes; note != NULL; note = note->next) {
        page_add_warning(sheet->page, PAGE_CAUTION, note->title, note->words.text);
    }
}

/* Before the mixing starts. */
static void add_stocks(const struct sheet *sheet)
{
    if (sheet->stocks == NULL) {
        return;
    }
    page_add_heading(sheet->page, 2, TEXT("Make these first"));
    struct page_list *list = page_add_list(sheet->page, PAGE_TICKS);
    for (const struct sheet_note *note = sheet->stocks; note != NULL; note = note->next) {
        page_list_item(list, note->words);
    }
}

void sheet_page(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    sheet_add_head(sheet);
    notice_stops(page, sheet->solutions.whole);
    notice_unassessed(page, sheet->solutions.whole);
    sheet_add_boxes(sheet, sheet->warnings);
    if (sheet->silenced.length > 0) {
        page_add_warning(page, PAGE_NOTE, TEXT("Turned off for this formula"),
                         page_format(page, "%.*s; nothing is said of these here.", TEXT_ARGUMENTS(sheet->silenced)));
    }
    add_stocks(sheet);
    for (size_t i = 0; i < sheet->batch->part_count; i++) {
        sheet_add_part(sheet, &sheet->parts[i]);
    }
    for (size_t i = 0; i < sheet->use_count; i++) {
        sheet_add_use(sheet, &sheet->uses[i]);
    }
    report_trials(batches_of(sheet->context->batches, sheet->batch->written), TEXT("Tried"), page);
    add_keeping(sheet);
    sheet_add_care(sheet);
}
