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

/* The mean month of the Gregorian calendar in seconds, as stdlib/units.bath has it: what makes a span of time one of calendar months. */
#define CALENDAR_MEAN_MONTH 2629746.0

/* The day so many seconds later, of which the whole ones of `months` are months of the calendar: those first, then whole days.  Where
 * the month has no such day it is the month's last: one month from 31 January is 28 or 29 February (W3C XML Schema 1.0 part 2,
 * appendix E).  CALENDAR_NO_DAY of no day, and of one behind the year 9999. */
long calendar_later(long day, double seconds, double months);

/* "2026-03-04"; empty for a day that is not known or lies outside the years 0 to 9999. */
struct text calendar_print(struct arena *arena, long day);

#endif
