/* Days of the calendar (ISO 8601, proleptic Gregorian), counted so that they can be subtracted. */
#ifndef POTASH_BASE_CALENDAR_H
#define POTASH_BASE_CALENDAR_H

#include "base/arena.h"
#include "base/text.h"

#include <limits.h>

/* A day that is not known. */
#define CALENDAR_NO_DAY LONG_MIN

/* The day of "2026-03-04", counted from 1970-01-01; CALENDAR_NO_DAY when the calendar has no such day. */
long calendar_day(struct text date);

/* "2026-03-04"; empty for a day that is not known or lies outside the years 0 to 9999. */
struct text calendar_print(struct arena *arena, long day);

#endif
