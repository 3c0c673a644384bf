/* A file's text in canonical layout.
 *
 * Tidying lays out and does not rewrite: names, numbers, units and texts stay as they were typed, comments stay with
 * their lines.  It works on the lexer's tokens, so a statement that the grammar learns later is laid out without a
 * change here; the syntax tree only says what kind of line each is. */
#ifndef POTASH_SYNTAX_TIDY_H
#define POTASH_SYNTAX_TIDY_H

#include "syntax/parse.h"

/* The layout of `file`, which must have been parsed without an error of syntax or encoding.  The text lives in the
 * arena; `scratch` is used in between and started over. */
struct text tidy_text(struct arena *arena, struct arena *scratch, struct names *names, const struct syntax_file *file);

/* Whether two files say the same, token by token and comment by comment, apart from their layout. */
bool tidy_same(struct arena *scratch, struct names *names, const struct syntax_file *one,
               const struct syntax_file *other);

#endif
