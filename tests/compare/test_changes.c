/* Each kind of change is found, and nothing else with it. */
#include "compare_help.h"

static const char bath[] = "formula \"Club bath\"\n"
                            "kind developer\n"
                            "for paper\n"
                            "water 750 mL at 50 °C\n"
                            "metol 1.5 g\n"
                            "sodium sulfite (anhydrous) 30 g\n"
                            "hydroquinone 7 g\n"
                            "cool to 24 °C\n"
                            "sodium carbonate (anhydrous) 40 g\n"
                            "potassium bromide 1.5 g\n"
                            "filter\n"
                            "water to make 1 L\n"
                            "use for paper\n"
                            "dilute 1+9\n"
                            "temperature 20 °C\n"
                            "time 90 s\n"
                            "agitate \"rock the tray\"\n"
                            "needs 10 mL per roll\n"
                            "capacity 40 sheets 8x10 in per L\n"
                            "coefficient 1.9 per 10 °C\n"
                            "keeps 6 months in full bottle\n";

/* An edit of the formula, and the one change that it makes. */
struct edit {
    const char *from;
    const char *to;
    const char *what;
    const char *material;  /* NULL: null */
    const char *value[2];  /* JSON */
    double percent;        /* NAN: null */
};

static const struct edit edits[] = {
    {"kind developer", "kind replenisher", "kind", NULL, {"\"developer\"", "\"replenisher\""}, NAN},
    {"for paper", "for paper, film", "purpose", NULL, {"\"paper\"", "\"paper, film\""}, NAN},
    {"potassium bromide 1.5 g\n", "potassium bromide 1.5 g\nbenzotriazole 0.2 g\n", "added", "benzotriazole", {"null", "0.2"}, NAN},
    {"metol 1.5 g\n", "", "removed", "metol", {"1.5", "null"}, NAN},
    {"hydroquinone 7 g", "hydroquinone 8.75 g", "amount", "hydroquinone", {"7.0", "8.75"}, 25},
    {"hydroquinone 7 g", "hydroquinone as needed", "amount", "hydroquinone", {"\"7 g/L\"", "\"as needed\""}, NAN},
    {"metol 1.5 g", "metol 1.5 to 3 g", "range", "metol", {"1.5", "[1.5,3.0]"}, NAN},
    {"bromide 1.5 g", "bromide 1.5 g optional", "optional", "potassium bromide", {"\"needed\"", "\"optional\""}, NAN},
    {"hydroquinone 7 g\n", "hydroquinone 3 g\nhydroquinone 4 g\n", "portions", "hydroquinone", {"1.0", "2.0"}, NAN},
    {"at 50 °C", "at 40 °C", "water", "water", {"50.0", "40.0"}, NAN},
    {" at 50 °C", "", "water", "water", {"50.0", "null"}, NAN},
    {"cool to 24 °C", "cool to 20 °C", "step", NULL, {"\"cool to 24\u00A0°C\"", "\"cool to 20\u00A0°C\""}, NAN},
    {"filter\n", "", "step", NULL, {"\"filter\"", "null"}, NAN},
    {"filter\n", "filter\nstand 12 h\n", "step", NULL, {"null", "\"let stand 12\u00A0h\""}, NAN},
    {"filter\n", "filter\ndo \"stir well\"\n", "step", NULL, {"null", "\"stir well\""}, NAN},
    {"metol 1.5 g", "pinch of sodium sulfite\nmetol 1.5 g", "step", NULL, {"null", "\"a pinch of sodium sulfite\""}, NAN},
    {"dilute 1+9", "dilute 1+4", "dilution", NULL, {"\"1+9\"", "\"1+4\""}, 100},
    {"dilute 1+9\n", "", "dilution", NULL, {"\"1+9\"", "\"undiluted\""}, 900},
    {"dilute 1+9", "dilute 1+9 to 1+14", "dilution", NULL, {"\"1+9\"", "\"1+9 to 1+14\""}, NAN},
    {"temperature 20 °C", "temperature 24 °C", "temperature", NULL, {"20.0", "24.0"}, NAN},
    {"temperature 20 °C", "temperature 20 to 24 °C", "temperature", NULL, {"20.0", "[20.0,24.0]"}, NAN},
    {"time 90 s", "time 2 min", "time", NULL, {"90.0", "120.0"}, 100.0 / 3},
    {"agitate \"rock the tray\"\n", "", "agitation", NULL, {"\"rock the tray\"", "null"}, NAN},
    {"needs 10 mL", "needs 12 mL", "needs", NULL, {"10.0", "12.0"}, 20},
    {"capacity 40", "capacity 30", "capacity", NULL, {"40.0", "30.0"}, -25},
    {"capacity 40 sheets 8x10 in", "capacity 40 sheets 5x8 in", "capacity", NULL, {"\"40\u00A0sheets 8x10\u00A0in per L\"", "\"40\u00A0sheets 5x8\u00A0in per L\""}, -50},
    {"coefficient 1.9", "coefficient 2.2", "coefficient", NULL, {"1.9", "2.2"}, (2.2 / 1.9 - 1) * 100},
    {"keeps 6 months", "keeps 3 months", "keeping", NULL, {"15778476.0", "7889238.0"}, -50},
    {"keeps 6 months in full bottle\n", "", "keeping", NULL, {"15778476.0", "null"}, NAN},
};

static void assert_json(const json_t *value, const char *wanted, const char *about)
{
    json_t *expected = json_loads(wanted, JSON_DECODE_ANY, NULL);
    bool near = json_is_number(expected) && json_is_number(value) &&
                fabs(json_number_value(expected) - json_number_value(value)) <= 1e-6 * fabs(json_number_value(expected));
    char *got = json_dumps(value, JSON_ENCODE_ANY | JSON_COMPACT);
    if (!near && !json_equal(value, expected)) {
        fail_msg("%s: %s instead of %s", about, got, wanted);
    }
    free(got);
    json_decref(expected);
}

static void test_edits(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof edits / sizeof *edits; i++) {
        const struct edit *edit = &edits[i];
        char *changed = with(bath, edit->from, edit->to);
        struct compared compared = compare_texts(bath, changed);
        const json_t *changes = changes_of(&compared);
        char *said = json_dumps(changes, JSON_COMPACT);
        const json_t *change = find_change(&compared, edit->what, edit->material);
        if (json_array_size(changes) != 1 || change == NULL || compared.same) {
            fail_msg("\"%s\" to \"%s\": %s", edit->from, edit->to, said);
        }
        assert_json(json_object_get(change, "from"), edit->value[0], edit->to);
        assert_json(json_object_get(change, "to"), edit->value[1], edit->to);
        const json_t *percent = json_object_get(change, "percent");
        if (isnan(edit->percent) ? !json_is_null(percent) : fabs(json_number_value(percent) - edit->percent) > 1e-6) {
            fail_msg("\"%s\" to \"%s\": %s", edit->from, edit->to, said);
        }
        assert_null(strstr(compared.page, "The two are the same."));
        free(said);
        compared_free(&compared);

        /* The other way round it is the same change, turned about. */
        compared = compare_texts(changed, bath);
        const char *back = strcmp(edit->what, "added") == 0 ? "removed" : strcmp(edit->what, "removed") == 0 ? "added" : edit->what;
        change = find_change(&compared, back, edit->material);
        assert_non_null(change);
        assert_int_equal(json_array_size(changes_of(&compared)), 1);
        assert_json(json_object_get(change, "from"), edit->value[1], edit->to);
        assert_json(json_object_get(change, "to"), edit->value[0], edit->to);
        compared_free(&compared);
        free(changed);
    }
}

/* What moved, and no more than has to. */
static void test_order(void **state)
{
    (void)state;
    const char a[] = "formula \"A\"\nwater 500 mL\nmetol 1 g\nsodium sulfite (anhydrous) 20 g\nhydroquinone 5 g\n"
                     "potassium bromide 1 g\nborax (decahydrate) 5 g\nwater to make 1 L\n";
    const char b[] = "formula \"A\"\nwater 500 mL\nborax (decahydrate) 5 g\nmetol 1 g\nsodium sulfite (anhydrous) 20 g\n"
                     "hydroquinone 5 g\npotassium bromide 1 g\nwater to make 1 L\n";
    struct compared compared = compare_texts(a, b);
    assert_false(compared.same);
    assert_int_equal(json_array_size(changes_of(&compared)), 1);
    const json_t *change = find_change(&compared, "order", "borax");
    assert_non_null(change);
    assert_true(json_number_of(change, "from") == 6);
    assert_true(json_number_of(change, "to") == 2);
    assert_non_null(strstr(compared.page, "borax: after potassium bromide in A, after water in B"));
    compared_free(&compared);

    /* Acid into water, or water into acid. */
    compared = compare_texts("formula \"A\"\nwater 500 mL\nsulfuric acid 20 mL\nwater to make 1 L\n",
                             "formula \"A\"\nsulfuric acid 20 mL\nwater 500 mL\nwater to make 1 L\n");
    assert_int_equal(json_array_size(changes_of(&compared)), 1);
    assert_non_null(find_change(&compared, "order", NULL));
    compared_free(&compared);

    /* A new one among them moves nothing. */
    char *more = with(a, "hydroquinone 5 g\n", "glycin 2 g\nhydroquinone 5 g\n");
    compared = compare_texts(a, more);
    assert_int_equal(json_array_size(changes_of(&compared)), 1);
    assert_non_null(find_change(&compared, "added", "glycin"));
    compared_free(&compared);
    free(more);
}

static const char two_parts[] = "formula \"Two\"\npart A\npyrogallol 10 g\nsodium bisulfite 3 g\nwater to make 1 L\n"
                                "keeps 3 months in full bottle\n"
                                "part B\npotassium carbonate (anhydrous) 75 g\nwater to make 1 L\n"
                                "use for film\nmix A 1 + B 1 + water 8\ntime 9 min\n";

static void test_parts(void **state)
{
    (void)state;
    expect_same(two_parts, two_parts);
    char *changed = with(two_parts, "anhydrous) 75 g", "anhydrous) 60 g");
    struct compared compared = compare_texts(two_parts, changed);
    const json_t *change = find_change(&compared, "amount", "potassium carbonate");
    assert_non_null(change);
    assert_string_equal(json_text_of(change, "part"), "B");
    assert_within(json_number_of(change, "percent"), -20, 1e-6);
    assert_int_equal(json_array_size(changes_of(&compared)), 1);
    compared_free(&compared);
    free(changed);

    /* The parts in the other order, the mixture in halves: the same. */
    expect_same(two_parts, "formula \"Two\"\npart B\npotassium carbonate (anhydrous) 75 g\nwater to make 1 L\n"
                           "part A\npyrogallol 10 g\nsodium bisulfite 3 g\nwater to make 1 L\n"
                           "keeps 3 months in full bottle\n"
                           "use for film\nmix B 1/2 + water 4 + A 1/2\ntime 9 min\n");

    changed = with(two_parts, "A 1 + B 1 + water 8", "A 1 + B 2 + water 8");
    compared = compare_texts(two_parts, changed);
    change = find_change(&compared, "dilution", NULL);
    assert_non_null(change);
    assert_string_equal(json_text_of(change, "from"), "A 1 + B 1 + water 8");
    assert_string_equal(json_text_of(change, "to"), "A 1 + B 2 + water 8");
    assert_int_equal(json_array_size(changes_of(&compared)), 1);
    assert_non_null(strstr(compared.page, "working solution for film")); /* more alkali in it, though no part changed */
    compared_free(&compared);
    free(changed);

    changed = with(two_parts, "keeps 3 months", "keeps 1 months");
    compared = compare_texts(two_parts, changed);
    change = find_change(&compared, "keeping", NULL);
    assert_string_equal(json_text_of(change, "part"), "A");
    assert_string_equal(json_text_of(change, "in"), "full bottle");
    compared_free(&compared);
    free(changed);
}

static void test_part_gone(void **state)
{
    (void)state;
    struct compared compared = compare_texts(two_parts, "formula \"Two\"\npart A\npyrogallol 10 g\nsodium bisulfite 3 g\n"
                                                        "water to make 1 L\nkeeps 3 months in full bottle\n"
                                                        "use for film\nmix A 1 + water 9\ntime 9 min\n");
    const json_t *change = find_change(&compared, "part", NULL);
    assert_non_null(change);
    assert_string_equal(json_text_of(change, "from"), "B");
    assert_true(json_is_null(json_object_get(change, "to")));
    assert_non_null(find_change(&compared, "removed", "potassium carbonate"));
    assert_non_null(find_change(&compared, "dilution", NULL));
    assert_int_equal(json_array_size(changes_of(&compared)), 3);
    compared_free(&compared);
}

static void test_parts_renamed(void **state)
{
    (void)state;
    struct compared compared =
        compare_texts(two_parts, "formula \"Two\"\npart 1\npyrogallol 10 g\nsodium bisulfite 3 g\nwater to make 1 L\n"
                                 "keeps 3 months in full bottle\npart 2\npotassium carbonate (anhydrous) 75 g\nwater to make 1 L\n"
                                 "use for film\nmix 1 1 + 2 1 + water 8\ntime 9 min\n");
    const json_t *changes = changes_of(&compared);
    assert_int_equal(json_array_size(changes), 2);
    for (size_t i = 0; i < 2; i++) {
        assert_string_equal(json_text_of(json_array_get(changes, i), "what"), "part");
        assert_string_equal(json_text_of(json_array_get(changes, i), "to"), i == 0 ? "1" : "2");
    }
    compared_free(&compared);
}

static void test_uses(void **state)
{
    (void)state;
    char *more = with(bath, "keeps 6 months", "use for film\ntime 5 min\nkeeps 6 months");
    struct compared compared = compare_texts(bath, more);
    const json_t *change = find_change(&compared, "use", NULL);
    assert_non_null(change);
    assert_true(json_is_null(json_object_get(change, "from")));
    assert_string_equal(json_text_of(change, "to"), "film");
    assert_string_equal(json_text_of(change, "use"), "film");
    assert_int_equal(json_array_size(changes_of(&compared)), 1);
    compared_free(&compared);
    free(more);
}

/* A dry mix and a bath: amounts by the kilogram of what is weighed. */
static void test_dry(void **state)
{
    (void)state;
    struct compared compared =
        compare_texts("formula \"A\"\nmetol 10 g\nhydroquinone 30 g\nwater to make 1 L\n",
                      "formula \"A\"\nmakes 100 g\nmetol 25 g\nhydroquinone 75 g\n");
    assert_non_null(find_change(&compared, "makes", NULL));
    assert_int_equal(json_array_size(changes_of(&compared)), 1);
    compared_free(&compared);
    compared = compare_texts("formula \"A\"\nmakes 100 g\nmetol 25 g\nhydroquinone 75 g\n",
                             "formula \"A\"\nmakes 200 g\nmetol 40 g\nhydroquinone 160 g\n");
    const json_t *change = find_change(&compared, "amount", "metol");
    assert_non_null(change);
    assert_within(json_number_of(change, "from"), 250, 1e-9);
    assert_within(json_number_of(change, "to"), 200, 1e-9);
    assert_string_equal(json_text_of(change, "unit"), "g/kg");
    compared_free(&compared);
}

static void test_solvent(void **state)
{
    (void)state;
    struct compared compared = compare_texts("formula \"A\"\nbenzotriazole 10 g\nwater to make 1 L\n",
                                             "formula \"A\"\nbenzotriazole 10 g\nisopropyl alcohol to make 1 L\n");
    const json_t *change = find_change(&compared, "solvent", NULL);
    assert_non_null(change);
    assert_string_equal(json_text_of(change, "from"), "water");
    assert_string_equal(json_text_of(change, "to"), "isopropyl alcohol");
    compared_free(&compared);
}

/* Figures of the section "What it means".  30 g of sodium sulfite and 10 g of potassium metabisulfite (222.31 g/mol, two
 * sulfites) are 30 + 10 / 222.31 x 2 x 126.04 = 41.3 g; 53 g of sodium carbonate (105.99 g/mol) take up 1 mol of acid; 4 g of
 * sodium hydroxide (40.00 g/mol) 0.1 mol; 3.81 g of borax crystals (381.37 g/mol) 0.02 mol. */
static void test_meaning(void **state)
{
    (void)state;
    struct compared compared = compare_texts(
        "formula \"A\"\nkind developer\nmetol 2 g\nhydroquinone 3 g\nsodium sulfite (anhydrous) 30 g\n"
        "sodium carbonate (anhydrous) 53 g\nwater to make 1 L\n",
        "formula \"A\"\nkind developer\nmetol 4 g\nhydroquinone 6 g\nsodium sulfite (anhydrous) 30 g\npotassium metabisulfite 10 g\n"
        "sodium hydroxide 4 g\nborax (decahydrate) 3.81 g\nwater to make 1 L\n");
    assert_int_equal(compared.status, POTASH_GOOD);
    static const char *const rows[][3] = {
        {"developing agents", "5 g", "10 g"},
        {"sulfite, as the anhydrous sodium salt", "30 g", "41.3 g"},
        {"alkali, as the acid it takes up", "1000 mmol", "120 mmol"},
    };
    for (size_t i = 0; i < 3; i++) {
        const char *row = strstr(compared.page, rows[i][0]);
        assert_non_null(row);
        char line[200];
        snprintf(line, sizeof line, "%.*s", (int)strcspn(row, "\n"), row);
        if (strstr(line, rows[i][1]) == NULL || strstr(line, rows[i][2]) == NULL) {
            fail_msg("%s", line);
        }
    }
    compared_free(&compared);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_edits),     cmocka_unit_test(test_order),         cmocka_unit_test(test_parts),
        cmocka_unit_test(test_part_gone), cmocka_unit_test(test_parts_renamed), cmocka_unit_test(test_uses),
        cmocka_unit_test(test_dry),       cmocka_unit_test(test_solvent),       cmocka_unit_test(test_meaning),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
