/* What two formulas cost by the litre, side by side. */
#include "compare_help.h"

#define SHELF                                                                                                                       \
    "shelf \"Shelf\"\ncurrency GBP\n"                                                                                               \
    "holds sodium thiosulfate (pentahydrate) 5 kg for 20.00\n"                                                                       \
    "holds sodium sulfite (anhydrous) 1 kg for 10.00\n"
#define FIXER "formula \"Fixer\"\nkind fixer\n"
#define USE "water to make 1 L\nuse for film\ndilute 1+4\n"

static const json_t *costs_of(const struct compared *compared)
{
    changes_of(compared); /* it says why there are none */
    return json_object_get(compared->json, "costs");
}

static double cost_of(const json_t *costs, size_t index, const char *side)
{
    return json_number_of(json_object_get(json_array_get(costs, index), side), "cost");
}

/* 250 g of 5 kg for 20.00 are 1.00, 200 g 0.80; 20 g of 1 kg for 10.00 are 0.20.  A litre of A costs 1.20 and one of B 1.00, a
 * sixth less; a fifth of them the working solution. */
static void test_both_sides(void **state)
{
    (void)state;
    struct compared compared = compare_texts(SHELF FIXER "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 20 g\n" USE,
                                             SHELF FIXER "sodium thiosulfate (pentahydrate) 200 g\nsodium sulfite (anhydrous) 20 g\n" USE);
    const json_t *costs = costs_of(&compared);
    assert_int_equal(json_array_size(costs), 2);
    assert_near(cost_of(costs, 0, "from"), 1.20);
    assert_near(cost_of(costs, 0, "to"), 1.00);
    assert_near(json_number_of(json_array_get(costs, 0), "percent"), -100.0 / 6);
    assert_near(cost_of(costs, 1, "from"), 0.24);
    assert_near(cost_of(costs, 1, "to"), 0.20);
    assert_non_null(strstr(compared.page, "1.20 GBP"));
    assert_non_null(strstr(compared.page, "0.24 GBP"));
    compared_free(&compared);
}

/* What lacks a price costs more than the rest, and nobody knows by how much. */
static void test_a_missing_price(void **state)
{
    (void)state;
    struct compared compared = compare_texts(SHELF FIXER "sodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 20 g\n" USE,
                                             SHELF FIXER "sodium thiosulfate (pentahydrate) 250 g\nborax (decahydrate) 20 g\n" USE);
    const json_t *stock = json_array_get(costs_of(&compared), 0);
    assert_true(json_is_false(json_object_get(json_object_get(stock, "to"), "complete")));
    assert_true(json_is_null(json_object_get(stock, "percent")));
    assert_non_null(strstr(compared.page, "at least 1.00 GBP"));
    assert_non_null(strstr(compared.page, "B costs more than is printed: no price is known of borax."));
    compared_free(&compared);
}

/* Two currencies are set side by side and not compared. */
static void test_two_currencies(void **state)
{
    (void)state;
    struct compared compared = compare_texts(SHELF FIXER "sodium thiosulfate (pentahydrate) 250 g\n" USE,
                                             "shelf \"Shelf\"\ncurrency EUR\nholds sodium thiosulfate (pentahydrate) 5 kg for 30.00\n" FIXER
                                             "sodium thiosulfate (pentahydrate) 200 g\n" USE);
    const json_t *stock = json_array_get(costs_of(&compared), 0);
    assert_string_equal(json_text_of(json_object_get(stock, "to"), "currency"), "EUR");
    assert_near(cost_of(costs_of(&compared), 0, "to"), 1.20);
    assert_true(json_is_null(json_object_get(stock, "percent")));
    compared_free(&compared);
}

static void test_no_prices(void **state)
{
    (void)state;
    struct compared compared = compare_texts(FIXER "sodium thiosulfate (pentahydrate) 250 g\n" USE,
                                             FIXER "sodium thiosulfate (pentahydrate) 200 g\n" USE);
    assert_int_equal(json_array_size(costs_of(&compared)), 0);
    assert_null(strstr(compared.page, "What it costs"));
    compared_free(&compared);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_both_sides),
        cmocka_unit_test(test_a_missing_price),
        cmocka_unit_test(test_two_currencies),
        cmocka_unit_test(test_no_prices),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
