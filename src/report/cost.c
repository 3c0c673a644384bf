/* What it costs: each addition with the price that it is reckoned by, the batch, a litre, a roll, a sheet. */
#include "report/cost.h"

#include "base/number.h"

#include <math.h>

struct costing {
    const struct report_context *context;
    const struct cost_terms *terms;
    const struct store *store;
    struct page *page;
};

/* "2.31 GBP"; "at least 2.31 GBP" where something has no price. */
static struct text total_text(const struct costing *costing, const struct cost *cost)
{
    struct text money = money_print(costing->page->arena, cost->batch, costing->store->currency);
    if (cost->complete) {
        return money;
    }
    bool nothing = wide_sign(cost->batch.numerator) == 0;
    return nothing ? TEXT("not known") : page_format(costing->page, "at least %.*s", TEXT_ARGUMENTS(money));
}

/* ---- the additions ---- */

static struct text basis(const struct costing *costing, const struct cost_line *line)
{
    struct page *page = costing->page;
    if (line->gap == PRICE_MISSING || line->pack == NULL) {
        return TEXT("missing");
    }
    struct text price = report_pack_price(page->arena, costing->store, line->pack);
    if (line->gap == PRICE_OTHER_CURRENCY) {
        return price;
    }
    if (line->packs > 1) {
        price = page_format(page, costing->terms->by == PRICE_AVERAGE ? "average of %zu packs" : "%zu packs, oldest first", line->packs);
    }
    if (line->other_form) {
        price = page_format(page, "%.*s of the %.*s", TEXT_ARGUMENTS(price), TEXT_ARGUMENTS(line->pack->form->label));
    }
    return line->pack->sold ? page_format(page, "%.*s in the shop", TEXT_ARGUMENTS(price)) : price;
}

static void add_lines(const struct costing *costing, const struct cost *cost)
{
    struct page *page = costing->page;
    struct page_table *table = page_add_table(page);
    struct page_column *material = page_table_column(table, TEXT("for the batch"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *amount = page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    struct page_column *price = page_table_column(table, TEXT("price"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    struct page_column *money = page_table_column(table, TEXT("cost"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    struct text code = costing->store->currency == NULL ? (struct text){0} : costing->store->currency->name;
    for (const struct cost_line *line = cost->lines; line != NULL; line = line->next) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, material, print_material(page, line->need->material, line->need->form));
        page_row_amount(row, amount, report_need_amount(costing->context, page, line->need), line->need->grams, TEXT("g"));
        page_row_cell(row, price, basis(costing, line));
        if (line->gap == PRICE_KNOWN) {
            page_row_amount(row, money, money_print(page->arena, line->money, costing->store->currency),
                            money_value(line->money, costing->store->currency), code);
        } else {
            page_row_cell(row, money, TEXT("?"));
            page_row_note(row, report_price_gap(page->arena, costing->store, line));
        }
    }
    struct page_row *total = page_table_total(table);
    page_row_cell(total, material, cost->complete ? TEXT("the batch") : TEXT("the batch, incomplete"));
    page_row_amount(total, money, money_print(page->arena, cost->batch, costing->store->currency),
                    money_value(cost->batch, costing->store->currency), code);
}

static void add_missing(const struct costing *costing, const struct cost *cost)
{
    if (cost->complete) {
        return;
    }
    struct buffer names;
    buffer_start(&names, costing->page->arena);
    for (const struct cost_line *line = cost->lines; line != NULL; line = line->next) {
        if (line->gap != PRICE_KNOWN) {
            buffer_format(&names, "%s%.*s", names.length == 0 ? "" : ", ", TEXT_ARGUMENTS(line->need->material->name));
        }
    }
    page_add_warning(costing->page, PAGE_CAUTION, TEXT("Incomplete"),
                     page_format(costing->page, "No total here counts %s. It costs more than is printed.", buffer_finish(&names)));
}

/* ---- what it comes to ---- */

static void add_fact(const struct costing *costing, struct page_facts *facts, struct text label, const struct cost *cost)
{
    struct page_fact *fact = page_facts_add(facts, label, total_text(costing, cost));
    if (costing->store->currency != NULL) {
        page_fact_value(fact, money_value(cost->batch, costing->store->currency), costing->store->currency->name);
    }
}

struct text print_sheet_size(struct page *page, const struct sheet_size *size)
{
    if (size == NULL) {
        return TEXT("8x10 in");
    }
    return page_format(page, "%sx%s %.*s", number_print(page->arena, size->width, 2), number_print(page->arena, size->height, 2),
                       TEXT_ARGUMENTS(size->unit == NULL ? TEXT("in") : size->unit->spelling));
}

/* "1+3 for paper". */
static struct text use_label(struct page *page, const struct use *use)
{
    if (isnan(use->stock_parts)) {
        return page_format(page, "for %.*s", TEXT_ARGUMENTS(use->name));
    }
    return page_format(page, "%.*s for %.*s", TEXT_ARGUMENTS(print_ratio(page, use->stock_parts, use->water_parts)),
                       TEXT_ARGUMENTS(use->name));
}

/* So many rolls or sheets of the goods that were asked for. */
static void add_goods(const struct costing *costing, struct page_facts *facts, const struct formula *formula, const struct use *use)
{
    struct page *page = costing->page;
    const struct goods *goods = &costing->terms->goods;
    struct cost cost;
    if (goods->unit == NULL ||
        !cost_of_goods(costing->store, formula, use, costing->terms->by, goods->count * goods->area, &cost)) {
        return;
    }
    struct text label = page_format(page, "%s %.*s, %.*s", number_print(page->arena, goods->count, 2),
                                    TEXT_ARGUMENTS(goods->unit->spelling), TEXT_ARGUMENTS(use->name));
    add_fact(costing, facts, label, &cost);
}

static void add_use(const struct costing *costing, struct page_facts *facts, const struct formula *formula, const struct use *use)
{
    struct page *page = costing->page;
    struct use_cost cost = report_use_cost(costing->context, costing->terms, formula, use);
    if (cost.working_known) {
        add_fact(costing, facts, page_format(page, "a litre %.*s", TEXT_ARGUMENTS(use_label(page, use))), &cost.working);
    }
    if (cost.roll_known) {
        add_fact(costing, facts, page_format(page, "a roll, %.*s", TEXT_ARGUMENTS(use->name)), &cost.roll);
    }
    if (cost.sheet_known) {
        struct text size = print_sheet_size(page, cost.size);
        add_fact(costing, facts, page_format(page, "a sheet %.*s, %.*s", TEXT_ARGUMENTS(size), TEXT_ARGUMENTS(use->name)),
                 &cost.sheet);
    }
    add_goods(costing, facts, formula, use);
}

/* Against a litre that is bought ready made. */
static void add_against(const struct costing *costing, struct page_facts *facts, const struct cost *stock)
{
    if (!costing->terms->against) {
        return;
    }
    struct page *page = costing->page;
    const struct unit *currency = costing->store->currency;
    struct text bought = money_print(page->arena, costing->terms->bought, currency);
    int order = money_compare(stock->batch, costing->terms->bought);
    struct money difference = order < 0 ? money_subtract(costing->terms->bought, stock->batch)
                                        : money_subtract(stock->batch, costing->terms->bought);
    struct text apart = money_print(page->arena, difference, currency);
    struct text words = !stock->complete && order < 0
                            ? page_format(page, "%.*s; mixing saves at most %.*s, since prices are missing", TEXT_ARGUMENTS(bought),
                                          TEXT_ARGUMENTS(apart))
                        : order == 0 ? page_format(page, "%.*s, the same", TEXT_ARGUMENTS(bought))
                                     : page_format(page, "%.*s; mixing %s %.*s a litre", TEXT_ARGUMENTS(bought),
                                                   order < 0 ? "saves" : "costs more by", TEXT_ARGUMENTS(apart));
    page_facts_add(facts, TEXT("a litre bought"), words);
}

static void add_totals(const struct costing *costing, const struct formula *formula)
{
    struct page *page = costing->page;
    page_add_heading(page, 2, TEXT("What it comes to"));
    struct page_facts *facts = page_add_facts(page);
    struct cost stock;
    if (report_stock_cost(costing->context, costing->terms, formula, &stock)) {
        add_fact(costing, facts, TEXT("a litre of stock"), &stock);
        add_against(costing, facts, &stock);
    } else {
        for (const struct part *part = formula->parts; part != NULL; part = part->next) {
            if (part->makes > 0 && part->name != NULL) {
                struct cost litre = cost_of_litre(costing->store, formula, part, costing->terms->by);
                add_fact(costing, facts, page_format(page, "a litre of part %.*s", TEXT_ARGUMENTS(part->name->spelling)), &litre);
            }
        }
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        if (report_wants_use(costing->context, use)) {
            add_use(costing, facts, formula, use);
        }
    }
}

/* ---- the page ---- */

struct text report_price_words(enum price_by by)
{
    switch (by) {
    case PRICE_OLDEST:
        return TEXT("of the packs in the order in which they are used up, the oldest first");
    case PRICE_AVERAGE:
        return TEXT("the average of all packs of a material");
    case PRICE_CHEAPEST:
    default:
        return TEXT("of the pack that gives most for the money");
    }
}

static void add_head(const struct costing *costing, const struct formula *formula)
{
    struct page *page = costing->page;
    double makes = formula->parts->makes;
    if (formula->part_count == 1 && !isnan(makes)) {
        page_add_fact(page, TEXT("batch"), print_volume(costing->context, page, makes));
    } else if (formula->part_count == 1 && !isnan(formula->parts->makes_mass)) {
        page_add_fact(page, TEXT("batch"), print_mass(costing->context, page, formula->parts->makes_mass));
    }
    page_add_fact(page, TEXT("prices"), report_price_words(costing->terms->by));
}

static void set_frame(const struct costing *costing, struct text source)
{
    struct page *page = costing->page;
    page_set_source(page, source);
    if (costing->context->date != NULL) {
        page_set_date(page, text_from(costing->context->date));
    }
    page_set_caution(page, TEXT("Chemicals only, by the prices written on the shelf; water, packing and postage are not counted."));
}

void report_cost(const struct report_context *context, const struct cost_terms *terms, const struct batch *batch,
                 struct page *page)
{
    const struct formula *formula = batch->written;
    struct costing costing = {context, terms, context->store, page};
    page_set_title(page, formula->title);
    page_set_subtitle(page, page_format(page, "What it costs: %.*s",
                                        TEXT_ARGUMENTS(formula->kind.length > 0 ? formula->kind : TEXT("formula"))));
    set_frame(&costing, text_from(formula->declaration->file->name));
    add_head(&costing, batch->formula);
    struct cost cost = cost_of_formula(context->store, batch->formula, terms->by);
    add_lines(&costing, &cost);
    add_missing(&costing, &cost);
    add_totals(&costing, formula);
}

/* ---- side by side ---- */

struct beside {
    struct page_table *table;
    struct page_column *title, *stock, *use, *working, *roll, *sheet;
};

/* What some of the formulas have: a column that would stay empty is left out. */
struct has {
    bool roll;
    bool sheet;
};

static struct beside add_beside(struct page *page, struct has has)
{
    struct beside columns = {.table = page_add_table(page)};
    columns.title = page_table_column(columns.table, TEXT("formula"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.stock = page_table_column(columns.table, TEXT("a litre of stock"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    columns.use = page_table_column(columns.table, TEXT("used"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    columns.working = page_table_column(columns.table, TEXT("a litre as used"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    if (has.roll) {
        columns.roll = page_table_column(columns.table, TEXT("a roll"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 3);
    }
    if (has.sheet) {
        columns.sheet = page_table_column(columns.table, TEXT("a sheet"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 3);
    }
    return columns;
}

static void put_cost(const struct costing *costing, struct page_row *row, const struct page_column *column, bool known,
                     const struct cost *cost)
{
    if (known && column != NULL) {
        page_row_amount(row, column, total_text(costing, cost), money_value(cost->batch, costing->store->currency),
                        costing->store->currency == NULL ? (struct text){0} : costing->store->currency->name);
    }
}

static void add_formula_beside(const struct costing *costing, const struct beside *columns, const struct formula *formula)
{
    struct page_row *row = page_table_row(columns->table);
    page_row_cell(row, columns->title, formula->title);
    struct cost stock;
    bool one = report_stock_cost(costing->context, costing->terms, formula, &stock);
    put_cost(costing, row, columns->stock, one, &stock);
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        if (use != formula->uses) {
            row = page_table_row(columns->table);
        }
        struct use_cost cost = report_use_cost(costing->context, costing->terms, formula, use);
        page_row_cell(row, columns->use, use_label(costing->page, use));
        put_cost(costing, row, columns->working, cost.working_known, &cost.working);
        put_cost(costing, row, columns->roll, cost.roll_known, &cost.roll);
        put_cost(costing, row, columns->sheet, cost.sheet_known, &cost.sheet);
    }
}

void report_costs_beside(const struct report_context *context, const struct cost_terms *terms, struct page *page,
                         const struct formula *(*next)(void *walker, const struct formula *before), void *walker)
{
    struct costing costing = {context, terms, context->store, page};
    page_set_title(page, TEXT("Side by side"));
    page_set_subtitle(page, TEXT("What the formulas cost"));
    set_frame(&costing, (struct text){0});
    page_add_fact(page, TEXT("prices"), report_price_words(terms->by));
    if (terms->against) {
        page_add_fact(page, TEXT("a litre bought"), money_print(page->arena, terms->bought, context->store->currency));
    }
    struct has has = {false, false};
    for (const struct formula *formula = next(walker, NULL); formula != NULL; formula = next(walker, formula)) {
        for (const struct use *use = formula->uses; use != NULL; use = use->next) {
            struct use_cost cost = report_use_cost(context, terms, formula, use);
            has.roll = has.roll || cost.roll_known;
            has.sheet = has.sheet || cost.sheet_known;
        }
    }
    struct beside columns = add_beside(page, has);
    for (const struct formula *formula = next(walker, NULL); formula != NULL; formula = next(walker, formula)) {
        add_formula_beside(&costing, &columns, formula);
    }
}
