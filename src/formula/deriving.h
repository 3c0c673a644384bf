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

/* variant_places.c.  The place in the list of the addition of `words`, in `part` unless it is NULL; NULL when there is none, or one
 * in several parts, which is reported.  The words "in part A" would be put in at `part_goes`. */
struct statement **derive_find_addition(struct derivation *derivation, const struct material_words *words, const struct word *part,
                                        uint32_t part_goes);

/* Where an addition goes that does not say where: before the water that makes up, else behind the last addition. */
struct statement **derive_usual_place(struct derivation *derivation, const struct material_words *words, const struct word *part,
                                      uint32_t part_goes);

/* One past a material's name and form in the text. */
uint32_t derive_name_end(struct derivation *derivation, const struct material_words *words);

bool derive_is_to_make(const struct statement *statement);

/* The amount of an addition as it stands now, by a check of the list so far that says nothing; NULL when it cannot be had. */
const struct step *derive_reckon_step(struct derivation *derivation, const struct statement *wanted);

/* swaps.c: `swap NAME for NAME`, `swap NAME for NAME + NAME`. */
void derive_swap(struct derivation *derivation, const struct change_statement *statement);

#endif
