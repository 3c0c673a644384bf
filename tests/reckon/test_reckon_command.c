/* potash reckon as it is called: words with and without quotes, formats, exit status. */
#include "support/program.h"

#include <string.h>

static void the_answer_is_one_line(void **state)
{
    (void)state;
    struct run run = run_potash("reckon", "1+29 for 300 mL", NULL);
    assert_status(&run, 0);
    assert_string_equal(run.output, "10 mL of stock + 290 mL of water = 300 mL   (300 mL / 30 parts = 10 mL a part)\n");
    assert_string_equal(run.error, "");
    run_free(&run);
}

static void quotes_are_not_needed(void **state)
{
    (void)state;
    struct run quoted = run_potash("reckon", "125 °F in °C", NULL);
    struct run loose = run_potash("reckon", "125", "°F", "in", "°C", NULL);
    assert_status(&loose, 0);
    assert_string_equal(loose.output, quoted.output);
    run_free(&quoted);
    run_free(&loose);
    /* A figure with a sign is no option. */
    struct run cold = run_potash("reckon", "-5", "°C", "in", "°F", NULL);
    assert_status(&cold, 0);
    assert_prints(&cold, "23 °F");
    run_free(&cold);
}

static void json_keeps_to_its_schema(void **state)
{
    (void)state;
    static const char *const sums[] = {"1:29 for 300 mL", "500 mL of 28 % acetic acid from glacial", "125 °F in °C",
                                       "30 g sodium carbonate as monohydrate"};
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
        struct run run = run_potash("reckon", sums[i], "--as", "json", NULL);
        assert_status(&run, 0);
        const char *arguments[] = {"tests/docs/schema_check.py", "docs/schema/reckon.schema.json",
                                   scratch_file("sum.json", run.output, run.output_length), NULL};
        struct run verdict = run_program("/usr/bin/python3", arguments, NULL, 0);
        assert_status(&verdict, 0);
        run_free(&verdict);
        run_free(&run);
        scratch_remove();
    }
}

static void nonsense_ends_with_two(void **state)
{
    (void)state;
    struct run run = run_potash("reckon", "1+29 for 300 mL please", NULL);
    assert_status(&run, 2);
    assert_string_equal(run.output, "");
    assert_says(&run, "sum:1:17: error: \"please\" is not understood here");
    assert_says(&run, "    1 | 1+29 for 300 mL please\n      |                 ^~~~~~\n");
    assert_says(&run, "1+29 for 300 mL\n");
    run_free(&run);
    /* What is understood and cannot be reckoned needs no lesson. */
    struct run unclear = run_potash("reckon", "20 fl oz in mL", NULL);
    assert_status(&unclear, 2);
    assert_says(&unclear, "[unit-ambiguous]");
    assert_null(strstr(unclear.error, "sums look like these"));
    run_free(&unclear);
    struct run nothing = run_potash("reckon", NULL);
    assert_status(&nothing, 2);
    assert_says(&nothing, "give a sum");
    run_free(&nothing);
    struct run sarif = run_potash("reckon", "1+29 for 300 mL", "--as", "sarif", NULL);
    assert_status(&sarif, 2);
    run_free(&sarif);
}

/* 20 mL more on 1000 L is 0.00002 of it; nobody writes 2e-05 on a bottle. */
static void small_shares_are_plain_figures(void **state)
{
    (void)state;
    struct run run = run_potash("reckon", "1000 L to 1000.02 L as a ratio", NULL);
    assert_status(&run, 0);
    assert_true(strncmp(run.output, "1+0.00002 ", 10) == 0);
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(small_shares_are_plain_figures),
        cmocka_unit_test(the_answer_is_one_line),
        cmocka_unit_test(quotes_are_not_needed),
        cmocka_unit_test(json_keeps_to_its_schema),
        cmocka_unit_test(nonsense_ends_with_two),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
