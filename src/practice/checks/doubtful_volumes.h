/* Volumes that no bath can have, whatever it is. */
#ifndef POTASH_PRACTICE_CHECKS_DOUBTFUL_VOLUMES_H
#define POTASH_PRACTICE_CHECKS_DOUBTFUL_VOLUMES_H

#include "practice/practice.h"

/* The line that the part's volume hangs on: `to make`, or the largest liquid where the liquids are added up; NULL when there is none. */
const struct step *volumes_line(const struct part *part);

/* Liquids that go in before the volume is made up, mL. */
double volumes_of_liquids(const struct part *part);

/* Whether the first line is water. */
bool volumes_start_with_water(const struct part *part);

/* Whether it is begun with less water than a bath made up to so much is. */
bool volumes_begin_with_little(struct library *library, const struct formula *formula, const struct part *part);

/* The check: a volume that its salts, its own water, the other parts or a pair of hands do not go with.  What is found is kept with the
 * verdict, since no amount in a litre means anything then. */
void volumes_check(const struct practice *practice, struct formula *formula);

/* The check: what is added after the bath is made up to its mark makes it larger than it is said to be. */
void volumes_check_mark(const struct practice *practice, struct formula *formula);

#endif
