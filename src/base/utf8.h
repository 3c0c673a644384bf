/* UTF-8: checking, folding case, and how wide text stands on a terminal (by utf8proc). */
#ifndef POTASH_BASE_UTF8_H
#define POTASH_BASE_UTF8_H

#include "base/arena.h"
#include "base/text.h"

#include <stdint.h>

/* Offset of the first byte at or after `from` that is NUL or no valid UTF-8; `length` when there is none. */
size_t utf8_first_fault(const char *bytes, size_t length, size_t from);

/* The same, and stops also at a character beyond ASCII for which `stops` says so. */
size_t utf8_first_stop(const char *bytes, size_t length, size_t from, bool (*stops)(int32_t code));

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
