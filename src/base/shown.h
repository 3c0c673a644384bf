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
 * Let through are letters of every script, whatever their direction; where they have their use, between letters or pictures that need
 * them, joiners, variation selectors and the blank without width of Thai or Khmer; and the signs of Arabic that enclose figures, which
 * are seen. */
#ifndef POTASH_BASE_SHOWN_H
#define POTASH_BASE_SHOWN_H

#include "base/buffer.h"

#include <stdint.h>

/* What is put in the place of a sign. */
#define SHOWN_SIGN "\uFFFD"

/* A sign that is not seen, whether or not it has its use where it stands. */
bool shown_is_unseen(int32_t code);

/* Whether the sign of `size` bytes at `at` is replaced. */
bool shown_is_replaced(struct text text, size_t at, size_t size, int32_t code);

/* The first byte at or behind `at` that is not one of ASCII's letters, figures and signs; most texts have few. */
size_t shown_skip_plain(struct text text, size_t at);

/* The first place at or behind `at` where something is replaced, or the end of the text; how long that is, and its sign, -1 for a byte
 * that is no UTF-8. */
size_t shown_find(struct text text, size_t at, size_t *size, int32_t *code);

/* Length of the sign at `at` when it is not seen; 0 otherwise. */
size_t shown_unseen_length(struct text text, size_t at);

/* Whether a terminal may be given the text as it is: nothing stands in it but what is let through, ends of lines, and tabs. */
bool shown_is_plain(struct text text);

/* The text in one line: an end of a line is replaced as well. */
void shown_add(struct buffer *out, struct text text);
struct text shown_line(struct arena *arena, struct text text);

/* A whole output, whose ends of lines (also CR LF) and form feeds on lines of their own are ours. */
struct text shown_lines(struct arena *arena, struct text text);

/* For a text that is about such signs: each is named, "<U+202E>", and a byte that is no UTF-8 as "<byte FF>". */
void shown_add_named(struct buffer *out, struct text text);

/* Text of JSON (RFC 8259, 7) with the signs in its strings written as \u and four figures: nothing is lost, and a terminal is safe. */
struct text shown_json(struct arena *arena, struct text json);

#endif
