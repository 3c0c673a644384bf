/* A batch of what stands on the shelf: the weighed and measured additions of a formula become those of the forms that are there. */
#ifndef POTASH_STORE_TAKING_H
#define POTASH_STORE_TAKING_H

#include "batch/batch.h"
#include "store/on_shelf.h"

/* A batch of `scale` times the formula out of what is on the shelf.  Stocks are left alone: they are mixed beforehand. */
const struct batch *store_batch(const struct store *store, const struct formula *formula, double scale, const struct scales *scales);

#endif
