/* Files that the program puts in the place of others: links lead on, owner and permissions stay, and nothing is half done. */
#define _GNU_SOURCE

#include "support/program.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/xattr.h>
#include <unistd.h>

static const char untidy[] = "formula   \"Marsh stop\"\n  kind other\n   sodium chloride 10 g\n water to make 1 L\n";
static const char tidy[] = "formula \"Marsh stop\"\n    kind     other\n\n    sodium chloride 10 g\n    water           to make 1 L\n";

static void assert_holds(const char *path, const char *wanted)
{
    size_t length;
    char *bytes = file_bytes(path, &length);
    assert_string_equal(bytes, wanted);
    free(bytes);
}

static bool is_link(const char *path)
{
    struct stat status;
    return lstat(path, &status) == 0 && S_ISLNK(status.st_mode);
}

static int remove_scratch(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

/* ---- links ---- */

static void a_link_leads_to_its_file(void **state)
{
    (void)state;
    const char *formula = scratch_text("formula.bath", untidy);
    const char *folder = scratch_path("folder");
    const char *target = scratch_text("target", "old");
    const char *missing = scratch_path("folder/missing");
    const char *link = scratch_path("folder/link");
    const char *second = scratch_path("second");
    const char *dangling = scratch_path("dangling");
    assert_int_equal(mkdir(folder, 0755), 0);
    assert_int_equal(symlink("../target", link), 0); /* seen from the link's folder */
    assert_int_equal(symlink(link, second), 0);
    assert_int_equal(symlink("folder/missing", dangling), 0);
    struct run run = run_potash("tidy", formula, "-o", second, NULL);
    assert_status(&run, 0);
    run_free(&run);
    assert_true(is_link(second) && is_link(link));
    assert_holds(target, tidy);
    run = run_potash("tidy", formula, "-o", dangling, NULL);
    assert_status(&run, 0);
    run_free(&run);
    assert_true(is_link(dangling));
    assert_holds(missing, tidy);
}

static void links_in_a_ring_are_an_error(void **state)
{
    (void)state;
    const char *formula = scratch_text("formula.bath", untidy);
    const char *one = scratch_path("one");
    assert_int_equal(symlink("two", one), 0);
    assert_int_equal(symlink("one", scratch_path("two")), 0);
    struct run run = run_potash("tidy", formula, "-o", one, NULL);
    assert_status(&run, 2);
    assert_says(&run, strerror(ELOOP));
    run_free(&run);
    assert_true(is_link(one));
    assert_int_equal(scratch_count(), 3);
}

/* Linux follows 40 links and no more (path_resolution(7)); so does what looks for the end of links that dangle. */
static void forty_links_are_followed(void **state)
{
    (void)state;
    const char *formula = scratch_text("formula.bath", untidy);
    char name[32];
    char before[32] = "end";
    for (int i = 1; i <= 41; i++) {
        snprintf(name, sizeof name, "link%d", i);
        assert_int_equal(symlink(before, scratch_path(name)), 0);
        strcpy(before, name);
    }
    struct run run = run_potash("tidy", formula, "-o", scratch_path("link41"), NULL);
    assert_status(&run, 2);
    assert_says(&run, strerror(ELOOP));
    run_free(&run);
    assert_int_equal(access(scratch_path("end"), F_OK), -1);
    run = run_potash("tidy", formula, "-o", scratch_path("link40"), NULL);
    assert_status(&run, 0);
    run_free(&run);
    assert_holds(scratch_path("end"), tidy);
}

/* A file of two names would be parted; one of one name is replaced. */
static void several_names_are_refused(void **state)
{
    (void)state;
    const char *formula = scratch_text("formula.bath", untidy);
    const char *other = scratch_path("other.bath");
    assert_int_equal(link(formula, other), 0);
    struct run run = run_potash("tidy", "--in-place", formula, NULL);
    assert_status(&run, 2);
    assert_says(&run, "2 names");
    run_free(&run);
    run = run_potash("tidy", formula, "-o", other, NULL);
    assert_status(&run, 2);
    run_free(&run);
    assert_holds(other, untidy);
    struct stat a;
    struct stat b;
    assert_int_equal(stat(formula, &a), 0);
    assert_int_equal(stat(other, &b), 0);
    assert_true(a.st_ino == b.st_ino && a.st_nlink == 2);
    assert_int_equal(unlink(other), 0);
    run = run_potash("tidy", "--in-place", formula, NULL);
    assert_status(&run, 0);
    run_free(&run);
    assert_holds(formula, tidy);
}

/* What standard output leads to is written to, not replaced. */
static void standard_output_by_its_name(void **state)
{
    (void)state;
    const char *formula = scratch_text("formula.bath", untidy);
    struct run run = run_potash("tidy", formula, "-o", "/dev/stdout", NULL);
    assert_status(&run, 0);
    assert_string_equal(run.output, tidy);
    run_free(&run);
}

/* ---- whose it is ---- */

static void permissions_and_attributes_stay(void **state)
{
    (void)state;
    const char *formula = scratch_text("formula.bath", untidy);
    assert_int_equal(chmod(formula, 0640), 0);
    bool attributes = setxattr(formula, "user.drawer", "third", 5, 0) == 0;
    assert_true(attributes || errno == ENOTSUP);
    struct run run = run_potash("tidy", "--in-place", formula, NULL);
    assert_status(&run, 0);
    run_free(&run);
    assert_holds(formula, tidy);
    struct stat status;
    assert_int_equal(stat(formula, &status), 0);
    assert_int_equal(status.st_mode & 07777, 0640);
    char value[16];
    if (attributes) {
        assert_int_equal(getxattr(formula, "user.drawer", value, sizeof value), 5);
        assert_memory_equal(value, "third", 5);
    }
}

static void the_owner_stays(void **state)
{
    (void)state;
    if (geteuid() != 0) {
        skip(); /* only root can give a file away */
    }
    const char *formula = scratch_text("formula.bath", untidy);
    assert_int_equal(chown(formula, 4711, 4712), 0);
    struct run run = run_potash("tidy", "--in-place", formula, NULL);
    assert_status(&run, 0);
    run_free(&run);
    assert_holds(formula, tidy);
    struct stat status;
    assert_int_equal(stat(formula, &status), 0);
    assert_int_equal(status.st_uid, 4711);
    assert_int_equal(status.st_gid, 4712);
}

/* ---- in one step, and kept ---- */

static struct run run_shell(const char *format, const char *a, const char *b)
{
    char *command = NULL;
    assert_true(asprintf(&command, format, a, b) > 0);
    const char *const arguments[] = {"-c", command, NULL};
    struct run run = run_program("/bin/sh", arguments, NULL, 0);
    free(command);
    return run;
}

static void a_full_disk_leaves_the_old_file(void **state)
{
    (void)state;
    const char *sheet = scratch_text("sheet", "the old sheet");
    /* No byte fits; the signal that says so is left as it is. */
    struct run run = run_shell("ulimit -f 0; exec '%s' sheet samples/stop-bath.bath -o '%s'", program_under_test(), sheet);
    assert_status(&run, 2);
    assert_says(&run, strerror(EFBIG));
    run_free(&run);
    assert_holds(sheet, "the old sheet");
    assert_int_equal(scratch_count(), 1);
}

/* Stands before the C library's functions and writes down the order in which they are called. */
static const char watch[] = "#define _GNU_SOURCE\n#include <dlfcn.h>\n#include <stdio.h>\n#include <stdlib.h>\n#include <sys/stat.h>\n"
                            "static void tell(const char *what)\n"
                            "{\n    FILE *file = fopen(getenv(\"WATCH_LOG\"), \"a\");\n    fputs(what, file);\n    fclose(file);\n}\n"
                            "int fsync(int descriptor)\n"
                            "{\n    struct stat status;\n    fstat(descriptor, &status);\n"
                            "    tell(S_ISDIR(status.st_mode) ? \"folder \" : \"file \");\n    return 0;\n}\n"
                            "int rename(const char *from, const char *to)\n"
                            "{\n    tell(\"rename \");\n"
                            "    return ((int (*)(const char *, const char *))dlsym(RTLD_NEXT, \"rename\"))(from, to);\n}\n";

/* The new text is on the disk before it gets its name, and the folder that holds the name is after it. */
static void the_disk_keeps_the_name_too(void **state)
{
    (void)state;
    const char *source = scratch_text("watch.c", watch);
    const char *library = scratch_path("watch.so");
    const char *log = scratch_path("log");
    struct run run = run_shell("cc -shared -fPIC -o '%s' '%s'", library, source);
    assert_status(&run, 0);
    run_free(&run);
    setenv("WATCH_LOG", log, 1);
    setenv("LD_PRELOAD", library, 1);
    run = run_potash("sheet", "samples/stop-bath.bath", "-o", scratch_path("sheet"), NULL);
    unsetenv("LD_PRELOAD");
    if (strstr(run.error, "ASan runtime does not come first") != NULL) {
        run_free(&run);
        skip();
    }
    assert_status(&run, 0);
    run_free(&run);
    assert_holds(log, "file rename folder ");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(a_link_leads_to_its_file, remove_scratch),
        cmocka_unit_test_teardown(links_in_a_ring_are_an_error, remove_scratch),
        cmocka_unit_test_teardown(forty_links_are_followed, remove_scratch),
        cmocka_unit_test_teardown(several_names_are_refused, remove_scratch),
        cmocka_unit_test_teardown(standard_output_by_its_name, remove_scratch),
        cmocka_unit_test_teardown(permissions_and_attributes_stay, remove_scratch),
        cmocka_unit_test_teardown(the_owner_stays, remove_scratch),
        cmocka_unit_test_teardown(a_full_disk_leaves_the_old_file, remove_scratch),
        cmocka_unit_test_teardown(the_disk_keeps_the_name_too, remove_scratch),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
