/* What `show` says of a formula, worked out once: its page and its JSON read it, and so does the mixing sheet. */
#ifndef POTASH_REPORT_SHOW_MODEL_H
#define POTASH_REPORT_SHOW_MODEL_H

#include "chemistry/estimate.h"
#include "report/report.h"

struct show_model {
    const struct batch *batch;
    const struct estimate *parts;          /* in the order of the parts; NULL where none were asked for */
    const struct estimate *uses;           /* likewise */
    const struct content *const *contents; /* of a litre, in the order of the uses */
};

/* All of it stands in the arena, so that memory that runs out here leaves no JSON behind. */
struct show_model show_model(const struct report_context *context, const struct batch *batch, bool estimates);

/* The checked form for people, filled into a page. */
void show_page(const struct report_context *context, const struct show_model *model, struct page *page);

/* The contract's JSON for one formula (section 6 of the notation). */
json_t *show_json(const struct report_context *context, const struct show_model *model);

#endif
