/* What must not be in one bath, or not for long. */
#ifndef POTASH_PRACTICE_CHECKS_MEETINGS_H
#define POTASH_PRACTICE_CHECKS_MEETINGS_H

#include "practice/bench.h"

/* A check of the table in practice.c: what reacts in each part as it is mixed and as it is made, in a dry mix, in what a use mixes,
 * and in the time that a part is said to keep. */
void meetings_check(struct bench *bench);

#endif
