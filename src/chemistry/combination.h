/* What must not come together: in one bath (the library's rules of practice), and from one bath to the next, in a drain or in
 * a can for spent baths (its combinations). */
#ifndef POTASH_CHEMISTRY_COMBINATION_H
#define POTASH_CHEMISTRY_COMBINATION_H

#include "chemistry/mixture.h"

struct combination {
    struct combination *next;
    struct text name;              /* "bleach-and-acid" */
    const struct material *first;  /* what is in the first bath */
    const struct material *second; /* in the second; NULL where any bath with `other` is meant */
    struct text other;             /* what it must not meet, in the words of the library: "chlorine bleach" */
    struct text warn;              /* what comes of it: "chlorine, a poison gas" */
    struct text advise;
    struct text source;
};

/* Between two baths that follow one another, or are poured into one drain: each material of one with each of the other. */
struct combination *combinations_between(struct arena *arena, struct library *library, const struct mixture *first,
                                         const struct mixture *second);

/* All that a bath must not meet, whatever the other may be. */
struct combination *combinations_of(struct arena *arena, struct library *library, const struct mixture *mixture);

/* Between the additions of one bath. */
struct combination *combinations_within(struct arena *arena, struct library *library, const struct mixture *mixture);

#endif
