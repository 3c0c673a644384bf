/* Pages on sheets of paper: what the PDF renderer's own files know of each other above the layout. */
#ifndef POTASH_PAGE_PAGE_PDF_SHEETS_H
#define POTASH_PAGE_PAGE_PDF_SHEETS_H

#include "page/page_pdf.h"
#include "page/page_pdf_draw.h"

/* All that a document in the making holds. */
struct pdf_document {
    const struct page_set *set;
    const struct page_pdf_job *job;
    struct arena *arena;
    struct pdf_calls calls;
    struct pdf_type *type;
    struct pdf_places *places;
    struct pdf_drawing drawing;
    double width, height; /* of the paper, pt */
};

#define PDF_MM (72 / 25.4) /* pt in a mm */

/* Notes where an anchor stands. */
void pdf_note_place(struct pdf_document *document, struct text anchor, size_t number);

/* Every page of the set on sheets of its own. */
void pdf_draw_pages(struct pdf_document *document);

/* Every page as a label on sheets of label stock.  False with *reason when one cannot be made to fit. */
bool pdf_draw_labels(struct pdf_document *document, const char **reason);

#endif
