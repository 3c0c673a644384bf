/* The manual page and the README leave out no verb and no option of `potash --help`. */
#define _GNU_SOURCE

#include "support/program.h"

#include <stdio.h>
#include <string.h>

enum { LONGEST_WORD = 40 };

/* The text as troff prints it: escaped hyphens and spaces that are not broken are plain again. */
static char *page_text(const char *path)
{
    size_t length = 0;
    char *page = file_bytes(path, &length);
    assert_non_null(page);
    char *to = page;
    for (const char *at = page; *at != '\0'; at++) {
        if (at[0] != '\\' || at[1] != '-') {
            *to++ = *at;
        }
    }
    *to = '\0';
    return page;
}

static bool is_word_end(char sign)
{
    return (sign < 'a' || sign > 'z') && sign != '-';
}

/* Whether the word stands in the text, with neither a letter nor a hyphen before and behind it. */
static bool stands_in(const char *text, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = text; (at = strstr(at, word)) != NULL; at++) {
        if ((at == text || is_word_end(at[-1])) && is_word_end(at[length])) {
            return true;
        }
    }
    return false;
}

static void assert_documented(const char *word)
{
    static const char *const pages[] = {"docs/potash.1", "README.md"};
    for (size_t i = 0; i < sizeof pages / sizeof *pages; i++) {
        char *text = page_text(pages[i]);
        if (!stands_in(text, word)) {
            fail_msg("%s says nothing of %s", pages[i], word);
        }
        free(text);
    }
}

/* Lines of the help that start with two blanks name a verb ("  check …") or an option ("  --make …"). */
static void every_verb_and_option_is_documented(void **state)
{
    (void)state;
    struct run help = run_potash("--help", NULL);
    assert_status(&help, 0);
    size_t verbs = 0;
    size_t options = 0;
    for (const char *line = help.output; line != NULL; line = strchr(line, '\n'), line += line != NULL) {
        char word[LONGEST_WORD];
        if (line[0] != ' ' || line[1] != ' ' || sscanf(line, "%39[a-z-]", word) == 1) {
            continue;
        }
        if (sscanf(line, " %39[a-z-]", word) != 1 || strlen(word) < 2) {
            continue;
        }
        verbs += word[0] != '-';
        options += word[0] == '-';
        assert_documented(word);
    }
    assert_true(verbs >= 8);
    assert_true(options >= 15);
    run_free(&help);
}

/* Every verb has its own entry in the manual page, below VERBS. */
static void every_verb_has_an_entry(void **state)
{
    (void)state;
    struct run help = run_potash("--help", NULL);
    char *page = page_text("docs/potash.1");
    const char *verbs = strstr(page, ".SH VERBS");
    const char *behind = strstr(page, ".SH OPTIONS");
    assert_true(verbs != NULL && behind > verbs);
    for (const char *line = help.output; line != NULL; line = strchr(line, '\n'), line += line != NULL) {
        char word[LONGEST_WORD];
        if (line[0] != ' ' || sscanf(line, " %39[a-z]", word) != 1) {
            continue;
        }
        char *found = NULL;
        static const char *const macros[] = {"B", "BR", "BI"};
        for (size_t i = 0; i < 3 && found == NULL; i++) {
            char entry[2 * LONGEST_WORD];
            snprintf(entry, sizeof entry, ".TP\n.%s %s", macros[i], word);
            found = strstr(verbs, entry);
        }
        if (found == NULL || found > behind) {
            fail_msg("docs/potash.1 has no entry for the verb %s", word);
        }
    }
    free(page);
    run_free(&help);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_verb_and_option_is_documented),
        cmocka_unit_test(every_verb_has_an_entry),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
