/* Materials that are mistaken for another: sodium sulfate where the bath wants sodium sulfite. */
#ifndef POTASH_PRACTICE_CHECKS_LOOK_ALIKE_H
#define POTASH_PRACTICE_CHECKS_LOOK_ALIKE_H

#include "practice/rules/rules.h"

/* What the rules call for is missing: says so on the line of a material that is mistaken for it, which must be `only` when
 * that is not NULL.  False when there is none. */
bool look_alike_for_missing(const struct rules *rules, const struct practice *practice, struct formula *formula,
                            size_t subject, const struct step *only);

/* Materials that baths of this kind do not hold, but are mistaken for one that they do. */
void look_alike_check(const struct practice *practice, struct formula *formula);

/* Calls `visit` for each material that this one is mistaken for, or that is mistaken for it, until it returns true. */
bool look_alike_each(const struct practice *practice, const struct material *material,
                     bool (*visit)(void *context, const struct material *other), void *context);

/* Whether the names are a letter or so apart. */
bool look_alike_by_name(const struct material *a, const struct material *b);

/* Says that another material is expected where this one stands. */
void look_alike_say(const struct practice *practice, struct formula *formula, const struct step *step,
                    const struct material *expected);

/* What the other material's name takes the place of in an addition: the name, with a form that the other does not come in. */
struct span look_alike_name_span(const struct practice *practice, const struct addition_statement *addition,
                                 const struct material *other);

#endif
