/* Words that nobody has printed yet: a format of printf, and a copy of what it takes.
 *
 * Most diagnostics of a long run are counted and never read, so their words are only kept; they are made when somebody prints them. */
#ifndef POTASH_SOURCE_WORDS_H
#define POTASH_SOURCE_WORDS_H

#include "base/buffer.h"

#include <stdarg.h>

struct kept_words {
    const char *format;   /* lives as long as the program */
    char arguments[];     /* packed: texts as length and bytes, numbers as they are in memory */
};

enum { WORDS_SHOWN = 600 /* bytes of a message that are shown at most: a word of the text may be as long as the file */ };

/* Keeps the format, a string constant, and copies the arguments, texts of them up to `longest` bytes.  Taken as they are: %s, %.*s, %c,
 * %d, %u and their long kinds, %g, %f; numbers by %g come out without an exponent.  Anything else is put in words at once. */
const struct kept_words *words_keep(struct arena *arena, size_t longest, const char *format, va_list arguments) __attribute__((format(printf, 3, 0)));

/* Puts them at the end of `out`. */
void words_print(struct buffer *out, const struct kept_words *words);

/* The same, cut at WORDS_SHOWN bytes. */
void words_print_short(struct buffer *out, const struct kept_words *words);

/* A text, cut in the same way. */
void words_add_short(struct buffer *out, struct text text);

/* The same as a string of its own. */
const char *words_string(struct arena *arena, const struct kept_words *words);

/* Whether both come out the same because they are made alike. */
bool words_equal(const struct kept_words *a, const struct kept_words *b);

#endif
