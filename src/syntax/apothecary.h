/* Amounts as prescriptions have them: the unit, or its sign, and behind it a Roman figure. */
#ifndef POTASH_SYNTAX_APOTHECARY_H
#define POTASH_SYNTAX_APOTHECARY_H

#include "base/arena.h"
#include "base/text.h"

enum { APOTHECARY_READINGS = 2 };

struct apothecary_amount {
    struct text written;                       /* "gr. viij"; at NULL where the line ends in no such amount */
    const char *readings[APOTHECARY_READINGS]; /* "8 grains"; a second one where the sign is in doubt, else NULL */
};

/* The amount at the end of a line.  A 3 is the sign of the dram or of the ounce, as type without the signs and scans have it. */
struct apothecary_amount apothecary_read(struct arena *arena, struct text line);

#endif
