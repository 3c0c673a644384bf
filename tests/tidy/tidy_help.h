/* What the tests of tidying share: tidying a text in memory, and asking how it differs. */
#ifndef POTASH_TESTS_TIDY_HELP_H
#define POTASH_TESTS_TIDY_HELP_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "potash.h"

#include <string.h>

/* The tidied text in memory of its own, NUL-terminated; NULL when it is not given.  *status: what potash_tidy said. */
static inline char *tidy_bytes(const char *text, size_t length, enum potash_status *status, bool *tidy)
{
    const struct potash_options options = {.no_reads = true};
    struct potash *potash = potash_open(&options);
    assert_non_null(potash);
    struct potash_output output = {0};
    *tidy = false;
    *status = potash_read_text(potash, "test.bath", text, length);
    if (*status == POTASH_GOOD) {
        *status = potash_tidy(potash, 0, tidy, &output);
    }
    if (*status == POTASH_UNUSABLE) {
        print_message("%s\n", potash_message(potash));
    }
    char *copy = *status == POTASH_GOOD ? strndup(output.bytes, output.length) : NULL;
    if (copy != NULL) {
        assert_int_equal(strlen(copy), output.length);
    }
    potash_close(potash);
    return copy;
}

/* Fails unless `before` comes out as `after`, and `after` as itself. */
static inline void expect_tidied(const char *before, size_t length, const char *after)
{
    enum potash_status status;
    bool tidy;
    char *got = tidy_bytes(before, length, &status, &tidy);
    assert_int_equal(status, POTASH_GOOD);
    assert_string_equal(got, after);
    assert_int_equal(tidy, length == strlen(after) && memcmp(before, after, length) == 0);
    free(got);
    got = tidy_bytes(after, strlen(after), &status, &tidy);
    assert_int_equal(status, POTASH_GOOD);
    assert_string_equal(got, after);
    assert_true(tidy);
    free(got);
}

static inline void expect_tidy(const char *before, const char *after)
{
    expect_tidied(before, strlen(before), after);
}

static inline void expect_refused(const char *text, size_t length)
{
    enum potash_status status;
    bool tidy;
    char *got = tidy_bytes(text, length, &status, &tidy);
    assert_int_equal(status, POTASH_FAULTY);
    assert_null(got);
}

#endif
