/* The checks of practice: what a person who mixes would notice in a formula that can be read without fault. */
#ifndef POTASH_PRACTICE_PRACTICE_H
#define POTASH_PRACTICE_PRACTICE_H

#include "formula/formula.h"

struct rules;
struct class_verdict;

/* Every step of a formula, with its part. */
#define EACH_STEP(formula, part, step)                                                                                \
    for (const struct part *part = (formula)->parts; part != NULL; part = part->next)                                 \
        for (const struct step *step = part->steps; step != NULL; step = step->next)

/* What the checks go by. */
struct practice {
    struct formulary *formulary;
    double balance;      /* g: what the scale can show */
    bool balance_said;   /* the user has said so; else it is what most scales show */
    double batch;        /* mL of the batch that is weighed; NAN: as the formula is written */
    size_t said_from;    /* diagnostics about the formula in hand begin here */
    struct rules *rules; /* by practice_start */
    struct class_verdict *verdict; /* likewise; about the formula in hand */
};

/* One check: its name, what it needs, and the function. */
struct practice_check {
    const char *name;
    bool needs_sound;    /* only formulas without errors */
    void (*run)(const struct practice *practice, struct formula *formula);
};

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

/* Adds a diagnostic about a formula unless it, or the run, silences it; NULL then. */
struct diagnostic *practice_say(const struct practice *practice, struct formula *formula, enum diagnostic_id id,
                                struct span span, const char *format, ...) __attribute__((format(printf, 5, 6)));

/* Whether that has been said of something in the span already: one mistake gives one diagnostic. */
bool practice_said(const struct practice *practice, enum diagnostic_id id, struct span span);

/* Whether the line's amount, or its name, has been called in question. */
bool practice_doubts_amount(const struct practice *practice, struct span line);

/* Reads the rules; mistakes in a user's are reported. */
void practice_start(struct practice *practice);

/* Runs every check and rule on a formula; `context` is the struct practice. */
void practice_check_formula(void *context, struct formula *formula);

/* Runs the checks of the declared stocks. */
void practice_check_stocks(const struct practice *practice);

#endif
