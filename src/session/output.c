/* What a session gives out, as bytes: pages in their formats, JSON, text, diagnostics. */
#include "session/reports.h"

#include "base/shown.h"
#include "page/page_html.h"
#include "page/page_pdf.h"

json_t *session_built(struct potash *potash)
{
    json_t *json = potash->building;
    potash->building = NULL;
    return json;
}

enum potash_status session_put_json(struct potash *potash, json_t *json, struct potash_output *output)
{
    if (json == NULL) {
        return session_out_of_memory(potash);
    }
    /* 12 significant figures: more than any balance, fewer than the noise of binary fractions.  jansson measures first and then writes
     * into memory of ours: text that it keeps itself may lose the name of a member where it finds no memory for it. */
    enum { FLAGS = JSON_INDENT(2) | JSON_REAL_PRECISION(12) };
    potash->building = json;
    size_t length = json_dumpb(json, NULL, 0, FLAGS);
    char *text = length == 0 ? NULL : ARENA_ARRAY(&potash->arena, char, length + 1);
    if (text == NULL || json_dumpb(json, text, length, FLAGS) != length) {
        return session_out_of_memory(potash);
    }
    json_decref(session_built(potash));
    text[length] = '\n';
    struct text shown = shown_json(&potash->arena, (struct text){text, length + 1});
    *output = (struct potash_output){shown.at, shown.length};
    return POTASH_GOOD;
}

enum potash_status session_put_text(struct buffer *text, struct potash_output *output)
{
    buffer_finish(text);
    struct text shown = shown_lines(text->arena, (struct text){text->bytes, text->length});
    *output = (struct potash_output){shown.at, shown.length};
    return POTASH_GOOD;
}

/* ---- pages: the one place where reports meet renderers ---- */

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

enum potash_status session_put_pages(struct potash *potash, const struct page_set *set, enum potash_format format,
                                     struct potash_output *output)
{
    struct buffer out;
    buffer_start(&out, &potash->arena);
    switch (format) {
    case POTASH_PDF:
        return put_pdf(potash, set, &out, output);
    case POTASH_HTML:
        page_render_html(set, &out);
        break;
    default:
        print_text(potash, set, &out);
        break;
    }
    return session_put_text(&out, output);
}

const char *session_format_list(struct potash *potash, unsigned formats)
{
    static const char *const names[] = {[POTASH_TEXT] = "text", [POTASH_JSON] = "json", [POTASH_SARIF] = "sarif", [POTASH_HTML] = "html",
                                        [POTASH_PDF] = "pdf",   [POTASH_CSV] = "csv",   [POTASH_ICAL] = "ical"};
    struct buffer out;
    buffer_start(&out, &potash->arena);
    for (unsigned i = 0; i <= POTASH_ICAL; i++) {
        if ((formats >> i & 1) != 0) {
            buffer_format(&out, "%s%s", out.length == 0 ? "" : formats >> i == 1 ? " or " : ", ", names[i]);
        }
    }
    return buffer_finish(&out);
}

/* ---- diagnostics ---- */

static enum potash_status put_diagnostics(struct potash *potash, enum potash_format format, bool colour, size_t most, struct outlet *out)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    buffer_start(&out->text, &potash->arena);
    if (!potash->checked) { /* which puts them in order */
        diagnostics_finish(&potash->diagnostics);
    }
    switch (format) {
    case POTASH_TEXT:
        diagnostics_print(&potash->diagnostics, out, colour, most);
        break;
    case POTASH_JSON:
        diagnostics_json(&potash->diagnostics, out);
        break;
    case POTASH_SARIF:
        diagnostics_sarif(&potash->diagnostics, POTASH_VERSION, out);
        break;
    default:
        return session_unusable(potash, "diagnostics come as text, json or sarif");
    }
    outlet_finish(out);
    buffer_finish(&out->text);
    return out->refused ? POTASH_FAULTY : POTASH_GOOD;
}

enum potash_status potash_write_diagnostics(struct potash *potash, enum potash_format format, bool colour, size_t most,
                                            const struct potash_sink *sink)
{
    struct outlet out = {.take = sink->take, .context = sink->context};
    return put_diagnostics(potash, format, colour, most, &out);
}

enum potash_status potash_diagnostics(struct potash *potash, enum potash_format format, bool colour,
                                      struct potash_output *output)
{
    struct outlet out = {.take = NULL};
    enum potash_status status = put_diagnostics(potash, format, colour, 0, &out);
    if (status == POTASH_GOOD) {
        *output = (struct potash_output){out.text.bytes, out.text.length};
    }
    return status;
}

char *potash_shown(const char *text, size_t length)
{
    struct arena arena;
    arena_start(&arena);
    jmp_buf failed;
    arena.on_failure = &failed;
    if (setjmp(failed) != 0) {
        arena_release(&arena);
        return NULL;
    }
    struct text shown = shown_line(&arena, (struct text){text, length});
    char *copy = strndup(shown.at, shown.length);
    arena_release(&arena);
    return copy;
}

bool potash_is_plain(const char *text, size_t length)
{
    return shown_is_plain((struct text){text, length});
}
