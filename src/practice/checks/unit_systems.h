/* One formula, one system of units. */
#ifndef POTASH_PRACTICE_CHECKS_UNIT_SYSTEMS_H
#define POTASH_PRACTICE_CHECKS_UNIT_SYSTEMS_H

#include "practice/practice.h"

/* Whether an addition is written in ounces, drams, grains, minims or pints. */
bool unit_systems_is_old(const struct practice *practice, const struct step *step);

/* A single weight in grams among grains and ounces, where grains were meant: a factor of fifteen. */
void unit_systems_check(const struct practice *practice, struct formula *formula);

#endif
