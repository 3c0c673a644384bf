/* The contract's JSON of a cost. */
#include "report/cost.h"

#include "report/json_values.h"

/* Not rounded: what is finer than the smallest coin is kept. */
static json_t *money_json(const struct cost *cost)
{
    return cost->currency == NULL ? json_null() : json_real(money_value(cost->batch, cost->currency));
}

static json_t *money_json_if(bool known, const struct cost *cost)
{
    return known ? money_json(cost) : json_null();
}

static json_t *basis_json(const struct store *store, const struct cost_line *line)
{
    if (line->pack == NULL || line->pack->currency == NULL) {
        return json_null();
    }
    struct text pack = source_text(store->formulary->sources, line->pack->statement->pack->span);
    return json_pack("{s:o, s:o, s:f, s:o, s:b, s:i}", "pack", text_json(pack), "form", text_or_null(line->pack->form->label),
                     "price", money_value(money_of_coins(line->pack->price), line->pack->currency), "currency",
                     text_json(line->pack->currency->name), "sold", line->pack->sold, "packs", (int)line->packs);
}

static json_t *line_json(const struct report_context *context, struct page *page, const struct cost_line *line,
                         const struct cost *cost)
{
    const struct need *need = line->need;
    bool priced = line->gap == PRICE_KNOWN && cost->currency != NULL;
    return json_pack("{s:o, s:o, s:o, s:f, s:o, s:o}", "material", text_json(need->material->name), "form",
                     text_or_null(need->form->label), "amount", text_json(report_need_amount(context, page, need)), "mass_g",
                     need->grams, "cost", priced ? json_real(money_value(line->money, cost->currency)) : json_null(), "price",
                     basis_json(context->store, line));
}

static json_t *size_json(struct page *page, const struct use_cost *use)
{
    return use->sheet_known ? text_json(print_sheet_size(page, use->size)) : json_null();
}

static json_t *uses_json(const struct report_context *context, const struct cost_terms *terms, const struct formula *formula,
                         struct page *page, json_t **per_litre, struct use_cost *roll, struct use_cost *sheet)
{
    json_t *uses = json_array();
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        struct use_cost cost = report_use_cost(context, terms, formula, use);
        json_t *name = text_json(use->name);
        put_member(per_litre, json_string_value(name), money_json_if(cost.working_known, &cost.working));
        put_item(&uses, json_pack("{s:o, s:o, s:o, s:o, s:o}", "for", name, "per_L_working",
                                  money_json_if(cost.working_known, &cost.working), "per_roll",
                                  money_json_if(cost.roll_known, &cost.roll), "per_sheet",
                                  money_json_if(cost.sheet_known, &cost.sheet), "sheet", size_json(page, &cost)));
        if (cost.roll_known && !roll->roll_known) {
            *roll = cost;
        }
        if (cost.sheet_known && !sheet->sheet_known) {
            *sheet = cost;
        }
    }
    return uses;
}

json_t *report_cost_json(const struct report_context *context, const struct cost_terms *terms, const struct batch *of)
{
    const struct formula *formula = of->written;
    const struct store *store = context->store;
    struct page *page = page_start(store->arena); /* for what is printed into it */
    struct cost batch = cost_of_formula(store, of->formula, terms->by);
    json_t *lines = json_array();
    json_t *missing = json_array();
    for (const struct cost_line *line = batch.lines; line != NULL; line = line->next) {
        put_item(&lines, line_json(context, page, line, &batch));
        if (line->gap != PRICE_KNOWN) {
            put_item(&missing, text_json(line->need->material->name));
        }
    }
    struct cost stock = {0};
    bool one_stock = report_stock_cost(context, terms, formula, &stock);
    struct use_cost roll = {0};
    struct use_cost sheet = {0};
    json_t *per_litre = json_object();
    json_t *uses = uses_json(context, terms, formula, page, &per_litre, &roll, &sheet);
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:b, s:o}", "title", text_json(formula->title), "currency",
                     store->currency == NULL ? json_null() : text_json(store->currency->name), "lines", lines, "batch",
                     money_json(&batch), "per_L_stock", money_json_if(one_stock, &stock), "per_L_working", per_litre, "per_roll",
                     money_json_if(roll.roll_known, &roll.roll), "per_sheet", money_json_if(sheet.sheet_known, &sheet.sheet),
                     "uses", uses, "bought_L",
                     terms->against && store->currency != NULL ? json_real(money_value(terms->bought, store->currency))
                                                               : json_null(),
                     "complete", batch.complete, "missing", missing);
}
