/* What it costs to mix a formula, from the prices of the packs: exact, and never free where a price is missing. */
#ifndef POTASH_STORE_MIXING_COST_H
#define POTASH_STORE_MIXING_COST_H

#include "store/store.h"

/* Which price holds where packs of one material cost differently. */
enum price_by {
    PRICE_CHEAPEST,  /* of the pack that gives most for the money */
    PRICE_OLDEST,    /* what was opened first is used up first, then the next */
    PRICE_AVERAGE    /* of all packs over all that they held when full */
};

/* Reads "cheapest", "oldest", "average"; false for anything else. */
bool price_by_read(const char *word, enum price_by *by);

enum price_gap {
    PRICE_KNOWN,
    PRICE_MISSING,
    PRICE_OTHER_CURRENCY, /* only packs priced in another currency are known */
    PRICE_NO_AMOUNT       /* added "as needed": so much and more */
};

struct cost_line {
    struct cost_line *next;
    const struct need *need;
    struct money money;
    enum price_gap gap;              /* PRICE_KNOWN: `money` holds all of it */
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

/* The cost of needs, in the store's currency. */
struct cost cost_of_needs(const struct store *store, const struct need *needs, enum price_by by);

/* The cost of a formula, `scale` times as written. */
struct cost cost_of_formula(const struct store *store, const struct formula *formula, enum price_by by);

/* A litre of a part, other parts that it draws on counted through. */
struct cost cost_of_litre(const struct store *store, const struct formula *formula, const struct part *part, enum price_by by);

/* A litre of a use's working solution, its water free; false when the mixture is not known. */
bool cost_of_working(const struct store *store, const struct formula *formula, const struct use *use, enum price_by by,
                     struct cost *cost);

/* What it costs to process goods of `area` cm2 in a use (NAN: one of those that the use counts): by the stock that one needs,
 * else by the capacity of the working solution; false when neither is declared or the goods cannot be compared. */
bool cost_of_goods(const struct store *store, const struct formula *formula, const struct use *use, enum price_by by, double area,
                   struct cost *cost);

#endif
