/* What a solution holds in per cent by weight: strengths, hydrates, water, solvents, working solutions. */
#include "safety_help.h"

static void assert_percent(const char *lines, const char *material, double percent, double within)
{
    json_t *json = safety_of(lines);
    double got = percent_of(stock_of(json), material);
    if (!(got >= percent - within && got <= percent + within)) {
        fail_msg("%s: %g %% instead of %g %%", material, got, percent);
    }
    json_decref(json);
}

/* CRC Handbook of Chemistry and Physics, 102nd ed. (2021), concentrative properties of aqueous solutions, 20 °C: per cent by weight,
 * and grams in a litre (percentage times density).  The density of the mixture is an estimate, so that a tenth of 1 % in 10 is let
 * pass for each 4 % of solids. */
static void per_cent_of_solutions(void **state)
{
    (void)state;
    static const struct {
        const char *line, *material;
        double percent, within;
    } cases[] = {{"    sodium hydroxide 110.9 g", "sodium hydroxide", 10, 0.25},
                 {"    sodium hydroxide 243.8 g", "sodium hydroxide", 20, 0.6},
                 {"    potassium carbonate (anhydrous) 109.04 g", "potassium carbonate", 10, 0.25},
                 {"    potassium carbonate (anhydrous) 238.0 g", "potassium carbonate", 20, 0.6},
                 {"    sodium thiosulfate (anhydrous) 108.3 g", "sodium thiosulfate", 10, 0.25},
                 {"    sodium thiosulfate (anhydrous) 382.2 g", "sodium thiosulfate", 30, 0.9}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        assert_percent(cases[i].line, cases[i].material, cases[i].percent, cases[i].within);
    }
}

/* Acids count as the pure acid.  The CRC densities: 28 % acetic acid 1.0346 g/mL, so that 100 mL hold 28.97 g; about 10 % of it in
 * water weigh 1.0037 g/mL.  The same in glacial acid: 100 mL hold 104.6 g. */
static void acids_count_pure(void **state)
{
    (void)state;
    assert_percent("    water 700 mL\n    acetic acid (28 %) 100 mL", "acetic acid", 2.89, 0.03);
    assert_percent("    water 700 mL\n    acetic acid (glacial) 100 mL", "acetic acid", 10.3, 0.15);
}

/* Hydrates count without their water (124.0 g of monohydrate hold 105.99 g of carbonate), but for those that an entry of Annex VI
 * names: borax as the decahydrate (291.29 g of pentahydrate make 381.37 g). */
static void hydrates(void **state)
{
    (void)state;
    json_t *dry = safety_of("    sodium carbonate (anhydrous) 105.99 g");
    json_t *moist = safety_of("    sodium carbonate (monohydrate) 124.00 g");
    assert_within(percent_of(stock_of(moist), "sodium carbonate"), percent_of(stock_of(dry), "sodium carbonate"), 2e-3);
    json_decref(dry);
    json_decref(moist);
    assert_percent("    borax (decahydrate) 10 g", "borax", 0.997, 0.01);
    assert_percent("    borax (pentahydrate) 7.638 g", "borax", 0.997, 0.01);
}

/* A litre of water weighs 998.2 g (CRC Handbook, 98th ed.): without a final volume the water is what was measured. */
static void water_that_was_measured(void **state)
{
    (void)state;
    json_t *json = safety_of("formula \"Bath\"\n    kind other\n    water 1 L\n    citric acid (anhydrous) 100 g\n");
    assert_within(percent_of(stock_of(json), "citric acid"), 100 / 1098.2 * 100, 1e-3);
    json_decref(json);
}

static void a_dry_mix(void **state)
{
    (void)state;
    json_t *json = safety_of("formula \"Mix\"\n    kind other\n    makes 100 g\n    citric acid (anhydrous) 25 g\n    sodium sulfate (anhydrous) 75 g\n");
    assert_near(percent_of(stock_of(json), "citric acid"), 25);
    json_decref(json);
}

/* 1+3 is a quarter by volume; a stock of 1.2 g/mL would be more than a quarter by weight. */
static void a_working_solution(void **state)
{
    (void)state;
    json_t *json = safety_of("formula \"Bath\"\n    kind other\n    potassium carbonate (anhydrous) 238 g\n    water to make 1 L\n"
                             "    use for film\n        dilute 1+3\n");
    /* 59.5 g in a litre; at about 1.047 g/mL 5.68 % */
    assert_within(percent_of(use_of(json, 0), "potassium carbonate"), 5.68, 0.02);
    json_decref(json);
}

/* The solvent of a stock counts: 10 mL of a 1 % stock in isopropyl alcohol (0.785 g/mL, memory of a handbook) bring 7.8 g. */
static void the_solvent_of_a_stock(void **state)
{
    (void)state;
    json_t *json = safety_of("stock phenidone 1 %\n    in isopropyl alcohol\n\nformula \"Bath\"\n    kind developer\n    water 500 mL\n"
                             "    phenidone 0.1 g from 1 % stock\n    water to make 1 L\n");
    assert_within(percent_of(stock_of(json), "isopropyl alcohol"), 0.78, 0.03);
    assert_within(percent_of(stock_of(json), "phenidone"), 0.01, 0.01);
    json_decref(json);
}

/* A tenth of part A, counted through. */
static void solutions_of_other_parts(void **state)
{
    (void)state;
    json_t *json = safety_of("formula \"Bath\"\n    kind other\n    part A\n    citric acid (anhydrous) 100 g\n    water to make 1 L\n    part B\n"
                             "    solution A 100 mL\n    water to make 1 L\n    use for film\n        mix B 1 + water 1\n");
    const json_t *parts = json_object_get(formula_at(json, 0), "parts");
    double a = percent_of(json_object_get(json_array_get(parts, 0), "safety"), "citric acid");
    double b = percent_of(json_object_get(json_array_get(parts, 1), "safety"), "citric acid");
    assert_within(a, 9.66, 0.02); /* 100 g in 1035 g: CRC, about 1.037 g/mL at 10 % */
    assert_within(b, 1.0, 0.01);
    assert_within(percent_of(use_of(json, 0), "citric acid"), 0.5, 0.01);
    json_decref(json);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(per_cent_of_solutions), cmocka_unit_test(acids_count_pure),
        cmocka_unit_test(hydrates),              cmocka_unit_test(water_that_was_measured),
        cmocka_unit_test(a_dry_mix),             cmocka_unit_test(a_working_solution),
        cmocka_unit_test(the_solvent_of_a_stock), cmocka_unit_test(solutions_of_other_parts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
