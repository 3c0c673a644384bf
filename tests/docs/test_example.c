/* docs/example.c builds, runs, and prints what the program prints. */
#include "support/program.h"

#define main example_main
#include "../../docs/example.c"
#undef main

/* The example in a process of its own: this program with an argument. */
static struct run run_example(const char *path)
{
    const char *arguments[] = {path, NULL};
    return run_program("/proc/self/exe", arguments, NULL, 0);
}

static void prints_the_sheet(void **state)
{
    (void)state;
    struct run example = run_example("samples/print-developer.bath");
    struct run program = run_potash("sheet", "samples/print-developer.bath", "--make", "2 L", "--date", "none", NULL);
    assert_status(&example, POTASH_GOOD);
    assert_string_equal(example.output, program.output);
    run_free(&example);
    run_free(&program);
}

static void says_what_is_wrong(void **state)
{
    (void)state;
    struct run faulty = run_example(scratch_text("faulty.bath", "formula \"Brine\"\n\n makes 1 L\n\n    water 500 mL\n    metool 2 g\n    water to make 1 L\n"));
    assert_status(&faulty, POTASH_FAULTY);
    assert_says(&faulty, "metool");
    struct run missing = run_example(scratch_path("nothing.bath"));
    assert_status(&missing, POTASH_UNUSABLE);
    assert_says(&missing, "there is no file");
    run_free(&faulty);
    run_free(&missing);
    scratch_remove();
}

int main(int count, char **words)
{
    if (count > 1) {
        return example_main(count, words);
    }
    const struct CMUnitTest tests[] = {cmocka_unit_test(prints_the_sheet), cmocka_unit_test(says_what_is_wrong)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
