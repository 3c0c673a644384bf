/* The copy of a text that a page keeps. */
#ifndef POTASH_PAGE_KEPT_TEXT_H
#define POTASH_PAGE_KEPT_TEXT_H

#include "page/figure.h"

/* Cleans a text as the head of page.h says, and puts its figures where they then stand. */
struct page_words page_words(struct arena *arena, struct page_words words);

#endif
