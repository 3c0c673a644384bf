/* Pages as books print them: what can be read in one way is read, and what cannot is refused with the repair that restores it. */
#include "support/compiling.h"
#include "support/repairing.h"

#include <stdio.h>
#include <string.h>

#define HEAD "formula \"x\"\nkind other\n"
#define END  "sodium chloride 10 g\nwater to make 1 L\n"

/* What heads a part is told, opens it all the same, and its repair leaves a formula without a mistake. */
static void what_heads_a_part(void **state)
{
    (void)state;
    static const char *const headings[][2] = {
        {"A\n", "B.\n"},           {"No. 1.\n", "No. 2\n"},   {"I.\n", "II.\n"},
        {"Solution A\n", "Solution B:\n"}, {"Solution No. 1.\n", "Stock solution No. II\n"},
        {"(a) ", "(b) "},          {"A.—", "B.—"},            {"A. ", "B. "},
        {"(1)\n", "(2)\n"},        {"I.—", "II.—"},           {"No. 1.—", "No. 2 – "}};
    for (size_t i = 0; i < sizeof headings / sizeof *headings; i++) {
        char text[600];
        snprintf(text, sizeof text, HEAD "%sSodium chloride ... 10 grams\nWater to make ... 1 litre\n"
                                         "%sPotassium bromide ... 10 grams\nWater to make ... 1 litre\n",
                 headings[i][0], headings[i][1]);
        int second = strchr(headings[i][0], '\n') != NULL ? 6 : 5;
        struct compiled compiled = compile(text);
        if (compiled_count(&compiled, NULL) != 2) {
            fail_msg("%zu diagnostics of:\n%s", compiled_count(&compiled, NULL), text);
        }
        compiled_free(&compiled);
        repair(text, sizeof text, "syntax", second);
        repair(text, sizeof text, "syntax", 3);
        expect_clean(text);
        compiled = compile(text);
        assert_int_equal(json_array_size(json_object_get(compiled_formula(&compiled, 0), "parts")), 2);
        compiled_free(&compiled);
    }
    /* A name may begin with a letter and a point. */
    expect_clean(HEAD "C.P. sodium chloride 10 g\nwater to make 1 L\n");
    expect_clean(HEAD "part A\nsodium chloride 10 g\nwater to make 1 L\npart B\nStock solution A 10 mL\nwater to make 1 L\n");
}

static void the_same_as_above(void **state)
{
    (void)state;
    static const char *const signs[] = {"\"", ",,", "„", "”", "do.", "ditto", "″", "''"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        char text[400];
        snprintf(text, sizeof text, HEAD "Potassium bromide ..... 20 parts\nSodium chloride ....... 10   %s\nWater ... to make 500 parts\n",
                 signs[i]);
        expect_one(text, "syntax", 4, 30);
        repair(text, sizeof text, "syntax", 4);
        assert_non_null(strstr(text, "10   parts\n"));
        expect_clean(text);
    }
    /* Of two columns the sign in the first stands for the first. */
    char text[400] = HEAD "measures imperial\nPotassium bromide 1 oz. (28 grams)\nSodium chloride 2 \"\nWater to make 20 oz.\n";
    repair(text, sizeof text, "syntax", 5);
    assert_non_null(strstr(text, "chloride 2 oz."));
    expect_clean(text);
}

/* The ounce is 28.35 g (NIST Handbook 44, Appendix C). */
static void one_amount_in_two_units(void **state)
{
    (void)state;
    static const char *const same[] = {"1 oz. (28.4 g)", "1 oz. or 28 grams", "1 oz. 28 gm.", "1 ounce avoirdupois (28 grm.)", "437 1/2 grs. (28.3 g)"};
    for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
        char line[100];
        snprintf(line, sizeof line, "sodium chloride %s", same[i]);
        assert_within(mass_of("US", line), 28.349523125, 1e-9);
    }
    assert_within(mass_of("US", "sodium chloride 28 g (1 oz.)"), 28, 1e-9);
    assert_within(volume_of("imperial", "water 20 oz. (568 c.c.)"), 568.26125, 1e-9); /* Weights and Measures Act 1985: 4.54609 L / 8 */
    char text[400] = HEAD "measures imperial\nsodium chloride 100 grs.   11·5 g.\nwater 20 ozs. or 1000 c.cs.\n";
    expect_list(text, "unit-ambiguous:4 unit-ambiguous:5");
    struct compiled compiled = compile(text);
    const json_t *fixes = json_object_get(compiled_find(&compiled, "unit-ambiguous", 5), "fixes");
    assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), "20 ozs.");
    assert_string_equal(json_text_of(json_array_get(fixes, 1), "text"), "1000 c.cs.");
    compiled_free(&compiled);
    repair(text, sizeof text, "unit-ambiguous", 4);
    repair(text, sizeof text, "unit-ambiguous", 5);
    expect_list(text, "final-volume-assumed:5");
    expect_list(HEAD "sodium chloride 10 g (20 mL)\nwater to make 1 L\n", "unit-mismatch:3");
    /* Units of one system are added up. */
    assert_within(mass_of("US", "sodium chloride 3 oz 70 grains"), 89.584493075, 1e-9);
}

static void the_warmth_of_the_water(void **state)
{
    (void)state;
    static const char *const lines[] = {"Water (125° F.) 500 cc", "Water (125° F. or 52° C.) 500 cc", "Water (about 125° F. or 52° C.) 500 cc",
                                        "Water (not above 125° F.) 500 cc", "Water (125° to 130° F.) 500 cc", "Water at 125° F. 500 cc",
                                        "Water at 125° F. (52° C.) 500 cc", "Water, 125° F. (52° C.) .... 500 cc", "Water 500 cc at 125 °F (52 °C)",
                                        "Water 500 cc (125 °F)"};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        char text[300];
        snprintf(text, sizeof text, HEAD "%s\n" END, lines[i]);
        expect_clean(text);
        struct compiled compiled = compile(text);
        struct potash_output output;
        assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
        if (strstr(output.bytes, "water at 51.5 °C") == NULL) { /* (125 - 32) / 1.8 is 51.67; a thermometer shows half degrees */
            fail_msg("%s: %s", lines[i], output.bytes);
        }
        compiled_free(&compiled);
    }
}

static void forms_behind_the_amount(void **state)
{
    (void)state;
    struct compiled compiled = compile(HEAD "sodium carbonate 45 g (crystals)\nsodium sulfite 5 g (dry) note \"x\"\nwater to make 1 L\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 0), "form"), "decahydrate");
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 1), "form"), "anhydrous");
    compiled_free(&compiled);
    assert_within(mass_of("metric", "Acetic acid 10 c.c. (28 %)"), mass_of("metric", "acetic acid (28 %) 10 mL"), 1e-12);
    expect_clean(HEAD END "potassium bromide 10 g (optional)\n");
    assert_within(volume_of("metric", "Liquor ammonia, sp. gr. .880 ... 10 c. c."), 10, 1e-9);
}

static void as_much_as_needed(void **state)
{
    (void)state;
    expect_clean(HEAD "Common salt .... 10 g\nCitric acid (monohydrate) q.s.\nWater q. s. to make ..... 1 L\n");
    expect_clean(HEAD "Common salt .... 10 g\nCitric acid (monohydrate) .... a few drops\nWater sufficient to make 1 L\n");
    expect_clean(HEAD "Common salt .... 10 g\nCitric acid (monohydrate), sufficient\nWater up to 1 L\n");
    expect_clean(HEAD "Common salt .... 10 g\nWater, make up to ..... 1 L\n");
}

static void figures_as_print_has_them(void **state)
{
    (void)state;
    assert_within(mass_of("metric", "sodium chloride 11·5 g"), 11.5, 1e-12);
    assert_within(mass_of("metric", "sodium chloride 1 and 1/2 g"), 1.5, 1e-12);
    assert_within(mass_of("metric", "sodium chloride 2 and ½ g"), 2.5, 1e-12);
    assert_within(mass_of("metric", "sodium chloride 3-1/4 g"), 3.25, 1e-12);
    char first[300] = HEAD "measures US\nsodium chloride gr. 80\nwater to make 1 pint\n";
    expect_one(first, "syntax", 4, 17);
    repair(first, sizeof first, "syntax", 4);
    assert_non_null(strstr(first, "sodium chloride 80 grain\n"));
    char minims[300] = HEAD "measures US\nlactic acid (90 %) 50 min.\nsodium chloride 1 oz\nwater to make 1 pint\n";
    repair(minims, sizeof minims, "unit-mismatch", 4);
    assert_non_null(strstr(minims, "50 minims\n"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_heads_a_part),
        cmocka_unit_test(the_same_as_above),
        cmocka_unit_test(one_amount_in_two_units),
        cmocka_unit_test(the_warmth_of_the_water),
        cmocka_unit_test(forms_behind_the_amount),
        cmocka_unit_test(as_much_as_needed),
        cmocka_unit_test(figures_as_print_has_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
