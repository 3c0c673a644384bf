/* What does a material's work when it is not at hand: another material of the same acting ion, where need be with an alkali
 * or an acid that makes up for the difference in acidity.
 *
 * Reckoned by balance of matter: as many moles of the acting ion, and as much acid or alkali, as the original brings.  These
 * functions know materials and their `ions`, no formulas, so that swaps in the checked form, checks of practice and bench sums share them. */
#ifndef POTASH_LIBRARY_REPLACEMENT_H
#define POTASH_LIBRARY_REPLACEMENT_H

#include "library/library.h"

/* A material in a form; `form` is never NULL. */
struct formed_material {
    const struct material *material;
    const struct form *form;
};

enum replacement_fault {
    REPLACEMENT_GOOD,
    REPLACEMENT_NO_ION,        /* the two share no ion that acts */
    REPLACEMENT_NO_FORMULA,    /* a chemical formula is unknown */
    REPLACEMENT_NOT_NEEDED,    /* it is as acid as the original without the companion */
    REPLACEMENT_WRONG_WAY,     /* an acid is wanted and an alkali given, or the reverse */
    REPLACEMENT_NO_NEUTRALIZER /* the companion is neither a hydroxide, ammonia nor a free acid */
};

struct replacement {
    enum replacement_fault fault;
    double grams;           /* of what takes the place */
    double companion_grams; /* of the alkali or acid with it; 0 when none was asked for */
    struct text ion;        /* the acting one; empty when both are one substance */
    double moles;           /* of it */
    double acidity;         /* mol of H+ more than the original brings, less when negative, that is left in the end */
};

/* Moles of acid that a mole of the material brings by its `ions`: H+ less OH- and ammonia. */
double material_acidity(const struct material *material);

/* What replaces `grams` of `from` by `to`, and by `companion` beside it unless NULL. */
struct replacement material_replacement(const struct formed_material *from, double grams, const struct formed_material *to,
                                        const struct formed_material *companion);

#endif
