/* A session for diagnostics only says what any other says, and refuses everything else. */
#define _GNU_SOURCE

#include "support/compiling.h"

#include <glob.h>
#include <stdio.h>
#include <string.h>

/* What check says of a file as JSON, in memory of the caller's; NULL when the file cannot be used. */
static char *diagnostics_of(const char *path, bool only, size_t *formulas)
{
    const struct potash_options options = {.diagnostics_only = only};
    struct potash *potash = potash_open(&options);
    struct potash_output output;
    char *said = NULL;
    if (potash_read(potash, path) == POTASH_GOOD && potash_check(potash) != POTASH_UNUSABLE &&
        potash_diagnostics(potash, POTASH_JSON, false, &output) != POTASH_UNUSABLE) {
        said = strndup(output.bytes, output.length);
        *formulas = potash_formulas(potash);
    }
    potash_close(potash);
    return said;
}

static void the_same_is_said(void **state)
{
    (void)state;
    glob_t files;
    assert_int_equal(glob("samples/*.bath", 0, NULL, &files), 0);
    assert_int_equal(glob("tests/golden/cases/*/*.bath", GLOB_APPEND, NULL, &files), 0);
    size_t compared = 0;
    for (size_t i = 0; i < files.gl_pathc; i++) {
        size_t formulas[2] = {0, 0};
        char *all = diagnostics_of(files.gl_pathv[i], false, &formulas[0]);
        char *only = diagnostics_of(files.gl_pathv[i], true, &formulas[1]);
        if (all == NULL) {
            assert_null(only);
            continue;
        }
        assert_non_null(only);
        assert_string_equal(only, all);
        assert_int_equal(formulas[1], formulas[0]);
        compared++;
        free(all);
        free(only);
    }
    assert_true(compared > 60);
    globfree(&files);
}

/* A long file of formulas is parsed and checked a few at a time, until something in it is none: then all is read again as a whole. */
static void what_is_no_formula_among_many(void **state)
{
    (void)state;
    static const char *const odd[] = {
        "",
        "material kelp ash\n    role alkali\n    form Na2CO3\n",
        "materail kelp ash\n    role alkali\n    form Na2CO3\n",
        "unit scoop is about 6 g\n",
        "    read \"no-such-file.bath\"\n",
        "raed \"no-such-file.bath\"\n",
        "formula Saltmarsh without quotes\n    water 1 L\n",
        "formula \"Saltmarsh not closed\n    water 1 L\n",
        "formula\n    metol 2 g\n",
        "formula \"Saltmarsh bath 30\"\n    kind other\n    metol 2 g\n    water to make 1 L\n",
        "formula \"Saltmarsh drawn\"\n    kind other\n    solution \"Saltmarsh bath 7\" 10 mL\n    water to make 1 L\n",
        "formula \"Saltmarsh mixed\"\n    kind other\n    metol 2 g\n    water to make 1 L\n    use for film\n        mix \"Saltmarsh bath 7\" 1 + water 1\n",
        "variant \"Saltmarsh variant\"\n    of \"Saltmarsh bath 2\"\n    change metol to 3 g\n",
        "stock metol 1 %\n",
        "shelf\n    metol 100 g\n",
        "rule no-metol\n    for developer\n    when metol\n    warn \"the club has none left\"\n",
        "\xFF\xFE nothing\n",
        "note \"stands alone\"\n",
        "\"\n",
    };
    enum { FORMULAS = 240, PLACES = 3 };
    for (size_t i = 0; i < sizeof odd / sizeof *odd * PLACES; i++) {
        char *text;
        size_t length;
        FILE *out = open_memstream(&text, &length);
        for (size_t number = 0; number <= FORMULAS; number++) {
            if (number == i % PLACES * (FORMULAS / (PLACES - 1))) {
                fputs(odd[i / PLACES], out);
            }
            fprintf(out, "formula \"Saltmarsh bath %zu\"\n    kind developer\n    water 750 mL\n    metol 2 g\n    sodium sulfite 100 g\n"
                         "    %s\n    borax (decahydrate) %zu g\n    water to make 1 L\n\n",
                    number, number % 40 == 3 ? "kelp ash 2 scoops" : number % 40 == 5 ? "hydroquinone ;; 3" : "hydroquinone 5 g", 2 + number % 7);
        }
        fclose(out);
        const struct potash_options only = {.diagnostics_only = true};
        struct compiled whole = compile(text);
        struct compiled pieces = compile_with(&only, text, length);
        assert_int_equal(pieces.status, whole.status);
        assert_int_equal(potash_formulas(pieces.potash), potash_formulas(whole.potash));
        if (!json_equal(pieces.diagnostics, whole.diagnostics)) {
            fail_msg("other diagnostics in pieces, with: %s", odd[i / PLACES]);
        }
        assert_true(compiled_count(&whole, NULL) > FORMULAS);
        compiled_free(&whole);
        compiled_free(&pieces);
        free(text);
    }
}

static const char bath[] = "formula \"Saltmarsh fixer\"\n"
                           "    kind fixer\n"
                           "    water 700 mL at 50 °C\n"
                           "    sodium thiosulfate (pentahydrate) 250 g\n"
                           "    sodium sulfite 15 g\n"
                           "    water to make 1 L\n"
                           "    keeps 3 months in full bottle\n"
                           "formula \"Saltmarsh stop bath\"\n"
                           "    kind stop bath\n"
                           "    acetic acid (28 %) 48 mL\n"
                           "    water to make 1 L\n";

static void reports_are_refused(void **state)
{
    (void)state;
    const struct potash_options options = {.diagnostics_only = true};
    struct compiled compiled = compile_with(&options, bath, strlen(bath));
    struct potash_output output;
    bool held;
    assert_int_equal(potash_show(compiled.potash, POTASH_JSON, &output), POTASH_UNUSABLE);
    assert_string_equal(potash_message(compiled.potash), "this session was opened for diagnostics only");
    assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_UNUSABLE);
    assert_int_equal(potash_without(compiled.potash, POTASH_TEXT, &held, &output), POTASH_UNUSABLE);
    struct compiled other = compile(bath);
    bool same;
    assert_int_equal(potash_compare(other.potash, compiled.potash, POTASH_TEXT, &output, &same), POTASH_UNUSABLE);
    compiled_free(&other);
    compiled_free(&compiled);
}

static void memory_may_run_out(void **state)
{
    (void)state;
    size_t told = 0;
    for (long after = 1; after < 40; after++) {
        const struct potash_options options = {.diagnostics_only = true, .fail_after = after};
        struct potash *potash = potash_open(&options);
        assert_non_null(potash);
        if (potash_read_text(potash, "a.bath", bath, strlen(bath)) == POTASH_UNUSABLE || potash_check(potash) == POTASH_UNUSABLE) {
            assert_string_equal(potash_message(potash), "out of memory");
            told++;
        }
        potash_close(potash);
    }
    assert_true(told > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_is_said),
        cmocka_unit_test(what_is_no_formula_among_many),
        cmocka_unit_test(reports_are_refused),
        cmocka_unit_test(memory_may_run_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
