/* Counts the allocations that jansson does not get. */
#include "base/json_memory.h"

#include <jansson.h>

static json_malloc_t allocate_unwatched;
static _Thread_local unsigned long failures;

static void *allocate_watched(size_t size)
{
    void *memory = allocate_unwatched(size);
    failures += memory == NULL;
    return memory;
}

void json_memory_watch(void)
{
    json_malloc_t allocate;
    json_free_t release;
    json_get_alloc_funcs(&allocate, &release);
    if (allocate != allocate_watched) {
        allocate_unwatched = allocate;
        json_set_alloc_funcs(allocate_watched, release);
    }
}

unsigned long json_memory_failures(void)
{
    return failures;
}
