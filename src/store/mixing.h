/* Batches: the diary of what was mixed, used, tried and poured away.
 *
 * mL, s, °C, days of the calendar.  A batch that is faulty has been reported and says nothing about what is left.  Reading and
 * looking up take time in proportion to the number of batches. */
#ifndef POTASH_STORE_MIXING_H
#define POTASH_STORE_MIXING_H

#include "base/calendar.h"
#include "store/goods.h"

struct mixing;

/* Something was taken from the bottle, or went through it and back. */
struct batch_use {
    struct batch_use *next;
    long day;
    double volume;             /* mL that did not come back; 0 when it was poured back */
    struct goods goods;        /* what was processed; its unit is NULL when nothing is said */
    struct span span;
    const struct mixing *by;   /* the batch that was mixed with it, or NULL */
    bool calculated;           /* that one's formula wants it, and nothing is written down */
};

/* What was tried, and how it came out. */
struct trial {
    struct trial *next;
    const struct mixing *batch;
    long day;
    struct text use;           /* "film"; empty when not noted */
    struct time_row of;        /* NAN: not noted */
    struct text verdict;
    struct span span;
};

struct mixing {
    struct mixing *next;        /* in the order of the files */
    struct mixing *next_alike;  /* the next one of the same formula */
    struct text id;
    const struct declaration *declaration;
    const struct formula *formula; /* NULL when unknown */
    const struct part *part;   /* what is in the bottle, where it is one part of a formula in several; NULL: all of the formula */
    bool faulty;
    long mixed;                /* CALENDAR_NO_DAY when not said; likewise the others */
    long discarded;
    double made;               /* mL; the formula's own batch when nothing is said; NAN when that is unknown too.  Of a formula in
                                * parts so much of the first, and as much of the others as goes with it */
    bool made_assumed;
    bool dry;                  /* a dry mix: what was made, taken and is left of it is g, not mL */
    double taken;              /* mL in all */
    double topped_up;          /* mL that were added later */
    struct text by;            /* who mixed it; empty when not said */
    struct text mixed_as;      /* fingerprint of the formula as it stood then; empty when not said */
    struct took *tooks, *last_took;       /* what it was made of (store/ledger.h) */
    struct took *toppings, *last_topping; /* what it was topped up with */
    struct need *needs;        /* what it is not written of that it took: of the formula as it is written, mixing_scale() times */
    size_t place;              /* in the order of the files */
    struct batch_use *uses, *last_use;
    struct trial *trials, *last_trial;
    struct remark *notes;
};

/* The batches of a formula, in the order of the files. */
struct batch_list {
    const struct formula *formula;
    struct mixing *first, *last;
    size_t count;
    struct mixing **open;      /* those that may still be drawn on (store/ledger.c); NULL until they are asked for */
    size_t open_count;
    struct need *needs;        /* of a batch that draws on no bottle; NULL until it is known */
    UT_hash_handle hh;
};

struct batch_entry;
struct took;
struct need;

struct batches {
    struct formulary *formulary;
    long today;                    /* CALENDAR_NO_DAY when none is known: no day is still to come then */
    struct mixing *first, *last;
    size_t count;
    struct mixing **by_day;        /* those that say enough, by the day of mixing, once they are settled */
    size_t sound_count;
    struct batch_entry *ids;       /* table by id */
    struct batch_list *formulas;   /* table by formula, in the order of the first batch of each */
    struct batch_entry *stocks;    /* table of the stocks' titles; NULL until one is asked for */
};

/* Checks the batches among the declarations of the files that were added; the formulas must have been checked. */
void batches_start(struct batches *batches, struct formulary *formulary, long today);
void batches_add_file(struct batches *batches, const struct syntax_file *file);

/* How many times the formula's own batch, or its part's, was made; NAN when unknown. */
double mixing_scale(const struct mixing *batch);

/* The mL of the whole formula that so many mL out of the bottle go with: of a part, as far as that part goes. */
double mixing_does_for(const struct mixing *batch, double volume);

/* mL, or g, that are left in the bottle; NAN when unknown. */
double mixing_left(const struct mixing *batch);

/* The batch of that id; NULL when there is none. */
struct mixing *batches_bottle(struct batches *batches, struct text id);
const struct mixing *batches_find(const struct batches *batches, struct text id);

/* The batches of a formula; NULL when there are none. */
const struct batch_list *batches_of(const struct batches *batches, const struct formula *formula);

/* The formula that stands for a declared stock solution in the diary, by the stock's title ("phenidone 1 % stock"); NULL when there is
 * no such stock. */
const struct formula *batches_stock(struct batches *batches, struct text title);

/* An id that no batch has: the day and the letter behind the last one that is taken, and the initials of whoever mixed it, so that two
 * people find different ones: "2026-03-04 b", "2026-03-04 b RK".  `taken`, or NULL, lists more batches to keep clear of. */
struct text batches_new_id(const struct batches *batches, struct arena *arena, struct text day, struct text by,
                           const struct syntax_file *taken);

/* The id with its letter, or else the figures that it ends in, `more` further on; with a letter where it has neither. */
struct text batch_id_after(struct arena *arena, struct text id, long more);

/* ---- where a batch stands (mixing_standing.c) ---- */

enum batch_state {
    BATCH_IN_USE,
    BATCH_DISCARDED,  /* the diary says so */
    BATCH_EMPTY,      /* nothing is left in the bottle */
    BATCH_EXHAUSTED,  /* its capacity is spent */
    BATCH_TOO_OLD     /* past the time that it keeps */
};

struct mixing_standing {
    enum batch_state state;
    double left;               /* mL */
    const struct use *use;     /* that the goods are counted by; NULL when no use says how many */
    struct goods still;        /* goods still to go; its unit is NULL when that is unknown */
    long discard;              /* last day that it keeps; CALENDAR_NO_DAY when unknown */
    const struct keeping *keeping; /* that the day follows from, or NULL */
    double per_day;            /* mL that were taken in a day between mixing and the last use; 0 when unknown */
};

/* On the day `today`, which may be CALENDAR_NO_DAY: then nothing is too old.  The goods are counted by `use`; by the one that
 * the diary counts by where that is NULL. */
struct mixing_standing mixing_standing(const struct mixing *batch, long today, const struct use *use);

/* Whether a time of keeping is said of such a vessel ("tray"). */
bool keeping_is_in(const struct keeping *keeping, const char *vessel);

/* What a formula's batches say together. */
struct batch_supply {
    size_t in_use;             /* batches */
    const struct mixing *set_aside; /* the last that is in use, but does less than a load; NULL when there is none */
    double loads;              /* whole loads that their capacities do; INFINITY where one of them is not known */
    double left;               /* mL in them; where parts have bottles of their own, what the scarcest of them does for */
    const struct part *scarcest; /* that part; NULL where no part has a bottle of its own */
    struct goods still;        /* goods still to go in them, in the kind of the first; its unit is NULL when unknown */
    long discard;              /* the day up to which the last of them keeps; CALENDAR_NO_DAY when unknown */
    const struct mixing *next;  /* that should be used first: the one that keeps the shortest; NULL when none is in use */
    const struct mixing *last;  /* the youngest of all, in use or not */
};

/* What goes into a bath together, if `load` says so (NULL, or its unit NULL: one of them): a bottle that does less is set aside. */
struct batch_supply batch_supply(const struct batch_list *list, long today, const struct use *use, const struct goods *load);

#endif
