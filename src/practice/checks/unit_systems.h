/* One formula, one system of units. */
#ifndef POTASH_PRACTICE_CHECKS_UNIT_SYSTEMS_H
#define POTASH_PRACTICE_CHECKS_UNIT_SYSTEMS_H

#include "practice/bench.h"

/* A single weight in grams among grains and ounces, where grains were meant: a factor of fifteen. */
void unit_systems_check(struct bench *bench);

#endif
