/* What batches and processes share in reading their lines.  What is wrong is reported. */
#ifndef POTASH_STORE_READING_H
#define POTASH_STORE_READING_H

#include "formula/checking.h"

/* A checker for lines that belong to no formula: `stand_in` takes the formula's place in what is said, its `declaration` being
 * the declaration that is read and its `faulty` telling afterwards whether there was an error. */
struct checker store_checker(struct formulary *formulary, struct formula *stand_in);

/* The day of a date; CALENDAR_NO_DAY when the calendar has none such. */
long store_read_day(struct checker *checker, struct text date, struct span span);

/* A time, s, or a volume, mL, that is more than nothing; NAN otherwise. */
double store_read_time(struct checker *checker, const struct quantity *quantity, const char *example);
double store_read_volume(struct checker *checker, const struct quantity *quantity, const char *example);

void store_read_note(struct checker *checker, struct remark **notes, struct text text);

/* Says that no formula has that title, and which one may be meant. */
void store_say_unknown_formula(struct checker *checker, struct text title, struct span span);

#endif
