/* The fuzz target over a small corpus: what fuzzing found once, and a sample of every statement, whole and broken. */
#define _GNU_SOURCE

#include "support/program.h"

#include <glob.h>
#include <stdio.h>
#include <string.h>

#include "fuzz_notation.c"

static void each_file(const char *pattern, void (*visit)(const char *bytes, size_t length))
{
    glob_t found;
    assert_int_equal(glob(pattern, 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        size_t length;
        char *bytes = file_bytes(found.gl_pathv[i], &length);
        assert_non_null(bytes);
        visit(bytes, length);
        free(bytes);
    }
    globfree(&found);
}

static void run_whole(const char *bytes, size_t length)
{
    assert_int_equal(LLVMFuzzerTestOneInput((const uint8_t *)bytes, length), 0);
}

static void whole_files(void **state)
{
    (void)state;
    each_file("tests/fuzz/corpus/*", run_whole);
}

/* Cut off at every place: no text may end where the reader does not expect it to. */
static void run_cut(const char *bytes, size_t length)
{
    size_t step = length < 300 ? 1 : length / 150;
    for (size_t end = 0; end < length; end += step) {
        char *piece = malloc(end + 1); /* of just that size, so that a tool that watches memory sees reading beyond */
        assert_non_null(piece);
        memcpy(piece, bytes, end);
        LLVMFuzzerTestOneInput((const uint8_t *)piece, end);
        free(piece);
    }
}

static void files_cut_off(void **state)
{
    (void)state;
    each_file("tests/fuzz/corpus/*", run_cut);
}

/* One byte changed, with a fixed sequence of "random" numbers, so that a failure comes again. */
static void run_changed(const char *bytes, size_t length)
{
    static const char instead[] = "\0\"()+-,.:#\n\r\t 0e\xFF\xC2\x80\xE2";
    unsigned number = 20260304;
    char *copy = malloc(length + 1);
    assert_non_null(copy);
    for (int i = 0; i < 60 && length > 0; i++) {
        memcpy(copy, bytes, length);
        number = number * 1664525u + 1013904223u; /* Numerical Recipes, 3rd ed., sect. 7.1 */
        size_t place = (number >> 8) % length;
        number = number * 1664525u + 1013904223u;
        copy[place] = instead[(number >> 8) % (sizeof instead - 1)];
        LLVMFuzzerTestOneInput((const uint8_t *)copy, length);
    }
    free(copy);
}

static void files_with_a_changed_byte(void **state)
{
    (void)state;
    each_file("tests/fuzz/corpus/*", run_changed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_files),
        cmocka_unit_test(files_cut_off),
        cmocka_unit_test(files_with_a_changed_byte),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
