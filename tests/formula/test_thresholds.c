/* Thresholds of the checks of a formula's amounts, each just on its two sides.  Where a threshold has a source, it stands in the code
 * beside it; these cases say only where it lies. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

/* `line` 0: nothing of that id is said; else it is said there. */
struct side {
    const char *text;
    const char *id;
    int line;
};

static void look_at(const struct side *sides, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct compiled compiled = compile(sides[i].text);
        bool said = compiled_find(&compiled, sides[i].id, sides[i].line) != NULL;
        if (said != (sides[i].line > 0)) {
            fail_msg("%s on line %d: %s\n%s", sides[i].id, sides[i].line, said ? "it is said" : "it is not said", sides[i].text);
        }
        compiled_free(&compiled);
    }
}

#define LOOK_AT(sides) look_at(sides, sizeof(sides) / sizeof *(sides))

#define DEVELOPER "formula \"A\"\nkind developer\nmeasures US\nmetol 2 g\nsodium sulfite (anhydrous) 50 g\n"
#define OTHER "formula \"A\"\nkind other\n"

static void two_readings_of_one_amount(void **state)
{
    (void)state;
    static const struct side sides[] = {
        {OTHER "borax 100 g (94 g)\nwater to make 1 L\n", "unit-ambiguous", 0},
        {OTHER "borax 100 g (93.9 g)\nwater to make 1 L\n", "unit-ambiguous", 3},
        {OTHER "borax 94 g (100 g)\nwater to make 1 L\n", "unit-ambiguous", 0},
        {OTHER "borax 93.9 g (100 g)\nwater to make 1 L\n", "unit-ambiguous", 3},
        /* the avoirdupois ounce is 28.349523125 g (NIST Handbook 44): 30 g are 5.5 % more, 30.2 g are 6.1 % */
        {OTHER "borax 1 oz 30 g\nwater to make 1 L\n", "unit-ambiguous", 0},
        {OTHER "borax 1 oz 30.2 g\nwater to make 1 L\n", "unit-ambiguous", 3},
    };
    LOOK_AT(sides);
}

static void final_volumes_and_weights(void **state)
{
    (void)state;
    static const struct side sides[] = {
        {OTHER "makes 100 g\nborax 50 g\ncitric acid 49.01 g\n", "makes-disagrees", 0},
        {OTHER "makes 100 g\nborax 50 g\ncitric acid 48.99 g\n", "makes-disagrees", 3},
        {OTHER "makes 100 g\nborax 50 g\ncitric acid 50.99 g\n", "makes-disagrees", 0},
        {OTHER "makes 100 g\nborax 50 g\ncitric acid 51.01 g\n", "makes-disagrees", 3},
        {OTHER "borax 5 g\nwater to make 1000 mL\nwater to make 1005 mL\n", "makes-disagrees", 0},
        {OTHER "borax 5 g\nwater to make 1000 mL\nwater to make 1005 mL\n", "added-twice", 5},
        {OTHER "borax 5 g\nwater to make 1000 mL\nwater to make 1005.1 mL\n", "makes-disagrees", 5},
        {OTHER "borax 5 g\nwater to make 1000 mL\nwater to make 995 mL\n", "makes-disagrees", 0},
        {OTHER "borax 5 g\nwater to make 1000 mL\nwater to make 994.9 mL\n", "makes-disagrees", 5},
        {OTHER "water 1004.9 mL\nborax 5 g\nwater to make 1000 mL\n", "over-volume", 0},
        {OTHER "water 1005.1 mL\nborax 5 g\nwater to make 1000 mL\n", "over-volume", 5},
        {OTHER "makes 1000 mL\nwater 1004.9 mL\nborax 5 g\n", "over-volume", 0},
        {OTHER "makes 1000 mL\nwater 1005.1 mL\nborax 5 g\n", "over-volume", 4},
        /* the line to mend: a liquid of more than 20 times the final volume, which is 50 mL at least */
        {OTHER "water 999 mL\nborax 5 g\nwater to make 50 mL\n", "over-volume", 5},
        {OTHER "water 1001 mL\nborax 5 g\nwater to make 50 mL\n", "over-volume", 3},
        {OTHER "water 1001 mL\nborax 5 g\nwater to make 49.9 mL\n", "over-volume", 5},
        /* or one of more than 1.5 times it, beside which the rest would fit */
        {OTHER "water 100 mL\nglycerol 1510 mL\nwater to make 1000 mL\n", "over-volume", 4},
        {OTHER "water 100 mL\nglycerol 1490 mL\nwater to make 1000 mL\n", "over-volume", 5},
        /* or one of more than 0.4 of it, whose tenth would fit, where water of a quarter of it stands before */
        {OTHER "water 650 mL\nglycerol 410 mL\nwater to make 1000 mL\n", "over-volume", 4},
        {OTHER "water 650 mL\nglycerol 390 mL\nwater to make 1000 mL\n", "over-volume", 5},
        {OTHER "water 251 mL\nglycerol 900 mL\nwater to make 1000 mL\n", "over-volume", 4},
        {OTHER "water 249 mL\nglycerol 900 mL\nwater to make 1000 mL\n", "over-volume", 5},
    };
    LOOK_AT(sides);
}

static size_t fixes_with(const char *text, const char *id, const char *fix_text)
{
    struct compiled compiled = compile(text);
    const json_t *item = compiled_find(&compiled, id, 0);
    size_t found = 0;
    size_t index;
    json_t *fix;
    json_array_foreach(json_object_get(item, "fixes"), index, fix)
    {
        found += strcmp(json_text_of(fix, "text"), fix_text) == 0;
    }
    compiled_free(&compiled);
    return found;
}

/* A final volume in mL that should be in L: offered from 20 times on. */
static void another_unit_is_offered(void **state)
{
    (void)state;
    assert_int_equal(fixes_with(OTHER "water 40 mL\nborax 5 g\nwater to make 2 mL\n", "over-volume", "L"), 0);
    assert_int_equal(fixes_with(OTHER "water 40.1 mL\nborax 5 g\nwater to make 2 mL\n", "over-volume", "L"), 1);
    assert_int_equal(fixes_with(OTHER "water 40.1 mL\nborax 5 g\nwater to make 2 cc\n", "over-volume", "L"), 1);
    assert_int_equal(fixes_with(OTHER "water 2 L\nborax 5 g\nwater to make 60 mL\n", "over-volume", "mL"), 1);
    assert_int_equal(fixes_with(OTHER "water 2 litres\nborax 5 g\nwater to make 60 mL\n", "over-volume", "mL"), 1);
    assert_int_equal(fixes_with(OTHER "water 2000 mL\nborax 5 g\nwater to make 60 mL\n", "over-volume", "mL"), 0);
}

static void amounts_in_range(void **state)
{
    (void)state;
    static const struct side sides[] = {
        {OTHER "borax 100000 g\nwater to make 1000 L\n", "amount-out-of-range", 0},
        {OTHER "borax 100000.1 g\nwater to make 1000 L\n", "amount-out-of-range", 3},
        {OTHER "borax 5 g\nwater to make 1000 L\n", "amount-out-of-range", 0},
        {OTHER "borax 5 g\nwater to make 1000.1 L\n", "amount-out-of-range", 4},
        {OTHER "borax 0 g\nwater to make 1 L\n", "amount-out-of-range", 3},
        {OTHER "borax 0.0001 g\nwater to make 1 L\n", "amount-out-of-range", 0},
        {OTHER "borax -0.0001 g\nwater to make 1 L\n", "amount-out-of-range", 3},
        {OTHER "borax 5 to 5 g\nwater to make 1 L\n", "amount-out-of-range", 0},
        {OTHER "borax 5 to 4.9 g\nwater to make 1 L\n", "amount-out-of-range", 3},
        {OTHER "borax 5 g\nwater to make 1 L\nuse for film\ndilute 1+10000\n", "amount-out-of-range", 0},
        {OTHER "borax 5 g\nwater to make 1 L\nuse for film\ndilute 1+10001\n", "amount-out-of-range", 6},
        {OTHER "borax 5 g from 100 % w/w stock\nwater to make 1 L\n", "amount-out-of-range", 0},
        {OTHER "borax 5 g from 100.1 % w/w stock\nwater to make 1 L\n", "amount-out-of-range", 3},
        {OTHER "borax 5 g from 100.1 % w/v stock\nwater to make 1 L\n", "amount-out-of-range", 0},
        {OTHER "borax 5 g\nwater to make 1 L\nprocess \"P\"\ntank 1 L holds 1000000 rolls\nbath \"A\" 5 min\n", "amount-out-of-range", 0},
        {OTHER "borax 5 g\nwater to make 1 L\nprocess \"P\"\ntank 1 L holds 1000001 rolls\nbath \"A\" 5 min\n", "amount-out-of-range", 6},
    };
    LOOK_AT(sides);
}

#define WARM(kind, celsius) "formula \"A\"\nkind " kind "\nwater 750 mL at " celsius "\nborax 5 g\nwater to make 1 L\n"
#define USED(kind, agent, celsius) "formula \"A\"\nkind " kind "\n" agent "water to make 1 L\nuse for film\ntemperature " celsius "\n"

static void temperatures(void **state)
{
    (void)state;
    static const struct side sides[] = {
        {WARM("fixer", "66 °C"), "temperature-unusual", 0},
        {WARM("fixer", "66.1 °C"), "temperature-unusual", 3},
        {WARM("fixer", "4 °C"), "temperature-unusual", 0},
        {WARM("fixer", "3.9 °C"), "temperature-unusual", 3},
        {WARM("hardener", "80 °C"), "temperature-unusual", 0},
        {WARM("hardener", "80.1 °C"), "temperature-unusual", 3},
        {WARM("toner", "100 °C"), "temperature-unusual", 0},
        {WARM("toner", "100.1 °C"), "temperature-unusual", 3},
        {WARM("sensitizer", "100 °C"), "temperature-unusual", 0},
        {WARM("developer", "70.1 °C"), "temperature-unusual", 3},
        /* a room of the other scale, where so warm a bath would be no wonder */
        {WARM("toner", "68 °C"), "temperature-unusual", 3},
        {WARM("toner", "67.9 °C"), "temperature-unusual", 0},
        {WARM("toner", "68.1 °C"), "temperature-unusual", 0},
        {"formula \"A\"\nkind fixer\nborax 5 g\ncool to 45 °C\nwater to make 1 L\n", "temperature-unusual", 0},
        {"formula \"A\"\nkind fixer\nborax 5 g\ncool to 45.1 °C\nwater to make 1 L\n", "temperature-unusual", 4},
        {USED("fixer", "borax 5 g\n", "10 °C"), "temperature-unusual", 0},
        {USED("fixer", "borax 5 g\n", "9.9 °C"), "temperature-unusual", 6},
        {USED("fixer", "borax 5 g\n", "45 °C"), "temperature-unusual", 0},
        {USED("fixer", "borax 5 g\n", "45.1 °C"), "temperature-unusual", 6},
        {USED("toner", "borax 5 g\n", "57 °C"), "temperature-unusual", 0},
        {USED("toner", "borax 5 g\n", "57.1 °C"), "temperature-unusual", 6},
        {USED("developer", "ferrous sulfate 5 g\n", "55.1 °C"), "temperature-unusual", 6},
        {USED("developer", "metol 5 g\n", "45.1 °C"), "temperature-unusual", 6},
        {USED("developer", "metol 5 g\n", "45 °C"), "temperature-unusual", 0},
    };
    LOOK_AT(sides);
}

/* 68 °C is meant to be 68 °F: offered where the other scale makes it usual, 16 to 30 °C in use and 15 to 60 when mixing. */
static void the_other_scale_is_offered(void **state)
{
    (void)state;
    static const struct {
        const char *celsius;
        size_t offered;
    } used[] = {{"60.7 °C", 0}, {"60.9 °C", 1}, {"85.9 °C", 1}, {"86.1 °C", 0}}; /* (60.8 - 32) / 1.8 = 16; (86 - 32) / 1.8 = 30 */
    for (size_t i = 0; i < sizeof used / sizeof *used; i++) {
        char text[300];
        snprintf(text, sizeof text, USED("fixer", "borax 5 g\n", "%s"), used[i].celsius);
        assert_int_equal(fixes_with(text, "temperature-unusual", "°F"), used[i].offered);
    }
    static const struct {
        const char *celsius;
        size_t offered;
    } mixed[] = {{"139.9 °C", 1}, {"140.1 °C", 0}, {"140.1 degrees C", 0}, {"125 C", 1}, {"125 deg. C.", 1}};
    for (size_t i = 0; i < sizeof mixed / sizeof *mixed; i++) {
        char text[300];
        snprintf(text, sizeof text, WARM("fixer", "%s"), mixed[i].celsius);
        assert_int_equal(fixes_with(text, "temperature-unusual", "°F"), mixed[i].offered);
    }
}

/* The same repair for a solid that is measured, however its unit is spelt. */
static void a_weight_is_offered_for_a_volume(void **state)
{
    (void)state;
    static const char *const spellings[] = {"mL", "ml", "cc", "c.c.", "c. c.", "ccm", "millilitres", "cubic centimetres"};
    for (size_t i = 0; i < sizeof spellings / sizeof *spellings; i++) {
        char text[300];
        snprintf(text, sizeof text, DEVELOPER "hydroquinone 2 %s\nwater to make 1 L\n", spellings[i]);
        assert_int_equal(fixes_with(text, "unit-mismatch", "g"), 1);
    }
    assert_int_equal(fixes_with(DEVELOPER "hydroquinone 2 fluid ounces\nwater to make 1 L\n", "unit-mismatch", "oz"), 1);
    assert_int_equal(fixes_with(DEVELOPER "hydroquinone 2 fluidrams\nwater to make 1 L\n", "unit-mismatch", "drams"), 1);
    assert_int_equal(fixes_with(DEVELOPER "lactic acid 20 min.\nwater to make 1 L\n", "unit-mismatch", "minims"), 1);
    assert_int_equal(fixes_with(DEVELOPER "hydroquinone 2 h\nwater to make 1 L\n", "unit-mismatch", "minims"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_readings_of_one_amount),
        cmocka_unit_test(final_volumes_and_weights),
        cmocka_unit_test(another_unit_is_offered),
        cmocka_unit_test(amounts_in_range),
        cmocka_unit_test(temperatures),
        cmocka_unit_test(the_other_scale_is_offered),
        cmocka_unit_test(a_weight_is_offered_for_a_volume),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
