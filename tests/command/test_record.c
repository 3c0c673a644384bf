/* potash sheet --record: a batch to paste, and a diary that loses no line. */
#define _GNU_SOURCE

#include "support/program.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const char formula_text[] = "formula \"Marsh print developer\"\n    kind other\n    sodium chloride 10 g\n    water to make 1 L\n";

static const char *formula_file(void)
{
    return scratch_text("developer.bath", formula_text);
}

#define RECORD(letter, made, salt) "batch \"2026-03-04 " letter "\" of \"Marsh print developer\"\n    mixed 2026-03-04\n    made  " made "\n" \
                                   "    mixed as *\n    took  sodium chloride " salt "\n"

/* The fingerprint that a label of the formula bears. */
static char *fingerprint(void)
{
    struct run run = run_potash("label", formula_file(), "--as", "json", NULL);
    assert_status(&run, 0);
    static const char key[] = "\"fingerprint\": \"";
    const char *at = strstr(run.output, key);
    assert_non_null(at);
    char *figures = strndup(at + strlen(key), 16);
    run_free(&run);
    return figures;
}

/* The text is `wanted`, where * stands for that fingerprint. */
static void assert_records(const char *text, const char *wanted)
{
    char *figures = fingerprint();
    char expected[2000];
    size_t length = 0;
    for (; *wanted != '\0'; wanted++) {
        length += (size_t)(*wanted == '*' ? sprintf(expected + length, "%s", figures) : sprintf(expected + length, "%c", *wanted));
        assert_true(length < sizeof expected - 100);
    }
    assert_string_equal(text, expected);
    free(figures);
}

static size_t times(const char *text, const char *wanted)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, wanted)) != NULL; at += strlen(wanted)) {
        count++;
    }
    return count;
}

static void a_batch_to_paste(void **state)
{
    (void)state;
    struct run run = run_potash("sheet", formula_file(), "--record", "--make", "1.5 L", "--date", "2026-03-04", NULL);
    assert_status(&run, 0);
    assert_records(run.output, RECORD("a", "1.5 L", "15 g"));
    run_free(&run);
    run = run_potash("sheet", formula_file(), "--record", "--make", "330 mL", "--date", "2026-03-04", NULL);
    assert_prints(&run, "    made  330 mL\n");
    run_free(&run);
    run = run_potash("sheet", formula_file(), "--record", "--date", "none", NULL);
    assert_status(&run, 2);
    assert_says(&run, "a batch is mixed on a day");
    run_free(&run);
    run = run_potash("sheet", "samples/acid-fixer.bath", "samples/stop-bath.bath", "--record", NULL);
    assert_status(&run, 2);
    assert_says(&run, "--title");
    run_free(&run);
    scratch_remove();
}

static void a_new_diary_reads_its_formula(void **state)
{
    (void)state;
    const char *formula = formula_file();
    const char *diary = scratch_path("diary.bath");
    for (int i = 0; i < 2; i++) {
        struct run run = run_potash("sheet", formula, "--record-in", diary, "--date", "2026-03-04", NULL);
        assert_status(&run, 0);
        assert_prints(&run, i == 0 ? "batch \"2026-03-04 a\"" : "batch \"2026-03-04 b\"");
        run_free(&run);
    }
    size_t length;
    char *bytes = file_bytes(diary, &length);
    assert_records(bytes, "read \"developer.bath\"\n\n" RECORD("a", "1 L", "10 g") "\n" RECORD("b", "1 L", "10 g"));
    free(bytes);
    struct run check = run_potash("check", diary, "--strict", "--date", "2026-03-04", NULL);
    assert_status(&check, 0);
    run_free(&check);
    struct run tidy = run_potash("tidy", "--verify", diary, NULL);
    assert_status(&tidy, 0);
    run_free(&tidy);
    scratch_remove();
}

/* A last line without its end is not joined with the batch; links lead to the file, which keeps its permissions. */
static void what_stands_there_stays(void **state)
{
    (void)state;
    const char *formula = formula_file();
    const char *diary = scratch_text("diary.bath", "read \"developer.bath\"\n# the last line");
    const char *link = scratch_path("link.bath");
    assert_int_equal(symlink(diary, link), 0);
    assert_int_equal(chmod(diary, 0640), 0);
    struct run run = run_potash("sheet", formula, "--record-in", link, "--date", "2026-03-04", NULL);
    assert_status(&run, 0);
    run_free(&run);
    size_t length;
    char *bytes = file_bytes(diary, &length);
    assert_non_null(strstr(bytes, "# the last line\n\nbatch \"2026-03-04 a\""));
    free(bytes);
    struct stat status;
    assert_int_equal(lstat(link, &status), 0);
    assert_true(S_ISLNK(status.st_mode));
    assert_int_equal(stat(diary, &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
    scratch_remove();
}

static void nothing_is_written_where_nothing_can_be(void **state)
{
    (void)state;
    const char *formula = formula_file();
    struct run run = run_potash("sheet", formula, "--record-in", "/dev/full", NULL);
    assert_status(&run, 2);
    run_free(&run);
    run = run_potash("sheet", formula, "--record-in", scratch_path("none/diary.bath"), NULL);
    assert_status(&run, 2);
    assert_says(&run, "No such file or directory");
    run_free(&run);
    /* A formula with errors leaves no empty diary behind. */
    const char *faulty = scratch_text("faulty.bath", "formula \"x\"\nkind other\nsodium chlorid 10 g\nwater to make 1 L\n");
    const char *diary = scratch_path("new.bath");
    run = run_potash("sheet", faulty, "--record-in", diary, NULL);
    assert_status(&run, 1);
    assert_int_equal(access(diary, F_OK), -1);
    run_free(&run);
    scratch_remove();
}

/* A limit on the size of files stands for a full disk: the write is cut short, and what got in is taken out again. */
static void a_full_disk_leaves_the_diary_as_it_was(void **state)
{
    (void)state;
    const char *formula = formula_file();
    char before[512];
    memset(before, '#', sizeof before);
    memcpy(before, "read \"developer.bath\"\n", 22);
    before[500] = '\n';
    before[501] = '\0';
    const char *diary = scratch_text("diary.bath", before);
    char *command = NULL;
    /* dash counts in blocks of 512 bytes, bash in those of 1024; either is less than the batch behind 501 bytes would want. */
    assert_true(asprintf(&command, "ulimit -f 1; exec '%s' sheet '%s' --record-in '%s'", program_under_test(), formula,
                         diary) > 0);
    const char *arguments[] = {"-c", command, NULL};
    struct run run = run_program("/bin/dash", arguments, NULL, 0);
    assert_status(&run, 2);
    assert_says(&run, "File too large");
    run_free(&run);
    free(command);
    size_t length;
    char *bytes = file_bytes(diary, &length);
    assert_string_equal(bytes, before);
    free(bytes);
    scratch_remove();
}

/* Records with standard output as it is given, -1: closed.  Nobody hears of the batch then; but it is recorded, and the exit status
 * must not have anybody try again. */
static void record_unheard(const char *formula, const char *diary, int output, int reason)
{
    const char *log = scratch_path("said");
    pid_t child = fork();
    if (child == 0) {
        close(STDOUT_FILENO);
        if ((output >= 0 && dup2(output, STDOUT_FILENO) < 0) || freopen(log, "w", stderr) == NULL) {
            _exit(126);
        }
        execl(program_under_test(), "potash", "sheet", formula, "--record-in", diary, "--date", "2026-03-04", (char *)NULL);
        _exit(127);
    }
    int status;
    waitpid(child, &status, 0);
    assert_int_equal(status, 0);
    size_t length;
    char *said = file_bytes(log, &length);
    assert_non_null(strstr(said, strerror(reason)));
    assert_non_null(strstr(said, "but it is recorded in "));
    free(said);
}

static void a_batch_that_nobody_hears_of_is_recorded(void **state)
{
    (void)state;
    const char *formula = formula_file();
    const char *diary = scratch_path("diary.bath");
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    close(ends[0]);
    int full = open("/dev/full", O_WRONLY);
    assert_true(full >= 0);
    record_unheard(formula, diary, ends[1], EPIPE);
    record_unheard(formula, diary, full, ENOSPC);
    record_unheard(formula, diary, -1, EBADF);
    close(ends[1]);
    close(full);
    size_t length;
    char *bytes = file_bytes(diary, &length);
    assert_records(bytes, "read \"developer.bath\"\n\n" RECORD("a", "1 L", "10 g") "\n" RECORD("b", "1 L", "10 g") "\n" RECORD("c", "1 L", "10 g"));
    free(bytes);
    scratch_remove();
}

enum { WRITERS = 8, BATCHES = 25 };

static void write_batches(const char *formula, const char *diary)
{
    for (int i = 0; i < BATCHES; i++) {
        pid_t child = fork();
        if (child == 0) {
            if (freopen("/dev/null", "w", stdout) == NULL) {
                _exit(126);
            }
            execl(program_under_test(), "potash", "sheet", formula, "--record-in", diary, "--date", "2026-03-04", (char *)NULL);
            _exit(127);
        }
        int status;
        waitpid(child, &status, 0);
    }
    _exit(0);
}

/* Eight people write twenty-five batches each, somebody else adds lines without asking for the lock, and a third lays the file out
 * anew: every line is there afterwards, and every batch has a number of its own. */
static void many_hands(void **state)
{
    (void)state;
    const char *formula = formula_file();
    const char *diary = scratch_text("diary.bath", "read \"developer.bath\"\n");
    pid_t writers[WRITERS];
    for (int i = 0; i < WRITERS; i++) {
        writers[i] = fork();
        if (writers[i] == 0) {
            write_batches(formula, diary);
        }
    }
    for (int i = 0; i < 20; i++) {
        struct run tidy = run_potash("tidy", "--in-place", diary, NULL);
        assert_true(tidy.status == 0 || strstr(tidy.error, "changed it meanwhile") != NULL);
        run_free(&tidy);
    }
    for (int i = 0; i < WRITERS; i++) {
        int status;
        waitpid(writers[i], &status, 0);
        assert_int_equal(status, 0);
    }
    size_t length;
    char *bytes = file_bytes(diary, &length);
    assert_int_equal(times(bytes, "batch \"2026-03-04 "), WRITERS * BATCHES);
    assert_int_equal(times(bytes, "    took  sodium chloride 10 g\n"), WRITERS * BATCHES);
    for (int i = 0; i < WRITERS * BATCHES; i++) { /* a to z, aa, ab … */
        char id[32];
        snprintf(id, sizeof id, i < 26 ? "batch \"2026-03-04 %c\"" : "batch \"2026-03-04 %c%c\"", i < 26 ? 'a' + i : 'a' + i / 26 - 1, 'a' + i % 26);
        assert_int_equal(times(bytes, id), 1);
    }
    free(bytes);
    struct run check = run_potash("check", diary, "--strict", "--date", "2026-03-04", NULL);
    assert_status(&check, 0);
    run_free(&check);
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_batch_to_paste),
        cmocka_unit_test(a_new_diary_reads_its_formula),
        cmocka_unit_test(what_stands_there_stays),
        cmocka_unit_test(nothing_is_written_where_nothing_can_be),
        cmocka_unit_test(a_full_disk_leaves_the_diary_as_it_was),
        cmocka_unit_test(a_batch_that_nobody_hears_of_is_recorded),
        cmocka_unit_test(many_hands),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
