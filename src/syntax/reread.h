/* Lines of the notation that stand for one that was typed in other words: they are put together of pieces, each of which was typed
 * somewhere on the line or stands for the whole of it, and are parsed so that every node of the tree has the place that was typed. */
#ifndef POTASH_SYNTAX_REREAD_H
#define POTASH_SYNTAX_REREAD_H

#include "syntax/parse.h"

struct reread_piece {
    struct text text;
    struct span typed; /* where the same text stands in the file; empty: it stands nowhere, and is shown at the whole line */
};

struct reread {
    const char *text;               /* the lines, each with its end; set by syntax_reread, as what follows is */
    const struct reread_piece *pieces;
    size_t count;
    struct span line;               /* that was typed */
    enum lexer_mode mode;           /* of the lexer, below LEX_REREAD */
    size_t piece;                   /* in which the lexer is */
    const char *piece_begin;
    bool refused;                   /* the grammar does not know one of the lines */
};

/* Parses the lines as those of a declaration of the kind of `open`, which was parsed from `file`.  Returns the statements, chained, and
 * the last of them; NULL when one of the lines is none.  What is wrong with a number goes to `diagnostics`. */
struct statement *syntax_reread(struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                                const struct declaration *open, struct reread reread, struct statement **last, bool *draws_on_formulas);

/* The text of the pieces, one behind the other. */
const char *reread_text(struct arena *arena, const struct reread_piece *pieces, size_t count);

#endif
