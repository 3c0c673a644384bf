/* Blocks from the system, handed out by the arena. */
#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct arena_block {
    struct arena_block *older;
    size_t size;
};

enum {
    BLOCK_HEADER = (sizeof(struct arena_block) + 15u) & ~15u,
    FIRST_BLOCK = 64 * 1024,
    LARGEST_BLOCK = 1024 * 1024
};

void arena_start(struct arena *arena)
{
    memset(arena, 0, sizeof *arena);
    arena->block_size = FIRST_BLOCK;
    arena->fail_after = -1;
}

void arena_release(struct arena *arena)
{
    struct arena_block *block = arena->blocks;
    while (block != NULL) {
        struct arena_block *older = block->older;
        free(block);
        block = older;
    }
    arena->blocks = NULL;
    arena->next = arena->end = NULL;
    arena->total = 0;
}

static void allocation_failed(struct arena *arena)
{
    longjmp(*arena->on_failure, 1);
}

void *arena_allocate_slow(struct arena *arena, size_t size)
{
    /* A piece larger than a quarter of a block gets a block of its own, so that the open one is not wasted. */
    bool own_block = size > arena->block_size / 4;
    size_t block_size = own_block ? size : arena->block_size;
    if (size > SIZE_MAX - BLOCK_HEADER - 16u) {
        allocation_failed(arena);
    }
    if (arena->fail_after >= 0 && arena->fail_after-- == 0) {
        allocation_failed(arena);
    }
    /* calloc: large blocks come zeroed from the kernel without being touched. */
    struct arena_block *block = calloc(1, BLOCK_HEADER + block_size);
    if (block == NULL) {
        allocation_failed(arena);
        return NULL;
    }
    block->older = arena->blocks;
    block->size = block_size;
    arena->blocks = block;
    arena->total += BLOCK_HEADER + block_size;
    char *memory = (char *)block + BLOCK_HEADER;
    if (own_block) {
        return memory;
    }
    if (arena->block_size < LARGEST_BLOCK) {
        arena->block_size *= 2;
    }
    arena->next = memory + size;
    arena->end = memory + block_size;
    return memory;
}

char *arena_copy(struct arena *arena, const char *bytes, size_t length)
{
    char *copy = arena_allocate(arena, length + 1);
    memcpy(copy, bytes, length);
    return copy;
}

char *arena_format(struct arena *arena, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    char *text = arena_allocate(arena, (size_t)(length < 0 ? 0 : length) + 1);
    if (length > 0) {
        vsnprintf(text, (size_t)length + 1, format, again);
    }
    va_end(again);
    return text;
}
