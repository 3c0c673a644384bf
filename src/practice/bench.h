/* The bench that a formula lies on while it is checked: what holds for the whole run, and all that the checks have found out about the
 * formula so far.  It is passed down, and nothing of a formula is kept anywhere else. */
#ifndef POTASH_PRACTICE_BENCH_H
#define POTASH_PRACTICE_BENCH_H

#include "formula/formula.h"

#include <stdint.h>

/* Every step of a formula, with its part. */
#define EACH_STEP(formula, part, step)                                                                                \
    for (const struct part *part = (formula)->parts; part != NULL; part = part->next)                                 \
        for (const struct step *step = part->steps; step != NULL; step = step->next)

/* A formula printed for an ounce or two, mL, gives proportions, not a batch that is weighed (common practice, no source). */
enum { PRACTICE_SMALLEST_BATCH = 100 };

/* The share by which an amount may be off before it is better taken from a stock: 2 %, common practice, no source. */
#define PRACTICE_ROUGH_SHARE (0.02 + 1e-9)

/* The least weight, g, that a scale of steps of `balance` g weighs well: half a step bounds a digital reading (JCGM 100:2008,
 * 4.3.7). */
static inline double practice_least_weight(double balance)
{
    return balance / 2 / PRACTICE_ROUGH_SHARE;
}

/* ---- what rules and classes find out about a formula ---- */

enum { MOST_SUBJECTS = 256 }; /* subjects that the rules of one run name */

struct subject_set {
    uint64_t bits[MOST_SUBJECTS / 64];
};

static inline bool subject_set_has(const struct subject_set *set, size_t subject)
{
    return (set->bits[subject / 64] >> subject % 64 & 1) != 0;
}

static inline void subject_set_put(struct subject_set *set, size_t subject)
{
    set->bits[subject / 64] |= (uint64_t)1 << subject % 64;
}

enum { NO_MATERIAL = -1 };

/* What a formula holds; a pinch alone is not an addition, so that it says nothing of what is missing. */
struct contents {
    struct subject_set there;
    bool pinches;
};

/* An addition to the bath, all parts together. */
struct bath_line {
    const struct subject_set *subjects; /* that it answers to */
    double grams;                    /* in a litre; NAN when it is not known how the parts are mixed */
};

struct bath_lines {
    struct bath_line *lines;
    size_t count;
    size_t room;
    bool known;                      /* else to be reckoned when a rule asks */
};

enum { MOST_POINTS = 24 /* amounts that are held against a class of baths */ };

struct rule;
struct rules;

/* What the check of classes has found out. */
struct class_verdict {
    bool volume_doubted;                   /* a volume cannot be right: nothing that is reckoned in a litre means anything */
    const struct rule *complete;           /* the class that it is one of, when nothing is missing from it; else NULL */
    const struct material *missing;        /* what the class has and the formula has not; or NULL */
    const struct step *usual[MOST_POINTS]; /* additions whose amounts are as usual in that class */
    size_t usual_count;
    const struct step *steps[MOST_POINTS]; /* all additions that the class knows */
    double places[MOST_POINTS];            /* and where they stand in its ranges: -1 at the lower end, 1 at the upper */
    size_t step_count;
};

/* ---- the bench ---- */

struct bench {
    /* Of the run. */
    struct formulary *formulary;
    double balance;              /* g: what the scale can show */
    bool balance_said;           /* the user has said so; else it is what most scales show */
    double batch;                /* mL of the batch that is weighed; NAN: as the formula is written */
    struct rules *rules;         /* by practice_start */
    /* Of the formula that lies on it. */
    struct formula *formula;
    size_t said_from;            /* diagnostics about it begin here */
    struct contents contents;
    struct bath_lines bath;      /* what a litre of it holds */
    struct class_verdict verdict;
};

/* Adds a diagnostic about the formula unless it, or the run, silences it; NULL then. */
struct diagnostic *bench_say(struct bench *bench, enum diagnostic_id id, struct span span, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Whether that has been said of something in the span already: one mistake gives one diagnostic. */
bool bench_said(const struct bench *bench, enum diagnostic_id id, struct span span);

/* Whether the line's amount, or its name, has been called in question. */
bool bench_doubts_amount(const struct bench *bench, struct span line);

/* Where the addition stands in the range of its class, at the strength of the whole: -1 at the lower end, 1 at the upper; NAN when
 * no class is known. */
double bench_class_place(const struct bench *bench, const struct step *step);

/* Whether the addition is as usual in the class of the formula: then no wider range or rule doubts it. */
bool bench_vouches(const struct bench *bench, const struct step *step);

#endif
