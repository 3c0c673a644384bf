/* UTF-8: what is text and what is not, counting and folding. */
#include "support/arena_help.h"

#include "base/utf8.h"

#include <stdio.h>

static size_t first_fault(const char *bytes, size_t length)
{
    return utf8_first_fault(bytes, length, 0);
}

/* Ill-formed sequences of RFC 3629: overlong forms, surrogates, beyond U+10FFFF, lone and missing continuation bytes.
 */
static void finds_what_is_not_utf8(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t length;
        size_t fault;
    } cases[] = {
        {"abc\xFF", 4, 3},
        {"\xC0\x80", 2, 0},
        {"\xC1\xBF", 2, 0},
        {"\xE0\x80\x80", 3, 0},
        {"\xED\xA0\x80", 3, 0},
        {"\xF4\x90\x80\x80", 4, 0},
        {"\xF0\x80\x80\x80", 4, 0},
        {"\x80", 1, 0},
        {"ab\xC2", 3, 2},
        {"ab\xE2\x82", 4, 2},
        {"ab\xF0\x9F\x98", 5, 2},
        {"\xC2z", 2, 0},
        {"a\0b", 3, 1},
        {"12345678\0", 9, 8},
        {"1234567\xFE"
         "89",
         10, 7},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        size_t got = first_fault(cases[i].bytes, cases[i].length);
        if (got != cases[i].fault) {
            fail_msg("case %zu: %zu instead of %zu", i, got, cases[i].fault);
        }
    }
}

static void accepts_what_is_utf8(void **state)
{
    (void)state;
    static const char *const texts[] = {"",           "plain",    "20 \u00B0C",
                                        "\u00BD oz",  "\u20AC",   "\U0001F600",
                                        "\U0010FFFF", "\x7F\x01", "a\u00B0a\u00B0a\u00B0a\u00B0a\u00B0a\u00B0"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        assert_int_equal(first_fault(texts[i], strlen(texts[i])), strlen(texts[i]));
    }
}

/* Every place in a block of eight, where the fast way hands over to the slow one. */
static void a_fault_is_found_at_every_offset(void **state)
{
    (void)state;
    for (size_t at = 0; at < 40; at++) {
        char bytes[41];
        memset(bytes, 'a', sizeof bytes);
        bytes[at] = '\xFF';
        assert_int_equal(first_fault(bytes, sizeof bytes), at);
        assert_int_equal(utf8_first_fault(bytes, sizeof bytes, at + 1), sizeof bytes);
        bytes[at] = '\0';
        assert_int_equal(first_fault(bytes, sizeof bytes), at);
    }
}

static void folds_case(void **state)
{
    (void)state;
    assert_text(utf8_fold_case(&arena, TEXT("METOL \u00B0C \u00C4\u03A3")), "metol \u00B0c \u00E4\u03C3");
    assert_text(utf8_fold_case(&arena, TEXT("")), "");
    assert_text(utf8_fold_case(&arena, ((struct text){"A\xFF", 2})), "a\xFF");
}

static void counts_and_measures(void **state)
{
    (void)state;
    assert_int_equal(utf8_count(TEXT("20 \u00B0C")), 5);
    assert_int_equal(utf8_count(TEXT("")), 0);
    assert_int_equal(utf8_width(TEXT("20 \u00B0C")), 5);
    assert_int_equal(utf8_width(TEXT("\u6C34")), 2);  /* a wide character: Unicode TR 11 */
    assert_int_equal(utf8_width(TEXT("e\u0301")), 1); /* a combining accent takes no column */
    assert_int_equal(utf8_width(TEXT("\t")), 1);
    assert_int_equal(utf8_character_length(TEXT("a")), 1);
    assert_int_equal(utf8_character_length(TEXT("\u00B0C")), 2);
    assert_int_equal(utf8_character_length(TEXT("\u20AC")), 3);
    assert_int_equal(utf8_character_length(TEXT("\U0001F600")), 4);
    assert_int_equal(utf8_character_length(((struct text){"\xF0", 1})), 1);
}

static void faults_are_masked(void **state)
{
    (void)state;
    char bytes[] = "a\0b\xFF\xC3\xBC\xE2\x82";
    utf8_mask_faults(bytes, sizeof bytes - 1, 1);
    assert_memory_equal(bytes, "a?b?\xC3\xBC??", sizeof bytes - 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_what_is_not_utf8),
        cmocka_unit_test(accepts_what_is_utf8),
        cmocka_unit_test(a_fault_is_found_at_every_offset),
        cmocka_unit_test(faults_are_masked),
        WITH_ARENA(folds_case),
        cmocka_unit_test(counts_and_measures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
