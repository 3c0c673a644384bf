/* The checked form of what stands on the shelf: packs, the shops' packs, scales, graduates and bottles.
 *
 * Weights are g and volumes mL of the pack's contents as they are; `purity` says how much of them is the form that is named.
 * What was wrong about a line has been reported, and the line is left out. */
#ifndef POTASH_STORE_STORE_H
#define POTASH_STORE_STORE_H

#include "base/calendar.h"
#include "formula/formula.h"
#include "store/money.h"

struct shelf;
struct mixing;

/* A pack on the shelf (`holds`), or one that a shop sells (`sold`). */
struct pack {
    struct pack *next;              /* of all shelves, in the order of the files */
    struct pack *next_of_material;  /* of the same material */
    struct pack *next_usable;       /* of those that have something left and are not past their day: see store_settle */
    const struct shelf *shelf;
    const struct holding_statement *statement;
    const struct material *material;
    const struct form *form;        /* never NULL */
    double purity;                  /* share of its weight that is `form`, above 0 to 1; 1 when nothing is said */
    bool by_volume;                 /* `size` and `left` are mL, not g */
    bool sold;                      /* in a shop, not on the shelf: nothing of it is left here */
    double size;                    /* of a full pack */
    double left;                    /* now: as it was written, less what the batches mixed since took (store/drawing_down.h) */
    double written_left;
    long counted;                   /* the day that `written_left` is of; CALENDAR_NO_DAY: it is kept by hand and holds as it stands */
    size_t batches;                 /* that took of it since */
    size_t calculated;              /* of these, so many that say nothing of it: what they took is calculated */
    const struct mixing *last_batch; /* the last of them, and of those */
    const struct mixing *last_calculated;
    const struct unit *currency;    /* NULL: its price is not known */
    long long price;                /* of a full pack, in the currency's smallest coins */
    long opened;                    /* days; CALENDAR_NO_DAY when not said.  Likewise below */
    long best_before;
    struct text lot;                /* empty when not said */
    struct text supplier;
};

/* A scale or a graduate. */
struct instrument {
    struct instrument *next;
    double step;                    /* g or mL that it shows; what a graduate is right within */
    double capacity;                /* g or mL that it takes; NAN when not said */
    struct span span;
};

struct bottle {
    struct bottle *next;
    double volume;                  /* mL */
    unsigned long count;
    struct text note;               /* "dark glass"; may be empty */
};

struct shelf {
    struct shelf *next;
    const struct declaration *declaration;
    struct text title;
    const struct unit *currency;    /* NULL when none is stated */
    long counted;                   /* the day on which its packs were counted; CALENDAR_NO_DAY when not said */
    struct span counted_span;
    size_t batches;                 /* that were mixed since */
    struct instrument *balances;
    struct instrument *graduates;
    struct bottle *bottles;
    struct remark *notes;
};

/* All packs of one material, as a table by the material's place in the library. */
struct supply {
    const void *key;
    const struct material *material;
    struct pack *first;
    struct pack *last;
    struct pack *usable;            /* in the order in which they are used up */
    UT_hash_handle hh;
};

struct store {
    struct arena *arena;
    struct formulary *formulary;
    struct library *library;
    struct diagnostics *diagnostics;
    struct shelf *shelves;          /* in the order of the files */
    struct shelf *last_shelf;
    struct pack *packs;
    struct pack *last_pack;
    struct supply *supplies;
    struct lot_entry *lots;
    const struct unit *currency;    /* that totals are in: the first that a shelf states; NULL when none does */
    long today;                     /* the day that is printed; CALENDAR_NO_DAY when none is known: nothing is too old then */
};

void store_start(struct store *store, struct formulary *formulary, long today);

/* Takes in and checks the shelves of a parsed file. */
void store_add_file(struct store *store, const struct syntax_file *file);

static inline bool store_is_empty(const struct store *store)
{
    return store->shelves == NULL;
}

/* To be called once, when it is settled what is left of each pack, and before anything is looked for on the shelf. */
void store_settle(struct store *store);

/* The usable packs of a material, chained by next_usable; NULL when there are none. */
const struct pack *store_usable(const struct store *store, const struct material *material);

/* The packs of a material, chained by next_of_material; NULL when there are none. */
const struct pack *store_packs(const struct store *store, const struct material *material);

/* Whether a pack is past its best before date. */
bool pack_is_old(const struct store *store, const struct pack *pack);

/* Which of two packs is used up first: the one opened first, one that is begun before a full one, then the one that is best before the
 * earlier day, then the one that is written down first.  An order of all packs: no two are equal. */
bool pack_goes_before(const struct pack *a, const struct pack *b);

/* Grams of the pure form in `amount` (g or mL, as the pack counts) of a pack, and the amount that holds so many grams. */
double pack_grams(const struct pack *pack, double amount);
double pack_amount(const struct pack *pack, double grams);

/* The finest step, g or mL, of the shelves' scales and graduates; NAN when none is declared. */
double store_balance(const struct store *store);
double store_graduate(const struct store *store);

/* ---- needs: what is wanted of each material ---- */

/* So many grams of a pure form. */
struct need {
    struct need *next;
    const struct material *material;
    const struct form *form;
    double grams;
    bool measured;                  /* a formula measures it as a liquid */
    bool unknown;                   /* some of it was "as needed": so much and more */
    struct span span;               /* the first line that asks for it */
};

/* Adds to a list, to what it wants of the same form already. */
void needs_add(struct arena *arena, struct need **list, const struct need *need);

/* All of `more`, times `factor`. */
void needs_add_all(struct arena *arena, struct need **list, const struct need *more, double factor);

/* What a whole formula takes, all its parts: solutions of other formulas and the solvents of stocks are counted through, water is left
 * out.  Another size is that of a batch (batch/batch.h). */
struct need *needs_of_formula(struct formulary *formulary, const struct formula *formula);

/* The same, or of `part` alone unless that is NULL, but for the steps that draw on a bottle which `has_a_bottle`
 * says was mixed by itself. */
struct need *needs_of_formula_beside(struct formulary *formulary, const struct formula *formula, const struct part *part,
                                     bool (*has_a_bottle)(void *context, const struct step *step, double scale), void *context);

/* The same of one part alone, with what it takes of other parts counted through. */
struct need *needs_of_part(struct formulary *formulary, const struct formula *formula, const struct part *part, double scale);

#endif
