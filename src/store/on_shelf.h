/* Whether the shelf has what a formula wants: as it is written, in another form, or as another material that does its work. */
#ifndef POTASH_STORE_ON_SHELF_H
#define POTASH_STORE_ON_SHELF_H

#include "store/store.h"

/* Some of a pack, in place of some of a need. */
struct drawn {
    struct drawn *next;
    const struct pack *pack;
    double grams;                   /* of the pack's own form, pure */
    double does_for;                /* grams of the need's form that it stands for */
};

enum found_how { FOUND_AS_WRITTEN, FOUND_OTHER_FORM, FOUND_OTHER_MATERIAL, FOUND_TOO_LITTLE, FOUND_ONLY_OLD, FOUND_NOTHING };

/* How a need is met. */
struct found {
    struct found *next;
    const struct need *need;
    enum found_how how;
    struct drawn *drawn;            /* what is taken; of FOUND_OTHER_MATERIAL what could be, in the other material's form */
    double short_of;                /* grams of the need's form that are lacking; 0 when there is enough */
};

/* How a need is met by what is left and not too old.  One form is taken for all of it where one suffices: that which is written,
 * else the one of which least is left over; else several together.  What cannot be met with the material itself is looked for
 * among materials that bring as much of the acting ion and of acid or alkali (chemistry/equivalents.h). */
struct found store_find(const struct store *store, const struct need *need);

/* store_find for a list of needs; each is looked for by itself. */
struct found *store_find_all(const struct store *store, const struct need *needs);

static inline bool found_is_there(const struct found *found)
{
    return found->how <= FOUND_OTHER_MATERIAL;
}

/* Warns of each material of a formula that stands on no shelf in any form (not-on-shelf). */
void store_check_formula(const struct store *store, struct formula *formula);

#endif
