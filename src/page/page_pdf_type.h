/* Type for the PDF renderer: texts in a face and size, broken into lines of glyphs.
 *
 * Lengths are in points (1/72 in).  A text once set is kept, since sheets say the same words over and over. */
#ifndef POTASH_PAGE_PAGE_PDF_TYPE_H
#define POTASH_PAGE_PAGE_PDF_TYPE_H

#include "base/arena.h"
#include "base/text.h"
#include "page/page_pdf_calls.h"

#include <stdint.h>

enum pdf_face { PDF_REGULAR, PDF_BOLD, PDF_ITALIC, PDF_FACES };

struct pdf_font {
    enum pdf_face face;
    double size;
};

struct pdf_glyph {
    uint32_t number; /* in the font */
    float x, y;      /* from the start of the line, and from its base line */
};

/* Glyphs of one font, with the bytes that they stand for. */
struct pdf_run {
    cairo_scaled_font_t *font;
    struct pdf_glyph *glyphs;
    cairo_text_cluster_t *clusters;
    const char *bytes;
    uint32_t glyph_count, cluster_count, byte_count;
    bool backward; /* written from right to left: clusters are in the order of the text, glyphs from left to right */
    struct pdf_run *next;
};

struct pdf_line {
    struct pdf_run *runs; /* from left to right */
    double left;          /* where it starts: not 0 in a paragraph that is written from right to left */
    double width;
    double ascent, descent;
    struct pdf_line *next;
};

struct pdf_text {
    struct pdf_line *first; /* never NULL */
    size_t count;
    double width;           /* of the widest line */
    double height;
};

struct pdf_type;

/* NULL with *reason when there is no font to set in.  Its memory is from `arena`, and what it holds besides is given back by
 * pdf_type_close. */
struct pdf_type *pdf_type_open(const struct pdf_calls *calls, struct arena *arena, const char **reason);
void pdf_type_close(struct pdf_type *type);

/* A text in lines no wider than `width`; 0: all in one line.  Lines break between words, and within one that is too long. */
const struct pdf_text *pdf_set(struct pdf_type *type, struct pdf_font font, double width, struct text text);

/* A text in one line no wider than `width`, its end left out where it is longer. */
const struct pdf_text *pdf_set_short(struct pdf_type *type, struct pdf_font font, double width, struct text text);

/* Width of the longest word. */
double pdf_longest_word(const struct pdf_text *text);

/* Where the decimal point of the first figure in the first line stands or would stand; its start where there is none. */
double pdf_decimal_point(const struct pdf_text *text);

#endif
