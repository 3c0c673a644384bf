/* The same salt in another form, another salt of the same ion: against factors printed in books. */
#include "reckon/reckon_help.h"

struct factor {
    const char *sum;  /* of 100 g */
    double printed;   /* what the book multiplies by */
    double tolerance; /* books round to two or three figures */
};

static void hydrates_as_printed(void **state)
{
    (void)state;
    static const struct factor factors[] = {
        /* Langford's Basic Photography, appendix of formulae: x 1.2, x 2.7, x 2; 1.2 is rounded, 2.6 % off. */
        {"100 g sodium carbonate (anhydrous) as monohydrate", 1.2, 0.026},
        {"100 g sodium carbonate (anhydrous) as decahydrate", 2.7, 0.001},
        {"100 g sodium sulfite (anhydrous) as heptahydrate", 2, 0.001},
        /* Clerc, Photography: Theory and Practice, sect. 627: dry sulfite is half the crystallised weight. */
        {"15 g sodium sulfite (crystalline) as anhydrous", 0.075, 0.001},
        /* Henley's Twentieth Century Formulas, 1907, developer tables: sulfite crystals 2 x the dry salt. */
        {"100 g sodium sulfite (anhydrous) as crystalline", 2, 0.001},
        /* Anchell, The Darkroom Cookbook, 3rd ed., pp. 329-330. */
        {"100 g sodium sulfite (heptahydrate) as anhydrous", 0.5, 0.001},
        {"100 g sodium thiosulfate (anhydrous) as pentahydrate", 1.57, 0.001},
        {"100 g hypo (crystals) as anhydrous", 0.64, 0.005},
        {"100 g borax (decahydrate) as pentahydrate", 0.76, 0.006},
        {"100 g borax (pentahydrate) as decahydrate", 1.32, 0.009},
        {"100 g sodium sulfate (decahydrate) as anhydrous", 0.44, 0.003},
        {"100 g sodium sulfate (anhydrous) as decahydrate", 2.27, 0.001},
    };
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        expect_figure(factors[i].sum, 100 * factors[i].printed, factors[i].tolerance);
    }
}

static void other_salts_as_printed(void **state)
{
    (void)state;
    static const struct factor factors[] = {
        /* Anchell, The Darkroom Cookbook, 3rd ed., p. 330: equal moles of bromide, of ascorbate. */
        {"100 g sodium bromide (anhydrous) as potassium bromide", 1.16, 0.004},
        {"100 g potassium bromide as sodium bromide (anhydrous)", 0.86, 0.006},
        {"100 g sodium ascorbate as ascorbic acid", 0.889, 0.001},
        /* The same, p. 329: equal moles of carbonate. */
        {"100 g potassium carbonate (anhydrous) as sodium carbonate (monohydrate)", 0.9, 0.004},
        {"100 g sodium carbonate (monohydrate) as potassium carbonate (anhydrous)", 1.12, 0.006},
        /* The same, p. 330, prints 0.855 for the metabisulfites, in the direction potassium to sodium. */
        {"100 g potassium metabisulfite as sodium metabisulfite", 0.855, 0.001},
    };
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        expect_figure(factors[i].sum, 100 * factors[i].printed, factors[i].tolerance);
    }
    expect_note("100 g sodium bicarbonate as sodium carbonate", "the pH will differ");
    expect_refused("10 g metol as sodium sulfate", "unit-mismatch", 15, "no acting ion in common");
    expect_refused("10 g copper sulfate (pentahydrate) as sodium sulfate", "unit-mismatch", 39,
                   "no acting ion in common");
}

static void liquids(void **state)
{
    (void)state;
    /* CRC Handbook, 102nd ed. (2021): 28 % acetic acid holds 0.2897 g/mL (1.0346 g/mL), so 100 mL hold 28.97 g; the
     * glacial acid of 99.7 % at 1.049 g/mL holds 1.0459 g/mL (interpolated in the same table). */
    expect_figure("100 mL acetic acid (28 %) as glacial", 28.97 / 1.0459, 1e-3);
    expect_figure("10 mL acetic acid (glacial) as 28 %", 10 * 1.0459 / 0.2897, 1e-3);
    /* Sodium acetate, 82.03 g/mol, from acetic acid, 60.05: IUPAC standard atomic weights 2021, abridged. */
    expect_figure("60.05 g acetic acid (99 %) as sodium acetate (anhydrous)", 0.99 * 82.03, 1e-3);
    expect_figure("10 mL acetic acid (glacial) in g", 10.49, 1e-6);
}

static void printed_as_a_person_reads(void **state)
{
    (void)state;
    /* 30 g x 124.00 / 105.99 = 35.1 g: molar masses by IUPAC standard atomic weights 2021, abridged. */
    expect_line("30 g sodium carbonate (anhydrous) as monohydrate",
                "35.1 g of sodium carbonate (monohydrate)   (30 g x 124 / 106 = 35.1 g, equal moles)");
    expect_line("30 g anhydrous sodium carbonate as monohydrate",
                "35.1 g of sodium carbonate (monohydrate)   (30 g x 124 / 106 = 35.1 g, equal moles)");
    expect_line("10 g sodium carbonate, anhydrous as potassium carbonate (anhydrous)",
                "13.04 g of potassium carbonate (anhydrous)   (10 g x 138.2 / 106 = 13.04 g, equal moles of CO3--)");
    expect_note("30 g sodium sulfite as crystalline", "anhydrous is assumed");
    /* An amount that is not metric is answered in both: 2 oz = 56.7 g, half of it 28.34 g. */
    expect_line("2 oz sodium sulfite (crystalline) as anhydrous",
                "28.34 g (0.9997 oz) of sodium sulfite (anhydrous)   (56.7 g x 126 / 252.1 = 28.34 g, equal moles)");
}

static void names_that_are_not_known(void **state)
{
    (void)state;
    expect_refused("30 g sodium carbonat (anhydrous) as monohydrate", "material-unknown", 6,
                   "did you mean sodium carbonate?");
    expect_refused("30 g sodium carbonate (anhydrus) as monohydrate", "form-unknown", 24, "anhydrus");
    expect_refused("30 g sodium carbonate as monohydrat", "form-unknown", 26, "monohydrat");
    expect_refused("30 g sodium carbonate as 28 %", "form-unknown", 26, "its forms are");
    expect_refused("30 g sodium carbonate as potassium carbonat", "material-unknown", 26, "potassium carbonate");
    expect_refused("30 g as monohydrate", "syntax", 1, "the name of a material");
    expect_refused("30 mL sodium carbonate (anhydrous) as monohydrate", "unit-mismatch", 1, "cannot be reckoned");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hydrates_as_printed),
        cmocka_unit_test(other_salts_as_printed),
        cmocka_unit_test(liquids),
        cmocka_unit_test(printed_as_a_person_reads),
        cmocka_unit_test(names_that_are_not_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
