/* A file that holds nothing but formulas, read a few of them at a time. */
#ifndef POTASH_SYNTAX_PIECES_H
#define POTASH_SYNTAX_PIECES_H

#include "syntax/parse.h"

struct syntax_pieces {
    struct builder builder;
    uint32_t next;             /* where the next piece begins, in bytes */
    bool begun;
    struct declaration end;    /* stands behind the last formula of a piece, to tell where that ends */
};

/* Whether the lines look as if there were nothing but formulas, none of which draws on another.  It is only a guess: a misspelt
 * heading may be understood all the same. */
bool syntax_looks_plain(const struct source_file *source);

void syntax_begin_pieces(struct syntax_pieces *pieces, struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                         struct source_file *source);

/* The next formulas, parsed into `arena`, where nothing may be left that anybody needs: chained by `next` up to one of another kind, or
 * NULL.  NULL at the end, and where the file turns out to hold something else (*plain false). */
struct declaration *syntax_next_piece(struct syntax_pieces *pieces, struct arena *arena, bool *plain);

#endif
