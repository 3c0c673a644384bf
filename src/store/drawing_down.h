/* The shelf less what was mixed since it was counted. */
#ifndef POTASH_STORE_DRAWING_DOWN_H
#define POTASH_STORE_DRAWING_DOWN_H

#include "store/mixing.h"
#include "store/store.h"

/* A material of which more was mixed than stood on the shelf. */
struct overdrawn {
    struct overdrawn *next;
    const struct material *material;
    const struct form *form;   /* that the first batch wanted */
    double grams;              /* of that form, of all batches */
    size_t batches;            /* that it lacked for */
    const struct mixing *first;
};

struct drawn_down {
    bool counted;              /* some pack has a day on which it was counted */
    size_t left_out;           /* batches since, or of no known day, that have errors or whose volume is not known */
    struct overdrawn *overdrawn;
};

/* Takes off the packs what the batches used that were mixed after the day on which each was counted, one batch after the other by
 * the day of mixing and as the shelf stood on that day: the form that is written before others, the pack opened first before the
 * rest, what was past its day only where there is nothing else, never below nothing.  What came from a pack that was counted later,
 * or that is kept by hand, is in the figure of that pack already.  Stocks and solutions that have batches of their own are counted
 * with those.  What is mixed after the store's today is left out.
 *
 * `counted`, unless CALENDAR_NO_DAY, goes before the days that the shelves say; a pack's own day stays.  Where more was mixed of a
 * material than was there, the first batch is told so (not-on-shelf).  To be called once, when the batches have been checked. */
struct drawn_down store_draw_down(struct store *store, struct batches *batches, long counted);

#endif
