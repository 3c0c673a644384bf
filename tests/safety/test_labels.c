/* Labels: which signs and statements stand on them, and which give way.  Regulation (EC) No 1272/2008, articles 20 to 28 and Annexes
 * III and IV; classes and limits of the substances from Annex VI by the index that stands beside. */
#include "safety_help.h"

/* Acetic acid, 607-002-00-6: Skin Corr. 1B from 25 %, irritant from 10 %; flammable only when it is strong. */
static void bands_of_acetic_acid(void **state)
{
    (void)state;
    json_t *strong = safety_of("    water 500 mL\n    acetic acid (glacial) 300 mL");
    assert_classes(stock_of(strong), "Skin Corr. 1B; Eye Dam. 1");
    assert_statements(stock_of(strong), "H314"); /* which covers H318 */
    assert_list(stock_of(strong), "pictograms", NULL, "GHS05");
    assert_string_equal(json_text_of(stock_of(strong), "signal_word"), "Danger");
    json_decref(strong);
    json_t *middling = safety_of("    water 500 mL\n    acetic acid (glacial) 120 mL");
    assert_classes(stock_of(middling), "Skin Irrit. 2; Eye Irrit. 2");
    assert_list(stock_of(middling), "pictograms", NULL, "GHS07");
    assert_string_equal(json_text_of(stock_of(middling), "signal_word"), "Warning");
    json_decref(middling);
    json_t *weak = safety_of("    water 500 mL\n    acetic acid (28 %) 50 mL");
    assert_classes(stock_of(weak), "");
    assert_list(stock_of(weak), "pictograms", NULL, "");
    assert_true(json_is_null(json_object_get(stock_of(weak), "signal_word")));
    json_decref(weak);
}

/* Sodium hydroxide, 011-002-00-6: corrosive from 2 %, irritant from 0.5 %; below that its pH is extreme and its reserve small
 * (3.2.3.1.2; Young and others, 1988: 0.3 g in 100 g, 12.8 + 0.3/12 is less than 14.5). */
static void hydroxide_by_limit_and_by_ph(void **state)
{
    (void)state;
    json_t *json = safety_of("    water 500 mL\n    sodium hydroxide 25 g");
    assert_classes(stock_of(json), "Skin Corr. 1B; Eye Dam. 1");
    json_decref(json);
    json = safety_of("    water 500 mL\n    sodium hydroxide 3 g"); /* 0.3 %, 0.075 mol/L: pH 12.8 */
    assert_classes(stock_of(json), "");
    assert_true(json_number_of(stock_of(json), "pH") > 12);
    assert_within(json_number_of(stock_of(json), "reserve_g_per_100_g"), 0.3, 0.005);
    json_decref(json);
    json = safety_of("    water 500 mL\n    sodium hydroxide 1 g");
    assert_classes(stock_of(json), "");
    json_decref(json);
    json = safety_of("    water 500 mL\n    hydrochloric acid (37 %) 5 mL"); /* 5.92 g, 2.19 g HCl: 0.06 mol, 2.4 g NaOH in 1 kg */
    assert_classes(stock_of(json), "");
    assert_within(json_number_of(stock_of(json), "reserve_g_per_100_g"), 0.24, 0.005);
    json_decref(json);
    json = safety_of("    water 500 mL\n    hydrochloric acid (37 %) 10 mL"); /* pH 1.0, reserve 0.48: 1.0 - 0.48/6 is less than 1 */
    assert_classes(stock_of(json), "Skin Irrit. 2; Eye Irrit. 2");
    json_decref(json);
}

/* Article 26: the skull takes the exclamation mark's place, and the corrosion sign does for skin and eyes.  Potassium dichromate,
 * 024-002-00-6. */
static void signs_that_give_way(void **state)
{
    (void)state;
    json_t *json = safety_of("    water 500 mL\n    potassium dichromate 60 g");
    char signs[100];
    join(json_object_get(stock_of(json), "pictograms"), NULL, signs, sizeof signs);
    assert_non_null(strstr(signs, "GHS06"));
    assert_null(strstr(signs, "GHS07"));
    assert_non_null(strstr(signs, "GHS08"));
    json_decref(json);
    json = safety_of("    water 500 mL\n    sodium hydroxide 25 g\n    ammonium chloride 120 g"); /* 017-014-00-8: H319 */
    join(json_object_get(stock_of(json), "pictograms"), NULL, signs, sizeof signs);
    assert_non_null(strstr(signs, "GHS05"));
    json_decref(json);
}

/* Annex III: H410 covers H400.  Silver nitrate, 047-001-00-2. */
static void h410_covers_h400(void **state)
{
    (void)state;
    json_t *json = safety_of("    water 500 mL\n    silver nitrate 400 g");
    char statements[200];
    join(json_object_get(stock_of(json), "statements"), NULL, statements, sizeof statements);
    assert_non_null(strstr(statements, "H410"));
    assert_null(strstr(statements, "H400"));
    char classes[400];
    join(json_object_get(stock_of(json), "classes"), "code", classes, sizeof classes);
    assert_non_null(strstr(classes, "H400"));
    json_decref(json);
}

/* Annex III, table 1.2: pyrogallol (604-009-00-6) is harmful by three ways; of 90 % of it in a dry mix that is one sentence. */
static void one_sentence_for_several_ways(void **state)
{
    (void)state;
    json_t *json = safety_of("formula \"Mix\"\n    kind other\n    makes 100 g\n    pyrogallol 90 g\n    sodium sulfate (anhydrous) 10 g\n");
    char label[400];
    join(json_object_get(stock_of(json), "label"), "code", label, sizeof label);
    assert_non_null(strstr(label, "H302+H312+H332"));
    join(json_object_get(stock_of(json), "label"), "text", label, sizeof label);
    assert_non_null(strstr(label, "Harmful if swallowed, in contact with skin or if inhaled"));
    json_decref(json);
}

/* Annex II, 2.8: the names of the sensitisers stand in the sentence. */
static void sensitisers_are_named(void **state)
{
    (void)state;
    json_t *json = safety_of("    water 500 mL\n    metol 2 g\n    hydroquinone 5 g");
    assert_list(stock_of(json), "label", "text", "Contains hydroquinone, metol. May produce an allergic reaction");
    assert_list(stock_of(json), "supplements", "code", "EUH208");
    json_decref(json);
}

/* Article 28(3): not more than six precautionary statements, none of them twice. */
static void at_most_six_precautions(void **state)
{
    (void)state;
    json_t *json = safety_of("    water 500 mL\n    potassium dichromate 60 g\n    sulfuric acid (96 %) 100 mL");
    const json_t *precautions = json_object_get(stock_of(json), "precautions");
    assert_int_equal(json_array_size(precautions), 6);
    for (size_t i = 1; i < 6; i++) {
        assert_true(strcmp(json_text_of(json_array_get(precautions, i - 1), "code"), json_text_of(json_array_get(precautions, i), "code")) < 0);
    }
    json_decref(json);
}

/* Boron, note 11: 2 g of borax and 1.5 g of boric acid in a litre are 0.35 % together, neither is 0.3 %. */
static void boron_together(void **state)
{
    (void)state;
    json_t *json = safety_of("    water 500 mL\n    borax (decahydrate) 2 g\n    boric acid (crystals) 1.5 g");
    assert_classes(stock_of(json), "Repr. 1B");
    assert_int_equal(json_array_size(json_object_get(json_array_get(json_object_get(stock_of(json), "classes"), 0), "because")), 2);
    json_decref(json);
    json = safety_of("    water 500 mL\n    borax (decahydrate) 2 g");
    assert_classes(stock_of(json), "");
    json_decref(json);
}

/* Sodium hypochlorite, 017-011-00-1: EUH031 from 5 %. */
static void euh031_of_hypochlorite(void **state)
{
    (void)state;
    json_t *json = safety_of("    water 200 mL\n    sodium hypochlorite (12 %) 500 mL");
    assert_list(stock_of(json), "supplements", "code", "EUH031");
    json_decref(json);
    json = safety_of("    water 200 mL\n    sodium hypochlorite (12 %) 300 mL");
    assert_list(stock_of(json), "supplements", "code", "");
    json_decref(json);
}

/* Annex I, 3.1.3.6.2.2: from 1 % of unknown toxicity on, the label says so. */
static void what_is_not_known(void **state)
{
    (void)state;
    json_t *json = safety_of("material marsh salt\n    role salt\n    form NaCl\n\nformula \"Bath\"\n    kind other\n    marsh salt 30 g\n"
                             "    water to make 1 L\n");
    assert_within(json_number_of(stock_of(json), "unknown_toxicity_percent"), 2.95, 0.03);
    assert_list(stock_of(json), "not_assessed", "material", "marsh salt");
    json_decref(json);
    json = safety_of("    water 500 mL\n    diazidostilbene disulfonate (anhydrous) 20 g\n    ammonia as needed");
    assert_list(stock_of(json), "not_assessed", "material", "ammonia; diazidostilbene disulfonate");
    json_decref(json);
    json = safety_of("    water 500 mL\n    sodium chloride 30 g\n    citric acid (anhydrous) 30 g");
    assert_list(stock_of(json), "not_assessed", "material", "");
    json_decref(json);
}

/* Annex VI, 080-010-00-X (H300) and 028-009-00-5 with 024-002-00-6: what stops, and what a label of several reasons shows. */
static void the_gravest_stand_in_the_json(void **state)
{
    (void)state;
    json_t *json = safety_of("formula \"Two\"\n    kind other\n    part A\n    mercuric chloride 20 g\n    water to make 1 L\n    part B\n"
                             "    potassium bromide 20 g\n    water to make 1 L\n");
    assert_list(stock_of(json), "stop", "material", "mercuric chloride");
    json_decref(json);
    json = safety_of("    water 500 mL\n    nickel sulfate (hexahydrate) 20 g\n    potassium dichromate 20 g");
    char statements[300];
    join(json_object_get(stock_of(json), "statements"), NULL, statements, sizeof statements);
    assert_non_null(strstr(statements, "H350;"));
    assert_null(strstr(statements, "H350i"));
    char classes[300];
    join(json_object_get(stock_of(json), "classes"), "code", classes, sizeof classes);
    assert_non_null(strstr(classes, "H350i; H350;"));
    json_decref(json);
    /* 0.1 % of silver nitrate needs its sign: EC50 of silver for Daphnia 0.0002 mg/L (memory), so that M is 1000 and the sum 100 %;
     * of the chronic category 10 % with M 100, and tenfold in category 2 (Annex I, Tables 4.1.1 and 4.1.2). */
    json = safety_of("    water 500 mL\n    silver nitrate 1 g");
    assert_statements(stock_of(json), "H400; H411");
    json_decref(json);
    /* 0.02 % of nickel sulfate makes allergic (028-009-00-5: from 0.01 %), 0.005 % does not. */
    json = safety_of("    water 500 mL\n    nickel sulfate (anhydrous) 0.2 g");
    join(json_object_get(stock_of(json), "statements"), NULL, statements, sizeof statements);
    assert_non_null(strstr(statements, "H317"));
    json_decref(json);
    json = safety_of("    water 500 mL\n    nickel sulfate (anhydrous) 0.05 g");
    join(json_object_get(stock_of(json), "statements"), NULL, statements, sizeof statements);
    assert_null(strstr(statements, "H317"));
    json_decref(json);
}

/* The bottles of a formula together have the most severe class of each kind. */
static void several_bottles(void **state)
{
    (void)state;
    json_t *json = safety_of("formula \"Two\"\n    kind other\n    part A\n    acetic acid (glacial) 300 mL\n    water to make 1 L\n    part B\n"
                             "    acetic acid (glacial) 120 mL\n    water to make 1 L\n    use for film\n        mix A 1 + B 1 + water 8\n");
    assert_classes(stock_of(json), "Skin Corr. 1B; Eye Dam. 1");
    const json_t *parts = json_object_get(formula_at(json, 0), "parts");
    assert_classes(json_object_get(json_array_get(parts, 1), "safety"), "Skin Irrit. 2; Eye Irrit. 2");
    assert_classes(use_of(json, 0), "");
    json_decref(json);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bands_of_acetic_acid),  cmocka_unit_test(hydroxide_by_limit_and_by_ph),
        cmocka_unit_test(signs_that_give_way),   cmocka_unit_test(h410_covers_h400),
        cmocka_unit_test(one_sentence_for_several_ways), cmocka_unit_test(sensitisers_are_named),
        cmocka_unit_test(at_most_six_precautions), cmocka_unit_test(boron_together),
        cmocka_unit_test(euh031_of_hypochlorite), cmocka_unit_test(what_is_not_known),
        cmocka_unit_test(the_gravest_stand_in_the_json),
        cmocka_unit_test(several_bottles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
