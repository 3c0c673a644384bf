/* Amounts held against what baths of a kind usually hold. */
#ifndef POTASH_PRACTICE_AMOUNTS_H
#define POTASH_PRACTICE_AMOUNTS_H

#include "practice/practice.h"

/* The check: amounts, dilutions and final volumes outside practice, with the repairs that would bring them in. */
void amounts_check(const struct practice *practice, struct formula *formula);

/* Whether the library has a usual range of the material for that kind of bath. */
bool amount_is_known(const struct material *material, struct text kind);

/* Whether the amount of a step would be usual if it were `other` that is added. */
bool amount_would_fit(const struct formula *formula, const struct part *part, const struct step *step,
                      const struct material *other);

#endif
