/* Reports: each says what stands on its page, from the checked form. */
#ifndef POTASH_REPORT_REPORT_H
#define POTASH_REPORT_REPORT_H

#include <strings.h>

#include "batch/batch.h"
#include "store/mixing_cost.h"

#include <jansson.h>

struct page;
struct store;
struct batches;

/* What a report is made for. */
struct report_context {
    struct formulary *formulary;
    const struct store *store; /* the shelves that were read; empty when there are none */
    const struct batches *batches;
    double make;          /* mL of the batch, g of a dry mix; NAN for the formula's own */
    bool make_is_mass;
    struct scales scales;
    bool using_shelf;     /* batches are made of the forms that stand on the shelf */
    const char *date;     /* or NULL */
    const char *use_for;  /* the one use that the sheet is about, or NULL for all */
    struct time_row wanted; /* what a time is asked for: temperature of the bath in hand, speed, contrast, grade; NAN: not */
    enum price_by price_by; /* which price of several packs holds */
    double working;       /* mL of working solution for the tank or tray in hand; NAN for usual sizes */
};

/* Whether a report that was asked for one use only is about this one; capitals do not matter. */
static inline bool report_wants_use(const struct report_context *context, const struct use *use)
{
    return context->use_for == NULL || (strlen(context->use_for) == use->name.length &&
                                        strncasecmp(use->name.at, context->use_for, use->name.length) == 0);
}

/* The batch that is asked for, in the forms that are written. */
const struct batch *report_batch(const struct report_context *context, const struct formula *formula);

/* The same, in the forms that stand on the shelf where that was asked for. */
const struct batch *report_batch_of_shelf(const struct report_context *context, const struct formula *formula);

/* The safety notes, filled into a page; the contract's JSON of them. */
void report_safety(const struct report_context *context, const struct formula *formula, struct page *page);
json_t *report_safety_json(const struct report_context *context, const struct formula *formula);

/* All that the library knows of a material. */
void report_material(struct library *library, const struct material *material, struct page *page);
json_t *report_material_json(struct library *library, const struct material *material);

/* What may stand in for it. */
void report_materials_like(struct library *library, const struct material *material, struct page *page);
json_t *report_materials_like_json(struct library *library, const struct material *material);

#endif
