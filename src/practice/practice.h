/* The checks of practice: what a person who mixes would notice in a formula that can be read without fault. */
#ifndef POTASH_PRACTICE_PRACTICE_H
#define POTASH_PRACTICE_PRACTICE_H

#include "practice/bench.h"

/* Reads the rules; mistakes in a user's are reported.  `bench` has what holds for the run. */
void practice_start(struct bench *bench);

/* Runs every check and rule on a formula; `context` is the struct bench. */
void practice_check_formula(void *context, struct formula *formula);

/* Runs the checks of the declared stocks. */
void practice_check_stocks(struct bench *bench);

#endif
