/* The git driver as docs/git-diff.md sets it up, in a repository of its own. */
#include "compare_help.h"

#include "support/program.h"

#include <limits.h>
#include <stdio.h>
#include <unistd.h>

static char folder[PATH_MAX];

/* git in the repository, without anybody's settings. */
static struct run git(const char *const *words)
{
    const char *arguments[24] = {"-C", folder, "-c", "user.name=Club", "-c", "user.email=club@example.org", "-c", "core.pager=cat"};
    size_t count = 8;
    while (*words != NULL && count < 23) {
        arguments[count++] = *words++;
    }
    arguments[count] = NULL;
    return run_program("git", arguments, NULL, 0);
}

#define GIT(...) git((const char *const[]){__VA_ARGS__, NULL})

static void must(struct run run)
{
    assert_status(&run, 0);
    run_free(&run);
}

static void put(const char *name, const char *text)
{
    scratch_text(name, text);
}

/* The command that the page shows between its quotes, so that the page is what is tested. */
static char *driver_of_page(void)
{
    size_t length;
    char *page = file_bytes("docs/git-diff.md", &length);
    assert_non_null(page);
    char *from = strstr(page, "'f() {");
    assert_non_null(from);
    char *upto = strstr(from + 1, "'\n");
    assert_non_null(upto);
    char *command = strndup(from + 1, (size_t)(upto - from - 1));
    free(page);
    return command;
}

static char *attributes_of_page(void)
{
    size_t length;
    char *page = file_bytes("docs/git-diff.md", &length);
    assert_non_null(page);
    assert_non_null(strstr(page, "*.bath diff=potash\n"));
    free(page);
    return strdup("*.bath diff=potash\n");
}

static const char first[] = "read \"house.bath\"\nformula \"Tray bath\"\nkind developer\nfor paper\nmetol 2 g\nclub sulfite 20 g\n"
                            "water to make 1 L\nuse for paper\ndilute 1+3\n";

static int set_up(void **state)
{
    (void)state;
    setenv("GIT_CONFIG_GLOBAL", "/dev/null", 1);
    setenv("GIT_CONFIG_NOSYSTEM", "1", 1);
    if (realpath(scratch_folder(), folder) == NULL) {
        return -1;
    }
    /* The driver calls `potash` by its name. */
    char program[PATH_MAX];
    assert_non_null(realpath(program_under_test(), program));
    char *slash = strrchr(program, '/');
    *slash = '\0';
    assert_string_equal(slash + 1, "potash");
    const char *path = getenv("PATH");
    char *longer = malloc(strlen(program) + strlen(path) + 2);
    assert_non_null(longer);
    sprintf(longer, "%s:%s", program, path);
    setenv("PATH", longer, 1);
    free(longer);

    must(GIT("init", "-q"));
    char *driver = driver_of_page();
    must(GIT("config", "diff.potash.command", driver));
    free(driver);
    char *attributes = attributes_of_page();
    put(".gitattributes", attributes);
    free(attributes);
    put("house.bath", "material club sulfite\n    form Na2SO3 cas 7757-83-7 source \"invented\"\n");
    put("tray.bath", first);
    must(GIT("add", "."));
    must(GIT("commit", "-q", "-m", "first"));
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

static int restore(void **state)
{
    (void)state;
    put("tray.bath", first);
    must(GIT("reset", "-q", "--hard"));
    must(GIT("clean", "-qfd"));
    return 0;
}

static void test_nothing_changed(void **state)
{
    (void)state;
    struct run run = GIT("diff", "--exit-code");
    assert_status(&run, 0);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
}

static void test_amount(void **state)
{
    (void)state;
    char *changed = with(first, "metol 2 g", "metol 3 g");
    put("tray.bath", changed);
    free(changed);
    struct run run = GIT("diff");
    assert_status(&run, 0);
    assert_prints(&run, "tray.bath, the first version");
    assert_prints(&run, "They differ in an amount.");
    assert_prints(&run, "+50 %, x 1.5");
    assert_null(strstr(run.output, "@@"));
    assert_int_equal(run.error_length, 0);
    run_free(&run);
    run = GIT("diff", "--exit-code");
    assert_status(&run, 1);
    assert_prints(&run, "They differ in an amount.");
    run_free(&run);
    run = GIT("diff", "--no-ext-diff");
    assert_prints(&run, "+metol 3 g");
    run_free(&run);
}

/* Retyped in grains (2 g is 30.86 grains): other lines, the same bath; `--exit-code` goes by the lines. */
static void test_retyped(void **state)
{
    (void)state;
    char *changed = with(first, "metol 2 g", "metol 30.86 grains  # the old scale");
    put("tray.bath", changed);
    free(changed);
    struct run run = GIT("diff");
    assert_status(&run, 0);
    assert_prints(&run, "The two are the same.");
    run_free(&run);
    run = GIT("diff", "--exit-code");
    assert_status(&run, 1);
    run_free(&run);
}

static void test_new_and_gone(void **state)
{
    (void)state;
    put("stop.bath", "formula \"Stop\"\nkind stop bath\ncitric acid (anhydrous) 10 g\nwater to make 1 L\n");
    must(GIT("add", "-N", "stop.bath"));
    must(GIT("rm", "-q", "tray.bath"));
    struct run run = GIT("diff", "HEAD");
    assert_status(&run, 0);
    assert_prints(&run, "Only B has this formula, a stop bath.");
    assert_prints(&run, "Only A has this formula, a developer.");
    run_free(&run);
}

/* One that has errors, and one without a formula: the lines are shown, and git goes on. */
static void test_falls_back(void **state)
{
    (void)state;
    char *changed = with(first, "metol 2 g", "metol 2 gr");
    put("tray.bath", changed);
    free(changed);
    put("house.bath", "material club sulfite\n    form Na2SO3 cas 7757-83-7 source \"another\"\n");
    struct run run = GIT("diff");
    assert_status(&run, 0);
    assert_says(&run, "[unit-ambiguous]");
    assert_prints(&run, "+++ b/tray.bath");
    assert_prints(&run, "+metol 2 gr");
    assert_prints(&run, "+++ b/house.bath");
    run_free(&run);
}

/* Between two commits neither version lies in the folder: what the formula reads is found all the same. */
static void test_commits(void **state)
{
    (void)state;
    char *changed = with(first, "dilute 1+3", "dilute 1+7");
    put("tray.bath", changed);
    free(changed);
    must(GIT("commit", "-q", "-a", "-m", "second"));
    struct run run = GIT("diff", "HEAD~1", "HEAD");
    assert_status(&run, 0);
    assert_prints(&run, "They differ in the dilution.");
    run_free(&run);
    run = GIT("log", "-p", "--ext-diff", "-1");
    assert_status(&run, 0);
    assert_prints(&run, "They differ in the dilution.");
    run_free(&run);
    must(GIT("reset", "-q", "--hard", "HEAD~1"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(test_nothing_changed, restore), cmocka_unit_test_setup(test_amount, restore),
        cmocka_unit_test_setup(test_retyped, restore),         cmocka_unit_test_setup(test_new_and_gone, restore),
        cmocka_unit_test_setup(test_falls_back, restore),      cmocka_unit_test_setup(test_commits, restore),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
