/* potash compare on the command line: what it takes, what it prints, how it ends. */
#include "compare_help.h"

#include "support/program.h"

static const char one[] = "formula \"Tray bath\"\nkind stop bath\nfor paper\ncitric acid (anhydrous) 10 g\nwater to make 1 L\n";
static const char stronger[] = "formula \"Tray bath\"\nkind stop bath\nfor paper\ncitric acid (anhydrous) 15 g\nwater to make 1 L\n";
static const char two[] = "formula \"Tray bath\"\nkind stop bath\nfor paper\ncitric acid (anhydrous) 10 g\nwater to make 1 L\n\n"
                          "formula \"Tank #2 bath\"\nkind stop bath\nfor film\ncitric acid (anhydrous) 20 g\nwater to make 1 L\n";

static int set_up(void **state)
{
    (void)state;
    scratch_text("one.bath", one);
    scratch_text("stronger.bath", stronger);
    scratch_text("two.bath", two);
    scratch_text("faulty.bath", "formula \"Tray bath\"\ncitric acid (anhydrous) 10 gr\nwater to make 1 L\n");
    scratch_text("other.bath", "formula \"Jar\"\ncitric acid (anhydrous) 10 g\nwater to make 1 L\n\n"
                               "formula \"Jug\"\ncitric acid (anhydrous) 20 g\nwater to make 1 L\n");
    scratch_text("empty.bath", "# nothing here yet\n");
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

static void test_status(void **state)
{
    (void)state;
    struct run run = run_potash("compare", scratch_path("one.bath"), scratch_path("one.bath"), NULL);
    assert_status(&run, 0);
    assert_prints(&run, "The two are the same.");
    assert_int_equal(run.error_length, 0);
    run_free(&run);

    run = run_potash("compare", scratch_path("one.bath"), scratch_path("stronger.bath"), NULL);
    assert_status(&run, 1);
    assert_prints(&run, "They differ in an amount.");
    assert_prints(&run, "+50 %, x 1.5");
    run_free(&run);

    run = run_potash("compare", "--within", "40%", scratch_path("one.bath"), scratch_path("stronger.bath"), NULL);
    assert_status(&run, 0);
    run_free(&run);
    run = run_potash("compare", "--within=5", scratch_path("one.bath"), scratch_path("stronger.bath"), NULL);
    assert_status(&run, 1);
    run_free(&run);
    run = run_potash("compare", "--within", "5", "%", scratch_path("one.bath"), scratch_path("stronger.bath"), NULL);
    assert_status(&run, 1);
    run_free(&run);
}

static void test_unusable(void **state)
{
    (void)state;
    struct run run = run_potash("compare", scratch_path("one.bath"), NULL);
    assert_status(&run, 2);
    assert_says(&run, "name two formulas");
    run_free(&run);

    run = run_potash("compare", scratch_path("one.bath"), scratch_path("missing.bath"), NULL);
    assert_status(&run, 2);
    assert_says(&run, "missing.bath");
    run_free(&run);

    run = run_potash("compare", scratch_path("one.bath"), scratch_path("faulty.bath"), NULL);
    assert_status(&run, 2);
    assert_says(&run, "[unit-ambiguous]");
    assert_int_equal(run.output_length, 0);
    run_free(&run);

    run = run_potash("compare", scratch_path("empty.bath"), "/dev/null", NULL);
    assert_status(&run, 2);
    assert_says(&run, "there is no formula on either side");
    run_free(&run);

    run = run_potash("compare", "-", "-", NULL);
    assert_status(&run, 2);
    assert_says(&run, "only one of the two can be standard input");
    run_free(&run);

    static const char *const percentages[] = {"much", "-1%", "100%", "2%%", "", "nan", "0x2"};
    for (size_t i = 0; i < sizeof percentages / sizeof *percentages; i++) {
        run = run_potash("compare", "--within", percentages[i], scratch_path("one.bath"), scratch_path("one.bath"), NULL);
        assert_status(&run, 2);
        run_free(&run);
    }
}

static char *joined(const char *a, const char *b)
{
    size_t size = strlen(a) + strlen(b) + 1;
    char *text = malloc(size);
    assert_non_null(text);
    snprintf(text, size, "%s%s", a, b);
    return text;
}

static void test_titles(void **state)
{
    (void)state;
    char *path = strdup(scratch_path("two.bath"));
    char *quoted = joined(path, "#\"Tray bath\"");
    char *bare = joined(path, "#Tank #2 bath"); /* a mark in the title */
    char *none = joined(path, "#Vat");
    struct run run = run_potash("compare", quoted, bare, NULL);
    assert_status(&run, 1);
    assert_prints(&run, "\"Tank #2 bath\"");
    assert_prints(&run, "A is a stop bath for paper, B a stop bath for film.");
    run_free(&run);

    run = run_potash("compare", bare, bare, NULL);
    assert_status(&run, 0);
    run_free(&run);

    /* The chosen one against the one of its title. */
    run = run_potash("compare", quoted, path, NULL);
    assert_status(&run, 0);
    run_free(&run);
    run = run_potash("compare", path, bare, "--as", "json", NULL);
    assert_status(&run, 0);
    run_free(&run);

    run = run_potash("compare", none, path, NULL);
    assert_status(&run, 2);
    assert_says(&run, "there is no formula \"Vat\"");
    run_free(&run);
    run = run_potash("compare", path, none, NULL);
    assert_status(&run, 2);
    assert_says(&run, "there is no formula \"Vat\"");
    run_free(&run);

    run = run_potash("compare", path, scratch_path("other.bath"), NULL);
    assert_status(&run, 2);
    assert_says(&run, "\"Tray bath\", \"Tank #2 bath\"");
    assert_says(&run, "\"Jar\", \"Jug\"");
    run_free(&run);

    run = run_potash("compare", "--title", "Tray bath", path, scratch_path("stronger.bath"), NULL);
    assert_status(&run, 1);
    run_free(&run);

    /* A mark in the name of a file. */
    char *file = strdup(scratch_text("shelf#3.bath", two));
    char *inside = joined(file, "#Tray bath");
    run = run_potash("compare", file, inside, NULL);
    assert_status(&run, 0);
    run_free(&run);
    free(inside);
    free(file);
    free(none);
    free(bare);
    free(quoted);
    free(path);
}

/* All formulas of two files, matched by title. */
static void test_several(void **state)
{
    (void)state;
    char *path = strdup(scratch_path("two.bath"));
    struct run run = run_potash("compare", path, path, NULL);
    assert_status(&run, 0);
    assert_prints(&run, "Tank #2 bath");
    run_free(&run);

    run = run_potash("compare", scratch_path("stronger.bath"), path, "--as", "json", NULL);
    assert_status(&run, 1);
    json_t *json = json_loads(run.output, 0, NULL);
    const json_t *changes = json_object_get(json, "changes");
    assert_int_equal(json_array_size(changes), 2);
    assert_string_equal(json_text_of(json_array_get(changes, 0), "what"), "amount");
    assert_string_equal(json_text_of(json_array_get(changes, 0), "title"), "Tray bath");
    assert_string_equal(json_text_of(json_array_get(changes, 1), "what"), "formula");
    assert_string_equal(json_text_of(json_array_get(changes, 1), "to"), "Tank #2 bath");
    json_decref(json);
    run_free(&run);
    free(path);
}

static void test_absent(void **state)
{
    (void)state;
    struct run run = run_potash("compare", "/dev/null", scratch_path("two.bath"), NULL);
    assert_status(&run, 1);
    assert_prints(&run, "Only B has this formula, a stop bath.");
    run_free(&run);
    run = run_potash("compare", scratch_path("one.bath"), "/dev/null", "--as", "json", NULL);
    assert_status(&run, 1);
    json_t *json = json_loads(run.output, 0, NULL);
    const json_t *change = json_array_get(json_object_get(json, "changes"), 0);
    assert_string_equal(json_text_of(change, "what"), "formula");
    assert_string_equal(json_text_of(change, "from"), "Tray bath");
    assert_true(json_is_null(json_object_get(change, "to")));
    json_decref(json);
    run_free(&run);
}

static void test_input_and_output(void **state)
{
    (void)state;
    struct run run = run_potash_input(one, strlen(one), "compare", "-", scratch_path("stronger.bath"), "-o",
                                      scratch_path("said.txt"), NULL);
    assert_status(&run, 1);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
    size_t length;
    char *said = file_bytes(scratch_path("said.txt"), &length);
    assert_non_null(said);
    assert_non_null(strstr(said, "They differ in an amount."));
    free(said);
}

/* Both are versions of a file: it is shown, and what it reads is found beside it. */
static void test_known_as(void **state)
{
    (void)state;
    scratch_text("house.bath", "material club salt\n    form NaCl cas 7647-14-5 source \"invented\"\n");
    char *place = strdup(scratch_path("place.bath"));
    const char text[] = "read \"house.bath\"\nformula \"A\"\nclub salt 10 g\nwater to make 1 L\n";
    scratch_text("place.bath", text);
    struct run run = run_potash_input(text, strlen(text), "compare", "--known-as", place, "-", place, NULL);
    assert_status(&run, 0);
    char shown[600];
    snprintf(shown, sizeof shown, "%s, the first version", strrchr(place, '/') + 1);
    assert_prints(&run, shown);
    run_free(&run);
    run = run_potash("compare", "--known-as", place, scratch_path("missing.bath"), place, NULL);
    assert_status(&run, 2);
    assert_says(&run, "missing.bath");
    run_free(&run);
    free(place);
}

/* The JSON keeps to its schema, whatever differs. */
static void test_schema(void **state)
{
    (void)state;
    static const char *const pairs[][2] = {
        {"samples/acid-fixer.bath", "samples/plain-fixer.bath"},
        {"samples/print-developer.bath", "samples/old-print-developer.bath"},
        {"samples/two-part-developer.bath", "samples/film-developer.bath"},
        {"/dev/null", "samples/print-developer.bath"},
        {"tests/published/06-amidol-developer-hot-climate-old.bath", "tests/published/06-amidol-developer-hot-climate-metric.bath"},
        {"tests/published/10-copper-salt-reducer.bath", "tests/published/26-copper-bromide-reducer.bath"},
        {"tests/published/35-kallitype-developer.bath", "tests/published/09-combined-toning-lead-nitrate.bath"},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        struct run run = run_potash("compare", pairs[i][0], pairs[i][1], "--as", "json", NULL);
        assert_status(&run, 1);
        const char *document = scratch_file("compared.json", run.output, run.output_length);
        const char *arguments[] = {"tests/docs/schema_check.py", "docs/schema/compare.schema.json", document, NULL};
        struct run verdict = run_program("python3", arguments, NULL, 0);
        assert_status(&verdict, 0);
        run_free(&verdict);
        run_free(&run);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_status),   cmocka_unit_test(test_unusable), cmocka_unit_test(test_titles),
        cmocka_unit_test(test_several),  cmocka_unit_test(test_absent),   cmocka_unit_test(test_input_and_output),
        cmocka_unit_test(test_known_as), cmocka_unit_test(test_schema),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
