/* Numbers as books print them, read through the notation. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static void assert_grams(const char *number, double grams)
{
    char line[200];
    snprintf(line, sizeof line, "sodium chloride %s g", number);
    double got = mass_of("metric", line);
    /* JSON gives twelve significant figures. */
    if (!(got >= grams * (1 - 1e-11) && got <= grams * (1 + 1e-11))) {
        fail_msg("%s: %.17g instead of %.17g", number, got, grams);
    }
}

static void figures_and_fractions(void **state)
{
    (void)state;
    assert_grams("12", 12);
    assert_grams("0.25", 0.25);
    assert_grams(".5", 0.5);
    assert_grams("007", 7);
    assert_grams("1/4", 0.25);
    assert_grams("1 1/2", 1.5);
    assert_grams("1-1/2", 1.5);
    assert_grams("2 3/4", 2.75);
    assert_grams("10 1/8", 10.125);
    assert_grams("\u00BD", 0.5);
    assert_grams("1\u00BD", 1.5);
    assert_grams("1 \u00BD", 1.5);
    assert_grams("\u00BC", 0.25);
    assert_grams("3\u00BE", 3.75);
    assert_grams("2\u2153", 2 + 1 / 3.0);
    assert_grams("\u2154", 2 / 3.0);
    assert_grams("\u215B", 0.125);
    assert_grams("\u215E", 0.875);
    assert_grams("\u2150", 1 / 7.0);
    assert_grams("\u2152", 0.1);
    assert_grams("\u2159", 1 / 6.0);
}

static void the_unit_may_touch_the_number(void **state)
{
    (void)state;
    assert_near(mass_of("metric", "sodium chloride 12g"), 12);
    assert_near(mass_of("metric", "sodium chloride 1\u00BDg"), 1.5);
    assert_near(mass_of("metric", "sodium chloride 1/2kg"), 500);
}

/* A comma is a decimal sign or parts thousands: both readings are offered, and what each offers compiles. */
static void a_comma_offers_both_readings(void **state)
{
    (void)state;
    static const struct {
        const char *number;
        const char *readings[2];
    } cases[] = {
        {"0,25", {"0.25", "25"}},        {"1,5", {"1.5", "15"}},    {"1,000", {"1.000", "1000"}},
        {"12,500", {"12.500", "12500"}}, {"1,50", {"1.50", "150"}},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        snprintf(text, sizeof text,
                 "formula \"Saltmarsh bath\"\nkind other\nsodium chloride %s g\nwater to make 100 L\n",
                 cases[i].number);
        expect_one(text, "decimal-comma", 3, 17);
        struct compiled compiled = compile(text);
        const json_t *item = compiled_find(&compiled, "decimal-comma", 3);
        const json_t *fixes = json_object_get(item, "fixes");
        assert_int_equal(json_array_size(fixes), 2);
        for (size_t r = 0; r < 2; r++) {
            const json_t *fix = json_array_get(fixes, r);
            assert_string_equal(json_text_of(fix, "text"), cases[i].readings[r]);
            assert_int_equal(json_number_of(fix, "line"), 3);
            assert_int_equal(json_number_of(fix, "column"), 17);
            assert_int_equal(json_number_of(fix, "end_column"), 17 + strlen(cases[i].number));
            assert_non_null(strstr(json_text_of(item, "help"), cases[i].readings[r]));
        }
        compiled_free(&compiled);
    }
}

/* With a point as well, the comma can only part thousands. */
static void a_comma_and_a_point_have_one_reading(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"x\"\nkind other\nsodium chloride 1,000.5 g\nwater to make 100 L\n");
    const json_t *fixes = json_object_get(compiled_find(&compiled, "decimal-comma", 3), "fixes");
    assert_int_equal(json_array_size(fixes), 1);
    assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), "1000.5");
    compiled_free(&compiled);
}

static void commas_elsewhere_are_remarked_too(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\nsodium chloride 1 g\nwater to make 1,5 L\n", "decimal-comma", 4, 15);
    expect_one("formula \"x\"\nkind other\nsodium chloride 1 g\nwater to make 1 L\nuse for film\ntime 1,5 min\n",
               "decimal-comma", 6, 6);
}

static void numbers_without_meaning(void **state)
{
    (void)state;
    static const char *const numbers[] = {"0", "0.0", "-5", "\u22125", "1/0", "0/5", "1e30", "999999999"};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        char text[300];
        snprintf(text, sizeof text, "formula \"x\"\nkind other\nsodium chloride %s g\nwater to make 1 L\n", numbers[i]);
        struct compiled compiled = compile(text);
        if (compiled.status != POTASH_FAULTY || compiled_count(&compiled, NULL) != 1) {
            fail_msg("%s: %zu diagnostics", numbers[i], compiled_count(&compiled, NULL));
        }
        if (strchr(numbers[i], 'e') == NULL) {
            assert_non_null(compiled_find(&compiled, "amount-out-of-range", 3));
        }
        compiled_free(&compiled);
    }
}

static void ranges(void **state)
{
    (void)state;
    static const char *const ranges[] = {"50 to 65 g", "50 g to 65 g", "50-65 g", "50\u201365 g", "50 - 65 g"};
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++) {
        char text[300];
        snprintf(text, sizeof text, "formula \"x\"\nkind other\nsodium chloride %s\nwater to make 1 L\n", ranges[i]);
        expect_one(text, "range-given", 3, 17);
        struct compiled compiled = compile(text);
        const json_t *addition = compiled_addition(&compiled, 0, 0);
        assert_near(json_number_of(addition, "mass_g"), 50); /* the first figure */
        assert_string_equal(json_text_of(addition, "as_written"), ranges[i]);
        compiled_free(&compiled);
    }
    expect_one("formula \"x\"\nkind other\nsodium chloride 65 to 50 g\nwater to make 1 L\n", "amount-out-of-range", 3,
               0);
}

static void sums_of_units(void **state)
{
    (void)state;
    /* Grain and avoirdupois pound: NIST Handbook 44, Appendix C. */
    assert_near(mass_of("US", "sodium chloride 3 oz 70 grains"), 3 * 28.349523125 + 70 * 0.06479891);
    assert_near(mass_of("US", "sodium chloride 5 lb 4 oz"), 5 * 453.59237 + 4 * 28.349523125);
    struct compiled compiled = compile(
        "formula \"x\"\nkind other\nsodium chloride 1 g\nwater to make 1 L\nuse for film\ntime 1 min 30 s to 2 min\n");
    const json_t *time = json_object_get(compiled_use(&compiled, 0), "time_s");
    assert_near(json_number_value(json_array_get(time, 0)), 90);
    assert_near(json_number_value(json_array_get(time, 1)), 120);
    compiled_free(&compiled);
    expect_one("formula \"x\"\nkind other\nsodium chloride 3 oz 5 mL\nwater to make 1 L\n", "unit-mismatch", 3, 17);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_and_fractions),
        cmocka_unit_test(the_unit_may_touch_the_number),
        cmocka_unit_test(a_comma_offers_both_readings),
        cmocka_unit_test(a_comma_and_a_point_have_one_reading),
        cmocka_unit_test(commas_elsewhere_are_remarked_too),
        cmocka_unit_test(numbers_without_meaning),
        cmocka_unit_test(ranges),
        cmocka_unit_test(sums_of_units),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
