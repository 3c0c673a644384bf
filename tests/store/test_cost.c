/* Costs, worked out by hand beside each. */
#include "support/reports.h"

#include <stdio.h>
#include <string.h>

static const char shelf[] = "shelf \"Shelf\"\n"
                            "    currency GBP\n"
                            "    holds metol 100 g for 18.50\n"
                            "    holds sodium sulfite (anhydrous) 1 kg for 9.40 left 620 g\n"
                            "    holds hydroquinone 250 g for 14.20\n"
                            "    holds sodium carbonate (anhydrous) 1 kg for 5.80\n"
                            "    holds potassium bromide 250 g for 11.80\n";

static const char developer[] = "formula \"Print developer\"\n"
                                "    kind developer\n"
                                "    water 750 mL at 45 °C\n"
                                "    metol 1.5 g\n"
                                "    sodium sulfite (anhydrous) 30 g\n"
                                "    hydroquinone 7 g\n"
                                "    sodium carbonate (anhydrous) 45 g\n"
                                "    potassium bromide 1.5 g\n"
                                "    water to make 1 L\n"
                                "    use for paper\n"
                                "        dilute 1+3\n"
                                "        capacity 40 sheets 8x10 in per L\n"
                                "    use for film\n"
                                "        dilute 1+7\n"
                                "        needs 60 mL per roll\n";

static json_t *cost_of(const struct potash_options *options, const char *shelf_text, const char *formula)
{
    char *text = malloc(strlen(shelf_text) + strlen(formula) + 1);
    strcat(strcpy(text, shelf_text), formula);
    json_t *root = report_json_of(potash_cost, options, text);
    free(text);
    return root;
}

static const json_t *first(const json_t *root)
{
    return json_array_get(json_object_get(root, "formulas"), 0);
}

/* A litre:
 *   metol              1.5/100 of 18.50  = 0.2775
 *   sodium sulfite     30/1000 of 9.40   = 0.2820
 *   hydroquinone       7/250 of 14.20    = 0.3976
 *   sodium carbonate   45/1000 of 5.80   = 0.2610
 *   potassium bromide  1.5/250 of 11.80  = 0.0708
 *                                   sum    1.2889 GBP
 * 1+3: 1.2889/4 = 0.322225 a litre; 40 sheets of it: 0.322225/40 = 0.008055625 a sheet
 * 1+7: 1.2889/8 = 0.1611125 a litre; 60 mL of stock a roll: 1.2889 * 0.06 = 0.077334 */
static void a_worked_example(void **state)
{
    (void)state;
    json_t *root = cost_of(NULL, shelf, developer);
    const json_t *cost = first(root);
    const json_t *lines = json_object_get(cost, "lines");
    assert_int_equal(json_array_size(lines), 5);
    assert_near(json_number_of(json_with(lines, "material", "metol"), "cost"), 0.2775);
    assert_near(json_number_of(json_with(lines, "material", "hydroquinone"), "cost"), 0.3976);
    assert_near(json_number_of(cost, "batch"), 1.2889);
    assert_near(json_number_of(cost, "per_L_stock"), 1.2889);
    const json_t *working = json_object_get(cost, "per_L_working");
    assert_near(json_number_of(working, "paper"), 0.322225);
    assert_near(json_number_of(working, "film"), 0.1611125);
    assert_near(json_number_of(cost, "per_roll"), 0.077334);
    assert_near(json_number_of(cost, "per_sheet"), 0.008055625);
    assert_true(json_is_true(json_object_get(cost, "complete")));
    json_decref(root);
}

/* What stands in a line, without the blanks before it; good until the next call. */
static const char *rest_of_line(const char *from)
{
    static char line[100];
    from += strspn(from, " ");
    snprintf(line, sizeof line, "%.*s", (int)strcspn(from, "\n"), from);
    return line;
}

/* 2.5 L cost 2.5 times as much, the litre the same; ten rolls take 600 mL of stock: 0.77334 GBP. */
static void batches_and_rolls(void **state)
{
    (void)state;
    struct potash_options options = {.make = "2.5 L", .goods = "10 rolls"};
    json_t *root = cost_of(&options, shelf, developer);
    assert_near(json_number_of(first(root), "batch"), 3.22225);
    assert_near(json_number_of(first(root), "per_L_stock"), 1.2889);
    json_decref(root);
    char *text = malloc(sizeof shelf + sizeof developer);
    strcat(strcpy(text, shelf), developer);
    char *page = report_text_of(potash_cost, &options, text, POTASH_TEXT);
    const char *rolls = strstr(page, "10 rolls, film");
    assert_non_null(rolls);
    assert_string_equal(rest_of_line(rolls + strlen("10 rolls, film")), "0.77 GBP");
    free(page);
    free(text);
}

/* Two packs of one material: 1 kg for 9.40, 620 g left, opened first; 500 g for 4.20, all of it there.
 * 30 g   cheapest  30/500 of 4.20 = 0.252 (30/1000 of 9.40 is 0.282)
 *        oldest    30/1000 of 9.40 = 0.282
 *        average   13.60 for 1500 g: 30/1500 of it = 0.272
 * 700 g  oldest    620/1000 of 9.40 + 80/500 of 4.20 = 5.828 + 0.672 = 6.50
 * 2 kg   oldest    5.828 + 4.20, and 880 g more at the last price: 880/500 of 4.20 = 7.392; in all 17.42 */
static void several_packs(void **state)
{
    (void)state;
    static const char packs[] = "shelf \"Shelf\"\n currency GBP\n"
                                " holds sodium sulfite (anhydrous) 500 g for 4.20\n"
                                " holds sodium sulfite (anhydrous) 1 kg for 9.40 left 620 g opened 2026-01-10\n";
    static const struct {
        const char *by;
        const char *grams;
        double cost;
    } cases[] = {{NULL, "30 g", 0.252},     {"cheapest", "30 g", 0.252}, {"oldest", "30 g", 0.282}, {"average", "30 g", 0.272},
                 {"oldest", "700 g", 6.50}, {"oldest", "2000 g", 17.42}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char formula[200];
        snprintf(formula, sizeof formula, "formula \"Bath\"\n kind other\n sodium sulfite (anhydrous) %s\n water to make 10 L\n", cases[i].grams);
        struct potash_options options = {.price_by = cases[i].by};
        json_t *root = cost_of(&options, packs, formula);
        assert_near(json_number_of(first(root), "batch"), cases[i].cost);
        json_decref(root);
    }
}

/* A pack of 98 % holds 0.98 of the substance: 9.8 g pure take 10 g of it, 10/100 of 5.00. */
static void purity_counts(void **state)
{
    (void)state;
    json_t *root = cost_of(NULL, "shelf \"Shelf\"\n currency GBP\n holds hydroquinone 100 g for 5.00 purity 98 %\n",
                           "formula \"Bath\"\n kind other\n hydroquinone 9.8 g\n water to make 1 L\n");
    assert_near(json_number_of(first(root), "batch"), 0.5);
    json_decref(root);
}

/* Another form is priced by equal moles: 105.99 g/mol of the dry carbonate for 124.00 of the monohydrate (published atomic
 * weights: Na 22.990, C 12.011, O 15.999, H 1.008). 45 g x 124.003/105.988 = 52.649 g, of 1 kg for 5.80. */
static void another_form_is_priced(void **state)
{
    (void)state;
    json_t *root = cost_of(NULL, "shelf \"Shelf\"\n currency GBP\n holds sodium carbonate (monohydrate) 1 kg for 5.80\n",
                           "formula \"Bath\"\n kind other\n sodium carbonate (anhydrous) 45 g\n water to make 1 L\n");
    assert_within(json_number_of(first(root), "batch"), 52.649 * 5.80 / 1000, 1e-4);
    json_decref(root);
}

/* What has no price is named, and so is what is priced in another currency; neither is counted as free. */
static void what_is_missing_is_said(void **state)
{
    (void)state;
    json_t *root = cost_of(NULL,
                           "shelf \"Shelf\"\n currency GBP\n holds metol 100 g for 18.50\n holds hydroquinone 250 g for 15.90 EUR\n"
                           " holds sodium sulfite (anhydrous) 1 kg\n",
                           developer);
    const json_t *cost = first(root);
    assert_false(json_is_true(json_object_get(cost, "complete")));
    const json_t *missing = json_object_get(cost, "missing");
    assert_int_equal(json_array_size(missing), 4);
    assert_string_equal(json_string_value(json_array_get(missing, 0)), "sodium sulfite");
    assert_string_equal(json_string_value(json_array_get(missing, 1)), "hydroquinone");
    assert_near(json_number_of(cost, "batch"), 0.2775); /* the metol alone */
    const json_t *line = json_with(json_object_get(cost, "lines"), "material", "hydroquinone");
    assert_true(json_is_null(json_object_get(line, "cost")));
    assert_string_equal(json_text_of(json_object_get(line, "price"), "currency"), "EUR");
    json_decref(root);
}

/* A shop's price serves where the shelf has none. */
static void shops_have_prices(void **state)
{
    (void)state;
    json_t *root = cost_of(NULL, "shelf \"Shelf\"\n currency GBP\n sold metol 100 g for 20.00\n",
                           "formula \"Bath\"\n kind other\n metol 2 g\n water to make 1 L\n");
    assert_near(json_number_of(first(root), "batch"), 0.4);
    assert_true(json_is_true(json_object_get(json_object_get(json_array_get(json_object_get(first(root), "lines"), 0), "price"), "sold")));
    json_decref(root);
}

/* What a stock is dissolved in is paid for too: 0.2 g of phenidone as a 1 % stock are 20 mL of isopropyl alcohol, 20/1000 of 8.20
 * is 0.164; the phenidone 0.2/25 of 16.80 is 0.1344. */
static void the_solvent_of_a_stock_counts(void **state)
{
    (void)state;
    json_t *root = cost_of(NULL,
                           "shelf \"Shelf\"\n currency GBP\n holds phenidone 25 g for 16.80\n holds isopropyl alcohol (99 %) 1 L for 8.20\n",
                           "stock phenidone 1 %\n    in isopropyl alcohol\n"
                           "formula \"Bath\"\n kind other\n water 500 mL\n phenidone 0.2 g from 1 % stock\n water to make 1 L\n");
    assert_near(json_number_of(first(root), "batch"), 0.2984);
    json_decref(root);
}

/* Parts are priced by themselves where there is no one stock: A 1 + B 2 + water 7 of ten parts. A litre of A holds 100 g for
 * 0.94, of B 200 g for 1.16: 0.1 x 0.94 + 0.2 x 1.16 = 0.326. */
static void parts_are_mixed(void **state)
{
    (void)state;
    json_t *root = cost_of(NULL, shelf,
                           "formula \"Two\"\n kind other\n part A\n sodium sulfite (anhydrous) 50 g\n water to make 500 mL\n"
                           " part B\n sodium carbonate (anhydrous) 100 g\n water to make 500 mL\n use for film\n mix A 1 + B 2 + water 7\n");
    assert_near(json_number_of(json_object_get(first(root), "per_L_working"), "film"), 0.326);
    assert_near(json_number_of(first(root), "batch"), 0.47 + 0.58);
    assert_true(json_is_null(json_object_get(first(root), "per_L_stock")));
    json_decref(root);
}

static void assert_unusable(const struct potash_options *options, const char *shelf_text, const char *message)
{
    char *text = malloc(strlen(shelf_text) + sizeof developer);
    strcat(strcpy(text, shelf_text), developer);
    struct compiled compiled = compile_with(options, text, strlen(text));
    struct potash_output output;
    assert_int_equal(potash_cost(compiled.potash, POTASH_JSON, &output), POTASH_UNUSABLE);
    if (strstr(potash_message(compiled.potash), message) == NULL) {
        fail_msg("\"%s\" instead of \"%s\"", potash_message(compiled.potash), message);
    }
    compiled_free(&compiled);
    free(text);
}

static void calls_that_cannot_be_answered(void **state)
{
    (void)state;
    assert_unusable(NULL, "", "there is no shelf in these files");
    assert_unusable(&(struct potash_options){.price_by = "newest"}, shelf, "cheapest, oldest or average");
    assert_unusable(&(struct potash_options){.against = "4.80 EUR"}, shelf, "cannot be compared");
    assert_unusable(&(struct potash_options){.against = "4.805"}, shelf, "no coins of GBP");
    assert_unusable(&(struct potash_options){.against = "cheap"}, shelf, "a sum of money is expected, as in 4.80");
}

/* A litre bought for 4.80: 4.80 - 1.2889 = 3.5111 is saved. */
static void against_a_litre_bought(void **state)
{
    (void)state;
    char *text = malloc(sizeof shelf + sizeof developer);
    strcat(strcpy(text, shelf), developer);
    struct potash_options options = {.against = "4.80"};
    char *page = report_text_of(potash_cost, &options, text, POTASH_TEXT);
    assert_non_null(strstr(page, "4.80 GBP; mixing saves 3.51 GBP a litre"));
    free(page);
    options.against = "1.20 GBP";
    page = report_text_of(potash_cost, &options, text, POTASH_TEXT);
    assert_non_null(strstr(page, "1.20 GBP; mixing costs more by 0.09 GBP a litre"));
    free(page);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_worked_example),       cmocka_unit_test(batches_and_rolls),
        cmocka_unit_test(several_packs),          cmocka_unit_test(purity_counts),
        cmocka_unit_test(another_form_is_priced), cmocka_unit_test(what_is_missing_is_said),
        cmocka_unit_test(shops_have_prices),      cmocka_unit_test(the_solvent_of_a_stock_counts),
        cmocka_unit_test(parts_are_mixed),        cmocka_unit_test(calls_that_cannot_be_answered),
        cmocka_unit_test(against_a_litre_bought),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
