/* Pages given out in the format that was asked for: the one place where reports meet renderers. */
#include "session/session.h"

#include "page/page_html.h"
#include "page/page_pdf.h"

static enum potash_status put_json(struct potash *potash, const struct page_set *set, const char *key,
                                   struct potash_output *output)
{
    json_t *pages = json_array();
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        put_item(&pages, page_render_json(item->page));
    }
    return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, key, pages), output);
}

static void print_text(struct potash *potash, const struct page_set *set, struct buffer *out)
{
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        if (item != set->first) {
            buffer_string(out, "\f\n"); /* a page for each, on a printer as well */
        }
        page_render_text(item->page, out, potash->options.columns);
    }
}

/* The sheets that paper comes in, mm: A4 of ISO 216, and Letter of ANSI/ASME Y14.1, which is given in inches. */
static const struct {
    double width, height;
} papers[] = {{210, 297}, {215.9, 279.4}};

void session_paper_size(const struct potash *potash, double *width, double *height)
{
    size_t paper = potash->options.paper == POTASH_LETTER ? 1 : 0;
    *width = papers[paper].width;
    *height = papers[paper].height;
}

/* Of the whole: filling the pages took the first third. */
static void tell_progress(void *context, size_t done, size_t of)
{
    const struct potash *potash = context;
    if (potash->options.progress != NULL) {
        potash->options.progress(potash->options.progress_context, of / 2 + done, of / 2 + of);
    }
}

static enum potash_status put_pdf(struct potash *potash, const struct page_set *set, struct buffer *out,
                                  struct potash_output *output)
{
    struct page_pdf_job job = {.program = "potash " POTASH_VERSION,
                               .progress = tell_progress,
                               .progress_context = potash};
    session_paper_size(potash, &job.width, &job.height);
    const char *reason;
    if (!page_render_pdf(set, &job, out, &reason)) {
        return session_unusable(potash, "%s", reason);
    }
    *output = (struct potash_output){buffer_finish(out), out->length}; /* bytes: its texts have been through the filter */
    return POTASH_GOOD;
}

enum potash_status session_put_pages(struct potash *potash, const struct page_set *set, const char *key,
                                     enum potash_format format, struct potash_output *output)
{
    if (format == POTASH_JSON) {
        return put_json(potash, set, key, output);
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    switch (format) {
    case POTASH_PDF:
        return put_pdf(potash, set, &out, output);
    case POTASH_HTML:
        page_render_html(set, &out);
        break;
    case POTASH_TEXT:
        print_text(potash, set, &out);
        break;
    case POTASH_JSON:
    case POTASH_SARIF:
    default:
        return session_unusable(potash, "this report comes as text, json, html or pdf");
    }
    return session_put_text(&out, output);
}
