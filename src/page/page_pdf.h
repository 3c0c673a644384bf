/* Pages as PDF (ISO 32000-1): set with Pango, drawn with Cairo.
 *
 * Both libraries are loaded when the first PDF is asked for, and not before: they take longer to load than most other work of
 * the program takes.  The same pages give the same bytes where the same fonts are installed; no clock is read. */
#ifndef POTASH_PAGE_PAGE_PDF_H
#define POTASH_PAGE_PAGE_PDF_H

#include "page/page_set.h"

struct page_pdf_job {
    double width, height; /* of the paper, mm */
    const char *program;  /* that made it, for the document's properties: "potash 0.1.0" */
    void (*progress)(void *context, size_t done, size_t of); /* called now and then; may be NULL */
    void *progress_context;
};

/* Puts the document behind what is in `out`.  False, with the reason in *reason, when the libraries are not there, no font can
 * be found, or they fail. */
bool page_render_pdf(const struct page_set *set, const struct page_pdf_job *job, struct buffer *out, const char **reason);

#endif
