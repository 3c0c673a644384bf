#define _GNU_SOURCE /* memmem */
/* Variants that take one material for another, alone or with an alkali beside it. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static const char parent[] = "formula \"Saltmarsh alkaline bath\"\nkind other\nwater 500 mL\n"
                             "sodium metaborate (tetrahydrate) 55.144 g\nwater to make 1 L\n\n";

static struct compiled with_variant(const char *line)
{
    char text[600];
    snprintf(text, sizeof text, "%svariant \"Saltmarsh alkaline bath, from borax\"\nof \"Saltmarsh alkaline bath\"\n%s\n", parent,
             line);
    return compile(text);
}

/* Na2B4O7.10H2O + 2 NaOH -> 4 NaBO2 + 11 H2O, molar masses by IUPAC standard atomic weights 2021, abridged. */
static void expect_both(const char *line)
{
    struct compiled compiled = with_variant(line);
    assert_int_equal(potash_errors(compiled.potash), 0);
    const json_t *variant = compiled_formula(&compiled, 1);
    const json_t *additions = json_object_get(json_array_get(json_object_get(variant, "parts"), 0), "additions");
    const json_t *borax = json_array_get(additions, 1);
    const json_t *hydroxide = json_array_get(additions, 2);
    assert_string_equal(json_text_of(borax, "material"), "borax");
    assert_within(json_number_of(borax, "mass_g"), 38.136, 3e-4);
    assert_string_equal(json_text_of(hydroxide, "material"), "sodium hydroxide");
    assert_within(json_number_of(hydroxide, "mass_g"), 7.9994, 3e-4);
    compiled_free(&compiled);
}

static void with_an_alkali(void **state)
{
    (void)state;
    expect_both("swap sodium metaborate for borax (decahydrate) + sodium hydroxide");
    expect_both("swap sodium metaborate for borax and sodium hydroxide");
}

static void expect_refusal(const char *line, const char *part_of_message)
{
    struct compiled compiled = with_variant(line);
    const json_t *diagnostic = compiled_find(&compiled, "unit-mismatch", 9);
    assert_non_null(diagnostic);
    assert_non_null(strstr(json_text_of(diagnostic, "message"), part_of_message));
    assert_int_equal(potash_errors(compiled.potash), 1);
    compiled_free(&compiled);
}

static void refused(void **state)
{
    (void)state;
    expect_refusal("swap sodium metaborate for borax + potassium bromide", "neither a hydroxide");
    expect_refusal("swap sodium metaborate for borax + citric acid", "neither a hydroxide");
    expect_refusal("swap sodium metaborate for borax + acetic acid", "more acid");
    expect_refusal("swap sodium metaborate for sodium carbonate + sodium hydroxide", "share no ion");
}

static void tidy_keeps_both(void **state)
{
    (void)state;
    struct compiled compiled = with_variant("swap   sodium metaborate   for borax  +  sodium hydroxide");
    struct potash_output output;
    bool tidy;
    assert_int_equal(potash_tidy(compiled.potash, 0, &tidy, &output), POTASH_GOOD);
    assert_non_null(memmem(output.bytes, output.length, "for borax + sodium hydroxide", 28));
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(with_an_alkali),
        cmocka_unit_test(refused),
        cmocka_unit_test(tidy_keeps_both),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
