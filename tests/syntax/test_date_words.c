/* Days as people write them: what they may be as year, month, day. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#define FORMULA "formula \"Stop\"\n kind other\n sodium chloride 10 g\n water to make 1 L\nbatch \"S-1\" of \"Stop\"\n"
enum { FIRST = 6 };

/* The fixes that are offered for a line, each as the text that goes in; "" where there are none. */
static void expect_fixes(const char *line, const char *wanted)
{
    char text[500];
    snprintf(text, sizeof text, FORMULA "%s\n", line);
    struct compiled compiled = compile(text);
    const json_t *diagnostic = compiled_find(&compiled, "syntax", FIRST);
    assert_non_null(diagnostic);
    assert_int_equal(compiled_count(&compiled, NULL), 1);
    char got[200] = "";
    const json_t *fixes = json_object_get(diagnostic, "fixes");
    for (size_t i = 0; i < json_array_size(fixes); i++) {
        size_t at = strlen(got);
        snprintf(got + at, sizeof got - at, "%s%s", at == 0 ? "" : "|", json_text_of(json_array_get(fixes, i), "text"));
    }
    assert_string_equal(got, wanted);
    compiled_free(&compiled);
}

static void a_month_in_words(void **state)
{
    (void)state;
    expect_fixes("mixed 14 March 2026", "2026-03-14");
    expect_fixes("mixed 1 Feb 2026", "2026-02-01");
    expect_fixes("mixed 1st Sept. 2026", "2026-09-01");
    expect_fixes("discarded March 15th, 2026", "2026-03-15");
    expect_fixes("trial 2 May 2026 film at 20 °C", "2026-05-02");
    expect_fixes("used 100 mL on 3-Jun-2026 for 2 rolls", "2026-06-03");
}

/* Where the first two can both be a month there are two readings, and none is chosen. */
static void figures_alone(void **state)
{
    (void)state;
    expect_fixes("mixed 16/02/2026", "2026-02-16");
    expect_fixes("mixed 2/16/2026", "2026-02-16");
    expect_fixes("mixed 16.2.2026", "2026-02-16");
    expect_fixes("mixed 3/4/2026", "2026-04-03|2026-03-04");
    expect_fixes("mixed 4/4/2026", "2026-04-04");
    expect_fixes("mixed 2026/02/16", "2026-02-16");
    expect_fixes("mixed 2026-2-6", "2026-02-06");
}

static void what_is_no_day_is_not_guessed(void **state)
{
    (void)state;
    expect_fixes("mixed yesterday", "");
    expect_fixes("mixed 31.2.2026", "");
    expect_fixes("mixed 13/13/2026", "");
    expect_fixes("mixed 16/02/26", "");
    expect_fixes("mixed 16 Brumaire 2026", "");
    expect_fixes("mixed 12 March", "");
    expect_fixes("mixed March 2026", "");
    expect_fixes("mixed 2026-03", "");
}

static void the_word_before_the_day(void **state)
{
    (void)state;
    expect_fixes("used 100 mL 2026-02-16 for 2 rolls", "on ");
    expect_fixes("used 100 mL 20 for 2 rolls", "");
    }

static void expect_in_shelf(const char *line, const char *id, const char *wanted)
{
    char text[500];
    snprintf(text, sizeof text, "shelf \"S\"\n currency GBP\n %s\n", line);
    struct compiled compiled = compile(text);
    const json_t *diagnostic = compiled_find(&compiled, id, 3);
    assert_non_null(diagnostic);
    assert_int_equal(compiled_count(&compiled, NULL), 1);
    const json_t *fixes = json_object_get(diagnostic, "fixes");
    assert_int_equal(json_array_size(fixes), wanted == NULL ? 0 : 1);
    if (wanted != NULL) {
        assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), wanted);
    }
    compiled_free(&compiled);
}

/* A label has month and year, and means the end of the month (common practice, no source): 2028 has a 29 February, 2027 has none. */
static void the_month_of_a_label(void **state)
{
    (void)state;
    expect_in_shelf("holds metol 100 g best before 06/2027", "syntax", "2027-06-30");
    expect_in_shelf("holds metol 100 g best before 2028-02", "syntax", "2028-02-29");
    expect_in_shelf("holds metol 100 g best before Feb 2027 lot \"A\"", "syntax", "2027-02-28");
    expect_in_shelf("holds metol 100 g opened 06/2025", "syntax", NULL);
    expect_in_shelf("counted on 2026-02-01", "syntax", "");
}

static void what_else_a_pack_cannot_say(void **state)
{
    (void)state;
    expect_in_shelf("holds metol 100 g left 50 g left 40 g", "declared-twice", NULL);
    expect_in_shelf("holds metol 100 g for 18.50 opened 2026-01-02 for 19.50", "declared-twice", NULL);
    expect_in_shelf("holds metol 2 x 100 g", "syntax", NULL);
    expect_in_shelf("holds metol 100 g for \u00A318.50", "syntax", NULL);
}

/* The goods may stand before the day or behind it; a part's name stands with what was made. */
static void either_order_of_a_use(void **state)
{
    (void)state;
    struct compiled compiled = compile(FORMULA " used 100 mL for 2 rolls on 2026-02-03\n used for 1 roll on 2026-02-04\n"
                                               " used 100 mL on 2026-02-05 for 2 rolls\n used on 2026-02-06 for 1 roll\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    compiled_free(&compiled);
    expect_fixes("used 50 mL of A on 2026-02-03", "");
}

/* A batch of which a line cannot be read says nothing: what it leaves out may be what was taken. */
static void a_batch_that_cannot_be_read_says_nothing(void **state)
{
    (void)state;
    static const char text[] = "shelf \"S\"\n counted 2026-01-31\n holds sodium chloride 100 g\n" FORMULA " mixed 2026-02-01\n used 100 mL on yesterday\n";
    struct compiled compiled = compile_with(&(struct potash_options){.date = "2026-03-01"}, text, sizeof text - 1);
    struct potash_output output;
    assert_int_equal(potash_shelf(compiled.potash, POTASH_TEXT, &output), POTASH_FAULTY);
    assert_non_null(strstr(output.bytes, "1 batch of the diary has errors, or no day"));
    assert_int_equal(potash_shelf(compiled.potash, POTASH_JSON, &output), POTASH_FAULTY);
    json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
    assert_int_equal(json_array_size(json_object_get(json, "batches")), 0);
    assert_near(json_number_of(json_array_get(json_object_get(json, "left"), 0), "amount"), 100);
    json_decref(json);
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_month_in_words),
        cmocka_unit_test(figures_alone),
        cmocka_unit_test(what_is_no_day_is_not_guessed),
        cmocka_unit_test(the_word_before_the_day),
        cmocka_unit_test(the_month_of_a_label),
        cmocka_unit_test(what_else_a_pack_cannot_say),
        cmocka_unit_test(either_order_of_a_use),
        cmocka_unit_test(a_batch_that_cannot_be_read_says_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
