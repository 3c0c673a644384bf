/* What stands before everything else on a page about a bath: that it is among the gravest, or that nobody knows how grave it is. */
#ifndef POTASH_REPORT_NOTICES_H
#define POTASH_REPORT_NOTICES_H

#include "chemistry/hazard.h"
#include "page/page.h"

/* A box for each ingredient with a `stop` line. */
void notice_stops(struct page *page, const struct mixture_safety *safety);

/* Whether it is very acid or alkaline, but not corrosive by what is known of it: too little of a reserve, or of an acid or alkali
 * that is classed as less. */
bool notice_is_strong(const struct mixture_safety *safety);

/* A box that names what is not assessed; nothing where all is. */
void notice_unassessed(struct page *page, const struct mixture_safety *safety);

/* "iron soap 3 %, ammonia in an amount that is not stated" */
struct text notice_names(struct arena *arena, const struct hazard_cause *unassessed);

#endif
