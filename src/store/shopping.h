/* What to buy: the needs of everything that is to be mixed, less what is left, in whole packs at the least cost. */
#ifndef POTASH_STORE_SHOPPING_H
#define POTASH_STORE_SHOPPING_H

#include "store/store.h"

/* Needs to be met together.  Start with {0}; formulas, batches and processes add theirs. */
struct basket {
    struct need *needs;
};

/* Adds needs times `factor`. */
void basket_add(struct arena *arena, struct basket *basket, const struct need *needs, double factor);

/* So many packs of one kind. */
struct purchase {
    struct purchase *next;
    const struct pack *pack;        /* one like it is bought */
    unsigned long count;
};

enum purchase_fault {
    PURCHASE_GOOD,
    PURCHASE_NO_PACK,               /* nobody is known to sell it */
    PURCHASE_NO_PRICE,              /* packs are known, and no price: the fewest packs are taken */
    PURCHASE_OTHER_CURRENCY,        /* the cheapest packs of another currency */
    PURCHASE_NOT_PROVED             /* there is something cheaper, perhaps: the search was too long */
};

/* What is lacking of one material, and what to buy for it. */
struct lack {
    struct lack *next;
    const struct material *material;
    const struct form *form;        /* in which it is wanted, the first time */
    double wanted;                  /* g of that form in all */
    double left;                    /* g of that form that is there, in any form, and not too old */
    double lacking;                 /* g */
    enum purchase_fault fault;
    const struct unit *currency;    /* of `cost`; NULL when there is none */
    struct money cost;
    struct purchase *purchases;
};

/* The lacks, in the order of the needs; what there is enough of is left out. */
struct lack *shopping_list(const struct store *store, const struct basket *basket);

/* ---- the choice of packs, by itself ---- */

struct choice_pack {
    long long content;              /* millionths of a gram, above 0 */
    long long price;                /* coins, 0 or more */
    unsigned long count;            /* chosen */
};

/* Chooses whole packs that together hold at least `wanted` at the least price, of those the fewest packs.  False when the search
 * was broken off; the counts then are the best that was found. */
bool choose_packs(struct choice_pack *packs, size_t count, long long wanted);

#endif
