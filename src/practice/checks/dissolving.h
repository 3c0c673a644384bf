/* What does not dissolve. */
#ifndef POTASH_PRACTICE_CHECKS_DISSOLVING_H
#define POTASH_PRACTICE_CHECKS_DISSOLVING_H

#include "practice/bench.h"

/* The most that a stock in water can hold at 20 °C, in the same per cent; INFINITY when no figure speaks against more. */
double dissolving_most(const struct material *material, const struct form *form, enum percent_basis basis);

/* Stocks that are drawn on, and salts by weight. */
void dissolving_check(struct bench *bench);

/* The other additions by weight, where nothing else doubts the amount. */
void dissolving_check_rest(struct bench *bench);

#endif
