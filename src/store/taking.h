/* A formula rewritten to what stands on the shelf: its weighed and measured additions become those of the forms that are there,
 * and each keeps what was written for the sheet to say. */
#ifndef POTASH_STORE_TAKING_H
#define POTASH_STORE_TAKING_H

#include "store/on_shelf.h"

/* What became of an addition. */
struct taking {
    enum found_how how;
    const struct material *material; /* as it was written */
    const struct form *form;
    double mass;                     /* g as they were written */
    double volume;                   /* mL, of what is measured; NAN otherwise */
    double purity;                   /* of what is taken; 1 when nothing is said */
    const struct drawn *several;     /* more than one form or purity together: the addition stands as written, and this is taken */
    const struct drawn *drawn;       /* the packs that it comes from; NULL where the shelf has not enough */
    double short_of;                 /* g of the written form that the shelf lacks for `scale` times the formula */
    double scale;
};

/* Rewrites a formula for a batch of `scale` times as it is written.  Stocks are left alone: they are mixed beforehand. */
void store_take(const struct store *store, struct formula *formula, double scale);

#endif
