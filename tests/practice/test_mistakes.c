/* Slips of the pen: each is said once, on its own line, with the repair that undoes it. */
#define _GNU_SOURCE

#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

#define DEVELOPER                                                                                                      \
    "formula \"x\"\nkind developer\nwater 750 mL\nmetol 2 g\nsodium sulfite (anhydrous) 40 g\nhydroquinone 6 g\n"        \
    "sodium carbonate (anhydrous) 40 g\npotassium bromide 2 g\nwater to make 1 L\nuse for paper\ndilute 1+2\n"
#define FIXER                                                                                                          \
    "formula \"x\"\nkind fixer\nwater 600 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\n" \
    "water to make 1 L\n"
#define OLD                                                                                                            \
    "formula \"x\"\nkind toner\nmeasures imperial\nborax (decahydrate) 60 grains\ngold chloride (trihydrate) 4 grains\nwater to make 20 oz\n"
#define STOCKED                                                                                                        \
    "formula \"x\"\nkind developer\nwater 750 mL\nsodium sulfite (anhydrous) 60 g\nhydroquinone 5 g\n"                    \
    "borax (decahydrate) 5 g\nphenidone 20 mL of 1 % stock\nwater to make 1 L\n"

/* A piece of a right text replaced by a wrong one; the id that answers, its line, whether a repair gives the text back. */
static const struct {
    const char *right;
    const char *was;
    const char *is;
    const char *id;
    int line;
    bool repaired;
} slips[] = {
    /* the point */
    {DEVELOPER, "metol 2 g", "metol 20 g", "amount-unusual", 4, true},
    {DEVELOPER, "bromide 2 g", "bromide 0.02 g", "amount-unusual", 8, true},
    {FIXER, "250 g", "25 g", "amount-unusual", 4, true},
    {FIXER, "250 g", "2500 g", "stock-too-strong", 4, true},
    {FIXER, "15 g", "150 g", "amount-unusual", 5, true},
    /* units */
    {DEVELOPER, "40 g\npotassium", "40 mg\npotassium", "amount-unusual", 7, true},
    {DEVELOPER, "metol 2 g", "metol 2 mL", "unit-mismatch", 4, true},
    {DEVELOPER, "metol 2 g", "metol 2 gr", "unit-ambiguous", 4, true},
    {DEVELOPER, "750 mL", "750 L", "over-volume", 3, true},
    {DEVELOPER, "to make 1 L", "to make 1 mL", "over-volume", 9, true},
    {OLD, "60 grains", "60 g", "amount-unusual", 4, true},
    {OLD, "4 grains", "4 g", "amount-unusual", 5, true},
    {FIXER, "15 g", "15 fl oz", "unit-ambiguous", 5, false},
    /* stocks */
    {STOCKED, "1 % stock", "10 % stock", "stock-too-strong", 7, true},
    {STOCKED, "20 mL of", "200 mL of", "amount-unusual", 7, true},
    /* what all amounts hang on */
    {DEVELOPER, "1+2", "1+29", "amount-unusual", 11, true},
    {DEVELOPER, "1+2", "1+25", "amount-unusual", 11, true},
    {DEVELOPER, "1+2", "1+2\nuse for \"soft prints\"\ndilute 1+49", "amount-unusual", 13, false},
    {DEVELOPER, "1+2", "1:2", "ratio-with-colon", 11, true},
    {DEVELOPER, "to make 1 L", "to make 10 L", "amount-unusual", 9, true},
    {FIXER, "to make 1 L", "to make 2 L", "amount-unusual", 6, true},
    /* names */
    {DEVELOPER, "sodium sulfite", "sodium sulfate", "look-alike", 5, true},
    {DEVELOPER, "sodium sulfite", "sodium sulfide", "look-alike", 5, true},
    {DEVELOPER, "potassium bromide", "potassium bromate", "look-alike", 8, true},
    {FIXER, "sodium sulfite", "sodium sulfide", "look-alike", 5, true},
    {FIXER, "sodium thiosulfate", "sodium sulfite", "form-unknown", 4, true},
    /* lines */
    {FIXER, "sodium sulfite (anhydrous) 15 g\n", "sodium sulfite (anhydrous) 15 g\nsodium sulfite (anhydrous) 15 g\n", "added-twice", 6, true},
    {FIXER, "sodium thiosulfate (pentahydrate) 250 g\n", "", "role-missing", 2, false},
};

static char *replaced(const char *text, const char *was, const char *is)
{
    const char *at = strstr(text, was);
    char *result = NULL;
    assert_non_null(at);
    assert_true(asprintf(&result, "%.*s%s%s", (int)(at - text), text, is, at + strlen(was)) > 0);
    return result;
}

/* The text with a repair made; these texts are plain ASCII, so columns are bytes. */
static char *mended(const char *text, const json_t *fix)
{
    const char *line = text;
    for (int i = 1; i < (int)json_number_of(fix, "line"); i++) {
        line = strchr(line, '\n') + 1;
    }
    const char *begin = line + (int)json_number_of(fix, "column") - 1;
    const char *end = line + (int)json_number_of(fix, "end_column") - 1;
    char *result = NULL;
    assert_true(asprintf(&result, "%.*s%s%s", (int)(begin - text), text, json_text_of(fix, "text"), end) > 0);
    return result;
}

static bool same_but_blank_lines(const char *a, const char *b)
{
    while (*a != '\0' || *b != '\0') {
        if (a[0] == '\n' && a[1] == '\n') {
            a++;
        } else if (*a++ != *b++) {
            return false;
        }
    }
    return true;
}

static bool gives_back(const json_t *diagnostic, const char *wrong, const char *right)
{
    size_t i;
    json_t *fix;
    bool good = false;
    json_array_foreach(json_object_get(diagnostic, "fixes"), i, fix) {
        char *text = mended(wrong, fix);
        good = good || same_but_blank_lines(text, right);
        free(text);
    }
    return good;
}

static void each_slip_is_said_once_where_it_is(void **state)
{
    (void)state;
    int faults = 0;
    for (size_t i = 0; i < COUNT(slips); i++) {
        char *wrong = replaced(slips[i].right, slips[i].was, slips[i].is);
        struct compiled compiled = compile(wrong);
        const json_t *answer = compiled_find(&compiled, slips[i].id, slips[i].line);
        bool repaired = answer != NULL && gives_back(answer, wrong, slips[i].right);
        if (answer == NULL || compiled_count(&compiled, NULL) != 1 || repaired != slips[i].repaired) {
            print_error("\"%s\" for \"%s\": %s, %zu diagnostics, %s\n", slips[i].is, slips[i].was,
                        answer == NULL ? "not answered" : "answered", compiled_count(&compiled, NULL),
                        repaired ? "repaired" : "not repaired");
            size_t k;
            json_t *item;
            json_array_foreach(compiled.diagnostics, k, item) {
                print_error("  %d: %s [%s]\n", (int)json_number_of(item, "line"), json_text_of(item, "message"), json_text_of(item, "id"));
            }
            faults++;
        }
        compiled_free(&compiled);
        free(wrong);
    }
    assert_int_equal(faults, 0);
}

static void the_right_texts_are_clean(void **state)
{
    (void)state;
    expect_list(DEVELOPER, "");
    expect_list(FIXER, "");
    expect_list(OLD, "");
    expect_list(STOCKED, "");
}

static void a_small_batch_is_no_slip(void **state)
{
    (void)state;
    /* Half of the water to begin with is plenty; a concentrate needs no more. */
    expect_list("formula \"x\"\nkind fixer\nwater 500 mL\nsodium thiosulfate (pentahydrate) 250 g\nwater to make 1 L\n", "");
    /* An acid stock beside a neutral one says nothing of the bath before they are mixed. */
    expect_list("formula \"x\"\nkind developer\npart A\npyrogallol 100 g\nsodium metabisulfite 10 g\nwater to make 1 L\n"
                "part B\npotassium carbonate (anhydrous) 500 g\nwater to make 1 L\n", "");
}

static void what_is_unusual_is_not_too_small_as_well(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind developer\nmetol 0.02 g\nsodium sulfite (anhydrous) 40 g\nsodium carbonate (anhydrous) 30 g\n"
               "water to make 1 L\n", "amount-unusual", 3, 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_right_texts_are_clean),
        cmocka_unit_test(each_slip_is_said_once_where_it_is),
        cmocka_unit_test(a_small_batch_is_no_slip),
        cmocka_unit_test(what_is_unusual_is_not_too_small_as_well),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
