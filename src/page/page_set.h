/* Pages that go out together: the sheets of a folder, the labels of a print, a whole book. */
#ifndef POTASH_PAGE_PAGE_SET_H
#define POTASH_PAGE_PAGE_SET_H

#include "page/page.h"

struct page_set_item {
    struct page *page;
    struct page_set_item *next;
};

struct page_set {
    struct arena *arena;
    struct page_set_item *first, *last;
    size_t count;
};

void page_set_start(struct page_set *set, struct arena *arena);

/* Another page, empty, behind the others. */
struct page *page_set_add(struct page_set *set);

#endif
