/* What a solution or a dry mix consists of, in per cent by weight: substances, water and solvents. */
#ifndef POTASH_CHEMISTRY_MIXTURE_H
#define POTASH_CHEMISTRY_MIXTURE_H

#include "formula/formula.h"

/* A substance in it, reckoned in the form that its classification means: without crystal water and without the water that it
 * was bought in, unless its declaration says otherwise (`counts as`). */
struct component {
    struct component *next;
    const struct material *material;
    const struct form *form;
    double grams;
    double percent;
};

struct mixture {
    struct component *components; /* the heaviest first; water is none of them */
    struct component *uncounted;  /* what goes in in an amount that is not stated: "as needed" */
    double grams;                 /* of all, water included */
    double water;                 /* g */
    double millilitres;           /* NAN for a dry mix */
    bool dry;
    bool density_estimated;       /* the weight of the water was reckoned from the room that the rest leaves */
};

/* A part as it is made; NULL when its size is not known. */
const struct mixture *mixture_of_part(struct arena *arena, struct formulary *formulary, const struct part *part);

/* A litre of the working solution of a use; NULL when its mixture is not known. */
const struct mixture *mixture_of_use(struct arena *arena, struct formulary *formulary, const struct formula *formula,
                                     const struct use *use);

/* The form that a material is reckoned in. */
const struct form *mixture_form(struct library *library, const struct material *material);

/* Per cent by weight of a material; 0 when it is not in the mixture. */
double mixture_percent(const struct mixture *mixture, const struct material *material);

#endif
