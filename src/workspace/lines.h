/* The line of a checked formula that an offset lies on. */
#ifndef POTASH_WORKSPACE_LINES_H
#define POTASH_WORKSPACE_LINES_H

#include "workspace/snapshots.h"

struct line_at {
    const struct checked *checked;
    const struct declaration *declaration; /* of the checked file's own tree; NULL: above the first */
    const struct formula *formula;         /* NULL where the declaration is none */
    const struct part *part;
    const struct step *step;               /* NULL where the line is no step */
    const struct statement *statement;     /* NULL where the line could not be read */
};

struct line_at line_find(const struct checked *checked, size_t offset);

/* The checked form of a declaration; NULL where it is none of a formula. */
const struct formula *line_formula(const struct checked *checked, const struct declaration *declaration);

/* Whether a place lies in the declaration itself: a variant has lines of its parent's too. */
bool line_is_own(const struct formula *formula, struct span span);

#endif
