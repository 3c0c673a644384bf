/* Volumes that no bath can have, whatever it is. */
#ifndef POTASH_PRACTICE_CHECKS_DOUBTFUL_VOLUMES_H
#define POTASH_PRACTICE_CHECKS_DOUBTFUL_VOLUMES_H

#include "practice/bench.h"

/* The check: a volume that its salts, its own water, the other parts or a pair of hands do not go with.  What is found is kept with the
 * verdict, since no amount in a litre means anything then. */
void volumes_check(struct bench *bench);

/* The check: what is added after the bath is made up to its mark makes it larger than it is said to be. */
void volumes_check_mark(struct bench *bench);

#endif
