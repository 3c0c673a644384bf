/* Dilutions, percent solutions, parts and scaling. */
#include "reckon/reckon_help.h"

/* Where no source is named the expected figure is plain arithmetic, written out. */

static void dilutions(void **state)
{
    (void)state;
    /* 1+29 is 30 parts in all: the contract of the notation. */
    expect_line("1+29 for 300 mL", "10 mL of stock + 290 mL of water = 300 mL   (300 mL / 30 parts = 10 mL a part)");
    /* 10 mL of stock in a tank of 300 mL at 1+29: 500 mL of stock do 50 tanks, where the bottle was thought to do fewer. */
    expect_line("1+29 for 300 mL from 500 mL",
                "10 mL of stock + 290 mL of water = 300 mL; 500 mL of stock fill it 50 times   "
                "(300 mL / 30 parts = 10 mL a part; 500 mL / 10 mL = 50)");
    expect_refused("1+29 for 300 mL from 5 g", "unit-mismatch", 22, "1+29 for 300 mL from 500 mL");
    expect_line("1+29 from 10 mL",
                "10 mL of stock + 290 mL of water = 300 mL   (10 mL / 1 part = 10 mL a part; 30 parts in all)");
    expect_line("1+1+8 for 500 mL",
                "50 mL of A + 50 mL of B + 400 mL of water = 500 mL   (500 mL / 10 parts = 50 mL a part)");
    expect_line("1 in 30 for 600 mL", "20 mL of stock + 580 mL of water = 600 mL   (600 mL / 30 parts = 20 mL a part)");
    /* (1000 - 150) / 150 = 5.667: not the 1+9 that "150 mL to 1 L" is taken for when 100 mL are meant. */
    expect_line("150 mL to 1 L as a ratio", "1+5.67   ((1 L - 150 mL) / 150 mL = 5.667 parts of water to 1 of stock)");
    expect_line("100 mL to 1 L as a ratio", "1+9   ((1 L - 100 mL) / 100 mL = 9 parts of water to 1 of stock)");
    expect_figure("1+29", 1000 / 30.0, 1e-11); /* JSON has 12 figures */
    /* US fluid ounces are answered in both measures: 20 usfloz = 591.4706 mL (GNU units 2.22). */
    expect_figure("1+29 for 20 US fl oz", 591.470591 / 30, 1e-8);
    expect_line("1+4 for 20 US fl oz",
                "118.3 mL (4 US fl oz) of stock + 473.2 mL (16 US fl oz) of water = 591.5 mL (20 US fl oz)   "
                "(591.5 mL / 5 parts = 118.3 mL a part)");
}

static void colons_are_answered_both_ways(void **state)
{
    (void)state;
    json_t *json = reckoned("1:29 for 290 mL");
    const json_t *answers = json_object_get(json, "answers");
    assert_int_equal(json_array_size(answers), 4);
    assert_near(json_number_of(json_array_get(answers, 0), "value"), 290 / 30.0);
    assert_near(json_number_of(json_array_get(answers, 2), "value"), 10);
    assert_near(json_number_of(json_array_get(answers, 3), "value"), 280);
    json_decref(json);
    expect_note("1:29 for 300 mL", "write 1+29 or 1 in 29");
    assert_near(figure("1:29 from 10 mL", 1), 290);
    assert_near(figure("1:29 from 10 mL", 3), 280);
}

static void portions_and_parts(void **state)
{
    (void)state;
    expect_figure("500 mL at 10 mL each", 50, 0);
    expect_figure("how many 10 mL in 500 mL", 50, 0);
    expect_figure("10 mL each from 500 mL", 50, 0);
    expect_line("470 mL at 12 mL each", "39, and 2 mL left   (470 mL / 12 mL = 39.17)"); /* 39 x 12 = 468 */
    expect_figure("1 L at 0.1 mL each", 10000, 0); /* 0.1 has no exact binary fraction */
    expect_line("2 parts of 10 parts for 500 mL", "100 mL; the rest is 400 mL   (500 mL / 10 parts = 50 mL a part)");
    expect_line("A 1 + B 1 + water 8 for 1 L",
                "100 mL of A + 100 mL of B + 800 mL of water = 1 L   (1 L / 10 parts = 100 mL a part)");
    expect_line("1 part A + 1 part B + 8 parts water for 1 L",
                "100 mL of A + 100 mL of B + 800 mL of water = 1 L   (1 L / 10 parts = 100 mL a part)");
    expect_line("7.5 g per 750 mL for 2 L", "20 g   (7.5 g x 2 L / 750 mL = 20 g)");
    expect_figure("5 g/L for 750 mL", 3.75, 1e-12);
    expect_figure("7.5 g metol in 750 mL for 2 L", 20, 1e-12);
}

static void percent_solutions(void **state)
{
    (void)state;
    /* mL x per cent / 100 = g: a 10 % solution is 10 g in 100 mL in all, German photographic school text, 1930s. */
    expect_line("0.25 g from 1 % stock", "25 mL of 1 % stock   (0.25 g x 100 / 1 % = 25 mL)");
    expect_line("25 mL of 1 % stock", "0.25 g   (25 mL x 1 % / 100 = 0.25 g)");
    expect_line("0.25 g phenidone from 1 % stock", "25 mL of 1 % phenidone stock   (0.25 g x 100 / 1 % = 25 mL)");
    expect_figure("25 mL of 1 % phenidone stock", 0.25, 1e-12);
    expect_line("10 % of 250 mL", "25 g, water to make 250 mL   (250 mL x 10 % / 100 = 25 g)");
    expect_line("make 250 mL of 10 %", "25 g, water to make 250 mL   (250 mL x 10 % / 100 = 25 g)");
    expect_line("500 g of 10 % w/w", "50 g + 450 g of water = 500 g   (500 g x 10 % w/w / 100 = 50 g)");
    expect_line("500 mL of 10 % v/v", "50 mL, water to make 500 mL   (500 mL x 10 % v/v / 100 = 50 mL)");
    expect_refused("250 mL of 10 % w/w", "unit-mismatch", 1, "a volume does not go with 10 % w/w");
    expect_refused("10 % of 20 °C", "unit-mismatch", 9, "a volume is expected here");
    expect_refused("250 mL of 0 %", "amount-out-of-range", 11, "no solution has this strength");
    expect_refused("250 g of 120 % w/w", "amount-out-of-range", 10, "no solution has this strength");
    expect_refused("10 mL of saturated stock", "stock-unknown", 10, "name the material");
}

static void weaker_from_stronger(void **state)
{
    (void)state;
    /* 1000 x 5 / 28 = 178.57 */
    expect_line("28 % to 5 % for 1 L", "178.6 mL of 28 % + water to make 1 L (821.4 mL)   (1 L x 5 / 28 = 178.6 mL)");
    expect_line("500 mL of 5 % from 28 %",
                "89.3 mL of 28 % + water to make 500 mL (410.7 mL)   (500 mL x 5 / 28 = 89.3 mL)");
    expect_line("100 mL of 28 % to 5 %", "100 mL of 28 % + water to make 560 mL (460 mL)   (100 mL x 28 / 5 = 560 mL)");
    expect_refused("5 % to 28 % for 1 L", "amount-out-of-range", 8, "cannot be made from the weaker one");
    expect_refused("28 % w/v to 5 % v/v for 1 L", "unit-mismatch", 13, "do not count alike");
}

static void acids_by_the_rules_in_print(void **state)
{
    (void)state;
    /* 28 % acetic acid is 3 volumes of glacial acid and 8 of water (C. Ball, Photographic chemical descriptions): the
     * water that the sum gives, contraction reckoned in, is in that proportion within a hundredth. */
    assert_within(figure("500 mL of 28 % acetic acid from glacial", 0) /
                      figure("500 mL of 28 % acetic acid from glacial", 1),
                  3 / 8.0, 0.015);
    /* US Army photographic course SS0513: 9 fl oz of 99.5 % acid with 23 of water make 32 of 28 %. */
    expect_figure("32 US fl oz of 28 % acetic acid from glacial", 9 * 29.5735296, 0.02);
    /* 5 % sulfuric acid is 1 volume of concentrated acid and 19 of water: J. Soc. Motion Picture Engineers 14, 1930. */
    assert_near(figure("1 L of 5 % v/v sulfuric acid from 98 %", 0), 50);
    assert_near(figure("1 L of 5 % v/v sulfuric acid from 98 %", 1), 950);
    /* CRC Handbook, 102nd ed. (2021): 28 % acetic acid holds 0.2897 g/mL, 5 % 0.0503 g/mL. */
    expect_figure("1 L of 5 % acetic acid from 28 %", 1000 * 0.0503 / 0.2897, 2e-3);
    expect_figure("25 mL of 28 % acetic acid in g", 25 * 0.2897, 1e-3);
    expect_figure("2.897 g acetic acid from 28 %", 10, 1e-3);
    expect_note("500 mL of 28 % acetic acid", "glacial is assumed");
    expect_note("500 mL of 10 % sulfuric acid from concentrated", "pour the acid into the water");
    /* Alcohol is labelled by volume: 500 x 50 / 96. */
    expect_figure("500 mL of 50 % ethanol from 96 %", 500 * 50 / 96.0, 1e-9);
    expect_refused("500 mL of 28 % from glacial", "syntax", 21, "name the material");
    expect_refused("500 mL of 28 % acetic acid from 0.880", "form-unknown", 33, "0.880");
    expect_refused("500 mL of 5 % acetic acid from citric acid", "unit-mismatch", 32, "this is no acetic acid");
}

static void nonsense_is_pointed_at(void **state)
{
    (void)state;
    expect_refused("hello world", "syntax", 1, "is not understood here");
    expect_refused("1+29 for", "syntax", 9, "the sum ends too early");
    expect_refused("1+29 for 300", "syntax", 10, "has no unit");
    expect_refused("1+29 for 300 mL please", "syntax", 17, "\"please\" is not understood here");
    expect_refused("1+29 because 300 mL", "syntax", 6, "\"because\" is not understood here");
    expect_refused("1+29 for 20 °C", "unit-mismatch", 10, "a volume is expected here");
    expect_refused("½ of ", "syntax", 6, "the sum ends too early");
    expect_refused("1 2 3", "syntax", 3, "is not understood here");
    expect_refused("", "syntax", 1, "the sum ends too early");
    expect_refused("500 mL", "syntax", 7, "what is to be reckoned is not said");
    expect_refused("1+29 for 300 mL\n1+1 for 2 L", "syntax", 1, "a second line");
    expect_refused("0+29 for 300 mL", "amount-out-of-range", 1, "parts must be more than nothing");
    expect_refused("30 in 1 for 300 mL", "amount-out-of-range", 1, "no smaller than the whole");
    expect_refused("1 L to 150 mL as a ratio", "amount-out-of-range", 1, "more than the whole");
    expect_refused("500 mL at 10 g each", "unit-mismatch", 1, "cannot be shared out");
    expect_refused("1+\xFFz", "text-encoding", 3, "not valid UTF-8");
}

/* Allocations that fail one after the other: each ends in a message, none in a crash. */
static void survives_failing_allocations(void **state)
{
    (void)state;
    bool done = false;
    for (long after = 1; !done && after < 200; after++) {
        struct potash_options options = {.fail_after = after};
        struct potash *potash = potash_open(&options);
        struct potash_output output = {0};
        done = potash_reckon(potash, "500 mL of 28 % acetic acid from glacial", POTASH_JSON, &output) == POTASH_GOOD;
        if (!done) {
            assert_string_equal(potash_message(potash), "out of memory");
        }
        potash_close(potash);
    }
    assert_true(done);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dilutions),
        cmocka_unit_test(colons_are_answered_both_ways),
        cmocka_unit_test(portions_and_parts),
        cmocka_unit_test(percent_solutions),
        cmocka_unit_test(weaker_from_stronger),
        cmocka_unit_test(acids_by_the_rules_in_print),
        cmocka_unit_test(nonsense_is_pointed_at),
        cmocka_unit_test(survives_failing_allocations),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
