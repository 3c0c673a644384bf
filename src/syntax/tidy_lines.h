/* A file as the lines that tidying lays out. */
#ifndef POTASH_SYNTAX_TIDY_LINES_H
#define POTASH_SYNTAX_TIDY_LINES_H

#include "syntax/tidy.h"

struct tidy_token {
    int kind;         /* a token of the grammar */
    struct text text; /* gaps inside it are single spaces; keywords are in lower case */
    uint32_t begin;   /* offset among all files */
    bool apart;       /* something blank stood before it */
};

enum tidy_class {
    TIDY_COMMENT,  /* a comment on a line of its own */
    TIDY_HEADING,  /* opens a declaration */
    TIDY_SECTION,  /* opens a part or a use */
    TIDY_PROPERTY, /* keyword and value */
    TIDY_ADDITION, /* name and amount */
    TIDY_STEP      /* what is done between additions */
};

/* What the columns of a line hold; a line has those that it needs, in this order. */
enum tidy_column {
    COLUMN_FIRST,    /* keyword, name of an addition, heading */
    COLUMN_BODY,     /* value, amount, name of a form, meaning of a unit */
    COLUMN_CHEMICAL, /* of a form, and so on */
    COLUMN_CAS,
    COLUMN_STRENGTH,
    COLUMN_DENSITY,
    COLUMN_REST, /* other names; `usual` */
    COLUMN_SOURCE,
    COLUMN_LOOSE, /* stands behind what precedes it, in no column */
    COLUMNS = COLUMN_LOOSE
};

struct tidy_cell {
    enum tidy_column column;
    size_t first; /* tokens, as the line counts them */
    size_t upto;
    size_t gap;   /* blanks before it, at least */
    size_t limit; /* wider than this, it does not push the next column */
    struct text text;
    size_t width; /* on a terminal */
    size_t at;    /* where it starts, from the line's indentation */
};

enum { TIDY_CELLS = 12 };

struct tidy_line {
    enum tidy_class class;
    const struct declaration *declaration; /* that it belongs to; NULL for a comment */
    const struct statement *statement;     /* NULL for a heading and for a comment */
    struct tidy_token *tokens;
    size_t token_count;
    struct text comment; /* the whole line, or what stands at its end; empty when there is none */
    bool blank_before;
    bool closes_head; /* the first addition or step behind a formula's properties */
    size_t indent;
    size_t group; /* lines that share their columns; 0: none */
    bool wide;    /* its keyword column has a wide gap */
    size_t least; /* width of the first column, at least */
    struct tidy_cell *cells;
    size_t cell_count;
    size_t width; /* without indentation and comment */
};

struct tidy_document {
    struct arena *arena;
    struct tidy_line *lines;
    size_t count;
    size_t groups;
};

/* tidy_lines.c: reads a file into lines, with their tokens and classes. */
struct tidy_document *tidy_read(struct arena *arena, struct names *names, const struct syntax_file *file);

/* tidy_token.c: a token's text as it is laid out, from its text in the source; `rest` runs from its start to the end of
 * its line. */
struct text tidy_token_text(struct arena *arena, int kind, struct text source, struct text rest);
/* Whether the token at `after` follows without a space; `keyword` is the line's first token. */
bool tidy_joined(int keyword, const struct tidy_token *tokens, size_t after, size_t count);

/* tidy_place.c: indentation, groups, blank lines. */
void tidy_place(struct tidy_document *document);

/* tidy_columns.c: splits lines into cells and gives each its place. */
void tidy_columns(struct tidy_document *document);

#endif
