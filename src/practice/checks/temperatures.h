/* Temperatures out of the usual. */
#ifndef POTASH_PRACTICE_CHECKS_TEMPERATURES_H
#define POTASH_PRACTICE_CHECKS_TEMPERATURES_H

#include "practice/bench.h"

/* The check: says which temperature of mixing or of use is unusual for the kind of bath, and offers degrees Fahrenheit. */
void temperatures_check(struct bench *bench);

#endif
