/* The estimated pH on the mixing sheet, beside the blank for the one that is measured. */
#include "report/sheet/sheet.h"

#include "chemistry/estimate.h"

#include <math.h>

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

void sheet_add_estimates(const struct sheet *sheet, struct page_facts *facts)
{
    const struct formula *formula = sheet->batch->written;
    struct formulary *formulary = sheet->context->formulary;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (!isnan(part->makes_mass)) {
            continue;
        }
        struct estimate estimate = estimate_part(formulary, part, NAN);
        struct text label = part->name == NULL ? TEXT("estimated pH")
                                               : page_format(sheet->page, "estimated pH of %.*s", TEXT_ARGUMENTS(part->name->spelling));
        page_facts_add(facts, label, worded(sheet, &estimate));
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        struct estimate estimate = estimate_use(formulary, formula, use);
        if (!is_used_whole(formula, use) && estimate.known) {
            page_facts_add(facts, page_format(sheet->page, "estimated pH for %.*s", TEXT_ARGUMENTS(use->name)), worded(sheet, &estimate));
        }
    }
}
