/* What a process costs: of all that it takes from the bottles, by the prices on the shelf. */
#include "report/process.h"

#include "report/cost.h"
#include "report/json_values.h"

#include <math.h>

/* The cost of all demands; false when no shelf states a currency or the volume of a formula is not known. */
static bool whole_cost(const struct process_sheet *sheet, struct cost *cost)
{
    const struct store *store = sheet->context->store;
    struct formulary *formulary = sheet->context->formulary;
    if (store == NULL || store_is_empty(store) || store->currency == NULL) {
        return false;
    }
    struct need *needs = NULL;
    for (const struct demand *demand = plan_demands(formulary->arena, sheet->plan); demand != NULL; demand = demand->next) {
        double makes = demand->formula->parts->makes;
        if (!(makes > 0)) {
            return false;
        }
        const struct batch *batch = batch_make(formulary->arena, demand->formula, batch_scale(demand->formula, demand->volume), NULL, &sheet->context->scales);
        needs_add_all(formulary->arena, &needs, needs_of_formula(formulary, batch->formula), 1);
    }
    *cost = cost_of_needs(store, needs, sheet->context->price_by);
    return needs != NULL;
}

/* Materials whose price is missing, each once; NULL when there are none. */
static const char *missing_names(const struct process_sheet *sheet, const struct cost *cost)
{
    struct buffer names;
    buffer_start(&names, sheet->page->arena);
    for (const struct cost_line *line = cost->lines; line != NULL; line = line->next) {
        if (line->gap != PRICE_KNOWN) {
            struct text name = print_material(sheet->page, line->need->material, line->need->form);
            buffer_format(&names, "%s%.*s", names.length == 0 ? "" : ", ", TEXT_ARGUMENTS(name));
        }
    }
    return names.length == 0 ? NULL : buffer_finish(&names);
}

void process_cost(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    const struct plan *plan = sheet->plan;
    struct cost cost;
    if (!whole_cost(sheet, &cost)) {
        return;
    }
    struct buffer text;
    buffer_start(&text, page->arena);
    struct text all = money_print(page->arena, cost.batch, cost.currency);
    buffer_format(&text, "%.*s for the chemicals of all fillings", TEXT_ARGUMENTS(all));
    if (plan->goods.unit != NULL) {
        struct goods one = plan->goods;
        one.count = 1;
        struct text each = money_print(page->arena, money_share(cost.batch, 1, plan->goods.count), cost.currency);
        buffer_format(&text, ", %.*s for %.*s", TEXT_ARGUMENTS(each), TEXT_ARGUMENTS(print_goods(page, &one)));
    }
    const char *missing = missing_names(sheet, &cost);
    if (missing != NULL) {
        buffer_format(&text, "; incomplete, no price is known of: %s", missing);
    }
    struct page_fact *fact = page_add_fact(page, TEXT("cost"), text_from(buffer_finish(&text)));
    page_fact_value(fact, money_value(cost.batch, cost.currency), cost.currency->name);
    page_add_fact(page, TEXT("prices"), report_price_words(sheet->context->price_by));
}

json_t *process_cost_json(const struct process_sheet *sheet)
{
    struct cost cost;
    if (!whole_cost(sheet, &cost)) {
        return json_null();
    }
    json_t *missing = json_array();
    for (const struct cost_line *line = cost.lines; line != NULL; line = line->next) {
        if (line->gap != PRICE_KNOWN) {
            put_item(&missing, text_json(line->need->material->name));
        }
    }
    const struct goods *goods = &sheet->plan->goods;
    json_t *each = goods->unit == NULL ? json_null()
                                       : json_real(money_value(money_share(cost.batch, 1, goods->count), cost.currency));
    return json_pack("{s:o, s:f, s:o, s:b, s:o}", "currency", text_json(cost.currency->name), "in_all",
                     money_value(cost.batch, cost.currency), "each", each, "complete", cost.complete, "missing", missing);
}
