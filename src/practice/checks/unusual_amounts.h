/* Amounts held against what baths of a kind usually hold. */
#ifndef POTASH_PRACTICE_CHECKS_UNUSUAL_AMOUNTS_H
#define POTASH_PRACTICE_CHECKS_UNUSUAL_AMOUNTS_H

#include "practice/practice.h"

/* The check: amounts, dilutions and final volumes outside practice, with the repairs that would bring them in. */
void amounts_check(const struct practice *practice, struct formula *formula);

/* Whether the library has a usual range of the material for that kind of bath. */
bool amount_is_known(const struct material *material, struct text kind);

/* Whether the amount of a step would be usual if it were `other` that is added. */
bool amount_would_fit(const struct formula *formula, const struct part *part, const struct step *step,
                      const struct material *other);

/* The share of a part in the bath: 1 of a formula without parts that is not diluted; NAN when it is not known. */
double amount_share(const struct formula *formula, const struct part *part);

/* An addition and how far it is from the middle of its usual range. */
struct amount_place {
    const struct part *part;
    const struct step *step;
    double place;
};

/* -1 at the lower end of the usual range, 0 in its middle (of the logarithm), 1 at the upper; 0 when it has none. */
double amount_place(const struct formula *formula, const struct part *part, const struct step *step);

/* Adds the repairs that put in the name of a material that it is mistaken for, where the amount would be usual of that. */
void amount_offer_names(const struct practice *practice, struct diagnostic *diagnostic, const struct formula *formula,
                        const struct part *part, const struct step *step);

/* Adds the repairs that make an amount less (or more) and usual. */
void amount_offer_repairs(const struct practice *practice, struct diagnostic *diagnostic, const struct formula *formula,
                          const struct part *part, const struct step *step, bool less);

/* Whether a line of the use says how the bath is diluted. */
bool amount_is_diluted(const struct use *use);

#endif
