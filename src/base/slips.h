/* How far two words are apart, in slips of a hand at a keyboard. */
#ifndef POTASH_BASE_SLIPS_H
#define POTASH_BASE_SLIPS_H

#include "base/text.h"

enum { SLIPS_LONGEST = 64 /* bytes; longer words must not be compared */ };

/* Twice the number of single slips (insertion, deletion, substitution, transposition of neighbours) between two words of small
 * letters, a substitution by a neighbouring key counting one: the optimal string alignment distance (Damerau 1964,
 * Levenshtein 1966).  Gives up above `limit`. */
int text_slips(struct text a, struct text b, int limit);

#endif
