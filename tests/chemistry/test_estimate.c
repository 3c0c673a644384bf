/* Estimated pH of baths, what is said where there is none, and the declarations that it rests on. */
#include "support/compiling.h"

#include <math.h>
#include <string.h>

static struct compiled bath(const char *lines)
{
    static char text[4000];
    snprintf(text, sizeof text, "formula \"Bath\"\n    kind other\n    water 500 mL\n%s    water to make 1 L\n", lines);
    return compile(text);
}

static const json_t *first_part(struct compiled *compiled)
{
    return json_array_get(json_object_get(compiled_formula(compiled, 0), "parts"), 0);
}

static double ph_of(const char *lines)
{
    struct compiled compiled = bath(lines);
    const json_t *part = first_part(&compiled);
    if (!json_is_object(json_object_get(part, "estimate"))) {
        fail_msg("no estimate: %s\n%s", json_text_of(part, "estimate_missing"), lines);
    }
    double pH = json_number_of(json_object_get(part, "estimate"), "pH");
    compiled_free(&compiled);
    return pH;
}

static void expect_between(const char *lines, double low, double high)
{
    double pH = ph_of(lines);
    if (!(pH >= low && pH <= high)) {
        fail_msg("pH %.2f is not between %.1f and %.1f:\n%s", pH, low, high, lines);
    }
}

/* Ranges in which the trade expects such baths: common practice, no source. */
static void baths_of_the_trade(void **state)
{
    (void)state;
    expect_between("metol 3 g\nsodium sulfite (anhydrous) 45 g\nhydroquinone 12 g\nsodium carbonate (anhydrous) 68 g\n"
                   "potassium bromide 2 g\n",
                   10.1, 10.6);
    expect_between("metol 2 g\nsodium sulfite (anhydrous) 100 g\nhydroquinone 5 g\nborax (decahydrate) 2 g\n", 8.3, 9.0);
    expect_between("sodium thiosulfate (pentahydrate) 240 g\nsodium sulfite (anhydrous) 15 g\nacetic acid (glacial) 13 mL\n"
                   "boric acid (crystals) 7.5 g\npotassium alum (dodecahydrate) 15 g\n",
                   3.8, 5.3);
    expect_between("citric acid (monohydrate) 15 g\n", 2.0, 2.4);
    expect_between("acetic acid (glacial) 15 mL\n", 2.5, 2.9);
    expect_between("hydroquinone 25 g\npotassium metabisulfite 25 g\n", 3.8, 4.6);
    expect_between("sodium hydroxide 50 g\n", 13.6, 14.2);
}

/* Textbook figures of single substances at 25 °C, by which a slip of a constant or a form would show; at 20 °C the differences stay
 * under 0.3.  0.1 mol/L: acetic acid 2.9, sodium carbonate 11.6, ammonia 11.1, borax 9.2, disodium citrate … (Merck Index, entries on
 * the substances; CRC Handbook, approximate pH of acids and bases). */
static void single_substances(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        double pH;
    } published[] = {
        {"acetic acid (glacial) 0.1 mol\n", 2.9},      {"citric acid 0.1 mol\n", 2.1},
        {"oxalic acid 0.05 mol\n", 1.6},               {"tartaric acid 0.05 mol\n", 2.2},
        {"boric acid 0.1 mol\n", 5.2},                 {"hydrochloric acid 0.1 mol\n", 1.1},
        {"sodium bicarbonate 0.1 mol\n", 8.4},         {"sodium carbonate (anhydrous) 0.1 mol\n", 11.6},
        {"borax (decahydrate) 0.05 mol\n", 9.2},       {"ammonia 0.1 mol\n", 11.1},
        {"sodium hydroxide 0.1 mol\n", 13.0},          {"trisodium phosphate (dodecahydrate) 0.03 mol\n", 12.0},
        {"potassium alum (dodecahydrate) 0.1 mol\n", 3.4},
    };
    for (size_t i = 0; i < sizeof published / sizeof *published; i++) {
        double pH = ph_of(published[i].line);
        if (!(fabs(pH - published[i].pH) < 0.3)) {
            fail_msg("%s is at %.2f, not %.1f", published[i].line, pH, published[i].pH);
        }
    }
}

/* Equal moles of another form or another salt of the same acid give the same pH. */
static void forms_do_not_matter(void **state)
{
    (void)state;
    double anhydrous = ph_of("sodium carbonate (anhydrous) 0.2 mol\nsodium sulfite (anhydrous) 0.1 mol\n");
    assert_true(fabs(anhydrous - ph_of("sodium carbonate (decahydrate) 0.2 mol\nsodium sulfite (heptahydrate) 0.1 mol\n")) < 0.01);
    assert_true(fabs(anhydrous - ph_of("sodium bicarbonate 0.2 mol\nsodium hydroxide 0.2 mol\n"
                                       "sodium metabisulfite 0.05 mol\nsodium hydroxide 0.1 mol\n")) < 0.01);
    assert_true(fabs(ph_of("sodium metaborate 0.1 mol\n") -
                     ph_of("borax (decahydrate) 0.025 mol\nsodium hydroxide 0.05 mol\n")) < 0.01);
}

static void expect_missing(const char *lines, const char *reason)
{
    struct compiled compiled = bath(lines);
    const json_t *part = first_part(&compiled);
    assert_true(json_is_null(json_object_get(part, "estimate")));
    if (strstr(json_text_of(part, "estimate_missing"), reason) == NULL) {
        fail_msg("\"%s\" does not say \"%s\"", json_text_of(part, "estimate_missing"), reason);
    }
    compiled_free(&compiled);
}

static void reasons_for_none(void **state)
{
    (void)state;
    expect_missing("potassium bromide 10 g\n", "nothing buffers it");
    expect_missing("glucose 10 g\n", "nothing in it gives ions");
    expect_missing("sodium carbonate (anhydrous) 20 g\nammonia as needed\n", "how much ammonia goes in");
    expect_missing("sodium carbonate (anhydrous) 20 g\nformaldehyde 50 mL\n", "formaldehyde");
    expect_missing("stannous chloride (dihydrate) 20 g\n", "Sn²⁺");
    expect_missing("sodium carbonate (anhydrous) 1 g\nisopropyl alcohol (99 %) 460 mL\n", "too little of it is water");
    struct compiled dry = compile("formula \"Dry\"\n kind developer\n makes 100 g\n metol 20 g\n sodium sulfite (anhydrous) 80 g\n");
    assert_non_null(strstr(json_text_of(first_part(&dry), "estimate_missing"), "dry mix"));
    compiled_free(&dry);
    struct compiled hot = compile("formula \"Hot\"\n kind other\n water 500 mL\n borax 10 g\n water to make 1 L\n"
                                  " use for x\n temperature 70 °C\n");
    assert_non_null(strstr(json_text_of(compiled_use(&hot, 0), "estimate_missing"), "10 to 55"));
    compiled_free(&hot);
}

static bool cautions_of(const char *lines, const char *words)
{
    struct compiled compiled = bath(lines);
    const json_t *cautions = json_object_get(json_object_get(first_part(&compiled), "estimate"), "cautions");
    bool found = false;
    for (size_t i = 0; i < json_array_size(cautions); i++) {
        found = found || strstr(json_string_value(json_array_get(cautions, i)), words) != NULL;
    }
    compiled_free(&compiled);
    return found;
}

static void cautions(void **state)
{
    (void)state;
    assert_true(cautions_of("sodium bicarbonate 20 g\ncitric acid (monohydrate) 20 g\n", "carbon dioxide leaves"));
    assert_false(cautions_of("sodium carbonate (anhydrous) 20 g\n", "carbon dioxide"));
    assert_true(cautions_of("ammonia 100 mL\n", "ammonia leaves"));
    assert_true(cautions_of("sodium thiosulfate (pentahydrate) 200 g\ncitric acid (monohydrate) 30 g\n", "thiosulfate breaks down"));
    assert_true(cautions_of("potassium alum (dodecahydrate) 15 g\nsodium acetate (anhydrous) 20 g\n", "is not reckoned"));
    assert_false(cautions_of("potassium alum (dodecahydrate) 15 g\n", "is not reckoned"));
    assert_true(cautions_of("sodium acetate (anhydrous) 2 g\n", "hardly buffered"));
    assert_true(cautions_of("sodium carbonate (anhydrous) 20 g\nformaldehyde 0.05 g\n", "formaldehyde is left out"));
    assert_true(cautions_of("sodium carbonate (anhydrous) 20 g\nethanol 100 mL\n", "other solvents"));
}

/* Doubt in a constant of a bath's own acid widens the reach: metol and sulfite without alkali against a carbonate buffer. */
static void reach_follows_doubt(void **state)
{
    (void)state;
    struct compiled sure = bath("sodium carbonate (anhydrous) 3 g\nsodium bicarbonate 2 g\n");
    struct compiled doubtful = bath("metol 10 g\nsodium hydroxide 3 g\n");
    double small = json_number_of(json_object_get(first_part(&sure), "estimate"), "within");
    double large = json_number_of(json_object_get(first_part(&doubtful), "estimate"), "within");
    assert_true(small < 0.1 && large > 0.2);
    compiled_free(&sure);
    compiled_free(&doubtful);
}

/* A part's estimate is of the part, a use's of its working solution at its temperature. */
static void parts_and_uses(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"Two\"\n kind other\n part A\n water 500 mL\n citric acid (monohydrate) 21 g\n"
                                       " water to make 1 L\n part B\n water 500 mL\n disodium phosphate (anhydrous) 28.4 g\n"
                                       " water to make 1 L\n use for x\n mix A 1 + B 1\n temperature 25 °C\n");
    const json_t *parts = json_object_get(compiled_formula(&compiled, 0), "parts");
    double acid = json_number_of(json_object_get(json_array_get(parts, 0), "estimate"), "pH");
    double base = json_number_of(json_object_get(json_array_get(parts, 1), "estimate"), "pH");
    const json_t *use = json_object_get(compiled_use(&compiled, 0), "estimate");
    assert_true(acid < 2.4 && base > 8.8);
    /* McIlvaine, J. Biol. Chem. 49 (1921) 183: of 0.1 mol/L citric acid and 0.2 mol/L phosphate 9.70 + 10.30 mL stand at pH 5.0. */
    assert_true(fabs(json_number_of(use, "pH") - 5.0) < 0.15);
    assert_true(json_number_of(use, "temperature_C") == 25);
    compiled_free(&compiled);
}

/* Per litre, by hand: 0.1 mol of sodium sulfate is (0.2 + 4 x 0.1) / 2 = 0.3 and 0.3 ions; sulfite hardly hydrolyses beside it. */
static void ions_in_a_litre(void **state)
{
    (void)state;
    struct compiled compiled = bath("sodium sulfate (anhydrous) 0.1 mol\nsodium sulfite (anhydrous) 0.1 mol\n");
    const json_t *estimate = json_object_get(first_part(&compiled), "estimate");
    assert_within(json_number_of(estimate, "ionic_strength"), 0.6, 0.002);
    assert_within(json_number_of(estimate, "total_ions"), 0.6, 0.002);
    compiled_free(&compiled);
}

/* ---- declarations ---- */

static void declarations(void **state)
{
    (void)state;
    expect_clean("equilibrium marsh acid\n    pk HC4H2O4- 5.8 at 25 °C gives C4H2O4-- enthalpy 2 kcal/mol within 0.2 source \"x\"\n");
    expect_one("equilibrium marsh acid\n    pk HC4H2O4- 5.8 at 25 °C gives C4H2O4-\n", "syntax", 2, 36);
    expect_one("equilibrium marsh acid\n    pk HC4H2O4- 5.8 at 25 min gives C4H2O4--\n", "unit-mismatch", 2, 24);
    expect_one("equilibrium marsh acid\n    pk HC4H2O4- 5.8 at 25 °C\n", "syntax", 2, 8);
    expect_one("equilibrium marsh acid\n    pk HC4H2O4- 5.8 gives C4H4O4--\n", "syntax", 2, 27);
    expect_one("equilibrium marsh acid\n    pk HXq- 5.8 gives Xq--\n", "syntax", 2, 8);
    expect_one("equilibrium marsh acid\n    inert Na+\n", "declared-twice", 2, 11);
    expect_one("equilibrium marsh acid\n    pk HCO3- 5.8 gives CO3--\n", "declared-twice", 2, 8);
    expect_one("equilibrium marsh acid\n    interaction Na+ with K+ 0.1\n", "syntax", 2, 26);
    expect_one("equilibrium carbonic acid\n    note \"x\"\n", "declared-twice", 1, 13);
    expect_one("material foo\n    form Na2SO3\n    ions Na+, SO3--\n", "syntax", 3, 5);
    expect_one("material foo\n    form Na2SO3\n    ions nothing\n", "syntax", 3, 10);
    expect_list("equilibrium marsh acid\n    pk 5.8 gives C4H2O4--\n    pk HC4H2O4- 5.8 at gives C4H2O4--\n", "syntax:2 syntax:3");
}

/* A user's acid is reckoned with: 0.1 mol/L of an acid of pK 4.00 half turned into its salt stands at its pK, less the activities:
 * 4.00 - 0.51 sqrt(0.05) / (1 + 1.5 sqrt(0.05)) = 3.91 (Debye and Hückel). */
static void an_acid_of_ones_own(void **state)
{
    (void)state;
    struct compiled compiled = compile("equilibrium marsh acid\n    pk C4H3O3OH 4.00 at 20 °C gives C4H3O4- source \"x\"\n"
                                       "material marsh acid\n    role acid\n    form C4H4O4\n    ions H+, C4H3O4-\n"
                                       "formula \"Own\"\n    kind buffer\n    water 500 mL\n    marsh acid 0.1 mol\n"
                                       "    sodium hydroxide 0.05 mol\n    water to make 1 L\n");
    assert_true(fabs(json_number_of(json_object_get(first_part(&compiled), "estimate"), "pH") - 3.91) < 0.02);
    compiled_free(&compiled);
    struct compiled replaced = compile("equilibrium acetic acid, replacing the library's\n    pk CH3COOH 7.00 at 20 °C gives CH3COO-\n"
                                       "formula \"Own\"\n    kind buffer\n    water 500 mL\n    acetic acid (glacial) 0.01 mol\n"
                                       "    sodium acetate (anhydrous) 0.01 mol\n    water to make 1 L\n");
    assert_true(fabs(json_number_of(json_object_get(first_part(&replaced), "estimate"), "pH") - 6.96) < 0.02);
    compiled_free(&replaced);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(baths_of_the_trade), cmocka_unit_test(single_substances), cmocka_unit_test(forms_do_not_matter),
        cmocka_unit_test(reasons_for_none),   cmocka_unit_test(cautions),          cmocka_unit_test(reach_follows_doubt),
        cmocka_unit_test(parts_and_uses),     cmocka_unit_test(ions_in_a_litre),
        cmocka_unit_test(declarations),      cmocka_unit_test(an_acid_of_ones_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
