/* Memory that is given out piece by piece and released all at once.
 *
 * One arena serves one compilation.  What it gives out is zeroed and stays valid until arena_release; nothing is freed on
 * its own.  A failing allocation does not return: it jumps to the place that arena_guard marked, so that code below can
 * be written without a check at every step and still nothing is lost or leaked. */
#ifndef POTASH_BASE_ARENA_H
#define POTASH_BASE_ARENA_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

struct arena_block;

struct arena {
    char *next;                   /* first free byte of the newest block */
    char *end;                    /* one past its last byte */
    struct arena_block *blocks;   /* newest first; owned */
    size_t block_size;            /* size of the next ordinary block, in bytes */
    size_t total;                 /* bytes taken from the system so far … */
    size_t limit;                 /* … and how many they may be; 0: as many as there are */
    bool over_limit;              /* an allocation failed because of it */
    jmp_buf *on_failure;          /* where a failing allocation goes; must be set before the first allocation */
    long fail_after;              /* tests only: allocations from the system left before one fails; negative: never */
};

/* Prepares an empty arena; it takes nothing from the system yet. */
void arena_start(struct arena *arena);

/* Gives everything back to the system. */
void arena_release(struct arena *arena);

/* Takes back all that was given out, which nothing may point to any more, but keeps a block of it for what comes next: memory that is
 * used over and over stays in the processor's caches. */
void arena_start_over(struct arena *arena);

void *arena_allocate_slow(struct arena *arena, size_t size);

/* Zeroed memory for `size` bytes, aligned for any object of ours (8 bytes).  Never NULL: on failure it jumps to arena->on_failure. */
static inline void *arena_allocate(struct arena *arena, size_t size)
{
    size_t rounded = (size + 7u) & ~(size_t)7u;
    if (rounded >= size && rounded <= (size_t)(arena->end - arena->next)) {
        char *memory = arena->next;
        arena->next += rounded;
        return memory;
    }
    return arena_allocate_slow(arena, rounded >= size ? rounded : size);
}

/* A place in the arena to go back to. */
struct arena_mark {
    char *next;
    const struct arena_block *block;
};

static inline struct arena_mark arena_mark(const struct arena *arena)
{
    return (struct arena_mark){arena->next, arena->blocks};
}

/* Takes back what was given out since the mark, which nothing may point to any more.  Where a new block was begun since, its
 * memory stays taken until arena_release: that happens too rarely to matter. */
void arena_go_back(struct arena *arena, struct arena_mark mark);

/* A copy of `length` bytes with a NUL behind them. */
char *arena_copy(struct arena *arena, const char *bytes, size_t length);

/* Formats as printf does into the arena. */
char *arena_format(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* The same with the arguments of a function that takes them in its turn. */
char *arena_format_list(struct arena *arena, const char *format, va_list arguments) __attribute__((format(printf, 2, 0)));

#define ARENA_NEW(arena, type) ((type *)arena_allocate((arena), sizeof(type)))
#define ARENA_ARRAY(arena, type, count) ((type *)arena_allocate((arena), sizeof(type) * (count)))

#endif
