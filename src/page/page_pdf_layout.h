/* The layout of the PDF renderer: what is drawn, in pieces that do not part, in columns, on sheets.
 *
 * Blocks of a page become pieces (a line of running text, a row of a table); pieces flow into sheets.  Lengths are in points,
 * x to the right and y downward. */
#ifndef POTASH_PAGE_PAGE_PDF_LAYOUT_H
#define POTASH_PAGE_PAGE_PDF_LAYOUT_H

#include "page/page.h"
#include "page/page_pdf_type.h"
#include "page/pictograms.h"
#include "page/square_code.h"

enum pdf_mark_kind {
    PDF_LINE,      /* of text: x, y of its base line's start */
    PDF_RULE,      /* from x, y over width, height; `weight` thick */
    PDF_BOX,       /* an outline, `weight` thick */
    PDF_FILL,      /* a filled rectangle */
    PDF_SIGN,      /* the sign that stops a reader: a triangle, `width` wide */
    PDF_PICTOGRAM, /* in a square */
    PDF_CODE,      /* a square code in a square, its quiet zone included */
    PDF_PLACE,     /* where links to the anchor lead */
    PDF_LINK,      /* a rectangle that leads to the anchor */
    PDF_NUMBER     /* of the page with the anchor, ending at x */
};

struct pdf_mark {
    enum pdf_mark_kind kind;
    double x, y, width, height;
    double weight;
    bool white;  /* of a fill; else black */
    bool dotted; /* of a rule */
    union {
        const struct pdf_line *line;
        const struct pictogram *pictogram;
        const struct square_code *code;
        struct text anchor;
    } as;
    struct pdf_font font; /* of a number */
    struct pdf_mark *next;
};

/* What stays together.  Marks are measured from its top left corner. */
struct pdf_piece {
    double before; /* space above, where something stands above */
    double height;
    bool keep_with_next;
    bool wide;       /* set across all columns */
    bool new_sheet;  /* starts one */
    struct pdf_mark *first, *last;
    struct pdf_piece *repeat; /* set again above this one where it comes to the head of a sheet: a table's head */
    struct pdf_piece *next;
};

struct pdf_pieces {
    struct pdf_piece *first, *last;
};

struct pdf_sheet {
    struct pdf_mark *first, *last; /* measured from the sheet's top left corner */
    struct pdf_sheet *next;
};

struct pdf_sheets {
    struct pdf_sheet *first, *last;
    size_t count;
};

/* The page number that an anchor stands on, as far as it is known. */
struct pdf_places;

/* Where pieces are put. */
struct pdf_frame {
    double left, top, width;
    double height;      /* of the first sheet's column */
    double later_top;   /* of the sheets that follow it, below the running head */
    double later_height;
    double gutter;      /* between two columns */
    bool one_sheet;     /* there is no other: what does not fit is the caller's concern */
};

/* Which blocks are set: on a label, pictograms and codes stand beside the others. */
enum pdf_blocks { PDF_BLOCKS_ALL, PDF_BLOCKS_TEXT, PDF_BLOCKS_GRAPHICS };

/* What making pieces needs. */
struct pdf_setter {
    struct arena *arena;
    struct pdf_type *type;
    struct pdf_pieces *out;
    double scale; /* of sizes and distances; 1 in full size */
    double width; /* of the column */
    bool label;   /* small, and without what only a sheet needs */
    const struct pdf_places *places;
    enum pdf_blocks blocks;
};

/* 0 when it is not known yet, or there is no such anchor. */
size_t pdf_page_number(const struct pdf_places *places, struct text anchor);

/* ---- pieces ---- */

struct pdf_piece *pdf_add_piece(struct pdf_setter *setter, double before, double height);
struct pdf_mark *pdf_add_mark(struct pdf_setter *setter, struct pdf_piece *piece, enum pdf_mark_kind kind, double x, double y,
                              double width, double height);

/* A text's lines from x, y (top) on.  Its height. */
double pdf_put_text(struct pdf_setter *setter, struct pdf_piece *piece, const struct pdf_text *text, double x, double y);

/* Running text from `x` on as pieces of its own, in lines that may part over sheets but leave no single one behind.  The first
 * piece. */
struct pdf_piece *pdf_add_text(struct pdf_setter *setter, struct pdf_font font, double x, double before, struct text text);

#define LEAST_TYPE 8 /* pt: a sheet that is set smaller stays readable in the hand */

/* A size or distance in the scale at hand. */
static inline double pdf_scaled(const struct pdf_setter *setter, double points)
{
    return points * setter->scale;
}

static inline struct pdf_font pdf_font(const struct pdf_setter *setter, enum pdf_face face, double size)
{
    double least = setter->label ? 0 : size < LEAST_TYPE ? size : LEAST_TYPE;
    double scaled = size * setter->scale;
    return (struct pdf_font){face, scaled > least ? scaled : least};
}

/* ---- flow ---- */

/* Puts pieces on sheets.  The height that was used of the last one. */
double pdf_flow(struct arena *arena, const struct pdf_frame *frame, struct pdf_piece *first, struct pdf_sheets *sheets);

/* Appends a mark as it stands to a sheet. */
void pdf_put_mark(struct arena *arena, struct pdf_sheet *sheet, const struct pdf_mark *mark, double x, double y);

/* ---- blocks ---- */

/* All blocks of a page that do not give way (page_gives_way) at `most` or less, as pieces behind setter->out; blocks that may
 * stand in two columns are set `column` wide where that is given. */
void pdf_set_blocks(struct pdf_setter *setter, const struct page *page, double column, unsigned most);

/* The head of a page: title, subtitle and facts. */
void pdf_set_head(struct pdf_setter *setter, const struct page *page);

void pdf_set_facts(struct pdf_setter *setter, const struct page_facts *facts, double before, bool head);
void pdf_set_table(struct pdf_setter *setter, const struct page_table *table);
void pdf_set_timeline(struct pdf_setter *setter, const struct page_timeline *timeline);
void pdf_set_contents(struct pdf_setter *setter, const struct page_contents *contents);

#endif
