/* uthash, with its memory from an arena and a short hash for short names.
 *
 * Include this, not <uthash.h>.  A function that adds to a table has the arena in scope as `table_arena`. */
#ifndef POTASH_BASE_TABLE_H
#define POTASH_BASE_TABLE_H

#include "base/arena.h"

#include <stdint.h>
#include <string.h>

/* Multiply and fold over eight bytes at a time; names are a few words long at most. */
static inline uint32_t table_hash(const void *key, size_t length)
{
    const unsigned char *bytes = key;
    uint64_t hash = 0x9e3779b97f4a7c15u ^ length;
    while (length >= 8) {
        uint64_t piece;
        memcpy(&piece, bytes, 8);
        hash = (hash ^ piece) * 0xff51afd7ed558ccdu;
        hash ^= hash >> 32;
        bytes += 8;
        length -= 8;
    }
    /* The one to seven bytes that are left, in two pieces that may overlap. */
    uint64_t rest = 0;
    if (length >= 4) {
        uint32_t first;
        uint32_t last;
        memcpy(&first, bytes, 4);
        memcpy(&last, bytes + length - 4, 4);
        rest = (uint64_t)first << 32 | last;
    } else if (length > 0) {
        rest = (uint64_t)bytes[0] << 16 | (uint64_t)bytes[length / 2] << 8 | bytes[length - 1];
    }
    hash = (hash ^ rest) * 0xff51afd7ed558ccdu;
    hash ^= hash >> 32;
    hash *= 0xc4ceb9fe1a85ec53u;
    return (uint32_t)(hash >> 32);
}

#define HASH_FUNCTION(key, length, value) ((value) = table_hash((key), (size_t)(length)))
/* Short chains: a look-up then meets its entry at once instead of the third or fourth. */
#define HASH_INITIAL_NUM_BUCKETS 256U
#define HASH_INITIAL_NUM_BUCKETS_LOG2 8U
#define HASH_BKT_CAPACITY_THRESH 4U
#define uthash_malloc(size) arena_allocate(table_arena, (size))
#define uthash_free(pointer, size) ((void)(pointer))

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#include <uthash.h>
#pragma GCC diagnostic pop

#endif
