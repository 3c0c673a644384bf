/* Misspelt words of the notation: told with the word that was meant, and the line is read as if it stood there. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#include "syntax/keywords.h"

#include "syntax/tree.h"

/* The headings of the declarations that lines belong to. */
static const char *const headings[] = {
    [DECLARE_FORMULA] = "formula \"x\"\nkind other\n",
    [DECLARE_VARIANT] = "variant \"v\"\n",
    [DECLARE_STOCK] = "stock phenidone 1 %\n",
    [DECLARE_MATERIAL] = "material marsh soda\n",
    [DECLARE_RULE] = "rule hard-water\n",
    [DECLARE_REACTION] = "reaction marsh-acids-and-bleach\n",
    [DECLARE_GROUP] = "group marsh acids\n",
    [DECLARE_EQUILIBRIUM] = "equilibrium marsh acid\n",
    [DECLARE_KIND_OF_BATH] = "kind of bath marsh bath\n",
    [DECLARE_SHELF] = "shelf \"s\"\n",
    [DECLARE_BATCH] = "batch \"b\" of \"x\"\n",
    [DECLARE_PROCESS] = "process \"p\"\n",
};

/* Whether no line of the text is told to be out of shape; what it says may be wrong. */
static bool reads_well(const char *text)
{
    struct compiled compiled = compile(text);
    bool well = true;
    for (size_t i = 0; well && i < json_array_size(compiled.diagnostics); i++) {
        const char *message = json_text_of(json_array_get(compiled.diagnostics, i), "message");
        well = strstr(message, "expected ") != message && strstr(message, "not belong here") == NULL &&
               strstr(message, "no line here") == NULL && strstr(message, "ends too early") == NULL;
    }
    compiled_free(&compiled);
    return well;
}

/* The example that the help shows can be typed as it stands, under every heading that it is shown under. */
static void examples_can_be_typed(void **state)
{
    (void)state;
    size_t count;
    const struct keyword *keywords = syntax_keywords(&count);
    int faults = 0;
    for (size_t i = 0; i < count; i++) {
        for (size_t kind = 0; kind < sizeof headings / sizeof *headings; kind++) {
            if (headings[kind] == NULL || (keywords[i].belongs_to & (1u << kind)) == 0) {
                continue;
            }
            char text[300];
            snprintf(text, sizeof text, "%s%s\n", headings[kind], keywords[i].example);
            if (!reads_well(text)) {
                print_error("%s", text);
                faults++;
            }
        }
    }
    assert_int_equal(faults, 0);
}

/* One mistake, pointed at, with its repair; and nothing follows from it. */
static void expect_slip(const char *text, int line, const char *meant)
{
    struct compiled compiled = compile(text);
    const json_t *found = compiled_find(&compiled, "syntax", line);
    if (found == NULL || potash_errors(compiled.potash) != 1) {
        fail_msg("%zu errors in\n%s", potash_errors(compiled.potash), text);
    }
    char help[100];
    snprintf(help, sizeof help, "did you mean %s?", meant);
    assert_string_equal(json_text_of(found, "help"), help);
    const json_t *fix = json_array_get(json_object_get(found, "fixes"), 0);
    assert_string_equal(json_text_of(fix, "text"), meant);
    compiled_free(&compiled);
}

#define BATH "sodium chloride 5 g\nwater to make 1 L\n"

static void a_misspelt_keyword_is_told_and_read(void **state)
{
    (void)state;
    expect_slip("formula \"x\"\nknd other\n" BATH, 2, "kind");
    expect_slip("formula \"x\"\nkind other\nnte \"mind the tide\"\n" BATH, 3, "note");
    expect_slip("formula \"x\"\nkind other\ncool too 24 °C\n" BATH, 3, "cool to");
    expect_slip("formula \"x\"\nkind other\n" BATH "use fo paper\ndilute 1+3\n", 5, "use for");
    expect_slip("formula \"x\"\nkind other\n" BATH "use for paper\ndilut 1+3 # as ever\n", 6, "dilute");
    expect_slip("formula \"x\"\nkind other\n" BATH "use for paper\nneds 10 mL per roll\ntime 5 min\n", 6, "needs");
    expect_slip("formula \"x\"\nkind other\n" BATH "kepes 6 months in full bottle", 5, "keeps");
    expect_slip("formula \"x\"\nkind other\n" BATH "shelf \"s\"\ncurency GBP\n", 6, "currency");
    expect_slip("material marsh soda\nrole alkali\nform anhydrous Na2CO3 usual\ndisolves 21 g per 100 mL at 20 °C\n", 4, "dissolves");
}

/* What the line says counts, as the person meant it. */
static void the_line_says_what_was_meant(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula \"x\"\nkind other\nmaeks 2 L\n" BATH);
    assert_non_null(compiled_find(&compiled, "material-unknown", 3)); /* it has the shape of an addition */
    compiled_free(&compiled);
    /* the kind is a fixer's, and its rules ask for the fixing agent; the dilution is refused at its own place */
    expect_list("formula \"x\"\nkin fixer\n" BATH "use for film\ndiluted 1:9\n",
                "syntax:2 role-missing:2 amount-unusual:3 syntax:6 ratio-with-colon:6");
}

static void a_misspelt_heading_heads_its_lines(void **state)
{
    (void)state;
    expect_slip("forumla \"x\"\nkind other\n" BATH, 1, "formula");
    expect_slip("formula \"x\"\nkind other\n" BATH "formla \"y\"\nkind other\n" BATH, 5, "formula");
    expect_slip("formula \"x\"\nkind other\n" BATH "procss \"p\"\nwash 10 min\n", 5, "process");
    expect_slip("shelf \"s\"\ncurrency GBP\nformulla \"y\"\nkind other\n" BATH, 3, "formula");
}

/* Words that are right, or nothing like a keyword, are not explained away. */
static void other_lines_are_told_as_before(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\nnote Rinse it\n" BATH, "syntax", 3, 6);
    expect_one("formula \"x\"\nkind other\nzwieback\n" BATH, "syntax", 3, 9);
    struct compiled compiled = compile("formula \"x\"\nkind other\nagitate gently # now and then\n" BATH);
    const json_t *found = compiled_find(&compiled, "syntax", 3);
    assert_non_null(found);
    const json_t *fix = json_array_get(json_object_get(found, "fixes"), 0);
    assert_string_equal(json_text_of(fix, "text"), "\"gently\"");
    compiled_free(&compiled);
}

/* A heading that is not right to its end is a heading all the same, and its lines are read. */
static void a_broken_heading_is_told_as_such(void **state)
{
    (void)state;
    struct compiled compiled = compile("formula Tide pool\nkind other\n" BATH);
    const json_t *found = compiled_find(&compiled, "syntax", 1);
    assert_non_null(found);
    assert_int_equal(potash_errors(compiled.potash), 1);
    assert_string_equal(json_text_of(json_array_get(json_object_get(found, "fixes"), 0), "text"), "\"Tide pool\"");
    compiled_free(&compiled);
    compiled = compile("formula \"x\" metol 3 g\nkind other\n" BATH);
    found = compiled_find(&compiled, "syntax", 1);
    assert_non_null(found);
    assert_int_equal(potash_errors(compiled.potash), 1);
    assert_non_null(strstr(json_text_of(found, "message"), "expected the end of the line"));
    compiled_free(&compiled);
}

/* Every mistake in the shape of a line says how to mend it. */
static void every_syntax_error_has_help(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "metol", "metol g 5", "note", "kind", "makes a lot", "cool to hand", "dilute 1+x", "mix", "needs 10 mL", "capacity 12 rolls",
        "coefficient 1.9", "metol 3 g from stock", "metol as", "metol 3 g at", "= = =", "@", "*****", "{", "1+3", "measures furlongs",
        "silence no-such-id", "silence syntax", "metol 3 g from 0 % stock", "metol 3 g optonal", "metol 10 mL of 1 % stok",
        "keeps 0 days in tray", "metol 3 mol from 120 % w/w stock",
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        char text[200];
        snprintf(text, sizeof text, "formula \"x\"\nkind other\n%s\n" BATH, lines[i]);
        struct compiled compiled = compile(text);
        assert_true(json_array_size(compiled.diagnostics) > 0);
        const json_t *first = json_array_get(compiled.diagnostics, 0);
        if (!json_is_string(json_object_get(first, "help"))) {
            fail_msg("no help for: %s", lines[i]);
        }
        compiled_free(&compiled);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(examples_can_be_typed),
        cmocka_unit_test(a_misspelt_keyword_is_told_and_read),
        cmocka_unit_test(the_line_says_what_was_meant),
        cmocka_unit_test(a_misspelt_heading_heads_its_lines),
        cmocka_unit_test(other_lines_are_told_as_before),
        cmocka_unit_test(a_broken_heading_is_told_as_such),
        cmocka_unit_test(every_syntax_error_has_help),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
