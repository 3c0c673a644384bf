/* Sentences of a printed page in the place of a line. */
#ifndef POTASH_SYNTAX_SENTENCES_H
#define POTASH_SYNTAX_SENTENCES_H

#include "base/arena.h"
#include "base/text.h"
#include "source/diagnostics.h"

enum { LONGEST_SENTENCE = 1000 /* bytes; a longer line is none, and looking through it takes its time */ };

struct builder;

/* The line of the text that the span begins in, without what stands around it. */
struct text syntax_line_of(const struct builder *builder, struct span span);

/* Where a piece of the text stands. */
struct span syntax_span_of(const struct builder *builder, struct text text);

/* The line that says what a sentence says: "Let stand 12 hours" is `stand 12 hours`, and what only a person can read is put in quotes
 * behind `do` or `note`.  NULL where the line does not begin as sentences do. */
const char *syntax_sentence(struct arena *arena, struct text line);

/* Offers it in the place of `span`; several lines are shown as one. */
void syntax_offer_line(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text);

/* The line `mix …` or `dilute …` that says what a sentence says of a mixture for use; NULL where it says nothing of the kind, or more. */
const char *syntax_mixture(struct arena *arena, struct text line);

/* The lines `time …` and `temperature …`, or one of them, that say what a sentence says; NULL likewise. */
const char *syntax_working(struct arena *arena, struct text line);

/* "For films, 1+4": the line `use for films` and what is mixed for it; NULL likewise. */
const char *syntax_use(struct arena *arena, struct text line);

#endif
