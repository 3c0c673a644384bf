/* Repairs that make an amount usual. */
#ifndef POTASH_PRACTICE_REPAIRS_AMOUNT_REPAIRS_H
#define POTASH_PRACTICE_REPAIRS_AMOUNT_REPAIRS_H

#include "practice/bench.h"

/* Adds the repairs that put in the name of a material that it is mistaken for, where the amount would be usual of that. */
void amount_offer_names(struct bench *bench, struct diagnostic *diagnostic, const struct part *part, const struct step *step);

/* Adds the repairs that make an amount less (or more) and usual. */
void amount_offer_repairs(struct bench *bench, struct diagnostic *diagnostic, const struct part *part, const struct step *step, bool less);

#endif
