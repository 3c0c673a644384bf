/* Formulas in parts that `makes` settles, and remarks of variants. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static double figure(struct compiled *compiled, size_t index, const char *key)
{
    return json_number_of(compiled_addition(compiled, 0, index), key);
}

/* 3 and 2 parts of 500 g are 300 g and 200 g. */
static void a_dry_mix_in_parts(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"Saltmarsh dry alkali\"\nkind other\nmakes 500 g\n"
                                       "sodium carbonate (anhydrous) 3 parts\nsodium bicarbonate 2 parts\n");
    assert_near(figure(&compiled, 0, "mass_g"), 300);
    assert_near(figure(&compiled, 1, "mass_g"), 200);
    compiled_free(&compiled);
}

/* 10 parts in 100 are 100 g in a litre, whether the water is made up to the 100 or is the 100. */
static void a_bath_in_parts(void **state)
{
    (void)state;
    static const char *const waters[] = {"water to make 100 parts", "water 100 parts"};
    for (size_t i = 0; i < 2; i++) {
        char text[300];
        snprintf(text, sizeof text, "formula \"Saltmarsh bleach\"\nkind other\nmakes 2 L\npotassium dichromate 10 parts\n%s\n",
                 waters[i]);
        struct compiled compiled = compile(text);
        assert_int_equal(potash_errors(compiled.potash), 0);
        assert_near(figure(&compiled, 0, "mass_g"), 200);
        assert_near(figure(&compiled, 0, "g_per_L"), 100);
        compiled_free(&compiled);
    }
}

/* Without `makes` a part is 1 g or 1 mL. */
static void parts_by_themselves(void **state)
{
    (void)state;
    struct compiled compiled =
        compile("formula \"Saltmarsh bleach\"\nkind other\npotassium dichromate 10 parts\nwater to make 200 parts\n");
    assert_near(figure(&compiled, 0, "mass_g"), 10);
    assert_near(figure(&compiled, 1, "volume_mL"), 200);
    compiled_free(&compiled);
}

static const char parent[] = "formula \"Saltmarsh stop\"\nkind stop bath\ncitric acid (monohydrate) 15 g\nwater to make 1 L\n"
                             "use for paper\n time 30 s\n note \"of the use\"\n"
                             "variant \"Saltmarsh stop, weak\"\nof \"Saltmarsh stop\"\n";

/* What a variant remarks stands with the whole formula, not with the parent's last use. */
static void remarks_of_a_variant(void **state)
{
    (void)state;
    char text[600];
    snprintf(text, sizeof text, "%schange citric acid to 10 g\nnote \"for the winter\"\nkeeps 2 months in full bottle\n", parent);
    struct potash_options options = {.title = "Saltmarsh stop, weak"};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    struct potash_output output;
    assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    char *sheet = strndup(output.bytes, output.length);
    const char *remark = strstr(sheet, "for the winter");
    const char *use = strstr(sheet, "Use for paper");
    assert_non_null(remark);
    assert_non_null(use);
    assert_true(remark < use);
    assert_true(strstr(sheet, "of the use") > use);
    assert_non_null(strstr(sheet, "2 months in full bottle"));
    free(sheet);
    compiled_free(&compiled);
}

/* One mistake, one diagnostic: of the lines of an unknown parent none is missed. */
static void an_unknown_parent(void **state)
{
    (void)state;
    expect_list("variant \"Saltmarsh stop, weak\"\nof \"Nowhere\"\nleave out citric acid\n", "formula-unknown:2");
}

#define TWO_BOTTLES                                                                                                    \
    "formula \"Brine\"\nkind other\npart A\nwater 400 mL\nsodium chloride 50 g\npotassium bromide 10 g\n"             \
    "water to make 500 mL\npart \"Second\"\npotassium bromide 20 g\nborax (decahydrate) 5 g\nwater to make 500 mL\n"  \
    "use for film\nmix A 1 + \"Second\" 1\nvariant \"Other brine\"\nof \"Brine\"\n" /* 15 lines */

static const json_t *of_variant(struct compiled *compiled, size_t part, size_t index)
{
    const json_t *parts = json_object_get(compiled_formula(compiled, 1), "parts");
    return json_array_get(json_object_get(json_array_get(parts, part), "additions"), index);
}

/* A change names the part that it is in. */
static void changes_within_a_part(void **state)
{
    (void)state;
    struct compiled compiled = compile(TWO_BOTTLES "change water in part A to make 1 L\n"
                                                   "change potassium bromide in part \"Second\" to 30 g\n"
                                                   "leave out potassium bromide in part a\n"
                                                   "add glycin 2 g in part Second, after potassium bromide\n"
                                                   "add sodium sulfite (anhydrous) 25 g in part A note \"first\"\n"
                                                   "change water in part second to 2 L\n");
    assert_int_equal(potash_errors(compiled.potash), 0);
    const json_t *parts = json_object_get(compiled_formula(&compiled, 1), "parts");
    assert_near(json_number_of(json_array_get(parts, 0), "makes_mL"), 1000);
    assert_near(json_number_of(json_array_get(parts, 1), "makes_mL"), 2000);
    assert_string_equal(json_text_of(of_variant(&compiled, 0, 1), "material"), "sodium chloride");
    assert_string_equal(json_text_of(of_variant(&compiled, 0, 2), "material"), "sodium sulfite");
    assert_string_equal(json_text_of(of_variant(&compiled, 0, 3), "material"), "water");
    assert_near(json_number_of(of_variant(&compiled, 1, 0), "mass_g"), 30);
    assert_string_equal(json_text_of(of_variant(&compiled, 1, 1), "material"), "glycin");
    compiled_free(&compiled);
}

/* What could be meant of either bottle is asked about, and one repair names each. */
static void changes_of_which_part(void **state)
{
    (void)state;
    static const char *const lines[] = {"change water to 2 L\n", "leave out potassium bromide\n", "add glycin 2 g\n",
                                        "add glycin 2 g note \"x\"\n", "swap potassium bromide for sodium bromide\n",
                                        "add glycin 2 g, after potassium bromide\n", "change potassium bromide to 2 g\n"};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        char text[1000];
        snprintf(text, sizeof text, TWO_BOTTLES "%s", lines[i]);
        expect_one(text, "part-unknown", 16, 0);
        struct compiled compiled = compile(text);
        const json_t *fixes = json_object_get(compiled_find(&compiled, "part-unknown", 16), "fixes");
        assert_int_equal(json_array_size(fixes), 2);
        const json_t *fix = json_array_get(fixes, 0);
        assert_string_equal(json_text_of(fix, "text"), " in part A");
        size_t at = (size_t)json_number_of(fix, "column") - 1;
        compiled_free(&compiled);
        snprintf(text, sizeof text, TWO_BOTTLES "%.*s in part A%s", (int)at, lines[i], lines[i] + at);
        compiled = compile(text);
        assert_int_equal(potash_errors(compiled.potash), 0);
        compiled_free(&compiled);
    }
    expect_one(TWO_BOTTLES "leave out borax in part A\n", "material-unknown", 16, 11);
    expect_one(TWO_BOTTLES "leave out borax in part C\n", "part-unknown", 16, 25);
    expect_one(TWO_BOTTLES "leave out borax in Second\n", "syntax", 16, 20);
    expect_one(TWO_BOTTLES "leave out borax in part\n", "syntax", 16, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dry_mix_in_parts),   cmocka_unit_test(a_bath_in_parts), cmocka_unit_test(parts_by_themselves),
        cmocka_unit_test(remarks_of_a_variant), cmocka_unit_test(an_unknown_parent),
        cmocka_unit_test(changes_within_a_part),
        cmocka_unit_test(changes_of_which_part),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
