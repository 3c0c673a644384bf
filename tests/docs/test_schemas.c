/* What the program prints as JSON keeps to the schemas in docs/schema/. */
#include "support/whole_file.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

/* A verb's output, and the schema that it has to keep to. */
struct schema_case {
    const char *schema;    /* docs/schema/NAME.schema.json */
    const char *arguments; /* behind the program's name, without --as json */
    int status;            /* that the program exits with */
};

static void run_case(void **state)
{
    const struct schema_case *one = *state;
    char command[1024];
    snprintf(command, sizeof command, "'%s' %s --as json 2>/dev/null", program_under_test(), one->arguments);
    size_t length = 0;
    int status = -1;
    char *output = whole_output(command, &length, &status);
    assert_non_null(output);
    assert_int_equal(status, one->status);
    assert_true(length > 0);

    char path[] = "/tmp/potash-schema-XXXXXX";
    int descriptor = mkstemp(path);
    assert_true(descriptor >= 0);
    close(descriptor);
    assert_int_equal(whole_file_write(path, output, length), 0);
    free(output);

    /* Debian's own interpreter is the one that finds Debian's packages. */
    snprintf(command, sizeof command, "/usr/bin/python3 tests/docs/schema_check.py docs/schema/%s.schema.json %s 2>&1", one->schema,
             path);
    char *verdict = whole_output(command, &length, &status);
    unlink(path);
    assert_non_null(verdict);
    if (status != 0) {
        print_error("potash %s: %s", one->arguments, verdict);
    }
    free(verdict);
    assert_int_equal(status, 0);
}

/* A document that breaks the schema is refused: the check itself works. */
static void a_wrong_document_is_refused(void **state)
{
    (void)state;
    char path[] = "/tmp/potash-schema-XXXXXX";
    int descriptor = mkstemp(path);
    assert_true(descriptor >= 0);
    close(descriptor);
    const char *wrong = "{\"diagnostics\": [], \"errors\": -1, \"warnings\": 0}\n";
    assert_int_equal(whole_file_write(path, wrong, strlen(wrong)), 0);
    char command[256];
    snprintf(command, sizeof command, "/usr/bin/python3 tests/docs/schema_check.py docs/schema/check.schema.json %s 2>&1", path);
    size_t length = 0;
    int status = -1;
    char *verdict = whole_output(command, &length, &status);
    unlink(path);
    assert_non_null(verdict);
    assert_int_equal(status, 1);
    assert_non_null(strstr(verdict, "errors"));
    free(verdict);
}

static const struct schema_case check_samples = {"check", "check samples", 1};
static const struct schema_case check_clean = {"check", "check samples/stop-bath.bath", 0};
static const struct schema_case show_one = {"show", "show samples/print-developer.bath", 0};
static const struct schema_case show_parts = {"show", "show samples/two-part-developer.bath --make 250mL", 0};
static const struct schema_case show_old = {"show", "show samples/old-print-developer.bath", 0};
static const struct schema_case show_solutions = {"show", "show tests/published/44-pyro-potash-minims.bath", 0};
static const struct schema_case show_stocks = {"show", "show samples/film-developer.bath", 0};
static const struct schema_case sheet_one = {"sheet", "sheet samples/print-developer.bath --make 2 L --date 2026-03-04", 0};
static const struct schema_case sheet_parts = {"sheet", "sheet samples/two-part-developer.bath", 0};
static const struct schema_case materials_one = {"materials", "materials acetic acid", 0};
static const struct schema_case materials_all = {"materials", "materials", 0};
static const struct schema_case why_one = {"why", "why ratio-with-colon", 0};
static const struct schema_case why_all = {"why", "why", 0};

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
