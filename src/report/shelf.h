/* The shelf as a page, as JSON, as a table for spreadsheets and as a calendar. */
#ifndef POTASH_REPORT_SHELF_H
#define POTASH_REPORT_SHELF_H

#include "library/relation.h"
#include "report/records.h"
#include "store/drawing_down.h"
#include "store/on_shelf.h"
#include "store/shopping.h"

/* Whether a formula can be mixed with what is there. */
struct mixable {
    struct mixable *next;
    const struct batch *batch;
    enum found_how how;              /* the worst of its materials: FOUND_AS_WRITTEN … FOUND_NOTHING */
    struct found *found;             /* material by material */
};

/* All that the shelf's report says. */
struct shelf_view {
    const struct report_context *context;
    const struct store *store;
    const struct batches *batches;   /* the bottles that were mixed */
    struct mixable *mixables;        /* in the order of the formulas */
    bool asked;                      /* the shopping list is for formulas that were asked for */
    struct text *wanted;             /* "5 L of Saltmarsh print developer" */
    size_t wanted_count;
    struct lack *lacks;
    long horizon;                    /* days ahead */
    const struct drawn_down *drawn_down;
};

/* "as written", "with other forms", "no": the contract's words. */
const char *shelf_how(const struct mixable *mixable);

/* The packs that expire within the horizon or have done so, the earliest first; ends with NULL. */
const struct pack **shelf_expiring(const struct shelf_view *view);

/* "620 g", "1.5 L": an amount of a pack as it counts. */
struct text shelf_amount(const struct report_context *context, struct page *page, const struct pack *pack, double amount);

/* What is taken in place of what is written: "53 g of the monohydrate in place of 45 g".  Empty when as written. */
struct text shelf_instead(const struct shelf_view *view, struct page *page, const struct found *found);

/* What is missing: "metol, 1.5 g", "hydroquinone, 4 g short". */
struct text shelf_missing(const struct shelf_view *view, struct page *page, const struct found *found);

/* What is left of a pack.  Where what batches took is calculated it is no more than about so much, and printed to three figures. */
struct text shelf_left(const struct shelf_view *view, struct page *page, const struct pack *pack);

/* What its line says is left of a pack: "600 g", as it is written. */
struct text shelf_written_left(const struct shelf_view *view, const struct pack *pack);

/* What a pack held on the day of the count, where batches took of it since; empty where none did. */
struct text shelf_as_counted(const struct shelf_view *view, struct page *page, const struct pack *pack);

/* What can be said of the choice of packs in words; empty when it needs none. */
struct text shelf_purchase_remark(const struct lack *lack);

/* The sum of what is to be bought, in the store's currency; *complete tells whether all of it is in there. */
struct money shelf_total(const struct shelf_view *view, bool *complete);

/* The batch of a formula: "1 L", "500 g"; empty where there is none to be named. */
struct text shelf_batch(const struct report_context *context, struct page *page, const struct batch *batch);

/* Things on the shelves that must not stand side by side, or that one has stood too long. */
struct shelf_danger {
    struct shelf_danger *next;
    const struct reaction *reaction;
    struct text these;               /* names */
    struct text those;               /* empty where one spoils by itself */
    const struct pack *pack;         /* then, which; else NULL */
};

/* The worst first. */
struct shelf_danger *shelf_dangers(const struct shelf_view *view, struct page *page);

void shelf_add_dangers(const struct shelf_view *view, struct page *page);

void report_shelf(const struct shelf_view *view, struct page *page);
json_t *report_shelf_json(const struct shelf_view *view);

/* One table of all lists (RFC 4180): the first field says which list a record belongs to. */
void report_shelf_csv(const struct shelf_view *view, struct buffer *out);

/* The days on which packs expire (RFC 5545), one event for a pack of which something is left. */
void report_shelf_ical(const struct shelf_view *view, struct buffer *out);

#endif
