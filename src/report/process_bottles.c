/* What a process takes from the bottles, and which batches have it. */
#include "report/process.h"

#include "base/number.h"

#include <math.h>

/* Whether every filling of a formula is poured away, so that its capacity does not count. */
static bool is_used_once(const struct plan *plan, const struct formula *formula)
{
    bool once = true;
    for (const struct plan_stage *planned = plan->stages; planned != NULL; planned = planned->next) {
        once = once && (planned->stage->kind != STAGE_BATH || planned->stage->formula != formula || stage_is_once(planned->stage));
    }
    return once;
}

/* What the batches of a formula have for a demand. */
static struct text supply_text(const struct process_sheet *sheet, const struct demand *demand)
{
    struct page *page = sheet->page;
    const struct batch_list *list = batches_of(sheet->batches, demand->formula);
    if (list == NULL) {
        return sheet->batches->first == NULL ? (struct text){0} : TEXT("; no batch of it is recorded");
    }
    struct provision provision = process_provision(list, report_today(sheet->context), demand);
    const struct batch_supply supply = provision.supply;
    struct text more = print_volume(sheet->context, page, provision.more);
    if (supply.in_use == 0 && supply.set_aside != NULL) {
        struct mixing_standing rest = mixing_standing(supply.set_aside, report_today(sheet->context), demand->use);
        return page_format(page, "; batch %.*s does only %.*s more, less than one load: mix %.*s first", TEXT_ARGUMENTS(supply.set_aside->id),
                           TEXT_ARGUMENTS(print_goods(page, &rest.still)), TEXT_ARGUMENTS(more));
    }
    if (supply.in_use == 0) {
        return TEXT("; no batch of it is left: mix it first");
    }
    struct mixing_standing next = mixing_standing(supply.next, report_today(sheet->context), demand->use);
    struct buffer out;
    buffer_start(&out, page->arena);
    if (supply.scarcest != NULL) {
        buffer_format(&out, "; the bottles of its parts have enough for %.*s", TEXT_ARGUMENTS(print_volume(sheet->context, page, supply.left)));
        if (provision.more > 0) {
            buffer_format(&out, ": mix more of part %.*s first", TEXT_ARGUMENTS(supply.scarcest->name->spelling));
        }
        return text_from(buffer_finish(&out));
    }
    buffer_format(&out, "; batch %.*s has %.*s", TEXT_ARGUMENTS(supply.next->id),
                  TEXT_ARGUMENTS(report_batch_amount(sheet->context, page, supply.next, next.left)));
    if (next.still.unit != NULL && !is_used_once(sheet->plan, demand->formula)) {
        buffer_format(&out, ", enough for %.*s", TEXT_ARGUMENTS(print_goods(page, &next.still)));
    }
    if (next.discard != CALENDAR_NO_DAY) {
        buffer_format(&out, ", and keeps until %.*s", TEXT_ARGUMENTS(calendar_print(page->arena, next.discard)));
    }
    if (supply.in_use > 1) {
        buffer_format(&out, "; all %zu batches together have %.*s", supply.in_use,
                      TEXT_ARGUMENTS(print_volume(sheet->context, page, supply.left)));
        if (provision.spent) {
            buffer_format(&out, ", enough for %.*s", TEXT_ARGUMENTS(print_goods(page, &supply.still)));
        }
    }
    if (provision.more > 0) {
        buffer_format(&out, ": mix %.*s more first", TEXT_ARGUMENTS(more));
    }
    return text_from(buffer_finish(&out));
}

void process_bottles(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    page_add_heading(page, 2, TEXT("From the bottles"));
    struct page_list *list = page_add_list(page, PAGE_TICKS);
    for (const struct demand *demand = plan_demands(page->arena, sheet->plan); demand != NULL; demand = demand->next) {
        struct text volume = print_volume(sheet->context, page, demand->volume);
        struct text supply = supply_text(sheet, demand);
        page_list_item(list, page_format(page, "%.*s of %.*s%.*s", TEXT_ARGUMENTS(volume), TEXT_ARGUMENTS(demand->formula->title),
                                         TEXT_ARGUMENTS(supply)));
    }
}
