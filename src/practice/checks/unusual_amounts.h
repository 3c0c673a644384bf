/* Amounts held against what baths of a kind usually hold. */
#ifndef POTASH_PRACTICE_CHECKS_UNUSUAL_AMOUNTS_H
#define POTASH_PRACTICE_CHECKS_UNUSUAL_AMOUNTS_H

#include "practice/bench.h"

/* The check: amounts, dilutions and final volumes outside practice, with the repairs that would bring them in. */
void amounts_check(struct bench *bench);

#endif
