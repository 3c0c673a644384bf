/* What batches took, by their own lines or calculated: of the shelf, and of the bottles of other batches. */
#ifndef POTASH_STORE_LEDGER_H
#define POTASH_STORE_LEDGER_H

#include "store/mixing.h"
#include "store/store.h"

struct checker;

/* A `took` or a `topped up` line. */
struct took {
    struct took *next;
    const struct took_statement *statement;
    const struct material *material; /* NULL where the solution of a formula was taken */
    const struct form *form;         /* of the material, never NULL then */
    struct text title;               /* of that formula */
    double amount;                   /* g, as the scale showed it, or mL */
    bool by_volume;
    struct text lot;                 /* empty when not said */
    struct text bottle_id;           /* the batch that it came from; empty when not said */
    struct mixing *bottle;           /* the same once it is known to be there */
    long day;
};

/* Reads such a line; what is wrong is reported, and the batch is faulty then. */
void ledger_read_took(struct checker *checker, struct mixing *batch, const struct took_statement *statement);

/* Takes out of the bottles what was taken, and finds what each batch needs of the shelf that it does not say (mixing.needs).  To be
 * called once, when all files were added. */
void batches_settle(struct batches *batches);

/* The bottle that so much of a stock or solution is poured from on that day: the one that keeps the shortest and still holds enough; NULL
 * when none does.  *poured: mL out of the bottle.  Days are asked for in ascending order. */
struct mixing *ledger_bottle(struct batches *batches, const struct step *step, double volume, long day, double *poured);

#endif
