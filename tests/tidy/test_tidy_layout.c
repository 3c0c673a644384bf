/* The layout that tidying gives: pairs of files written by hand after the notation's examples, and single rules. */
#include "tidy_help.h"

#include "support/program.h"

#include <stdio.h>

static void expect_pair(const char *name)
{
    char before_path[128];
    char after_path[128];
    snprintf(before_path, sizeof before_path, "tests/tidy/pairs/%s.before", name);
    snprintf(after_path, sizeof after_path, "tests/tidy/pairs/%s.after", name);
    size_t before_length;
    size_t after_length;
    char *before = file_bytes(before_path, &before_length);
    char *after = file_bytes(after_path, &after_length);
    assert_non_null(before);
    assert_non_null(after);
    expect_tidied(before, before_length, after);
    free(before);
    free(after);
}

static void test_printed_page(void **state)
{
    (void)state;
    expect_pair("printed-page");
}

static void test_declarations(void **state)
{
    (void)state;
    expect_pair("declarations");
}

static void test_parts_and_comments(void **state)
{
    (void)state;
    expect_pair("parts");
}

static void test_amounts(void **state)
{
    (void)state;
    expect_pair("amounts");
}

/* ---- line ends and marks ---- */

static void test_line_ends(void **state)
{
    (void)state;
    const char *after = "formula \"a\"\n    kind     fixer\n\n    hypo  250 g\n    water 1 L\n";
    expect_tidy("formula \"a\"\r\nkind fixer\r\nhypo 250 g\r\nwater 1 L\r\n", after);
    expect_tidy("\xEF\xBB\xBF"
                "formula \"a\"\nkind fixer\nhypo 250 g\nwater 1 L",
                after);
    expect_tidy("\xEF\xBB\xBF"
                "formula \"a\"\r\n\r\nkind fixer\r\n\r\nhypo 250 g\r\nwater 1 L\r\n\r\n\r\n",
                after);
    expect_tidy("formula \"a\"\rkind fixer\rhypo 250 g\rwater 1 L\r", after);
    expect_tidy("formula \"a\"  \t\n\t kind\u00A0fixer \n \t\nhypo\u00A0\u00A0250\u00A0g \u00A0\nwater\t1 L\t\n",
                after);
}

static void test_nothing(void **state)
{
    (void)state;
    expect_tidy("", "");
    expect_tidy("\n\n  \n\t\n", "");
    expect_tidy("\xEF\xBB\xBF", "");
    expect_tidy("# only this", "# only this\n");
    expect_tidy("   # only this   \r\n\r\n\r\n#   and  that\t\r\n", "# only this\n\n#   and  that\n");
}

/* ---- comments ---- */

static void test_comments_at_line_ends(void **state)
{
    (void)state;
    expect_tidy("formula \"a\"\n"
                "hypo 250 g # crystals\n"
                "water 1 L# from the tap\n"
                "\n"
                "water to make 1200 mL # in all\n",
                "formula \"a\"\n"
                "    hypo  250 g  # crystals\n"
                "    water 1 L    # from the tap\n"
                "\n"
                "    water to make 1200 mL  # in all\n");
}

static void test_hash_inside_text(void **state)
{
    (void)state;
    expect_tidy("formula \"No. #3\" # three\nnote \"a  #  b\"\n",
                "formula \"No. #3\"  # three\n    note     \"a  #  b\"\n");
}

static void test_comment_goes_with_what_follows(void **state)
{
    (void)state;
    expect_tidy("formula \"a\"\nkind fixer\n# the salt\nhypo 250 g\nwater 1 L\n# how\nuse for film\n# long\ntime 5 "
                "min\n# next\n"
                "formula \"b\"\nwater 1 L\n",
                "formula \"a\"\n    kind     fixer\n\n    # the salt\n    hypo  250 g\n    water 1 L\n\n    # how\n"
                "    use for film\n        # long\n        time  5 min\n\n# next\nformula \"b\"\n    water 1 L\n");
}

/* ---- texts in quotes ---- */

static void test_quotes(void **state)
{
    (void)state;
    expect_tidy("formula “a”\nnote “the so-called \"hypo\"”\nnote \"two  blanks, a dot ... and “these”\"\n",
                "formula \"a\"\n    note     “the so-called \"hypo\"”\n"
                "    note     \"two  blanks, a dot ... and “these”\"\n");
}

/* ---- names ---- */

static void test_names_stay_as_typed(void **state)
{
    (void)state;
    expect_tidy("formula \"a\"\nSODIUM   Sulphite ...... 30 Gms.\nPot. brom. .... 2 g\nacid. tart. . . . . 2 g\nWater "
                "500 c.c.\n",
                "formula \"a\"\n    SODIUM Sulphite 30 Gms.\n    Pot. brom.      2 g\n    acid. tart      2 g\n"
                "    Water           500 c.c.\n");
}

static void test_wide_characters(void **state)
{
    (void)state;
    /* "é" is one column and two bytes; the columns are reckoned as they are seen. */
    expect_tidy("formula \"a\"\nacide acétique 5 mL\nessigsäure 5 mL\nwater 1 L\n",
                "formula \"a\"\n    acide acétique 5 mL\n    essigsäure     5 mL\n    water          1 L\n");
}

static void test_long_name_keeps_to_itself(void **state)
{
    (void)state;
    expect_tidy("formula \"a\"\nthe crystals that stand by themselves beside the red door 5 g\nmetol 5 g\nwater 1 L\n",
                "formula \"a\"\n    the crystals that stand by themselves beside the red door 5 g\n    metol 5 g\n"
                "    water 1 L\n");
}

/* ---- empty lines ---- */

static void test_empty_lines(void **state)
{
    (void)state;
    expect_tidy(
        "\n\nread \"a.bath\"\nread \"b.bath\"\nformula \"a\"\n\n\nwater 1 L\n\n\n\nhypo 5 g\nuse for film\n\ntime 1 "
        "min\n"
        "use for paper\ntime 2 min\nstock phenidone 1 %\nkeeps 1 year\nstock metol 1 %\n",
        "read \"a.bath\"\nread \"b.bath\"\n\nformula \"a\"\n    water 1 L\n\n    hypo  5 g\n\n    use for film\n"
        "        time  1 min\n\n    use for paper\n        time  2 min\n\nstock phenidone 1 %\n    keeps 1 year\n\n"
        "stock metol 1 %\n");
}

/* ---- strange input ---- */

static void test_very_long_line(void **state)
{
    (void)state;
    enum { LONG = 300000 };
    char *before = malloc(2 * LONG + 200);
    char *after = malloc(2 * LONG + 200);
    assert_non_null(before);
    assert_non_null(after);
    char *text = malloc(LONG + 1);
    assert_non_null(text);
    memset(text, 'x', LONG);
    text[LONG] = '\0';
    char *blanks = malloc(LONG + 1);
    assert_non_null(blanks);
    memset(blanks, '.', LONG);
    blanks[LONG] = '\0';
    sprintf(before, "formula \"a\"\nnote \"%s\"\nwater%s 1 L # %s\n", text, blanks, "c");
    sprintf(after, "formula \"a\"\n    note     \"%s\"\n\n    water 1 L  # c\n", text);
    expect_tidy(before, after);
    free(before);
    free(after);
    free(text);
    free(blanks);
}

static void test_many_lines(void **state)
{
    (void)state;
    enum { LINES = 20000 };
    char *before = malloc(LINES * 40 + 100);
    char *after = malloc(LINES * 40 + 100);
    assert_non_null(before);
    assert_non_null(after);
    size_t a = (size_t)sprintf(before, "formula \"a\"\n");
    size_t b = (size_t)sprintf(after, "formula \"a\"\n");
    for (int i = 0; i < LINES; i++) {
        a += (size_t)sprintf(before + a, "water....1 mL\n%s", i % 3 == 0 ? "do \"stir\"\n" : "");
        b += (size_t)sprintf(after + b, "    water 1 mL\n%s", i % 3 == 0 ? "    do \"stir\"\n" : "");
    }
    expect_tidy(before, after);
    free(before);
    free(after);
}

/* ---- what is not tidied ---- */

static void test_faulty_text_is_refused(void **state)
{
    (void)state;
    static const char *const faulty[] = {
        "formula \"a\nwater 1 L\n",        "formula \"a\"\n25 metol\nwater 1 L\n", "metol 1 g\n",
        "formula \"a\"\nwater 1 L =\n",    "formula \"a\"\nkind\nwater 1 L\n",       "formula\n",
        "formula \"a\"\nwater \xFF 1 L\n", "# caf\xE9\nformula \"a\"\nwater 1 L\n",
    };
    for (size_t i = 0; i < sizeof faulty / sizeof *faulty; i++) {
        expect_refused(faulty[i], strlen(faulty[i]));
    }
    static const char nul[] = "formula \"a\"\nnote \"b\0c\"\nwater 1 L\n";
    expect_refused(nul, sizeof nul - 1);
}

/* Mistakes of another kind are no matter of layout, and stay what they are. */
static void test_other_mistakes_are_laid_out(void **state)
{
    (void)state;
    expect_tidy(
        "formula \"a\"\nunobtainium 0,25 g\nwater 1 fl  oz\nuse for film\ndilute 1:29\n",
        "formula \"a\"\n    unobtainium 0,25 g\n    water       1 fl oz\n\n    use for film\n        dilute  1:29\n");
}

static void test_no_file(void **state)
{
    (void)state;
    struct potash *potash = potash_open(NULL);
    assert_non_null(potash);
    bool tidy;
    struct potash_output output;
    assert_null(potash_file_name(potash, 0));
    assert_int_equal(potash_tidy(potash, 0, &tidy, &output), POTASH_UNUSABLE);
    assert_true(strlen(potash_message(potash)) > 0);
    potash_close(potash);
}

/* Wherever memory runs out, the call says so and gives nothing. */
static void test_out_of_memory(void **state)
{
    (void)state;
    const char *text = "formula \"a\"\nkind fixer\nhypo 250 g # c\nwater 1 L\n";
    enum potash_status status = POTASH_UNUSABLE;
    int failures = 0;
    for (long fail = 1; fail < 400 && status != POTASH_GOOD; fail++) {
        const struct potash_options options = {.fail_after = fail};
        struct potash *potash = potash_open(&options);
        bool tidy;
        struct potash_output output = {0};
        status = potash == NULL ? POTASH_UNUSABLE : potash_read_text(potash, "a.bath", text, strlen(text));
        if (status == POTASH_GOOD) {
            status = potash_tidy(potash, 0, &tidy, &output);
        }
        if (status != POTASH_GOOD) {
            assert_int_equal(status, POTASH_UNUSABLE);
            assert_null(output.bytes);
            failures++;
        }
        potash_close(potash);
    }
    assert_int_equal(status, POTASH_GOOD);
    assert_true(failures > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_printed_page),
        cmocka_unit_test(test_declarations),
        cmocka_unit_test(test_parts_and_comments),
        cmocka_unit_test(test_amounts),
        cmocka_unit_test(test_line_ends),
        cmocka_unit_test(test_nothing),
        cmocka_unit_test(test_comments_at_line_ends),
        cmocka_unit_test(test_hash_inside_text),
        cmocka_unit_test(test_comment_goes_with_what_follows),
        cmocka_unit_test(test_quotes),
        cmocka_unit_test(test_names_stay_as_typed),
        cmocka_unit_test(test_wide_characters),
        cmocka_unit_test(test_long_name_keeps_to_itself),
        cmocka_unit_test(test_empty_lines),
        cmocka_unit_test(test_very_long_line),
        cmocka_unit_test(test_many_lines),
        cmocka_unit_test(test_faulty_text_is_refused),
        cmocka_unit_test(test_other_mistakes_are_laid_out),
        cmocka_unit_test(test_no_file),
        cmocka_unit_test(test_out_of_memory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
