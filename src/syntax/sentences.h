/* Sentences of a printed page in the place of a line. */
#ifndef POTASH_SYNTAX_SENTENCES_H
#define POTASH_SYNTAX_SENTENCES_H

#include "base/arena.h"
#include "base/text.h"

/* The line that says what a sentence says: "Let stand 12 hours" is `stand 12 hours`, and what only a person can read is put in quotes
 * behind `do` or `note`.  NULL where the line does not begin as sentences do. */
const char *syntax_sentence(struct arena *arena, struct text line);

#endif
