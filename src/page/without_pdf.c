/* In place of page_pdf*.c where Pango and Cairo cannot be had (make PDF=no). */
#include "page/page_pdf.h"

bool page_render_pdf(const struct page_set *set, const struct page_pdf_job *job, struct buffer *out, const char **reason)
{
    (void)set;
    (void)job;
    (void)out;
    *reason = "this build makes no PDF; --as html gives a page that prints well";
    return false;
}
