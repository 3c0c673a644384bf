/* Blocks from the system, handed out by the arena. */
#include "base/arena.h"

#include "base/number.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

struct arena_block {
    struct arena_block *older;
    size_t size;              /* with this header */
    bool mapped;              /* from mmap, not from calloc */
};

enum {
    BLOCK_HEADER = (sizeof(struct arena_block) + 15u) & ~15u,
    HUGE_PAGE = 2 * 1024 * 1024,
    FIRST_BLOCK = 64 * 1024,
    POPULATED = 8 * FIRST_BLOCK,
    LARGEST_BLOCK = HUGE_PAGE
};

void arena_start(struct arena *arena)
{
    memset(arena, 0, sizeof *arena);
    arena->block_size = FIRST_BLOCK;
    arena->fail_after = -1;
}

static void give_back(struct arena_block *block)
{
    if (block->mapped) {
        munmap(block, block->size);
    } else {
        free(block);
    }
}

void arena_release(struct arena *arena)
{
    struct arena_block *block = arena->blocks;
    while (block != NULL) {
        struct arena_block *older = block->older;
        give_back(block);
        block = older;
    }
    arena->blocks = NULL;
    arena->next = arena->end = NULL;
    arena->total = 0;
}

void arena_start_over(struct arena *arena)
{
    struct arena_block *open = NULL;
    struct arena_block *block = arena->blocks;
    while (block != NULL) {
        struct arena_block *older = block->older;
        if ((char *)block + block->size == arena->end) {
            open = block;
        } else {
            give_back(block);
        }
        block = older;
    }
    arena->blocks = open;
    arena->total = open == NULL ? 0 : open->size;
    if (open != NULL) {
        char *start = (char *)open + BLOCK_HEADER;
        memset(start, 0, (size_t)(arena->next - start)); /* what is given out is zeroed */
        arena->next = start;
        open->older = NULL;
    }
}

void arena_go_back(struct arena *arena, struct arena_mark mark)
{
    if (arena->blocks == mark.block && mark.next != NULL) {
        memset(mark.next, 0, (size_t)(arena->next - mark.next)); /* what is given out is zeroed */
        arena->next = mark.next;
    }
}

static void allocation_failed(struct arena *arena)
{
    longjmp(*arena->on_failure, 1);
}

/* A large block, which starts on a huge page and asks for huge pages where it fills them: a 4 MB file costs about 30 page
 * faults instead of 10,000, and those were a third of the time of a check.  NULL when there is no memory. */
static struct arena_block *map_block(size_t size)
{
    char *mapping = mmap(NULL, size + HUGE_PAGE, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (mapping == MAP_FAILED) {
        return NULL;
    }
    size_t before = (HUGE_PAGE - (uintptr_t)mapping % HUGE_PAGE) % HUGE_PAGE;
    if (before > 0) {
        munmap(mapping, before);
    }
    struct arena_block *block = (struct arena_block *)(mapping + before);
    /* The rest of the last page of `size` is left to the block; whole pages behind it go back. */
    size_t kept = (size + 4095u) & ~(size_t)4095u;
    munmap((char *)block + kept, HUGE_PAGE - before - (kept - size));
#ifdef MADV_HUGEPAGE
    madvise(block, size / HUGE_PAGE * HUGE_PAGE, MADV_HUGEPAGE); /* without effect where the system has none */
#endif
    block->size = kept;
    block->mapped = true;
    return block;
}

/* A block of ordinary pages.  One that is surely filled gets them in one go: a fault for each took a tenth of a small run's time. */
static struct arena_block *map_pages(size_t size)
{
    int at_once = size <= POPULATED ? MAP_POPULATE : 0;
    struct arena_block *block = mmap(NULL, size, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS | at_once, -1, 0);
    if (block == MAP_FAILED) {
        return NULL;
    }
    block->size = size;
    block->mapped = true;
    return block;
}

static struct arena_block *new_block(size_t size)
{
    if (size >= HUGE_PAGE) {
        return map_block(size);
    }
    if (size > FIRST_BLOCK) {
        return map_pages(size);
    }
    struct arena_block *block = calloc(1, size);
    if (block != NULL) {
        block->size = size;
    }
    return block;
}

void *arena_allocate_slow(struct arena *arena, size_t size)
{
    /* A piece larger than a quarter of a block gets a block of its own, so that the open one is not wasted. */
    bool own_block = size > arena->block_size / 4;
    if (size > SIZE_MAX - BLOCK_HEADER - 2u * HUGE_PAGE) {
        allocation_failed(arena);
    }
    size_t block_size = own_block ? BLOCK_HEADER + size : arena->block_size;
    if (arena->fail_after >= 0 && arena->fail_after-- == 0) {
        allocation_failed(arena);
    }
    arena->over_limit = arena->limit > 0 && (arena->total > arena->limit || block_size > arena->limit - arena->total);
    struct arena_block *block = arena->over_limit ? NULL : new_block(block_size);
    if (block == NULL) {
        allocation_failed(arena);
        return NULL;
    }
    block->older = arena->blocks;
    arena->blocks = block;
    arena->total += block_size;
    char *memory = (char *)block + BLOCK_HEADER;
    if (own_block) {
        return memory;
    }
    if (arena->block_size < LARGEST_BLOCK) {
        arena->block_size *= 2;
    }
    arena->next = memory + size;
    arena->end = (char *)block + block_size;
    return memory;
}

char *arena_copy(struct arena *arena, const char *bytes, size_t length)
{
    char *copy = arena_allocate(arena, length + 1);
    memcpy(copy, bytes, length);
    return copy;
}

char *arena_format_list(struct arena *arena, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    /* Most texts are short: they are printed where they will stay. */
    size_t room = (size_t)(arena->end - arena->next);
    int printed = number_format_list(arena->next, room, format, arguments);
    size_t length = printed < 0 ? 0 : (size_t)printed;
    if (length < room) {
        va_end(again);
        return arena_allocate(arena, length + 1);
    }
    if (room > 0) {
        memset(arena->next, 0, room); /* what is given out is zeroed */
    }
    char *text = arena_allocate(arena, length + 1);
    number_format_list(text, length + 1, format, again);
    va_end(again);
    return text;
}

char *arena_format(struct arena *arena, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_format_list(arena, format, arguments);
    va_end(arguments);
    return text;
}
