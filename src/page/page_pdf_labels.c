/* Labels on sheets of label stock. */
#include "page/page_pdf_sheets.h"

bool pdf_draw_labels(struct pdf_document *document, const char **reason)
{
    (void)document;
    *reason = "labels do not come as PDF yet";
    return false;
}
