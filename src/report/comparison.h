/* The comparison of formulas as a page and as data, and its pieces for its own files. */
#ifndef POTASH_REPORT_COMPARISON_H
#define POTASH_REPORT_COMPARISON_H

#include "compare/compare.h"
#include "report/records.h"

/* What is compared: a chain of comparisons, and where the two sides come from. */
struct comparison_report {
    const struct comparison *comparisons;
    struct text file_a;                   /* as it is shown */
    struct text file_b;
    const struct batches *batches_a;      /* their trials are told beside the formulas */
    const struct batches *batches_b;
    const struct report_context *context_a; /* with the shelves that prices are taken from; NULL: nothing is said of the cost */
    const struct report_context *context_b;
    const char *date;                     /* or NULL */
};

/* Whether all of them are the same. */
bool report_comparison_same(const struct comparison_report *report);

/* Side by side, for the eye. */
void report_comparison(const struct comparison_report *report, struct page *page);

/* The contract's JSON (section 6 of the notation); NULL when memory runs out. */
json_t *report_comparison_json(const struct comparison_report *report);

/* ---- pieces ---- */

/* The materials of two parts, by the litre; when nothing differs, only a word to `alike`. */
void comparison_part(const struct compared_part *part, struct page *page, struct buffer *alike);

/* How they are mixed: order, warmth, working steps. */
void comparison_mixing(const struct comparison *comparison, struct page *page);

/* What the changes come to: totals, as mixed and in the working solutions. */
void comparison_meaning(const struct comparison *comparison, struct page *page);

/* What a litre of each costs; nothing where no price is known. */
void comparison_cost(const struct comparison_report *report, const struct comparison *comparison, struct page *page);
json_t *comparison_costs_json(const struct comparison_report *report);

/* Uses and keeping. */
void comparison_uses(const struct comparison *comparison, struct page *page, struct buffer *alike);
void comparison_keeping(const struct comparison *comparison, struct page *page);

/* "from a 10 % stock"; "by itself" when `percent` is NAN. */
struct text comparison_stock(struct page *page, double percent);

/* "+25 %, x 1.25"; empty when `percent` is NAN. */
struct text comparison_percent(struct page *page, double percent);

/* A table of two columns of figures or words: "", A, B, change. */
struct comparison_table {
    struct page_table *table;
    struct page_column *name, *a, *b, *change;
};
struct comparison_table comparison_table(struct page *page, const char *title, enum page_column_kind kind);
void comparison_row(const struct comparison_table *table, struct text name, struct text a, struct text b, struct text change);

#endif
