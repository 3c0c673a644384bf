/* The facts of small darkrooms (common practice, no source), as sums, sheets and costs give them. */
#include "support/program.h"
#include "support/reports.h"

#include <string.h>

static void assert_reckoned(const char *sum, const char *answer)
{
    struct run run = run_potash("reckon", sum, NULL);
    assert_status(&run, 0);
    assert_prints(&run, answer);
    run_free(&run);
}

/* 150 mL made up to 1 L: 850 mL of water, 850/150 = 5.67 parts of it to one of stock.  1+9 would be 100 mL. */
static void made_up_to_a_litre(void **state)
{
    (void)state;
    assert_reckoned("150 mL to 1 L as a ratio", "1+5.67");
    assert_reckoned("1+9 for 1 L", "100 mL");
}

/* A per cent solution's mL times its per cent over a hundred are grams: 25 mL of 1 % hold 0.25 g. */
static void millilitres_of_a_per_cent_solution(void **state)
{
    (void)state;
    assert_reckoned("0.25 g from 1 % stock", "25 mL");
    assert_near(mass_of("metric", "benzotriazole 25 mL of 1 % stock"), 0.25);
    assert_near(volume_of("metric", "benzotriazole 0.25 g from 1 % stock"), 25);
    assert_near(mass_of("metric", "potassium bromide 12 mL of 10 % stock"), 1.2);
}

/* 10 mL of stock in a tank of 300 mL at 1+29, so that 500 mL do 50 tanks: the sheet's working solution, and the cost of a roll is a
 * fiftieth of what 500 mL cost. */
static void fifty_tanks(void **state)
{
    (void)state;
    assert_reckoned("1+29 for 300 mL", "10 mL");
    static const char text[] = "shelf \"S\"\n currency GBP\n holds metol 100 g for 20.00\n"
                               "formula \"Bath\"\n kind other\n metol 12.5 g\n water to make 500 mL\n"
                               " use for film\n dilute 1+29\n needs 10 mL per roll\n";
    struct potash_options options = {.working = "300 mL"};
    char *sheet = report_text_of(potash_sheet, &options, text, POTASH_TEXT);
    assert_non_null(strstr(sheet, "10 mL"));
    assert_non_null(strstr(sheet, "290 mL"));
    assert_non_null(strstr(sheet, "this batch is enough for 50"));
    free(sheet);
    json_t *root = report_json_of(potash_cost, NULL, text);
    const json_t *cost = json_array_get(json_object_get(root, "formulas"), 0);
    assert_near(json_number_of(cost, "batch"), 2.50);          /* 12.5/100 of 20.00 */
    assert_near(json_number_of(cost, "per_roll"), 2.50 / 50);
    /* 300 mL of working solution are the same 10 mL of stock: 0.3 of what a litre of it costs */
    assert_near(json_number_of(json_object_get(cost, "per_L_working"), "film") * 0.3, 2.50 / 50);
    json_decref(root);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(made_up_to_a_litre),
        cmocka_unit_test(millilitres_of_a_per_cent_solution),
        cmocka_unit_test(fifty_tanks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
