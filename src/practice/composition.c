/* Keys of what formulas are composed of. */
#include "practice/composition.h"

#include "base/table.h"

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

enum { MOST_KEPT = 4096 };

struct composition_entry {
    UT_hash_handle hh;
    const void *found;
    uint64_t words[];
};

const void *composition_recall(const struct composition_memory *memory, const struct composition *composition)
{
    struct composition_entry *entry = NULL;
    HASH_FIND(hh, memory->entries, composition->words, composition->count * sizeof *composition->words, entry);
    return entry == NULL ? NULL : entry->found;
}

void composition_keep(struct composition_memory *memory, struct arena *arena, const struct composition *composition, const void *found)
{
    struct arena *table_arena = arena;
    size_t length = composition->count * sizeof *composition->words;
    struct composition_entry *entry = arena_allocate(arena, sizeof *entry + length);
    entry->found = found;
    memcpy(entry->words, composition->words, length);
    HASH_ADD_KEYPTR(hh, memory->entries, entry->words, length, entry);
    memory->full = HASH_COUNT(memory->entries) >= MOST_KEPT;
}
