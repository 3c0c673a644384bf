/* Pages on sheets: head, body in one or two columns, foot with caution, source and page number. */
#include "page/page_pdf_sheets.h"

#include "base/shown.h"

#include <math.h>

#define MARGIN_SIDE 42.0   /* pt: what printers can reach, and room for a clip or a ring binder's holes */
#define MARGIN_TOP 34.0
#define MARGIN_BOTTOM 26.0
#define GUTTER 22.0
#define FOOT_SIZE 7.5
#define PAGE_SIZE 8.5
#define ROOMY 0.8           /* of a sheet: what takes less is set larger */
#define LARGER 1.12
#define RUNNING_HEAD 20.0  /* height of the running head on later sheets */

/* A page laid out. */
struct laid {
    const struct page *page;
    struct pdf_sheets sheets;
    size_t first_number; /* of its first sheet within the document */
    struct laid *next;
};

struct foot {
    const struct pdf_text *caution;
    double height;
};

/* ---- layout ---- */

static struct foot measure_foot(struct pdf_document *document, const struct page *page)
{
    double width = document->width - 2 * MARGIN_SIDE;
    struct foot foot = {pdf_set(document->type, (struct pdf_font){PDF_REGULAR, FOOT_SIZE}, width, page->caution), 0};
    foot.height = 4 + (page->caution.length > 0 ? foot.caution->height : 0) + PAGE_SIZE * 1.4;
    foot.height = fmin(foot.height, document->height / 3);
    return foot;
}

static double lay_out(struct pdf_document *document, const struct page *page, double scale, double foot, struct pdf_sheets *sheets,
                      double *used)
{
    struct pdf_pieces pieces = {NULL, NULL};
    struct pdf_setter setter = {document->arena, document->type, &pieces, scale, document->width - 2 * MARGIN_SIDE, false,
                                document->places, PDF_BLOCKS_ALL};
    pdf_set_head(&setter, page);
    if (page->anchor.length > 0) {
        pdf_add_mark(&setter, pieces.first, PDF_PLACE, 0, 0, 0, 0)->as.anchor = page->anchor;
    }
    pdf_set_blocks(&setter, page, (setter.width - GUTTER) / 2, 0xFFFF);
    struct pdf_frame frame = {.left = MARGIN_SIDE, .top = MARGIN_TOP, .width = setter.width, .gutter = GUTTER};
    frame.height = document->height - MARGIN_TOP - MARGIN_BOTTOM - foot - 6;
    frame.later_top = MARGIN_TOP + RUNNING_HEAD;
    frame.later_height = frame.height - RUNNING_HEAD;
    *used = pdf_flow(document->arena, &frame, pieces.first, sheets);
    return frame.height;
}

static bool has_break(const struct page *page)
{
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        if (block->kind == PAGE_BREAK) {
            return true;
        }
    }
    return false;
}

/* In full size; larger where the sheet has room, to be read from farther; or so much smaller that a page that runs over a little
 * stands on one sheet: a person at the bench does not turn sheets. */
static struct laid *lay_page(struct pdf_document *document, const struct page *page)
{
    struct laid *laid = ARENA_NEW(document->arena, struct laid);
    laid->page = page;
    double foot = measure_foot(document, page).height;
    double used;
    double height = lay_out(document, page, 1, foot, &laid->sheets, &used);
    static const double scales[] = {0.93, 0.86, 0.8, 0.75};
    static const double hopeless[] = {0.4, 0.55, 0.7, 0.8}; /* of a sheet over */
    double over = used / height;
    if (laid->sheets.count == 1 && used < height * ROOMY && !document->set->book) {
        struct pdf_sheets larger = {NULL, NULL, 0};
        lay_out(document, page, LARGER, foot, &larger, &used);
        if (larger.count == 1) {
            laid->sheets = larger;
        }
    }
    for (size_t i = 0; i < sizeof scales / sizeof *scales && laid->sheets.count == 2 && !has_break(page); i++) {
        if (over > hopeless[i]) {
            continue;
        }
        struct pdf_sheets smaller = {NULL, NULL, 0};
        lay_out(document, page, scales[i], foot, &smaller, &used);
        if (smaller.count == 1) {
            laid->sheets = smaller;
        }
    }
    return laid;
}

/* ---- heads and feet ---- */

static void put_line(struct pdf_document *document, struct pdf_sheet *sheet, const struct pdf_text *text, double x, double base)
{
    for (const struct pdf_line *line = text->first; line != NULL; line = line->next) {
        struct pdf_mark mark = {.kind = PDF_LINE, .as.line = line};
        pdf_put_mark(document->arena, sheet, &mark, x, base);
        base += line->descent + (line->next == NULL ? 0 : line->next->ascent);
    }
}

static void put_rule(struct pdf_document *document, struct pdf_sheet *sheet, double y, double weight)
{
    struct pdf_mark mark = {.kind = PDF_RULE, .width = document->width - 2 * MARGIN_SIDE, .weight = weight};
    pdf_put_mark(document->arena, sheet, &mark, MARGIN_SIDE, y);
}

static void put_running_head(struct pdf_document *document, struct pdf_sheet *sheet, const struct page *page)
{
    struct pdf_font small = {PDF_REGULAR, PAGE_SIZE};
    const struct pdf_text *continued = pdf_set(document->type, small, 0, TEXT("continued"));
    double room = document->width - 2 * MARGIN_SIDE - continued->width - 10;
    const struct pdf_text *title = pdf_set_short(document->type, (struct pdf_font){PDF_BOLD, 10}, room, page->title);
    double base = MARGIN_TOP + 9;
    put_line(document, sheet, title, MARGIN_SIDE, base);
    put_line(document, sheet, continued, document->width - MARGIN_SIDE - continued->width, base);
    put_rule(document, sheet, base + 4.5, 0.9);
}

static void put_foot(struct pdf_document *document, struct pdf_sheet *sheet, const struct page *page, size_t number, size_t of)
{
    struct foot foot = measure_foot(document, page);
    double y = document->height - MARGIN_BOTTOM - foot.height;
    put_rule(document, sheet, y, 0.5);
    y += 3;
    if (page->caution.length > 0) {
        put_line(document, sheet, foot.caution, MARGIN_SIDE, y + foot.caution->first->ascent);
        y += foot.caution->height;
    }
    const char *words = arena_format(document->arena, "page %zu of %zu", number, of);
    const struct pdf_text *count = pdf_set(document->type, (struct pdf_font){PDF_BOLD, PAGE_SIZE}, 0, text_from(words));
    double base = y + count->first->ascent;
    put_line(document, sheet, count, document->width - MARGIN_SIDE - count->width, base);
    struct buffer made;
    buffer_start(&made, document->arena);
    buffer_text(&made, page->source);
    buffer_string(&made, page->source.length > 0 && page->date.length > 0 ? ", " : "");
    buffer_text(&made, page->date);
    double room = document->width - 2 * MARGIN_SIDE - count->width - 12;
    struct pdf_font small = {PDF_REGULAR, FOOT_SIZE};
    if (made.length > 0) {
        struct text whole = {made.bytes, made.length};
        const struct pdf_text *source = pdf_set(document->type, small, 0, whole);
        put_line(document, sheet, source->width <= room ? source : pdf_set_short(document->type, small, room, whole), MARGIN_SIDE,
                 base);
    }
}

/* ---- marks to find pages by ---- */

static int add_mark(struct pdf_document *document, int parent, struct text text, struct text anchor, size_t number)
{
    text = shown_line(document->arena, text);
    const char *words = arena_copy(document->arena, text.at, text.length);
    const char *leads = anchor.length > 0
                            ? arena_format(document->arena, "dest='%.*s'", TEXT_ARGUMENTS(anchor))
                            : arena_format(document->arena, "page=%zu pos=[%d %d]", number, (int)MARGIN_SIDE, (int)MARGIN_TOP);
    return document->calls.cairo_pdf_surface_add_outline(document->drawing.surface, parent, words, leads, 0);
}

/* The target of an entry, or of the first below it that has one. */
static struct text target_of(const struct page_entry *entry)
{
    const struct page_entry *at = entry;
    while (at != NULL && at->first_target == NULL && (at == entry || at->level > entry->level)) {
        at = at->next;
    }
    return at == NULL || at->first_target == NULL ? (struct text){0} : at->first_target->anchor;
}

#define DEEPEST 8

/* A book's marks follow its table of contents: the first one in it. */
static void add_marks_of_book(struct pdf_document *document, const struct page_contents *contents)
{
    int above[DEEPEST + 1] = {CAIRO_PDF_OUTLINE_ROOT};
    unsigned depth = 0;
    for (const struct page_entry *entry = contents->first; entry != NULL; entry = entry->next) {
        unsigned level = entry->level > depth + 1 ? depth + 1 : entry->level;
        level = level > DEEPEST ? DEEPEST : level;
        struct text target = target_of(entry);
        if (entry->text.length == 0 || pdf_page_number(document->places, target) == 0) {
            continue;
        }
        above[level] = add_mark(document, above[level - 1], entry->text, target, 1);
        depth = level;
    }
}

static const struct page_contents *contents_of(const struct page_set *set)
{
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        for (const struct page_block *block = item->page->first; block != NULL; block = block->next) {
            if (block->kind == PAGE_CONTENTS) {
                return block->as.contents;
            }
        }
    }
    return NULL;
}

static void add_marks(struct pdf_document *document, const struct laid *first)
{
    const struct page_contents *contents = document->set->book ? contents_of(document->set) : NULL;
    if (contents != NULL) {
        add_marks_of_book(document, contents);
        return;
    }
    for (const struct laid *laid = first; laid != NULL && document->set->count > 1; laid = laid->next) {
        if (laid->page->title.length > 0) {
            add_mark(document, CAIRO_PDF_OUTLINE_ROOT, laid->page->title, laid->page->anchor, laid->first_number);
        }
    }
}

/* ---- all of them ---- */

static void draw_laid(struct pdf_document *document, const struct laid *laid, size_t of_all)
{
    bool book = document->set->book;
    size_t number = 0;
    for (struct pdf_sheet *sheet = laid->sheets.first; sheet != NULL; sheet = sheet->next, number++) {
        if (number > 0) {
            put_running_head(document, sheet, laid->page);
        }
        put_foot(document, sheet, laid->page, number + (book ? laid->first_number : 1), book ? of_all : laid->sheets.count);
        pdf_draw_marks(&document->drawing, sheet->first, 0, 0);
        pdf_drawing_end_sheet(&document->drawing);
    }
}

static void tell_progress(const struct pdf_document *document, size_t done)
{
    if (document->job->progress != NULL) {
        document->job->progress(document->job->progress_context, done, 2 * document->set->count);
    }
}

void pdf_draw_pages(struct pdf_document *document)
{
    struct laid *first = NULL;
    struct laid **end = &first;
    size_t number = 1;
    size_t done = 0;
    for (const struct page_set_item *item = document->set->first; item != NULL; item = item->next) {
        struct laid *laid = lay_page(document, item->page);
        laid->first_number = number;
        pdf_note_place(document, item->page->anchor, number);
        number += laid->sheets.count;
        *end = laid;
        end = &laid->next;
        tell_progress(document, ++done);
    }
    document->drawing.places = document->places;
    for (const struct laid *laid = first; laid != NULL; laid = laid->next) {
        draw_laid(document, laid, number - 1);
        tell_progress(document, ++done);
    }
    add_marks(document, first);
}
