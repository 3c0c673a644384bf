/* The shelf less what was mixed since it was counted. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static const char text[] = "shelf \"Shelf\"\n currency GBP\n holds sodium sulfite (anhydrous) 1 kg for 9.40 left 620 g opened 2026-01-02\n"
                           " holds metol 100 g for 18.50 left 5 g\n"
                           "formula \"Bath\"\n kind developer\n metol 2 g\n sodium sulfite (anhydrous) 75 g\n"
                           " sodium carbonate (anhydrous) 30 g\n water to make 1 L\n"
                           "batch \"A\" of \"Bath\"\n mixed 2026-01-31\n made 1 L\n"
                           "batch \"B\" of \"Bath\"\n mixed 2026-02-03\n made 1 L\n"
                           "batch \"C\" of \"Bath\"\n mixed 2026-02-10\n made 2 L\n";

static double left_of(const char *bytes, const char *counted, size_t index)
{
    const struct potash_options options = {.date = "2026-03-01", .counted = counted};
    struct compiled compiled = compile_with(&options, bytes, strlen(bytes));
    struct potash_output output;
    assert_int_equal(potash_shelf(compiled.potash, POTASH_JSON, &output), POTASH_GOOD);
    json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
    double amount = json_number_of(json_array_get(json_object_get(json, "left"), index), "amount");
    json_decref(json);
    compiled_free(&compiled);
    return amount;
}

static double left(const char *counted, size_t index)
{
    return left_of(text, counted, index);
}

/* By hand: 1 L and 2 L were mixed after 1 February, at 75 g of sulfite a litre: 620 - 3 x 75 = 395 g.  Of metol 6 g were
 * wanted and 5 g were there: nothing is left, and not less. */
static void what_was_mixed_since_is_taken_off(void **state)
{
    (void)state;
    assert_near(left(NULL, 0), 620);
    assert_near(left("2026-02-01", 0), 395);
    assert_near(left("2026-02-03", 0), 620 - 2 * 75);
    assert_near(left("2026-02-28", 0), 620);
    assert_near(left("2026-02-01", 1), 0);
}

static void it_is_said(void **state)
{
    (void)state;
    const struct potash_options options = {.date = "2026-03-01", .counted = "2026-02-01"};
    struct compiled compiled = compile_with(&options, text, sizeof text - 1);
    struct potash_output output;
    assert_int_equal(potash_shelf(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    assert_non_null(strstr(output.bytes, "620 g when counted on 2026-02-01; now about 395 g, by what 2 batches"));
    assert_non_null(strstr(output.bytes, "(calculated) took"));
    assert_non_null(strstr(output.bytes, "what 2 batches mixed since took is taken off"));
    compiled_free(&compiled);
    const struct potash_options wrong = {.date = "2026-03-01", .counted = "2026-02-30"};
    compiled = compile_with(&wrong, text, sizeof text - 1);
    assert_int_equal(potash_shelf(compiled.potash, POTASH_TEXT, &output), POTASH_UNUSABLE);
    assert_non_null(strstr(potash_message(compiled.potash), "is no date"));
    compiled_free(&compiled);
}

/* Asked twice, the shelf says the same: 620 - 3 x 75 = 395 g. */
static void once_for_all_reports(void **state)
{
    (void)state;
    const struct potash_options options = {.date = "2026-03-01", .counted = "2026-02-01"};
    struct compiled compiled = compile_with(&options, text, sizeof text - 1);
    for (int call = 0; call < 2; call++) {
        struct potash_output output;
        assert_int_equal(potash_shelf(compiled.potash, POTASH_JSON, &output), POTASH_GOOD);
        json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
        assert_near(json_number_of(json_array_get(json_object_get(json, "left"), 0), "amount"), 395);
        json_decref(json);
    }
    compiled_free(&compiled);
}

/* What has gone past its day since was good when the bath was mixed: 50 - 2 = 48 g of metol. */
static void as_the_shelf_stood_that_day(void **state)
{
    (void)state;
    assert_near(left_of("shelf \"S\"\n currency GBP\n holds metol 100 g for 18.50 left 50 g best before 2026-02-10\n"
                        "formula \"Bath\"\n kind developer\n metol 2 g\n sodium sulfite (anhydrous) 75 g\n"
                        " sodium carbonate (anhydrous) 30 g\n water to make 1 L\n"
                        "batch \"A\" of \"Bath\"\n mixed 2026-02-03\n made 1 L\n",
                        "2026-02-01", 0),
                48);
}

static const char from_a_stock[] = "stock phenidone 1 %\n in isopropyl alcohol\n"
                                   "shelf \"S\"\n currency GBP\n holds phenidone 25 g for 18.50 left 20 g\n"
                                   "formula \"Bath\"\n kind developer\n sodium sulfite (anhydrous) 75 g\n"
                                   " phenidone 0.2 g from 1 % stock\n borax (decahydrate) 5 g\n water to make 1 L\n"
                                   "batch \"A\" of \"Bath\"\n mixed 2026-02-04\n made 1 L\n";

/* 100 mL of a 1 % stock hold 1 g; the bath draws its 0.2 g from that bottle: 20 - 1 = 19 g.  Without a bottle of the stock in the
 * diary the 0.2 g come from the jar. */
static void a_stock_is_counted_once(void **state)
{
    (void)state;
    char with_bottle[1000];
    snprintf(with_bottle, sizeof with_bottle, "%sbatch \"P\" of \"phenidone 1 %% stock\"\n mixed 2026-02-03\n made 100 mL\n",
             from_a_stock);
    assert_near(left_of(with_bottle, "2026-02-01", 0), 19);
    assert_near(left_of(from_a_stock, "2026-02-01", 0), 19.8);
}

/* A bottle that was mixed only on the 10th gave nothing to the bath of the 4th: its 0.2 g came from the jar, 20 - 1 - 0.2 g. */
static void a_stock_that_came_later(void **state)
{
    (void)state;
    char later[1000];
    snprintf(later, sizeof later, "%sbatch \"P\" of \"phenidone 1 %% stock\"\n mixed 2026-02-10\n made 100 mL\n"
                                  "batch \"B\" of \"Bath\"\n mixed 2026-02-11\n made 1 L\n", from_a_stock);
    assert_near(left_of(later, "2026-02-01", 0), 18.8);
}

/* The same of a formula that another takes some of: 500 mL at 10 g a litre are 5 g, of which the bath's 100 mL are a part. */
static void a_solution_is_counted_once(void **state)
{
    (void)state;
    const char *formulas = "shelf \"S\"\n currency GBP\n holds sodium chloride 500 g for 2.50 left 100 g\n"
                           "formula \"Brine\"\n kind other\n sodium chloride 10 g\n water to make 1 L\n"
                           "formula \"Bath\"\n kind other\n water 500 mL\n solution \"Brine\" 100 mL\n water to make 1 L\n"
                           "batch \"A\" of \"Bath\"\n mixed 2026-02-04\n made 1 L\n";
    char with_bottle[1000];
    snprintf(with_bottle, sizeof with_bottle, "%sbatch \"B\" of \"Brine\"\n mixed 2026-02-03\n made 500 mL\n", formulas);
    assert_near(left_of(with_bottle, "2026-02-01", 0), 95);
    assert_near(left_of(formulas, "2026-02-01", 0), 99);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_mixed_since_is_taken_off),
        cmocka_unit_test(it_is_said),
        cmocka_unit_test(once_for_all_reports),
        cmocka_unit_test(as_the_shelf_stood_that_day),
        cmocka_unit_test(a_stock_is_counted_once),
        cmocka_unit_test(a_stock_that_came_later),
        cmocka_unit_test(a_solution_is_counted_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
