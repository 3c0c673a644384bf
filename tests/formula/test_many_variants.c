/* Each variant is checked as a formula of its own, so that a short file may hold many lines of them: the ceiling of memory bounds it. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

/* `count` variants of a formula with `count` lines. */
static char *variants(int count, size_t *length)
{
    char *text = NULL;
    FILE *out = open_memstream(&text, length);
    assert_non_null(out);
    fprintf(out, "formula \"base\"\n kind other\n");
    for (int i = 0; i < count; i++) {
        fprintf(out, " %s %d g\n", i % 2 == 0 ? "sodium chloride" : "potassium bromide", i % 50 + 1);
    }
    fprintf(out, " water to make 1 L\n");
    for (int i = 0; i < count; i++) {
        fprintf(out, "variant \"v%d\"\n of \"base\"\n add borax (decahydrate) %d g\n", i, i + 1);
    }
    fclose(out);
    return text;
}

static void memory_bounds_variants(void **state)
{
    (void)state;
    static const struct {
        int count;
        bool good;
    } cases[] = {{100, true}, {1000, false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        size_t length;
        char *text = variants(cases[i].count, &length);
        const struct potash_options options = {.memory = 50000000, .diagnostics_only = true};
        struct potash *potash = potash_open(&options);
        assert_non_null(potash);
        assert_int_equal(potash_read_text(potash, "many.bath", text, length), POTASH_GOOD);
        assert_int_equal(potash_check(potash) != POTASH_UNUSABLE, cases[i].good);
        assert_int_equal(strstr(potash_message(potash), "this takes more than 50 MB of memory") == NULL, cases[i].good);
        potash_close(potash);
        free(text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(memory_bounds_variants)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
