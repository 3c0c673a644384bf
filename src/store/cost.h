/* What it costs to mix a formula, from the prices of the packs: exact, and never free where a price is missing. */
#ifndef POTASH_STORE_COST_H
#define POTASH_STORE_COST_H

#include "store/store.h"

/* Which price holds where packs of one material cost differently. */
enum price_by {
    PRICE_CHEAPEST,  /* the pack that gives most for the money */
    PRICE_OLDEST,    /* what was opened first is used first, then the next */
    PRICE_AVERAGE    /* the prices of all packs over all that they held */
};

/* Reads "cheapest", "oldest", "average"; false for anything else. */
bool price_by_read(const char *word, enum price_by *by);

enum price_gap { PRICE_KNOWN, PRICE_MISSING, PRICE_OTHER_CURRENCY };

struct cost_line {
    struct cost_line *next;
    const struct need *need;
    struct money money;
    enum price_gap gap;              /* PRICE_KNOWN: `money` holds */
    const struct pack *pack;         /* the first pack whose price was taken, or of another currency; NULL when none */
    size_t packs;                    /* how many prices went in */
    bool other_form;                 /* the price is that of another form, by equal moles */
};

struct cost {
    const struct unit *currency;     /* NULL when the shelf states none */
    struct cost_line *lines;
    struct money batch;              /* of the lines that have a price */
    bool complete;
    size_t missing;                  /* lines without a price */
};

/* The cost of needs. */
struct cost cost_of_needs(const struct store *store, const struct need *needs, enum price_by by);

/* The cost of a formula, `scale` times as written. */
struct cost cost_of_formula(const struct store *store, const struct formula *formula, double scale, enum price_by by);

/* mL that a formula makes as written, all parts together; NAN for a dry mix. */
double cost_makes(const struct formula *formula);

/* The cost of so many mL of stock of a cost whose batch made `makes` mL. */
struct money cost_of_stock(const struct cost *cost, double millilitres, double makes);

/* A litre of a use's working solution, its water free; false when the mixture is not known.  `by` prices its parts, which may be
 * drawn in other shares than they are made. */
bool cost_of_working(const struct store *store, const struct formula *formula, const struct use *use, enum price_by by,
                     struct cost *cost);

/* What one roll (80 sq in) costs in a use: by the stock that it needs, else by the capacity of the working solution; false when
 * neither is declared.  `area` is that of the goods in cm2; NAN: one of what the use counts. */
bool cost_of_goods(const struct store *store, const struct formula *formula, const struct use *use, enum price_by by, double area,
                   struct money *money);

#endif
