/* The copy of a text that a page keeps. */
#ifndef POTASH_PAGE_KEPT_TEXT_H
#define POTASH_PAGE_KEPT_TEXT_H

#include "page/figure.h"

/* Cleans a text as the head of page.h says.  Marks of figures are taken out; *figures gets the figures in order, unless it is
 * NULL. */
struct text page_words(struct arena *arena, struct text text, struct page_figure **figures);

#endif
