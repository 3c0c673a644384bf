/* How much dissolves, between the figures of the library and in company: against printed tables, and sums done by hand. */
#include "support/compiling.h"
#include "support/reports.h"

#include "chemistry/solubility.h"

#include <math.h>
#include <string.h>

/* A material of which nothing is known but what water takes up. */
struct case_of {
    struct form form;
    struct solubility figures[2];
    struct material material;
};

static const struct material *make(struct case_of *made, double cold, double at, double warm, double at_warm)
{
    made->form = (struct form){.percent = 100, .molar_mass = NAN, .density = NAN};
    made->figures[0] = (struct solubility){.grams = cold, .form = &made->form, .temperature = at};
    made->figures[1] = (struct solubility){.grams = warm, .form = &made->form, .temperature = at_warm};
    made->material = (struct material){
        .usual = &made->form, .forms = &made->form, .form_count = 1, .solubilities = made->figures, .solubility_count = 2};
    return &made->material;
}

/* A figure that is left out of a table is found again between its neighbours.  Boric acid: CRC Handbook of Chemistry and Physics,
 * 98th ed. (2017), aqueous solubility table; the others: printed school tables, g of anhydrous substance in 100 g of water. */
static void the_middle_of_a_table(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double at_20, at_40, at_60;
    } rows[] = {
        {"boric acid", 5.01, 8.81, 14.81},
        {"copper sulfate", 20.7, 28.5, 40},
        {"ammonium chloride", 37.2, 45.8, 55.2},
        {"sodium bicarbonate", 9.6, 12.7, 16.4},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct case_of made;
        const struct material *material = make(&made, rows[i].at_20, 20, rows[i].at_60, 60);
        assert_within(solubility_dry(material, 40), rows[i].at_40, 0.04);
        assert_near(solubility_dry(material, 20), rows[i].at_20);
        assert_near(solubility_dry(material, 60), rows[i].at_60);
    }
}

/* By hand: 1 g at 20 °C and 10 g at 60 °C; 2 g are reached where 1/T has gone lg 2 of the way: 1/(1/293.15 - 0.30103 x
 * (1/293.15 - 1/333.15)) - 273.15 = 30.98 °C. */
static void a_temperature_between_two_figures(void **state)
{
    (void)state;
    struct case_of made;
    const struct material *material = make(&made, 1, 20, 10, 60);
    assert_near(solubility_temperature_for(material, &made.form, 2, 100, 20), 31);
    /* Figures 40 °C apart speak of what lies between them; 41 °C apart they do not. */
    make(&made, 1, 20, 10, 60);
    assert_true(!isnan(solubility_temperature_for(material, &made.form, 5, 100, 20)));
    make(&made, 1, 19, 10, 60);
    assert_true(isnan(solubility_temperature_for(material, &made.form, 5, 100, 20)));
    /* At the figure itself it is known, whatever lies before it. */
    make(&made, 1, 0, 10, 60);
    assert_near(solubility_temperature_for(material, &made.form, 10, 100, 20), 60);
}

/* What a sheet says beside the rows of a bath with these lines. */
static bool sheet_says(const char *lines, const char *what)
{
    char text[1000];
    snprintf(text, sizeof text, "formula \"Saltmarsh trial bath\"\n    kind developer\n    water 750 mL at 20 °C\n%s    water to make 1 L\n", lines);
    char *sheet = report_text_of(potash_sheet, NULL, text, POTASH_TEXT);
    bool says = strstr(sheet, what) != NULL;
    free(sheet);
    return says;
}

/* Glycin is an amino acid: hardly soluble in water, dissolved by alkali, mole for mole at the least (common practice).  10 g are
 * 10/167.16 = 59.8 mmol, 59.8 mmol of sodium carbonate 6.34 g. */
static void an_alkali_dissolves_glycin(void **state)
{
    (void)state;
    assert_false(sheet_says("sodium carbonate (anhydrous) 6.4 g\nglycin 10 g\n", "not dissolve nearly that much"));
    assert_true(sheet_says("sodium carbonate (anhydrous) 6.3 g\nglycin 10 g\n", "not dissolve nearly that much"));
    assert_true(sheet_says("glycin 10 g\nsodium carbonate (anhydrous) 50 g\n", "Water alone does not dissolve all of it"));
    assert_false(sheet_says("sodium carbonate (anhydrous) 50 g\nglycin 10 g\n", "glycin may come out"));
}

/* Water that is twenty times what the vessel holds is no advice: 15 L for 750 mL, in which 3 g of glycin dissolve (0.2 g/L). */
static void no_hopeless_advice(void **state)
{
    (void)state;
    assert_true(sheet_says("glycin 2.9 g\n", "it takes about 14.5"));
    assert_true(sheet_says("glycin 3.1 g\n", "not dissolve nearly that much"));
}

/* Phenidone is known at 25 °C and at 100 °C only: nobody can say at which temperature 2 g dissolve in 100 mL. */
static void no_temperature_across_a_gap(void **state)
{
    (void)state;
    assert_true(sheet_says("phenidone 20 g\n", "not all dissolve here: at 20"));
    assert_false(sheet_says("phenidone 20 g\n", "of water, or"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_middle_of_a_table),
        cmocka_unit_test(a_temperature_between_two_figures),
        cmocka_unit_test(an_alkali_dissolves_glycin),
        cmocka_unit_test(no_hopeless_advice),
        cmocka_unit_test(no_temperature_across_a_gap),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
