/* Molar masses, hydrates and their equivalents, solubilities: the library's figures against published ones. */
#include "support/library_help.h"

#include <math.h>

static void assert_close(const char *what, double got, double wanted, double relative)
{
    if (!(fabs(got - wanted) <= relative * fabs(wanted))) {
        fail_msg("%s: %.9g instead of %.9g", what, got, wanted);
    }
}

static double molar_mass(const char *formula)
{
    double waters;
    size_t fault = 0;
    return library_molar_mass(&library, text_from(formula), &waters, &fault);
}

/* g/mol by the standard atomic weights of CIAAW/IUPAC, 2021 (conventional values), worked out outside this program. */
static void molar_masses_of_forms(void **state)
{
    (void)state;
    static const struct {
        const char *material;
        const char *form;
        double molar_mass;
    } cases[] = {
        {"sodium carbonate", "anhydrous", 105.988},
        {"sodium carbonate", "monohydrate", 124.003},
        {"sodium carbonate", "decahydrate", 286.138},
        {"sodium sulfite", "anhydrous", 126.037},
        {"sodium sulfite", "heptahydrate", 252.142},
        {"sodium thiosulfate", "anhydrous", 158.097},
        {"sodium thiosulfate", "pentahydrate", 248.172},
        {"borax", "anhydrous", 201.213},
        {"borax", "pentahydrate", 291.288},
        {"borax", "decahydrate", 381.363},
        {"sodium metaborate", "tetrahydrate", 137.858},
        {"trisodium phosphate", "dodecahydrate", 380.119},
        {"disodium hydrogen phosphate", "dodecahydrate", 358.137},
        {"sodium sulfate", "decahydrate", 322.186},
        {"citric acid", "anhydrous", 192.123},
        {"citric acid", "monohydrate", 210.138},
        {"potassium alum", "dodecahydrate", 474.372},
        {"chrome alum", "dodecahydrate", 499.386},
        {"copper sulfate", "pentahydrate", 249.677},
        {"oxalic acid", "dihydrate", 126.064},
        {"sodium acetate", "trihydrate", 136.079},
        {"magnesium sulfate", "heptahydrate", 246.466},
        {"potassium carbonate", "sesquihydrate", 165.227},
        {"potassium ferrocyanide", "trihydrate", 422.391},
        {"sodium sulfide", "nonahydrate", 240.175},
        {"ferrous sulfate", "heptahydrate", 278.006},
        {"ferric chloride", "hexahydrate", 270.285},
        {"disodium edta", "dihydrate", 372.238},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct form *form = form_called(cases[i].material, cases[i].form);
        /* The published figures have six digits. */
        assert_close(cases[i].material, form->molar_mass, cases[i].molar_mass, 1e-5);
    }
    /* Borax against a printed equivalent weight: half of 381.3721 (acid-base titration standards, titrations.info). */
    assert_close("borax", form_called("borax", "decahydrate")->molar_mass, 381.3721, 5e-5);
}

static void formulas_of_every_shape(void **state)
{
    (void)state;
    const double water = 2 * 1.008 + 15.999; /* CIAAW 2021 */
    assert_close("H2O", molar_mass("H2O"), water, 1e-9);
    assert_close("dot", molar_mass("Na2SO3.7H2O") - molar_mass("Na2SO3"), 7 * water, 1e-9);
    assert_close("middle dot", molar_mass("Na2SO3\u00B77H2O"), molar_mass("Na2SO3.7H2O"), 1e-12);
    assert_close("half waters", molar_mass("K2CO3.1.5H2O") - molar_mass("K2CO3"), 1.5 * water, 1e-9);
    assert_close("brackets", molar_mass("(NH4)2S2O3"), molar_mass("N2H8S2O3"), 1e-12);
    assert_close("inner brackets", molar_mass("Fe(C(OH)2)3"), molar_mass("FeC3O6H6"), 1e-12);
    assert_close("one letter twice", molar_mass("CO"), 12.011 + 15.999, 1e-9); /* carbon and oxygen, not cobalt */
    assert_close("a charge", molar_mass("SO3--"), molar_mass("SO3"), 1e-12);
    double waters;
    size_t fault;
    library_molar_mass(&library, TEXT("KAl(SO4)2.12H2O"), &waters, &fault);
    assert_close("waters", waters, 12, 1e-12);
    library_molar_mass(&library, TEXT("H2O"), &waters, &fault);
    assert_true(waters == 0); /* water itself is no hydrate */
}

static void formulas_that_are_none(void **state)
{
    (void)state;
    static const struct {
        const char *formula;
        size_t fault;
    } cases[] = {{"", 0},   {"Xx2", 0},     {"NaX", 2},  {"Na(", 3},          {"Na)", 2},
                 {"na", 0}, {"Na2SO3.", 7}, {"Na 2", 2}, {"((((((((((Na", 8}, {"Na2SO3.7", 8}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double waters;
        size_t fault = 99;
        double mass = library_molar_mass(&library, text_from(cases[i].formula), &waters, &fault);
        if (!isnan(mass) || fault != cases[i].fault) {
            fail_msg("\"%s\": %g, fault at %zu instead of %zu", cases[i].formula, mass, fault, cases[i].fault);
        }
    }
}

/* Factors from one form to another as books print them, to the figures printed. */
static void printed_factors(void **state)
{
    (void)state;
    static const struct {
        const char *material;
        const char *from;
        const char *to;
        double factor;
        double relative; /* the rounding of print */
    } cases[] = {
        /* Langford's Basic Photography, Appendix D */
        {"sodium carbonate", "anhydrous", "decahydrate", 2.7, 0.002},
        {"sodium sulfite", "anhydrous", "heptahydrate", 2.0, 0.002},
        /* Anchell, The Darkroom Cookbook, 3rd ed., p. 329 and 330; the printed figures are off by up to 1 % */
        {"sodium thiosulfate", "anhydrous", "pentahydrate", 1.57, 0.002},
        {"sodium thiosulfate", "pentahydrate", "anhydrous", 0.64, 0.01},
        {"sodium sulfite", "heptahydrate", "anhydrous", 0.5, 0.002},
        {"borax", "decahydrate", "pentahydrate", 0.76, 0.01},
        {"borax", "pentahydrate", "decahydrate", 1.32, 0.01},
        /* commonly printed, memory */
        {"sodium carbonate", "anhydrous", "monohydrate", 1.17, 0.002},
        {"sodium carbonate", "monohydrate", "anhydrous", 0.85, 0.01},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double got = form_equivalent(form_called(cases[i].material, cases[i].from),
                                     form_called(cases[i].material, cases[i].to), 1);
        assert_close(cases[i].material, got, cases[i].factor, cases[i].relative);
    }
}

/* Equal moles of bromide, carbonate, ascorbate: Anchell, The Darkroom Cookbook, 3rd ed., p. 329 and 330. */
static void printed_substitutions(void **state)
{
    (void)state;
    assert_close(
        "NaBr to KBr",
        form_equivalent(material_called("sodium bromide")->usual, material_called("potassium bromide")->usual, 1), 1.16,
        0.004);
    assert_close(
        "KBr to NaBr",
        form_equivalent(material_called("potassium bromide")->usual, material_called("sodium bromide")->usual, 1), 0.86,
        0.006);
    assert_close("K2CO3 to monohydrate",
                 form_equivalent(form_called("potassium carbonate", "anhydrous"),
                                 form_called("sodium carbonate", "monohydrate"), 1),
                 0.9, 0.004);
    assert_close(
        "ascorbate to acid",
        form_equivalent(material_called("sodium ascorbate")->usual, material_called("ascorbic acid")->usual, 1), 0.889,
        0.001);
}

/* Strengths of liquids are counted in: 28 % acetic acid as glacial. */
static void strengths_are_counted_in(void **state)
{
    (void)state;
    const struct form *glacial = form_called("acetic acid", "glacial");
    const struct form *weak = form_called("acetic acid", "28 %");
    assert_close("glacial as 28 %", form_equivalent(glacial, weak, 10), 10 * glacial->percent / 28, 1e-9);
    /* Three parts of glacial with eight of water make the 28 % acid: common practice. */
    double volume = form_equivalent(glacial, weak, 3 * glacial->density) / weak->density;
    assert_close("3 + 8", volume, 11, 0.03);
    /* Ammonia 0.880 holds about 35 % by weight (Clerc, Photography: Theory and Practice, sect. 358 and following). */
    const struct form *ammonia = form_called("ammonia", "0.880");
    assert_close("0.880", ammonia->density, 0.88, 1e-9);
    assert_close("0.880 strength", ammonia->percent, 35, 0.02);
}

/* g of the anhydrous salt in 100 g of water: CRC Handbook of Chemistry and Physics, 98th ed. (2017), aqueous
 * solubility. */
static void solubilities(void **state)
{
    (void)state;
    static const struct {
        const char *material;
        const char *form;
        double temperature;
        double grams;
    } cases[] = {
        {"sodium sulfite", "anhydrous", 20, 26.42},
        {"sodium carbonate", "anhydrous", 20, 21.8},
        {"potassium bromide", NULL, 20, 65.02},
        {"sodium chloride", NULL, 20, 35.89},
        {"potassium ferricyanide", NULL, 20, 45.14},
        {"potassium iodide", NULL, 20, 143.9},
        {"borax", "anhydrous", 20, 2.56},
        {"borax", "anhydrous", 40, 6.41},
        {"silver nitrate", NULL, 20, 210.56},
        {"sodium thiosulfate", "anhydrous", 40, 108.33},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct material *material = material_called(cases[i].material);
        double grams = material_solubility(material, cases[i].temperature);
        if (cases[i].form != NULL && material->usual != form_called(cases[i].material, cases[i].form)) {
            grams = form_equivalent(material->usual, form_called(cases[i].material, cases[i].form), grams);
        }
        assert_close(cases[i].material, grams, cases[i].grams, 0.02);
    }
    /* Between two figures, and beyond the last. */
    const struct material *bromide = material_called("potassium bromide");
    double at_20 = material_solubility(bromide, 20);
    double at_22 = material_solubility(bromide, 22);
    assert_true(at_22 > at_20 && at_22 < at_20 * 1.05);
    assert_true(material_solubility(bromide, 200) > at_20);
    assert_true(isinf(material_solubility(material_called("acetic acid"), 20)));
}

static void a_saturated_solution(void **state)
{
    (void)state;
    /* 26.4 % w/w at 20 °C, density 1.20 g/mL: 31.7 g in 100 mL (memory; the density of brine stands in any handbook).
     */
    const struct material *salt = material_called("sodium chloride");
    assert_close("brine", material_saturated_percent(salt, salt->usual), 31.7, 0.03);
    /* 39.4 % w/w (CRC, 98th ed.), density 1.37 g/mL (memory): 54 g in 100 mL. */
    const struct material *bromide = material_called("potassium bromide");
    assert_close("bromide", material_saturated_percent(bromide, bromide->usual), 54, 0.05);
    assert_true(isnan(material_saturated_percent(material_called("acetic acid"), NULL)));
}

static void every_declaration_is_sound(void **state)
{
    (void)state;
    library_make_all(&library, false);
    if (diagnostics.count > 0) {
        struct outlet out = {.take = NULL};
        buffer_start(&out.text, &arena);
        diagnostics_finish(&diagnostics);
        diagnostics_print(&diagnostics, &out, false, 0);
        fail_msg("the library has faults:\n%.3000s", buffer_finish(&out.text));
    }
}

static size_t materials_seen;

static void look_at(void *context, const struct material *material)
{
    (void)context;
    materials_seen++;
    assert_true(material->name.length > 0);
    assert_non_null(material->usual);
    assert_true(material->role_count > 0 || material->is_water);
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        /* Tannic acid, C76H52O46, is the heaviest. */
        if (form->chemical.length > 0 && !(form->molar_mass > 1 && form->molar_mass < 1800)) {
            fail_msg("%.*s: %g g/mol", TEXT_ARGUMENTS(material->name), form->molar_mass);
        }
        assert_true(form->percent > 0 && form->percent <= 100);
        /* Liquids have a density between ether's and mercury's. */
        assert_true(isnan(form->density) || (form->density > 0.6 && form->density < 14));
    }
    for (size_t i = 0; i < material->typical_count; i++) {
        assert_true(material->typical[i].low > 0 && material->typical[i].low <= material->typical[i].high);
    }
}

static void every_material_is_whole(void **state)
{
    (void)state;
    materials_seen = 0;
    library_each_material(&library, look_at, NULL);
    assert_true(materials_seen > 150);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(molar_masses_of_forms),
        WITH_LIBRARY(formulas_of_every_shape),
        WITH_LIBRARY(formulas_that_are_none),
        WITH_LIBRARY(printed_factors),
        WITH_LIBRARY(printed_substitutions),
        WITH_LIBRARY(strengths_are_counted_in),
        WITH_LIBRARY(solubilities),
        WITH_LIBRARY(a_saturated_solution),
        WITH_LIBRARY(every_declaration_is_sound),
        WITH_LIBRARY(every_material_is_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
