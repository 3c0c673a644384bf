/* The words that lines begin with: how a line with each looks, and which of them a misspelt one was meant to be. */
#ifndef POTASH_SYNTAX_KEYWORDS_H
#define POTASH_SYNTAX_KEYWORDS_H

#include "syntax/tree.h"

struct keyword {
    const char *words;   /* in small letters, with one blank between two */
    int token;
    unsigned belongs_to; /* a bit for each kind of declaration that has such a line (1 << enum declaration_kind); KEYWORD_OPENS */
    const char *example; /* a whole line */
};

#define KEYWORD_OPENS (1u << 31) /* it is the heading of a declaration */

/* All of them; `count` is set. */
const struct keyword *syntax_keywords(size_t *count);

/* The keyword that the line begins with, among those of `belongs_to`; NULL when it begins with none.  When `slip` is not NULL, one
 * that is a slip or two away is found as well, and *slip is what stands in its place. */
const struct keyword *syntax_keyword(struct text line, unsigned belongs_to, struct text *slip);

#endif
