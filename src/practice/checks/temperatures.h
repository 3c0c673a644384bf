/* Temperatures out of the usual. */
#ifndef POTASH_PRACTICE_CHECKS_TEMPERATURES_H
#define POTASH_PRACTICE_CHECKS_TEMPERATURES_H

#include "practice/practice.h"

/* The check: says which temperature of mixing or of use is unusual for the kind of bath, and offers degrees Fahrenheit. */
void temperatures_check(const struct practice *practice, struct formula *formula);

#endif
