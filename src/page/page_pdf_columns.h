/* Columns of a table on paper: which stand in it, and how wide. */
#ifndef POTASH_PAGE_PAGE_PDF_COLUMNS_H
#define POTASH_PAGE_PAGE_PDF_COLUMNS_H

#include "page/page_pdf_layout.h"

struct pdf_column {
    const struct page_column *column;
    bool hidden;          /* nothing stands in it */
    bool record;          /* its cells stand small in the column that … */
    bool carries_record;  /* … says how something is measured */
    bool below;           /* no room for it: its cells stand in a line below the row, with the title as label */
    double least, wanted; /* width */
    double left, width;   /* where it stands */
    double before_point;  /* decimal alignment: the widest part before the point */
};

struct pdf_columns {
    struct pdf_column *at;
    size_t count;
    double width;     /* of all: a table of few figures does not stretch over the sheet */
    double text_left; /* where the first column of text starts: notes stand below it */
};

struct pdf_columns pdf_columns_choose(struct pdf_setter *setter, const struct page_table *table);

/* Whether the table stands in `width` with nothing below its rows and no text broken. */
bool pdf_table_fits(struct pdf_setter *setter, const struct page_table *table, double width);

/* The type that a column's cells are set in: what is measured out is large, what is looked up is small. */
struct pdf_font pdf_column_font(const struct pdf_setter *setter, const struct page_column *column, const struct page_row *row);

/* A cell as it is set: where somebody measures out, the unit stands smaller behind the figures. */
struct pdf_cell_text {
    const struct pdf_text *text;
    const struct pdf_text *unit; /* or NULL */
    double unit_left;            /* from the start of the text */
    double width;
};

/* The text of a cell no wider than `width`; 0: in one line. */
struct pdf_cell_text pdf_set_cell(struct pdf_setter *setter, const struct page_column *column, const struct page_row *row, double width);

#define RECORD_GAP 9 /* pt, before what is for the record */

/* What the row says for the record, no wider than `width` (0: in one line): "error ±0.1 %, preservative".  NULL where there is nothing. */
const struct pdf_text *pdf_set_record(struct pdf_setter *setter, const struct page_row *row, double width);

/* Type of the heads of columns. */
struct pdf_font pdf_column_title_font(const struct pdf_setter *setter);

#endif
