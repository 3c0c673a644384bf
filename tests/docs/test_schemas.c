/* What the program prints as JSON keeps to the schemas in docs/schema/. */
#include "support/program.h"

#include <stdio.h>
#include <string.h>

/* A verb's output, and the schema that it has to keep to. */
struct schema_case {
    const char *schema;       /* docs/schema/NAME.schema.json */
    int status;               /* that the program exits with */
    const char *arguments[10]; /* ends with NULL; behind the program's name */
};

/* Debian's own interpreter is the one that finds Debian's packages. */
static const char python[] = "/usr/bin/python3";

static struct run hold_against(const char *schema, const char *document)
{
    char path[256];
    snprintf(path, sizeof path, "docs/schema/%s.schema.json", schema);
    const char *arguments[] = {"tests/docs/schema_check.py", path, document, NULL};
    return run_program(python, arguments, NULL, 0);
}

static void run_case(void **state)
{
    const struct schema_case *one = *state;
    struct run run = run_program(program_under_test(), one->arguments, NULL, 0);
    assert_status(&run, one->status);
    assert_true(run.output_length > 0);
    struct run verdict = hold_against(one->schema, scratch_file("output.json", run.output, run.output_length));
    if (verdict.status != 0) {
        print_error("%s", verdict.output);
    }
    assert_status(&verdict, 0);
    run_free(&verdict);
    run_free(&run);
    scratch_remove();
}

/* A document that breaks the schema is refused: the check itself works. */
static void a_wrong_document_is_refused(void **state)
{
    (void)state;
    struct run verdict =
        hold_against("check", scratch_text("wrong.json", "{\"diagnostics\": [], \"errors\": -1, \"warnings\": 0}\n"));
    assert_status(&verdict, 1);
    assert_prints(&verdict, "errors: -1 is less than the minimum of 0");
    run_free(&verdict);
    scratch_remove();
}

static const struct schema_case check_samples = {"check", 1, {"check", "samples", "--as", "json"}};
static const struct schema_case check_clean = {"check", 0, {"check", "samples/stop-bath.bath", "--as", "json"}};
static const struct schema_case show_one = {"show", 0, {"show", "samples/print-developer.bath"}};
static const struct schema_case show_parts = {"show", 0, {"show", "samples/two-part-developer.bath", "--make", "250mL", "--as", "json"}};
static const struct schema_case show_old = {"show", 0, {"show", "samples/old-print-developer.bath", "--as", "json"}};
static const struct schema_case show_solutions = {"show", 0, {"show", "tests/published/44-pyro-potash-minims.bath", "--as", "json"}};
static const struct schema_case show_stocks = {"show", 0, {"show", "samples/film-developer.bath", "--as", "json"}};
static const struct schema_case sheet_one = {"sheet", 0, {"sheet", "samples/print-developer.bath", "--make", "2 L", "--date", "2026-03-04", "--as", "json"}};
static const struct schema_case sheet_parts = {"sheet", 0, {"sheet", "samples/two-part-developer.bath", "--as", "json"}};
/* Times and a tank that are asked for, lots of the shelf; what is done between two additions, a coefficient. */
static const struct schema_case sheet_shelf = {"sheet", 0, {"sheet", "samples/film-developer.bath", "samples/shelf.bath", "--using-shelf", "--working", "300 mL", "--as", "json"}};
static const struct schema_case sheet_times = {"sheet", 0, {"sheet", "samples/film-developer.bath", "--temperature", "22 °C", "--as", "json"}};
/* A tank with batches behind it; trays, tasks and a wash in running water. */
static const struct schema_case process_film = {"process", 0, {"process", "samples/processes.bath", "--title", "Roll film", "--rolls", "10", "--as", "json"}};
static const struct schema_case process_all = {"process", 0, {"process", "samples/processes.bath", "--as", "json"}};
static const struct schema_case book_two = {"book", 0, {"book", "samples/film-developer.bath", "samples/stop-bath.bath", "--as", "json"}};
static const struct schema_case label_stock = {"label", 0, {"label", "samples/film-developer.bath", "--date", "2026-03-04", "--as", "json"}};
static const struct schema_case label_working = {"label", 0, {"label", "samples/print-developer.bath", "--of", "working", "--as", "json"}};
static const struct schema_case safety_one = {"safety", 0, {"safety", "samples/film-developer.bath", "--as", "json"}};
static const struct schema_case safety_parts = {"safety", 0, {"safety", "samples/two-part-developer.bath", "--as", "json"}};
static const struct schema_case check_without = {"check-without", 1, {"check", "samples/print-developer.bath", "samples/stop-bath.bath", "--without", "metol", "--as", "json"}};
static const struct schema_case materials_like = {"materials-like", 0, {"materials", "--like", "metol", "--as", "json"}};
static const struct schema_case materials_one = {"materials", 0, {"materials", "acetic acid", "--as", "json"}};
static const struct schema_case materials_all = {"materials", 0, {"materials", "--as", "json"}};
static const struct schema_case cost_all = {"cost", 0, {"cost", "samples/film-developer.bath", "samples/reducer.bath", "samples/print-developer.bath", "samples/shelf.bath", "--against", "4.80", "--as", "json"}};
static const struct schema_case cost_missing = {"cost", 0, {"cost", "samples/brown-toner.bath", "--shelf", "tests/store/shelves/two-currencies.bath", "--as", "json"}};
static const struct schema_case shelf_darkroom = {"shelf", 0, {"shelf", "samples/darkroom.bath", "--date", "2026-03-04", "--as", "json"}};
static const struct schema_case shelf_undated = {"shelf", 0, {"shelf", "samples/brown-toner.bath", "tests/store/shelves/two-currencies.bath", "--date", "none", "--as", "json"}};
static const struct schema_case why_one = {"why", 0, {"why", "ratio-with-colon", "--as", "json"}};
static const struct schema_case why_all = {"why", 0, {"why", "--as", "json"}};

/* Two baths with uses, one use on one side only, an added material, a working step, keeping. */
static const struct schema_case compare_fixers = {"compare", 1, {"compare", "samples/plain-fixer.bath", "samples/acid-fixer.bath", "--as", "json"}};
/* Ranges, temperatures, dilutions, a time in s. */
static const struct schema_case compare_old = {"compare", 1, {"compare", "samples/print-developer.bath", "samples/old-print-developer.bath", "--as", "json"}};
/* Parts and a mixture against a single bottle, stocks, a coefficient. */
static const struct schema_case compare_parts = {"compare", 1, {"compare", "samples/two-part-developer.bath", "samples/film-developer.bath", "--as", "json"}};
/* With prices, one side of which is not known in one stock. */
static const struct schema_case compare_priced = {"compare", 1, {"compare", "samples/two-part-developer.bath", "samples/film-developer.bath", "--shelf", "samples/shelf.bath", "--as", "json"}};
static const struct schema_case compare_same = {"compare", 0, {"compare", "samples/stop-bath.bath", "samples/stop-bath.bath", "--as", "json"}};
/* Formulas that only one file has. */
static const struct schema_case compare_absent = {"compare", 1, {"compare", "--known-as", "samples/stop-bath.bath", "/dev/null", "samples/stop-bath.bath", "--as", "json"}};
/* One for each kind of sum; the second has a note, the fifth several parts. */
static const struct schema_case reckon_dilution = {"reckon", 0, {"reckon", "1+29 for 300 mL", "--as", "json"}};
static const struct schema_case reckon_either = {"reckon", 0, {"reckon", "1:29 for 300 mL", "--as", "json"}};
static const struct schema_case reckon_ratio = {"reckon", 0, {"reckon", "150 mL to 1 L as a ratio", "--as", "json"}};
static const struct schema_case reckon_take = {"reckon", 0, {"reckon", "0.25 g from 1 % stock", "--as", "json"}};
static const struct schema_case reckon_mixture = {"reckon", 0, {"reckon", "A 1 + B 1 + water 8 for 1 L", "--as", "json"}};
static const struct schema_case reckon_weaken = {"reckon", 0, {"reckon", "500 mL of 28 % acetic acid from glacial", "--as", "json"}};
static const struct schema_case reckon_equivalent = {"reckon", 0, {"reckon", "30 g sodium carbonate (anhydrous) as monohydrate", "--as", "json"}};
static const struct schema_case reckon_strength = {"reckon", 0, {"reckon", "40 grains per 20 imperial fl oz in g/L", "--as", "json"}};
static const struct schema_case reckon_scale = {"reckon", 0, {"reckon", "7.5 g per 750 mL for 2 L", "--as", "json"}};
static const struct schema_case reckon_degrees = {"reckon", 0, {"reckon", "125 °F in °C", "--as", "json"}};

#define CASE(one) {#one, run_case, NULL, NULL, (void *)(uintptr_t)&(one)}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(check_samples), CASE(check_clean),   CASE(show_one),      CASE(show_parts), CASE(show_old),
        CASE(show_stocks),   CASE(show_solutions), CASE(sheet_one),    CASE(sheet_parts),   CASE(sheet_shelf),   CASE(sheet_times),   CASE(book_two),      CASE(label_stock),    CASE(label_working),
        CASE(process_film),  CASE(process_all),   CASE(materials_one), CASE(materials_all), CASE(why_one),       CASE(why_all),
        CASE(safety_one),    CASE(safety_parts),  CASE(check_without), CASE(materials_like),
        CASE(cost_all),      CASE(cost_missing),  CASE(shelf_darkroom), CASE(shelf_undated),
        CASE(compare_fixers), CASE(compare_old),  CASE(compare_parts), CASE(compare_same), CASE(compare_priced), CASE(compare_absent),
        CASE(reckon_dilution), CASE(reckon_either), CASE(reckon_ratio), CASE(reckon_take), CASE(reckon_mixture),
        CASE(reckon_weaken), CASE(reckon_equivalent), CASE(reckon_strength), CASE(reckon_scale), CASE(reckon_degrees),
        cmocka_unit_test(a_wrong_document_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
