/* Formulas in parts that `makes` settles, and remarks of variants. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static double figure(struct compiled *compiled, size_t index, const char *key)
{
    return json_number_of(compiled_addition(compiled, 0, index), key);
}

/* 3 and 2 parts of 500 g are 300 g and 200 g. */
static void a_dry_mix_in_parts(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"Saltmarsh dry alkali\"\nkind other\nmakes 500 g\n"
                                       "sodium carbonate (anhydrous) 3 parts\nsodium bicarbonate 2 parts\n");
    assert_near(figure(&compiled, 0, "mass_g"), 300);
    assert_near(figure(&compiled, 1, "mass_g"), 200);
    compiled_free(&compiled);
}

/* 10 parts in 100 are 100 g in a litre, whether the water is made up to the 100 or is the 100. */
static void a_bath_in_parts(void **state)
{
    (void)state;
    static const char *const waters[] = {"water to make 100 parts", "water 100 parts"};
    for (size_t i = 0; i < 2; i++) {
        char text[300];
        snprintf(text, sizeof text, "formula \"Saltmarsh bleach\"\nkind other\nmakes 2 L\npotassium dichromate 10 parts\n%s\n",
                 waters[i]);
        struct compiled compiled = compile(text);
        assert_int_equal(potash_errors(compiled.potash), 0);
        assert_near(figure(&compiled, 0, "mass_g"), 200);
        assert_near(figure(&compiled, 0, "g_per_L"), 100);
        compiled_free(&compiled);
    }
}

/* Without `makes` a part is 1 g or 1 mL. */
static void parts_by_themselves(void **state)
{
    (void)state;
    struct compiled compiled =
        compile("formula \"Saltmarsh bleach\"\nkind other\npotassium dichromate 10 parts\nwater to make 200 parts\n");
    assert_near(figure(&compiled, 0, "mass_g"), 10);
    assert_near(figure(&compiled, 1, "volume_mL"), 200);
    compiled_free(&compiled);
}

static const char parent[] = "formula \"Saltmarsh stop\"\nkind stop bath\ncitric acid (monohydrate) 15 g\nwater to make 1 L\n"
                             "use for paper\n time 30 s\n note \"of the use\"\n"
                             "variant \"Saltmarsh stop, weak\"\nof \"Saltmarsh stop\"\n";

/* What a variant remarks stands with the whole formula, not with the parent's last use. */
static void remarks_of_a_variant(void **state)
{
    (void)state;
    char text[600];
    snprintf(text, sizeof text, "%schange citric acid to 10 g\nnote \"for the winter\"\nkeeps 2 months in full bottle\n", parent);
    struct potash_options options = {.title = "Saltmarsh stop, weak"};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    struct potash_output output;
    assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    char *sheet = strndup(output.bytes, output.length);
    const char *remark = strstr(sheet, "for the winter");
    const char *use = strstr(sheet, "Use for paper");
    assert_non_null(remark);
    assert_non_null(use);
    assert_true(remark < use);
    assert_true(strstr(sheet, "of the use") > use);
    assert_non_null(strstr(sheet, "2 months in full bottle"));
    free(sheet);
    compiled_free(&compiled);
}

/* One mistake, one diagnostic: of the lines of an unknown parent none is missed. */
static void an_unknown_parent(void **state)
{
    (void)state;
    expect_list("variant \"Saltmarsh stop, weak\"\nof \"Nowhere\"\nleave out citric acid\n", "formula-unknown:2");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dry_mix_in_parts),   cmocka_unit_test(a_bath_in_parts), cmocka_unit_test(parts_by_themselves),
        cmocka_unit_test(remarks_of_a_variant), cmocka_unit_test(an_unknown_parent),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
