/* Words kept as a format and a copy of its arguments: what is printed is what printf prints, but for numbers, which a person would write. */
#include "support/arena_help.h"

#include "source/words.h"

#include <stdio.h>

static __attribute__((format(printf, 1, 2))) const struct kept_words *kept(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const struct kept_words *words = words_keep(&arena, WORDS_SHOWN + 1, format, arguments);
    va_end(arguments);
    return words;
}

/* printf itself is the outside source here (C17, 7.21.6.1). */
#define assert_as_printf(...)                                                                                         \
    do {                                                                                                               \
        char expected[200];                                                                                            \
        snprintf(expected, sizeof expected, __VA_ARGS__);                                                              \
        assert_string_equal(words_string(&arena, kept(__VA_ARGS__)), expected);                                        \
    } while (0)

static void texts_and_counts_come_out_as_by_printf(void **state)
{
    (void)state;
    assert_as_printf("plain");
    assert_as_printf("%s and %.*s, 100 %%", "one", 3, "another");
    assert_as_printf("%s", "");
    assert_as_printf("%.2s|%.0s|%.9s", "abc", "abc", "abc");
    assert_as_printf("%d %d %d", 0, -1, -2147483647 - 1);
    assert_as_printf("%u %zu %lu %ld", 4294967295u, (size_t)1 << 40, 7ul, -9l);
    assert_as_printf("%c%c", 'a', '%');
    assert_as_printf("%+.3g %+d %+d", 2.5, 3, -3);
    assert_as_printf("%.0f %.2f", 1234567.5, 0.125);
    assert_as_printf("%5d|%-4s|%x", 3, "a", 255); /* of kinds that are not kept: put in words at once */
    assert_as_printf("%d%d%d%d%d%d%d%d%d%d%d%d%d", 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13); /* more than are kept */
}

static void numbers_come_out_as_by_printf_where_that_has_no_exponent(void **state)
{
    (void)state;
    static const double numbers[] = {0, 1, -1, 2.5, 0.1, 0.30000000000000004, 12.345678, 999.4, 99999, 0.00012345, 750, 1e5, 123456};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        assert_as_printf("%g %.6g %.10g", numbers[i], numbers[i], numbers[i]);
    }
    assert_as_printf("%.3g %.3g", 999.4, 99.96);
}

static void numbers_have_no_exponent(void **state)
{
    (void)state;
    static const struct {
        double number;
        const char *two;
    } cases[] = {{223.4, "220"},        {99.4, "99"},          {99.6, "100"},   {995, "1000"}, {1e9, "1000000000"}, {2.2e+02, "220"},
                 {0.00001234, "0.000012"}, {-12345, "-12000"}, {1e-9, "0.000000001"}, {0.0, "0"}, {-0.0, "0"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) { /* rounded by hand */
        assert_string_equal(words_string(&arena, kept("%.2g", cases[i].number)), cases[i].two);
    }
    assert_string_equal(words_string(&arena, kept("%g", 1.0 / 0.0)), "?");
}

static void arguments_need_not_live_on(void **state)
{
    (void)state;
    char name[] = "metol";
    const struct kept_words *words = kept("%s", name);
    memset(name, 'x', sizeof name - 1);
    assert_string_equal(words_string(&arena, words), "metol");
}

/* The length of a text takes one byte below 255, five from there on; a message is cut behind 600. */
static void long_texts_are_kept_and_cut(void **state)
{
    (void)state;
    static const size_t lengths[] = {254, 255, 256, 600, 601, 5000};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        char *text = arena_allocate(&arena, lengths[i] + 1);
        memset(text, 'a', lengths[i]);
        const char *out = words_string(&arena, kept("%s", text));
        bool cut = lengths[i] > 600;
        assert_int_equal(strlen(out), cut ? 600 + strlen("…") : lengths[i]);
        assert_int_equal(strstr(out, "…") != NULL, cut);
    }
    char *umlauts = arena_allocate(&arena, 2001);
    umlauts[0] = 'a';
    for (size_t i = 1; i < 1999; i += 2) {
        memcpy(umlauts + i, "ü", 2);
    }
    const char *out = words_string(&arena, kept("%s", umlauts));
    assert_string_equal(out + strlen(out) - 5, "ü…"); /* never inside a character */
}

static void words_are_equal_when_they_are_made_alike(void **state)
{
    (void)state;
    assert_true(words_equal(kept("%s %g", "a", 1.0), kept("%s %g", "a", 1.0)));
    assert_false(words_equal(kept("%s %g", "a", 1.0), kept("%s %g", "b", 1.0)));
    assert_false(words_equal(kept("%s %g", "a", 1.0), kept("%s %g", "a", 2.0)));
    assert_false(words_equal(kept("a"), kept("b")));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(texts_and_counts_come_out_as_by_printf),
        WITH_ARENA(numbers_come_out_as_by_printf_where_that_has_no_exponent),
        WITH_ARENA(numbers_have_no_exponent),
        WITH_ARENA(arguments_need_not_live_on),
        WITH_ARENA(long_texts_are_kept_and_cut),
        WITH_ARENA(words_are_equal_when_they_are_made_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
