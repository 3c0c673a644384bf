/* Mistakes: one bad line gives one diagnostic, at its place, and the next line is read as usual. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

/* A line that is wrong, in the middle of a formula, is the only one remarked; line 3 of the text. */
static void one_bad_line_is_one_diagnostic(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "metol",                /* no amount */
        "metol 3",              /* no unit */
        "metol g",              /* no number */
        "metol (anhydrous 3 g", /* bracket not closed */
        "metol 3 g g",
        "metol 3 g 4",
        "metol 3 g extra words",
        "3 g",
        "note Rinse the tray", /* no quotes */
        "note",
        "note \"not closed",
        "kind",
        "for",
        "makes",
        "makes a lot",
        "keeps in bottle",
        "keeps 6 months in",
        "after 1911",
        "cool to",
        "cool to hand",
        "stand",
        "stand 12",
        "filter twice",
        "do stir",
        "pinch of",
        "solution A", /* a part's heading in old print */
        "solution",
        "part",
        "dilute",
        "mix",
        "mix A",
        "temperature",
        "temperature hot",
        "time long",
        "needs 10 mL",
        "capacity 12 rolls",
        "coefficient 1.9",
        "measures",
        "measures furlongs",
        "silence",
        "silence no-such-id",
        "silence syntax", /* an error cannot be silenced */
        "metol 3 g from stock",
        "metol 3 g from 1 %",
        "metol 3 g of stock",
        "metol as",
        "metol 3 g at",
        "metol 3 g note",
        "= = =",
        "@",
        "*****",
        "[section]",
        "{",
        "\"a text alone\"",
        "1+3",
        "-",
        "metol = 3 g",
        "metol = 3 g",
        "garbage ) ( \"open", /* what follows the first fault on a line is not looked at */
        "@@@ 1,5 g",
        "metol \"open",
        "metol 3 g \"open",
        "note \"closed\" \"open",
    };
    int faults = 0;
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        char text[500];
        snprintf(text, sizeof text,
                 "formula \"Saltmarsh bath\"\n"
                 "    kind other\n"
                 "    %s\n"
                 "    sodium chloride 5 g\n"
                 "    potassium bromide 5 gq\n"
                 "    water to make 1 L\n",
                 lines[i]);
        struct compiled compiled = compile(text);
        /* The slip on line 5 shows that reading went on. */
        bool good = compiled.status == POTASH_FAULTY && compiled_count(&compiled, NULL) == 2 &&
                    compiled_find(&compiled, "unit-unknown", 5) != NULL &&
                    json_number_of(json_array_get(compiled.diagnostics, 0), "line") == 3;
        if (!good) {
            struct potash_output output;
            potash_diagnostics(compiled.potash, POTASH_TEXT, false, &output);
            print_error("%s\n%.*s\n", lines[i], (int)output.length, output.bytes);
            faults++;
        }
        compiled_free(&compiled);
    }
    assert_int_equal(faults, 0);
}

/* Line ends of every kind count as such. */
static void lines_end_in_any_way(void **state)
{
    (void)state;
    expect_one("formula \"x\"\nkind other\nmetl 3 g\nwater to make 1 L\n", "material-unknown", 3, 1);
    expect_one("formula \"x\"\r\nkind other\r\nmetl 3 g\r\nwater to make 1 L\r\n", "material-unknown", 3, 1);
    expect_one("formula \"x\"\rkind other\rmetl 3 g\rwater to make 1 L\r", "material-unknown", 3, 1);
    expect_one("\xEF\xBB\xBF" "formula \"x\"\rkind other\rmetl 3 g\rwater to make 1 L", "material-unknown", 3, 1);
}

/* In every declaration a line that cannot be read is left out, and the lines and headings after it are read. */
static void every_declaration_recovers(void **state)
{
    (void)state;
    static const char *const headings[] = {
        "formula \"y\"\nkind other\nwater to make 1 L",
        "stock phenidone 1 %\nin isopropyl alcohol",
        "material marsh salt\nrole restrainer\nform NaCl",
        "unit jug is 300 mL",
        "element Xx is 100 also unobtainium",
        "phrase H999 \"May test the reader.\"",
        "variant \"z\"\nof \"x\"",
        "rule salt-first\nin buffer\nwhen sodium chloride comes after potassium bromide\nwarn \"w\"\nadvise "
        "\"a\"\nsource \"s\"",
        "shelf \"s\"\ncurrency GBP",
        "batch \"b\" of \"x\"\nmixed 2026-03-04",
        "process \"p\"\ntank 500 mL holds 2 rolls",
    };
    for (size_t i = 0; i < sizeof headings / sizeof *headings; i++) {
        char text[1000];
        snprintf(text, sizeof text,
                 "%s\n@@@ ( \"\nformula \"x\"\nkind other\npotassium bromide 5 gq\nwater to make 1 L\n", headings[i]);
        int line = 2;
        for (const char *at = headings[i]; (at = strchr(at, '\n')) != NULL; at++) {
            line++;
        }
        /* A shelf that lacks what a formula takes may say so as well; the two mistakes are what counts. */
        struct compiled compiled = compile(text);
        size_t errors = potash_errors(compiled.potash);
        if (errors != 2 || compiled_find(&compiled, "syntax", line) == NULL ||
            compiled_find(&compiled, "unit-unknown", line + 3) == NULL) {
            struct potash_output output;
            potash_diagnostics(compiled.potash, POTASH_TEXT, false, &output);
            fail_msg("%s\n%.*s", text, (int)output.length, output.bytes);
        }
        compiled_free(&compiled);
    }
}

static void all_mistakes_are_said_in_one_run(void **state)
{
    (void)state;
    expect_list("formula \"Saltmarsh bath\"\n"
                "    kind devloper\n"
                "    metol 1,5 g\n"
                "    sodium chloride 5 gr\n"
                "    potasium bromyde 5 g\n"
                "    sodium sulfite (decahydrate) 5 g\n"
                "    hydroquinone 5 mL\n"
                "    water to make 1 L\n"
                "    use for paper\n"
                "        dilute 1:3\n",
                "syntax:2 decimal-comma:3 unit-ambiguous:4 material-unknown:5 form-unknown:6 unit-mismatch:7 "
                "ratio-with-colon:10");
}

static void the_place_is_where_the_mistake_is(void **state)
{
    (void)state;
    expect_one("formula \"Saltmarsh bath\"\nkind other\n\tpotasium bromyde 5 g\nwater to make 1 L\n",
               "material-unknown", 3, 2);
    expect_one("formula \"Saltmarsh bath\"\r\nkind other\r\npotassium bromide 5 gramz\r\nwater to make 1 L\r\n",
               "unit-unknown", 3, 21);
    /* Columns count characters, not bytes; a byte order mark counts as none of the line's. */
    expect_one("\xEF\xBB\xBF"
               "metol 3 g\n",
               "syntax", 1, 1);
    expect_one("\xEF\xBB\xBF"
               "formula \"x\" y\nkind other\nwater to make 1 L\n",
               "syntax", 1, 13);
    expect_one("formula \"Saltmarsh bath\"\nkind other\nsodium sulphite (wasserfreié : é) 5 g\nwater to make 1 L\n",
               "syntax", 3, 0);
    expect_one("formula \"Saltmarsh bath\"\nkind other\nnote \"é½°\" x\nwater to make 1 L\n", "syntax", 3, 12);
}

static void a_line_that_stops_short_is_pointed_at_its_end(void **state)
{
    (void)state;
    expect_one("formula \"Saltmarsh bath\"\nkind other\n    metol\nwater to make 1 L\n", "syntax", 3, 10);
    expect_one("formula \"Saltmarsh bath\"\nkind other\nwater to make 1 L\nuse for film\ndilute", "syntax", 5, 7);
}

static void without_a_heading_it_is_said_once(void **state)
{
    (void)state;
    expect_one("metol 3 g\nsodium sulfite 30 g\nwater to make 1 L\n", "syntax", 1, 1);
    expect_list("metol 3 g\nformula \"Saltmarsh bath\"\nkind other\nwater to make 1 L\n", "syntax:1");
    expect_one("hello \"world\nthis is no \"formula\nx 1,5 \"x\n", "syntax", 1, 0);
    expect_one("hello world\nthis is no formula at all\n\n\nreally 5\n", "syntax", 1, 0);
}

static void a_broken_heading_still_heads(void **state)
{
    (void)state;
    expect_one("formula Saltmarsh bath\n    kind other\n    sodium chloride 5 g\n    water to make 1 L\n", "syntax", 1,
               0);
    expect_one("formula\n    kind other\n    sodium chloride 5 g\n    water to make 1 L\n", "syntax", 1, 0);
    expect_one("formula \"Saltmarsh bath\n    kind other\n    sodium chloride 5 g\n    water to make 1 L\n", "syntax",
               1, 9);
    expect_one("material\n    form anhydrous NaCl\nformula \"x\"\nkind other\nwater to make 1 L\n", "syntax", 1, 0);
    expect_one("stock\n    keeps 1 year\nformula \"x\"\nkind other\nwater to make 1 L\n", "syntax", 1, 0);
}

static void an_unclosed_quote_ends_with_its_line(void **state)
{
    (void)state;
    const char *text =
        "formula \"Saltmarsh bath\"\nkind other\nnote \"left open\nsodium chloride 5 g\nwater to make 1 L\n";
    expect_one(text, "syntax", 3, 6);
    struct compiled compiled = compile(text);
    const json_t *fix = json_array_get(json_object_get(compiled_find(&compiled, "syntax", 3), "fixes"), 0);
    assert_non_null(fix);
    assert_string_equal(json_text_of(fix, "text"), "\"");
    assert_int_equal(json_number_of(fix, "column"), 16);
    compiled_free(&compiled);
    expect_one("formula \"Saltmarsh bath\"\nkind other\nwater to make 1 L\nnote \"at the very end", "syntax", 4, 6);
}

static void unknown_files_do_not_pile_up_messages(void **state)
{
    (void)state;
    /* A line in a language of another kind is one diagnostic a line, however many signs it holds. */
    expect_list("formula \"Saltmarsh bath\"\nkind other\nint main(void) { return 0; } // (((\nwater to make 1 L\n",
                "syntax:3");
    expect_list("formula \"Saltmarsh bath\"\nkind other\n<html><body>&nbsp;</body></html>\nwater to make 1 L\n",
                "syntax:3");
}

static void text_that_is_not_utf8_is_said_once_a_line(void **state)
{
    (void)state;
    const char text[] = "formula \"Saltmarsh bath\"\nkind other\nnote \"20 \xB0"
                        "C and \xB0"
                        "F\"\nsodium chl\0ride 5 g\n"
                        "water to make 1 L\n";
    struct compiled compiled = compile_with(NULL, text, sizeof text - 1);
    assert_int_equal(compiled.status, POTASH_FAULTY);
    assert_int_equal(compiled_count(&compiled, NULL), 2);
    const json_t *first = compiled_find(&compiled, "text-encoding", 3);
    assert_non_null(first);
    assert_int_equal(json_number_of(first, "column"), 10);
    const json_t *second = compiled_find(&compiled, "text-encoding", 4);
    assert_non_null(second);
    assert_int_equal(json_number_of(second, "column"), 11);
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_bad_line_is_one_diagnostic),
        cmocka_unit_test(lines_end_in_any_way),
        cmocka_unit_test(every_declaration_recovers),
        cmocka_unit_test(all_mistakes_are_said_in_one_run),
        cmocka_unit_test(the_place_is_where_the_mistake_is),
        cmocka_unit_test(a_line_that_stops_short_is_pointed_at_its_end),
        cmocka_unit_test(without_a_heading_it_is_said_once),
        cmocka_unit_test(a_broken_heading_still_heads),
        cmocka_unit_test(an_unclosed_quote_ends_with_its_line),
        cmocka_unit_test(unknown_files_do_not_pile_up_messages),
        cmocka_unit_test(text_that_is_not_utf8_is_said_once_a_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
