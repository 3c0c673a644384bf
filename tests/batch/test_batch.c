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

/* Of a list of objects, the one whose `key` says so. */
static const json_t *item_of(const json_t *list, const char *key, const char *value)
{
    size_t i;
    const json_t *item;
    json_array_foreach(list, i, item) {
        if (strcmp(json_string_value(json_object_get(item, key)), value) == 0) {
            return item;
        }
    }
    fail_msg("nothing is called %s", value);
    return NULL;
}

static double acid_percent(const char *safety)
{
    json_t *json = json_loads(safety, 0, NULL);
    const json_t *contents = json_object_get(json_object_get(json_array_get(json_object_get(json, "formulas"), 0), "stock"), "contents");
    double percent = json_number_value(json_object_get(item_of(contents, "material", "acetic acid"), "percent"));
    json_decref(json);
    return percent;
}

/* 48 mL beyond the mark of 1 L are 1048 mL, whatever is worked out of them: 10 g in them are 10/1.048 g in a litre, and nothing differs from
 * the same liquids made up to 1048 mL but what stands last.  A tenth of it taken into another bath is a tenth of the 10 g. */
static void what_follows_the_mark_counts(void **state)
{
    (void)state;
    static const char same[] = "formula \"Stop\"\n kind stop bath\n water 500 mL\n sodium acetate (anhydrous) 10 g\n acetic acid (28 %) 48 mL\n"
                               " water to make 1048 mL\n use for film\n dilute 1+1\n";
    struct compiled after = compile(MARK " use for film\n dilute 1+1\n");
    struct compiled before = compile(same);
    assert_near(json_number_of(compiled_addition(&after, 0, 1), "g_per_L"), 10 / 1.048);
    assert_near(json_number_of(compiled_addition(&before, 0, 1), "g_per_L"), 10 / 1.048);
    const json_t *part = json_array_get(json_object_get(compiled_formula(&after, 0), "parts"), 0);
    const json_t *other = json_array_get(json_object_get(compiled_formula(&before, 0), "parts"), 0);
    assert_near(json_number_of(json_object_get(part, "estimate"), "ionic_strength"),
                json_number_of(json_object_get(other, "estimate"), "ionic_strength"));
    assert_near(json_number_of(json_array_get(json_object_get(compiled_use(&after, 0), "contents"), 0), "g_per_L"), 5 / 1.048);
    char *one = printed(after.potash, potash_safety, POTASH_JSON);
    char *two = printed(before.potash, potash_safety, POTASH_JSON);
    assert_near(acid_percent(one), acid_percent(two));
    free(one);
    free(two);
    compiled_free(&after);
    compiled_free(&before);
    struct compiled drawn = compile(MARK "formula \"Taken\"\n kind other\n water 500 mL\n solution \"Stop\" 104.8 mL\n water to make 1 L\n use for film\n dilute 1+0\n");
    const json_t *use = json_array_get(json_object_get(compiled_formula(&drawn, 1), "uses"), 0);
    assert_near(json_number_of(item_of(json_object_get(use, "contents"), "material", "sodium acetate"), "g_per_L"), 1);
    compiled_free(&drawn);
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
        cmocka_unit_test(what_follows_the_mark_counts),
        cmocka_unit_test(no_report_changes_a_checked_form),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
