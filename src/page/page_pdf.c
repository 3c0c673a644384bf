/* A document from beginning to end: libraries, type, sheets, properties. */
#include "page/page_pdf_sheets.h"

#include "base/shown.h"
#include "base/table.h"
#include "page/page_pdf_mend.h"

struct pdf_places {
    struct text anchor;
    size_t number;
    UT_hash_handle hh;
};

void pdf_note_place(struct pdf_document *document, struct text anchor, size_t number)
{
    struct arena *table_arena = document->arena;
    if (anchor.length == 0 || pdf_page_number(document->places, anchor) != 0) {
        return;
    }
    struct pdf_places *place = ARENA_NEW(document->arena, struct pdf_places);
    place->anchor = anchor;
    place->number = number;
    HASH_ADD_KEYPTR(hh, document->places, place->anchor.at, place->anchor.length, place);
}

size_t pdf_page_number(const struct pdf_places *places, struct text anchor)
{
    const struct pdf_places *place = NULL;
    HASH_FIND(hh, places, anchor.at, anchor.length, place);
    return place == NULL ? 0 : place->number;
}

static void set_property(struct pdf_document *document, cairo_pdf_metadata_t property, struct text text)
{
    if (text.length > 0) {
        text = shown_line(document->arena, text);
        const char *value = arena_copy(document->arena, text.at, text.length);
        document->calls.cairo_pdf_surface_set_metadata(document->drawing.surface, property, value);
    }
}

static void set_properties(struct pdf_document *document)
{
    const struct page_set *set = document->set;
    const struct page *page = set->first->page;
    set_property(document, CAIRO_PDF_METADATA_TITLE, set->title.length > 0 ? set->title : page->title);
    set_property(document, CAIRO_PDF_METADATA_SUBJECT, page->subtitle);
    set_property(document, CAIRO_PDF_METADATA_CREATOR, text_from(document->job->program));
    /* The date that is printed; where there is none, one that pdf_mend_date takes out again, so that Cairo reads no clock. */
    struct text day = page->date.length > 0 ? page->date : TEXT("2000-01-01");
    const char *date = arena_format(document->arena, "%.*sT00:00:00Z", TEXT_ARGUMENTS(day));
    set_property(document, CAIRO_PDF_METADATA_CREATE_DATE, text_from(date));
}

static bool render(struct pdf_document *document, struct buffer *out, const char **reason)
{
    if (!pdf_find_calls(&document->calls, reason)) {
        return false;
    }
    document->type = pdf_type_open(&document->calls, document->arena, reason);
    if (document->type == NULL) {
        return false;
    }
    document->drawing.calls = &document->calls;
    document->drawing.arena = document->arena;
    document->drawing.type = document->type;
    pdf_drawing_open(&document->drawing, document->width, document->height);
    set_properties(document);
    if (document->set->labels != NULL) {
        if (!pdf_draw_labels(document, reason)) {
            return false;
        }
    } else {
        pdf_draw_pages(document);
    }
    *reason = pdf_drawing_finish(&document->drawing);
    if (*reason != NULL) {
        return false;
    }
    pdf_mend_references(document->drawing.bytes, document->drawing.length);
    if (document->set->first->page->date.length == 0) {
        pdf_mend_date(document->drawing.bytes, document->drawing.length);
    }
    buffer_add(out, (const char *)document->drawing.bytes, document->drawing.length);
    return true;
}

static void close_document(struct pdf_document *document)
{
    if (document->drawing.calls != NULL) {
        pdf_drawing_close(&document->drawing);
    }
    if (document->type != NULL) {
        pdf_type_close(document->type);
    }
}

bool page_render_pdf(const struct page_set *set, const struct page_pdf_job *job, struct buffer *out, const char **reason)
{
    if (set->first == NULL) {
        *reason = "there is nothing to print";
        return false;
    }
    struct pdf_document *const document = ARENA_NEW(set->arena, struct pdf_document);
    document->set = set;
    document->job = job;
    document->arena = set->arena;
    document->width = job->width * PDF_MM;
    document->height = job->height * PDF_MM;
    /* A failing allocation must not leave the libraries' objects behind. */
    jmp_buf *const outer = set->arena->on_failure;
    jmp_buf here;
    if (setjmp(here) != 0) {
        set->arena->on_failure = outer;
        close_document(document);
        longjmp(*outer, 1);
    }
    set->arena->on_failure = &here;
    bool done = render(document, out, reason);
    set->arena->on_failure = outer;
    close_document(document);
    return done;
}
