/* Every .bath file of the repository, tidied: the same twice, the same in meaning, nothing lost. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* nftw */
#endif

#include "tidy_help.h"

#include "support/program.h"

#include <ftw.h>
#include <jansson.h>
#include <stdio.h>

enum { MOST_FILES = 2000 };

static char *paths[MOST_FILES];
static size_t path_count;

static int take_path(const char *path, const struct stat *status, int kind, struct FTW *at)
{
    (void)status;
    const char *name = path + at->base;
    if (kind == FTW_D && at->level > 0 && (name[0] == '.' || strcmp(name, "build") == 0)) {
        return FTW_SKIP_SUBTREE;
    }
    size_t length = strlen(name);
    if (kind == FTW_F && length > 5 && strcmp(name + length - 5, ".bath") == 0 && path_count < MOST_FILES) {
        paths[path_count++] = strdup(path);
    }
    return FTW_CONTINUE;
}

static int find_files(void **state)
{
    (void)state;
    return nftw(".", take_path, 16, FTW_PHYS | FTW_ACTIONRETVAL);
}

static int forget_files(void **state)
{
    (void)state;
    while (path_count > 0) {
        free(paths[--path_count]);
    }
    return 0;
}

/* The tidied file, or NULL when it has errors of syntax, which `check` must then report too. */
static char *tidied(const char *path, const char *bytes, size_t length)
{
    enum potash_status status;
    bool tidy;
    char *text = tidy_bytes(bytes, length, &status, &tidy);
    if (status == POTASH_UNUSABLE) {
        fail_msg("%s could not be tidied", path);
    }
    return text;
}

/* What a text is made of: without blanks, dots and long dashes that lead to an amount, line ends and a mark at its start, in lower case, quotes straight. */
static char *essence(const char *text, size_t length)
{
    char *out = malloc(length + 1);
    assert_non_null(out);
    size_t kept = 0;
    for (size_t i = length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0; i < length; i++) {
        bool curly = i + 2 < length && (memcmp(text + i, "“", 3) == 0 || memcmp(text + i, "”", 3) == 0);
        bool ellipsis = i + 2 < length && memcmp(text + i, "…", 3) == 0;
        bool dash = i + 2 < length && memcmp(text + i, "—", 3) == 0;
        bool no_break = i + 1 < length && memcmp(text + i, "\u00A0", 2) == 0;
        if (curly) {
            out[kept++] = '"';
        }
        i += curly || ellipsis || dash ? 2 : no_break ? 1 : 0;
        if (!curly && !ellipsis && !dash && !no_break && strchr(" \t\r\n.", text[i]) == NULL) {
            out[kept++] = (char)(text[i] >= 'A' && text[i] <= 'Z' ? text[i] + ('a' - 'A') : text[i]);
        }
    }
    out[kept] = '\0';
    return out;
}

static void test_there_are_files(void **state)
{
    (void)state;
    assert_true(path_count > 50);
}

static void test_nothing_is_lost_and_twice_is_the_same(void **state)
{
    (void)state;
    for (size_t i = 0; i < path_count; i++) {
        size_t length;
        char *bytes = file_bytes(paths[i], &length);
        assert_non_null(bytes);
        char *once = tidied(paths[i], bytes, length);
        if (once != NULL) {
            char *before = essence(bytes, length);
            char *after = essence(once, strlen(once));
            /* Lines of print that wordings read come out in the words of the notation. */
            bool printed = strstr(paths[i], "/check-printed-") != NULL;
            if (strcmp(before, after) != 0 && !printed) {
                fail_msg("%s lost or gained something", paths[i]);
            }
            free(before);
            free(after);
            char *twice = tidied(paths[i], once, strlen(once));
            assert_non_null(twice);
            if (strcmp(once, twice) != 0) {
                fail_msg("%s is not the same when it is tidied again", paths[i]);
            }
            free(twice);
        }
        free(once);
        free(bytes);
    }
}

/* ---- meaning ---- */

static void forget_layout(json_t *json)
{
    static const char *const members[] = {"line",       "as_written", "column", "end_line",
                                          "end_column", "message",    "help",   "fixes"};
    const char *key;
    json_t *member;
    size_t index;
    if (json_is_string(json)) { /* names keep the gaps that were typed inside them */
        char *text = essence(json_string_value(json), strlen(json_string_value(json)));
        json_string_set(json, text);
        free(text);
    }
    for (size_t i = 0; json_is_object(json) && i < sizeof members / sizeof *members; i++) {
        json_object_del(json, members[i]);
    }
    json_object_foreach(json, key, member)
    {
        forget_layout(member);
    }
    json_array_foreach(json, index, member)
    {
        forget_layout(member);
    }
}

/* `show` and `check` of a text, for programs, without where things stand. */
static json_t *meaning(const char *name, const char *text)
{
    const struct potash_options options = {.allow_reads = true};
    struct potash *potash = potash_open(&options);
    assert_non_null(potash);
    json_t *both = json_array();
    struct potash_output output;
    if (potash_read_text(potash, name, text, strlen(text)) == POTASH_GOOD && potash_check(potash) != POTASH_UNUSABLE) {
        assert_int_equal(potash_diagnostics(potash, POTASH_JSON, false, &output), POTASH_GOOD);
        json_array_append_new(both, json_loadb(output.bytes, output.length, 0, NULL));
        if (potash_show(potash, POTASH_JSON, &output) == POTASH_GOOD) {
            json_array_append_new(both, json_loadb(output.bytes, output.length, 0, NULL));
        }
    }
    potash_close(potash);
    forget_layout(both);
    return both;
}

static void test_meaning_is_unchanged(void **state)
{
    (void)state;
    size_t shown = 0;
    for (size_t i = 0; i < path_count; i++) {
        size_t length;
        char *bytes = file_bytes(paths[i], &length);
        assert_non_null(bytes);
        char *text = strstr(paths[i], "/stdlib/") != NULL ? NULL : tidied(paths[i], bytes, length);
        if (text != NULL) {
            json_t *before = meaning(paths[i], bytes);
            json_t *after = meaning(paths[i], text);
            shown += json_array_size(before) == 2;
            if (!json_equal(before, after)) {
                fail_msg("%s means something else when it is tidied", paths[i]);
            }
            json_decref(before);
            json_decref(after);
        }
        free(text);
        free(bytes);
    }
    assert_true(shown > 40);
}

/* ---- spoilt layout comes back ---- */

/* The same text, badly laid out: no indentation or too much, gaps of three blanks, Windows line ends, a mark at its
 * start. */
static char *spoilt(const char *text)
{
    char *out = malloc(strlen(text) * 4 + 8);
    assert_non_null(out);
    size_t length = (size_t)sprintf(out, "\xEF\xBB\xBF");
    size_t line = 0;
    bool at_start = true;
    bool in_text = false;
    bool in_comment = false;
    bool in_curly = false; /* in which a straight quote may stand */
    for (const char *at = text; *at != '\0'; at++) {
        if (*at == '\n') {
            length += (size_t)sprintf(out + length, in_comment ? "\r\n" : " \t\r\n");
            at_start = true;
            in_text = in_comment = false;
            line++;
            continue;
        }
        in_comment = in_comment || (*at == '#' && !in_text);
        in_curly = strncmp(at, "“", 3) == 0 ? !in_comment : in_curly && strncmp(at, "”", 3) != 0;
        in_text = in_curly || (in_text && strncmp(at, "”", 3) != 0 ? *at != '"' : *at == '"' && !in_comment);
        if (at_start && *at == ' ') {
            continue;
        }
        if (at_start && line % 3 != 0) {
            length += (size_t)sprintf(out + length, line % 3 == 1 ? "\t\t" : "              ");
        }
        at_start = false;
        bool gap = *at == ' ' && !in_text && !in_comment;
        length += (size_t)sprintf(out + length, gap ? "   " : "%c", *at);
    }
    out[length] = '\0';
    return out;
}

static void test_spoilt_layout_is_mended(void **state)
{
    (void)state;
    for (size_t i = 0; i < path_count; i++) {
        size_t length;
        char *bytes = file_bytes(paths[i], &length);
        assert_non_null(bytes);
        char *text = tidied(paths[i], bytes, length);
        if (text != NULL) {
            char *bad = spoilt(text);
            char *mended = tidied(paths[i], bad, strlen(bad));
            if (mended == NULL || strcmp(mended, text) != 0) {
                fail_msg("%s does not come back from a bad layout", paths[i]);
            }
            free(mended);
            free(bad);
        }
        free(text);
        free(bytes);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_there_are_files),
        cmocka_unit_test(test_nothing_is_lost_and_twice_is_the_same),
        cmocka_unit_test(test_meaning_is_unchanged),
        cmocka_unit_test(test_spoilt_layout_is_mended),
    };
    return cmocka_run_group_tests(tests, find_files, forget_files);
}
