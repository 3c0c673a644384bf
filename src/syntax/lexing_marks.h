/* Signs of print whose meaning depends on what stands around them: bullets, leaders, rules between columns, figures that count lines. */
#ifndef POTASH_SYNTAX_LEXING_MARKS_H
#define POTASH_SYNTAX_LEXING_MARKS_H

#include "syntax/parse.h"

/* A dash or a colon between a name and its amount, as print has it in the place of leader dots: "metol - 2 g", "metol: 2 g". */
bool lexing_is_leader(const struct lexer *lexer, const unsigned char *at);
/* A sign between two columns of an addition, or behind a specific gravity; what it divides off begins at `at`. */
bool lexing_divides_columns(const struct builder *builder, const unsigned char *at);
/* A sign that begins an item of a list, from `at` to `upto`, and no minus or star of anything else. */
bool lexing_is_bullet(const unsigned char *at, const unsigned char *upto);
bool lexing_begins_name(const unsigned char *at);
/* Behind the figure that counts a line, and behind its brackets. */
const unsigned char *lexing_number_end(const unsigned char *at);
/* "1." or "(1)" before a line at `at`, of at least three lines that are counted so: else it may head a part. */
bool lexing_is_numbering(const char *start, const char *at);

#endif
