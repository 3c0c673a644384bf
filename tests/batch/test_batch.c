/* Batches: one amount for one line in every output, and checked forms that no report changes. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#define MARK                                                                                                                   \
    "formula \"Stop\"\n kind stop bath\n water 500 mL\n sodium acetate (anhydrous) 10 g\n water to make 1 L\n"                \
    " acetic acid (28 %) 48 mL\n"

typedef enum potash_status (*maker)(struct potash *, enum potash_format, struct potash_output *);

static char *printed(struct potash *potash, maker make, enum potash_format format)
{
    struct potash_output output;
    assert_int_equal(make(potash, format, &output), POTASH_GOOD);
    return strndup(output.bytes, output.length);
}

static void expect_words(const char *page, const char *words)
{
    if (strstr(page, words) == NULL) {
        fail_msg("\"%s\" does not stand in:\n%s", words, page);
    }
}

/* Worked by hand: 500 mL of water stand in a litre's vessel, so the mark is 500 mL away; what follows the mark was not there yet. */
static void what_is_left_to_add_is_one_figure(void **state)
{
    (void)state;
    struct compiled compiled = compile(MARK);
    assert_near(json_number_of(compiled_addition(&compiled, 0, 2), "volume_mL"), 500);
    assert_near(json_number_of(compiled_addition(&compiled, 0, 3), "volume_mL"), 48);
    char *sheet = printed(compiled.potash, potash_sheet, POTASH_TEXT);
    expect_words(sheet, "about 500 mL");
    free(sheet);
    char *show = printed(compiled.potash, potash_show, POTASH_TEXT);
    expect_words(show, "to make 1 L          500\n");
    free(show);
    compiled_free(&compiled);
}

/* Half a per cent is lost in the rounding of print; 0.36 mL for a gram that dissolves, common practice, no source. */
static void additions_after_the_mark_are_reported(void **state)
{
    (void)state;
    expect_one(MARK, "after-the-mark", 6, 0);
#define AFTER(lines) "formula \"x\"\n kind other\n water 500 mL\n sodium chloride 10 g\n water to make 1 L\n" lines
    expect_clean(AFTER(""));
    expect_clean(AFTER(" isopropyl alcohol (99 %) 5 mL\n"));
    expect_one(AFTER(" isopropyl alcohol (99 %) 5.1 mL\n"), "after-the-mark", 6, 0);
    expect_clean(AFTER(" potassium bromide 13.8 g\n"));
    expect_one(AFTER(" potassium bromide 14 g\n"), "after-the-mark", 6, 0);
    expect_one(AFTER(" isopropyl alcohol (99 %) 3 mL\n potassium bromide 6 g\n"), "after-the-mark", 6, 0);
    expect_clean("formula \"x\"\n kind other\n water 500 mL\n isopropyl alcohol (99 %) 48 mL\n sodium chloride 5 g\n water to make 1 L\n");
}

/* A report takes from the shelf for its own batch alone: 45 g of the anhydrous carbonate are 52.65 g of the monohydrate (105.99 and
 * 124.00 g/mol by IUPAC's atomic weights). */
static void no_report_changes_a_checked_form(void **state)
{
    (void)state;
    static const char text[] = "shelf \"S\"\n currency GBP\n holds metol 100 g for 9 GBP purity 98 %\n holds sodium carbonate (monohydrate) 1 kg for 4 GBP\n"
                               "formula \"Bath\"\n kind developer\n water 500 mL\n metol 2 g\n sodium sulfite (anhydrous) 25 g\n"
                               " sodium carbonate (anhydrous) 45 g\n water to make 1 L\n use for film\n dilute 1+1\n";
    static const maker reports[] = {potash_sheet, potash_cost, potash_safety, potash_label};
    struct potash_options options = {.using_shelf = true, .make = "3 L", .date = "2026-03-04"};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    char *before = printed(compiled.potash, potash_show, POTASH_JSON);
    char *sheet = NULL;
    for (size_t i = 0; i < sizeof reports / sizeof *reports; i++) {
        char *once = printed(compiled.potash, reports[i], POTASH_TEXT);
        char *after = printed(compiled.potash, potash_show, POTASH_JSON);
        char *again = printed(compiled.potash, reports[i], POTASH_TEXT);
        assert_string_equal(after, before);
        assert_string_equal(again, once);
        free(after);
        free(again);
        sheet = i == 0 ? once : sheet;
        if (i > 0) {
            free(once);
        }
    }
    expect_words(sheet, "157.95 g");
    free(sheet);
    free(before);
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_left_to_add_is_one_figure),
        cmocka_unit_test(additions_after_the_mark_are_reported),
        cmocka_unit_test(no_report_changes_a_checked_form),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
