/* A file that only reads others stands for them, in every verb; a check goes by no clock unless it is asked to. */
#include "support/program.h"

#include <stdlib.h>
#include <string.h>

#define BRINE(title) "formula \"" title "\"\n    kind other\n    water 750 mL\n    sodium chloride 10 g\n    water to make 1 L\n"

static void assert_same_output(struct run *a, struct run *b)
{
    assert_status(a, b->status);
    assert_true(a->status == 0 && a->output_length > 0);
    assert_string_equal(a->output, b->output);
    run_free(a);
    run_free(b);
}

/* As though each file had been named, through files that only read in their turn. */
static void stands_for_what_it_reads(void **state)
{
    (void)state;
    const char *one = scratch_text("one.bath", BRINE("One"));
    const char *two = scratch_text("two.bath", BRINE("Two"));
    const char *shelf = scratch_text("shelf.bath", "shelf \"Club\"\n    currency GBP\n    holds sodium chloride 1 kg for 2\n");
    scratch_text("inner.bath", "# the second\nread \"two.bath\"\n");
    const char *all = scratch_text("all.bath", "read \"shelf.bath\"\nread \"one.bath\"\n\n# more\nread \"inner.bath\"\n");
    static const char *const calls[] = {"sheet", "book", "cost", "label", "safety", "show", "shelf"};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        const char *called = strcmp(calls[i], "book") == 0 ? "--called=x" : "--strict";
        struct run umbrella = run_potash(calls[i], all, "--date=2026-03-04", called, NULL);
        struct run named = run_potash(calls[i], shelf, one, two, "--date=2026-03-04", called, NULL);
        assert_same_output(&umbrella, &named);
    }
    scratch_remove();
}

/* What a file with a formula of its own reads serves that formula, and reports are not about it. */
static void other_files_stand_for_themselves(void **state)
{
    (void)state;
    scratch_text("one.bath", BRINE("One"));
    const char *two = scratch_text("two.bath", "read \"one.bath\"\n" BRINE("Two"));
    const char *all = scratch_text("all.bath", "read \"two.bath\"\n");
    for (int i = 0; i < 2; i++) {
        struct run run = run_potash("sheet", i == 0 ? two : all, NULL);
        assert_prints(&run, "Two");
        assert_null(strstr(run.output, "One"));
        run_free(&run);
    }
    struct run run = run_potash("sheet", two, all, scratch_path("one.bath"), NULL);
    assert_prints(&run, "One");
    run_free(&run);
    /* A ring of such files is an error at the line that closes it, and no call hangs. */
    scratch_text("ring.bath", "read \"round.bath\"\n");
    const char *ring = scratch_text("round.bath", "read \"ring.bath\"\nread \"one.bath\"\n");
    run = run_potash("sheet", ring, NULL);
    assert_status(&run, 1);
    assert_says(&run, "[reads-itself]");
    run_free(&run);
    scratch_remove();
}

static void the_samples_as_a_whole(void **state)
{
    (void)state;
    static const char *const calls[] = {"sheet", "book", "cost", "label", "safety", "show", "shelf", "process", "check"};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        struct run run = run_potash(calls[i], "samples/darkroom.bath", "--date", "2026-03-04", NULL);
        assert_status(&run, 0);
        assert_true(run.output_length > 0);
        run_free(&run);
    }
}

static void check_on(const char *epoch, const char *option, const char *wanted)
{
    setenv("SOURCE_DATE_EPOCH", epoch, 1);
    struct run run = run_potash("check", scratch_path("all.bath"), option, NULL);
    assert_status(&run, 0);
    assert_prints(&run, wanted);
    run_free(&run);
    unsetenv("SOURCE_DATE_EPOCH");
}

/* The last day of the salt is 30 June 2026: 1782820800 is that day's noon, 1782907200 the next one's (date -d @…). */
static void the_clock_is_not_asked(void **state)
{
    (void)state;
    scratch_text("all.bath", "shelf \"Club\"\n    holds sodium chloride 1 kg best before 2026-06-30\n" BRINE("One"));
    check_on("1782820800", NULL, "nothing to remark");
    check_on("1782907200", NULL, "nothing to remark");
    check_on("1782820800", "--today", "nothing to remark");
    check_on("1782907200", "--today", "1 warning");
    check_on("1782820800", "--date=2026-07-01", "1 warning");
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(stands_for_what_it_reads), cmocka_unit_test(other_files_stand_for_themselves),
                                       cmocka_unit_test(the_samples_as_a_whole), cmocka_unit_test(the_clock_is_not_asked)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
