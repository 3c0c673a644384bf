/* The checks that every formula goes through, at their limits, and how each is silenced. */
#define _GNU_SOURCE

#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static void expect_line(const char *line, const char *wanted)
{
    char *text = formula_with(line);
    expect_list(text, wanted);
    free(text);
}

static void added_twice(void **state)
{
    (void)state;
    expect_line("sodium chloride 5 g\npotassium bromide 5 g\nsodium chloride 5 g", "added-twice:5");
    expect_line("sodium chloride 5 g\nsodium chloride 5 g\nsodium chloride 5 g", "added-twice:4 added-twice:5");
    expect_line("sodium chloride 5 g\nsalt 5 g", "added-twice:4"); /* by another name */
    expect_line("water 400 mL\nsodium chloride 5 g\nwater 400 mL", "");
    expect_line("pinch of sodium chloride\nsodium chloride 5 g", "");
    expect_clean(
        "formula \"x\"\nkind other\npart A\nsodium chloride 5 g\nwater to make 1 L\npart B\nsodium chloride 5 g\n"
        "water to make 1 L\n"); /* parts are different bottles */
}

static void too_small_to_weigh(void **state)
{
    (void)state;
    /* Half a step of the scale, 0.005 g, is 5 % of 0.1 g: more than that is said of a scale that nobody has named. */
    expect_line("benzotriazole 0.1 g", "");
    expect_line("benzotriazole 0.09 g", "too-small-to-weigh:3");
    expect_line("benzotriazole 0.09 g from 1 % stock", "");
    const char *text = "formula \"x\"\nkind other\nbenzotriazole 0.24 g\nwater to make 1 L\n";
    struct potash_options options = {.balance = "0.01 g"};
    struct compiled named = compile_with(&options, text, strlen(text));
    assert_non_null(compiled_find(&named, "too-small-to-weigh", 3)); /* and 2 % of 0.25 g, of one that is named */
    compiled_free(&named);
    text = "formula \"x\"\nkind other\nbenzotriazole 0.3 g\nwater to make 1 L\n";
    options = (struct potash_options){.balance = "0.1 g"};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    assert_non_null(compiled_find(&compiled, "too-small-to-weigh", 3)); /* a coarser scale */
    compiled_free(&compiled);
    options = (struct potash_options){.make = "100 mL"};
    compiled = compile_with(&options, text, strlen(text));
    assert_non_null(compiled_find(&compiled, "too-small-to-weigh", 3)); /* a smaller batch */
    compiled_free(&compiled);
    options = (struct potash_options){.balance = "0.001 g", .make = "100 mL"};
    compiled = compile_with(&options, text, strlen(text));
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    compiled_free(&compiled);
}

static void the_repair_of_a_small_weight_compiles(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"x\"\nkind other\nbenzotriazole 0.08 g\nwater to make 1 L\n");
    const json_t *fix = json_array_get(json_object_get(compiled_find(&compiled, "too-small-to-weigh", 3), "fixes"), 0);
    assert_non_null(fix);
    char line[200];
    snprintf(line, sizeof line, "benzotriazole 0.08 g%s", json_text_of(fix, "text"));
    expect_line(line, "");
    compiled_free(&compiled);
}

static void stock_too_strong(void **state)
{
    (void)state;
    /* Potassium bromide: 65.0 g in 100 g of water at 20 °C (CRC, 98th ed.), about 54 g in 100 mL of solution. */
    expect_line("potassium bromide 10 mL of 40 % stock", "");
    expect_line("potassium bromide 10 mL of 80 % stock", "stock-too-strong:3");
    /* Phenidone hardly dissolves in water, but in alcohol; the stock that is declared tells. */
    expect_line("phenidone 1 g from 5 % stock", "stock-too-strong:3");
    expect_clean("stock phenidone 5 %\n in isopropyl alcohol\n"
                 "formula \"x\"\nkind other\nphenidone 1 g from 5 % stock\nwater to make 1 L\n");
    expect_one("stock phenidone 5 %\n", "stock-too-strong", 1, 0);
    /* In a bath: 1.16 g in 100 mL at 25 °C (Wikipedia, Russian, data box); a quarter above that is said, unless an alkali dissolves it
     * (common practice, no source) or the bath is not made with water. */
    expect_line("phenidone 14 g", "");
    expect_line("phenidone 15 g", "stock-too-strong:3");
    expect_line("sodium carbonate (anhydrous) 30 g\nphenidone 15 g", "");
    expect_line("propylene glycol 500 mL\nphenidone 15 g", "");
}

static void temperature_unusual(void **state)
{
    (void)state;
    expect_line("water 500 mL at 52 °C\nsodium chloride 5 g", "");
    expect_line("water 500 mL at 125 °C\nsodium chloride 5 g", "temperature-unusual:3");
    expect_line("water 500 mL at 125 °F\nsodium chloride 5 g", "");
    expect_line("sodium chloride 5 g\ncool to 2 °C", "temperature-unusual:4");
    const char *use =
        "formula \"x\"\nkind other\nsodium chloride 5 g\nwater to make 1 L\nuse for film\ntemperature %s\n";
    static const struct {
        const char *written;
        const char *wanted;
    } cases[] = {{"20 °C", ""},
                 {"38 °C", ""},
                 {"68 °C", "temperature-unusual:6"},
                 {"68 °F", ""},
                 {"5 °C", "temperature-unusual:6"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        snprintf(text, sizeof text, use, cases[i].written);
        expect_list(text, cases[i].wanted);
    }
    /* What a bath is for and holds tells how warm it may be (common practice, no source). */
    expect_line("water 500 mL at 68 °C\nsodium chloride 5 g", "temperature-unusual:3");
    expect_line("propylene glycol 500 mL at 75 °C\nsodium chloride 5 g", "");
    expect_list("formula \"x\"\nkind developer\nfor platinum\nwater 800 mL\npotassium oxalate (monohydrate) 300 g\n"
                "water to make 1 L\nuse for platinum\ntemperature 65 °C\n", "");
    expect_list("formula \"x\"\nkind toner\nwater 800 mL\npotassium ferricyanide 3 g\nferric ammonium citrate (green) 3 g\n"
                "sulfuric acid (concentrated) 2 mL\nwater to make 1 L\nuse for paper\ntemperature 68 °C\n",
                "temperature-unusual:9");
    /* Where the scale was mistaken, the repair is the unit. */
    char text[300];
    snprintf(text, sizeof text, use, "68 °C");
    struct compiled compiled = compile(text);
    const json_t *fix = json_array_get(json_object_get(compiled_find(&compiled, "temperature-unusual", 6), "fixes"), 0);
    assert_string_equal(json_text_of(fix, "text"), "°F");
    assert_int_equal(json_number_of(fix, "column"), 16);
    assert_int_equal(json_number_of(fix, "end_column"), 18);
    compiled_free(&compiled);
}

static void amount_unusual(void **state)
{
    (void)state;
    const char *developer = "formula \"x\"\nkind developer\nmetol %s\nsodium sulfite (anhydrous) 50 g\n"
                            "sodium carbonate (anhydrous) 30 g\nwater to make 1 L\n%s";
    char text[500];
    snprintf(text, sizeof text, developer, "2 g", "");
    expect_clean(text);
    snprintf(text, sizeof text, developer, "200 g", "");
    expect_one(text, "amount-unusual", 3, 7);
    /* What counts is the bath as it is used: a stock that is diluted is held against the working range. */
    snprintf(text, sizeof text, developer, "30 g", "");
    expect_one(text, "amount-unusual", 3, 7);
}

/* What the library's rules say of the order of mixing, of what is missing and of what must not meet. */
static void rules_of_the_library(void **state)
{
    (void)state;
    static const struct {
        const char *lines;
        const char *wanted;
    } cases[] = {
        /* Metol does not dissolve in strong sulfite: common practice. */
        {"kind developer\nwater 750 mL\nmetol 3 g\nsodium sulfite (anhydrous) 50 g\nsodium carbonate (anhydrous) 30 "
         "g\n",
         ""},
        {"kind developer\nwater 750 mL\nsodium sulfite (anhydrous) 50 g\nmetol 3 g\nsodium carbonate (anhydrous) 30 "
         "g\n",
         "order:5"},
        {"kind developer\nwater 750 mL\nsodium sulfite (anhydrous) 4 g\nmetol 3 g\nsodium sulfite (anhydrous) 50 g\n"
         "sodium carbonate (anhydrous) 30 g\nsilence added-twice\n",
         ""}, /* a little sulfite ahead does no harm */
        /* A fixer without a fixing agent. */
        {"kind fixer\nwater 750 mL\nsodium sulfite (anhydrous) 15 g\n", "role-missing:2"},
        {"kind fixer\nwater 600 mL\nsodium thiosulfate (pentahydrate) 250 g\n", ""},
        /* Sulfate for sulfite. */
        {"kind developer\nwater 750 mL\nmetol 3 g\nsodium sulfate (anhydrous) 50 g\nsodium carbonate (anhydrous) 30 "
         "g\n",
         "look-alike:5"},
        {"kind developer\nwater 750 mL\nmetol 3 g\nsodium sulfate (anhydrous) 50 g\nsodium sulfite (anhydrous) 50 g\n"
         "sodium carbonate (anhydrous) 30 g\n",
         ""}, /* both are there: the sulfate is meant */
        /* Acid on a sulfide. */
        {"kind toner\nwater 750 mL\nsodium sulfide (nonahydrate) 10 g\ncitric acid (anhydrous) 10 g\n",
         "hazard-combination:5"},
        {"kind toner\nwater 750 mL\nsodium sulfide (nonahydrate) 10 g\n", ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[600];
        snprintf(text, sizeof text, "formula \"x\"\n%swater to make 1 L\n", cases[i].lines);
        expect_list(text, cases[i].wanted);
    }
}

static void a_rule_of_ones_own(void **state)
{
    (void)state;
    expect_list("rule no-salt-here\n"
                "    in      other\n"
                "    when    sodium chloride comes after potassium bromide\n"
                "    warn    \"the salt goes in first here\"\n"
                "    advise  \"move it up\"\n"
                "    source  \"invented for this test\"\n"
                "formula \"x\"\nkind other\npotassium bromide 5 g\nsodium chloride 5 g\nwater to make 1 L\n"
                "formula \"y\"\nkind other\nsodium chloride 5 g\npotassium bromide 5 g\nwater to make 1 L\n"
                "formula \"z\"\nkind buffer\npotassium bromide 5 g\nsodium chloride 5 g\nwater to make 1 L\n",
                "order:10");
}

static void drops_and_ranges(void **state)
{
    (void)state;
    expect_line("acetic acid (glacial) 10 drops", "drop-approximate:3");
    expect_line("sodium chloride 5 to 6 g", "range-given:3");
    expect_line("acetic acid (glacial) 10 to 20 drops", "range-given:3 drop-approximate:3");
}

static void silenced_in_the_formula(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        const char *line;
    } cases[] = {
        {"form-unstated", "sodium sulfite 30 g"},          {"added-twice", "sodium chloride 5 g\nsodium chloride 5 g"},
        {"too-small-to-weigh", "benzotriazole 0.08 g"},     {"stock-too-strong", "phenidone 1 g from 5 % stock"},
        {"temperature-unusual", "water 500 mL at 125 °C"}, {"drop-approximate", "acetic acid (glacial) 10 drops"},
        {"range-given", "sodium chloride 5 to 6 g"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char lines[300];
        snprintf(lines, sizeof lines, "%s\nsilence %s", cases[i].line, cases[i].id);
        expect_line(lines, "");
        /* Only in that formula. */
        char *loud = formula_with(cases[i].line);
        char *quiet = formula_with(lines);
        *strstr(quiet, "test") = 'T';
        char *both = NULL;
        assert_true(asprintf(&both, "%s%s", quiet, loud) > 0);
        struct compiled compiled = compile(both);
        assert_int_equal(compiled_count(&compiled, NULL), 1);
        assert_non_null(compiled_find(&compiled, cases[i].id, 0));
        compiled_free(&compiled);
        /* And for the whole run. */
        const char *const ids[] = {cases[i].id, NULL};
        const struct potash_options options = {.silence = ids};
        compiled = compile_with(&options, both, strlen(both));
        assert_int_equal(compiled.status, POTASH_GOOD);
        assert_int_equal(compiled_count(&compiled, NULL), 0);
        compiled_free(&compiled);
        free(both);
        free(loud);
        free(quiet);
    }
}

static void errors_are_never_silenced(void **state)
{
    (void)state;
    const char *const error[] = {"syntax", NULL};
    struct potash_options options = {.silence = error};
    struct compiled compiled = compile_with(&options, "", 0);
    assert_int_equal(compiled.status, POTASH_UNUSABLE);
    assert_non_null(strstr(potash_message(compiled.potash), "syntax"));
    compiled_free(&compiled);
    const char *const unknown[] = {"no-such-id", NULL};
    options.silence = unknown;
    compiled = compile_with(&options, "", 0);
    assert_int_equal(compiled.status, POTASH_UNUSABLE);
    compiled_free(&compiled);
}

static void strict_makes_warnings_count(void **state)
{
    (void)state;
    const char *text = "formula \"x\"\nkind other\nsodium chloride 5 to 6 g\nwater to make 1 L\n";
    const struct potash_options options = {.strict = true};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    assert_int_equal(compiled.status, POTASH_FAULTY);
    assert_int_equal(potash_errors(compiled.potash), 1);
    assert_int_equal(potash_warnings(compiled.potash), 0);
    assert_string_equal(json_text_of(compiled_find(&compiled, "range-given", 3), "severity"), "error");
    struct potash_output output;
    assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_FAULTY);
    compiled_free(&compiled);
    compiled = compile(text);
    assert_int_equal(compiled.status, POTASH_GOOD);
    assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(added_twice),
        cmocka_unit_test(too_small_to_weigh),
        cmocka_unit_test(the_repair_of_a_small_weight_compiles),
        cmocka_unit_test(stock_too_strong),
        cmocka_unit_test(temperature_unusual),
        cmocka_unit_test(amount_unusual),
        cmocka_unit_test(rules_of_the_library),
        cmocka_unit_test(a_rule_of_ones_own),
        cmocka_unit_test(drops_and_ranges),
        cmocka_unit_test(silenced_in_the_formula),
        cmocka_unit_test(errors_are_never_silenced),
        cmocka_unit_test(strict_makes_warnings_count),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
