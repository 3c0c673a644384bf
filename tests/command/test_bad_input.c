/* Bad input of every sort: the exit statuses of the contract, a clear message, never a crash, a hang or half an output.
 */
#define _GNU_SOURCE

#include "support/program.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

enum { GOOD = 0, FAULTY = 1, UNUSABLE = 2 };

#define BATH "formula \"Saltmarsh bath\"\n    kind other\n    sodium chloride 5 g\n    water to make 1 L\n"

static int clean_up(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

/* What every run must keep to, whatever it was given. */
static void assert_orderly(const struct run *run)
{
    if (run->status != GOOD && run->status != FAULTY && run->status != UNUSABLE) {
        fail_msg("status %d after %.1f s: %.300s", run->status, run->seconds, run->error);
    }
    if (run->status != GOOD) {
        assert_true(run->error_length > 0); /* it says why */
    }
}

/* `check` and `sheet` of a file with these bytes; the status of check. */
static int status_of(const char *bytes, size_t length, const char *says)
{
    const char *path = scratch_file("input.bath", bytes, length);
    struct run run = run_potash("check", path, NULL);
    assert_orderly(&run);
    if (says != NULL) {
        assert_says(&run, says);
    }
    int status = run.status;
    run_free(&run);
    run = run_potash("sheet", path, NULL);
    assert_orderly(&run);
    if (status != GOOD) {
        assert_int_equal(run.status, status);
        assert_int_equal(run.output_length, 0); /* no half output */
    }
    run_free(&run);
    return status;
}

static int status_of_text(const char *text, const char *says)
{
    return status_of(text, strlen(text), says);
}

/* `count` times `piece` in memory that the caller frees. */
static char *repeated(const char *before, const char *piece, size_t count, const char *after, size_t *length)
{
    size_t size = strlen(piece);
    *length = strlen(before) + count * size + strlen(after);
    char *bytes = malloc(*length + 1);
    assert_non_null(bytes);
    char *end = stpcpy(bytes, before);
    for (size_t i = 0; i < count; i++) {
        memcpy(end, piece, size);
        end += size;
    }
    strcpy(end, after);
    return bytes;
}

static int status_of_repeated(const char *before, const char *piece, size_t count, const char *after)
{
    size_t length;
    char *bytes = repeated(before, piece, count, after, &length);
    int status = status_of(bytes, length, NULL);
    free(bytes);
    return status;
}

static void text_that_is_not_utf8(void **state)
{
    (void)state;
    assert_int_equal(status_of_text(BATH "    note \"20 \xB0"
                                         "C\"\n",
                                    "[text-encoding]"),
                     FAULTY);
    const char nul[] = BATH "note \"a\0b\"\n";
    assert_int_equal(status_of(nul, sizeof nul - 1, "NUL"), FAULTY);
    /* A whole page in another encoding: each line is told, by its place. */
    char latin[1000] = BATH;
    for (int i = 0; i < 40; i++) {
        strcat(latin, "# 20 \xB0" "C\n");
    }
    assert_int_equal(status_of_text(latin, "input.bath:44:6: error: byte 0xB0"), FAULTY);
    /* UTF-16 as an editor saves it, with its mark: every other byte is NUL. */
    char utf16[2 * sizeof BATH] = "\xFF\xFE";
    for (size_t i = 0; i < sizeof BATH - 1; i++) {
        utf16[2 + 2 * i] = BATH[i];
        utf16[3 + 2 * i] = '\0';
    }
    int status = status_of(utf16, 2 * sizeof BATH, NULL);
    assert_true(status == UNUSABLE || status == FAULTY);
}

static void a_binary_file(void **state)
{
    (void)state;
    unsigned char bytes[200000];
    unsigned value = 12345;
    for (size_t i = 0; i < sizeof bytes; i++) {
        value = value * 1103515245u + 12345u;
        bytes[i] = (unsigned char)(value >> 16);
    }
    assert_int_equal(status_of((const char *)bytes, sizeof bytes, "not a text file"), UNUSABLE);
    /* The program itself. */
    struct run run = run_potash("check", program_under_test(), NULL);
    assert_status(&run, UNUSABLE);
    assert_says(&run, "not a text file");
    run_free(&run);
}

static void unclosed_quotes(void **state)
{
    (void)state;
    assert_int_equal(status_of_text(BATH "note \"open", "not closed"), FAULTY);
    assert_int_equal(status_of_text("formula \"open", "not closed"), FAULTY);
    assert_int_equal(status_of_text("formula \"", NULL), FAULTY);
    assert_int_equal(status_of_text("\"", NULL), FAULTY);
    assert_int_equal(status_of_text("formula \u201Copen", "not closed"), FAULTY);
}

static void empty_files(void **state)
{
    (void)state;
    struct run run = run_potash("check", scratch_text("empty.bath", ""), NULL);
    assert_orderly(&run);
    assert_int_equal(run.status, GOOD);
    run_free(&run);
    run = run_potash("sheet", scratch_path("empty.bath"), NULL);
    assert_status(&run, UNUSABLE); /* there is nothing to make a sheet of */
    assert_says(&run, "no formula");
    run_free(&run);
    assert_int_equal(status_of_text("\n\n# nothing\n", NULL), GOOD);
}

static void much_of_everything(void **state)
{
    (void)state;
    enum { MANY = 1000000 };
    assert_int_equal(status_of_repeated(BATH, "(", MANY, "\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH "metol ", "(", MANY, " 3 g\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH "metol ", "()", MANY / 2, " 3 g\n"), FAULTY);
    assert_int_equal(status_of_repeated("material marsh salt\nform ", "(", MANY, "\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH, "\"\" ", MANY, "\n"), FAULTY);
    assert_int_equal(status_of_repeated("", "formula ", MANY, "\n"), FAULTY);
}

static void long_lines(void **state)
{
    (void)state;
    enum { FIVE_MB = 5 * 1000 * 1000 };
    assert_int_equal(status_of_repeated(BATH "note \"", "x", FIVE_MB, "\"\n"), GOOD);
    assert_int_equal(status_of_repeated(BATH "# ", "x", FIVE_MB, "\n"), GOOD);
    assert_int_equal(status_of_repeated(BATH, " ", FIVE_MB, "\n"), GOOD);
    assert_int_equal(status_of_repeated(BATH, "x", FIVE_MB, "\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH, "x", FIVE_MB, " 5 g\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH "metol ", "9", FIVE_MB, " g\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH "metol ", "0", FIVE_MB, "3 g\n"), GOOD);
    assert_int_equal(status_of_repeated(BATH "metol 3 ", "x", FIVE_MB, "\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH "metol 3 ", "x ", FIVE_MB / 2, "\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH, "metol ", FIVE_MB / 6, " 3 g\n"), FAULTY);
    assert_int_equal(status_of_repeated(BATH, "sulph", FIVE_MB / 5, " 3 g\n"), FAULTY);
}

/* A disk image, a picture: millions of bytes that are no text, and no end of line between them. */
static void a_long_line_that_is_no_text(void **state)
{
    (void)state;
    enum { FIVE_MB = 5 * 1000 * 1000 };
    static const char *const pieces[] = {"\0\0", "\xFF\xFF", "\0\xC3", "a\xE2"};
    char *bytes = malloc(FIVE_MB);
    assert_non_null(bytes);
    for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++) {
        for (size_t at = 0; at < FIVE_MB; at++) {
            bytes[at] = pieces[i][at % 2];
        }
        assert_int_equal(status_of(bytes, FIVE_MB, "1:"), FAULTY);
    }
    free(bytes);
}

/* Lists of every kind on one line, each as long as a line can be. */
static void long_lists(void **state)
{
    (void)state;
    enum { LONG = 300000 };
    assert_true(status_of_repeated(BATH "for film", ", film", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated(BATH "silence order", ", order", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated(BATH "metol 1 mg", " 1 mg", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated(BATH "use for film\ndilute 1+1", "+1", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated(BATH "use for film\nmix water 1", " + water 1", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated(BATH "metol 3 g", " note \"x\"", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated("material marsh salt\nrole a", ", a", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated("material marsh salt\nalso a", ", a", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated("material marsh salt\nform Na", "Na", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated("material marsh salt\nform a Na also a", ", a", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated("material marsh salt\nions Na+", ", Na+", LONG, "\n") <= FAULTY);
    assert_true(status_of_repeated("unit thimble is 1 mL", ", 1 mL", LONG, "\n") <= FAULTY);
}

static void many_lines(void **state)
{
    (void)state;
    enum { MANY = 100000 };
    assert_int_equal(status_of_repeated("", "garbage ) 5 ( \"%&$\n", MANY, ""), FAULTY);
    assert_int_equal(status_of_repeated(BATH, "garbage ) 5 ( %&$\n", MANY, ""), FAULTY);
    assert_int_equal(status_of_repeated(BATH, "\n", MANY, ""), GOOD);
    assert_int_equal(status_of_repeated(BATH, "note \"x\"\n", MANY / 5, ""), GOOD);
    assert_int_equal(status_of_repeated(BATH, "filter\n", MANY, ""), GOOD);
    assert_int_equal(status_of_repeated("", "formula \"same\"\n", MANY / 10, ""), FAULTY);
}

/* Many additions, parts and uses of one formula; each is looked for among those before it. */
static void many_statements_of_one_formula(void **state)
{
    (void)state;
    enum { MANY = 1000 };
    char *lines = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&lines, &size);
    assert_non_null(out);
    fputs("formula \"x\"\nkind other\n", out);
    for (int i = 0; i < MANY; i++) {
        fprintf(out, "part P%d\nsodium chloride 5 g\nwater to make 1 L\n", i);
    }
    for (int i = 0; i < MANY; i++) {
        fprintf(out, "use for \"u%d\"\nmix P%d 1 + water 1\nkeeps 1 day\nnote \"n\"\n", i, i);
    }
    fclose(out);
    assert_int_equal(status_of(lines, size, NULL), GOOD);
    free(lines);
    assert_int_equal(status_of_repeated(BATH, "sodium chloride 1 mg\n", MANY, ""), GOOD);
    assert_int_equal(status_of_repeated(BATH, "potasium bromyde 1 mg\n", MANY, ""), FAULTY);
}

static void a_large_file(void **state)
{
    (void)state;
    struct statvfs space;
    if (statvfs(scratch_folder(), &space) != 0 ||
        (unsigned long long)space.f_bavail * space.f_frsize < 1000ull * 1000 * 1000) {
        skip(); /* less than 1 GB free */
    }
    /* 100 MB of comments and of a note, so that it is the reading that is tried, and not the memory of the machine. */
    const char *path = scratch_path("large.bath");
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    fputs(BATH, file);
    for (int i = 0; i < 1000000; i++) {
        fputs("# ------------------------------------------------ a line of a hundred bytes ------------------------\n",
              file);
    }
    fputs("    note \"the end\"\n", file);
    assert_int_equal(fclose(file), 0);
    struct run run = run_potash("check", path, NULL);
    assert_status(&run, GOOD);
    run_free(&run);
    unlink(path);
}

static void paths_that_cannot_be_used(void **state)
{
    (void)state;
    struct run run = run_potash("check", scratch_path("missing.bath"), NULL);
    assert_status(&run, UNUSABLE);
    assert_says(&run, "missing.bath:1:1: error: there is no file");
    run_free(&run);
    const char *folder = scratch_path("folder");
    assert_int_equal(mkdir(folder, 0755), 0);
    run = run_potash("check", folder, NULL);
    assert_status(&run, UNUSABLE);
    assert_says(&run, "no .bath file");
    run_free(&run);
    scratch_text("folder/notes.txt", "no formula");
    run = run_potash("check", folder, NULL);
    assert_status(&run, UNUSABLE);
    run_free(&run);
    /* A folder below it is looked into, one that starts with a dot is not. */
    assert_int_equal(mkdir(scratch_path("folder/sub"), 0755), 0);
    assert_int_equal(mkdir(scratch_path("folder/.hidden"), 0755), 0);
    scratch_text("folder/.hidden/bad.bath", "garbage\n");
    scratch_text("folder/sub/good.bath", BATH);
    run = run_potash("check", folder, NULL);
    assert_status(&run, GOOD);
    assert_prints(&run, "1 formula: nothing to remark");
    run_free(&run);
    /* A link that leads nowhere, and one in a ring. */
    const char *link_path = scratch_path("ring.bath");
    assert_int_equal(symlink("ring.bath", link_path), 0);
    run = run_potash("check", link_path, NULL);
    assert_status(&run, UNUSABLE);
    run_free(&run);
    run = run_potash("check", "", NULL);
    assert_status(&run, UNUSABLE);
    run_free(&run);
    run = run_potash("check", "/dev/null", NULL);
    assert_status(&run, GOOD);
    run_free(&run);
}

static void a_file_that_may_not_be_read(void **state)
{
    (void)state;
    const char *path = scratch_text("closed.bath", BATH);
    assert_int_equal(chmod(path, 0), 0);
    if (access(path, R_OK) == 0) {
        skip(); /* the superuser reads everything */
    }
    struct run run = run_potash("check", path, NULL);
    assert_status(&run, UNUSABLE);
    assert_says(&run, "Permission denied");
    run_free(&run);
}

static void standard_input(void **state)
{
    (void)state;
    struct run run = run_potash_input(BATH, strlen(BATH), "check", "-", NULL);
    assert_status(&run, GOOD);
    run_free(&run);
    const char *wrong = "formula \"x\"\nkind other\nmetol 3 gramz\nwater to make 1 L\n";
    run = run_potash_input(wrong, strlen(wrong), "check", "-", NULL);
    assert_status(&run, FAULTY);
    assert_says(&run, "<standard input>:3:9: error:");
    run_free(&run);
    run = run_potash_input("", 0, "check", "-", NULL);
    assert_status(&run, GOOD);
    run_free(&run);
    size_t length;
    char *large = repeated(BATH, "# a comment\n", 200000, "", &length);
    run = run_potash_input(large, length, "check", "-", NULL);
    assert_status(&run, GOOD);
    run_free(&run);
    free(large);
}

static void output_that_cannot_be_written(void **state)
{
    (void)state;
    const char *path = scratch_text("good.bath", BATH);
    size_t before = scratch_count();
    struct run run = run_potash("sheet", path, "-o", scratch_path("no/such/folder/out.txt"), NULL);
    assert_status(&run, UNUSABLE);
    assert_says(&run, "No such file");
    run_free(&run);
    assert_int_equal(scratch_count(), before); /* nothing left behind */
    if (access("/dev/full", W_OK) == 0) {
        /* By way of a link, so that a program that replaces what it should write to does no harm to the machine. */
        const char *link_path = scratch_path("full");
        assert_int_equal(symlink("/dev/full", link_path), 0);
        run = run_potash("sheet", path, "-o", link_path, NULL);
        assert_status(&run, UNUSABLE);
        assert_says(&run, "No space left");
        run_free(&run);
        struct stat status;
        assert_true(stat(link_path, &status) == 0 && S_ISCHR(status.st_mode)); /* still the device */
    }
    /* A folder is no file. */
    const char *folder = scratch_path("taken");
    assert_int_equal(mkdir(folder, 0755), 0);
    before = scratch_count();
    run = run_potash("sheet", path, "-o", folder, NULL);
    assert_status(&run, UNUSABLE);
    run_free(&run);
    assert_int_equal(scratch_count(), before);
}

static void a_full_standard_output(void **state)
{
    (void)state;
    if (access("/dev/full", W_OK) != 0) {
        skip();
    }
    const char *path = scratch_text("good.bath", BATH);
    static const char *const verbs[] = {"sheet", "show", "check", "materials", "why"};
    for (size_t i = 0; i < sizeof verbs / sizeof *verbs; i++) {
        char command[1000];
        snprintf(command, sizeof command, "%s %s %s --as json >/dev/full", program_under_test(), verbs[i],
                 i < 3 ? path : "");
        const char *const arguments[] = {"-c", command, NULL};
        struct run run = run_program("sh", arguments, NULL, 0);
        assert_status(&run, UNUSABLE);
        assert_says(&run, "No space left");
        run_free(&run);
    }
}

static void faulty_formulas_write_nothing(void **state)
{
    (void)state;
    const char *path = scratch_text("bad.bath", BATH "garbage\n");
    const char *out = scratch_text("out.txt", "what was there before\n");
    size_t before = scratch_count();
    static const char *const formats[] = {"text", "json"};
    for (size_t i = 0; i < 2; i++) {
        struct run run = run_potash("sheet", path, "--as", formats[i], "-o", out, NULL);
        assert_status(&run, FAULTY);
        assert_int_equal(run.output_length, 0);
        run_free(&run);
    }
    char *bytes = file_bytes(out, NULL);
    assert_string_equal(bytes, "what was there before\n");
    free(bytes);
    assert_int_equal(scratch_count(), before);
}

static void calls_that_are_none(void **state)
{
    (void)state;
    const char *path = scratch_text("good.bath", BATH);
    static const struct {
        const char *words[6];
        const char *says;
    } cases[] = {
        {{NULL}, "VERB"},
        {{"check"}, "name a file"},
        {{"sheet"}, "name a file"},
        {{"chekc", "FILE"}, "chekc"},
        {{"check", "FILE", "--no-such-option"}, "--no-such-option"},
        {{"check", "FILE", "-x"}, "-x"},
        {{"check", "FILE", "--title"}, "--title"},
        {{"check", "FILE", "--as"}, "--as"},
        {{"check", "FILE", "--as", "smoke"}, "smoke"},
        {{"show", "FILE", "--as", "sarif"}, "html or pdf"},
        {{"sheet", "FILE", "--make"}, "--make"},
        {{"sheet", "FILE", "--make", "nonsense"}, "nonsense"},
        {{"sheet", "FILE", "--make", "-2 L"}, "--make"},
        {{"sheet", "FILE", "--make", "0 L"}, "--make"},
        {{"sheet", "FILE", "--title", "No such formula"}, "No such formula"},
        {{"sheet", "FILE", "--balance", "heavy"}, "--balance"},
        {{"sheet", "FILE", "--balance", "-1 g"}, "--balance"},
        {{"check", "FILE", "--silence", "no-such-id"}, "no-such-id"},
        {{"check", "FILE", "--silence", "syntax"}, "syntax"},
        {{"check", "FILE", "--library", "/no/such/folder"}, "/no/such/folder"},
        {{"why", "no-such-id"}, "no-such-id"},
        {{"materials", "dragon's blood"}, "dragon's blood"},
        {{"check", "FILE", "-o"}, "-o"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *words[7] = {0};
        for (size_t w = 0; w < 6 && cases[i].words[w] != NULL; w++) {
            words[w] = strcmp(cases[i].words[w], "FILE") == 0 ? path : cases[i].words[w];
        }
        struct run run = run_program(program_under_test(), words, NULL, 0);
        if (run.status != UNUSABLE || strstr(run.error, cases[i].says) == NULL || run.output_length > 0) {
            fail_msg("case %zu: status %d, %zu bytes of output, says: %s", i, run.status, run.output_length, run.error);
        }
        run_free(&run);
    }
}

/* Bytes of a message that came from the command line or the text do not reach the terminal raw. */
static void messages_hold_no_control_characters(void **state)
{
    (void)state;
    const char *text = "formula \"x\"\nkind other\nme\033[2Jtol 3 g\nwater to make 1 L\n";
    struct run run = run_potash_input(text, strlen(text), "check", "-", NULL);
    assert_int_equal(run.status, FAULTY);
    assert_null(strchr(run.error, '\033'));
    run_free(&run);
}

#define WITH_SCRATCH(test) cmocka_unit_test_teardown(test, clean_up)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_SCRATCH(text_that_is_not_utf8),
        WITH_SCRATCH(a_binary_file),
        WITH_SCRATCH(unclosed_quotes),
        WITH_SCRATCH(empty_files),
        WITH_SCRATCH(much_of_everything),
        WITH_SCRATCH(long_lines),
        WITH_SCRATCH(a_long_line_that_is_no_text),
        WITH_SCRATCH(long_lists),
        WITH_SCRATCH(many_lines),
        WITH_SCRATCH(many_statements_of_one_formula),
        WITH_SCRATCH(a_large_file),
        WITH_SCRATCH(paths_that_cannot_be_used),
        WITH_SCRATCH(a_file_that_may_not_be_read),
        WITH_SCRATCH(standard_input),
        WITH_SCRATCH(output_that_cannot_be_written),
        WITH_SCRATCH(a_full_standard_output),
        WITH_SCRATCH(faulty_formulas_write_nothing),
        WITH_SCRATCH(calls_that_are_none),
        WITH_SCRATCH(messages_hold_no_control_characters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
