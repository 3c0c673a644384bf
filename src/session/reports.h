/* Reports of a session: the table in reports.c, and what its rows call in files of their own. */
#ifndef POTASH_SESSION_REPORTS_H
#define POTASH_SESSION_REPORTS_H

#include "page/page_set.h"
#include "session/session.h"

enum report_kind {
    REPORT_SHOW, REPORT_SHEET, REPORT_LABEL, REPORT_PROCESS, REPORT_SAFETY, REPORT_BOOK, REPORT_COST, REPORT_SHELF, REPORT_WITHOUT,
    REPORT_MATERIALS, REPORT_ALIKE, REPORT_WHY, REPORT_SUM
};

/* Makes a report; `about` is the material, the id or the sum that it is about, or NULL. */
enum potash_status session_report(struct potash *potash, enum report_kind kind, const char *about, enum potash_format format,
                                  struct potash_output *output);

/* The formulas that reports are about and, if wanted, the declared stocks as formulas; ends with NULL. */
const struct formula **session_baths(struct potash *potash, bool stocks);

/* Whether reports about formulas or else stocks can be made, and whether one has the use that --for names. */
enum potash_status session_baths_ready(struct potash *potash);

/* A material by its name; NULL when there is none, with a message that offers the nearest one. */
const struct material *session_find_material(struct potash *potash, const char *name);

/* Labels (labels.c): whether they can be made, and all of them with the stock that they are printed on. */
enum potash_status session_labels_ready(struct potash *potash);
enum potash_status session_add_labels(struct potash *potash, struct page_set *set);
enum potash_status session_list_labels(struct potash *potash);

/* What is no list of pages, each in a file of its own; `about` as above. */
enum potash_status session_put_shelf(struct potash *potash, const char *about, enum potash_format format, struct potash_output *output);
enum potash_status session_put_without(struct potash *potash, const char *about, enum potash_format format, struct potash_output *output);
enum potash_status session_put_why(struct potash *potash, const char *about, enum potash_format format, struct potash_output *output);
enum potash_status session_put_sum(struct potash *potash, const char *about, enum potash_format format, struct potash_output *output);

/* ---- giving out (output.c) ---- */

/* Text as output. */
enum potash_status session_put_text(struct buffer *text, struct potash_output *output);

/* JSON text as output, closed by a line's end; takes the reference. */
enum potash_status session_put_json(struct potash *potash, json_t *json, struct potash_output *output);

/* Pages as output, in text, HTML or PDF. */
enum potash_status session_put_pages(struct potash *potash, const struct page_set *set, enum potash_format format,
                                     struct potash_output *output);

/* "text, json or html": formats by their bits. */
const char *session_format_list(struct potash *potash, unsigned formats);

/* Width and height of the paper that is printed on, mm. */
void session_paper_size(const struct potash *potash, double *width, double *height);

#endif
