/* Molar masses of all materials against a reference library: periodictable, from Debian's packages. */
#include "support/program.h"

/* Debian's own interpreter is the one that finds Debian's packages. */
static const char python[] = "/usr/bin/python3";

static void as_the_reference_has_them(void **state)
{
    (void)state;
    const char *materials[] = {"materials", "--as", "json", NULL};
    struct run run = run_program(program_under_test(), materials, NULL, 0);
    assert_status(&run, 0);
    const char *compare[] = {"tests/library/reference_masses.py", NULL};
    struct run verdict = run_program(python, compare, run.output, run.output_length);
    if (verdict.status != 0) {
        print_error("%s%s", verdict.output, verdict.error);
    }
    assert_status(&verdict, 0);
    run_free(&verdict);
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_the_reference_has_them)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
