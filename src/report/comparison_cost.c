/* What two formulas cost by the litre, side by side, where a shelf has prices; for the page and for programs. */
#include "report/comparison.h"

#include "report/cost.h"
#include "report/json_values.h"

#include <math.h>

/* A litre of something on one side. */
struct priced {
    bool known;
    struct cost cost;
};

/* A line of the table: the stock, or a use's working solution. */
struct cost_pair {
    struct text name;
    struct priced of[2];
};

static bool has_price(const struct cost *cost)
{
    return cost->currency != NULL && (cost->complete || wide_sign(cost->batch.numerator) != 0);
}

static struct priced price_stock(const struct report_context *context, const struct formula *formula)
{
    struct priced priced = {0};
    struct cost_terms terms = {.by = context->price_by};
    priced.known = !store_is_empty(context->store) && report_stock_cost(context, &terms, formula, &priced.cost) &&
                   has_price(&priced.cost);
    return priced;
}

static struct priced price_use(const struct report_context *context, const struct formula *formula, const struct use *use)
{
    struct priced priced = {0};
    priced.known = use != NULL && !store_is_empty(context->store) &&
                   cost_of_working(context->store, formula, use, context->price_by, &priced.cost) && has_price(&priced.cost);
    return priced;
}

static struct cost_pair pair_of_stock(const struct comparison_report *report, const struct comparison *comparison)
{
    return (struct cost_pair){TEXT("stock"),
                              {price_stock(report->context_a, comparison->a), price_stock(report->context_b, comparison->b)}};
}

static struct cost_pair pair_of_use(const struct comparison_report *report, const struct comparison *comparison,
                                    const struct compared_use *use, struct page *page)
{
    struct text name = use->a != NULL ? use->a->name : use->b->name;
    name = name.length == 0 ? TEXT("working solution") : page_format(page, "working solution, %.*s", TEXT_ARGUMENTS(name));
    return (struct cost_pair){name, {price_use(report->context_a, comparison->a, use->a), price_use(report->context_b, comparison->b, use->b)}};
}

static bool equal(const struct priced *a, const struct priced *b)
{
    return a->known == b->known && (!a->known || (a->cost.currency == b->cost.currency && a->cost.complete == b->cost.complete &&
                                                  money_compare(a->cost.batch, b->cost.batch) == 0));
}

/* The two sides are sessions of their own, and so are their currencies: they are one when they have one code. */
static bool comparable(const struct cost_pair *pair)
{
    const struct priced *a = &pair->of[0];
    const struct priced *b = &pair->of[1];
    return a->known && b->known && a->cost.complete && b->cost.complete &&
           text_equal(a->cost.currency->name, b->cost.currency->name) && wide_sign(a->cost.batch.numerator) != 0;
}

static double change_percent(const struct cost_pair *pair)
{
    if (!comparable(pair)) {
        return NAN;
    }
    double from = money_value(pair->of[0].cost.batch, pair->of[0].cost.currency);
    double to = money_value(pair->of[1].cost.batch, pair->of[1].cost.currency);
    return (to - from) / from * 100;
}

/* ---- the page ---- */

static struct text cost_cell(struct page *page, const struct priced *priced)
{
    if (!priced->known) {
        return (struct text){0};
    }
    struct text money = money_print(page->arena, priced->cost.batch, priced->cost.currency);
    return priced->cost.complete ? money : page_format(page, "at least %.*s", TEXT_ARGUMENTS(money));
}

static void add_row(struct page *page, struct comparison_table *table, const struct cost_pair *pair,
                    const struct comparison_report *report)
{
    if (!pair->of[0].known && !pair->of[1].known) {
        return;
    }
    if (table->table == NULL) {
        page_add_heading(page, 2, TEXT("What it costs"));
        page_add_paragraph(page, page_format(page, "Chemicals only. Prices: %.*s.",
                                             TEXT_ARGUMENTS(report_price_words(report->context_a->price_by))));
        page_keep_with_next(page);
        *table = comparison_table(page, "a litre of", PAGE_COLUMN_AMOUNT);
    }
    double percent = change_percent(pair);
    comparison_row(table, pair->name, cost_cell(page, &pair->of[0]), cost_cell(page, &pair->of[1]),
                   fabs(percent) < 0.5 ? (struct text){0} : comparison_percent(page, percent));
}

static void add_missing(struct page *page, const struct cost_pair *pair)
{
    static const char *const sides[] = {"A", "B"};
    for (int i = 0; i < 2; i++) {
        const struct cost *cost = &pair->of[i].cost;
        struct buffer names;
        buffer_start(&names, page->arena);
        for (const struct cost_line *line = pair->of[i].known ? cost->lines : NULL; line != NULL; line = line->next) {
            if (line->gap != PRICE_KNOWN) {
                buffer_format(&names, "%s%.*s", names.length == 0 ? "" : ", ", TEXT_ARGUMENTS(line->need->material->name));
            }
        }
        if (names.length > 0) {
            page_add_paragraph(page, page_format(page, "%s costs more than is printed: no price is known of %s.", sides[i],
                                                 buffer_finish(&names)));
        }
    }
}

/* Where all of it is the same on both sides only one line says so. */
static bool any_differs(const struct comparison_report *report, const struct comparison *comparison, struct page *page)
{
    struct cost_pair stock = pair_of_stock(report, comparison);
    bool differs = fabs(change_percent(&stock)) >= 0.5 || !comparable(&stock);
    for (const struct compared_use *use = comparison->uses; use != NULL && !differs; use = use->next) {
        struct cost_pair pair = pair_of_use(report, comparison, use, page);
        differs = fabs(change_percent(&pair)) >= 0.5 || !comparable(&pair);
    }
    return differs;
}

void comparison_cost(const struct comparison_report *report, const struct comparison *comparison, struct page *page)
{
    if (report->context_a == NULL || (comparison->same && !any_differs(report, comparison, page))) {
        return;
    }
    struct comparison_table table = {0};
    struct cost_pair stock = pair_of_stock(report, comparison);
    add_row(page, &table, &stock, report);
    struct cost_pair missing = stock;
    for (const struct compared_use *use = comparison->uses; use != NULL; use = use->next) {
        struct cost_pair pair = pair_of_use(report, comparison, use, page);
        /* what is used as it is costs what the stock does */
        if (!equal(&pair.of[0], &stock.of[0]) || !equal(&pair.of[1], &stock.of[1])) {
            add_row(page, &table, &pair, report);
        }
        for (int i = 0; i < 2; i++) { /* a formula in parts has no one stock */
            missing.of[i] = missing.of[i].known ? missing.of[i] : pair.of[i];
        }
    }
    if (table.table != NULL) {
        add_missing(page, &missing);
    }
}

/* ---- for programs ---- */

static json_t *priced_json(const struct priced *priced)
{
    if (!priced->known) {
        return json_null();
    }
    return json_pack("{s:o, s:f, s:b}", "currency", text_json(priced->cost.currency->name), "cost",
                     money_value(priced->cost.batch, priced->cost.currency), "complete", priced->cost.complete);
}

static void append_pair(json_t *list, const struct comparison *comparison, const struct cost_pair *pair, struct text use)
{
    if (!pair->of[0].known && !pair->of[1].known) {
        return;
    }
    double percent = change_percent(pair);
    put_item(&list, json_pack("{s:o, s:o, s:o, s:o, s:o}", "title", text_json(comparison->a->title), "use",
                              text_or_null(use), "from", priced_json(&pair->of[0]), "to", priced_json(&pair->of[1]),
                              "percent", isfinite(percent) ? json_real(percent) : json_null()));
}

json_t *comparison_costs_json(const struct comparison_report *report)
{
    json_t *list = json_array();
    if (report->context_a == NULL) {
        return list;
    }
    struct page page = {.arena = report->context_a->formulary->arena};
    for (const struct comparison *comparison = report->comparisons; comparison != NULL; comparison = comparison->next) {
        if (comparison->a == NULL || comparison->b == NULL) {
            continue;
        }
        struct cost_pair stock = pair_of_stock(report, comparison);
        append_pair(list, comparison, &stock, (struct text){0});
        for (const struct compared_use *use = comparison->uses; use != NULL; use = use->next) {
            struct cost_pair pair = pair_of_use(report, comparison, use, &page);
            append_pair(list, comparison, &pair, use->a != NULL ? use->a->name : use->b->name);
        }
    }
    return list;
}
