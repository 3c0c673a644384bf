/* The final volume: stated, assumed, contradicted, run over; dry mixes; batches of another size. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#define HEAD "formula \"x\"\nkind other\n"

static double makes(const char *text)
{
    struct compiled compiled = compile(text);
    assert_int_equal(compiled.status, POTASH_GOOD);
    double volume = json_number_of(compiled_formula(&compiled, 0), "makes_mL");
    compiled_free(&compiled);
    return volume;
}

static void stated(void **state)
{
    (void)state;
    assert_near(makes(HEAD "sodium chloride 5 g\nwater to make 1 L\n"), 1000);
    assert_near(makes(HEAD "sodium chloride 5 g\nwater to make 500 ml\n"), 500);
    assert_near(makes(HEAD "measures US\nsodium chloride 5 g\nwater to make 32 oz\n"), 946.352946);
    assert_near(makes(HEAD "measures imperial\nsodium chloride 5 g\nwater to make 20 oz\n"), 568.26125);
    assert_near(makes(HEAD "makes 2 L\nsodium chloride 5 g\nwater 1.9 L\n"), 2000);
}

static void assumed(void **state)
{
    (void)state;
    const char *text = HEAD "water 900 mL\nsodium chloride 5 g\nisopropyl alcohol (99 %) 50 mL\n";
    expect_one(text, "final-volume-assumed", 3, 7);
    assert_near(makes(text), 950);
}

static void missing(void **state)
{
    (void)state;
    expect_one(HEAD "sodium chloride 5 g\n", "water-missing", 1, 0);
    expect_one("formula \"x\"\n", "water-missing", 1, 0);
    expect_one(HEAD "part A\nsodium chloride 5 g\nwater to make 1 L\npart B\npotassium bromide 5 g\n", "water-missing",
               6, 0);
    /* A line that could not be read may have been the water: one mistake gives one diagnostic. */
    expect_one(HEAD "sodium chloride 5 g\nwater to make 1 furlong\n", "unit-unknown", 4, 0);
    expect_one(HEAD "sodium chloride 5 g\nwatr to make 1 L\n", "material-unknown", 4, 1);
    expect_one(HEAD "water 500 mL\nsodium chloride 5 g\nwater to make 1 pint\n", "unit-ambiguous", 5, 0);
    expect_one(HEAD "water 500 mL\nsodium chloride 5 g\nwater to make 1 furlong\n", "unit-unknown", 5, 0);
    expect_one(HEAD "water 500 mL\nsodium chloride 5 g\nwater to 1 1 L\n", "syntax", 5, 0);
}

static void a_dry_mix_needs_none(void **state)
{
    (void)state;
    const char *text = HEAD "makes 500 g\nsodium chloride 200 g\nsodium bicarbonate 300 g\n";
    expect_clean(text);
    struct compiled compiled = compile(text);
    const json_t *part = json_array_get(json_object_get(compiled_formula(&compiled, 0), "parts"), 0);
    assert_near(json_number_of(part, "makes_g"), 500);
    assert_true(json_is_null(json_object_get(part, "makes_mL")));
    assert_true(json_is_null(json_object_get(compiled_addition(&compiled, 0, 0), "g_per_L")));
    compiled_free(&compiled);
}

static void run_over(void **state)
{
    (void)state;
    expect_one(HEAD "water 980 mL\nacetic acid (28 %) 48 mL\nwater to make 1 L\n", "over-volume", 5, 0);
    expect_one(HEAD "water 2 L\nsodium chloride 5 g\nwater to make 1 L\n", "over-volume", 5, 0);
    expect_one(HEAD "makes 1 L\nwater 2 L\nsodium chloride 5 g\n", "over-volume", 4, 0);
    expect_clean(HEAD "water 952 mL\nacetic acid (28 %) 48 mL\nwater to make 1 L\n"); /* just full */
    /* What alone has no room beside the rest is the line to mend; its tenth is offered, and its unit. */
    expect_one(HEAD "water 600 mL\npotassium bromide 700 mL of 10 % stock\nwater to make 1 L\n", "over-volume", 4, 0);
    expect_one(HEAD "water 600 mL\npotassium bromide 70 L of 10 % stock\nwater to make 1 L\n", "over-volume", 4, 0);
    /* Without water to begin with, it may as well be the final volume. */
    expect_one(HEAD "potassium bromide 500 mL of 10 % stock\ncopper sulfate (crystals) 600 mL of 10 % stock\nwater to make 1 L\n",
               "over-volume", 5, 0);
    /* Stocks are liquids too. */
    expect_one(HEAD "water 900 mL\npotassium bromide 20 g from 10 % stock\nwater to make 1 L\n", "over-volume", 5, 0);
}

static void contradicted(void **state)
{
    (void)state;
    expect_one(HEAD "makes 1 L\nsodium chloride 5 g\nwater to make 2 L\n", "makes-disagrees", 5, 0);
    expect_clean(HEAD "makes 1000 mL\nsodium chloride 5 g\nwater to make 1 L\n");
    expect_clean(HEAD "makes 32 oz\nmeasures US\nsodium chloride 5 drams\nwater to make 1 quart\n");
}

/* ---- batches ---- */

static struct compiled compile_batch(const char *make, const char *text)
{
    const struct potash_options options = {.make = make};
    return compile_with(&options, text, strlen(text));
}

static void another_batch_size(void **state)
{
    (void)state;
    const char *text =
        HEAD "water 750 mL\nsodium chloride 30 g\nacetic acid (28 %) 48 mL\npotassium bromide 1 g from 10 % stock\n"
             "water to make 1 L\n";
    static const struct {
        const char *make;
        double factor;
    } cases[] = {{"2 L", 2},
                 {"2L", 2},
                 {"500 mL", 0.5},
                 {"250ml", 0.25},
                 {"1/2 L", 0.5},
                 {"1 1/2 L", 1.5},
                 {"20 imperial fl oz", 0.56826125},
                 {"1 US gallon", 3.785411784},
                 {"\u00BD L", 0.5}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct compiled compiled = compile_batch(cases[i].make, text);
        if (compiled.status != POTASH_GOOD) {
            fail_msg("--make %s: %s", cases[i].make, potash_message(compiled.potash));
        }
        double factor = cases[i].factor;
        assert_near(json_number_of(compiled_formula(&compiled, 0), "makes_mL"), 1000 * factor);
        assert_near(json_number_of(compiled_addition(&compiled, 0, 0), "volume_mL"), 750 * factor);
        assert_near(json_number_of(compiled_addition(&compiled, 0, 1), "mass_g"), 30 * factor);
        assert_near(json_number_of(compiled_addition(&compiled, 0, 1), "g_per_L"), 30); /* strength stays */
        assert_near(json_number_of(compiled_addition(&compiled, 0, 2), "volume_mL"), 48 * factor);
        assert_near(json_number_of(compiled_addition(&compiled, 0, 3), "volume_mL"), 10 * factor);
        assert_near(json_number_of(compiled_addition(&compiled, 0, 4), "volume_mL"), 192 * factor);
        assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 1), "as_written"), "30 g");
        compiled_free(&compiled);
    }
}

static void a_batch_of_a_dry_mix(void **state)
{
    (void)state;
    struct compiled compiled =
        compile_batch("1 kg", HEAD "makes 500 g\nsodium chloride 200 g\nsodium bicarbonate 300 g\n");
    assert_int_equal(compiled.status, POTASH_GOOD);
    assert_near(json_number_of(compiled_addition(&compiled, 0, 0), "mass_g"), 400);
    compiled_free(&compiled);
}

static void sizes_that_are_none(void **state)
{
    (void)state;
    static const char *const sizes[] = {"",
                                        "nonsense",
                                        "2",
                                        "L",
                                        "0 L",
                                        "-1 L",
                                        "1,5 L",
                                        "1 to 2 L",
                                        "2 furlongs",
                                        "20 °C",
                                        "5 min",
                                        "2 L x",
                                        "2 L\nkind fixer",
                                        "1:2",
                                        "2 pints",
                                        "\"2 L\"",
                                        "2 L # x"};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        struct compiled compiled = compile_batch(sizes[i], HEAD "sodium chloride 5 g\nwater to make 1 L\n");
        /* A comment behind the size does no harm; everything else is refused with its own words. */
        bool harmless = strcmp(sizes[i], "2 L # x") == 0;
        if (!harmless &&
            (compiled.status != POTASH_UNUSABLE || strstr(potash_message(compiled.potash), "--make") == NULL)) {
            fail_msg("--make \"%s\": status %d, \"%s\"", sizes[i], (int)compiled.status,
                     potash_message(compiled.potash));
        }
        compiled_free(&compiled);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stated),
        cmocka_unit_test(assumed),
        cmocka_unit_test(missing),
        cmocka_unit_test(a_dry_mix_needs_none),
        cmocka_unit_test(run_over),
        cmocka_unit_test(contradicted),
        cmocka_unit_test(another_batch_size),
        cmocka_unit_test(a_batch_of_a_dry_mix),
        cmocka_unit_test(sizes_that_are_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
