/* Labels on sheets of label stock.
 *
 * A label is set as large as it fits, down to a size that can still be read; then what may give way is left out, the least
 * important first, and the label says so.  Nothing is ever cut off. */
#include "page/page_pdf_sheets.h"

#include <math.h>

#define PADDING (2.2 * PDF_MM)     /* within the edge: printers and hands are not exact to less */
#define STRIP_FROM (58 * PDF_MM)   /* a wider label has pictograms and code in a strip at its right */
#define LEAST_PICTOGRAM (14.5 * PDF_MM) /* on its point: the side is 1 cm */
#define FOOT_SIZE 6.0

/* Of the type in labels; at the last its smallest letters are 6 pt high. */
static const double scales[] = {1.15, 1.08, 1.02, 0.96, 0.91, 0.86, 0.81, 0.77, 0.73, 0.69, 0.66, 0.63};
enum { SCALES = sizeof scales / sizeof *scales };

struct label_sheet {
    struct pdf_document *document;
    const struct page *page;
    double width, height; /* within the padding, pt */
};

/* What was left out to fit: "contents, code". */
static struct text names_left_out(struct pdf_document *document, const struct page *page, unsigned most)
{
    struct buffer names;
    buffer_start(&names, document->arena);
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        if (block->gives_way > most) {
            buffer_string(&names, names.length > 0 ? ", " : "left out for want of room: ");
            buffer_text(&names, block->gives_way_as);
        }
    }
    return (struct text){names.bytes, names.length};
}

static bool has_block(const struct page *page, enum page_block_kind kind, unsigned most)
{
    bool found = false;
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        found = found || (block->kind == kind && block->gives_way <= most);
    }
    return found;
}

/* Of the strip at the right; 0 for none.  Without a code it is as wide as a pictogram has to be: 1 cm2 (Regulation (EC) No
 * 1272/2008, Annex I, 1.2.1.2). */
static double width_of_strip(const struct label_sheet *label, unsigned most)
{
    if (label->width + 2 * PADDING < STRIP_FROM) {
        return 0;
    }
    if (has_block(label->page, PAGE_CODE, most)) {
        return fmin(label->width * 0.3, 31 * PDF_MM);
    }
    return has_block(label->page, PAGE_PICTOGRAMS, most) ? LEAST_PICTOGRAM : 0;
}

/* Foot of a label: caution, what was left out, date. */
static void set_foot(struct pdf_setter *setter, const struct page *page, struct text left_out)
{
    struct pdf_font small = {PDF_REGULAR, FOOT_SIZE};
    double before = 2;
    if (left_out.length > 0) {
        pdf_add_text(setter, (struct pdf_font){PDF_ITALIC, FOOT_SIZE}, 0, before, left_out);
        before = 0;
    }
    struct buffer words;
    buffer_start(&words, setter->arena);
    buffer_text(&words, page->caution);
    buffer_string(&words, page->caution.length > 0 && page->date.length > 0 ? " " : "");
    buffer_text(&words, page->date);
    if (words.length > 0) {
        pdf_add_text(setter, small, 0, before, (struct text){words.bytes, words.length});
    }
}

static double height_of(const struct pdf_piece *first)
{
    double height = 0;
    for (const struct pdf_piece *piece = first; piece != NULL; piece = piece->next) {
        height += (height > 0 ? piece->before : 0) + piece->height;
    }
    return height;
}

static void put_pieces(struct pdf_document *document, struct pdf_sheet *sheet, const struct pdf_piece *first, double x, double y)
{
    bool any = false;
    for (const struct pdf_piece *piece = first; piece != NULL; piece = piece->next) {
        y += any ? piece->before : 0;
        for (const struct pdf_mark *mark = piece->first; mark != NULL; mark = mark->next) {
            pdf_put_mark(document->arena, sheet, mark, x, y);
        }
        y += piece->height;
        any = true;
    }
}

/* The widest that a mark of the pieces reaches: a word longer than the label must not hang over its edge. */
static double reach_of(const struct pdf_piece *first)
{
    double reach = 0;
    for (const struct pdf_piece *piece = first; piece != NULL; piece = piece->next) {
        for (const struct pdf_mark *mark = piece->first; mark != NULL; mark = mark->next) {
            reach = fmax(reach, mark->x + mark->width);
        }
    }
    return reach;
}

/* Sets a label; NULL when it does not fit. */
static struct pdf_sheet *try_label(const struct label_sheet *label, double scale, unsigned most)
{
    struct pdf_document *document = label->document;
    double strip_width = width_of_strip(label, most);
    bool strip = strip_width > 0;
    double gap = strip ? 1.5 * PDF_MM : 0;
    struct pdf_pieces main = {NULL, NULL};
    struct pdf_pieces side = {NULL, NULL};
    struct pdf_pieces foot = {NULL, NULL};
    struct pdf_setter setter = {document->arena, document->type, &main, scale, label->width - strip_width - gap, true, NULL,
                                strip ? PDF_BLOCKS_TEXT : PDF_BLOCKS_ALL};
    pdf_set_head(&setter, label->page);
    pdf_set_blocks(&setter, label->page, 0, most);
    if (strip) {
        struct pdf_setter beside = {document->arena, document->type, &side, scale, strip_width, true, NULL, PDF_BLOCKS_GRAPHICS};
        pdf_set_blocks(&beside, label->page, 0, most);
    }
    struct pdf_setter below = {document->arena, document->type, &foot, scale, label->width, true, NULL, PDF_BLOCKS_ALL};
    set_foot(&below, label->page, names_left_out(document, label->page, most));
    double body = label->height - height_of(foot.first) - 2;
    if (height_of(main.first) > body || height_of(side.first) > body || reach_of(main.first) > setter.width + 0.5 ||
        reach_of(side.first) > strip_width + 0.5) {
        return NULL;
    }
    struct pdf_sheet *sheet = ARENA_NEW(document->arena, struct pdf_sheet);
    put_pieces(document, sheet, main.first, 0, 0);
    put_pieces(document, sheet, side.first, label->width - strip_width, 0);
    put_pieces(document, sheet, foot.first, 0, label->height - height_of(foot.first));
    return sheet;
}

static unsigned highest_order(const struct page *page)
{
    unsigned highest = 0;
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        highest = block->gives_way > highest ? block->gives_way : highest;
    }
    return highest;
}

static struct pdf_sheet *set_label(const struct label_sheet *label)
{
    for (unsigned most = highest_order(label->page);; most--) {
        for (size_t i = 0; i < SCALES; i++) {
            struct pdf_sheet *sheet = try_label(label, scales[i], most);
            if (sheet != NULL) {
                return sheet;
            }
        }
        if (most == 0) {
            return NULL;
        }
    }
}

bool pdf_draw_labels(struct pdf_document *document, const char **reason)
{
    const struct page_labels *labels = document->set->labels;
    size_t on_sheet = (size_t)labels->columns * labels->rows;
    size_t at = labels->start - 1;
    size_t done = 0;
    for (const struct page_set_item *item = document->set->first; item != NULL; item = item->next) {
        struct label_sheet label = {document, item->page, labels->width * PDF_MM - 2 * PADDING, labels->height * PDF_MM - 2 * PADDING};
        const struct pdf_sheet *set = set_label(&label);
        if (set == NULL) {
            *reason = arena_format(document->arena, "the label \"%.*s\" does not go on %g x %g mm; take a larger one with --size",
                                   (int)(item->page->title.length < 80 ? item->page->title.length : 80), item->page->title.at,
                                   labels->width, labels->height);
            return false;
        }
        for (unsigned copy = 0; copy < labels->copies; copy++, at++) {
            if (at == on_sheet) {
                pdf_drawing_end_sheet(&document->drawing);
                at = 0;
            }
            double left = labels->left + labels->pitch_across * (double)(at % labels->columns);
            double top = labels->top + labels->pitch_down * (double)(at / labels->columns);
            pdf_draw_marks(&document->drawing, set->first, left * PDF_MM + PADDING, top * PDF_MM + PADDING);
        }
        if (document->job->progress != NULL) {
            document->job->progress(document->job->progress_context, ++done, document->set->count);
        }
    }
    pdf_drawing_end_sheet(&document->drawing);
    return true;
}
