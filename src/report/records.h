/* What the pages of batches, trials and processes share. */
#ifndef POTASH_REPORT_RECORDS_H
#define POTASH_REPORT_RECORDS_H

#include "report/printing.h"
#include "store/mixing.h"

/* "10 rolls", "1 roll", "40 sheets 8x10 in"; whole ones only. */
struct text print_goods(struct page *page, const struct goods *goods);

/* "2 rolls" without rounding down what is asked for: the count as it is. */
struct text print_goods_asked(struct page *page, const struct goods *goods);

/* The day that the context is made for; CALENDAR_NO_DAY when there is none. */
long report_today(const struct report_context *context);

/* What is in the bottle of a batch: "Tern film developer", "Sea purslane two-part developer, part A". */
struct text report_batch_of(struct page *page, const struct mixing *batch);

/* "450 mL"; "154 g" of a dry mix. */
struct text report_batch_amount(const struct report_context *context, struct page *page, const struct mixing *batch, double amount);

/* The trials of a formula's batches, the latest first, as a section of a page under `heading`; nothing when there are none. */
void report_trials(const struct batch_list *list, struct text heading, struct page *page);
json_t *report_trials_json(const struct batch_list *list, struct arena *arena);

/* Batches and what to mix next, as a section of the shelf's page; nothing when there are none. */
void report_batches(const struct report_context *context, const struct batches *batches, struct page *page);

/* The same as data: an array for the key "batches", and one of titles and reasons for "mix_next". */
json_t *report_batches_json(const struct report_context *context, const struct batches *batches);
json_t *report_mix_next_json(const struct report_context *context, const struct batches *batches);

#endif
