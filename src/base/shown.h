/* The one way out: what every text passes before it reaches a terminal, a page or a file.
 *
 * A title, a note, the name of a file or the value of an option may hold signs that are not seen and do something: control signs (a
 * terminal obeys them), direction signs (they show the figures of an amount in another order) and fillers of no width (two names that
 * look the same are not).  By The Unicode Standard's properties (utf8proc): the general categories Cc, Cf, Zl and Zp, and what is
 * Default_Ignorable_Code_Point (UAX 44).
 *
 * Each is shown as one U+FFFD, the replacement character: it is one column wide, so that tables and carets stay in line, it cannot be
 * taken for something that was typed, and a long run of signs does not become a longer text.  Which sign it is says the warning
 * hidden-sign.  A byte that is no UTF-8 is shown so too.  A tab is shown as a blank.
 *
 * Let through are letters of every script; what makes their shape and has no width (joiners, variation selectors, the blank without
 * width between words of Thai or Khmer); and the signs of Arabic that enclose figures, which are seen. */
#ifndef POTASH_BASE_SHOWN_H
#define POTASH_BASE_SHOWN_H

#include "base/buffer.h"

#include <stdint.h>

/* What is put in the place of a sign. */
#define SHOWN_SIGN "\uFFFD"

/* A sign that is replaced. */
bool shown_is_hidden(int32_t code);

/* A sign without width that has its uses in some scripts: let through, and remarked on where it has none. */
bool shown_is_joiner(int32_t code);

/* Either: the two that a reader of a file should know of. */
bool shown_is_remarkable(int32_t code);

/* Whether the joiner of `size` bytes at `at` has its use between the signs that it stands between. */
bool shown_joiner_is_needed(struct text text, size_t at, size_t size);

/* Length of what would be replaced at `at`, a byte that is no UTF-8 included; 0 when nothing is. */
size_t shown_hidden_length(struct text text, size_t at);

/* Whether a terminal may be given the text as it is: nothing stands in it but what is let through, ends of lines, and tabs. */
bool shown_is_plain(struct text text);

/* The text in one line: an end of a line is replaced as well. */
void shown_add(struct buffer *out, struct text text);
struct text shown_line(struct arena *arena, struct text text);

/* A whole output, whose ends of lines (also CR LF) and form feeds on lines of their own are ours. */
struct text shown_lines(struct arena *arena, struct text text);

/* Text of JSON (RFC 8259, 7) with the signs in its strings written as \u and four figures: nothing is lost, and a terminal is safe. */
struct text shown_json(struct arena *arena, struct text json);

#endif
