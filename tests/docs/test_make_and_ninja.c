/* The recipes of docs/make-and-ninja.md, taken from the page, on a formulary of three hundred: what is made anew is what has changed.
 * ninja and GNU make say themselves how much they did. */
#define _GNU_SOURCE

#include "support/program.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { FORMULAS = 300 };

/* The text of the block behind that heading of the page whose fence has that word; the caller frees it. */
static char *block(const char *heading, const char *fence)
{
    size_t length;
    char *page = file_bytes("docs/make-and-ninja.md", &length);
    assert_non_null(page);
    char *at = strstr(page, heading);
    assert_non_null(at);
    at = strstr(at, fence);
    assert_non_null(at);
    at = strchr(at, '\n') + 1;
    char *text = strndup(at, (size_t)(strstr(at, "\n```") + 1 - at));
    free(page);
    return text;
}

/* A command of the shell in the scratch folder, with the program under test as `potash`. */
static struct run run_there(const char *command)
{
    char *line = NULL;
    char *program = realpath(program_under_test(), NULL);
    assert_non_null(program);
    *strrchr(program, '/') = '\0';
    assert_true(asprintf(&line, "PATH=%s:$PATH; export PATH; cd %s; %s", program, scratch_folder(), command) > 0);
    free(program);
    const char *const words[] = {"-c", line, NULL};
    struct run run = run_program("sh", words, NULL, 0);
    free(line);
    return run;
}

static void write_file(const char *name, const char *text)
{
    char path[500];
    snprintf(path, sizeof path, "%s/%s", scratch_folder(), name);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0 && fclose(file) == 0);
}

static void write_stocks(void)
{
    write_file("formulas/stocks.bath", "stock phenidone 1 %\n    in isopropyl alcohol\n    keeps 12 months in dark bottle\n");
    write_file("formulas/more.bath", "read \"stocks.bath\"\n");
}

/* Every other formula draws on a stock of stocks.bath. */
static void write_formulary(void)
{
    struct run run = run_there("mkdir formulas sheets");
    assert_status(&run, 0);
    run_free(&run);
    for (int i = 0; i < FORMULAS; i++) {
        char name[40];
        char text[400];
        snprintf(name, sizeof name, "formulas/f%03d.bath", i);
        snprintf(text, sizeof text, "%sformula \"Brine %d\"\n    kind other\n    water 750 mL\n    sodium chloride %d g\n%s    water to make 1 L\n",
                 i % 2 == 0 ? "read \"more.bath\"\n" : "", i, i + 1, i % 2 == 0 ? "    phenidone 0.2 g from 1 % stock\n" : "");
        write_file(name, text);
    }
}

/* How many sheets are younger than the mark that was set before. */
static int made_anew(void)
{
    struct run run = run_there("find sheets -name '*.html' -newer mark | wc -l");
    int count = atoi(run.output);
    run_free(&run);
    return count;
}

static void expect(const char *change, const char *command, int wanted)
{
    char *line = NULL;
    assert_true(asprintf(&line, "touch mark; sleep 0.02; %s; %s", change, command) > 0);
    struct run run = run_there(line);
    assert_status(&run, 0);
    if (made_anew() != wanted) {
        fail_msg("%s: %d sheets were made anew, not %d\n%s%s", change, made_anew(), wanted, run.output, run.error);
    }
    run_free(&run);
    free(line);
}

static void changes(const char *command)
{
    expect(":", command, 0);
    expect("touch formulas/f001.bath", command, 1);
    expect("touch formulas/stocks.bath", command, FORMULAS / 2);
    expect("printf '\\n# more\\n' >> formulas/more.bath", command, FORMULAS / 2);
}

static void recipe_for_ninja(void **state)
{
    (void)state;
    write_formulary();
    char *rules = block("## ninja", "```ninja");
    char *list = block("## ninja", "```sh");
    scratch_text("rules.ninja", rules);
    scratch_text("list.sh", list);
    /* The files that are only read make no sheet: they are put there once the list is written. */
    char *before = strstr(list, "ninja\n");
    assert_non_null(before);
    struct run run = run_there("sed '$d' list.sh | sh");
    assert_status(&run, 0);
    run_free(&run);
    write_stocks();
    expect(":", "ninja", FORMULAS);
    changes("ninja");
    run = run_there("ninja");
    assert_prints(&run, "no work to do");
    run_free(&run);
    free(rules);
    free(list);
    scratch_remove();
}

static void recipe_for_make(void **state)
{
    (void)state;
    write_formulary();
    char *recipe = block("## make", "```make");
    write_file("Makefile", recipe);
    free(recipe);
    write_stocks();
    const char *command = "make -s -j2 $(cd formulas; ls f*.bath | sed 's,\\(.*\\).bath,sheets/\\1.html,')";
    expect(":", command, FORMULAS);
    changes(command);
    scratch_remove();
}

/* Names that mean something to make are escaped; what is read is in the rule whatever reads it. */
static void names_in_the_rule(void **state)
{
    (void)state;
    write_file("a b#c$d.bath", "formula \"Brine\"\n    kind other\n    sodium chloride 10 g\n    water to make 1 L\n");
    write_file("all.bath", "read \"a b#c$d.bath\"\n");
    struct run run = run_there("potash check all.bath --depends 'the book.pdf'");
    assert_status(&run, 0);
    assert_string_equal(run.output, "the\\ book.pdf: \\\n  all.bath \\\n  a\\ b\\#c$$d.bath\n");
    run_free(&run);
    run = run_there("printf 'out: a.in\\n\\ttouch out\\ninclude out.d\\n' > Makefile; touch a.in; potash check all.bath --depends out -o out.d; "
                    "make -s; sleep 0.02; make -q; touch a\\ b*; make -q");
    assert_status(&run, 1); /* -q: something is to be made */
    run_free(&run);
    run = run_there("potash check - --depends x < all.bath");
    assert_prints(&run, "x: \\\n  a\\ b\\#c$$d.bath\n");
    run_free(&run);
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(recipe_for_ninja), cmocka_unit_test(recipe_for_make), cmocka_unit_test(names_in_the_rule)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
