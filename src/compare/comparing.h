/* The pieces of a comparison, for its own files. */
#ifndef POTASH_COMPARE_COMPARING_H
#define POTASH_COMPARE_COMPARING_H

#include "compare/compare.h"

#include <math.h>

/* A change, at the end of the list; figures NAN and texts empty. */
struct change *compare_note(struct comparison *comparison, enum change_what what);

/* Sets the figures of an amount and its percentage. */
void compare_figures(struct change *change, double from, double to, const char *unit);

/* Whether the library's figures for both are the same amount; both NAN is the same as well. */
bool compare_alike(const struct comparison *comparison, double from, double to);

/* The same with `slack` in place of the tolerance where it is wider. */
bool compare_alike_within(const struct comparison *comparison, double from, double to, double slack);

/* A spelling to match by. */
struct text compare_key(struct comparison *comparison, struct text spelling);
struct text compare_format(struct comparison *comparison, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* What is done on the way to `part`, amounts multiplied by `scale`. */
struct ingredient *compare_ingredients(struct comparison *comparison, const struct formula *formula, const struct part *part,
                                       double scale);

/* g that `ingredient` has of `form`, as many moles; by the strength where the form has no formula. */
double compare_reduced(const struct ingredient *ingredient, const struct form *form, double amount);

/* Parts: matching, amounts, order, working steps. */
void compare_parts(struct comparison *comparison);
void compare_lines(struct comparison *comparison, struct compared_part *part);
void compare_steps(struct comparison *comparison, struct compared_part *part);
void compare_order(struct comparison *comparison, struct compared_part *part);

/* The part of the second that stands against a part of the first, or the reverse; NULL when there is none. */
const struct compared_part *compare_pair_of(const struct comparison *comparison, const struct part *part);

/* Uses and keeping. */
void compare_uses(struct comparison *comparison);
void compare_keeping(struct comparison *comparison, struct text part, struct text use, const struct keeping *a,
                     const struct keeping *b);

#endif
