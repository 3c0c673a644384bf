/* Forms of a salt that hardly anybody weighs. */
#ifndef POTASH_PRACTICE_REPAIRS_FORM_REPAIRS_H
#define POTASH_PRACTICE_REPAIRS_FORM_REPAIRS_H

#include "practice/bench.h"

/* Of two additions whose forms do not go together, the one to look at: old tables in ounces weigh crystals, metric ones the dry
 * salt. */
const struct step *forms_odd_one(struct bench *bench, const struct step *one, const struct step *other);

/* The words of the form in an addition; the whole line where it has none. */
struct span forms_span(const struct step *step);

/* Offers other forms of the material at the same weight, the usual one first, and as much of the usual one as holds the same. */
void forms_offer(struct bench *bench, struct diagnostic *diagnostic, const struct step *step);

#endif
