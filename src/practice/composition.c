/* Keys of what formulas are composed of. */
#include "practice/composition.h"

#include <string.h>

bool composition_begin(struct composition *composition, const struct rules *rules, const struct formula *formula,
                       const struct subject_set *there)
{
    composition->count = 0;
    composition_put(composition, (uintptr_t)formula->kind.at); /* one text for all formulas of a kind */
    for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
        composition_put(composition, there->bits[i]);
    }
    size_t purposes = 0;
    for (const struct word *purpose = formula->purposes; purpose != NULL; purpose = purpose->next) {
        if (++purposes > MOST_PURPOSES) {
            return false;
        }
        composition_put(composition, (uintptr_t)names_folded(rules->library->names, purpose->name));
    }
    composition_put(composition, purposes);
    return true;
}

const uint64_t *composition_keep(struct arena *arena, const struct composition *composition)
{
    uint64_t *words = ARENA_ARRAY(arena, uint64_t, composition->count);
    memcpy(words, composition->words, composition->count * sizeof *words);
    return words;
}
