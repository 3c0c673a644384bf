/* Inside of the plain-text renderer: lines of limited width, and the parts of the renderer that use them. */
#ifndef POTASH_PAGE_PAGE_TEXT_H
#define POTASH_PAGE_PAGE_TEXT_H

#include "page/page.h"

/* Where the next character goes. */
struct setter {
    struct buffer *out;
    size_t width;       /* columns that a line may take */
    size_t measure;     /* columns that a line of running text takes: no more than the eye can follow */
    size_t column;      /* of the open line, from 0 */
    size_t line_start;  /* offset in `out` of the open line's first byte */
    size_t empty_lines; /* before the open line */
    bool started;       /* something is printed */
};

/* Takes the first line off `rest`: as many words as go into `width` columns, without the blanks at its end.  A figure
 * stays with the word behind it (its unit) and a word is cut only if there is no other way.  Empty when `rest` is. */
struct text text_take_line(struct text *rest, size_t width);

/* Columns of the longest piece that text_take_line would not part of its own accord. */
size_t text_longest_piece(struct text text);

/* Goes right to a column of the open line. */
void setter_go(struct setter *setter, size_t column);

/* Prints text on the open line as it is; no-break spaces become blanks. */
void setter_print(struct setter *setter, struct text text);

/* `count` times the same character. */
void setter_repeat(struct setter *setter, struct text character, size_t count);

/* Ends the open line if anything stands on it. */
void setter_end_line(struct setter *setter);

/* Ends the open line and sees to it that `count` empty lines precede the next one, unless that is the first. */
void setter_space(struct setter *setter, size_t count);

/* Prints text from where the open line is up to column `end`, further lines from column `hang`. */
void setter_wrap(struct setter *setter, struct text text, size_t hang, size_t end);

/* Prints `text` as one of several short things on lines that start at column `left`: on the open line behind a gap if
 * it fits, else on a new one after `spacing` empty lines. */
void setter_flow(struct setter *setter, struct text text, size_t left, size_t spacing);

/* Room to write in by hand, in a text of its own. */
struct text text_blank(struct arena *arena, size_t columns);

/* page_text_layout.c: which columns of a table stand where. */
struct table_column {
    const struct page_column *column;
    bool moved;         /* has no place in the table: stands on a line under each row */
    size_t natural;     /* columns of the medium that it takes unbroken */
    size_t comfortable; /* narrowest that reads well */
    size_t least;       /* narrowest that breaks no piece */
    size_t figures;     /* of a decimal column: what its figures and their units take when the points are in line */
    size_t before;      /* and the part of that up to the end of the whole figure */
    size_t whole;       /* of an amount column: what its cells take unbroken */
    size_t left, width; /* its place */
};

struct table_layout {
    struct table_column *columns;
    size_t count;
    size_t lead; /* column of the medium where the first column of text starts: notes and steps stand there */
    bool any_moved;
};

enum { TABLE_GAP = 2 /* between columns */ };

/* Finds places between the columns `left` and `end` of the medium. */
struct table_layout table_layout(struct arena *arena, const struct page_table *table, size_t left, size_t end);

/* What a cell shows: its text, marked if it is to draw the eye, a box, a blank of `blank` columns, or nothing. */
struct text table_cell_text(struct arena *arena, const struct page_row *row, const struct page_column *column,
                            size_t blank);

/* Columns up to the end of the first whole figure in `text`, where a decimal point is or would be; false: no figure. */
bool table_figure(struct text text, size_t *before);

/* page_text_table.c: prints a table from column `left` on. */
void setter_table(struct setter *setter, const struct page_table *table, size_t left);

#endif
