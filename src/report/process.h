/* The working sheet of a process, and its pieces for its own files. */
#ifndef POTASH_REPORT_PROCESS_H
#define POTASH_REPORT_PROCESS_H

#include "report/records.h"
#include "store/processes.h"

struct process_sheet {
    const struct report_context *context;
    const struct batches *batches;
    const struct plan *plan;
    struct page *page;
};

/* The whole sheet, filled into a page. */
void report_process(const struct process_sheet *sheet);
json_t *report_process_json(const struct process_sheet *sheet);

/* What to measure out before the first pour. */
void process_make_ready(const struct process_sheet *sheet);

/* Every pour by the clock, and the course for renderers that run timers. */
void process_clock(const struct process_sheet *sheet);

/* What it takes from the bottles, and which of them have it. */
void process_bottles(const struct process_sheet *sheet);

/* What one bath does to the next when it is carried over without a wash; what must not meet in the drain. */
void process_carried(const struct process_sheet *sheet);
void process_poured_away(const struct process_sheet *sheet);
/* What it costs, as a fact at the head; nothing where no shelf has prices. */
void process_cost(const struct process_sheet *sheet);
json_t *process_cost_json(const struct process_sheet *sheet);

/* "part A", "stock", "water", "ethanol": what a share is called in front of `stage`. */
struct text process_share_name(const struct process_sheet *sheet, const struct plan_stage *stage, const struct plan_share *share);

/* "1 Tern film developer": a bath by its number and title. */
struct text process_bath_name(const struct process_sheet *sheet, const struct plan_stage *stage);

#endif
