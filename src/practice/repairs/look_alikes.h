/* Materials that are mistaken for another: sodium sulfate where the bath wants sodium sulfite. */
#ifndef POTASH_PRACTICE_REPAIRS_LOOK_ALIKES_H
#define POTASH_PRACTICE_REPAIRS_LOOK_ALIKES_H

#include "practice/bench.h"

/* Calls `visit` for each material that this one is mistaken for, or that is mistaken for it, until it returns true. */
bool look_alike_each(struct bench *bench, const struct material *material, bool (*visit)(void *context, const struct material *other),
                     void *context);

/* Whether the names are a letter or so apart. */
bool look_alike_by_name(const struct material *a, const struct material *b);

/* Says that another material is expected where this one stands. */
void look_alike_say(struct bench *bench, const struct step *step, const struct material *expected);

/* What the other material's name takes the place of in an addition: the name, with a form that the other does not come in. */
struct span look_alike_name_span(struct bench *bench, const struct addition_statement *addition, const struct material *other);

#endif
