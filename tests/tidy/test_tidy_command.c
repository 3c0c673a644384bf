/* potash tidy on the command line: output, --in-place, --verify, and what it refuses. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE
#endif

#include "support/program.h"

#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char untidy[] = "formula \"a\"\nkind fixer\nhypo....250 g\nwater 1 L\n";
static const char tidy[] = "formula \"a\"\n    kind     fixer\n\n    hypo  250 g\n    water 1 L\n";
static const char faulty[] = "formula \"b\nwater 1 L\n";

static int remove_scratch(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

static void assert_holds(const char *path, const char *text)
{
    size_t length;
    char *bytes = file_bytes(path, &length);
    assert_non_null(bytes);
    assert_string_equal(bytes, text);
    free(bytes);
}

/* Sets a time long gone, so that any writing shows. */
static void age(const char *path)
{
    const struct timespec long_ago[2] = {{.tv_sec = 1000000000}, {.tv_sec = 1000000000}};
    assert_int_equal(utimensat(AT_FDCWD, path, long_ago, 0), 0);
}

static bool is_aged(const char *path)
{
    struct stat status;
    assert_int_equal(stat(path, &status), 0);
    return status.st_mtime == 1000000000;
}

static void test_one_file_to_standard_output(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", untidy);
    age(path);
    struct run run = run_potash("tidy", path, NULL);
    assert_status(&run, 0);
    assert_string_equal(run.output, tidy);
    assert_int_equal(run.error_length, 0);
    assert_true(is_aged(path));
    assert_holds(path, untidy);
    run_free(&run);
    run = run_potash_input(untidy, strlen(untidy), "tidy", "-", NULL);
    assert_status(&run, 0);
    assert_string_equal(run.output, tidy);
    run_free(&run);
}

static void test_to_a_file(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", untidy);
    const char *other = scratch_path("other.bath");
    struct run run = run_potash("tidy", path, "-o", other, NULL);
    assert_status(&run, 0);
    assert_int_equal(run.output_length, 0);
    assert_holds(other, tidy);
    assert_holds(path, untidy);
    run_free(&run);
}

static void test_several_files_need_in_place(void **state)
{
    (void)state;
    scratch_text("a.bath", untidy);
    scratch_text("b.bath", untidy);
    struct run run = run_potash("tidy", scratch_folder(), NULL);
    assert_status(&run, 2);
    assert_int_equal(run.output_length, 0);
    assert_says(&run, "--in-place");
    run_free(&run);
}

static void test_in_place(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", untidy);
    const char *good = scratch_text("b.bath", tidy);
    assert_int_equal(chmod(path, 0640), 0);
    age(path);
    age(good);
    struct run run = run_potash("tidy", "--in-place", scratch_folder(), NULL);
    assert_status(&run, 0);
    assert_int_equal(run.output_length, 0);
    assert_holds(path, tidy);
    assert_false(is_aged(path));
    assert_holds(good, tidy);
    assert_true(is_aged(good));
    struct stat status;
    assert_int_equal(stat(path, &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
    assert_int_equal(scratch_count(), 2);
    run_free(&run);
}

/* The file is put in its place in one step: who has the old one open goes on reading the old one. */
static void test_in_place_is_one_step(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", untidy);
    int open_before = open(path, O_RDONLY | O_CLOEXEC);
    assert_true(open_before >= 0);
    struct run run = run_potash("tidy", path, "--in-place", NULL);
    assert_status(&run, 0);
    char bytes[sizeof untidy + 1] = {0};
    assert_int_equal(read(open_before, bytes, sizeof untidy), sizeof untidy - 1);
    close(open_before);
    assert_string_equal(bytes, untidy);
    assert_holds(path, tidy);
    run_free(&run);
}

static void test_in_place_follows_a_link(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", untidy);
    const char *link = scratch_path("link.bath");
    assert_int_equal(symlink("a.bath", link), 0);
    struct run run = run_potash("tidy", "--in-place", link, NULL);
    assert_status(&run, 0);
    struct stat status;
    assert_int_equal(lstat(link, &status), 0);
    assert_true(S_ISLNK(status.st_mode));
    assert_holds(path, tidy);
    run_free(&run);
}

static void test_faulty_file_is_left_alone(void **state)
{
    (void)state;
    const char *bad = scratch_text("a.bath", faulty);
    const char *path = scratch_text("b.bath", untidy);
    age(bad);
    struct run run = run_potash("tidy", "--in-place", scratch_folder(), NULL);
    assert_status(&run, 1);
    assert_says(&run, "a.bath:1:9: error:");
    assert_says(&run, "[syntax]");
    assert_true(is_aged(bad));
    assert_holds(bad, faulty);
    assert_holds(path, tidy);
    run_free(&run);
    run = run_potash("tidy", bad, NULL);
    assert_status(&run, 1);
    assert_int_equal(run.output_length, 0);
    assert_says(&run, "[syntax]");
    run_free(&run);
}

static void test_verify(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", untidy);
    const char *good = scratch_text("b.bath", tidy);
    age(path);
    struct run run = run_potash("tidy", "--verify", path, good, NULL);
    assert_status(&run, 1);
    char wanted[512] = {0};
    strncat(wanted, path, sizeof wanted - 2);
    strcat(wanted, "\n");
    assert_string_equal(run.output, wanted);
    assert_true(is_aged(path));
    assert_holds(path, untidy);
    run_free(&run);
    run = run_potash("tidy", "--verify", good, NULL);
    assert_status(&run, 0);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
    const char *bad = scratch_text("c.bath", faulty);
    run = run_potash("tidy", "--verify", good, bad, NULL);
    assert_status(&run, 1);
    assert_says(&run, "c.bath");
    run_free(&run);
    run = run_potash_input(untidy, strlen(untidy), "tidy", "--verify", "-", NULL);
    assert_status(&run, 1);
    run_free(&run);
}

/* What a file reads is another file's matter: it is neither needed nor touched. */
static void test_reads_are_not_followed(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", "read   \"other.bath\"\nread \"missing.bath\"\n");
    const char *other = scratch_text("other.bath", untidy);
    struct run run = run_potash("tidy", "--in-place", path, NULL);
    assert_status(&run, 0);
    assert_holds(path, "read \"other.bath\"\nread \"missing.bath\"\n");
    assert_holds(other, untidy);
    run_free(&run);
}

static void test_calls_that_are_none(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", untidy);
    struct run runs[] = {
        run_potash("tidy", NULL),
        run_potash("tidy", "--in-place", "--verify", path, NULL),
        run_potash("tidy", "--as", "json", path, NULL),
        run_potash("tidy", "--in-place", "-o", scratch_path("b"), path, NULL),
        run_potash_input(untidy, strlen(untidy), "tidy", "--in-place", "-", NULL),
        run_potash("tidy", scratch_path("missing.bath"), NULL),
    };
    for (size_t i = 0; i < sizeof runs / sizeof *runs; i++) {
        assert_status(&runs[i], 2);
        assert_true(runs[i].error_length > 0);
        assert_int_equal(runs[i].output_length, 0);
        run_free(&runs[i]);
    }
    assert_holds(path, untidy);
    assert_int_equal(scratch_count(), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(test_one_file_to_standard_output, remove_scratch),
        cmocka_unit_test_teardown(test_to_a_file, remove_scratch),
        cmocka_unit_test_teardown(test_several_files_need_in_place, remove_scratch),
        cmocka_unit_test_teardown(test_in_place, remove_scratch),
        cmocka_unit_test_teardown(test_in_place_is_one_step, remove_scratch),
        cmocka_unit_test_teardown(test_in_place_follows_a_link, remove_scratch),
        cmocka_unit_test_teardown(test_faulty_file_is_left_alone, remove_scratch),
        cmocka_unit_test_teardown(test_verify, remove_scratch),
        cmocka_unit_test_teardown(test_reads_are_not_followed, remove_scratch),
        cmocka_unit_test_teardown(test_calls_that_are_none, remove_scratch),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
