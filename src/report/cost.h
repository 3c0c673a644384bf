/* The cost of formulas as pages and as JSON. */
#ifndef POTASH_REPORT_COST_H
#define POTASH_REPORT_COST_H

#include "report/printing.h"
#include "store/mixing_cost.h"
#include "store/goods.h"

/* What the cost is reckoned for. */
struct cost_terms {
    enum price_by by;
    bool against;            /* `bought` is given */
    struct money bought;     /* price of a litre that is bought ready made, in the store's currency */
    struct goods goods;      /* so many rolls or sheets; its unit is NULL when none are asked for */
};

/* A page for one formula. */
void report_cost(const struct report_context *context, const struct cost_terms *terms, const struct batch *batch,
                 struct page *page);

/* One page that sets several side by side; `next` walks through them, from NULL to NULL. */
void report_costs_beside(const struct report_context *context, const struct cost_terms *terms, struct page *page,
                         const struct formula *(*next)(void *walker, const struct formula *before), void *walker);

/* The contract's JSON for one formula (section 6 of the notation). */
json_t *report_cost_json(const struct report_context *context, const struct cost_terms *terms, const struct batch *batch);

/* ---- what a use comes to, for both ---- */

struct use_cost {
    bool working_known;
    struct cost working;     /* a litre of working solution */
    bool roll_known;
    struct cost roll;
    bool sheet_known;
    struct cost sheet;       /* of the size that the use counts, or 8x10 in */
    const struct sheet_size *size; /* NULL: 8x10 in */
};

struct use_cost report_use_cost(const struct report_context *context, const struct cost_terms *terms,
                                const struct formula *formula, const struct use *use);

/* A litre of the stock of which a formula has one; false when it has several parts or is a dry mix. */
bool report_stock_cost(const struct report_context *context, const struct cost_terms *terms, const struct formula *formula,
                       struct cost *cost);

/* Which price holds, behind "prices": "of the pack that gives most for the money". */
struct text report_price_words(enum price_by by);

/* "8x10 in"; NULL is that. */
struct text print_sheet_size(struct page *page, const struct sheet_size *size);

/* "30 g"; "25 mL" for what a formula measures. */
struct text report_need_amount(const struct report_context *context, struct page *page, const struct need *need);

/* Why a line has no price, in words; empty when it has one. */
struct text report_price_gap(struct arena *arena, const struct store *store, const struct cost_line *line);

/* "9.40 GBP for 1 kg", with the pack as it was written. */
struct text report_pack_price(struct arena *arena, const struct store *store, const struct pack *pack);

#endif
