/* The volume of a part of a formula. */
#ifndef POTASH_PRACTICE_PART_VOLUMES_H
#define POTASH_PRACTICE_PART_VOLUMES_H

#include "formula/formula.h"

/* The line that the part's volume hangs on: `to make`, or the largest liquid where the liquids are added up; NULL when there is none. */
const struct step *volumes_line(const struct part *part);

/* Liquids that go in before the volume is made up, mL. */
double volumes_of_liquids(const struct part *part);

/* Whether the first line is water. */
bool volumes_start_with_water(const struct part *part);

/* Whether it is begun with less water than a bath made up to so much is. */
bool volumes_begin_with_little(struct library *library, const struct formula *formula, const struct part *part);

#endif
