/* Lists and tables as pages have them: signs before a line and behind a name, columns, amounts of prescriptions.  Above all: what could
 * be read wrongly without a word is not. */
#include "support/compiling.h"
#include "support/repairing.h"

#include <stdio.h>
#include <string.h>

#define HEAD "formula \"x\"\nkind other\nmeasures imperial\n"
#define END  "water to make 1 L\n"

/* 1 grain, Weights and Measures Act 1985 (UK): 64.79891 mg; an avoirdupois ounce is 437.5 of them, an apothecaries' one 480. */
static const double GRAIN = 0.06479891;

static void put(char *text, size_t size, const char *lines)
{
    snprintf(text, size, HEAD "%s\n" END, lines);
}

static void expect_mass(const char *line, double grams)
{
    double mass = mass_of("imperial", line);
    if (!(mass > 0.999999 * grams && mass < 1.000001 * grams)) {
        fail_msg("%s: %.9g g, not %.9g g", line, mass, grams);
    }
}

/* The line is refused with that id, and its first repair leaves a line that comes to so much. */
static void expect_mended(const char *line, const char *id, const char *mended, double grams)
{
    char text[400];
    put(text, sizeof text, line);
    expect_one(text, id, 4, 0);
    repair(text, sizeof text, id, 4);
    if (strstr(text, mended) == NULL) {
        fail_msg("%s: mended as\n%s", line, text);
    }
    expect_clean(text);
    expect_mass(mended, grams);
}

static void signs_before_a_line(void **state)
{
    (void)state;
    static const char *const bullets[] = {"* ", "- ", "• ", "– ", "— ", "▪ ", "○ ", "☐ "};
    for (size_t i = 0; i < sizeof bullets / sizeof *bullets; i++) {
        char line[100];
        snprintf(line, sizeof line, "%ssodium chloride 10 g", bullets[i]);
        expect_mass(line, 10);
    }
}

static void counted_lines(void **state)
{
    (void)state;
    static const char *const manners[][3] = {{"1. ", "2. ", "3. "}, {"1) ", "2) ", "3) "}, {"(1) ", "(2) ", "(3) "}, {"9. ", "10. ", "11. "}};
    for (size_t i = 0; i < sizeof manners / sizeof *manners; i++) {
        char text[400];
        snprintf(text, sizeof text, HEAD "%ssodium chloride 10 g\n%spotassium bromide 5 g\n%s" END, manners[i][0], manners[i][1],
                 manners[i][2]);
        expect_clean(text);
    }
    /* Two figures may head two solutions. */
    char text[400];
    snprintf(text, sizeof text, HEAD "1. sodium chloride 10 g\n" END "2. potassium bromide 5 g\n" END);
    expect_list(text, "syntax:4 syntax:6");
    repair(text, sizeof text, "syntax", 6);
    repair(text, sizeof text, "syntax", 4);
    expect_list(text, "");
}

static void marks_of_footnotes(void **state)
{
    (void)state;
    expect_mass("sodium chloride* 10 g", 10);
    expect_mass("sodium chloride** ..... 10 g", 10);
    expect_mass("sodium chloride† 10 g", 10);
    expect_mass("sodium chloride¹ 10 g*", 10);
}

static void a_dash_or_a_colon_leads_to_the_amount(void **state)
{
    (void)state;
    expect_mass("sodium chloride - 10 g", 10);
    expect_mass("sodium chloride — 10 g", 10);
    expect_mass("sodium chloride—10 g", 10);
    expect_mass("sodium sulfite (anhydrous) – 10 g", 10);
    expect_mass("sodium chloride --- 10 g", 10);
    expect_mass("sodium chloride: 10 g", 10);
    /* Right before the figure it is a minus, and a dash alone is no amount. */
    char text[300];
    put(text, sizeof text, "sodium chloride -10 g");
    expect_one(text, "amount-out-of-range", 4, 0);
    put(text, sizeof text, "sodium chloride —");
    expect_one(text, "syntax", 4, 0);
}

/* Two amounts in one unit, or the smaller unit first, are two columns and never a sum. */
static void columns_are_not_added_up(void **state)
{
    (void)state;
    static const char *const different[] = {"sodium chloride 2 g 4 g", "sodium chloride 2 g | 4 g", "sodium chloride 60 grains 1 oz",
                                            "sodium chloride 30 grains, 3 g", "sodium chloride 30 grains / 3 g"};
    for (size_t i = 0; i < sizeof different / sizeof *different; i++) {
        char text[300];
        put(text, sizeof text, different[i]);
        expect_one(text, "unit-ambiguous", 4, 0);
    }
    expect_mass("sodium chloride 2 g 2 g", 2);
    expect_mass("sodium chloride 1 oz 60 grains", 497.5 * GRAIN);
    static const char *const columns[] = {"sodium chloride 45 grains | 2.9 g", "sodium chloride 45 grains, 2.9 g", "sodium chloride 45 grains; 2.9 g",
                                          "sodium chloride 45 grains = 2.9 g", "sodium chloride\t45 grains\t2.9 g"};
    for (size_t i = 0; i < sizeof columns / sizeof *columns; i++) {
        expect_mass(columns[i], 45 * GRAIN);
    }
}

static void a_whole_number_that_ran_into_its_fraction(void **state)
{
    (void)state;
    expect_mended("sodium chloride 11/2 g", "syntax", "sodium chloride 1 1/2 g", 1.5);
    expect_mended("sodium chloride 113/16 oz", "syntax", "sodium chloride 1 13/16 oz", 1.8125 * 437.5 * GRAIN);
    expect_mass("sodium chloride 15/16 oz", 0.9375 * 437.5 * GRAIN);
    expect_mass("sodium chloride 3/2 g", 1.5);
    expect_mass("sodium chloride 1-½ oz", 1.5 * 437.5 * GRAIN);
    expect_mass("sodium chloride 1–¼ oz", 1.25 * 437.5 * GRAIN);
    expect_mass("sodium chloride 1 & 1/2 oz", 1.5 * 437.5 * GRAIN);
    /* The slash of fractions (U+2044), as text that was copied from a page has it. */
    expect_mass("sodium chloride 3⁄4 g", 0.75);
    expect_mass("sodium chloride 1\u20091⁄2 g", 1.5);
    expect_mended("sodium chloride 11⁄2 g", "syntax", "sodium chloride 1 1⁄2 g", 1.5);
}

static void words_in_brackets_that_belong_to_the_unit(void **state)
{
    (void)state;
    assert_within(volume_of("US", "water 1 pint (imp.)"), 568.26125, 1e-9); /* Weights and Measures Act 1985 */
    expect_mass("sodium chloride 1 oz (troy)", 480 * GRAIN);
    expect_mass("sodium chloride 1 oz (av.)", 437.5 * GRAIN);
    /* An ounce that is said to be one of weight is no fluid ounce, of a liquid either. */
    expect_mass("lactic acid (90 %) 1 oz (by weight)", 437.5 * GRAIN);
    expect_mass("lactic acid (90 %) 1 oz av", 437.5 * GRAIN);
}

static void warmth_before_the_volume(void **state)
{
    (void)state;
    assert_near(volume_of("metric", "water, 52 °C, 500 mL"), 500);
    assert_near(volume_of("metric", "Hot water, about 120 °F, 500 mL"), 500);
    char text[300];
    put(text, sizeof text, "water (125) 500 mL\nsodium chloride 1 g");
    expect_one(text, "syntax", 4, 0); /* degrees of which kind? */
}

static void short_words_for_forms(void **state)
{
    (void)state;
    static const char *const dry[] = {"sodium sulphite anhyd. 10 g", "sodium sulphite (anh.) 10 g", "sodium sulphite, sicc. 10 g",
                                      "sodium sulphite 10 g, dry", "sodium sulphite [dry] 10 g", "sodium sulphite, (dry) 10 g",
                                      "sodium sulphite (anhydrous or dry) 10 g", "sodium sulphite anhydrous pure 10 g"};
    for (size_t i = 0; i < sizeof dry / sizeof *dry; i++) {
        char text[300];
        put(text, sizeof text, dry[i]);
        expect_list(text, "");
    }
    /* Washing soda is the decahydrate, soda ash the dry salt (common names; common practice, no source). */
    struct compiled compiled = compile(HEAD "washing soda 10 g\nsoda ash 10 g\nGlauber’s salt 5 g\n" END);
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 0), "form"), "decahydrate");
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 1), "form"), "anhydrous");
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 2), "form"), "decahydrate");
    compiled_free(&compiled);
}

/* A name cut short is never guessed at. */
static void names_cut_short(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        const char *help;
    } cases[] = {{"Bromide potass. 1 g", "did you mean potassium bromide?"},
                 {"Carb. soda 1 g", "did you mean sodium carbonate?"},
                 {"Sodii hyposulph. 1 g", "did you mean sodium thiosulfate?"},
                 {"Pot. brom. 1 g", "it may be short for potassium bromate or potassium bromide"},
                 {"Amm. persulph. 1 g", "did you mean ammonium persulfate?"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        put(text, sizeof text, cases[i].line);
        struct compiled compiled = compile(text);
        assert_string_equal(json_text_of(compiled_find(&compiled, "material-unknown", 4), "help"), cases[i].help);
        compiled_free(&compiled);
    }
}

static void a_solution_named_behind(void **state)
{
    (void)state;
    assert_near(mass_of("metric", "10% bromide of potassium solution 30 mL"), 3);
    assert_near(mass_of("metric", "10 % potassium bromide sol. 30 mL"), 3);
}

/* Strong acids go by their specific gravity: 1.16 is hydrochloric acid of 32 % (CRC Handbook, concentrative properties). */
static void a_strength_by_its_gravity(void **state)
{
    (void)state;
    struct compiled compiled = compile(HEAD "hydrochloric acid (sp. gr. 1.16) 10 mL\nammonia, sp. gr. 0.880, 5 mL\n" END);
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 0), "form"), "32 %");
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 1), "form"), "0.880");
    compiled_free(&compiled);
    char text[300];
    put(text, sizeof text, "sulfuric acid (sp. gr. 1.5) 10 mL");
    expect_one(text, "form-unknown", 4, 0);
}

static void another_name_or_the_formula_in_brackets(void **state)
{
    (void)state;
    struct compiled compiled = compile(HEAD "hypo (sodium thiosulphate) 10 g\nborax (Na2B4O7.10H2O) 5 g\nsodium sulphite (Na2SO3) 5 g\n" END);
    assert_int_equal(compiled_count(&compiled, NULL), 1); /* the form of the first is not said */
    assert_non_null(compiled_find(&compiled, "form-unstated", 4));
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 1), "form"), "decahydrate");
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 2), "form"), "anhydrous");
    compiled_free(&compiled);
    char text[300];
    put(text, sizeof text, "hypo (sodium sulfite) 10 g");
    expect_one(text, "form-unknown", 4, 0);
}

/* Where decimals have commas, a point before three figures marks the thousands: both readings are offered. */
static void thousands_beside_decimal_commas(void **state)
{
    (void)state;
    char text[300];
    put(text, sizeof text, "sodium chloride 1,5 g\nborax (decahydrate) 1.500 g");
    expect_list(text, "decimal-comma:4 decimal-comma:5");
    put(text, sizeof text, "sodium chloride 1.5 g\nborax (decahydrate) 1.500 g");
    expect_clean(text);
}

static void ounces_of_a_dry_mix(void **state)
{
    (void)state;
    char text[300] = "formula \"x\"\nkind other\nmakes 5 oz\nsodium chloride 3 oz\nborax (decahydrate) 2 oz\n";
    expect_one(text, "unit-ambiguous", 3, 0);
    repair(text, sizeof text, "unit-ambiguous", 3);
    expect_clean(text);
    struct compiled compiled = compile(text);
    assert_near(json_number_of(compiled_addition(&compiled, 0, 0), "mass_g"), 3 * 437.5 * GRAIN);
    compiled_free(&compiled);
    expect_clean("formula \"x\"\nkind other\nmeasures US\nmakes 32 oz\nsodium chloride 3 oz\nwater 16 oz\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(signs_before_a_line),
        cmocka_unit_test(counted_lines),
        cmocka_unit_test(marks_of_footnotes),
        cmocka_unit_test(a_dash_or_a_colon_leads_to_the_amount),
        cmocka_unit_test(columns_are_not_added_up),
        cmocka_unit_test(a_whole_number_that_ran_into_its_fraction),
        cmocka_unit_test(words_in_brackets_that_belong_to_the_unit),
        cmocka_unit_test(warmth_before_the_volume),
        cmocka_unit_test(short_words_for_forms),
        cmocka_unit_test(names_cut_short),
        cmocka_unit_test(a_solution_named_behind),
        cmocka_unit_test(ounces_of_a_dry_mix),
        cmocka_unit_test(a_strength_by_its_gravity),
        cmocka_unit_test(another_name_or_the_formula_in_brackets),
        cmocka_unit_test(thousands_beside_decimal_commas),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
