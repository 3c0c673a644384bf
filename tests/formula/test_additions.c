/* Additions: what is weighed and measured out of each way of writing an amount. */
#include "support/compiling.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void solids_are_weighed(void **state)
{
    (void)state;
    struct compiled compiled =
        compile("formula \"x\"\nkind other\nwater 750 mL at 45 °C\nsodium sulfite (anhydrous) 30 g\n"
                "water to make 2 L\n");
    const json_t *water = compiled_addition(&compiled, 0, 0);
    assert_near(json_number_of(water, "volume_mL"), 750);
    assert_true(json_is_null(json_object_get(water, "mass_g")));
    const json_t *sulfite = compiled_addition(&compiled, 0, 1);
    assert_int_equal(json_number_of(sulfite, "step"), 2);
    assert_int_equal(json_number_of(sulfite, "line"), 4);
    assert_string_equal(json_text_of(sulfite, "material"), "sodium sulfite");
    assert_string_equal(json_text_of(sulfite, "form"), "anhydrous");
    assert_string_equal(json_text_of(sulfite, "as_written"), "30 g");
    assert_near(json_number_of(sulfite, "mass_g"), 30);
    assert_true(json_is_null(json_object_get(sulfite, "volume_mL")));
    assert_true(json_is_null(json_object_get(sulfite, "stock_percent")));
    assert_near(json_number_of(sulfite, "g_per_L"), 15);
    /* Na2SO3: 126.037 g/mol by CIAAW 2021. */
    assert_within(json_number_of(sulfite, "mol_per_L"), 15 / 126.037, 1e-5);
    const json_t *rest = compiled_addition(&compiled, 0, 2);
    assert_near(json_number_of(rest, "volume_mL"), 1250); /* what is left to add */
    compiled_free(&compiled);
}

static void liquids_are_measured(void **state)
{
    (void)state;
    /* 28 % w/w, density 1.0346 g/mL: CRC Handbook, 102nd ed. (2021), concentrative properties, 20 °C. */
    struct compiled compiled = compile("formula \"x\"\nkind stop bath\nacetic acid (28 %) 48 mL\nwater to make 1 L\n");
    const json_t *acid = compiled_addition(&compiled, 0, 0);
    assert_near(json_number_of(acid, "volume_mL"), 48);
    assert_within(json_number_of(acid, "mass_g"), 48 * 1.0346, 1e-9);
    assert_within(json_number_of(acid, "mol_per_L"), 48 * 1.0346 * 0.28 / 60.052, 1e-4); /* CH3COOH 60.052 g/mol */
    compiled_free(&compiled);
    /* By weight the volume follows from the density. */
    assert_within(volume_of("metric", "acetic acid (28 %) 103.46 g"), 100, 1e-9);
    /* An ounce of a liquid is the fluid one. */
    assert_near(volume_of("US", "acetic acid (28 %) 2 oz"), 2 * 29.5735295625);
    assert_near(volume_of("imperial", "acetic acid (28 %) 2 oz"), 2 * 28.4130625);
    assert_near(volume_of("US", "acetic acid (28 %) 1 dram"), 29.5735295625 / 8);
}

static void so_much_from_a_stock(void **state)
{
    (void)state;
    /* % of a solid is g in 100 mL of solution (the contract). */
    assert_near(volume_of("metric", "phenidone 0.25 g from 1 % stock"), 25);
    assert_near(mass_of("metric", "phenidone 0.25 g from 1 % stock"), 0.25);
    assert_near(volume_of("metric", "potassium bromide 2 g from 10 % stock"), 20);
    assert_near(volume_of("metric", "potassium bromide 2 g from 10 per cent. solution"), 20);
}

static void so_much_of_a_stock(void **state)
{
    (void)state;
    assert_near(mass_of("metric", "phenidone 25 mL of 1 % stock"), 0.25);
    assert_near(volume_of("metric", "phenidone 25 mL of 1 % stock"), 25);
    assert_near(mass_of("metric", "potassium bromide 10 mL of 10 % w/v stock"), 1);
    /* 10 minims of 10 % bromide, US: 10/480 of a fluid ounce of 29.5735295625 mL. */
    assert_near(mass_of("US", "potassium bromide 10 minims of 10 % stock"), 10 * 29.5735295625 / 480 / 10);
    struct compiled compiled =
        compile("formula \"x\"\nkind other\npotassium bromide 10 mL of 10 % stock\nwater to make 1 L\n");
    assert_near(json_number_of(compiled_addition(&compiled, 0, 0), "stock_percent"), 10);
    compiled_free(&compiled);
}

static void per_cent_by_volume_is_of_liquids(void **state)
{
    (void)state;
    /* 10 mL of the glacial acid (1.049 g/mL, the library's own figure) in 100 mL. */
    assert_within(mass_of("metric", "acetic acid (glacial) 25 mL of 10 % v/v stock"), 2.5 * 1.049, 1e-9);
    expect_one("formula \"x\"\nkind other\npotassium bromide 25 mL of 10 % v/v stock\nwater to make 1 L\n",
               "unit-mismatch", 3, 0);
    expect_one("formula \"x\"\nkind other\npotassium bromide 25 mL of 110 % w/w stock\nwater to make 1 L\n",
               "amount-out-of-range", 3, 0);
    expect_one("formula \"x\"\nkind other\npotassium bromide 25 mL of 0 % stock\nwater to make 1 L\n",
               "amount-out-of-range", 3, 0);
}

static void of_a_saturated_stock(void **state)
{
    (void)state;
    /* Brine holds 31.7 g in 100 mL (26.4 % w/w, 1.20 g/mL; memory). */
    assert_within(mass_of("metric", "sodium chloride 10 mL of saturated stock"), 3.17, 0.03);
}

static void from_wants_a_weight_and_of_a_volume(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\npotassium bromide 25 mL from 10 % stock\nwater to make 1 L\n",
               "unit-mismatch", 3, 0);
    expect_one("formula \"x\"\nkind other\npotassium bromide 25 g of 10 % stock\nwater to make 1 L\n", "unit-mismatch",
               3, 0);
}

static void units_must_suit_the_material(void **state)
{
    (void)state;
    static const char *const lines[] = {"potassium bromide 2 mL",
                                        "potassium bromide 3 drops",
                                        "potassium bromide 5 min",
                                        "potassium bromide 20 °C",
                                        "water 20 °C",
                                        "potassium bromide 3 rolls",
                                        "water to make 500 g",
                                        "potassium bromide 1 fl oz of US"};
    for (size_t i = 0; i + 1 < sizeof lines / sizeof *lines; i++) {
        char *text = formula_with(lines[i]);
        struct compiled compiled = compile(text);
        if (compiled.status != POTASH_FAULTY || compiled_find(&compiled, "unit-mismatch", 3) == NULL) {
            fail_msg("%s: no unit-mismatch", lines[i]);
        }
        compiled_free(&compiled);
        free(text);
    }
}

static void forms(void **state)
{
    (void)state;
    const char *text = "formula \"x\"\nkind other\nsodium carbonate 10 g\nwater to make 1 L\n";
    expect_one(text, "form-unstated", 3, 1);
    struct compiled compiled = compile(text);
    const json_t *item = compiled_find(&compiled, "form-unstated", 3);
    /* Which one is taken, what the others would weigh, and a repair for each. */
    const char *usual = json_text_of(compiled_addition(&compiled, 0, 0), "form");
    assert_non_null(strstr(json_text_of(item, "message"), usual));
    assert_string_equal(usual, "anhydrous");
    assert_non_null(strstr(json_text_of(item, "help"), "27 g")); /* 10 g of the dry salt as decahydrate: factor 2.70 */
    assert_non_null(strstr(json_text_of(item, "help"), "decahydrate"));
    const json_t *fixes = json_object_get(item, "fixes");
    assert_true(json_array_size(fixes) >= 3);
    compiled_free(&compiled);
    /* Stated in any of the ways books have, nothing is remarked. */
    static const char *const stated[] = {"sodium carbonate (anhydrous) 10 g", "sodium carbonate, anhydrous 10 g",
                                         "sodium carbonate, anhydrous, 10 g", "anhydrous sodium carbonate 10 g",
                                         "sodium carbonate 10 g anhydrous",   "Sodium Carbonate (Monohydrate) 10 g",
                                         "sodium carbonate (cryst.) 10 g"};
    for (size_t i = 0; i < sizeof stated / sizeof *stated; i++) {
        char *with = formula_with(stated[i]);
        expect_clean(with);
        free(with);
    }
    expect_one("formula \"x\"\nkind other\nsodium carbonate (trihydrate) 10 g\nwater to make 1 L\n", "form-unknown", 3,
               19);
    expect_one("formula \"x\"\nkind other\nmetol (decahydrate) 10 g\nwater to make 1 L\n", "form-unknown", 3, 8);
}

static void every_repair_of_a_form_compiles(void **state)
{
    (void)state;
    const char *line = "sodium carbonate";
    struct compiled compiled = compile("formula \"x\"\nkind other\nsodium carbonate 10 g\nwater to make 1 L\n");
    const json_t *fixes = json_object_get(compiled_find(&compiled, "form-unstated", 3), "fixes");
    for (size_t i = 0; i < json_array_size(fixes); i++) {
        const json_t *fix = json_array_get(fixes, i);
        assert_int_equal(json_number_of(fix, "column"), strlen(line) + 1);
        assert_int_equal(json_number_of(fix, "end_column"), strlen(line) + 1);
        char text[200];
        snprintf(text, sizeof text, "formula \"x\"\nkind other\n%s%s 10 g\nwater to make 1 L\n", line,
                 json_text_of(fix, "text"));
        expect_clean(text);
    }
    compiled_free(&compiled);
}

static void a_pinch_is_not_counted_twice(void **state)
{
    (void)state;
    struct compiled compiled =
        compile("formula \"x\"\nkind developer\nwater 750 mL\npinch of sodium sulfite\nmetol 2 g\n"
                "sodium sulfite (anhydrous) 50 g\nsodium carbonate (anhydrous) 30 g\nwater to make 1 L\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    double sulfite = 0;
    const json_t *additions =
        json_object_get(json_array_get(json_object_get(compiled_formula(&compiled, 0), "parts"), 0), "additions");
    for (size_t i = 0; i < json_array_size(additions); i++) {
        const json_t *addition = json_array_get(additions, i);
        const json_t *mass = json_object_get(addition, "mass_g");
        if (strcmp(json_text_of(addition, "material"), "sodium sulfite") == 0 && json_is_number(mass)) {
            sulfite += json_number_value(mass);
        }
    }
    assert_near(sulfite, 50);
    compiled_free(&compiled);
}

static void as_needed_counts_as_nothing(void **state)
{
    (void)state;
    struct compiled compiled =
        compile("formula \"x\"\nkind other\nsilver nitrate 10 g\nammonia (0.880) as needed note \"until clear\"\n"
                "water to make 1 L\n");
    assert_int_equal(compiled.status, POTASH_GOOD);
    const json_t *ammonia = compiled_addition(&compiled, 0, 1);
    assert_true(json_is_null(json_object_get(ammonia, "mass_g")));
    assert_true(json_is_null(json_object_get(ammonia, "volume_mL")));
    compiled_free(&compiled);
}

static void an_amount_beyond_reason(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\nsodium chloride 0 g\nwater to make 1 L\n", "amount-out-of-range", 3, 17);
    expect_one("formula \"x\"\nkind other\nsodium chloride -3 g\nwater to make 1 L\n", "amount-out-of-range", 3, 17);
    expect_one("formula \"x\"\nkind other\nsodium chloride 5000 kg\nwater to make 1 L\n", "amount-out-of-range", 3, 17);
    expect_one("formula \"x\"\nkind other\nsodium chloride 5 g\nwater to make 0 mL\n", "amount-out-of-range", 4, 0);
    expect_one("formula \"x\"\nkind other\nsodium chloride 5 g\nwater to make 5000000 L\n", "amount-out-of-range", 4,
               0);
}

static void the_rest_of_a_pinch_follows(void **state)
{
    (void)state;
    const char *head = "formula \"x\"\nkind other\n";
    char text[300];
    snprintf(text, sizeof text, "%spinch of sodium sulfite\nsodium chloride 5 g\nwater to make 1 L\n", head);
    expect_one(text, "order", 3, 1);
    snprintf(text, sizeof text, "%ssodium sulfite (anhydrous) 5 g\npinch of sodium sulfite\nwater to make 1 L\n", head);
    expect_one(text, "order", 4, 1);
    snprintf(text, sizeof text, "%spart A\npinch of borax\nsodium chloride 5 g\nwater to make 1 L\n"
                                "part B\nborax (decahydrate) 5 g\nwater to make 1 L\n", head);
    expect_one(text, "order", 4, 1); /* the other bottle's borax is not this one's */
    snprintf(text, sizeof text, "%spart A\npinch of borax\nsodium chloride 5 g\nsolution B 5 mL\nwater to make 1 L\n"
                                "part B\nborax (decahydrate) 5 g\nwater to make 1 L\n", head);
    expect_clean(text);
}

static void the_measures_are_said_once(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\nmeasures US\nmeasures imperial\nsodium chloride 5 g\nwater to make 1 pint\n",
               "declared-twice", 4, 1);
    /* A variant's own stand in the place of its parent's: an imperial pint is 20/16 of the fluid ounces of a US one. */
    struct compiled compiled = compile("formula \"x\"\nkind other\nmeasures US\nsodium chloride 1 oz\nwater to make 1 pint\n"
                                       "variant \"y\"\nof \"x\"\nmeasures imperial\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_within(json_number_of(compiled_formula(&compiled, 0), "makes_mL"), 473.176473, 1e-8); /* NIST Handbook 44 */
    assert_within(json_number_of(compiled_formula(&compiled, 1), "makes_mL"), 568.26125, 1e-8);  /* 4.54609 L / 8 */
    compiled_free(&compiled);
}

/* A name that is not known hides nothing else that is wrong on its line; what is no amount at all is not told as one. */
static void unknown_names_do_not_hide_the_rest(void **state)
{
    (void)state;
    expect_list("formula \"x\"\nkind other\nmetl 15 gr at 20 °X\nmetl 0 g\nsodium sulfite (anhydros) 3 pints\n"
                "metl 5 gg\nsee page 5 below\nwater to make 1 L\n",
                "material-unknown:3 unit-ambiguous:3 unit-unknown:3 material-unknown:4 amount-out-of-range:4 form-unknown:5 "
                "unit-ambiguous:5 material-unknown:6 unit-unknown:6 material-unknown:7");
}

/* Names that end in a figure are typed as they are; any other figure before the amount is a slip. */
static void a_figure_may_end_a_name(void **state)
{
    (void)state;
    assert_near(mass_of("metric", "polyethylene glycol 400  20 g"), 20);
    assert_near(volume_of("metric", "Polysorbate 20 ........ 5 mL"), 5);
    expect_one("formula \"x\"\nkind other\nmetol 1 000 g\nwater to make 1 L\n", "syntax", 3, 7);
    expect_one("formula \"x\"\nkind other\npolysorbate 7 5 mL\nwater to make 1 L\n", "syntax", 3, 13);
}

static void expect_repair(const char *line, size_t column, size_t end, const char *text)
{
    char whole[200];
    snprintf(whole, sizeof whole, "formula \"x\"\nkind other\n%s\nwater to make 1 L\n", line);
    struct compiled compiled = compile(whole);
    const json_t *found = json_array_get(compiled.diagnostics, 0);
    const json_t *fix = json_array_get(json_object_get(found, "fixes"), 0);
    assert_int_equal(json_number_of(fix, "column"), column);
    assert_int_equal(json_number_of(fix, "end_column"), end);
    assert_string_equal(json_text_of(fix, "text"), text);
    compiled_free(&compiled);
}

/* The repair of a unit leaves the figures of a range or a sum as they are. */
static void a_unit_is_repaired_where_it_stands(void **state)
{
    (void)state;
    expect_repair("metol 5 to 6 gr", 14, 16, "grain");
    expect_repair("metol 5 gr to 6 g", 9, 11, "grain");
    expect_repair("metol 3 oz 70 gr", 15, 17, "grain");
    expect_repair("metol 5 GG 6 g", 9, 11, "g");
    expect_repair("water 3 fl  oz 2 mL", 9, 15, "US fl oz");
    expect_repair("metol 5 g optonal", 11, 18, "optional");
    expect_repair("water too make 2 L", 1, 15, "water to make");
    expect_repair("tiem 90 s", 1, 5, "time");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(unknown_names_do_not_hide_the_rest),
        cmocka_unit_test(a_figure_may_end_a_name),
        cmocka_unit_test(a_unit_is_repaired_where_it_stands),
        cmocka_unit_test(solids_are_weighed),
        cmocka_unit_test(liquids_are_measured),
        cmocka_unit_test(so_much_from_a_stock),
        cmocka_unit_test(so_much_of_a_stock),
        cmocka_unit_test(per_cent_by_volume_is_of_liquids),
        cmocka_unit_test(of_a_saturated_stock),
        cmocka_unit_test(from_wants_a_weight_and_of_a_volume),
        cmocka_unit_test(units_must_suit_the_material),
        cmocka_unit_test(forms),
        cmocka_unit_test(every_repair_of_a_form_compiles),
        cmocka_unit_test(a_pinch_is_not_counted_twice),
        cmocka_unit_test(as_needed_counts_as_nothing),
        cmocka_unit_test(an_amount_beyond_reason),
        cmocka_unit_test(the_rest_of_a_pinch_follows),
        cmocka_unit_test(the_measures_are_said_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
