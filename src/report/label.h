/* The bottle label: what is in the bottle, how strong, since when and until when, and what to beware of. */
#ifndef POTASH_REPORT_LABEL_H
#define POTASH_REPORT_LABEL_H

#include "page/page_set.h"
#include "report/report.h"
#include "store/mixing.h"

/* The labels of a formula into a set: one for each of its bottles (its parts), or for each of its working solutions.
 *
 * `of` is NULL or "stock" for the bottles, "working" for the working solutions; where the context names one use, it is for that.  `batch`, or NULL for blanks to
 * fill in, gives the days and the volume.  How many were added: 0 when the formula has no such use. */
size_t report_labels(const struct report_context *context, const struct formula *formula, const char *of,
                     const struct mixing *batch, struct page_set *set);

#endif
