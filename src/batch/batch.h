/* A batch: a formula at a size, in the forms that will really be taken, with what is measured out at every step.
 *
 * It is a copy; the checked form stays as it is.  This is the one place where an amount is multiplied by the size of the batch, and
 * where grams in a litre are worked out.  g, mL, doubles; nothing is rounded here. */
#ifndef POTASH_BATCH_BATCH_H
#define POTASH_BATCH_BATCH_H

#include "chemistry/measuring.h"
#include "formula/formula.h"

struct drawn; /* packs of the shelf: store/on_shelf.h */

/* What the shelf gives for an addition.  Weights and volumes are those of the formula as it is written. */
struct taking {
    struct taking *next;
    const struct step *step;     /* the line of the checked form */
    const struct material *material; /* of what is taken in its place; the line's own where nothing else is */
    const struct form *form;
    double mass;                 /* g of that */
    double purity;               /* of what is taken; 1 when nothing is said */
    const struct drawn *drawn;   /* the packs that it comes from; NULL where the shelf has not enough */
    bool several;                /* those are of more than one form or purity: the line stands as written, and all of them are taken */
    bool too_little;             /* the shelf has some of it, but not enough … */
    double short_of;             /* … by so many g of the written form, for the batch that it was asked for */
};

struct batch_step {
    const struct step *step;     /* amounts of the batch, in the form that will be taken */
    const struct step *one;      /* the same for the formula as it is written: pages that show other sizes multiply these */
    const struct step *written;  /* the line of the checked form */
    const struct taking *taking; /* NULL while it stands as it was written */
    double poured;               /* mL measured out: up to the mark what is left to add; NAN for what is weighed */
    double poured_one;           /* the same for the formula as it is written */
    double grams_per_litre;      /* of the form that is taken; NAN where it cannot be known, and in a dry mix */
    double moles_per_litre;
    double error;                /* share by which the reading may be off, half a step of the scale or graduate; NAN where none is read */
};

struct batch_part {
    const struct part *part;     /* likewise */
    const struct part *one;
    const struct part *written;
    const struct batch_step *steps; /* in mixing order */
    size_t step_count;
    double water_last;           /* mL of water for the formula as it is written, where its lines begin with what is to be dissolved;
                                  * 0 where they begin with a liquid */
};

struct batch {
    const struct formula *formula;
    const struct formula *one;
    const struct formula *written;
    double scale;                /* of the batch against the formula as it is written */
    const struct scales *scales;
    bool asked_shelf;            /* the forms are what the shelf has */
    const struct batch_part *parts;
    size_t part_count;
};

/* What a formula makes: mL, or g of a dry mix (*dry, unless NULL); of several parts the first; NAN when unknown. */
double formula_makes(const struct formula *formula, bool *dry);

/* The factor from the formula as it is written to a batch of so many mL, or g of a dry mix; 1 where that, or what it makes, is unknown. */
double batch_scale(const struct formula *formula, double make);

/* A batch of `scale` times the formula.  `takings`: what the shelf gives for its lines; NULL where no shelf is asked. */
const struct batch *batch_make(struct arena *arena, const struct formula *formula, double scale, const struct taking *takings,
                               const struct scales *scales);

/* What all parts together make, mL; NAN when one does not say. */
double batch_makes(const struct batch *batch);

#endif
