/* The language server before two real clients, Node's and Neovim's; the words and colours of the editor files. */
#include "support/program.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* What the script says is shown when it fails. */
static void assert_runs(const char *program, const char *const *arguments)
{
    struct run run = run_program(program, arguments, "", 0);
    if (run.status != 0) {
        fail_msg("%s: status %d\n%s%s", program, run.status, run.output, run.error);
    }
    run_free(&run);
}

static bool has(const char *program)
{
    const char *const arguments[] = {"--version", NULL};
    struct run run = run_program(program, arguments, "", 0);
    bool found = run.status == 0;
    run_free(&run);
    return found;
}

static bool has_packages(void)
{
    bool there = access("tests/editor/node_modules/vscode-languageserver-protocol", R_OK) == 0;
    if (!there) {
        puts("skipped: the Node client and the TextMate grammar; what they need from npm could not be fetched (make deps says why)");
    }
    return there;
}

static void node_client_is_served(void **state)
{
    (void)state;
    const char *const arguments[] = {"tests/editor/node_client.mjs", NULL};
    if (has_packages()) {
        assert_runs("node", arguments);
    }
}

static void textmate_grammar_sees_what_the_lexer_sees(void **state)
{
    (void)state;
    const char *const arguments[] = {"tests/editor/textmate.mjs", NULL};
    if (has_packages()) {
        assert_runs("node", arguments);
    }
}

static void neovim_is_served(void **state)
{
    (void)state;
    const char *const arguments[] = {"--headless", "--clean", "-u", "tests/editor/neovim_client.lua", NULL};
    if (!has("nvim")) {
        puts("skipped: Neovim is not installed");
    } else {
        assert_runs("nvim", arguments);
    }
}

static void editor_files_have_the_words_of_the_grammar(void **state)
{
    (void)state;
    const char *const accept = getenv("POTASH_ACCEPT");
    const char *const arguments[] = {"tests/editor/words.py", accept == NULL ? NULL : "--accept", NULL};
    assert_runs("python3", arguments);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(editor_files_have_the_words_of_the_grammar),
        cmocka_unit_test(textmate_grammar_sees_what_the_lexer_sees),
        cmocka_unit_test(node_client_is_served),
        cmocka_unit_test(neovim_is_served),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
