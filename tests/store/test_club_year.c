/* A year of a club, summed by a script of its own (club_year.py), for seeds that are kept. */
#include "support/program.h"

#include <stdio.h>
#include <string.h>

static void rests_are_sums(void **state)
{
    (void)state;
    static const char *const seeds[] = {"1", "1871", "20260304"};
    char *program = realpath(program_under_test(), NULL);
    assert_non_null(program);
    for (size_t i = 0; i < sizeof seeds / sizeof *seeds; i++) {
        const char *arguments[] = {"tests/store/club_year.py", program, scratch_folder(), seeds[i], NULL};
        struct run run = run_program("python3", arguments, NULL, 0);
        assert_status(&run, 0);
        assert_prints(&run, "2000 batches");
        run_free(&run);
        scratch_remove();
    }
    free(program);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(rests_are_sums)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
