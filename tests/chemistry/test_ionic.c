/* Ionic equilibrium: constants against published tables, balances on random mixtures, and the limits that theory gives. */
#include "support/library_help.h"

#include "chemistry/ionic.h"
#include "chemistry/water.h"

#include <math.h>

enum { MOST_AMOUNTS = 12 };

struct mixture {
    struct ionic_amount amounts[MOST_AMOUNTS];
    size_t count;
};

static void put(struct mixture *mixture, const char *formula, double molality)
{
    const struct species *species = equilibria_species(library_equilibria(&library), text_from(formula));
    assert_non_null(species);
    mixture->amounts[mixture->count++] = (struct ionic_amount){species, molality};
}

static struct ionic_state solved(const struct mixture *mixture, double celsius)
{
    struct ionic_state state =
        ionic_solve(&arena, library_equilibria(&library), mixture->amounts, mixture->count, celsius, NULL, 0);
    assert_int_equal(state.status, IONIC_SOLVED);
    return state;
}

static const struct acid_step *step_of(const char *acid)
{
    const struct species *species = equilibria_species(library_equilibria(&library), text_from(acid));
    assert_non_null(species);
    for (size_t i = 0; i < species->family->step_count; i++) {
        if (species->family->steps[i].acid == species && species->family->steps[i].count == 1) {
            return &species->family->steps[i];
        }
    }
    fail_msg("%s has no step", acid);
    return NULL;
}

/* ---- constants ---- */

static void water_by_temperature(void **state)
{
    (void)state;
    /* Density: CIPM formula, Tanaka et al., Metrologia 38 (2001) 301: 0.999103, 0.998207, 0.997047, 0.992216 kg/L. */
    assert_true(fabs(water_density(15) - 0.999103) < 2e-5);
    assert_true(fabs(water_density(20) - 0.998207) < 2e-5);
    assert_true(fabs(water_density(25) - 0.997047) < 2e-5);
    assert_true(fabs(water_density(40) - 0.992216) < 2e-5);
    /* Permittivity: IAPWS R8-97 gives 80.2 at 20 °C and 78.4 at 25 °C. */
    assert_true(fabs(water_permittivity(20) - 80.2) < 0.15);
    assert_true(fabs(water_permittivity(25) - 78.4) < 0.15);
    /* Limiting slope, molal: 0.51 (Bates, Determination of pH, 1973). */
    assert_true(fabs(water_limiting_slope(25) - 0.510) < 0.002);
}

struct published_pk {
    const char *acid;
    double celsius;
    double pk;
    double within;
};

/* Water: CRC Handbook of Chemistry and Physics, ion product of water.  Carbonic acid: Plummer and Busenberg, Geochim. Cosmochim. Acta
 * 46 (1982) 1011.  They were not used to set the library's temperature terms. */
static void constants_by_temperature(void **state)
{
    (void)state;
    static const struct published_pk published[] = {
        {"H2O", 15, 14.34, 0.02},    {"H2O", 20, 14.17, 0.02},    {"H2O", 30, 13.83, 0.02},    {"H2O", 40, 13.53, 0.02},
        {"H2O", 50, 13.26, 0.02},    {"CO2", 15, 6.419, 0.02},    {"CO2", 40, 6.297, 0.02},    {"CO2", 50, 6.286, 0.03},
        {"HCO3-", 15, 10.428, 0.02}, {"HCO3-", 40, 10.222, 0.02}, {"HCO3-", 50, 10.174, 0.03},
    };
    for (size_t i = 0; i < sizeof published / sizeof *published; i++) {
        double pk = ionic_pk(step_of(published[i].acid), published[i].celsius);
        if (!(fabs(pk - published[i].pk) < published[i].within)) {
            fail_msg("pK of %s at %g °C is %.3f, not %.3f", published[i].acid, published[i].celsius, pk, published[i].pk);
        }
    }
}

/* A constant measured at an ionic strength is brought to none.  Acetic acid: 4.756 at 0 and 4.56 at 0.1 mol/L, both by
 * concentrations (NIST Database 46); with the hydrogen ion by its activity the latter is 4.56 + 0.11 = 4.67. */
static void constants_at_an_ionic_strength(void **state)
{
    (void)state;
    static const struct pk_statement statement;
    struct species acid = {.charge = 0};
    struct species base = {.charge = -1};
    struct acid_step step = {.acid = &acid, .gives = &base, .count = 1, .released = 1, .enthalpy = NAN, .value_count = 1,
                             .values = {{4.67, 25, 0.1, &statement}}};
    assert_true(fabs(ionic_pk(&step, 25) - 4.756) < 0.03);
    /* between two temperatures, and beyond them, along 1/T */
    step.values[0] = (struct pk_value){5.0, 20, 0, &statement};
    step.values[1] = (struct pk_value){4.8, 40, 0, &statement};
    step.value_count = 2;
    assert_true(fabs(ionic_pk(&step, 20) - 5.0) < 1e-12);
    assert_true(fabs(ionic_pk(&step, 40) - 4.8) < 1e-12);
    assert_true(ionic_pk(&step, 30) < 4.91 && ionic_pk(&step, 30) > 4.88);
    assert_true(ionic_pk(&step, 10) > 5.1 && ionic_pk(&step, 50) < 4.72);
    step.value_count = 0;
    assert_true(isnan(ionic_pk(&step, 25)));
}

/* Every declaration of the library can be read, every constant says where it comes from, and every ion that a family names is led
 * to from its first. */
static void the_librarys_declarations(void **state)
{
    (void)state;
    library_make_all(&library, false);
    assert_int_equal(diagnostics.errors, 0);
    const struct equilibria *equilibria = library_equilibria(&library);
    assert_int_equal(diagnostics.errors, 0);
    assert_true(equilibria->family_count > 50);
    for (size_t f = 0; f < equilibria->family_count; f++) {
        const struct equilibrium *family = &equilibria->families[f];
        for (size_t i = 0; i < family->count; i++) {
            assert_true(family->first[i].linked);
        }
        for (size_t s = 0; s < family->step_count; s++) {
            assert_true(family->steps[s].value_count > 0);
            for (size_t v = 0; v < family->steps[s].value_count; v++) {
                assert_true(family->steps[s].values[v].statement->source.length > 0);
            }
        }
    }
}

/* What the published standards and the baths of the trade need is there. */
static void the_librarys_families(void **state)
{
    (void)state;
    static const char *const ions[] = {
        "CO3--",   "B(OH)3",       "PO4---",  "SO3--",    "HSO3-",    "CH3COO-", "C6H5O7---", "NH3",      "C6H6O6--",  "C6H4O2--",
        "SO4--",   "C2O4--",       "C4H4O6--", "OH-",     "C8H4O4--", "Cl-",     "S2O3--",    "HCOO-",    "S--",       "C4H11NO3",
        "Al+++",   "Cr+++",        "Fe+++",   "Ca++",     "C10H12N2O8----", "C14H18N3O10-----", "C6H4OO--", "C6H3O3---", "C8H7NO3--",
        "C7H8NO-", "C6H6NO-",      "C9H9N2O-", "C6H7N2O-",
    };
    for (size_t i = 0; i < sizeof ions / sizeof *ions; i++) {
        if (equilibria_species(library_equilibria(&library), text_from(ions[i])) == NULL) {
            fail_msg("%s is not known", ions[i]);
        }
    }
}

/* ---- known solutions ---- */

static void ionic_strengths(void **state)
{
    (void)state;
    /* Sum of m z^2 / 2 by hand: 1:1, 2:1, 1:3, 1:4 and 2:1 salts. */
    struct mixture chloride = {0};
    put(&chloride, "Na+", 0.1);
    put(&chloride, "Cl-", 0.1);
    assert_true(fabs(solved(&chloride, 25).ionic_strength - 0.1) < 1e-6);
    assert_true(fabs(solved(&chloride, 25).total_ions - 0.2) < 1e-6);
    struct mixture sulfate = {0};
    put(&sulfate, "Na+", 0.2);
    put(&sulfate, "SO4--", 0.1);
    assert_true(fabs(solved(&sulfate, 25).ionic_strength - 0.3) < 1e-5);
    struct mixture ferricyanide = {0};
    put(&ferricyanide, "K+", 0.03);
    put(&ferricyanide, "Fe(CN)6---", 0.01);
    assert_true(fabs(solved(&ferricyanide, 25).ionic_strength - 0.06) < 1e-6);
    struct mixture calcium = {0};
    put(&calcium, "Ca++", 0.05);
    put(&calcium, "Cl-", 0.1);
    assert_true(fabs(solved(&calcium, 25).ionic_strength - 0.15) < 1e-5);
}

static void limits_of_theory(void **state)
{
    (void)state;
    struct mixture nothing = {0};
    assert_true(fabs(solved(&nothing, 25).pH - 13.995 / 2) < 1e-6);
    assert_true(fabs(solved(&nothing, 15).pH - ionic_pk(step_of("H2O"), 15) / 2) < 1e-6);
    /* Hydrochloric acid: pH goes to -log10 of the amount; 0.01 mol/kg: 2.04 (mean activity coefficient 0.905, Robinson and Stokes). */
    struct mixture weak = {0};
    put(&weak, "Cl-", 1e-6);
    assert_true(fabs(solved(&weak, 25).pH - 6.0) < 0.01);
    struct mixture acid = {0};
    put(&acid, "Cl-", 0.01);
    assert_true(fabs(solved(&acid, 25).pH - 2.043) < 0.005);
    /* 1e-9 of it changes water hardly: h^2 - 1e-9 h - Kw = 0. */
    struct mixture trace = {0};
    put(&trace, "Cl-", 1e-9);
    assert_true(fabs(solved(&trace, 25).pH - 6.9953) < 5e-4);
    /* Acetic acid without activities: h = (-K + sqrt(K^2 + 4 K C)) / 2; at 1e-4 mol/kg they move the third decimal. */
    struct mixture acetic = {0};
    put(&acetic, "CH3COOH", 1e-4);
    double k = pow(10, -4.756);
    double h = (-k + sqrt(k * k + 4 * k * 1e-4)) / 2;
    assert_true(fabs(solved(&acetic, 25).pH + log10(h)) < 0.005);
    /* Buffer capacity of a buffer at its pK: ln 10 / 4 of its strength (Van Slyke, J. Biol. Chem. 52 (1922) 525). */
    struct mixture half = {0};
    put(&half, "Na+", 0.005);
    put(&half, "CH3COOH", 0.01);
    assert_true(fabs(solved(&half, 25).buffer_capacity - log(10) / 4 * 0.01) < 1e-4);
}

/* Three quarters of the boron of a strong borate bath stand in larger ions at pH 7 to 9 (Ingri, Acta Chem. Scand. 17 (1963) 573); a
 * thin solution has none. */
static void larger_borates(void **state)
{
    (void)state;
    for (int strong = 0; strong <= 1; strong++) {
        struct mixture borate = {0};
        put(&borate, "Na+", strong ? 0.25 : 0.00025);
        put(&borate, "B(OH)3", strong ? 1 : 0.001);
        struct ionic_state found = solved(&borate, 25);
        double larger = 0;
        double all = 0;
        for (size_t i = 0; i < found.share_count; i++) {
            const struct species *species = found.shares[i].species;
            if (species != NULL && species->family != NULL && text_is(species->family->name, "boric acid")) {
                all += species->units * found.shares[i].molality;
                larger += species->units > 1 ? species->units * found.shares[i].molality : 0;
            }
        }
        assert_true(fabs(all - (strong ? 1 : 0.001)) < 1e-9);
        assert_true(strong ? larger > 0.4 : larger < 0.01 * 0.001);
    }
}

/* ---- any mixture ---- */

static uint64_t seed;

static uint64_t next_random(void)
{
    seed ^= seed << 13; /* Marsaglia's xorshift */
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return seed;
}

static double between(double low, double high)
{
    return low + (high - low) * (double)(next_random() >> 11) / 9007199254740992.0;
}

static void check_balances(const struct mixture *mixture, const struct ionic_state *state)
{
    const struct equilibria *equilibria = library_equilibria(&library);
    double charges = 0;
    double sum = 0;
    for (size_t i = 0; i < state->share_count; i++) {
        assert_true(state->shares[i].molality >= 0);
        charges += fabs(state->shares[i].charge) * state->shares[i].molality;
        sum += state->shares[i].charge * state->shares[i].molality;
    }
    assert_true(fabs(sum) <= 1e-9 * charges + 1e-15);
    assert_true(fabs(state->residual) <= 1e-9 * charges + 1e-15);
    for (size_t f = 0; f < equilibria->family_count; f++) {
        const struct equilibrium *family = &equilibria->families[f];
        double put_in = 0;
        double found = 0;
        for (size_t i = 0; i < mixture->count; i++) {
            const struct species *species = mixture->amounts[i].species;
            put_in += species->family == family ? species->units * mixture->amounts[i].molality : 0;
        }
        for (size_t i = 0; i < state->share_count; i++) {
            const struct species *species = state->shares[i].species;
            found += species != NULL && species->family == family ? species->units * state->shares[i].molality : 0;
        }
        assert_true(family->is_water || fabs(found - put_in) <= 1e-8 * put_in + 1e-30);
    }
}

/* Any ions in any amounts, 1e-9 to 10 mol/kg, what they lack in charge made up by strong acid or base. */
static void random_mixtures(void **state)
{
    (void)state;
    const struct equilibria *equilibria = library_equilibria(&library);
    size_t unsettled = 0;
    int rounds = 0;
    enum { TRIALS = 3000 };
    seed = 20260304;
    for (int trial = 0; trial < TRIALS; trial++) {
        struct mixture mixture = {0};
        size_t count = 1 + next_random() % 8;
        for (size_t i = 0; i < count; i++) {
            const struct species *species = &equilibria->species[next_random() % equilibria->species_count];
            if (species->family == NULL || !species->family->is_water) {
                mixture.amounts[mixture.count++] = (struct ionic_amount){species, pow(10, between(-9, 1))};
            }
        }
        double celsius = between(15, 50);
        struct ionic_state found = ionic_solve(&arena, equilibria, mixture.amounts, mixture.count, celsius, NULL, 0);
        assert_true(isfinite(found.pH) && isfinite(found.ionic_strength) && isfinite(found.buffer_capacity));
        check_balances(&mixture, &found);
        unsettled += found.status != IONIC_SOLVED;
        rounds = found.rounds > rounds && found.status == IONIC_SOLVED ? found.rounds : rounds;
    }
    print_message("%d mixtures: %zu did not settle, at most %d rounds\n", TRIALS, unsettled, rounds);
    assert_true(unsettled * 100 < TRIALS);
}

/* More strong base never lowers the pH of a thin solution, and the order of the amounts does not matter. */
static void order_and_base(void **state)
{
    (void)state;
    const struct equilibria *equilibria = library_equilibria(&library);
    seed = 7;
    for (int trial = 0; trial < 200; trial++) {
        struct mixture mixture = {0};
        for (size_t i = 0; i < 4; i++) {
            const struct species *species = &equilibria->species[next_random() % equilibria->species_count];
            if (species->family == NULL || !species->family->is_water) {
                mixture.amounts[mixture.count++] = (struct ionic_amount){species, pow(10, between(-5, -2))};
            }
        }
        struct ionic_state found = solved(&mixture, 20);
        struct mixture turned = mixture;
        for (size_t i = 0; i < mixture.count; i++) {
            turned.amounts[i] = mixture.amounts[mixture.count - 1 - i];
        }
        assert_true(fabs(solved(&turned, 20).pH - found.pH) < 1e-6);
        put(&turned, "Na+", 1e-3);
        assert_true(solved(&turned, 20).pH > found.pH - 1e-6);
    }
}

/* Far outside chemistry it still ends, with balances that hold or the word that it did not settle. */
static void absurd_amounts(void **state)
{
    (void)state;
    static const double amounts[] = {1e-300, 1e-30, 1e-12, 55, 1e3, 1e6, 1e12};
    static const char *const ions[] = {"Na+", "Cl-", "PO4---", "B(OH)3", "Cr2O7--", "C10H12N2O8----", "Al+++"};
    for (size_t a = 0; a < sizeof amounts / sizeof *amounts; a++) {
        for (size_t i = 0; i < sizeof ions / sizeof *ions; i++) {
            for (size_t j = 0; j < sizeof ions / sizeof *ions; j++) {
                struct mixture mixture = {0};
                put(&mixture, ions[i], amounts[a]);
                put(&mixture, ions[j], amounts[(a + i + j) % (sizeof amounts / sizeof *amounts)]);
                struct ionic_state found =
                    ionic_solve(&arena, library_equilibria(&library), mixture.amounts, mixture.count, 25, NULL, 0);
                assert_true(isfinite(found.pH));
                check_balances(&mixture, &found);
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(the_librarys_declarations), WITH_LIBRARY(the_librarys_families),
        WITH_LIBRARY(water_by_temperature), WITH_LIBRARY(constants_by_temperature), WITH_LIBRARY(constants_at_an_ionic_strength),
        WITH_LIBRARY(ionic_strengths),      WITH_LIBRARY(limits_of_theory),         WITH_LIBRARY(larger_borates),
        WITH_LIBRARY(random_mixtures),      WITH_LIBRARY(order_and_base),           WITH_LIBRARY(absurd_amounts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
