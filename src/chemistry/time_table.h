/* A row of a use's table of times, or what lies between two.
 *
 * Between two temperatures the logarithm of the time is linear in the temperature: two times and temperatures give the temperature
 * coefficient (time_temperature.h).  Between two contrast indices, and two speed indices, it is linear in the index and in its
 * logarithm: the curves of contrast and of speed against the logarithm of the time are taken as straight between neighbours (common
 * practice, no source).  Nothing is given beyond the table without `beyond`. */
#ifndef POTASH_CHEMISTRY_TIME_TABLE_H
#define POTASH_CHEMISTRY_TIME_TABLE_H

#include "formula/formula.h"

enum time_source {
    TIME_OF_ROW,         /* as it stands in the table */
    TIME_BETWEEN,        /* between rows */
    TIME_BY_COEFFICIENT, /* by the coefficient that the use declares */
    TIME_NOT_KNOWN       /* time[0] is NAN */
};

struct time_answer {
    struct time_answer *next;
    struct time_row row;           /* the time with what it holds for; its speed and contrast are the wanted ones where they lie between */
    enum time_source source;
    bool beyond;                   /* outside what the table, or the coefficient, is known to hold for */
};

/* The times of a use for what is wanted (NAN: whatever the rows have): one for each speed, contrast, grade and dilution that
 * fits, in the order of the table; NULL when none fits.  What no row states is not looked at. */
struct time_answer *time_table_find(struct arena *arena, const struct use *use, const struct time_row *wanted);

/* Whether rows hold for other than the use's own temperature and dilution, so that they make a table. */
bool time_table_stands(const struct use *use);

/* Whether what was tried has the row's speed, contrast and grade, no other temperature or dilution, and its time to a fiftieth. */
bool time_row_tried(const struct time_row *row, const struct time_row *trial);

#endif
