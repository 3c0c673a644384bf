/* Pages that go out together: the sheets of a folder, the labels of a print, a whole book. */
#ifndef POTASH_PAGE_PAGE_SET_H
#define POTASH_PAGE_PAGE_SET_H

#include "page/page.h"

struct page_set_item {
    struct page *page;
    struct page_set_item *next;
};

/* Labels on a sheet of label stock, all lengths in mm: the first label's corner from the sheet's, then one label every pitch. */
struct page_labels {
    double width, height;         /* of a label */
    double left, top;             /* margins */
    double pitch_across, pitch_down;
    unsigned columns, rows;
    unsigned start;               /* position of the first to be printed, from 1, row by row */
    unsigned copies;              /* of each */
};

struct page_set {
    struct arena *arena;
    struct text title;                /* of them all together; empty: the first page's */
    bool book;                        /* bound as one: numbered through, with marks to find the pages by */
    const struct page_labels *labels; /* every page is a label; NULL: each starts on a sheet of its own */
    struct page_set_item *first, *last;
    size_t count;
};

void page_set_start(struct page_set *set, struct arena *arena);

/* Another page, empty, behind the others. */
struct page *page_set_add(struct page_set *set);

#endif
