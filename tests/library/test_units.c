/* Units of measure against their published values. */
#include "support/compiling.h"
#include "support/program.h"

#include <stdio.h>
#include <string.h>

struct measure {
    const char *unit;
    double value;    /* g or mL in one */
    const char *gnu; /* the same for GNU units; NULL when it has no name there */
};

/* NIST Handbook 44, Appendix C: the avoirdupois pound is 453.59237 g exactly, of 7000 grains; apothecaries' weights are
 * of the same grain.  SI Brochure for the metric ones. */
static const struct measure masses[] = {
    {"g", 1, "g"},
    {"mg", 0.001, "mg"},
    {"kg", 1000, "kg"},
    {"gram", 1, "g"},
    {"grams", 1, "g"},
    {"gramme", 1, "g"},
    {"gm", 1, "g"},
    {"gms", 1, "g"},
    {"kilo", 1000, "kg"},
    {"grain", 0.06479891, "grain"},
    {"grains", 0.06479891, "grain"},
    {"oz", 28.349523125, "oz"},
    {"ounces", 28.349523125, "oz"},
    {"lb", 453.59237, "lb"},
    {"pounds", 453.59237, "lb"},
    {"scruple", 1.2959782, "scruple"},
    {"dram ap", 3.8879346, "apdram"},
    {"oz ap", 31.1034768, "apounce"},
    {"dram", 3.8879346, "apdram"},
    {"pennyweight", 1.55517384, "dwt"},
};

/* NIST Handbook 44, Appendix C: the US gallon is 231 cubic inches, 3.785411784 L. */
static const struct measure us_volumes[] = {
    {"gallon", 3785.411784, "usgallon"},
    {"quart", 946.352946, "usquart"},
    {"pint", 473.176473, "uspint"},
    {"fl oz", 29.5735295625, "usfloz"},
    {"fl dr", 3.6966911953125, "usfloz/8"},
    {"minim", 0.061611519921875, "usfloz/480"},
    {"fluid ounces", 29.5735295625, "usfloz"},
    {"oz", 29.5735295625, "usfloz"},
    {"dram", 3.6966911953125, "usfloz/8"},
};

/* Weights and Measures Act 1985 (UK), Schedule 1: the gallon is 4.54609 L exactly, of 160 fluid ounces. */
static const struct measure imperial_volumes[] = {
    {"gallon", 4546.09, "brgallon"},        {"quart", 1136.5225, "brquart"},
    {"pint", 568.26125, "brpint"},          {"fl oz", 28.4130625, "brfloz"},
    {"fl dr", 3.5516328125, "brfloz/8"},    {"minim", 0.059193880208333333, "brfloz/480"},
    {"fluid ounces", 28.4130625, "brfloz"}, {"oz", 28.4130625, "brfloz"},
    {"dram", 3.5516328125, "brfloz/8"},
};

/* SI Brochure, 9th ed. */
static const struct measure metric_volumes[] = {
    {"mL", 1, "mL"},      {"ml", 1, "mL"},       {"cc", 1, "cc"},      {"c.c.", 1, "cc"},
    {"ccm", 1, "cc"},     {"cL", 10, "cL"},      {"dL", 100, "dL"},    {"L", 1000, "L"},
    {"litre", 1000, "L"}, {"litres", 1000, "L"}, {"liter", 1000, "L"}, {"liters", 1000, "L"},
};

#define COUNT(array) (sizeof(array) / sizeof *(array))

static void masses_of_solids(void **state)
{
    (void)state;
    static const char *const measures[] = {"metric", "US", "imperial"};
    for (size_t m = 0; m < COUNT(measures); m++) { /* a solid's weights are the same everywhere */
        for (size_t i = 0; i < COUNT(masses); i++) {
            char line[100];
            snprintf(line, sizeof line, "sodium chloride 7 %s", masses[i].unit);
            assert_near(mass_of(measures[m], line), 7 * masses[i].value);
        }
    }
}

static void check_volumes(const char *measures, const struct measure *list, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char line[100];
        snprintf(line, sizeof line, "water 3 %s", list[i].unit);
        assert_near(volume_of(measures, line), 3 * list[i].value);
    }
}

static void volumes_of_each_system(void **state)
{
    (void)state;
    check_volumes("US", us_volumes, COUNT(us_volumes));
    check_volumes("imperial", imperial_volumes, COUNT(imperial_volumes));
    check_volumes("metric", metric_volumes, COUNT(metric_volumes));
    check_volumes("US", metric_volumes, COUNT(metric_volumes));
    /* The system may stand on the spot. */
    assert_near(volume_of("metric", "water 3 US fl oz"), 3 * 29.5735295625);
    assert_near(volume_of("US", "water 3 imperial fl oz"), 3 * 28.4130625);
    assert_near(volume_of("imperial", "water 1 US gallon"), 3785.411784);
}

/* GNU units knows the same figures; it is asked where it is installed. */
static void gnu_units_agrees(void **state)
{
    (void)state;
    const char *const version[] = {"--version", NULL};
    struct run run = run_program("units", version, NULL, 0);
    int status = run.status;
    run_free(&run);
    if (status != 0) {
        skip();
    }
    static const struct {
        const struct measure *list;
        size_t count;
        const char *base;
    } lists[] = {{masses, COUNT(masses), "g"},
                 {us_volumes, COUNT(us_volumes), "mL"},
                 {imperial_volumes, COUNT(imperial_volumes), "mL"},
                 {metric_volumes, COUNT(metric_volumes), "mL"}};
    for (size_t l = 0; l < COUNT(lists); l++) {
        for (size_t i = 0; i < lists[l].count; i++) {
            const char *const arguments[] = {"-t", "-o", "%.12g", lists[l].list[i].gnu, lists[l].base, NULL};
            run = run_program("units", arguments, NULL, 0);
            assert_int_equal(run.status, 0);
            double gnu = strtod(run.output, NULL);
            run_free(&run);
            assert_within(lists[l].list[i].value, gnu, 1e-9);
        }
    }
}

static void approximate_measures(void **state)
{
    (void)state;
    /* 20 drops to the mL: the contract, a convention of pharmacy. */
    expect_one("formula \"x\"\nkind other\nacetic acid (glacial) 30 drops\nwater to make 1 L\n", "drop-approximate", 3,
               23);
    assert_near(volume_of("metric", "acetic acid (glacial) 30 drops"), 1.5);
    assert_near(volume_of("metric", "acetic acid (glacial) 1 drop"), 0.05);
}

static void a_measure_of_two_systems_wants_to_know_which(void **state)
{
    (void)state;
    static const char *const units[] = {"fl oz", "fl dr", "minims", "pint", "quart", "gallon"};
    for (size_t i = 0; i < COUNT(units); i++) {
        char text[300];
        snprintf(text, sizeof text, "formula \"x\"\nkind other\nsodium chloride 1 g\nwater 1 %s\nwater to make 10 L\n",
                 units[i]);
        expect_one(text, "unit-ambiguous", 4, 0);
        struct compiled compiled = compile(text);
        /* Each repair that is offered compiles. */
        const json_t *fixes = json_object_get(compiled_find(&compiled, "unit-ambiguous", 4), "fixes");
        assert_true(json_array_size(fixes) >= 2);
        compiled_free(&compiled);
    }
    /* Metric says nothing of them either. */
    expect_one("formula \"x\"\nkind other\nmeasures metric\nsodium chloride 1 g\nwater 1 pint\nwater to make 10 L\n",
               "unit-ambiguous", 5, 0);
}

static void gr_is_grain_or_gram(void **state)
{
    (void)state;
    const char *text = "formula \"x\"\nkind other\nsodium chloride 15 gr\nwater to make 1 L\n";
    expect_one(text, "unit-ambiguous", 3, 0);
    struct compiled compiled = compile(text);
    const json_t *fixes = json_object_get(compiled_find(&compiled, "unit-ambiguous", 3), "fixes");
    assert_int_equal(json_array_size(fixes), 2);
    bool grain = false;
    bool gram = false;
    for (size_t i = 0; i < 2; i++) {
        const char *unit = json_text_of(json_array_get(fixes, i), "text");
        grain = grain || strncmp(unit, "grain", 5) == 0;
        gram = gram || strcmp(unit, "g") == 0;
    }
    assert_true(grain && gram);
    compiled_free(&compiled);
}

static void temperatures(void **state)
{
    (void)state;
    /* NIST Special Publication 811, Appendix B: t/°C = (t/°F - 32)/1.8. */
    static const struct {
        const char *written;
        double celsius;
    } cases[] = {{"20 °C", 20}, {"20 C", 20},    {"20 degC", 20}, {"68 °F", 20},
                 {"68 F", 20},  {"77 degF", 25}, {"86 °F", 30},   {"20 ° C", 20}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        char text[300];
        snprintf(text, sizeof text,
                 "formula \"x\"\nkind other\nsodium chloride 1 g\nwater to make 1 L\nuse for film\ntemperature %s\n",
                 cases[i].written);
        struct compiled compiled = compile(text);
        assert_int_equal(compiled_count(&compiled, NULL), 0);
        assert_within(json_number_of(compiled_use(&compiled, 0), "temperature_C"), cases[i].celsius, 1e-9);
        compiled_free(&compiled);
    }
}

static void times(void **state)
{
    (void)state;
    static const struct {
        const char *written;
        double seconds;
    } cases[] = {{"30 s", 30},     {"90 sec", 90},     {"9 min", 540},   {"2 h", 7200},
                 {"1 hour", 3600}, {"1 min 30 s", 90}, {"1 day", 86400}, {"1 week", 604800}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        char text[300];
        snprintf(text, sizeof text,
                 "formula \"x\"\nkind other\nsodium chloride 1 g\nwater to make 1 L\nuse for film\ntime %s\n",
                 cases[i].written);
        struct compiled compiled = compile(text);
        assert_int_equal(compiled_count(&compiled, NULL), 0);
        const json_t *time = json_object_get(compiled_use(&compiled, 0), "time_s");
        assert_near(json_number_value(json_array_get(time, 0)), cases[i].seconds);
        assert_near(json_number_value(json_array_get(time, 1)), cases[i].seconds);
        compiled_free(&compiled);
    }
}

static void moles(void **state)
{
    (void)state;
    /* NaCl: 22.98976928 + 35.45 g/mol, CIAAW standard atomic weights 2021. */
    assert_within(mass_of("metric", "sodium chloride 0.5 mol"), 0.5 * 58.43976928, 1e-6);
    assert_within(mass_of("metric", "sodium chloride 250 mmol"), 0.25 * 58.43976928, 1e-6);
}

static void units_that_are_not_known(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\nsodium chloride 5 furlongs\nwater to make 1 L\n", "unit-unknown", 3, 19);
    /* A near miss is offered. */
    struct compiled compiled = compile("formula \"x\"\nkind other\nsodium chloride 5 grians\nwater to make 1 L\n");
    const json_t *item = compiled_find(&compiled, "unit-unknown", 3);
    assert_non_null(item);
    assert_non_null(strstr(json_text_of(item, "help"), "grain"));
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(masses_of_solids),
        cmocka_unit_test(volumes_of_each_system),
        cmocka_unit_test(gnu_units_agrees),
        cmocka_unit_test(approximate_measures),
        cmocka_unit_test(a_measure_of_two_systems_wants_to_know_which),
        cmocka_unit_test(gr_is_grain_or_gram),
        cmocka_unit_test(temperatures),
        cmocka_unit_test(times),
        cmocka_unit_test(moles),
        cmocka_unit_test(units_that_are_not_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
