/* Whole outputs, held against those that were read and approved.
 *
 * A case is a folder tests/golden/cases/NAME:
 *     call        the arguments, one a line
 *     *.bath      its files; `input` is given as standard input when it is there
 *     output      what must come on standard output (no file: nothing)
 *     error       what must come on standard error (no file: nothing)
 *     status      the exit status (no file: 0)
 * It runs in its own folder, so that outputs name the files alone.  With POTASH_ACCEPT=1 the expected files are written
 * anew: read the difference before you keep it.  POTASH_CASE=NAME runs one case only. */
#define _GNU_SOURCE

#include "support/program.h"

#include <errno.h>
#include <glob.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define CASES "tests/golden/cases"

static char program[PATH_MAX];
static char top[PATH_MAX];

static bool accepting(void)
{
    const char *accept = getenv("POTASH_ACCEPT");
    return accept != NULL && accept[0] == '1';
}

/* The version is the one thing in an output that may change without anybody looking. */
static void hide_version(char *text)
{
    static const char *const before[] = {"\"potash\": \"", "\"version\": \""};
    for (size_t i = 0; i < sizeof before / sizeof *before; i++) {
        for (char *at = text; (at = strstr(at, before[i])) != NULL;) {
            at += strlen(before[i]);
            if (strncmp(at, "2.1.0\"", 6) == 0) { /* SARIF's own */
                continue;
            }
            char *end = strchr(at, '"');
            if (end != NULL && end > at) {
                at[0] = '*';
                memmove(at + 1, end, strlen(end) + 1);
            }
        }
    }
}

/* ---- the difference, line by line ---- */

enum { MOST_LINES = 4000, MOST_SHOWN = 60 };

struct lines {
    const char *at[MOST_LINES];
    size_t length[MOST_LINES];
    size_t count;
};

static struct lines split(const char *text)
{
    struct lines lines = {.count = 0};
    while (*text != '\0' && lines.count < MOST_LINES) {
        size_t length = strcspn(text, "\n");
        lines.at[lines.count] = text;
        lines.length[lines.count++] = length;
        text += length + (text[length] == '\n');
    }
    return lines;
}

static bool same_line(const struct lines *a, size_t i, const struct lines *b, size_t j)
{
    return a->length[i] == b->length[j] && memcmp(a->at[i], b->at[j], a->length[i]) == 0;
}

/* Lines that were expected and did not come ("-"), and those that came instead ("+"), by looking ahead for the next
 * line that both have. */
static void print_difference(const char *wanted_text, const char *got_text)
{
    static struct lines wanted;
    static struct lines got;
    wanted = split(wanted_text);
    got = split(got_text);
    size_t i = 0;
    size_t j = 0;
    int shown = 0;
    while ((i < wanted.count || j < got.count) && shown < MOST_SHOWN) {
        if (i < wanted.count && j < got.count && same_line(&wanted, i, &got, j)) {
            i++;
            j++;
            continue;
        }
        size_t skip_wanted = wanted.count - i;
        size_t skip_got = got.count - j;
        for (size_t sum = 1; sum < 40; sum++) {
            for (size_t a = 0; a <= sum; a++) {
                if (i + a < wanted.count && j + sum - a < got.count && same_line(&wanted, i + a, &got, j + sum - a)) {
                    skip_wanted = a;
                    skip_got = sum - a;
                    sum = 40;
                    break;
                }
            }
        }
        for (; skip_wanted > 0 && shown < MOST_SHOWN; skip_wanted--, i++, shown++) {
            print_error("    line %zu - %.*s\n", i + 1, (int)wanted.length[i], wanted.at[i]);
        }
        for (; skip_got > 0 && shown < MOST_SHOWN; skip_got--, j++, shown++) {
            print_error("    line %zu + %.*s\n", j + 1, (int)got.length[j], got.at[j]);
        }
    }
    if (shown == MOST_SHOWN) {
        print_error("    …\n");
    }
}

/* ---- cases ---- */

static const char *in_case(const char *folder, const char *name)
{
    static char path[PATH_MAX];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

/* Holds what came against the file of that name; false when they differ. */
static bool compare(const char *folder, const char *name, char *got)
{
    hide_version(got);
    if (accepting()) {
        if (got[0] == '\0') {
            unlink(in_case(folder, name));
            return true;
        }
        FILE *file = fopen(in_case(folder, name), "wb");
        assert_non_null(file);
        fputs(got, file);
        assert_int_equal(fclose(file), 0);
        return true;
    }
    char *wanted = file_bytes(in_case(folder, name), NULL);
    bool same = strcmp(wanted == NULL ? "" : wanted, got) == 0;
    if (!same) {
        print_error("%s: %s differs (- expected, + came)\n", folder, name);
        print_difference(wanted == NULL ? "" : wanted, got);
    }
    free(wanted);
    return same;
}

static bool run_case(const char *folder)
{
    enum { MOST_WORDS = 20 };
    const char *words[MOST_WORDS + 1] = {NULL};
    char *call = file_bytes(in_case(folder, "call"), NULL);
    if (call == NULL) {
        fail_msg("%s has no file \"call\"", folder);
    }
    size_t count = 0;
    char *rest = call;
    for (char *word; (word = strsep(&rest, "\n")) != NULL;) {
        if (word[0] != '\0') {
            assert_true(count < MOST_WORDS);
            words[count++] = word;
        }
    }
    size_t input_length = 0;
    char *input = file_bytes(in_case(folder, "input"), &input_length);
    assert_int_equal(chdir(folder), 0);
    struct run run = run_program(program, words, input, input_length);
    assert_int_equal(chdir(top), 0);
    char status[20] = "";
    if (run.status != 0) {
        snprintf(status, sizeof status, "%d\n", run.status);
    }
    bool good = compare(folder, "output", run.output);
    good = compare(folder, "error", run.error) && good;
    good = compare(folder, "status", status) && good;
    run_free(&run);
    free(input);
    free(call);
    return good;
}

static void outputs_are_those_that_were_approved(void **state)
{
    (void)state;
    assert_non_null(getcwd(top, sizeof top));
    if (realpath(program_under_test(), program) == NULL) {
        fail_msg("%s: %s", program_under_test(), strerror(errno));
    }
    setenv("SOURCE_DATE_EPOCH", "1772582400", 1); /* 2026-03-04 */
    unsetenv("NO_COLOR");
    const char *only = getenv("POTASH_CASE");
    glob_t found;
    assert_int_equal(glob(CASES "/*", GLOB_ONLYDIR, NULL, &found), 0);
    size_t faulty = 0;
    size_t ran = 0;
    for (size_t i = 0; i < found.gl_pathc; i++) {
        if (only == NULL || strcmp(strrchr(found.gl_pathv[i], '/') + 1, only) == 0) {
            faulty += !run_case(found.gl_pathv[i]);
            ran++;
        }
    }
    globfree(&found);
    if (faulty > 0) {
        fail_msg("%zu of %zu cases differ", faulty, ran);
    }
    assert_true(only != NULL || ran >= 30);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(outputs_are_those_that_were_approved)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
