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
static const struct schema_case show_one = {"show", 0, {"show", "samples/print-developer.bath", "--as", "json"}};
static const struct schema_case show_parts = {"show", 0, {"show", "samples/two-part-developer.bath", "--make", "250mL", "--as", "json"}};
static const struct schema_case show_old = {"show", 0, {"show", "samples/old-print-developer.bath", "--as", "json"}};
static const struct schema_case show_solutions = {"show", 0, {"show", "tests/published/44-pyro-potash-minims.bath", "--as", "json"}};
static const struct schema_case show_stocks = {"show", 0, {"show", "samples/film-developer.bath", "--as", "json"}};
static const struct schema_case sheet_one = {"sheet", 0, {"sheet", "samples/print-developer.bath", "--make", "2 L", "--date", "2026-03-04", "--as", "json"}};
static const struct schema_case sheet_parts = {"sheet", 0, {"sheet", "samples/two-part-developer.bath", "--as", "json"}};
static const struct schema_case materials_one = {"materials", 0, {"materials", "acetic acid", "--as", "json"}};
static const struct schema_case materials_all = {"materials", 0, {"materials", "--as", "json"}};
static const struct schema_case why_one = {"why", 0, {"why", "ratio-with-colon", "--as", "json"}};
static const struct schema_case why_all = {"why", 0, {"why", "--as", "json"}};

#define CASE(one) {#one, run_case, NULL, NULL, (void *)(uintptr_t)&(one)}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(check_samples), CASE(check_clean),   CASE(show_one),      CASE(show_parts), CASE(show_old),
        CASE(show_stocks),   CASE(show_solutions), CASE(sheet_one),    CASE(sheet_parts),
        CASE(materials_one), CASE(materials_all), CASE(why_one),       CASE(why_all),
        cmocka_unit_test(a_wrong_document_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
