/* Numbers: reading decimals to the nearest double, printing without noise. */
#include "support/arena_help.h"

#include "base/number.h"

#include <math.h>

/* The C library's strtod is the outside judge: it is correctly rounded in glibc. */
static void reads_the_nearest_double(void **state)
{
    (void)state;
    static const char *const decimals[] = {"0",
                                           "12",
                                           "0.25",
                                           ".5",
                                           "0.1",
                                           "64.79891",
                                           "453.59237",
                                           "0.061611519921875",
                                           "0.05919388020833333",
                                           "999999999999999",
                                           "9999999999999999",
                                           "123456789012345678901234567890",
                                           "0.30000000000000004",
                                           "3.785411784",
                                           "0.000000000000000000000001",
                                           "1.7976931348623157",
                                           "4.35",
                                           "2.675",
                                           "1.005",
                                           "00012.50"};
    for (size_t i = 0; i < sizeof decimals / sizeof *decimals; i++) {
        double wanted = strtod(decimals[i], NULL);
        double got = number_read(text_from(decimals[i]));
        if (memcmp(&got, &wanted, sizeof got) != 0) {
            fail_msg("%s: %.17g instead of %.17g", decimals[i], got, wanted);
        }
    }
}

static void reads_very_long_digits(void **state)
{
    (void)state;
    char digits[2000];
    memset(digits, '9', sizeof digits);
    double value = number_read((struct text){digits, sizeof digits});
    assert_true(isinf(value));
    memset(digits, '0', sizeof digits);
    digits[1] = '.';
    digits[1999] = '1';
    assert_true(number_read((struct text){digits, sizeof digits}) < 1e-300);
}

static void prints_decimals_without_zeros_at_the_end(void **state)
{
    (void)state;
    assert_string_equal(number_print(&arena, 12.5, 2), "12.5");
    assert_string_equal(number_print(&arena, 12.0, 2), "12");
    assert_string_equal(number_print(&arena, 1200, 0), "1200"); /* zeros before the point stay */
    assert_string_equal(number_print(&arena, 0.1 + 0.2, 2), "0.3");
    assert_string_equal(number_print(&arena, 0.004, 2), "0");
    assert_string_equal(number_print(&arena, -0.004, 2), "0"); /* never "-0" */
    assert_string_equal(number_print(&arena, -1.5, 1), "-1.5");
}

static void prints_significant_figures_without_exponent(void **state)
{
    (void)state;
    assert_string_equal(number_print_significant(&arena, 0.06479891, 3), "0.0648");
    assert_string_equal(number_print_significant(&arena, 28.349523125, 4), "28.35");
    assert_string_equal(number_print_significant(&arena, 123456, 3),
                        "123456"); /* figures before the point are never cut */
    assert_string_equal(number_print_significant(&arena, 0.5, 3), "0.5");
    assert_string_equal(number_print_significant(&arena, 0, 3), "0");
    assert_string_equal(number_print_significant(&arena, INFINITY, 3), "?");
    assert_string_equal(number_print_significant(&arena, NAN, 3), "?");
    assert_string_equal(number_print_significant(&arena, -0.25, 2), "-0.25");
}

static void counts_decimals_of_a_step(void **state)
{
    (void)state;
    assert_int_equal(number_decimals_of_step(1), 0);
    assert_int_equal(number_decimals_of_step(10), 0);
    assert_int_equal(number_decimals_of_step(0.1), 1);
    assert_int_equal(number_decimals_of_step(0.5), 1);
    assert_int_equal(number_decimals_of_step(0.05), 2);
    assert_int_equal(number_decimals_of_step(0.01), 2);
    assert_int_equal(number_decimals_of_step(0.001), 3);
}

static void scanned(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        size_t length;
        double value;
    } cases[] = {{"96 %", 2, 96},  {".88", 3, 0.88}, {"-20.5 7", 5, -20.5}, {"1.2.3", 3, 1.2}, {"5", 1, 5},
                 {"", 0, 0},       {"-", 0, 0},      {".", 0, 0},           {"-.", 0, 0},      {"glacial", 0, 0},
                 {"1e3", 1, 1},    {"0x10", 1, 0},   {"12,5", 2, 12}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double value = 1;
        assert_int_equal(number_scan(text_from(cases[i].text), &value), cases[i].length);
        assert_true(value == cases[i].value);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(scanned),
        cmocka_unit_test(reads_the_nearest_double),           cmocka_unit_test(reads_very_long_digits),
        WITH_ARENA(prints_decimals_without_zeros_at_the_end), WITH_ARENA(prints_significant_figures_without_exponent),
        cmocka_unit_test(counts_decimals_of_a_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
