/* The shelf less what was mixed since it was counted. */
#ifndef POTASH_STORE_DRAWING_DOWN_H
#define POTASH_STORE_DRAWING_DOWN_H

#include "store/batch.h"
#include "store/on_shelf.h"

struct drawn_down {
    size_t batches;   /* that were taken off */
    size_t short_of;  /* materials of a batch that were not on the shelf in full */
};

/* Takes off the packs what the batches used that were mixed after the day `counted`, one after the other by the day of mixing and
 * as the shelf stood and would have been drawn on that day: the form that is written before others, the pack opened first before
 * the rest, never below nothing.  Stocks and solutions that have batches of their own are counted with those.  To be called once,
 * when the batches have been checked. */
struct drawn_down store_draw_down(struct store *store, struct batches *batches, long counted);

#endif
