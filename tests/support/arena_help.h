/* An arena for each test, for tests of the floors below libpotash's public face. */
#ifndef POTASH_TESTS_ARENA_HELP_H
#define POTASH_TESTS_ARENA_HELP_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/arena.h"
#include "base/text.h"

static struct arena arena;

/* There is no way back for failing allocations, which no function could leave open that returns: such a test falls over. */
static inline int set_up_arena(void **state)
{
    (void)state;
    arena_start(&arena);
    return 0;
}

static inline int tear_down_arena(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

#define WITH_ARENA(test) cmocka_unit_test_setup_teardown(test, set_up_arena, tear_down_arena)

static inline void assert_text(struct text got, const char *wanted)
{
    if (!text_is(got, wanted)) {
        fail_msg("\"%.*s\" instead of \"%s\"", TEXT_ARGUMENTS(got), wanted);
    }
}

#endif
