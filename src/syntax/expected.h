/* What the grammar lets stand at the end of a text that somebody is typing. */
#ifndef POTASH_SYNTAX_EXPECTED_H
#define POTASH_SYNTAX_EXPECTED_H

#include "syntax/parse.h"

enum { EXPECTED_MOST = 96 };

struct syntax_expected {
    const char *names[EXPECTED_MOST]; /* the grammar's names of tokens: keywords, or things such as "a name" */
    int count;
    int before;                       /* the token before the end; of a line's first, that which ended the line above */
    uint32_t at;                      /* for the parser: where it is asked about */
};

/* `text` begins with a heading, or is empty.  Nothing is found where its last line cannot be read so far. */
struct syntax_expected syntax_expect(struct arena *arena, struct text text);

#endif
