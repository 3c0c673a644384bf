/* Signs that are not seen: which they are, where they have their use, and what stands in their place.  The reference is Perl's copy of
 * the Unicode Character Database (Debian's perl). */
#define _GNU_SOURCE

#include "support/arena_help.h"

#include "base/shown.h"
#include "base/utf8.h"

#include <jansson.h>
#include <stdio.h>

/* Unicode 14 or later: general categories Cc, Cf, Zl, Zp, and Default_Ignorable_Code_Point, but the signs of
 * Prepended_Concatenation_Mark, which are seen.  What perl's version has not assigned is left out, since ours may have. */
static void they_are_those_of_unicode(void **state)
{
    (void)state;
    FILE *reference = popen("perl -e 'for (0..0x10FFFF) { next if $_ >= 0xD800 && $_ <= 0xDFFF; my $c = chr; "
                            "my $di = $c =~ /\\p{DI}/; next if $c =~ /\\p{Cn}/ && !$di; "
                            "printf \"%d %d\\n\", $_, ($di || $c =~ /[\\p{Cc}\\p{Cf}\\p{Zl}\\p{Zp}]/) && $c !~ /\\p{PCM}/ ? 1 : 0 }'",
                            "r");
    assert_non_null(reference);
    int code;
    int unseen;
    size_t count = 0;
    size_t found = 0;
    while (fscanf(reference, "%d %d", &code, &unseen) == 2) {
        if (shown_is_unseen(code) != (unseen != 0)) {
            fail_msg("U+%04X: %d", (unsigned)code, unseen);
        }
        count++;
        found += unseen != 0;
    }
    assert_int_equal(pclose(reference), 0);
    assert_true(count > 250000);
    assert_true(found > 4000);
}

static const char *line(const char *text)
{
    struct text shown = shown_line(&arena, text_from(text));
    return arena_copy(&arena, shown.at, shown.length);
}

static void each_is_one_replacement_character(void **state)
{
    (void)state;
    static const struct {
        const char *text, *shown;
    } cases[] = {
        {"", ""},
        {"20 °C, ½ L, 1+29", "20 °C, ½ L, 1+29"},
        {"a\tb", "a b"},
        {"a\nb\r\nc", "a\uFFFDb\uFFFD\uFFFDc"},
        {"\033]0;x\007", "\uFFFD]0;x\uFFFD"},
        {"\x1F \x7F~", "\uFFFD \uFFFD~"},
        {"a\xC2\x80z\xC2\x9F\xC2\xA0", "a\uFFFDz\uFFFD\u00A0"}, /* U+00A0 is a blank */
        {"1+\u202E9\u202C \u2066x\u2069 \u200E\u200F\u061C", "1+\uFFFD9\uFFFD \uFFFDx\uFFFD \uFFFD\uFFFD\uFFFD"},
        {"a\u2028b\u2029c\uFEFFd\u00ADe\u2060f", "a\uFFFDb\uFFFDc\uFFFDd\uFFFDe\uFFFDf"},
        {"a\U000E0041\U000E007Fb", "a\uFFFD\uFFFDb"},
        {"a\xFFz\xC3", "a\uFFFDz\uFFFD"},
        {"me\u200Dtol \u200B3", "me\uFFFDtol \uFFFD3"},
        /* Where they have their use (the examples of UAX 31, 2.3, and of UTS 51, 2.2 and 2.4): letters of Arabic and of Indian scripts,
         * Thai words, pictures put together of several, looks chosen for one sign. */
        {"نامه\u200Cای", "نامه\u200Cای"},
        {"श्री\u200Dमान्\u200Cको", "श्री\u200Dमान्\u200Cको"},
        {"ක්\u200Dෂ", "ක්\u200Dෂ"},
        {"น้ำยา\u200Bล้าง", "น้ำยา\u200Bล้าง"},
        {"👩\u200D🔬 👩🏽\u200D🔬 ❤\uFE0F 1\uFE0F\u20E3", "👩\u200D🔬 👩🏽\u200D🔬 ❤\uFE0F 1\uFE0F\u20E3"},
        {"葛\U000E0100", "葛\U000E0100"},
        {"a\uFE0F ❤\uFE0F\uFE0F", "a\uFFFD ❤\uFE0F\uFFFD"},
        {"מפתח סרט", "מפתח סרט"},
        {"محمض أفلام \u0600١٢", "محمض أفلام \u0600١٢"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        assert_string_equal(line(cases[i].text), cases[i].shown);
        /* A column for each, so that what stands below or behind is in line. */
        assert_int_equal(utf8_width(text_from(cases[i].text)), utf8_width(text_from(cases[i].shown)));
    }
}

static void lines_of_ours_stay(void **state)
{
    (void)state;
    static const char text[] = "one\n\f\ntwo \f\nthree\r\nfour\rfive\033\n";
    struct text shown = shown_lines(&arena, text_from(text));
    assert_true(text_is(shown, "one\n\f\ntwo \uFFFD\nthree\r\nfour\uFFFDfive\uFFFD\n"));
    assert_true(shown_is_plain(TEXT("one\n\ttwo\r\n")));
    assert_false(shown_is_plain(TEXT("one\n\ttwo\u202E\n")));
    assert_false(shown_is_plain(TEXT("\ttwo\007\n")));
}

/* What jansson reads again is the same, and nothing unseen is in the text. */
static void json_loses_nothing(void **state)
{
    (void)state;
    static const char text[] = "a\033\x7F\xC2\x9B\u202E\u00AD\uFFFC\U000E0041\U0010FFFF ½ é नि\u200Dx";
    json_t *json = json_pack("{s:s}", "title", text);
    char *dumped = json_dumps(json, JSON_INDENT(2));
    struct text shown = shown_json(&arena, text_from(dumped));
    assert_true(shown_is_plain(shown));
    assert_non_null(memmem(shown.at, shown.length, "\\uDB40\\uDC41", 12)); /* RFC 8259, 7: a pair of surrogates */
    json_t *again = json_loadb(shown.at, shown.length, 0, NULL);
    assert_true(json_equal(json, again));
    free(dumped);
    json_decref(json);
    json_decref(again);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(they_are_those_of_unicode, set_up_arena, tear_down_arena),
        cmocka_unit_test_setup_teardown(each_is_one_replacement_character, set_up_arena, tear_down_arena),
        cmocka_unit_test_setup_teardown(lines_of_ours_stay, set_up_arena, tear_down_arena),
        cmocka_unit_test_setup_teardown(json_loses_nothing, set_up_arena, tear_down_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
