/* Drawing sheets with Cairo. */
#ifndef POTASH_PAGE_PAGE_PDF_DRAW_H
#define POTASH_PAGE_PAGE_PDF_DRAW_H

#include "page/page_pdf_layout.h"

/* The document in the making.  `bytes` is from malloc. */
struct pdf_drawing {
    const struct pdf_calls *calls;
    struct arena *arena;
    struct pdf_type *type;
    const struct pdf_places *places;
    cairo_surface_t *surface;
    cairo_t *cairo;
    unsigned char *bytes;
    size_t length, capacity;
    cairo_glyph_t *glyphs; /* room for the run at hand */
    size_t glyph_room;
};

/* Starts a document with sheets of `width` by `height` points. */
void pdf_drawing_open(struct pdf_drawing *drawing, double width, double height);

/* Draws marks, a sheet's worth or those of a label at x, y, and ends the sheet by pdf_drawing_end_sheet. */
void pdf_draw_marks(struct pdf_drawing *drawing, const struct pdf_mark *first, double x, double y);
void pdf_drawing_end_sheet(struct pdf_drawing *drawing);

/* Writes what is left.  NULL, or what went wrong. */
const char *pdf_drawing_finish(struct pdf_drawing *drawing);

/* Gives back what is held, finished or not. */
void pdf_drawing_close(struct pdf_drawing *drawing);

#endif
