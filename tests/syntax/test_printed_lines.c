/* Lines as books print them, without the brackets and the order that the notation itself uses. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

/* The two lines come to the same form, mass and volume. */
static void assert_alike(const char *printed, const char *plain)
{
    double printed_mass = mass_of("metric", printed);
    double printed_volume = volume_of("metric", printed);
    double plain_mass = mass_of("metric", plain);
    double plain_volume = volume_of("metric", plain);
    assert_true(plain_mass > 0);
    assert_near(printed_mass, plain_mass);
    assert_int_equal(printed_volume != printed_volume, plain_volume != plain_volume); /* both are NAN, or neither */
    if (plain_volume == plain_volume) {
        assert_near(printed_volume, plain_volume);
    }
}

static void a_strength_without_brackets(void **state)
{
    (void)state;
    assert_alike("Acetic acid 28% ..... 48 mL", "acetic acid (28 %) 48 mL");
    assert_alike("Acetic acid, 28 % 48 mL", "acetic acid (28 %) 48 mL");
    assert_alike("Acetic acid, 28 %, 48 mL", "acetic acid (28 %) 48 mL");
    assert_alike("Ammonia .880 ..... 10 mL", "ammonia (0.880) 10 mL");
    assert_alike("Ammonia, .880 10 mL", "ammonia (0.880) 10 mL");
}

static void so_much_of_a_solution(void **state)
{
    (void)state;
    assert_alike("Potassium bromide, 10% solution ..... 30 mL", "potassium bromide 30 mL of 10 % stock");
    assert_alike("Potassium bromide 10 % solution 30 mL", "potassium bromide 30 mL of 10 % stock");
    assert_alike("Potassium iodide saturated solution 5 mL", "potassium iodide 5 mL of saturated stock");
    /* Grams in 100 mL, by the contract. */
    assert_near(mass_of("metric", "potassium bromide, 10% solution 30 mL"), 3);
}

static void expect_line(const char *line, const char *wanted)
{
    char *text = formula_with(line);
    expect_list(text, wanted);
    free(text);
}

static void slips_are_no_forms(void **state)
{
    (void)state;
    expect_line("ammonium chloride 1 000 g", "syntax:3");      /* thousands with a gap */
    expect_line("acetic acid (glacial) 28 % 5 mL", "syntax:3"); /* two forms */
}

static void optional_behind_a_comma(void **state)
{
    (void)state;
    expect_line("potassium bromide 2 g, optional", "");
}

static void kept_in_what_a_comma_divides(void **state)
{
    (void)state;
    expect_line("keeps 1 year in \"a full, dark bottle\"", "");
}

/* The signs that print and keyboards have for a degree: U+00BA, U+02DA, U+2103. */
static void degrees_by_other_signs(void **state)
{
    (void)state;
    static const char *const signs[] = {"º C", "ºC", "˚C", "℃", "°C"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        char text[200];
        snprintf(text, sizeof text, "formula \"Brine\"\nkind other\nwater 500 mL at 45 %s\nsodium chloride 10 g\nwater to make 1 L\n",
                 signs[i]);
        expect_clean(text);
    }
}

/* The strength may stand before the name: "10% solution of potassium bromide". */
static void the_solution_first(void **state)
{
    (void)state;
    assert_alike("10% solution potassium bromide ..... 30 mL", "potassium bromide 30 mL of 10 % stock");
    assert_alike("10 % solution of potassium bromide 30 mL", "potassium bromide 30 mL of 10 % stock");
    assert_alike("10 per cent. solution of potassium bromide, 30 mL", "potassium bromide 30 mL of 10 % stock");
    assert_alike("5 % w/v stock solution of copper sulphate (crystals) 20 cc", "copper sulfate (pentahydrate) 20 mL of 5 % stock");
    assert_alike("10 % soln. of sodium sulphite, anhydrous, 30 mL", "sodium sulfite (anhydrous) 30 mL of 10 % stock");
    assert_alike("Saturated solution of potassium iodide ..... 5 mL", "potassium iodide 5 mL of saturated stock");
    assert_alike("28% solution of acetic acid 48 mL", "acetic acid (28 %) 48 mL");
    expect_line("10 % solution of potassium bromide 30 mL at 20 °C note \"warm it\"", "");
    expect_line("10 % solution of 30 mL", "syntax:3");
    expect_line("10 % potassium bromide 30 mL", "syntax:3");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(degrees_by_other_signs),
        cmocka_unit_test(a_strength_without_brackets),         cmocka_unit_test(so_much_of_a_solution),
        cmocka_unit_test(slips_are_no_forms),
        cmocka_unit_test(optional_behind_a_comma),             cmocka_unit_test(kept_in_what_a_comma_divides),
        cmocka_unit_test(the_solution_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
