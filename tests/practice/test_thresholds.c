/* Thresholds, each tried just on either side: what is still taken, and what is answered.  Where no source is named the threshold is
 * common practice, no source, and stands in the code with its reason. */
#include "support/compiling.h"

#include "chemistry/hazard_rules.h"

#include <stdio.h>
#include <string.h>

#define WATER_TO_MAKE " water to make 1 L\n"

/* Compiles the text with each value in the place of its %s: with `inside` nothing of that id is said, with `outside` it is. */
static void assert_edge(const char *text, const char *id, const char *inside, const char *outside)
{
    const char *const values[] = {inside, outside};
    for (size_t i = 0; i < 2; i++) {
        char whole[1000];
        snprintf(whole, sizeof whole, text, values[i]);
        struct compiled compiled = compile(whole);
        if (compiled_count(&compiled, id) != i) {
            fail_msg("%zu of %s with %s in: %s", compiled_count(&compiled, id), id, values[i], whole);
        }
        compiled_free(&compiled);
    }
}

/* Two columns of a printed table say the same when they differ by no more than print rounds: an ounce is printed as 30 c.c. (by
 * definition 28.41 in imperial measure, 5.3 % less), so 6 %. */
static void two_readings_of_one_amount(void **state)
{
    (void)state;
    assert_edge("formula \"x\"\n kind other\n sodium chloride 100 g (%s kg)\n" WATER_TO_MAKE, "unit-ambiguous", "0.0941", "0.0939");
    assert_edge("formula \"x\"\n kind other\n sodium chloride %s g (0.1 kg)\n" WATER_TO_MAKE, "unit-ambiguous", "106.3", "106.5");
}

static void what_a_formula_makes(void **state)
{
    (void)state;
    static const char dry[] = "formula \"x\"\n kind other\n makes %s g\n sodium chloride 100 g\n";
    assert_edge(dry, "makes-disagrees", "101", "101.1");
    assert_edge(dry, "makes-disagrees", "99.1", "98.9");
    static const char wet[] = "formula \"x\"\n kind other\n makes %s mL\n sodium chloride 10 g\n" WATER_TO_MAKE;
    assert_edge(wet, "makes-disagrees", "1010", "1011");
    assert_edge(wet, "makes-disagrees", "991", "989");
    static const char twice[] = "formula \"x\"\n kind other\n water to make 1 L\n sodium chloride 10 g\n water to make %s mL\n";
    assert_edge(twice, "makes-disagrees", "1005", "1006");
    assert_edge(twice, "makes-disagrees", "995", "994");
}

/* Uses of one stock that are far apart: 1+1 is 2 in all, 1+14 is 15 and 1+15 is 16, which is eight times as much. */
static void dilutions_of_one_stock(void **state)
{
    (void)state;
    assert_edge("formula \"x\"\n kind developer\n for film\n water 750 mL at 45 °C\n metol 2 g\n sodium sulfite (anhydrous) 100 g\n"
                " hydroquinone 5 g\n borax (decahydrate) 2 g\n" WATER_TO_MAKE " use for film\n dilute 1+1\n use for plates\n dilute 1+%s\n",
                "amount-unusual", "14", "15");
}

static void warm_baths(void **state)
{
    (void)state;
    static const char hardener[] = "formula \"x\"\n kind hardener\n water 500 mL at %s °C\n potassium alum (dodecahydrate) 15 g\n" WATER_TO_MAKE;
    static const char fixer[] = "formula \"x\"\n kind fixer\n water 500 mL at %s °C\n sodium thiosulfate (pentahydrate) 200 g\n" WATER_TO_MAKE;
    static const char fixer_used[] = "formula \"x\"\n kind fixer\n sodium thiosulfate (pentahydrate) 200 g\n" WATER_TO_MAKE
                                     " use for paper\n temperature %s °C\n";
    static const char toner_used[] = "formula \"x\"\n kind toner\n sodium sulfide (nonahydrate) 10 g\n" WATER_TO_MAKE
                                     " use for paper\n temperature %s °C\n";
    assert_edge(hardener, "temperature-unusual", "80", "81");
    assert_edge(fixer, "temperature-unusual", "66", "67"); /* 150 °F are 65.6 °C */
    assert_edge(fixer_used, "temperature-unusual", "45", "46");
    assert_edge(toner_used, "temperature-unusual", "57", "58");
}

/* A diary may use up what was made, and the rounding of a graduate more. */
static void what_a_batch_gives(void **state)
{
    (void)state;
    assert_edge("formula \"x\"\n kind other\n sodium chloride 10 g\n water to make 500 mL\n"
                "batch \"A\" of \"x\"\n mixed 2026-03-04\n made 500 mL\n used %s mL on 2026-03-06\n",
                "amount-out-of-range", "502", "503");
    struct compiled compiled = compile("formula \"x\"\n kind other\n sodium chloride 10 g\n water to make 1 L\n"
                                       "batch \"A\" of \"x\"\n mixed 2026-03-04\n made 20 L\n used 20.5 L on 2026-03-06\n");
    const char *message = json_text_of(compiled_find(&compiled, "amount-out-of-range", 0), "message");
    assert_non_null(strstr(message, "20500 mL have been taken out of a batch of 20000 mL")); /* not 2.05e+04 */
    compiled_free(&compiled);
}

/* Regulation (EC) No 1272/2008, Annex I: up to 10 % of unknown toxicity counts as any other part of the mixture (3.1.3.6.1), more is
 * left out of it (3.1.3.6.2.3): ATE = (100 - unknown) / sum of c / ATE.  Sums by hand: 10 / 500 = 0.02. */
static void unknown_toxicity(void **state)
{
    (void)state;
    const double percents[] = {10};
    const double estimates[] = {500};
    assert_near(hazard_acute_estimate(percents, estimates, 1, 10), 100 / 0.02);
    assert_near(hazard_acute_estimate(percents, estimates, 1, 10.1), 89.9 / 0.02);
}

/* Of a liquid, plain % is by volume: 25 mL of a 10 % stock hold 2.5 mL, which weigh 2.6225 g by the density of glacial acetic acid at
 * 20 °C, 1.049 g/mL (CRC Handbook of Chemistry and Physics). */
static void percent_of_a_liquid(void **state)
{
    (void)state;
    assert_within(mass_of("metric", "acetic acid (glacial) 25 mL of 10 % stock"), 2.6225, 1e-3);
}

/* What the caller's scale shows goes before what the shelf says: 0.3 g on a scale of 0.1 g is off by up to 17 %, on one of 0.01 g by 1.7
 * (half a step of what is shown, JCGM 100:2008, 4.3.7).  A scale that is named is answered from 2 % on: 0.25 g for 0.01 g. */
static void whose_scale_it_is(void **state)
{
    (void)state;
    static const struct {
        const char *balance, *grams;
        size_t count;
    } cases[] = {{NULL, "0.3", 1}, {"0.01 g", "0.3", 0}, {"0.01 g", "0.25", 0}, {"0.01 g", "0.24", 1}, {"0.1 g", "2.5", 0}, {"0.1 g", "2.4", 1},
                 {NULL, "1.1", 0}, {NULL, "0.9", 1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        snprintf(text, sizeof text, "shelf \"s\"\n balance 0.1 g\nformula \"x\"\n kind other\n borax (decahydrate) %s g\n" WATER_TO_MAKE, cases[i].grams);
        struct potash_options options = {.balance = cases[i].balance};
        struct compiled compiled = compile_with(&options, text, strlen(text));
        if (compiled_count(&compiled, "too-small-to-weigh") != cases[i].count) {
            fail_msg("%s g, --balance %s", cases[i].grams, cases[i].balance);
        }
        compiled_free(&compiled);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_readings_of_one_amount),
        cmocka_unit_test(what_a_formula_makes),
        cmocka_unit_test(dilutions_of_one_stock),
        cmocka_unit_test(warm_baths),
        cmocka_unit_test(what_a_batch_gives),
        cmocka_unit_test(unknown_toxicity),
        cmocka_unit_test(percent_of_a_liquid),
        cmocka_unit_test(whose_scale_it_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
