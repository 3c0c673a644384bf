/* A whole formulary as one book: title page, contents, mixing sheets by kind with variants beside their parents, stocks, indexes
 * of materials and stocks, safety, sources. */
#ifndef POTASH_REPORT_BOOK_H
#define POTASH_REPORT_BOOK_H

#include "library/bath_kinds.h"
#include "page/page_set.h"
#include "report/report.h"

/* A formula in its place in the book. */
struct book_chapter {
    const struct formula *formula;
    struct text anchor; /* of its sheet */
    size_t kind;        /* place of its kind in the order of the book */
    unsigned level;     /* 2: stands for itself, 3: a variant below its parent */
};

struct book {
    const struct report_context *context;
    struct page_set *set;
    struct arena *arena;
    struct text title;
    struct book_chapter *chapters; /* in the order of the book */
    size_t count;
    const struct bath_kind **kinds; /* of the library */
    size_t kind_count;
    const struct stock **stocks;   /* declared, with sheets of their own */
    struct text *stock_anchors;
    size_t stock_count;
    bool with_safety;              /* every formula's safety notes stand behind its sheet */
    void (*progress)(void *context, size_t done, size_t of); /* may be NULL */
    void *progress_context;
};

/* Fills the set.  `chapters` come with their formulas only, in any order. */
void report_book(struct book *book);

/* ---- pieces ---- */

/* A page of the book's own, with the line of caution and the date. */
struct page *book_add_page(const struct book *book, struct text anchor, struct text title);

/* Which pages speak of a material, a stock; and where the formulas come from (book_index.c). */
void book_add_stock_index(const struct book *book);
void book_add_material_index(const struct book *book);
void book_add_sources(const struct book *book);
bool book_has_sources(const struct book *book);

/* What each bottle and working solution is labelled with (book_safety.c). */
void book_add_safety(const struct book *book);

#endif
