/* What the shelf says: left, mixable, to buy, expiring; and what is wrong about its lines. */
#include "support/reports.h"

#include <stdio.h>
#include <string.h>

static const char shelf[] = "shelf \"Shelf\"\n"
                            "    currency GBP\n"
                            "    holds metol 100 g for 18.50 left 20 g\n"
                            "    holds sodium carbonate (monohydrate) 1 kg for 5.80 left 100 g\n"
                            "    holds sodium sulfite (anhydrous) 1 kg for 9.40 left 50 g\n"
                            "    holds sodium sulfite (heptahydrate) 1 kg for 7.10 left 500 g\n"
                            "    holds glycin 50 g for 24.00 best before 2026-01-31\n"
                            "    holds potassium carbonate (anhydrous) 500 g for 6.10\n"
                            "    sold hydroquinone 100 g for 7.90 from \"Harbour Chemicals\"\n"
                            "    sold hydroquinone 250 g for 14.80 from \"Harbour Chemicals\"\n"
                            "    sold hydroquinone 1 kg for 49.00 from \"Harbour Chemicals\"\n";

static json_t *shelf_of(const struct potash_options *options, const char *formulas)
{
    char *text = malloc(sizeof shelf + strlen(formulas));
    strcat(strcpy(text, shelf), formulas);
    struct potash_options dated = options == NULL ? (struct potash_options){0} : *options;
    dated.date = dated.date == NULL ? "2026-03-04" : dated.date;
    json_t *root = report_json_of(potash_shelf, &dated, text);
    free(text);
    return root;
}

static const json_t *mix_of(const json_t *root, const char *title)
{
    return json_with(json_object_get(root, "can_mix"), "title", title);
}

static void assert_mix(const char *addition, const char *how, const char *missing)
{
    char text[300];
    snprintf(text, sizeof text, "formula \"Bath\"\n kind other\n %s\n water to make 1 L\n", addition);
    json_t *root = shelf_of(NULL, text);
    const json_t *mix = mix_of(root, "Bath");
    assert_string_equal(json_text_of(mix, "how"), how);
    const json_t *list = json_object_get(mix, "missing");
    assert_int_equal(json_array_size(list), missing != NULL);
    if (missing != NULL) {
        assert_string_equal(json_string_value(json_array_get(list, 0)), missing);
    }
    json_decref(root);
}

static void formulas_that_can_be_mixed(void **state)
{
    (void)state;
    assert_mix("metol 20 g", "as written", NULL); /* all of it */
    assert_mix("metol 20.001 g", "no", "metol");
    assert_mix("sodium sulfite (anhydrous) 40 g", "as written", NULL);
    assert_mix("glycin 2 g", "no", "glycin"); /* past its day */
    assert_mix("hydroquinone 2 g", "no", "hydroquinone"); /* only in the shop */
    /* both forms together: 50 g, and 500 x 126.04/252.15 = 249.9 g in the other */
    assert_mix("sodium sulfite (anhydrous) 299 g", "with other forms", NULL);
    assert_mix("sodium sulfite (anhydrous) 301 g", "no", "sodium sulfite");
}

/* 45 g of the dry salt are 45 x 124.003/105.988 = 52.649 g of the monohydrate (atomic weights of IUPAC 2021). */
static void another_form_is_recalculated(void **state)
{
    (void)state;
    json_t *root = shelf_of(NULL, "formula \"Bath\"\n kind other\n sodium carbonate (anhydrous) 45 g\n water to make 1 L\n");
    const json_t *mix = mix_of(root, "Bath");
    assert_string_equal(json_text_of(mix, "how"), "with other forms");
    const json_t *with = json_array_get(json_object_get(mix, "with"), 0);
    assert_string_equal(json_text_of(with, "form"), "monohydrate");
    assert_within(json_number_of(with, "mass_g"), 52.649, 1e-4);
    assert_near(json_number_of(with, "in_place_of_g"), 45);
    json_decref(root);
}

/* Twice as much than there is of the sodium salt: 100 g dry are 0.9435 mol, and 0.9435 x 138.205 = 130.4 g of potassium carbonate,
 * which brings as much carbonate and no more acid or alkali. */
static void another_material_of_the_same_ion(void **state)
{
    (void)state;
    json_t *root = shelf_of(NULL, "formula \"Bath\"\n kind other\n sodium carbonate (anhydrous) 100 g\n water to make 1 L\n");
    const json_t *with = json_array_get(json_object_get(mix_of(root, "Bath"), "with"), 0);
    assert_string_equal(json_text_of(with, "material"), "potassium carbonate");
    assert_within(json_number_of(with, "mass_g"), 130.40, 1e-3);
    json_decref(root);
    /* bicarbonate would need an alkali beside it, and stays missing */
    assert_mix("sodium bicarbonate 10 g", "no", "sodium bicarbonate");
}

/* 5 L of 70 g/L hydroquinone: 350 g.  Of 100 g for 7.90, 250 g for 14.80, 1 kg for 49.00:
 *   250 + 100: 22.70; 2 x 250: 29.60; 4 x 100: 31.60; 1 kg: 49.00.  The first is least. */
static void the_shopping_list_costs_least(void **state)
{
    (void)state;
    const char *mix[] = {"5 L of Bath", NULL, NULL};
    struct potash_options options = {.mix = mix};
    static const char formulas[] = "formula \"Bath\"\n kind other\n hydroquinone 70 g\n metol 2 g\n water to make 1 L\n"
                                   "formula \"Other\"\n kind other\n hydroquinone 200 g\n metol 12 g\n water to make 1 L\n";
    json_t *root = shelf_of(&options, formulas);
    const json_t *buy = json_object_get(root, "buy");
    assert_int_equal(json_array_size(buy), 2); /* of the metol 10 g are wanted, and 20 g there */
    assert_int_equal(json_number_of(json_with(buy, "pack", "250 g"), "packs"), 1);
    assert_int_equal(json_number_of(json_with(buy, "pack", "100 g"), "packs"), 1);
    assert_near(json_number_of(root, "total"), 22.70);
    assert_near(json_number_of(json_array_get(buy, 0), "lacking_g"), 350);
    json_decref(root);
    /* With the other as well 550 g: 2 x 250 + 100 37.50, 3 x 250 44.40, 1 kg 49.00; and 2 g of metol are lacking. */
    mix[1] = "Other";
    root = shelf_of(&options, formulas);
    buy = json_object_get(root, "buy");
    assert_int_equal(json_number_of(json_with(buy, "pack", "250 g"), "packs"), 2);
    /* nobody sells metol, but a pack was bought once for 18.50 */
    const json_t *metol = json_with(buy, "material", "metol");
    assert_near(json_number_of(metol, "lacking_g"), 2);
    assert_near(json_number_of(metol, "cost"), 18.50);
    assert_near(json_number_of(root, "total"), 37.50 + 18.50);
    json_decref(root);
}

/* What is past its day has to be bought again; what is in another currency is not added up. */
static void what_cannot_be_added_up(void **state)
{
    (void)state;
    const char *const mix[] = {"Bath", NULL};
    struct potash_options options = {.mix = mix};
    json_t *root = shelf_of(&options, "shelf \"Second\"\n currency EUR\n sold thiourea 100 g for 7.20\n"
                                      "formula \"Bath\"\n kind other\n thiourea 5 g\n pyrogallol 1 g\n glycin 3 g\n water to make 1 L\n");
    const json_t *buy = json_object_get(root, "buy");
    assert_string_equal(json_text_of(json_with(buy, "material", "thiourea"), "currency"), "EUR");
    assert_near(json_number_of(json_with(buy, "material", "thiourea"), "cost"), 7.20);
    assert_true(json_is_null(json_object_get(json_with(buy, "material", "pyrogallol"), "cost")));
    assert_true(json_is_null(json_object_get(json_with(buy, "material", "pyrogallol"), "pack")));
    assert_near(json_number_of(root, "total"), 24.00);
    assert_false(json_is_true(json_object_get(root, "complete")));
    json_decref(root);
}

/* From 2026-03-04 to 2026-06-02 are 90 days: 27 of March, 30 of April, 31 of May, 2 of June. */
static void what_expires(void **state)
{
    (void)state;
    static const char packs[] = "shelf \"Second\"\n holds borax (decahydrate) 1 kg best before 2026-06-02\n"
                                " holds boric acid (crystals) 1 kg best before 2026-06-03\n holds citric acid (anhydrous) 1 kg left 0 g best before 2026-03-05\n"
                                "formula \"Bath\"\n kind other\n borax (decahydrate) 5 g\n water to make 1 L\n";
    json_t *root = shelf_of(NULL, packs);
    const json_t *expires = json_object_get(root, "expires");
    assert_int_equal(json_array_size(expires), 2);
    assert_string_equal(json_text_of(json_array_get(expires, 0), "material"), "glycin");
    assert_true(json_is_true(json_object_get(json_array_get(expires, 0), "too_old")));
    assert_near(json_number_of(json_array_get(expires, 0), "days"), -32);
    assert_near(json_number_of(json_array_get(expires, 1), "days"), 90);
    json_decref(root);
    struct potash_options options = {.horizon = "13 weeks"}; /* 91 days */
    root = shelf_of(&options, packs);
    assert_int_equal(json_array_size(json_object_get(root, "expires")), 3);
    json_decref(root);
}

/* One mistake, one diagnostic, at its line; the rest goes on. */
static void mistakes_are_said(void **state)
{
    (void)state;
    expect_one("shelf \"S\"\n currency GBP\n holds metol 100 g left -5 g\n", "amount-out-of-range", 3, 25);
    expect_one("shelf \"S\"\n currency GBP\n holds metol 100 g left 120 g\n", "amount-out-of-range", 3, 25);
    expect_one("shelf \"S\"\n currency GBP\n holds metol 0 g\n", "amount-out-of-range", 3, 0);
    expect_one("shelf \"S\"\n currency GBP\n holds metol 100 g for -2.00\n", "amount-out-of-range", 3, 0);
    expect_one("shelf \"S\"\n currency QQQ\n holds metol 100 g for 9.40\n", "unit-unknown", 2, 11);
    expect_one("shelf \"S\"\n currency GBP\n holds metol 100 g for 9.40 QQQ\n", "unit-unknown", 3, 0);
    expect_one("shelf \"S\"\n holds metol 100 g for 9.40\n", "syntax", 2, 0);
    expect_one("shelf \"S\"\n currency GBP\n currency EUR\n", "declared-twice", 3, 0);
    expect_one("shelf \"S\"\n holds metol 100 g opened 2026-02-30\n", "amount-out-of-range", 2, 0);
    expect_one("shelf \"S\"\n holds metol 100 g best before 2026-13-01\n", "amount-out-of-range", 2, 0);
    expect_one("shelf \"S\"\n holds metol 100 g opened 2026-02-01 best before 2025-12-31\n", "amount-unusual", 2, 0);
    expect_one("shelf \"S\"\n holds metol 100 mL\n", "unit-mismatch", 2, 0);
    expect_one("shelf \"S\"\n holds metol 100 g left 5 mL\n", "unit-mismatch", 2, 0);
    expect_one("shelf \"S\"\n holds metol 100 g purity 120 %\n", "amount-out-of-range", 2, 0);
    expect_one("shelf \"S\"\n holds metoll 100 g\n", "material-unknown", 2, 0);
    expect_one("shelf \"S\"\n holds sodium carbonate 1 kg\n", "form-unstated", 2, 0);
    expect_one("shelf \"S\"\n balance 0 g\n", "amount-out-of-range", 2, 0);
    expect_one("shelf \"S\"\n balance 5 mL\n", "unit-mismatch", 2, 0);
    expect_one("shelf \"S\"\n bottles 1.5 of 1 L\n", "amount-out-of-range", 2, 0);
    expect_one("shelf \"S\"\nshelf \"S\"\n", "declared-twice", 2, 0);
    expect_one("shelf \"S\"\n holds metol 100 g lot \"A\"\n holds metol 100 g lot \"A\"\nshelf \"T\"\n holds metol 50 g lot \"A\"\n",
               "declared-twice", 5, 0);
    expect_clean("shelf \"S\"\n holds metol 100 g lot \"A\"\n holds hydroquinone 100 g lot \"A\"\n");
}

static void the_rest_goes_on(void **state)
{
    (void)state;
    json_t *root = shelf_of(NULL, "shelf \"Second\"\n holds borax (decahydrate) 1 kg left -1 g\n holds boric acid (crystals) 1 kg\n"
                                  "formula \"Broken\"\n kind other\n metol 1,5 g\n water to make 1 L\n"
                                  "formula \"Bath\"\n kind other\n boric acid (crystals) 5 g\n water to make 1 L\n");
    assert_string_equal(json_text_of(mix_of(root, "Bath"), "how"), "as written");
    assert_int_equal(json_array_size(json_object_get(root, "can_mix")), 1);
    json_with(json_object_get(root, "left"), "material", "boric acid");
    json_decref(root);
}

/* The shelf's scale holds for the warning of what is too small to weigh, and what it lacks is said of the formula's line. */
static void formulas_are_held_against_the_shelf(void **state)
{
    (void)state;
    expect_one("shelf \"S\"\n balance 0.1 g\n holds metol 100 g\n"
               "formula \"Bath\"\n kind other\n metol 0.5 g\n water to make 1 L\n", "too-small-to-weigh", 6, 0);
    expect_clean("shelf \"S\"\n balance 0.1 g\n balance 200 g within 0.001 g\n holds metol 100 g\n"
                 "formula \"Bath\"\n kind other\n metol 0.5 g\n water to make 1 L\n");
    expect_one("shelf \"S\"\n holds metol 100 g\n"
               "formula \"Bath\"\n kind other\n metol 2 g\n borax (decahydrate) 5 g\n water to make 1 L\n", "not-on-shelf", 6, 2);
    expect_clean("shelf \"S\"\n holds metol 100 g\n"
                 "formula \"Bath\"\n kind other\n silence not-on-shelf\n metol 2 g\n borax (decahydrate) 5 g\n water to make 1 L\n");
}

/* The sheet is rewritten: 52.65 g of the monohydrate, and of the 98 % pure metol 2/0.98 = 2.04 g. */
static void a_sheet_takes_what_is_there(void **state)
{
    (void)state;
    static const char text[] = "shelf \"S\"\n holds metol 100 g purity 98 % lot \"M-0617\"\n holds sodium carbonate (monohydrate) 1 kg\n"
                               " holds acetic acid (glacial) 500 mL\n"
                               "formula \"Bath\"\n kind other\n metol 2 g\n sodium carbonate (anhydrous) 45 g\n water to make 1 L\n";
    struct potash_options options = {.using_shelf = true};
    char *sheet = report_text_of(potash_sheet, &options, text, POTASH_TEXT);
    assert_non_null(strstr(sheet, "52.65 g"));
    assert_non_null(strstr(sheet, "in place of 45 g sodium carbonate (anhydrous)"));
    assert_non_null(strstr(sheet, "2.04 g"));
    assert_non_null(strstr(sheet, "lot: M-0617"));
    assert_non_null(strstr(sheet, "2 g as written; the bottle's is 98 % pure"));
    free(sheet);
    char *as_written = report_text_of(potash_sheet, NULL, text, POTASH_TEXT);
    assert_null(strstr(as_written, "52.65"));
    free(as_written);
}

/* A liquid stays a liquid: 100 mL of 28 % acetic acid from glacial.  By the library's figures 28 % w/w weighs 1.036 g/mL and the
 * glacial acid is 99.7 %, 1.049 g/mL: 100 x 1.036 x 0.28/0.997/1.049 = 27.7 mL. */
static void liquids_are_measured(void **state)
{
    (void)state;
    struct potash_options options = {.using_shelf = true};
    char *sheet = report_text_of(potash_sheet, &options,
                                 "shelf \"S\"\n holds acetic acid (glacial) 500 mL\n"
                                 "formula \"Bath\"\n kind stop bath\n water 500 mL\n acetic acid (28 %) 100 mL\n water to make 1 L\n",
                                 POTASH_TEXT);
    assert_non_null(strstr(sheet, "in place of 100 mL acetic acid (28 %)"));
    if (strstr(sheet, "27.7 mL") == NULL && strstr(sheet, "27.8 mL") == NULL && strstr(sheet, "27.5 mL") == NULL) {
        fail_msg("%s", sheet);
    }
    free(sheet);
}

/* What a process takes enters the list: 10 rolls two at a time are five fillings of 500 mL, 2.5 L of the developer, each poured
 * away; a bottle of 1 L still stands there.  1.5 L of 20 g/L are 30 g of metol, of which 20 g are left: one pack is bought. */
static void a_process_is_shopped_for(void **state)
{
    (void)state;
    const char *const mix[] = {"Roll film", NULL};
    struct potash_options options = {.mix = mix, .goods = "10 rolls"};
    json_t *root = shelf_of(&options, "formula \"Bath\"\n kind other\n metol 20 g\n water to make 1 L\n"
                                      " use for film\n time 9 min\n capacity 4 rolls per L\n keeps 6 months in full bottle\n"
                                      "batch \"B-001\" of \"Bath\"\n mixed 2026-03-01\n made 1 L\n"
                                      "process \"Roll film\"\n tank 500 mL holds 2 rolls\n bath \"Bath\" for film 9 min\n use once\n");
    const json_t *metol = json_with(json_object_get(root, "buy"), "material", "metol");
    assert_near(json_number_of(metol, "lacking_g"), 10);
    assert_near(json_number_of(metol, "cost"), 18.50);
    assert_string_equal(json_text_of(json_array_get(json_object_get(root, "batches"), 0), "batch"), "B-001");
    json_decref(root);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(formulas_that_can_be_mixed),       cmocka_unit_test(another_form_is_recalculated),
        cmocka_unit_test(another_material_of_the_same_ion), cmocka_unit_test(the_shopping_list_costs_least),
        cmocka_unit_test(what_cannot_be_added_up),          cmocka_unit_test(what_expires),
        cmocka_unit_test(mistakes_are_said),                cmocka_unit_test(the_rest_goes_on),
        cmocka_unit_test(formulas_are_held_against_the_shelf), cmocka_unit_test(a_sheet_takes_what_is_there),
        cmocka_unit_test(liquids_are_measured),              cmocka_unit_test(a_process_is_shopped_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
