/* UTF-8: checking, folding case, and how wide text stands on a terminal (by utf8proc). */
#ifndef POTASH_BASE_UTF8_H
#define POTASH_BASE_UTF8_H

#include "base/arena.h"
#include "base/text.h"

#include <stdint.h>

/* Offset of the first byte at or after `from` that is NUL or no valid UTF-8; `length` when there is none. */
size_t utf8_first_fault(const char *bytes, size_t length, size_t from);

/* The same for all faults of a text in one walk, with a look at what is met on the way. */
struct utf8_walk {
    const char *bytes;
    size_t length;
    size_t at;   /* where it goes on: to be set behind a fault */
    size_t nul;  /* for the walk itself; 0 at first */
    void (*meet)(void *context, size_t at, int32_t code); /* called for every character beyond ASCII; may be NULL */
    void *context;
};
size_t utf8_walk_to_fault(struct utf8_walk *walk);

/* Puts '?' for every such byte at or after `from`, in one walk: a line may hold nothing else. */
void utf8_mask_faults(char *bytes, size_t length, size_t from);

/* Lower case by Unicode's folding; the same view when nothing changes. */
struct text utf8_fold_case(struct arena *arena, struct text text);

/* Number of code points. */
size_t utf8_count(struct text text);

/* Columns that the text takes on a terminal as it is shown there (base/shown.h); a tab counts as one. */
size_t utf8_width(struct text text);

/* Length in bytes of the character at the start of `text`; at least 1 while text is not empty. */
size_t utf8_character_length(struct text text);

#endif
