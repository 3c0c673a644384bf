/* What a formula is composed of, its amounts left out: its kind, what it is for, and what it holds.
 *
 * Which rules may speak of a formula and which classes of baths it may be of follows from that alone.  It is found out once for all
 * formulas that have it in common: of the developers in a collection most are one of a few dozen. */
#ifndef POTASH_PRACTICE_COMPOSITION_H
#define POTASH_PRACTICE_COMPOSITION_H

#include "practice/classes.h"

enum { MOST_PURPOSES = 6, MOST_COMPOSITION = 4 + MOST_SUBJECTS / 64 + MOST_PURPOSES + MOST_POINTS };

/* A key: two formulas with the same words are composed alike. */
struct composition {
    uint64_t words[MOST_COMPOSITION];
    size_t count;
};

/* Begins the key of a formula that holds `there`.  False when it is for more purposes than a key has room for: then nothing is
 * remembered of it. */
bool composition_begin(struct composition *composition, const struct rules *rules, const struct formula *formula,
                       const struct subject_set *there);

/* Puts another word to it; the caller sees to it that there is room. */
static inline void composition_put(struct composition *composition, uint64_t word)
{
    composition->words[composition->count++] = word;
}

/* What was kept for the key; NULL when nothing was. */
const void *composition_recall(const struct composition_memory *memory, const struct composition *composition);

/* Keeps `found`, which must live as long as the arena. */
void composition_keep(struct composition_memory *memory, struct arena *arena, const struct composition *composition, const void *found);

#endif
