/* The arena: zeroed, aligned, its own; and the way out of a failing allocation.  Buffers that grow in it. */
#include "support/arena_help.h"

#include "base/buffer.h"

#include <stdio.h>

static void memory_is_zeroed_aligned_and_apart(void **state)
{
    (void)state;
    enum { PIECES = 3000 };
    unsigned char *pieces[PIECES];
    size_t sizes[PIECES];
    for (size_t i = 0; i < PIECES; i++) {
        sizes[i] = (i * 37) % 501 + (i % 100 == 0 ? 70000 : 0);
        pieces[i] = arena_allocate(&arena, sizes[i]);
        assert_int_equal((uintptr_t)pieces[i] % 8, 0);
        for (size_t b = 0; b < sizes[i]; b++) {
            assert_int_equal(pieces[i][b], 0);
        }
        memset(pieces[i], (int)(i % 255) + 1, sizes[i]);
    }
    for (size_t i = 0; i < PIECES; i++) { /* nobody wrote into another's */
        for (size_t b = 0; b < sizes[i]; b++) {
            assert_int_equal(pieces[i][b], i % 255 + 1);
        }
    }
    assert_true(arena.total > 3000 * 250);
}

static void release_gives_all_back(void **state)
{
    (void)state;
    arena_allocate(&arena, 100000);
    arena_release(&arena);
    assert_int_equal(arena.total, 0);
    assert_non_null(arena_allocate(&arena, 10)); /* and it can be used again */
    arena_release(&arena);
    arena_release(&arena);
}

static void starting_over_gives_zeroed_memory_again(void **state)
{
    (void)state;
    arena_start_over(&arena); /* with nothing in it */
    static const size_t sizes[] = {24, 5000, 70000, 300000, 3000000};
    for (int round = 0; round < 50; round++) {
        for (size_t i = 0; i < (size_t)round % 6 && i < sizeof sizes / sizeof *sizes; i++) {
            unsigned char *piece = arena_allocate(&arena, sizes[i]);
            for (size_t b = 0; b < sizes[i]; b++) {
                assert_int_equal(piece[b], 0);
            }
            memset(piece, 0xA5, sizes[i]);
        }
        arena_start_over(&arena);
        assert_true(arena.total <= 4u << 20); /* one block at the most, however many there were */
    }
}

static void copies_end_with_nul(void **state)
{
    (void)state;
    char *copy = arena_copy(&arena, "metol and more", 5);
    assert_string_equal(copy, "metol");
    assert_string_equal(arena_copy(&arena, "", 0), "");
    assert_string_equal(arena_format(&arena, "%d %s", 42, "g"), "42 g");
    char *longer = arena_format(&arena, "%100000d", 7);
    assert_int_equal(strlen(longer), 100000);
}

static void a_failing_allocation_jumps(void **state)
{
    (void)state;
    jmp_buf here;
    volatile int reached = 0;
    arena_release(&arena);
    arena.on_failure = &here;
    arena.fail_after = 0;
    if (setjmp(here) == 0) {
        arena_allocate(&arena, 16);
        reached = 1;
    } else {
        reached = 2;
    }
    assert_int_equal(reached, 2);
    assert_int_equal(arena.total, 0);
    /* Only one fails: a session may go on to say what happened. */
    assert_non_null(arena_allocate(&arena, 16));
}

static void the_given_allocation_fails(void **state)
{
    (void)state;
    for (volatile long fail = 0; fail < 5; fail++) {
        struct arena other;
        jmp_buf here;
        arena_start(&other);
        other.on_failure = &here;
        other.fail_after = fail;
        volatile long done = 0;
        if (setjmp(here) == 0) {
            for (; done < 10; done++) {
                arena_allocate(&other, 2000000); /* each a block of its own */
            }
        }
        assert_int_equal(done, fail);
        arena_release(&other);
    }
}

static void an_impossible_size_fails(void **state)
{
    (void)state;
    jmp_buf here;
    volatile bool failed = false;
    arena.on_failure = &here;
    if (setjmp(here) == 0) {
        arena_allocate(&arena, SIZE_MAX - 40);
    } else {
        failed = true;
    }
    assert_true(failed);
    failed = false;
    if (setjmp(here) == 0) {
        arena_allocate(&arena, SIZE_MAX / 2);
    } else {
        failed = true;
    }
    assert_true(failed);
}

/* Rounding up to the alignment must not turn an impossible size into a small one. */
static void a_size_next_to_the_largest_fails(void **state)
{
    (void)state;
    for (size_t less = 0; less < 8; less++) {
        jmp_buf here;
        volatile bool failed = false;
        arena.on_failure = &here;
        if (setjmp(here) == 0) {
            arena_allocate(&arena, SIZE_MAX - less);
        } else {
            failed = true;
        }
        assert_true(failed);
    }
}

static void figures_stand_to_the_right(void **state)
{
    (void)state;
    struct buffer buffer;
    buffer_start(&buffer, &arena);
    static const uint32_t numbers[] = {0, 7, 99999, 100000, UINT32_MAX};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        for (int width = 0; width < 12; width++) {
            size_t before = buffer.length;
            buffer_number(&buffer, numbers[i], (size_t)width);
            char printed[32];
            snprintf(printed, sizeof printed, "%*u", width, numbers[i]);
            assert_string_equal(buffer.bytes + before, printed);
        }
    }
}

static void buffers_grow(void **state)
{
    (void)state;
    struct buffer buffer;
    buffer_start(&buffer, &arena);
    assert_string_equal(buffer_finish(&buffer), "");
    size_t length = 0;
    for (int i = 0; i < 5000; i++) {
        buffer_format(&buffer, "%d,", i);
        length += (size_t)snprintf(NULL, 0, "%d,", i);
    }
    assert_int_equal(buffer.length, length);
    assert_int_equal(strlen(buffer_finish(&buffer)), length);
    assert_memory_equal(buffer.bytes, "0,1,2,3,", 8);
    buffer_start(&buffer, &arena);
    buffer_text(&buffer, TEXT("20"));
    buffer_character(&buffer, ' ');
    buffer_repeat(&buffer, '.', 3);
    buffer_repeat(&buffer, '.', 0);
    buffer_string(&buffer, " g");
    buffer_add(&buffer, NULL, 0);
    assert_string_equal(buffer_finish(&buffer), "20 ... g");
}

static void going_back_gives_the_same_memory_zeroed(void **state)
{
    (void)state;
    char *kept = arena_allocate(&arena, 16);
    memset(kept, 'k', 16);
    struct arena_mark mark = arena_mark(&arena);
    char *passing = arena_allocate(&arena, 64);
    memset(passing, 'p', 64);
    arena_go_back(&arena, mark);
    char *again = arena_allocate(&arena, 64);
    assert_ptr_equal(again, passing);
    for (size_t i = 0; i < 64; i++) {
        assert_int_equal(again[i], 0);
    }
    assert_memory_equal(kept, "kkkkkkkkkkkkkkkk", 16);
    /* Behind the end of a block nothing is taken back, and nothing is lost. */
    mark = arena_mark(&arena);
    memset(arena_allocate(&arena, 1 << 20), 'q', 1 << 20);
    arena_go_back(&arena, mark);
    char *other = arena_allocate(&arena, 64);
    assert_int_equal(other[0], 0);
    assert_memory_equal(kept, "kkkkkkkkkkkkkkkk", 16);
}

static void no_more_is_taken_than_the_limit(void **state)
{
    (void)state;
    jmp_buf back;
    jmp_buf *outer = arena.on_failure;
    arena_allocate(&arena, 100);
    arena.limit = arena.total + (1 << 20); /* of which a block's header takes some bytes */
    if (setjmp(back) != 0) {
        fail_msg("an allocation within the limit failed");
    }
    arena.on_failure = &back;
    size_t before = arena.total;
    arena_allocate(&arena, (1 << 20) - 4096);
    size_t header = arena.total - before - ((1 << 20) - 4096);
    assert_true(header > 0 && header <= 64);
    if (setjmp(back) == 0) {
        arena_allocate(&arena, 200000);
        fail_msg("an allocation above the limit did not fail");
    }
    assert_true(arena.over_limit);
    assert_true(arena.total <= arena.limit);
    /* Just on each side of it. */
    arena.limit = arena.total + 300000 + header;
    if (setjmp(back) != 0) {
        fail_msg("an allocation of just the limit failed");
    }
    arena_allocate(&arena, 300000);
    assert_int_equal(arena.total, arena.limit);
    arena.limit = arena.total + 300000 + header - 1;
    if (setjmp(back) == 0) {
        arena_allocate(&arena, 300000);
        fail_msg("an allocation of a byte more than the limit did not fail");
    }
    arena.on_failure = outer;
    arena.limit = 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(memory_is_zeroed_aligned_and_apart),
        WITH_ARENA(release_gives_all_back),
        WITH_ARENA(starting_over_gives_zeroed_memory_again),
        WITH_ARENA(copies_end_with_nul),
        WITH_ARENA(a_failing_allocation_jumps),
        WITH_ARENA(the_given_allocation_fails),
        WITH_ARENA(an_impossible_size_fails),
        WITH_ARENA(a_size_next_to_the_largest_fails),
        WITH_ARENA(figures_stand_to_the_right),
        WITH_ARENA(buffers_grow),
        WITH_ARENA(no_more_is_taken_than_the_limit),
        WITH_ARENA(going_back_gives_the_same_memory_zeroed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
