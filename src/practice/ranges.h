/* Usual ranges of materials, and where an amount stands in them. */
#ifndef POTASH_PRACTICE_RANGES_H
#define POTASH_PRACTICE_RANGES_H

#include "practice/bench.h"

/* The widest range that the library knows for a kind of bath and a strength. */
struct typical_bounds {
    bool found;
    bool by_volume;
    double low;                /* g/L of the usual form; mL/L of a liquid's */
    double high;
};

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
struct shares ranges_shares(const struct formula *formula, const struct part *part, const struct use *const *except, size_t except_count);

/* g/L of the usual form (mL/L for ranges by volume) in the part's own volume; NAN when it cannot be known.  `form` NULL: the
 * usual one. */
double ranges_concentration(const struct material *material, const struct form *form, double mass, const struct part *part, bool by_volume);

/* Whether the step adds an amount that can be judged. */
bool ranges_judge_it(const struct step *step, const struct part *part);

/* `form` NULL: the usual one. */
struct judgement ranges_judge(const struct formula *formula, const struct part *part, const struct material *material,
                              const struct form *form, double mass, const struct shares *shares);
struct judgement ranges_judge_step(const struct formula *formula, const struct part *part, const struct step *step,
                                   const struct shares *shares);

/* Whether the library has a usual range of the material for that kind of bath. */
bool amount_is_known(const struct material *material, struct text kind);

/* Whether the amount of a step would be usual if it were `other` that is added. */
bool amount_would_fit(const struct formula *formula, const struct part *part, const struct step *step, const struct material *other);

/* The share of a part in the bath: 1 of a formula without parts that is not diluted; NAN when it is not known. */
double amount_share(const struct formula *formula, const struct part *part);

/* An addition and how far it is from the middle of its usual range. */
struct amount_place {
    const struct part *part;
    const struct step *step;
    double place;
};

/* -1 at the lower end of the usual range, 0 in its middle (of the logarithm), 1 at the upper; 0 when it has none. */
double amount_place(const struct formula *formula, const struct part *part, const struct step *step);

/* Whether a line of the use says how the bath is diluted. */
bool amount_is_diluted(const struct use *use);

#endif
