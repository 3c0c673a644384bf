/* Files that are read: what is missing, refused or in a ring is reported where it is asked for, and all else is checked.
 *
 * No case depends on who runs it: where a mode keeps nobody out (the superuser reads everything), the system is made to refuse a file
 * in another way, by a link that leads to itself. */
#define _GNU_SOURCE

#include "support/program.h"

#include <fcntl.h>
#include <jansson.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

enum { GOOD = 0, FAULTY = 1, UNUSABLE = 2 };

#define BATH(title) "formula \"" title "\"\n    kind other\n    sodium chloride 5 g\n    water to make 1 L\n"

static int clean_up(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

/* A path of its own, since scratch_path may use its memory again. */
static const char *at(const char *name)
{
    return scratch_path(name);
}

static void make_folder(const char *name)
{
    assert_int_equal(mkdir(at(name), 0755), 0);
}

static void make_link(const char *target, const char *name)
{
    assert_int_equal(symlink(target, at(name)), 0);
}

/* Runs `check`, and asks for this status and for words on the way: in text, and as JSON with so many diagnostics. */
static void check_says(const char *path, int status, size_t diagnostics, const char *const *words)
{
    struct run run = run_potash("check", path, NULL);
    assert_status(&run, status);
    for (; words != NULL && *words != NULL; words++) {
        assert_says(&run, *words);
    }
    run_free(&run);
    run = run_potash("check", path, "--as", "json", NULL);
    assert_status(&run, status);
    json_t *root = json_loadb(run.output, run.output_length, 0, NULL);
    assert_non_null(root);
    if (json_array_size(json_object_get(root, "diagnostics")) != diagnostics) {
        fail_msg("%s: %zu diagnostics, not %zu: %s", path, json_array_size(json_object_get(root, "diagnostics")), diagnostics, run.output);
    }
    json_decref(root);
    run_free(&run);
}

#define WORDS(...) ((const char *const[]){__VA_ARGS__, NULL})

static void a_missing_file_is_reported_beside_other_errors(void **state)
{
    (void)state;
    scratch_text("a.bath", "read \"missing.bath\"\nformula \"A\"\n    kind other\n    sodium chloride 5 g\n    zurkum 3 g\n    garbage ) 5\n    water to make 1 L\n");
    /* "zurkum" may be declared in the missing file: nothing is said of it. */
    check_says(at("a.bath"), FAULTY, 2, WORDS("a.bath:1:6: error: there is no file", "[file-missing]", "a.bath:6:"));
    scratch_text("b.bath", "read \"nowhere/at/all.bath\"\nread \"\"\n" BATH("B"));
    check_says(at("b.bath"), FAULTY, 2, WORDS("b.bath:1:6: error: there is no file"));
    /* Two lines that ask for the same are two errors. */
    scratch_text("c.bath", "read \"missing.bath\"\nread \"missing.bath\"\n" BATH("C"));
    check_says(at("c.bath"), FAULTY, 2, WORDS("c.bath:1:6:", "c.bath:2:6:"));
    /* A file that is named is missed at its own place, with the status of a call that cannot be followed; the others are checked. */
    scratch_text("d.bath", "formula \"D\"\nzurkum 5 g\nwater to make 1 L\n");
    struct run run = run_potash("check", at("gone.bath"), at("d.bath"), at("c.bath"), "--as", "json", NULL);
    assert_status(&run, UNUSABLE);
    assert_prints(&run, "gone.bath\"");
    assert_prints(&run, "c.bath\"");
    run_free(&run);
    run = run_potash("check", at("c.bath"), at("gone.bath"), NULL);
    assert_status(&run, UNUSABLE);
    assert_says(&run, "gone.bath:1:1: error: there is no file");
    assert_says(&run, "c.bath:2:6:");
    run_free(&run);
    run = run_potash("sheet", at("d.bath"), at("gone.bath"), NULL);
    assert_status(&run, UNUSABLE);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
}

static void a_read_stays_inside_the_folder(void **state)
{
    (void)state;
    make_folder("in");
    make_folder("in/sub");
    make_folder("in-between"); /* whose name begins alike */
    scratch_text("out.bath", BATH("Secret"));
    scratch_text("in-between/out.bath", BATH("Secret too"));
    scratch_text("in/ok.bath", BATH("Ok"));
    scratch_text("in/sub/up.bath", "read \"../ok.bath\"\n" BATH("Up"));
    scratch_text("in/a.bath", "read \"../out.bath\"\nread \"../in-between/out.bath\"\nread \"../not-there.bath\"\nread \"sub/up.bath\"\n" BATH("A"));
    check_says(at("in/a.bath"), FAULTY, 3, WORDS("a.bath:1:6: error:", "lies outside", "[file-refused]", "a.bath:2:6:", "a.bath:3:6:"));
    struct run run = run_potash("check", at("in/a.bath"), "--allow-reads", NULL);
    assert_status(&run, FAULTY); /* the third is not there */
    assert_says(&run, "[file-missing]");
    run_free(&run);
    check_says(at("in/sub/up.bath"), FAULTY, 1, WORDS("lies outside"));
    check_says(at("in/sub"), FAULTY, 1, WORDS("lies outside"));
    /* "x/.." is where x is, also through a folder that is a link: that one leads out. */
    make_link("../in-between", "in/way");
    scratch_text("in/b.bath", "read \"way/out.bath\"\nread \"way/../out.bath\"\nread \"sub/../ok.bath\"\nread \"./sub/.././/ok.bath\"\n" BATH("B"));
    check_says(at("in/b.bath"), FAULTY, 2, WORDS("b.bath:1:6:", "b.bath:2:6:"));
}

static void links_in_a_folder(void **state)
{
    (void)state;
    make_folder("in");
    make_folder("in/deep");
    scratch_text("out.bath", BATH("Secret"));
    scratch_text("in/a.bath", BATH("A"));
    make_link("a.bath", "in/same.bath");
    make_link("../a.bath", "in/deep/same.bath");
    struct run run = run_potash("check", at("in"), NULL);
    assert_status(&run, GOOD);
    assert_prints(&run, "1 formula:"); /* one file, whatever it is called */
    run_free(&run);
    make_link("../out.bath", "in/leak.bath");
    check_says(at("in"), FAULTY, 1, WORDS("in/leak.bath:1:1: error:", "link that leads outside", "[file-refused]"));
    make_link("leak.bath", "in/leak-by-a-link.bath");
    check_says(at("in"), FAULTY, 2, NULL);
    run = run_potash("show", at("in"), NULL);
    assert_null(strstr(run.output, "Secret"));
    run_free(&run);
    assert_int_equal(unlink(at("in/leak.bath")), 0);
    assert_int_equal(unlink(at("in/leak-by-a-link.bath")), 0);
    /* What stands in the way of a whole folder: a link that leads nowhere, one to itself, an editor's lock file, a pipe, a socket. */
    make_link("nowhere", "in/dangling.bath");
    make_link("loop.bath", "in/loop.bath");
    make_link("somebody@host.1234", "in/.#a.bath");
    assert_int_equal(mkfifo(at("in/pipe.bath"), 0644), 0);
    struct sockaddr_un address = {.sun_family = AF_UNIX};
    int descriptor = socket(AF_UNIX, SOCK_STREAM, 0);
    bool socket_made = strlen(at("in/socket.bath")) < sizeof address.sun_path;
    if (socket_made) {
        strcpy(address.sun_path, at("in/socket.bath"));
        socket_made = bind(descriptor, (struct sockaddr *)&address, sizeof address) == 0;
    }
    check_says(at("in"), FAULTY, 3 + socket_made, WORDS("dangling.bath:1:1: error:", "[file-missing]", "loop.bath:1:1:", "pipe.bath:1:1:", "[file-refused]"));
    close(descriptor);
    run = run_potash("check", at("in"), NULL);
    assert_prints(&run, "1 formula:");
    assert_null(strstr(run.error, ".#a.bath"));
    run_free(&run);
    /* What a person names may be a link, wherever it leads. */
    make_link("../out.bath", "in/named.bath");
    check_says(at("in/named.bath"), GOOD, 0, NULL);
    assert_int_equal(symlink(at("in/deep"), at("folder")), 0);
    scratch_text("in/deep/b.bath", BATH("B"));
    assert_int_equal(unlink(at("in/deep/same.bath")), 0);
    check_says(at("folder"), GOOD, 0, NULL);
}

static void pipes_and_devices_are_refused_at_once(void **state)
{
    (void)state;
    assert_int_equal(mkfifo(at("pipe"), 0644), 0);
    scratch_text("a.bath", "read \"pipe\"\n" BATH("A"));
    check_says(at("a.bath"), FAULTY, 1, WORDS("a.bath:1:6: error:", "not a file"));
    static const char *const verbs[] = {"check", "sheet", "tidy", "shelf", "process"};
    for (size_t i = 0; i < sizeof verbs / sizeof *verbs; i++) {
        struct run run = run_potash(verbs[i], at("pipe"), NULL);
        assert_status(&run, UNUSABLE);
        assert_says(&run, "not a file");
        run_free(&run);
    }
    struct run run = run_potash("compare", at("pipe"), at("a.bath"), NULL);
    assert_status(&run, UNUSABLE);
    run_free(&run);
    run = run_potash("check", at("a.bath"), "--shelf", at("pipe"), NULL);
    assert_status(&run, UNUSABLE);
    run_free(&run);
    run = run_potash("check", at("a.bath"), "--library", at("pipe"), NULL);
    assert_status(&run, UNUSABLE);
    assert_says(&run, "not a file");
    run_free(&run);
    run = run_potash("check", "/dev/zero", NULL);
    assert_status(&run, UNUSABLE);
    run_free(&run);
    run = run_potash("check", "/dev/null", NULL); /* stands for a file that is not there */
    assert_status(&run, GOOD);
    run_free(&run);
}

static void rings(void **state)
{
    (void)state;
    scratch_text("self.bath", "read \"self.bath\"\n" BATH("Self"));
    check_says(at("self.bath"), FAULTY, 1, WORDS("self.bath:1:6: error:", "[reads-itself]"));
    scratch_text("x.bath", "read \"y.bath\"\n");
    scratch_text("y.bath", "read \"./z.bath\"\n");
    scratch_text("z.bath", "read \"x.bath\"\n");
    check_says(at("x.bath"), FAULTY, 1, WORDS("z.bath:1:6: error:"));
    make_link("x.bath", "alias.bath");
    scratch_text("z.bath", "read \"alias.bath\"\n");
    check_says(at("x.bath"), FAULTY, 1, WORDS("z.bath:1:6: error:"));
    /* Two that read the same are no ring. */
    scratch_text("z.bath", BATH("Z"));
    scratch_text("w.bath", "read \"y.bath\"\nread \"z.bath\"\nread \"x.bath\"\n");
    check_says(at("w.bath"), GOOD, 0, NULL);
}

static void a_folder_that_is_read(void **state)
{
    (void)state;
    make_folder("in");
    make_folder("in/sub");
    make_folder("in/.hidden");
    make_folder("in/empty");
    scratch_text("in/a.bath", "read \".\"\nvariant \"V\"\n    of \"S\"\n    change sodium chloride to 6 g\n");
    scratch_text("in/b.bath", "read \".\"\nread \"sub\"\nread \"sub/..\"\n" BATH("B"));
    scratch_text("in/sub/s.bath", "read \"..\"\n" BATH("S"));
    scratch_text("in/.hidden/h.bath", "garbage\n");
    check_says(at("in/a.bath"), GOOD, 0, NULL);
    check_says(at("in"), GOOD, 0, NULL);
    scratch_text("in/c.bath", "read \"empty\"\nread \"empty\"\nread \".hidden/h.bath\"\n");
    check_says(at("in/c.bath"), FAULTY, 3, WORDS("c.bath:1:6: error:", "no .bath file", "c.bath:2:6:", "h.bath:1:1:")); /* what is named is read */
    check_says(at("in/empty"), UNUSABLE, 1, WORDS("no .bath file"));
}

/* One of very many files, whose paths the scratch folder need not remember. */
__attribute__((format(printf, 1, 0))) static void write_numbered(const char *pattern, int number, const char *text)
{
    char path[4096];
    size_t length = (size_t)snprintf(path, sizeof path, "%s/", scratch_folder());
    snprintf(path + length, sizeof path - length, pattern, number);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

/* So many files that each read the next, all of them taken for one: nothing in the program goes down with them. */
static void long_chains(void **state)
{
    (void)state;
    enum { LONG = 20000 };
    make_folder("chain");
    for (int i = 0; i < LONG; i++) {
        char text[100];
        snprintf(text, sizeof text, i + 1 < LONG ? "read \"./%d.bath\"\n" : "read \"0.bath\"\n", i + 1);
        write_numbered("chain/%d.bath", i, text);
    }
    check_says(at("chain/0.bath"), FAULTY, 1, WORDS("19999.bath:1:6: error:", "[reads-itself]"));
    /* Folders within folders, by turns upward and downward. */
    scratch_text("chain/last.bath", BATH("Last"));
    make_folder("chain/sub");
    for (int i = 0; i < 3000; i++) {
        char text[100];
        snprintf(text, sizeof text, i % 2 == 0 ? "read \"../z%d.bath\"\n" : "read \"sub/z%d.bath\"\n", i + 1);
        write_numbered(i % 2 == 0 ? "chain/sub/z%d.bath" : "chain/z%d.bath", i, i + 1 < 3000 ? text : "read \"last.bath\"\n");
    }
    scratch_text("chain/start.bath", "read \"sub/z0.bath\"\n");
    check_says(at("chain/start.bath"), GOOD, 0, NULL);
}

static void what_is_no_text_or_too_large(void **state)
{
    (void)state;
    char zeroes[21 * 2];
    for (size_t i = 0; i < sizeof zeroes; i++) {
        zeroes[i] = i % 2 == 0 ? '\0' : '\n';
    }
    scratch_file("twenty.bath", zeroes, sizeof zeroes - 2); /* NULs on 20 lines: a text in another encoding */
    scratch_file("more.bath", zeroes, sizeof zeroes);
    check_says(at("twenty.bath"), FAULTY, 20, WORDS("[text-encoding]"));
    check_says(at("more.bath"), UNUSABLE, 1, WORDS("more.bath:1:1: error:", "is not a text file", "[file-refused]"));
    scratch_text("a.bath", "read \"more.bath\"\nread \"more.bath\"\n" BATH("A"));
    check_says(at("a.bath"), FAULTY, 2, WORDS("a.bath:1:6: error:", "a.bath:2:6: error:"));
    /* A file with a hole, which takes no room on the disk. */
    int descriptor = open(at("large.bath"), O_WRONLY | O_CREAT, 0644);
    assert_true(descriptor >= 0);
    assert_int_equal(ftruncate(descriptor, ((off_t)1 << 30) + 1), 0);
    close(descriptor);
    scratch_text("b.bath", "read \"large.bath\"\n" BATH("B"));
    check_says(at("large.bath"), UNUSABLE, 1, WORDS("too large"));
    check_says(at("b.bath"), FAULTY, 1, WORDS("b.bath:1:6: error:", "too large"));
}

static void names_are_bytes(void **state)
{
    (void)state;
    const char *path = scratch_text("w\xFF\033[2J\t.bath", "formula \"A\"\nzurkum 5 g\nwater to make 1 L\n");
    char *kept = strdup(path);
    check_says(kept, FAULTY, 1, WORDS("w\uFFFD\uFFFD[2J .bath:2:1: error:"));
    scratch_text("a.bath", "read \"w\xFF.bath\"\n" BATH("A")); /* in a text it is a fault of encoding */
    check_says(at("a.bath"), FAULTY, 1, WORDS("[text-encoding]"));
    struct run run = run_potash("check", scratch_folder(), "--as", "sarif", NULL);
    assert_status(&run, FAULTY);
    json_t *root = json_loadb(run.output, run.output_length, 0, NULL);
    assert_non_null(root);
    json_decref(root);
    run_free(&run);
    run = run_potash("tidy", "--in-place", kept, NULL); /* and the file itself is found again by its bytes */
    assert_status(&run, GOOD);
    run_free(&run);
    char *bytes = file_bytes(kept, NULL);
    assert_non_null(bytes);
    assert_non_null(strstr(bytes, "\n    zurkum"));
    free(bytes);
    free(kept);
}

static void closed_standard_input(void **state)
{
    (void)state;
    const char *path = scratch_text("a.bath", BATH("A"));
    static const char *const orders[] = {"%s check '%s' - <&-", "%s check - '%s' <&-"};
    for (size_t i = 0; i < 2; i++) {
        char command[1000];
        snprintf(command, sizeof command, i == 0 ? orders[0] : orders[1], program_under_test(), path);
        const char *const arguments[] = {"-c", command, NULL};
        struct run run = run_program("sh", arguments, NULL, 0);
        assert_status(&run, UNUSABLE);
        assert_says(&run, "<standard input>:1:1: error:");
        assert_says(&run, "is closed");
        assert_prints(&run, "1 formula");
        run_free(&run);
    }
}

#define WITH_SCRATCH(test) cmocka_unit_test_teardown(test, clean_up)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_SCRATCH(a_missing_file_is_reported_beside_other_errors),
        WITH_SCRATCH(a_read_stays_inside_the_folder),
        WITH_SCRATCH(links_in_a_folder),
        WITH_SCRATCH(pipes_and_devices_are_refused_at_once),
        WITH_SCRATCH(rings),
        WITH_SCRATCH(a_folder_that_is_read),
        WITH_SCRATCH(long_chains),
        WITH_SCRATCH(what_is_no_text_or_too_large),
        WITH_SCRATCH(names_are_bytes),
        WITH_SCRATCH(closed_standard_input),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
