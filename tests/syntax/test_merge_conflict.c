/* The error merge-conflict.  How version control presents a conflict: manual page git-merge(1), "How conflicts are presented", and git
 * itself. */
#include "support/compiling.h"
#include "support/program.h"
#include "support/repairing.h"

#include <stdio.h>
#include <string.h>

#define HEAD "formula \"Stop\"\n    kind stop bath\n    water 750 mL\n"
#define TAIL "    water to make 1 L\n"
#define OURS "    citric acid (anhydrous) 15 g\n"
#define THEIRS "    citric acid (monohydrate) 16.4 g\n"

/* One error at the first line, whatever stands in either version, and none outside for what only the stretch declares. */
static void one_error_for_a_stretch(void **state)
{
    (void)state;
    expect_one(HEAD "<<<<<<< ours\n" OURS "=======\n" THEIRS ">>>>>>> theirs\n" TAIL, "merge-conflict", 4, 1);
    expect_one(HEAD "<<<<<<< ours\r\n" OURS "=======\r\n" THEIRS ">>>>>>> theirs\r\n" TAIL, "merge-conflict", 4, 1);
    expect_one(HEAD "<<<<<<< ours\n" OURS "||||||| base\n    citric 14 g\n=======\n" THEIRS ">>>>>>> theirs\n" TAIL, "merge-conflict", 4, 1);
    expect_one(HEAD "<<<<<<< ours\n    foo 3 zz\n    citric acid 15 g\n    dilute 1:2\n=======\n    \"\xFF\n>>>>>>> theirs\n" TAIL, "merge-conflict", 4, 1);
    expect_one(HEAD OURS "<<<<<<< ours\n    water to make 1 L\n=======\n    water to make 2 L\n>>>>>>> theirs", "merge-conflict", 5, 1);
    expect_one("<<<<<<< ours\n" HEAD OURS TAIL "=======\n" HEAD THEIRS TAIL ">>>>>>> theirs\nbatch \"a\" of \"Stop\"\n    mixed 2026-03-04\n    made 1 L\n",
               "merge-conflict", 1, 1);
    expect_one("<<<<<<< ours\n=======\n" HEAD THEIRS TAIL ">>>>>>> theirs\nbatch \"a\" of \"Stop\"\n    mixed 2026-03-04\n    made 1 L\n", "merge-conflict", 1, 1);
    expect_list(HEAD "<<<<<<< ours\n" OURS "=======\n" THEIRS ">>>>>>> theirs\n" TAIL "    foo\n<<<<<<< ours\n=======\n    bar\n>>>>>>> theirs\n",
                "merge-conflict:4 syntax:10 merge-conflict:11");
}

/* What somebody forgot to delete is told on its line, and the rest is read. */
static void marks_alone(void **state)
{
    (void)state;
    static const char *const marks[] = {"<<<<<<< ours\n", "|||||||\n", "=======\n", ">>>>>>> theirs\n"};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        char text[500];
        snprintf(text, sizeof text, HEAD "%s" OURS TAIL, marks[i]);
        expect_one(text, "merge-conflict", 4, 1);
    }
    expect_list(HEAD "<<<<<<< ours\n" OURS "=======\n" THEIRS TAIL, "merge-conflict:4 merge-conflict:6 added-twice:7");
}

/* Six signs, eight, and signs that do not begin their line are no marks: the line is refused as any other. */
static void other_lines(void **state)
{
    (void)state;
    expect_one(HEAD OURS "======\n" TAIL, "syntax", 5, 0);
    expect_one(HEAD OURS "========\n" TAIL, "syntax", 5, 0);
    expect_one(HEAD OURS "    =======\n" TAIL, "syntax", 5, 0);
    expect_one(HEAD OURS "=======x\n" TAIL, "syntax", 5, 0);
    expect_clean(HEAD OURS "    note \"<<<<<<< ours\"\n" TAIL);
}

static void the_repair_keeps_both_versions(void **state)
{
    (void)state;
    char text[1000] = HEAD "<<<<<<< ours\n" OURS "||||||| base\n    citric acid 14 g\n=======\n    note \"second\"\n>>>>>>> theirs\n" TAIL;
    repair(text, sizeof text, "merge-conflict", 4);
    assert_string_equal(text, HEAD "\n" OURS "\n\n\n    note \"second\"\n\n" TAIL);
    expect_clean(text);
}

/* No page is made of what may be either, tidying keeps off, and a long file of formulas has no more to say. */
static void nothing_is_made_of_it(void **state)
{
    (void)state;
    const char *file = scratch_text("a.bath", HEAD "<<<<<<< ours\n" OURS "    foo 3 zz\n=======\n" THEIRS ">>>>>>> theirs\n" TAIL
                                              "formula \"Other\"\n    kind stop bath\n    water 750 mL\n" OURS TAIL);
    const char *const calls[][2] = {{"sheet", NULL}, {"sheet", "--title=Other"}, {"show", NULL}, {"tidy", NULL}, {"label", NULL}};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        struct run run = run_potash(calls[i][0], file, calls[i][1], NULL);
        assert_status(&run, 1);
        assert_says(&run, "[merge-conflict]");
        assert_null(strstr(strstr(run.error, "error:") + 1, "error:"));
        assert_int_equal(run.output_length, 0);
        run_free(&run);
    }
    char *many = malloc(200000);
    size_t length = 0;
    for (int i = 0; i < 500; i++) {
        const char *lines = i == 250 ? "<<<<<<< ours\n" OURS "=======\n" TAIL "formula \"in between\"\n" THEIRS ">>>>>>> theirs\n" : OURS;
        length += (size_t)sprintf(many + length, "formula \"Stop %d\"\n    kind stop bath\n    water 750 mL\n%s" TAIL, i, lines);
    }
    expect_one(many, "merge-conflict", 250 * 5 + 4, 1);
    free(many);
    scratch_remove();
}

static void what_git_writes(void **state)
{
    (void)state;
    static const char *const styles[] = {"-q", "--diff3", "--zdiff3"};
    for (size_t i = 0; i < sizeof styles / sizeof *styles; i++) {
        const char *base = scratch_text("base.bath", HEAD "    citric acid (anhydrous) 14 g\n" TAIL);
        const char *ours = scratch_text("ours.bath", HEAD OURS TAIL);
        const char *theirs = scratch_text("theirs.bath", HEAD THEIRS TAIL);
        const char *arguments[] = {"merge-file", "-p", styles[i], ours, base, theirs, NULL};
        struct run run = run_program("git", arguments, NULL, 0);
        assert_int_equal(run.status, 1); /* so many conflicts */
        assert_non_null(strstr(run.output, "<<<<<<<"));
        expect_one(run.output, "merge-conflict", 4, 1);
        run_free(&run);
        scratch_remove();
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_error_for_a_stretch),        cmocka_unit_test(marks_alone),          cmocka_unit_test(other_lines),
        cmocka_unit_test(the_repair_keeps_both_versions), cmocka_unit_test(nothing_is_made_of_it), cmocka_unit_test(what_git_writes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
