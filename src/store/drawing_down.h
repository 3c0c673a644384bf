/* The shelf less what was mixed since it was counted. */
#ifndef POTASH_STORE_DRAWING_DOWN_H
#define POTASH_STORE_DRAWING_DOWN_H

#include "store/batch.h"
#include "store/on_shelf.h"

/* Takes off the packs what the batches used that were mixed after the day `counted`, as the shelf would be drawn on for them now:
 * the form that is written before others, the pack opened first before the rest, never below nothing.  Returns how many batches;
 * *short_of gets how many of the materials were not there in full. */
size_t store_draw_down(struct store *store, const struct batches *batches, long counted, size_t *short_of);

#endif
