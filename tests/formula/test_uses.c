/* Uses: dilutions, mixtures of parts, temperatures and times, capacities. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#define HEAD "formula \"x\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\nuse for film\n"
#define TWO_PARTS                                                                                                      \
    "formula \"x\"\nkind other\npart A\nsodium chloride 10 g\nwater to make 1 L\npart B\npotassium bromide 10 g\n"     \
    "water to make 1 L\nuse for film\n"

static void dilutions(void **state)
{
    (void)state;
    static const struct {
        const char *written;
        double stock;
        double water;
    } cases[] = {{"1+29", 1, 29},     {"1 + 3", 1, 3},     {"2+3", 2, 3},        {"1+1", 1, 1},
                 {"1 + 0.5", 1, 0.5}, {"undiluted", 1, 0}, {"1 1/2 + 3", 1.5, 3}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        snprintf(text, sizeof text, HEAD "dilute %s\n", cases[i].written);
        struct compiled compiled = compile(text);
        assert_int_equal(compiled_count(&compiled, NULL), 0);
        const json_t *use = compiled_use(&compiled, 0);
        assert_near(json_number_of(use, "stock_parts"), cases[i].stock);
        assert_within(json_number_of(use, "water_parts"), cases[i].water, 1e-9);
        assert_near(json_number_of(use, "total_parts"), cases[i].stock + cases[i].water);
        assert_true(json_is_null(json_object_get(use, "mix")));
        compiled_free(&compiled);
    }
}

static void a_colon_offers_both_readings(void **state)
{
    (void)state;
    const char *text = HEAD "dilute 1:29\n";
    expect_one(text, "ratio-with-colon", 6, 8);
    struct compiled compiled = compile(text);
    const json_t *fixes = json_object_get(compiled_find(&compiled, "ratio-with-colon", 6), "fixes");
    assert_int_equal(json_array_size(fixes), 2);
    assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), "1+29");
    assert_string_equal(json_text_of(json_array_get(fixes, 1), "text"), "1+28"); /* one part in 29 */
    compiled_free(&compiled);
    /* What is in 29 parts has at least one of water: 1:1 is one part in two, or no water at all. */
    expect_one(HEAD "dilute 1:1\n", "ratio-with-colon", 6, 8);
}

static void dilutions_that_are_none(void **state)
{
    (void)state;
    expect_one(HEAD "dilute 0+3\n", "amount-out-of-range", 6, 8);
    expect_one(HEAD "dilute 1+99999\n", "amount-out-of-range", 6, 8);
    expect_one(HEAD "dilute 1+2+3\n", "syntax", 6, 8);
    expect_one(HEAD "dilute thinly\n", "syntax", 6, 8);
    expect_one(HEAD "dilute 1+\n", "syntax", 6, 0);
}

static void mixtures(void **state)
{
    (void)state;
    struct compiled compiled = compile(TWO_PARTS "mix A 1 + B 2 + water 8\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const json_t *mix = json_object_get(compiled_use(&compiled, 0), "mix");
    static const char *const parts[] = {"A", "B", "water"};
    static const double shares[] = {1, 2, 8};
    assert_int_equal(json_array_size(mix), 3);
    for (size_t i = 0; i < 3; i++) {
        assert_string_equal(json_text_of(json_array_get(mix, i), "part"), parts[i]);
        assert_near(json_number_of(json_array_get(mix, i), "parts"), shares[i]);
    }
    assert_near(json_number_of(compiled_use(&compiled, 0), "total_parts"), 11);
    assert_true(json_is_null(json_object_get(compiled_use(&compiled, 0), "stock_parts")));
    compiled_free(&compiled);
    /* Lower case, and volumes in place of parts. */
    compiled = compile(TWO_PARTS "mix a 100 mL + b 100 mL + water 800 mL\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_near(json_number_of(compiled_use(&compiled, 0), "total_parts"), 1000);
    compiled_free(&compiled);
    /* 1+1+8 of two parts: one of each and eight of water. */
    compiled = compile(TWO_PARTS "dilute 1+1+8\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    mix = json_object_get(compiled_use(&compiled, 0), "mix");
    assert_int_equal(json_array_size(mix), 3);
    assert_string_equal(json_text_of(json_array_get(mix, 2), "part"), "water");
    compiled_free(&compiled);
}

static void parts_that_are_not_there(void **state)
{
    (void)state;
    /* B may be what C was to be: one mistake, one diagnostic. */
    expect_one(TWO_PARTS "mix A 1 + C 1 + water 8\n", "part-unknown", 10, 11);
    expect_one(TWO_PARTS "mix A 1 + water 8\n", "part-unused", 6, 0);
    expect_one(HEAD "mix A 1 + water 8\n", "part-unknown", 6, 5);
    expect_one("formula \"x\"\nkind other\npart A\nsolution B 10 mL\nwater to make 1 L\n", "part-unknown", 4, 10);
    expect_one("formula \"x\"\nkind other\npart A\nsolution A 10 mL\nwater to make 1 L\n", "part-unknown", 4, 10);
    expect_one("formula \"x\"\nkind other\nsolution \"y\" 10 mL\nwater to make 1 L\n", "formula-unknown", 3, 10);
    expect_one("formula \"x\"\nkind other\nsolution \"x\" 10 mL\nwater to make 1 L\n", "formula-unknown", 3, 10);
}

static void formulas_that_are_made_of_each_other(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"x\"\nkind other\nsolution \"y\" 10 mL\nwater to make 1 L\n"
                                       "formula \"y\"\nkind other\nsolution \"z\" 10 mL\nwater to make 1 L\n"
                                       "formula \"z\"\nkind other\nsolution \"x\" 10 mL\nwater to make 1 L\n");
    assert_int_equal(compiled.status, POTASH_FAULTY);
    assert_int_equal(compiled_count(&compiled, NULL), 1);
    compiled_free(&compiled);
}

static void temperature_and_time(void **state)
{
    (void)state;
    struct compiled compiled =
        compile(HEAD "temperature 20 °C\ntime 8 to 10 min\nuse for paper\ntemperature 68 to 70 °F\ntime 90 s\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const json_t *film = compiled_use(&compiled, 0);
    const json_t *paper = compiled_use(&compiled, 1);
    assert_string_equal(json_text_of(film, "for"), "film");
    assert_string_equal(json_text_of(paper, "for"), "paper");
    assert_near(json_number_of(film, "temperature_C"), 20);
    assert_within(json_number_of(paper, "temperature_C"), 20, 1e-9);
    assert_near(json_number_value(json_array_get(json_object_get(film, "time_s"), 0)), 480);
    assert_near(json_number_value(json_array_get(json_object_get(film, "time_s"), 1)), 600);
    assert_near(json_number_value(json_array_get(json_object_get(paper, "time_s"), 1)), 90);
    compiled_free(&compiled);
    expect_one(HEAD "time 10 to 8 min\n", "amount-out-of-range", 6, 6);
    expect_one(HEAD "time 0 s\n", "amount-out-of-range", 6, 6);
    expect_one(HEAD "time 20 °C\n", "unit-mismatch", 6, 6);
    expect_one(HEAD "temperature 5 min\n", "unit-mismatch", 6, 13);
}

static void capacities(void **state)
{
    (void)state;
    expect_one(HEAD "capacity 12 g per L\n", "unit-mismatch", 6, 0);
    expect_one(HEAD "capacity 12 rolls per min\n", "unit-mismatch", 6, 0);
    expect_one(HEAD "capacity 0 rolls per L\n", "unit-mismatch", 6, 0);
    expect_one(HEAD "needs 10 g per roll\n", "unit-mismatch", 6, 0);
    expect_one(HEAD "needs 10 mL per min\n", "unit-mismatch", 6, 0);
    expect_one(HEAD "coefficient 1.9 per 10 min\n", "unit-mismatch", 6, 0);
    expect_one(HEAD "coefficient 0 per 10 °C\n", "unit-mismatch", 6, 0);
}

static void a_line_of_a_use_without_one(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\ndilute 1+3\ntemperature 20 "
               "°C\ntime 5 min\n",
               "syntax", 5, 1);
}

static void a_dilution_of_which_part(void **state)
{
    (void)state;
    const char *text = TWO_PARTS "dilute 1+9\n";
    expect_one(text, "part-unused", 10, 8);
    struct compiled compiled = compile(text);
    const json_t *fixes = json_object_get(compiled_find(&compiled, "part-unused", 10), "fixes");
    assert_int_equal(json_array_size(fixes), 2);
    assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), "mix A 1 + water 9");
    assert_string_equal(json_text_of(json_array_get(fixes, 1), "text"), "mix B 1 + water 9");
    assert_near(json_number_of(json_array_get(fixes, 0), "column"), 1);
    compiled_free(&compiled);
    expect_list(TWO_PARTS "mix A 1 + B 1\nuse for plates\ndilute 1+9 to 1+19\n", "part-unused:12");
    expect_clean(TWO_PARTS "dilute undiluted\n");
    expect_clean(TWO_PARTS "dilute 1+1+9\n");
    /* Part B goes into part A, which is the bath. */
    expect_clean("formula \"x\"\nkind other\npart A\nsodium chloride 10 g\nsolution B 10 mL\nwater to make 1 L\npart B\n"
                 "potassium bromide 10 g\nwater to make 1 L\nuse for film\ndilute 1+9\n");
}

static void units_that_could_be_meant(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        const char *units; /* of the fixes, in order: the nearer first, and F stands beside G on the keys */
    } cases[] = {{"temperature 20 X\n", "°C °F "},    {"temperature 70 dgF\n", "°F °C "}, {"temperature 70 °G\n", "°F °C "},
                 {"time 5 mints\n", "min month "},          {"needs 10 mk per roll\n", "mL "}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        char found[100] = "";
        snprintf(text, sizeof text, HEAD "%s", cases[i].line);
        expect_one(text, "unit-unknown", 6, 0);
        struct compiled compiled = compile(text);
        size_t index;
        json_t *fix;
        json_array_foreach(json_object_get(compiled_find(&compiled, "unit-unknown", 6), "fixes"), index, fix)
        {
            strcat(strcat(found, json_text_of(fix, "text")), " ");
        }
        assert_string_equal(found, cases[i].units);
        compiled_free(&compiled);
    }
}

/* Of two lines that say one thing of a use, or of the formula, neither may win in silence. */
static void what_is_said_twice_is_told(void **state)
{
    (void)state;
#define SAID(head, lines) "formula \"x\"\nkind other\n" head "sodium chloride 5 g\nwater to make 1 L\nuse for film\n" lines
    expect_one(SAID("", "dilute 1+9\ndilute 1+19\n"), "declared-twice", 7, 1);
    expect_one(SAID("", "dilute 1+9\nmix water 1\n"), "declared-twice", 7, 1);
    expect_one(SAID("", "time 5 min\ntime 6 min\n"), "declared-twice", 7, 1);
    expect_one(SAID("", "temperature 20 °C\ntemperature 24 °C\n"), "declared-twice", 7, 1);
    expect_one(SAID("", "agitate \"little\"\nagitate \"much\"\n"), "declared-twice", 7, 1);
    expect_one(SAID("", "capacity 4 rolls per L\ncapacity 5 rolls per L\n"), "declared-twice", 7, 1);
    expect_one(SAID("makes 1 L\nmakes 2 L\n", ""), "declared-twice", 4, 1);
    expect_one(SAID("for film\nfor paper\n", ""), "declared-twice", 4, 1);
    expect_one(SAID("after \"a book\"\nafter \"another\"\n", ""), "declared-twice", 4, 1);
    expect_clean(SAID("", "time 5 min\nuse for paper\ntime 6 min\n"));
    expect_clean(SAID("", "capacity 4 rolls per L\ncapacity 5 sheets 8x10 in per L\n"));
    expect_clean(SAID("note \"one\"\nnote \"two\"\n", "note \"three\"\nnote \"four\"\n"));
#undef SAID
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_said_twice_is_told),
        cmocka_unit_test(dilutions),
        cmocka_unit_test(a_colon_offers_both_readings),
        cmocka_unit_test(dilutions_that_are_none),
        cmocka_unit_test(mixtures),
        cmocka_unit_test(parts_that_are_not_there),
        cmocka_unit_test(formulas_that_are_made_of_each_other),
        cmocka_unit_test(temperature_and_time),
        cmocka_unit_test(capacities),
        cmocka_unit_test(a_line_of_a_use_without_one),
        cmocka_unit_test(a_dilution_of_which_part),
        cmocka_unit_test(units_that_could_be_meant),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
