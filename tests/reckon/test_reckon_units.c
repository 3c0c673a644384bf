/* Conversions of units, against the program GNU units and against figures printed in books. */
#include "reckon/reckon_help.h"
#include "support/program.h"

#include <stdio.h>

/* ---- GNU units, run beside us ---- */

struct pair {
    const char *sum;
    const char *have; /* the same for GNU units */
    const char *want;
};

static const struct pair pairs[] = {
    {"3 oz 70 grains in g", "3 oz + 70 grain", "g"},
    {"5 lb 4 oz in kg", "5 lb + 4 oz", "kg"},
    {"1/2 oz in grains", "0.5 oz", "grain"},
    {"3 scruples in g", "3 scruple", "g"},
    {"2 oz ap in g", "2 troyounce", "g"},
    {"5 dram ap in g", "5 apdram", "g"},
    {"20 imperial fl oz in mL", "20 brfloz", "ml"},
    {"1 imperial pint in US fl oz", "brpint", "usfloz"},
    {"10 imperial minims in mL", "10 brminim", "ml"},
    {"3 imperial quarts in L", "3 brquart", "l"},
    {"1 US gallon in L", "usgallon", "l"},
    {"5 L in US quarts", "5 l", "usquart"},
    {"16 US fl oz in imperial fl oz", "16 usfloz", "brfloz"},
    {"125 °F in °C", "tempF(125)", "tempC"},
    {"20 C in F", "tempC(20)", "tempF"},
    {"-40 °F in °C", "tempF(-40)", "tempC"},
    {"90 s in min", "90 s", "min"},
    {"36 h in days", "36 hour", "day"},
    {"10 in in cm", "10 inch", "cm"},
    {"10 cm in in", "10 cm", "inch"},
    {"80 sq in in cm2", "80 inch^2", "cm^2"},
    {"1 m2 in sq in", "m^2", "inch^2"},
    {"40 grains in 20 imperial fl oz in g/L", "40 grain / (20 brfloz)", "g/l"},
    {"40 grains per 20 imperial fl oz in g/L", "40 grain / (20 brfloz)", "g/l"},
    {"1 oz per US gallon in g/L", "oz / usgallon", "g/l"},
    {"10 g/L in grains per 32 US fl oz", "10 g/l", "grain / (32 usfloz)"},
};

static double gnu_units(const char *have, const char *want)
{
    const char *arguments[] = {"-t", "-o", "%.12g", have, want, NULL};
    struct run run = run_program("/usr/bin/units", arguments, NULL, 0);
    assert_status(&run, 0);
    char *end;
    double value = strtod(run.output, &end);
    if (end == run.output) {
        fail_msg("units %s %s: %s", have, want, run.output);
    }
    run_free(&run);
    return value;
}

static void agrees_with_gnu_units(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        expect_figure(pairs[i].sum, gnu_units(pairs[i].have, pairs[i].want), 1e-9);
    }
}

/* ---- printed figures ---- */

static void agrees_with_printed_conversions(void **state)
{
    (void)state;
    /* Anchell, The Darkroom Cookbook, 3rd ed., p. 326: compound conversions, printed to four figures. */
    expect_figure("1 grain per 32 US fl oz in g/L", 0.06847, 1e-4);
    expect_figure("1 oz per 32 US fl oz in g/L", 29.96, 2e-4);
    expect_figure("1 lb per 32 US fl oz in g/L", 479.3, 2e-4);
    expect_figure("1 g/L in grains per 32 US fl oz", 14.6, 1e-3);
    expect_figure("1 g/L in oz per 32 US fl oz", 0.03338, 1e-4);
    expect_figure("1 g/L in lb per 32 US fl oz", 0.002086, 2e-4);
    /* Cassell's Cyclopaedia of Photography, 1911: grains in 20 oz x 0.114 = g per litre. */
    expect_figure("100 grains per 20 imperial fl oz in g/L", 11.4, 1e-3);
    /* Cyclopedia of Photography (Jones): metol 40 grs in 20 oz printed as 4.6 g in 1000 mL; rounded, 1 % off at most.
     */
    expect_figure("40 grains metol in 20 imperial fl oz", 4.6, 0.01);
    /* US Navy medical manual, table 8-1: an apothecaries' ounce is 480 grains, a dram 60. */
    expect_figure("1 oz ap in grains", 480, 1e-9);
    expect_figure("1 dram ap in grains", 60, 1e-9);
}

static void temperatures_as_printed(void **state)
{
    (void)state;
    /* NIST Special Publication 811: t/°C = (t/°F - 32)/1.8; the pairs that formularies print. */
    static const double table[][2] = {{68, 20},   {75, 23.889}, {65, 18.333}, {125, 51.667}, {100, 37.778},
                                      {212, 100}, {50, 10},     {59, 15},     {77, 25}};
    char sum[64];
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        snprintf(sum, sizeof sum, "%g °F in °C", table[i][0]);
        expect_figure(sum, table[i][1], 3e-5);
        snprintf(sum, sizeof sum, "%g °C in °F", table[i][1]);
        expect_figure(sum, table[i][0], 3e-5);
    }
    assert_true(fabs(figure("32 °F in °C", 0)) < 1e-12);
}

static void substance_and_concentration(void **state)
{
    (void)state;
    /* CRC Handbook of Chemistry and Physics, 102nd ed. (2021), concentrative properties of aqueous solutions at 20 °C:
     * mol/L at that per cent by weight. */
    static const struct {
        const char *sum;
        double molarity;
    } table[] = {{"5 % acetic acid in mol/L", 0.837},     {"28 % acetic acid in mol/L", 4.824},
                 {"50 % acetic acid in mol/L", 8.794},    {"10 % sulfuric acid in mol/L", 1.087},
                 {"50 % sulfuric acid in mol/L", 7.113},  {"36 % hydrochloric acid in mol/L", 11.642},
                 {"40 % nitric acid in mol/L", 7.913},    {"28 % ammonia in mol/L", 14.764},
                 {"40 % phosphoric acid in mol/L", 5.117}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        expect_figure(table[i].sum, table[i].molarity, 1e-3);
    }
    /* Schriever, Library of Practical Photography, 1908-09: formalin holds 40 % (w/v) of formaldehyde. */
    expect_figure("37 % formaldehyde in g/L", 400, 2e-3);
    /* IUPAC standard atomic weights 2021, abridged: K 39.098 + Br 79.904 = 119.002 g/mol. */
    expect_figure("0.1 mol potassium bromide in g", 11.9002, 1e-5);
    expect_figure("5 g/L potassium bromide in mol/L", 5 / 119.002, 1e-5);
    expect_figure("0.1 mol/L potassium bromide for 500 mL", 5.9501, 1e-5);
    /* A 10 % solution is 10 g in 100 mL in all: German photographic school text, 1930s. */
    expect_figure("10 g in 100 mL in %", 10, 1e-12);
    expect_figure("10 % in g/L", 100, 1e-12);
    expect_figure("100 g/L in %", 10, 1e-12);
}

static void printed_as_a_person_reads(void **state)
{
    (void)state;
    /* The figures are those of GNU units 2.22, to four figures: 89.584493 g, 51.666667 °C, 568.26125 mL. */
    expect_line("3 oz 70 grains in g", "89.58 g   (3 x 28.3495 + 70 x 0.0647989 = 89.58)");
    expect_line("125 °F in °C", "51.67 °C   ((125 - 32) / 1.8 = 51.67)");
    expect_line("125 °F", "51.67 °C   ((125 - 32) / 1.8 = 51.67)");
    expect_line("20 imperial fl oz in mL", "568.3 mL   (20 x 28.4131 = 568.3)");
    expect_line("68 to 72 °F in °C", "20 to 22.22 °C   ((68 - 32) / 1.8 = 20)");
    /* 50 x 64.79891 mg and 65 x 64.79891 mg */
    expect_line("50 to 65 grains in g", "3.24 to 4.212 g   (50 x 0.0647989 = 3.24)");
    expect_note("20 drops in mL", "approximate");
}

static void ambiguous_units_are_refused(void **state)
{
    (void)state;
    /* The words and the values are the compiler's; the amounts are GNU units': 20 usfloz = 591.47 mL, 20 brfloz =
     * 568.26. */
    expect_refused("20 fl oz in mL", "unit-ambiguous", 4, "29.57 mL in US and 28.41 mL in imperial measure");
    expect_refused("20 fl oz in mL", "unit-ambiguous", 4, "US fl oz: 591.5 mL; imperial fl oz: 568.3 mL");
    expect_refused("1+29 for 20 fl oz", "unit-ambiguous", 13, "imperial fl oz: 18.9 mL of stock");
    expect_refused("3 oz in mL", "unit-ambiguous", 3, "imperial oz: 85.24 mL");
    expect_refused("500 mL in pints", "unit-ambiguous", 11, "US pints: 1.057 pints; imperial pints: 0.8799 pints");
    expect_refused("15 gr in g", "unit-ambiguous", 4, "with grain: 0.972 g; with g: 15 g");
    expect_refused("5 floop in mL", "unit-unknown", 3, "floop");
    expect_refused("10 g sodium sulfite in mL", "unit-mismatch", 24, "a mass cannot be given as a volume");
    expect_refused("0.1 mol in g", "unit-mismatch", 12, "name the material");
    expect_refused("20 °C in mL", "unit-mismatch", 10, "temperature");
    expect_refused("3 oz 5 mL in g", "unit-mismatch", 1, "cannot be added up");
    expect_refused("0 mL in L", "amount-out-of-range", 1, "more than nothing");
    expect_refused("20 °C 5 °C in °F", "unit-mismatch", 1, "temperatures cannot be added up");
    expect_refused("-300 °C in °F", "amount-out-of-range", 1, "no such temperature");
    expect_refused("1,5 g in grains", "decimal-comma", 1, "1,5");
}

static void the_article_before_a_vowel(void **state)
{
    (void)state;
    expect_refused("80 sq in in mL", "unit-mismatch", 13, "an area cannot be given as a volume");
    expect_refused("10 mL in sq in", "unit-mismatch", 10, "a volume cannot be given as an area");
    expect_refused("5 mol in mL", "unit-mismatch", 10, "an amount of substance cannot be given as a volume");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_gnu_units),     cmocka_unit_test(agrees_with_printed_conversions),
        cmocka_unit_test(temperatures_as_printed),   cmocka_unit_test(substance_and_concentration),
        cmocka_unit_test(printed_as_a_person_reads), cmocka_unit_test(ambiguous_units_are_refused),
        cmocka_unit_test(the_article_before_a_vowel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
