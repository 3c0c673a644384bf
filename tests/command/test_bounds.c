/* Bounds that the guide states (DEVELOPERS.md), tried just on each side: what is within goes through, what is beyond is an error at its
 * line, and neither takes long. */
#define _GNU_SOURCE

#include "support/program.h"

#include "potash.h"

#include <stdio.h>
#include <string.h>

enum { GOOD = 0, FAULTY = 1, UNUSABLE = 2 };

static char *text;
static size_t length;

static FILE *open_text(void)
{
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    return out;
}

/* Runs a verb on the text that was written; it has so many errors, and says this of the first. */
static void run_on_text(FILE *out, const char *verb, int status, const char *says)
{
    fclose(out);
    struct run run = run_potash_input(text, length, verb, "-", NULL);
    assert_status(&run, status);
    if (says != NULL) {
        assert_says(&run, says);
        const char *first = strstr(run.error, ": error: ");
        assert_non_null(first);
        assert_null(strstr(first + 1, ": error: ")); /* one mistake, one diagnostic */
    }
    run_free(&run);
    free(text);
}

static FILE *formula(const char *title, FILE *out)
{
    fprintf(out, "formula \"%s\"\n    kind other\n", title);
    return out;
}

static void parts_of_a_formula(void **state)
{
    (void)state;
    static const char *const verbs[] = {"check", "sheet", "show", "safety"};
    for (int parts = 1000; parts <= 1001; parts++) {
        for (size_t v = 0; v < sizeof verbs / sizeof *verbs; v++) {
            FILE *out = formula("Many", open_text());
            for (int i = 0; i < parts; i++) {
                fprintf(out, "part P%d\nsodium chloride 5 g\nwater to make 1 L\n", i);
            }
            run_on_text(out, verbs[v], parts == 1000 ? GOOD : FAULTY,
                        parts == 1000 ? NULL : "<standard input>:3003:1: error: a formula has no more than 1000 parts");
        }
    }
}

static void uses_of_a_formula(void **state)
{
    (void)state;
    for (int uses = 1000; uses <= 1001; uses++) {
        FILE *out = formula("Many", open_text());
        fputs("sodium chloride 5 g\nwater to make 1 L\n", out);
        for (int i = 0; i < uses; i++) {
            fprintf(out, "use for \"u%d\"\ndilute 1+1\n", i);
        }
        run_on_text(out, "check", uses == 1000 ? GOOD : FAULTY,
                    uses == 1000 ? NULL : "<standard input>:2005:1: error: a formula has no more than 1000 uses");
    }
}

static void baths_of_a_process(void **state)
{
    (void)state;
    for (int baths = 200; baths <= 201; baths++) {
        FILE *out = formula("Bath", open_text());
        fputs("sodium chloride 5 g\nwater to make 1 L\nprocess \"Long\"\ntank 500 mL\n", out);
        for (int i = 0; i < baths; i++) {
            fputs("bath \"Bath\" 1 min\n", out);
        }
        run_on_text(out, "process", baths == 200 ? GOOD : FAULTY,
                    baths == 200 ? NULL : "<standard input>:207:1: error: a process has no more than 200 baths");
    }
}

/* In either order of the declarations. */
static void variants_of_variants(void **state)
{
    (void)state;
    for (int backward = 0; backward < 2; backward++) {
        for (int variants = 64; variants <= 65; variants++) {
            FILE *out = open_text();
            if (!backward) {
                fputs("sodium chloride 5 g\nwater to make 1 L\n", formula("v0", out));
            }
            for (int i = 1; i <= variants; i++) {
                int number = backward ? variants + 1 - i : i;
                fprintf(out, "variant \"v%d\"\n    of \"v%d\"\n    change sodium chloride to %d g\n", number, number - 1, number + 5);
            }
            if (backward) {
                fputs("sodium chloride 5 g\nwater to make 1 L\n", formula("v0", out));
            }
            run_on_text(out, "check", variants == 64 ? GOOD : FAULTY, variants == 64 ? NULL : "followed 64 deep");
        }
    }
}

/* A name of a use that could not be read, and a process that asks for another. */
static void a_use_without_a_name(void **state)
{
    (void)state;
    const char *lines = "formula \"A\"\nkind developer\nsodium chloride 5 g\nwater to make 1 L\nuse for }\ndilute 1+1\n"
                        "process \"P\"\ntank 500 mL\nbath \"A\" for film 1 min\n";
    struct run run = run_potash_input(lines, strlen(lines), "check", "-", NULL);
    assert_status(&run, FAULTY);
    run_free(&run);
}

/* A session that may take so much memory says so when that is not enough. */
static void memory_has_a_ceiling(void **state)
{
    (void)state;
    const char *lines = "formula \"A\"\nkind other\nsodium chloride 5 g\nwater to make 1 L\n";
    for (int enough = 0; enough < 2; enough++) {
        struct potash_options options = {.memory = enough ? 100000000 : 100000};
        struct potash *potash = potash_open(&options);
        assert_non_null(potash);
        enum potash_status status = potash_read_text(potash, "a.bath", lines, strlen(lines));
        status = status == POTASH_GOOD ? potash_check(potash) : status;
        assert_int_equal(status, enough ? POTASH_GOOD : POTASH_UNUSABLE);
        assert_string_equal(potash_message(potash), enough ? "" : "this takes more than 0 MB of memory; read less at a time");
        potash_close(potash);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parts_of_a_formula),   cmocka_unit_test(uses_of_a_formula),    cmocka_unit_test(baths_of_a_process),
        cmocka_unit_test(variants_of_variants), cmocka_unit_test(a_use_without_a_name), cmocka_unit_test(memory_has_a_ceiling),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
