/* For the files that work a variant's changes into its parent's statements. */
#ifndef POTASH_FORMULA_DERIVING_H
#define POTASH_FORMULA_DERIVING_H

#include "formula/checking.h"

struct derivation {
    struct checker *checker;
    struct formula *variant;
    const struct formula *parent;
    struct statement *statements; /* the derived list: copies, so that the parent's own list stays as it is */
    struct statement *last_remark; /* the variant's own notes and keeping times that stand at the head of the list */
};

/* The place in the list of the addition of `words`; NULL when there is none, which is reported. */
struct statement **derive_find_addition(struct derivation *derivation, const struct material_words *words);

/* The amount of an addition as it stands now, by a check of the list so far that says nothing; NULL when it cannot be had. */
const struct step *derive_reckon_step(struct derivation *derivation, const struct statement *wanted);

/* swaps.c: `swap NAME for NAME`, `swap NAME for NAME + NAME`. */
void derive_swap(struct derivation *derivation, const struct change_statement *statement);

#endif
