/* Every statement of the contract (sections 1 to 4) that the grammar has is taken as it is written there. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static void the_formula_of_the_contract(void **state)
{
    (void)state;
    expect_clean("formula \"Saltmarsh print developer\"\n"
                 "    kind     developer\n"
                 "    for      paper\n"
                 "    note     \"Club demonstration formula, invented for these examples.\"\n"
                 "\n"
                 "    water                        750 mL at 45 °C\n"
                 "    metol                        1.5 g\n"
                 "    sodium sulfite (anhydrous)   30 g\n"
                 "    hydroquinone                 7 g\n"
                 "    sodium carbonate (anhydrous) 45 g\n"
                 "    potassium bromide            1.5 g\n"
                 "    water                        to make 1 L\n"
                 "\n"
                 "    use for paper\n"
                 "        dilute       1+3\n"
                 "        temperature  20 °C\n"
                 "        time         90 s\n"
                 "        capacity     40 sheets 8x10 in per L\n"
                 "    keeps 6 months in full bottle\n"
                 "    keeps 8 h in tray\n");
}

/* Each line by itself in a formula that is clean without it. */
static void properties_and_steps(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "for film",
        "for film, paper, plates",
        "makes 1 L",
        "measures metric",
        "measures US",
        "measures imperial",
        "after \"A published source, 1911\"",
        "note \"A remark.\"",
        "keeps 6 months in full bottle",
        "keeps 2 years",
        "silence order",
        "silence order, role-missing",
        "cool to 24 °C",
        "warm to 50 °C",
        "stand 12 h",
        "filter",
        "do \"Stir until it is clear.\"",
        "pinch of sodium chloride\n sodium chloride 2 g",
        "sodium chloride 2 g optional",
        "sodium chloride 2 g note \"table salt will do\"",
        "sodium chloride 2 g at 30 °C",
        "sodium chloride 2 g optional note \"fine\" at 30 °C",
        "sodium chloride as needed",
        "sodium chloride 0.5 g from 10 % stock",
        "sodium chloride 25 mL of 10 % stock",
        "sodium chloride 10 mL of saturated stock",
        "sodium chloride 25 mL of 10 % w/v stock",
        "sodium chloride 25 mL of 10 % w/w stock",
        "acetic acid (glacial) 25 mL of 10 % v/v stock",
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        char *text = formula_with(lines[i]);
        expect_clean(text);
        free(text);
    }
}

static void every_kind_of_bath(void **state)
{
    (void)state;
    static const char *const kinds[] = {"developer",   "stop bath",  "fixer",       "hardener", "clearing bath",
                                        "bleach",      "reducer",    "intensifier", "toner",    "sensitizer",
                                        "replenisher", "stabilizer", "buffer",      "other",    "Stop Bath",
                                        "stabiliser",  "sensitiser"};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        char text[400];
        snprintf(text, sizeof text, "formula \"Saltmarsh bath\"\n kind %s\n silence role-missing\n water to make 1 L\n",
                 kinds[i]);
        struct compiled compiled = compile(text);
        assert_int_equal(compiled_count(&compiled, NULL), 0);
        const char *shown = json_text_of(compiled_formula(&compiled, 0), "kind");
        if (i < 14) {
            assert_string_equal(shown, kinds[i]);
        }
        compiled_free(&compiled);
    }
    expect_one("formula \"Saltmarsh bath\"\nkind devloper\nwater to make 1 L\n", "syntax", 2, 6);
}

static void the_lines_of_a_use(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "dilute 1+29",
        "dilute undiluted",
        "temperature 20 °C",
        "temperature 68 °F",
        "time 9 min",
        "time 1 min 30 s",
        "time 8 to 10 min",
        "agitate \"10 s each minute\"",
        "needs 10 mL per roll",
        "capacity 12 rolls per L",
        "capacity 40 sheets 8x10 in per L",
        "coefficient 1.9 per 10 °C",
        "note \"gently\"",
        "mix water 1",
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        char text[400];
        snprintf(text, sizeof text,
                 "formula \"Saltmarsh bath\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\nuse for film\n%s\n",
                 lines[i]);
        expect_clean(text);
    }
    expect_clean(
        "formula \"Saltmarsh bath\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\nuse for \"pull processing\"\n"
        "dilute 1+9\n");
}

static void parts_and_mixtures(void **state)
{
    (void)state;
    const char *text = "formula \"Saltmarsh two-part bath\"\n"
                       "    kind other\n"
                       "    part A\n"
                       "        sodium chloride 10 g\n"
                       "        water to make 1 L\n"
                       "        keeps 6 months in full bottle\n"
                       "        note \"of A\"\n"
                       "    part 2\n"
                       "        potassium bromide 10 g\n"
                       "        water to make 500 mL\n"
                       "    use for film\n"
                       "        mix A 1 + 2 1 + water 8\n";
    struct compiled compiled = compile(text);
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const json_t *parts = json_object_get(compiled_formula(&compiled, 0), "parts");
    assert_int_equal(json_array_size(parts), 2);
    assert_string_equal(json_text_of(json_array_get(parts, 0), "name"), "A");
    assert_string_equal(json_text_of(json_array_get(parts, 1), "name"), "2");
    assert_int_equal(json_array_size(json_object_get(json_array_get(parts, 0), "keeps")), 1);
    const json_t *use = compiled_use(&compiled, 0);
    assert_int_equal(json_array_size(json_object_get(use, "mix")), 3);
    assert_near(json_number_of(use, "total_parts"), 10);
    compiled_free(&compiled);
}

static void solutions_of_parts_and_formulas(void **state)
{
    (void)state;
    expect_clean("formula \"Saltmarsh gold stock\"\n"
                 "    kind other\n"
                 "    sodium chloride 10 g\n"
                 "    water to make 1 L\n"
                 "formula \"Saltmarsh salted bath\"\n"
                 "    kind other\n"
                 "    part A\n"
                 "        sodium chloride 10 g\n"
                 "        water to make 1 L\n"
                 "    part bath\n"
                 "        solution A 10 mL\n"
                 "        solution \"Saltmarsh gold stock\" 10 mL\n"
                 "        water to make 100 mL\n");
}

static void stocks_and_library_declarations(void **state)
{
    (void)state;
    expect_clean("stock phenidone 1 %\n"
                 "    in isopropyl alcohol\n"
                 "    keeps 12 months in dark bottle\n"
                 "    note \"shake well\"\n"
                 "material marsh salt\n"
                 "    also      salt of the marsh, \"salt, washed\"\n"
                 "    role      restrainer\n"
                 "    form      anhydrous   NaCl       cas 7647-14-5   usual\n"
                 "    form      dihydrate   NaCl.2H2O  also crystalline\n"
                 "    dissolves 36 g per 100 mL at 20 °C    source \"common practice\"\n"
                 "    typical   developer 5 to 150 g/L\n"
                 "    note      \"invented\"\n"
                 "    source    \"invented for this test\"\n"
                 "unit jug  is 300 mL  also jugs  source \"invented for this test\"\n"
                 "formula \"Saltmarsh brine\"\n"
                 "    kind other\n"
                 "    water 2 jugs\n"
                 "    marsh salt (dihydrate) 2 g\n"
                 "    salt of the marsh (crystalline) 2 g note \"twice, for the other name\"\n"
                 "    silence added-twice\n"
                 "    water to make 1 L\n");
}

/* The other declarations of the contract, word for word, with the formulas that they name. */
static void the_other_declarations_of_the_contract(void **state)
{
    (void)state;
    expect_list(
        "rule metol-before-sulfite-here\n"
        "    in      developer\n"
        "    when    metol comes after sodium sulfite over 10 g/L\n"
        "    warn    \"metol dissolves poorly once much sulfite is in solution\"\n"
        "    advise  \"dissolve the metol first, with a pinch of sulfite\"\n"
        "    source  \"common practice\"\n"
        "batch \"PD-014\" of \"Saltmarsh print developer\"\n"
        "    mixed 2026-03-04\n"
        "    made  1 L\n"
        "    used  250 mL on 2026-03-06 for 10 sheets 8x10 in\n"
        "process \"Roll film, one reel\"\n"
        "    tank 500 mL holds 2 rolls\n"
        "    bath \"Tern film developer\" for film at 20 °C 9 min\n"
        "    bath \"Plain citric stop\" 30 s\n"
        "    bath \"Glasswort fixer\" for film 5 min\n"
        "    wash 10 min\n"
        "variant \"Saltmarsh print developer, cold\"\n"
        "    of     \"Saltmarsh print developer\"\n"
        "    change potassium bromide to 0.8 g\n"
        "    leave out hydroquinone\n"
        "    add    phenidone 0.15 g from 1 % stock, after metol\n"
        "    swap   sodium carbonate for potassium carbonate      # same moles of carbonate\n"
        "formula \"Saltmarsh print developer\"\n"
        "    kind developer\n"
        "    water 750 mL at 45 °C\n"
        "    metol 1.5 g\n"
        "    sodium sulfite (anhydrous) 30 g\n"
        "    hydroquinone 7 g\n"
        "    sodium carbonate (anhydrous) 45 g\n"
        "    potassium bromide 1.5 g\n"
        "    water to make 1 L\n"
        "formula \"Tern film developer\"\n    kind other\n    water to make 1 L\n    use for film\n"
        "        temperature 20 °C\n"
        "formula \"Plain citric stop\"\n    kind other\n    water to make 1 L\n"
        "formula \"Glasswort fixer\"\n    kind other\n    water to make 1 L\n    use for film\n        time 5 min\n",
        /* the dry potassium carbonate is meant, or is it? */
        "form-unstated:22");
    /* The shelf by itself: what is on it is held against formulas of the same run. */
    expect_clean("shelf \"Saltmarsh club shelf\"\n"
                 "    currency GBP\n"
                 "    balance  0.1 g\n"
                 "    graduate 100 mL within 1 mL\n"
                 "    holds    sodium sulfite (anhydrous) 1 kg for 9.40 left 620 g opened 2026-02-01 lot \"A17\"\n");
}

static void case_blanks_and_leaders_do_not_matter(void **state)
{
    (void)state;
    expect_clean("FORMULA \"Saltmarsh bath\"\n"
                 "\tKind OTHER\n"
                 "Water ......... 500 ML\n"
                 "Sodium Sulphite (Anhydrous) ........ 50 G\n"
                 "SODIUM CHLORIDE\u2026\u2026 5 Grammes\n"
                 "Potassium\u00A0bromide\u00A05 g.\n"
                 "water To Make 1 l   # a comment\n"
                 "   # and another\n");
}

static void crlf_bom_and_a_missing_last_line_end(void **state)
{
    (void)state;
    expect_clean("\xEF\xBB\xBF"
                 "formula \"Saltmarsh bath\"\r\nkind other\r\nsodium chloride 5 g\r\nwater to make 1 L");
    expect_clean("# only a comment");
    expect_clean("");
    expect_clean("\n\n\n");
    expect_clean("\xEF\xBB\xBF");
}

static void printed_ways_of_writing(void **state)
{
    (void)state;
    /* A form behind a comma; an abbreviation's point; a full stop at the end; curly quotes. */
    expect_clean("formula \u201CSaltmarsh bath\u201D\n"
                 "    kind other\n"
                 "    sodium sulphite, anhydrous, 30 g.\n"
                 "    sodium chloride 5 gms.\n"
                 "    water to make up to 1 L\n");
}

/* A quote character in a title is a different thing from its end; titles keep their case and blanks. */
static void titles_are_kept_as_written(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"Größe  'x'  # no comment\"\nkind other\nwater to make 1 L\n");
    assert_int_equal(compiled.status, POTASH_GOOD);
    assert_string_equal(json_text_of(compiled_formula(&compiled, 0), "title"), "Größe  'x'  # no comment");
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_formula_of_the_contract),
        cmocka_unit_test(properties_and_steps),
        cmocka_unit_test(every_kind_of_bath),
        cmocka_unit_test(the_lines_of_a_use),
        cmocka_unit_test(parts_and_mixtures),
        cmocka_unit_test(solutions_of_parts_and_formulas),
        cmocka_unit_test(stocks_and_library_declarations),
        cmocka_unit_test(the_other_declarations_of_the_contract),
        cmocka_unit_test(case_blanks_and_leaders_do_not_matter),
        cmocka_unit_test(crlf_bom_and_a_missing_last_line_end),
        cmocka_unit_test(printed_ways_of_writing),
        cmocka_unit_test(titles_are_kept_as_written),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
