/* A user's declarations add to the library, and replace what it has only when they say so. */
#include "support/compiling.h"
#include "support/program.h"

#include <stdio.h>
#include <string.h>

#define BRINE                                                                                                          \
    "formula \"Saltmarsh brine\"\n"                                                                                    \
    "    kind other\n"

static void a_material_of_ones_own(void **state)
{
    (void)state;
    struct compiled compiled = compile("material marsh salt\n"
                                       "    role restrainer\n"
                                       "    form anhydrous NaCl usual\n"
                                       "    form dihydrate NaCl.2H2O\n" BRINE "    marsh salt (dihydrate) 9.447 g\n"
                                       "    water to make 1 L\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const json_t *addition = compiled_addition(&compiled, 0, 0);
    assert_string_equal(json_text_of(addition, "material"), "marsh salt");
    /* NaCl.2H2O: 22.98976928 + 35.45 + 2 * 18.015 = 94.46976928 g/mol (CIAAW 2021). */
    assert_within(json_number_of(addition, "mol_per_L"), 9.447 / 94.46976928, 1e-9);
    compiled_free(&compiled);
}

static void the_library_is_not_replaced_unawares(void **state)
{
    (void)state;
    expect_one("material sodium sulfite\n    role preservative\n    form Na2SO3\n", "declared-twice", 1, 10);
    expect_one("unit grain is 65 mg\n", "declared-twice", 1, 6);
    expect_clean("material sodium sulfite, replacing the library's\n    role preservative\n    form Na2SO3\n");
}

static void a_replacement_holds(void **state)
{
    (void)state;
    /* Only one form is left, so none need be stated. */
    expect_clean("material sodium carbonate, replacing the library's\n    role alkali\n    form Na2CO3\n" BRINE
                 "    sodium carbonate 10 g\n    water to make 1 L\n");
}

static void declarations_may_follow_their_use(void **state)
{
    (void)state;
    expect_clean(BRINE "    marsh salt 10 g\n    water 2 thimbles\n    water to make 1 L\n"
                       "unit thimble is 2 mL also thimbles\n"
                       "material marsh salt\n    role restrainer\n    form NaCl\n");
}

static void declared_twice_by_the_user(void **state)
{
    (void)state;
    expect_one("material marsh salt\n    form NaCl\nmaterial marsh salt\n    form NaCl\n", "declared-twice", 3, 10);
    expect_one("unit thimble is 2 mL\nunit thimble is 3 mL\n", "declared-twice", 2, 6);
    expect_one("formula \"x\"\nkind other\nwater to make 1 L\nformula \"x\"\nkind other\nwater to make 1 L\n",
               "declared-twice", 4, 9);
    expect_one("formula \"x\"\nkind other\npart A\nwater to make 1 L\npart A\nwater to make 1 L\n", "declared-twice", 5,
               6);
    expect_one("stock phenidone 1 %\nin isopropyl alcohol\nstock phenidone 1 %\nin isopropyl alcohol\n",
               "declared-twice", 3, 7);
}

static void a_faulty_declaration_is_reported_where_it_stands(void **state)
{
    (void)state;
    struct compiled compiled = compile("material marsh salt\n    role restrainer\n    form Nacl2 usual\n");
    assert_int_equal(compiled.status, POTASH_FAULTY);
    assert_int_equal(compiled_count(&compiled, NULL), 1);
    assert_int_equal(json_number_of(json_array_get(compiled.diagnostics, 0), "line"), 3);
    compiled_free(&compiled);
}

static void a_unit_that_rests_on_itself(void **state)
{
    (void)state;
    struct compiled compiled = compile("unit thimble is 2 nutshell\nunit nutshell is 3 thimble\n" BRINE
                                       "    water 2 thimble\n    water to make 1 L\n");
    assert_int_equal(compiled.status, POTASH_FAULTY);
    assert_true(compiled_count(&compiled, NULL) >= 1);
    compiled_free(&compiled);
}

static void a_density_lets_a_solid_be_measured(void **state)
{
    (void)state;
    const char *salt = "material marsh salt\n    role restrainer\n    form NaCl\n%s" BRINE
                       "    marsh salt 10 mL\n    water to make 1 L\n";
    char text[400];
    snprintf(text, sizeof text, salt, "");
    expect_one(text, "unit-mismatch", 6, 16);
    snprintf(text, sizeof text, salt, "    density 1.2 g/mL\n");
    struct compiled compiled = compile(text);
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_near(json_number_of(compiled_addition(&compiled, 0, 0), "mass_g"), 12);
    compiled_free(&compiled);
}

static void the_library_can_be_given(void **state)
{
    (void)state;
    /* The same texts from the folder give the same result as those built in. */
    const struct potash_options options = {.library = "stdlib"};
    const char *text = BRINE "    sodium sulfite (anhydrous) 10 g\n    water to make 1 L\n";
    struct compiled compiled = compile_with(&options, text, strlen(text));
    assert_int_equal(compiled.status, POTASH_GOOD);
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    compiled_free(&compiled);
    const struct potash_options missing = {.library = "tests/no-such-folder"};
    struct potash *potash = potash_open(&missing);
    assert_non_null(potash);
    assert_int_equal(potash_read_text(potash, "x", text, strlen(text)), POTASH_UNUSABLE);
    assert_non_null(strstr(potash_message(potash), "no-such-folder"));
    potash_close(potash);
}

static void tables_and_texts_say_the_same(void **state)
{
    (void)state;
    const char *verbs[] = {"check", "show"};
    for (size_t i = 0; i < 2; i++) {
        struct run tables = run_potash(verbs[i], "--as", "json", "tests/published", "samples", "tests/mistakes/blind", NULL);
        struct run texts = run_potash(verbs[i], "--as", "json", "tests/published", "samples", "tests/mistakes/blind", "--library", "stdlib", NULL);
        assert_int_equal(tables.status, texts.status);
        assert_string_equal(tables.output, texts.output);
        assert_string_equal(tables.error, texts.error);
        assert_true(strlen(tables.output) + strlen(tables.error) > 10000);
        run_free(&tables);
        run_free(&texts);
    }
}

static void what_is_not_there_is_not_replaced(void **state)
{
    (void)state;
    const char *text = "material sodium sulphitte, replacing the library's\n    role preservative\n    form Na2SO3\n";
    expect_one(text, "material-unknown", 1, 10);
    struct compiled compiled = compile(text);
    const json_t *fixes = json_object_get(compiled_find(&compiled, "material-unknown", 1), "fixes");
    assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), "sodium sulfite");
    const json_t *last = json_array_get(fixes, json_array_size(fixes) - 1);
    assert_string_equal(json_text_of(last, "text"), ""); /* takes out ", replacing the library's" */
    assert_near(json_number_of(last, "column"), 26);
    assert_near(json_number_of(last, "end_column"), 51);
    compiled_free(&compiled);
    expect_one("unit scoop, replacing the library's is about 6 g\n", "unit-unknown", 1, 6);
    expect_one("rule no-such-rule, replacing the library's\n    when metol\n    warn \"x\"\n", "syntax", 1, 6);
    expect_clean("unit teaspoon, replacing the library's is about 4 mL also teaspoons\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_material_of_ones_own),
        cmocka_unit_test(the_library_is_not_replaced_unawares),
        cmocka_unit_test(a_replacement_holds),
        cmocka_unit_test(declarations_may_follow_their_use),
        cmocka_unit_test(declared_twice_by_the_user),
        cmocka_unit_test(a_faulty_declaration_is_reported_where_it_stands),
        cmocka_unit_test(a_unit_that_rests_on_itself),
        cmocka_unit_test(a_density_lets_a_solid_be_measured),
        cmocka_unit_test(the_library_can_be_given),
        cmocka_unit_test(tables_and_texts_say_the_same),
        cmocka_unit_test(what_is_not_there_is_not_replaced),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
