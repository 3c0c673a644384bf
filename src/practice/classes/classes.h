/* Classes of baths: a formula is held against the rules that describe what baths of a class hold (`holds` lines). */
#ifndef POTASH_PRACTICE_CLASSES_CLASSES_H
#define POTASH_PRACTICE_CLASSES_CLASSES_H

#include "practice/rules/rules.h"

enum { MOST_GROUPS = 8 };
enum { NO_ITEM = UINT8_MAX }; /* and no point */

struct class_pairing;

/* All that a formula holds of a material in one solution, or in the bath where the solutions' shares are known. */
struct class_point {
    const struct part *part;
    const struct step *step;       /* its largest addition */
    const struct subject_set *subjects; /* that it answers to */
    size_t group;                  /* of the amounts whose common strength is looked for */
    double grams;                  /* logarithm to the base of ten: g/L of the usual form */
    double millilitres;            /* likewise mL/L of a liquid; NAN for others */
    double share;                  /* of the part in what the amount is reckoned for */
};

/* What is known beforehand of how strong a solution is against the bath in use, in powers of ten. */
struct class_strength {
    double weaker;                 /* standard deviation downward, from the bath in use */
    double stronger;               /* and upward */
};

struct class_points {
    struct class_point points[MOST_POINTS];
    size_t count;
    struct class_strength strengths[MOST_GROUPS];
    size_t group_count;
    bool whole;                    /* one strength for all: nothing is unknown but how strong the whole is */
};

/* What is supposed to be wrong when a class is tried. */
struct supposition {
    size_t point;                  /* NO_ITEM: nothing */
    double shift;                  /* what its amount should have been, in powers of ten; NAN: anything */
    double all;                    /* the same for all amounts */
};

/* All points of one item in one group, as one amount. */
struct class_sum {
    const struct class_item *item;
    size_t group;
    double amount;                 /* logarithm to the base of ten */
    size_t of_points;
};

/* Of the amounts of a group about the middles of their items, each weighed by its precision. */
struct class_moments {
    double square;
    double first;
    double precision;
    double width;                  /* what the ranges cost that are wider than others */
};

/* The amounts of a formula beside those of a class: all that suppositions about them leave as it is. */
struct class_match {
    const struct class_pairing *pairing;
    const struct class_points *points;
    size_t sum[MOST_POINTS];       /* that each point belongs to; NO_ITEM for an extra */
    double value[MOST_POINTS];     /* logarithm of what it holds, in the item's measure */
    struct class_sum sums[MOST_POINTS];
    size_t sum_count;
    struct class_moments moments[MOST_GROUPS];
};

/* The single amounts, when the supposition holds. */
struct class_fit {
    double z[MOST_POINTS];         /* standard deviations from the middle at the strength that was found; NAN for extras */
    double gain[MOST_POINTS];      /* by how much the score rises, at the most, when that amount is another */
    double strain;                 /* what the strength takes from the score */
    double strength[MOST_GROUPS];
};

/* Gathers the amounts of a formula.  False when these cannot be known, or are too many or too few. */
bool class_gather(const struct rules *rules, const struct rules_of_kind *picked, const struct formula *formula, struct class_points *points);

/* One group of them, as a bath of its own. */
void class_one_group(const struct class_points *all, size_t group, struct class_points *points);

/* The standard deviation of the strength on that side. */
double class_strength_spread(const struct class_strength *strength, double deviation);

void class_match_points(const struct class_pairing *pairing, const struct class_points *points, struct class_match *match);

/* How well the formula is one of that class when the supposition holds: logarithm of likelihood. */
double class_score(const struct class_match *match, const struct supposition *supposition);

void class_fit_points(const struct class_match *match, const struct supposition *supposition, struct class_fit *fit);

/* How well a formula of which no class is known is expected to fit: what a class has to beat. */
double class_unknown(const struct class_points *points);

/* Standard deviations of an amount from the middle, without what the other amounts tell of the strength. */
double class_alone(const struct class_match *match, const struct class_fit *fit, size_t point);

/* The check.  Says what does not go with the rest of the formula, or is missing from it. */
void classes_check(struct bench *bench);

#endif
