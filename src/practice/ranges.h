/* Usual ranges of materials, and where an amount stands in them. */
#ifndef POTASH_PRACTICE_RANGES_H
#define POTASH_PRACTICE_RANGES_H

#include "practice/practice.h"

enum verdict { TOO_LITTLE = -1, USUAL = 0, TOO_MUCH = 1, NOT_KNOWN = 2 };

/* The dilutions that a part is used at, as shares of it in the bath. */
struct shares {
    double least;
    double most;
    bool known;    /* false: it is used as it is, or a stock whose dilution stands nowhere */
};

struct judgement {
    enum verdict verdict;
    double value;         /* in the unit of the bounds, in a litre */
    struct typical_bounds bounds;
    const char *where;    /* " stock", or nothing */
};

/* How a part comes into the baths: by uses (but for `except`), and by other parts that take it in. */
struct shares ranges_shares(const struct formula *formula, const struct part *part, const struct use *const *except,
                            size_t except_count);

/* g/L of the usual form (mL/L for ranges by volume) in the part's own volume; NAN when it cannot be known.  `form` NULL: the
 * usual one. */
double ranges_concentration(const struct material *material, const struct form *form, double mass, const struct part *part,
                            bool by_volume);

/* Whether the step adds an amount that can be judged. */
bool ranges_judge_it(const struct step *step, const struct part *part);

/* `form` NULL: the usual one. */
struct judgement ranges_judge(const struct formula *formula, const struct part *part, const struct material *material,
                              const struct form *form, double mass, const struct shares *shares);
struct judgement ranges_judge_step(const struct formula *formula, const struct part *part, const struct step *step,
                                   const struct shares *shares);

#endif
