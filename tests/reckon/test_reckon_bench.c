/* Sums that lean on the chemistry: replacements with an alkali, dissolving, a time at another temperature. */
#include "reckon/reckon_help.h"

/* Balances of matter by hand, with molar masses from the IUPAC standard atomic weights 2021, abridged. */
static void replacements(void **state)
{
    (void)state;
    /* Na2B4O7.10H2O + 2 NaOH -> 4 NaBO2 + 11 H2O: for 4 x 137.86 g of NaBO2.4H2O, 381.36 g and 2 x 39.997 g. */
    const char *metaborate = "551.44 g sodium metaborate (tetrahydrate) as borax (decahydrate) + sodium hydroxide";
    assert_within(figure(metaborate, 0), 381.36, 3e-4);
    assert_within(figure(metaborate, 1), 79.994, 3e-4);
    /* NaHCO3 + NaOH -> Na2CO3 + H2O: 84.006 g and 39.997 g for 105.988 g. */
    const char *carbonate = "105.988 g sodium carbonate (anhydrous) as sodium bicarbonate and sodium hydroxide";
    assert_within(figure(carbonate, 0), 84.006, 3e-4);
    assert_within(figure(carbonate, 1), 39.997, 3e-4);
    /* Na2S2O5 + 2 NaOH -> 2 Na2SO3 + H2O: 190.09 g and 79.994 g for 252.08 g. */
    const char *sulfite = "252.08 g sodium sulfite (anhydrous) as sodium metabisulfite + sodium hydroxide";
    assert_within(figure(sulfite, 0), 190.09, 3e-4);
    assert_within(figure(sulfite, 1), 79.994, 3e-4);
    /* Na2S2O5 + H2O -> 2 NaHSO3: no alkali in it. */
    expect_figure("208.11 g sodium bisulfite as sodium metabisulfite", 190.09, 3e-4);
    /* As much acid from the other side: Na2SO3 + H+ -> HSO3-; half a mole of H2SO4, 98.07 g/mol, as 98 % acid. */
    const char *bisulfite = "104.06 g sodium bisulfite as sodium sulfite (anhydrous) + sulfuric acid (98 %)";
    assert_within(figure(bisulfite, 0), 126.04, 3e-4);
    assert_within(figure(bisulfite, 1), 98.07 / 2 / 0.98, 1e-3);
}

static void replacements_refused(void **state)
{
    (void)state;
    expect_refused("20 g sodium carbonate as sodium bicarbonate + potassium bromide", "unit-mismatch", 47, "neither a hydroxide");
    expect_refused("20 g sodium bisulfite as sodium metabisulfite + sodium hydroxide", "unit-mismatch", 49, "by itself");
    expect_refused("20 g sodium bisulfite as sodium sulfite + sodium hydroxide", "unit-mismatch", 43, "more alkaline");
    expect_refused("20 g borax as potassium bromide + sodium hydroxide", "unit-mismatch", 15, "no acting ion");
    expect_refused("20 g borax as sodium metaborate + ", "syntax", 35, "alkali or acid");
}

/* CRC Handbook of Chemistry and Physics, 98th ed., aqueous solubility of inorganic compounds at various temperatures: mass
 * per cent of the anhydrous salt at 20 °C, reckoned over to the hydrate that 100 g of added water hold. */
static void dissolving_hydrates(void **state)
{
    (void)state;
    static const struct {
        const char *sum;
        double tolerance; /* the library may follow another handbook */
    } sums[] = {
        {"dissolve 175.7 g sodium thiosulfate (pentahydrate) at 20 °C", 0.03},
        {"dissolve 5.0 g borax (decahydrate) at 20 °C", 0.03},
        {"dissolve 35.4 g copper sulfate (pentahydrate) at 20 °C", 0.03},
        {"dissolve 93.5 g sodium carbonate (decahydrate) at 20 °C", 0.03},
        {"dissolve 111.6 g sodium acetate (trihydrate) at 20 °C", 0.03},
        {"dissolve 26.42 g sodium sulfite (anhydrous) at 20 °C", 0.03},
    };
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
        expect_figure(sums[i].sum, 100, sums[i].tolerance);
    }
}

static void dissolving_answers(void **state)
{
    (void)state;
    /* Solubility of borax, CRC Handbook: 2.5 % at 20 °C, 3.8 % (anhydrous) at 30 °C: 30 g of crystals in 500 mL need 20 to 30. */
    json_t *json = reckoned("dissolve 30 g borax (decahydrate) in 500 mL at 20 °C");
    const char *text = json_text_of(json, "answer");
    assert_true(strncmp(text, "no: ", 4) == 0);
    double warm = json_number_of(json_array_get(json_object_get(json, "answers"), 1), "value");
    assert_true(warm > 20 && warm < 30);
    json_decref(json);
    json = reckoned("dissolve 30 g borax (decahydrate) in 500 mL at 40 °C");
    assert_true(strncmp(json_text_of(json, "answer"), "yes: ", 5) == 0);
    json_decref(json);
    expect_refused("dissolve 30 g in 500 mL", "syntax", 10, "material");
}

/* By hand: 540 s x 1.9 ^ -0.4 = 417.7 s. */
static void times(void **state)
{
    (void)state;
    expect_figure("9 min at 20 °C to 24 °C coefficient 1.9 per 10 °C", 417.73, 1e-4);
    /* Ten degrees Celsius are eighteen Fahrenheit. */
    expect_figure("9 min at 68 °F for 75.2 °F coefficient 1.9 per 18 °F", 417.73, 1e-4);
    expect_note("9 min at 20 °C to 30 °C coefficient 1.9 per 10 °C", "extrapolation");
    expect_refused("9 min at 20 °C to 24 °C", "syntax", 1, "coefficient");
    expect_refused("9 mL at 20 °C to 24 °C coefficient 1.9 per 10 °C", "unit-mismatch", 1, "no time");
    expect_refused("9 min at 20 g to 24 °C coefficient 1.9 per 10 °C", "unit-mismatch", 10, "no temperature");
    expect_refused("9 min at 20 °C to 24 °C coefficient 1.9 per 10 g", "amount-out-of-range", 45, "step of temperature");
}

/* Standards of the National Bureau of Standards at 25 °C: phthalate 4.005, equimolal phosphate 6.865 (Bates, J. Res. NBS 66A (1962)
 * 179); their weights: Lange's Handbook, 15th ed., Table 8.15. */
static void estimates_of_ph(void **state)
{
    (void)state;
    expect_figure("pH of 10.12 g potassium hydrogen phthalate in 1 L at 25 °C", 4.005, 0.05 / 4);
    expect_figure("ph of 3.53 g disodium phosphate (anhydrous) + 3.39 g monopotassium phosphate in 1 L at 77 °F", 6.865, 0.05 / 7);
    expect_figure("pH of 0.025 mol disodium phosphate (dihydrate) + 25 mmol monopotassium phosphate in 1 L at 25 °C", 6.865, 0.05 / 7);
    expect_note("pH of 2 g sodium acetate (anhydrous) in 1 L", "hardly buffered");
    expect_refused("pH of 10 g potassium bromide in 1 L", "unit-mismatch", 1, "nothing buffers it");
    expect_refused("pH of 10 g in 1 L", "syntax", 7, "material");
    expect_refused("pH of 10 g borax (decahydrate)", "syntax", 31, "the volume of the solution");
    expect_refused("pH of 10 g borax (decahydrate) in 1 L at 20 g", "unit-mismatch", 42, "no temperature");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(replacements),       cmocka_unit_test(replacements_refused), cmocka_unit_test(dissolving_hydrates),
        cmocka_unit_test(dissolving_answers), cmocka_unit_test(times),
        cmocka_unit_test(estimates_of_ph),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
