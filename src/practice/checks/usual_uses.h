/* How baths are used, held against what is usual. */
#ifndef POTASH_PRACTICE_CHECKS_USUAL_USES_H
#define POTASH_PRACTICE_CHECKS_USUAL_USES_H

#include "practice/bench.h"

/* The check: times, dilutions, capacities and keeping outside of what stdlib/uses.bath has, times that read as minutes and seconds, and
 * purposes that are a slip away from a known one. */
void usual_uses_check(struct bench *bench);

#endif
