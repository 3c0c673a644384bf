/* Bottle labels: what is in the bottle, how strong, since when and until when, and what to beware of.  Worked out once: the page and the
 * JSON read it. */
#ifndef POTASH_REPORT_LABEL_MODEL_H
#define POTASH_REPORT_LABEL_MODEL_H

#include "chemistry/hazard.h"
#include "page/page_set.h"
#include "report/printing.h"
#include "store/mixing.h"

struct label {
    struct label *next;
    const struct report_context *context;
    struct page *page;          /* for what is printed into it */
    const struct formula *formula;
    const struct part *part;    /* of a bottle, else NULL */
    const struct use *use;      /* of a working solution, else NULL */
    const struct mixing *batch; /* or NULL: blanks to fill in */
    struct text title;
    struct text strength;       /* "Ready for use, not to be diluted (fixer)" */
    double volume, mass;        /* of the batch, or the working solution in hand; NAN where unknown */
    struct text mixed, discard; /* days; may be empty */
    struct text keeps;
    const struct text *mixtures; /* of the formula's uses, in their order: "1+29", "A 1 + B 1 + water 8"; empty for what is used as it stands */
    const struct mixture_safety *safety; /* NULL where nothing can be said */
    struct text fingerprint;
};

/* The labels of a formula: one for each of its bottles (its parts), or for each of its working solutions.
 *
 * `of` is NULL or "stock" for the bottles, "working" for the working solutions; where the context names one use, it is for that.
 * `batch`, or NULL, gives the days and the volume.  NULL when the formula has no such use. */
struct label *label_model(const struct report_context *context, const struct formula *formula, const char *of, const struct mixing *batch);

/* A label for people, filled into its page; the same for programs. */
void label_page(const struct label *label);
json_t *label_json(const struct label *label);

#endif
