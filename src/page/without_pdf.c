/* In place of page_pdf*.c and square_code.c where Pango, Cairo and libqrencode cannot be had (make PDF=no). */
#include "page/page_pdf.h"
#include "page/square_code.h"

bool page_render_pdf(const struct page_set *set, const struct page_pdf_job *job, struct buffer *out, const char **reason)
{
    (void)set;
    (void)job;
    (void)out;
    *reason = "this build makes no PDF; --as html gives a page that prints well";
    return false;
}

const struct square_code *square_code_make(struct arena *arena, struct text content)
{
    (void)arena;
    (void)content;
    return NULL; /* as where the library is not there: what it would hold is printed */
}
