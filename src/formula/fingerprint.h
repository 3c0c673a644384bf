/* The fingerprint of a formula: tells whether two bottles were mixed from the same formula.
 *
 * It is the SHA-256 (FIPS 180-4) of the canonical text of the checked form, in hexadecimal, cut to its first 16 figures.  The
 * canonical text says what goes into the bottle and how it is used, in base units, and nothing of how the file is laid out or
 * worded: not the title, notes, sources and keeping times.  docs/pages.md defines it. */
#ifndef POTASH_FORMULA_FINGERPRINT_H
#define POTASH_FORMULA_FINGERPRINT_H

#include "base/buffer.h"
#include "formula/formula.h"

enum { FINGERPRINT_LENGTH = 16 };

/* "3f2a91c04b7de812", in the arena. */
struct text formula_fingerprint(struct arena *arena, const struct formula *formula);

/* What it is taken of. */
void formula_canonical_text(struct buffer *out, const struct formula *formula);

/* All that a formula says, the title, notes, sources and keeping times as well, without the gaps in its texts: two files that give the
 * same for every formula mean the same.  Where things stand in the file is left out. */
void formula_meaning_text(struct buffer *out, const struct formula *formula);

#endif
