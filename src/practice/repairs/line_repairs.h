/* Repairs that concern whole lines of a formula: a line put in, two lines exchanged. */
#ifndef POTASH_PRACTICE_REPAIRS_LINE_REPAIRS_H
#define POTASH_PRACTICE_REPAIRS_LINE_REPAIRS_H

#include "practice/bench.h"

/* Offers to put in a line with so much of a material (g of its usual form, in the batch as it is written), behind or before an
 * addition.  The amount is what such baths usually hold: the person has to look up what the source says. */
void lines_offer_addition(struct bench *bench, struct diagnostic *diagnostic, const struct material *material, double grams,
                          const struct step *beside, bool before);

/* Offers to exchange the lines of two additions, `first` the one that stands first. */
void lines_offer_exchange(struct bench *bench, struct diagnostic *diagnostic, const struct step *first, const struct step *second);

#endif
