/* Figures as they are written, for repairs that change nothing else of a line. */
#ifndef POTASH_FORMULA_FIGURE_H
#define POTASH_FORMULA_FIGURE_H

#include "source/source.h"

/* The first plain decimal in a text, and what stands behind it. */
struct figure {
    bool good;
    double value;
    struct span number;
    struct span unit;       /* the word behind it, up to a blank */
    struct text unit_text;
};

/* Looks for it from so many bytes behind the beginning of the span on.  Not `good` when there is none, or it is a fraction or 0. */
struct figure figure_find(const struct source_set *sources, struct span span, size_t from);

#endif
