/* What compilers take that the tests do not try: the text of the sources is looked through for what C17 leaves undefined, and for
 * what only one machine understands. */
#define _GNU_SOURCE

#include "support/program.h"

#include <regex.h>
#include <stdio.h>
#include <string.h>

static bool matches(const char *pattern, const char *line)
{
    regex_t compiled;
    assert_int_equal(regcomp(&compiled, pattern, REG_EXTENDED | REG_NOSUB), 0);
    bool found = regexec(&compiled, line, 0, NULL, 0) == 0;
    regfree(&compiled);
    return found;
}

/* Calls `look` with each line that the pattern matches in the files that the command `find` names; returns their number. */
static size_t each_match(const char *find, const char *pattern, void (*look)(const char *path, size_t number, const char *line))
{
    FILE *paths = popen(find, "r");
    regex_t compiled;
    assert_non_null(paths);
    assert_int_equal(regcomp(&compiled, pattern, REG_EXTENDED | REG_NOSUB), 0);
    char path[500];
    char *line = NULL;
    size_t size = 0;
    size_t files = 0;
    size_t found = 0;
    for (; fgets(path, sizeof path, paths) != NULL; files++) {
        path[strcspn(path, "\n")] = '\0';
        FILE *file = fopen(path, "r");
        assert_non_null(file);
        for (size_t number = 1; getline(&line, &size, file) > 0; number++) {
            line[strcspn(line, "\n")] = '\0';
            if (regexec(&compiled, line, 0, NULL, 0) == 0) {
                found++;
                look(path, number, line);
            }
        }
        fclose(file);
    }
    free(line);
    regfree(&compiled);
    assert_int_equal(pclose(paths), 0);
    assert_true(files > 100);
    return found;
}

/* C17 7.13.1.1: setjmp may be the whole condition of an if, or be compared there with a constant, and little else; as an operand of
 * || it may do anything.  SESSION_GUARD is such a comparison. */
static bool is_allowed(const char *line)
{
    return matches("^ *(} else )?if \\((setjmp\\([a-z_.>()-]+\\) [!=]= 0|SESSION_GUARD\\([a-z]+\\)|WORKSPACE_GUARD\\([a-z>-]+\\))\\) [{]$", line);
}

static void assert_allowed(const char *path, size_t number, const char *line)
{
    bool comment = matches("^ *(/[*]| [*])", line);
    bool definition = strcmp(line, "#define SESSION_GUARD(potash) (setjmp((potash)->failure) != 0)") == 0 ||
                      strcmp(line, "#define WORKSPACE_GUARD(workspace) (setjmp(workspace_begin(workspace)->failure) != 0)") == 0;
    if (!comment && !definition && !is_allowed(line)) {
        fail_msg("%s:%zu: setjmp is more than the condition of an if: %s", path, number, line);
    }
}

static void setjmp_stands_where_it_may(void **state)
{
    (void)state;
    assert_true(is_allowed("    if (setjmp(here) != 0) {"));
    assert_true(is_allowed("    if (SESSION_GUARD(potash)) {"));
    assert_false(is_allowed("    if (list == NULL || SESSION_GUARD(potash)) {"));
    assert_false(is_allowed("    return setjmp(here) == 0 ? 0 : -1;"));
    size_t found = each_match("find src grammar tests -name '*.[chy]' ! -path '*/node_modules/*' ! -path tests/portable/test_source_text.c",
                              "(setjmp|SESSION_GUARD|WORKSPACE_GUARD)\\(", assert_allowed);
    assert_true(found > 25); /* the search does find them */
}

static void fail_for_one_machine(const char *path, size_t number, const char *line)
{
    fail_msg("%s:%zu: only some machines understand: %s", path, number, line);
}

static void no_machine_is_meant(void **state)
{
    (void)state;
    /* An assembler's words, and what is known of one processor only. */
    each_match("find src grammar -name '*.[chy]' -o -name '*.re'",
               "__asm|[.]incbin|[.]quad|__x86_64__|__i386__|__amd64__|__LP64__", fail_for_one_machine);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(setjmp_stands_where_it_may),
        cmocka_unit_test(no_machine_is_meant),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
