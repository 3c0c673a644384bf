/* Diagnostics: order, the caret under the place, JSON and SARIF. */
#include "support/arena_help.h"

#include "source/diagnostics.h"

#include <jansson.h>

struct said {
    struct source_set sources;
    struct diagnostics diagnostics;
    struct source_file *file;
};

static void start(struct said *said, const char *text)
{
    size_t length = strlen(text);
    source_start(&said->sources, &arena);
    said->file = source_add(&said->sources, "test.bath", arena_copy(&arena, text, length), length, false);
    diagnostics_start(&said->diagnostics, &arena, &said->sources);
}

static struct span at(const struct said *said, const char *piece)
{
    const char *found = strstr(said->file->bytes, piece);
    assert_non_null(found);
    uint32_t begin = said->file->base + (uint32_t)(found - said->file->bytes);
    return (struct span){begin, begin + (uint32_t)strlen(piece)};
}

static const char *printed_most(struct said *said, bool colour, size_t most)
{
    struct outlet out = {.take = NULL};
    buffer_start(&out.text, &arena);
    diagnostics_finish(&said->diagnostics);
    diagnostics_print(&said->diagnostics, &out, colour, most);
    return buffer_finish(&out.text);
}

static const char *printed(struct said *said, bool colour)
{
    return printed_most(said, colour, 0);
}

static const char *message(const struct said *said, size_t index)
{
    return diagnostic_message(&arena, said->diagnostics.items[index]);
}

static void they_stand_in_line_order(void **state)
{
    (void)state;
    struct said said;
    start(&said, "a\nb\nc\nd\n");
    static const char *const order[] = {"d", "b", "c", "b", "a"};
    for (size_t i = 0; i < 5; i++) {
        diagnostics_add(&said.diagnostics, i % 2 == 0 ? DIAG_SYNTAX : DIAG_RANGE_GIVEN, at(&said, order[i]), "%zu", i);
    }
    diagnostics_finish(&said.diagnostics);
    static const char *const wanted[] = {"4", "1", "3", "2", "0"}; /* those of one place as they were said */
    for (size_t i = 0; i < 5; i++) {
        assert_string_equal(message(&said, i), wanted[i]);
    }
    assert_int_equal(said.diagnostics.errors, 3);
    assert_int_equal(said.diagnostics.warnings, 2);
}

static void many_are_kept(void **state)
{
    (void)state;
    struct said said;
    start(&said, "x");
    for (int i = 0; i < 10000; i++) {
        diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "x"), "%d", i);
    }
    diagnostics_finish(&said.diagnostics);
    assert_int_equal(said.diagnostics.count, 10000);
    assert_string_equal(message(&said, 9999), "9999");
}

static void the_caret_stands_under_the_place(void **state)
{
    (void)state;
    struct said said;
    start(&said, "formula \"x\"\n    metol 3 gramz\n");
    struct diagnostic *diagnostic =
        diagnostics_add(&said.diagnostics, DIAG_UNIT_UNKNOWN, at(&said, "gramz"), "what is a gramz");
    diagnostics_help(&said.diagnostics, diagnostic, "write g");
    assert_string_equal(printed(&said, false), "test.bath:2:13: error: what is a gramz [unit-unknown]\n"
                                               "    2 |     metol 3 gramz\n"
                                               "      |             ^~~~~\n"
                                               "      = help: write g\n");
}

static void the_caret_counts_columns_of_the_terminal(void **state)
{
    (void)state;
    struct said said;
    /* A wide character takes two columns, a tab is shown as one blank, a two-byte one takes one. */
    start(&said, "\t\u6C34 \u00BD here\n");
    diagnostics_add(&said.diagnostics, DIAG_RANGE_GIVEN, at(&said, "here"), "m");
    assert_string_equal(printed(&said, false), "test.bath:1:6: warning: m [range-given]\n"
                                               "    1 |  \u6C34 \u00BD here\n"
                                               "      |       ^~~~\n");
}

static void an_empty_span_has_a_caret(void **state)
{
    (void)state;
    struct said said;
    start(&said, "metol");
    struct span end = at(&said, "metol");
    end.begin = end.end;
    diagnostics_add(&said.diagnostics, DIAG_SYNTAX, end, "m");
    assert_string_equal(printed(&said, false), "test.bath:1:6: error: m [syntax]\n"
                                               "    1 | metol\n"
                                               "      |      ^\n");
}

static void a_span_over_several_lines_stays_on_its_first(void **state)
{
    (void)state;
    struct said said;
    start(&said, "one\ntwo\n");
    diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "ne\ntw"), "m");
    assert_string_equal(printed(&said, false), "test.bath:1:2: error: m [syntax]\n"
                                               "    1 | one\n"
                                               "      |  ^~\n");
}

static void a_long_line_is_shown_around_the_place(void **state)
{
    (void)state;
    struct said said;
    struct buffer text;
    buffer_start(&text, &arena);
    for (int i = 0; i < 200; i++) {
        buffer_string(&text, "\u00B0");
    }
    buffer_string(&text, "HERE");
    buffer_repeat(&text, '.', 100000);
    start(&said, buffer_finish(&text));
    diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "HERE"), "m");
    const char *out = printed(&said, false);
    assert_true(strlen(out) < 1000);
    /* Cut between characters, never inside one; the caret under the word. */
    const char *line = strchr(out, '\n') + 1;
    const char *caret_line = strchr(line, '\n') + 1;
    const char *word = strstr(line, "HERE");
    assert_non_null(word);
    assert_non_null(strstr(line, "\u2026\u00B0"));
    size_t columns = 0;
    for (const char *c = line; c < word; c++) {
        columns += ((unsigned char)*c & 0xC0) != 0x80;
    }
    assert_int_equal(strchr(caret_line, '^') - caret_line, columns);
}

static void control_characters_do_not_reach_the_terminal(void **state)
{
    (void)state;
    struct said said;
    start(&said, "a\033[2Jb\n");
    diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "b"), "found \033]0;x\007");
    const char *out = printed(&said, false);
    assert_null(strchr(out, '\033'));
    assert_null(strchr(out, '\007'));
}

static void colour_only_when_asked(void **state)
{
    (void)state;
    struct said said;
    start(&said, "metol\n");
    diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "metol"), "m");
    assert_null(strchr(printed(&said, false), '\033'));
    assert_non_null(strstr(printed(&said, true), "\033[1;31merror"));
}

static void fixes_and_other_places_are_listed(void **state)
{
    (void)state;
    struct said said;
    start(&said, "one\ntwo\n");
    struct diagnostic *diagnostic = diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "two"), "m");
    diagnostics_relate(&said.diagnostics, diagnostic, at(&said, "one"), "the first is here");
    diagnostics_fix(&said.diagnostics, diagnostic, at(&said, "two"), "2", "as a figure");
    diagnostics_fix(&said.diagnostics, diagnostic, at(&said, "two"), "II", "as a numeral");
    assert_string_equal(printed(&said, false), "test.bath:2:1: error: m [syntax]\n"
                                               "    2 | two\n"
                                               "      | ^~~\n"
                                               "      = test.bath:1:1: the first is here\n"
                                               "      = help: as a figure\n"
                                               "      = help: as a numeral\n");
}

static void silenced_warnings_are_not_said_but_errors_are(void **state)
{
    (void)state;
    struct said said;
    start(&said, "x");
    said.diagnostics.silenced[DIAG_RANGE_GIVEN] = true;
    said.diagnostics.silenced[DIAG_SYNTAX] = true;
    assert_null(diagnostics_add(&said.diagnostics, DIAG_RANGE_GIVEN, at(&said, "x"), "m"));
    diagnostics_help(&said.diagnostics, NULL, "no harm"); /* what is silenced takes no help */
    diagnostics_fix(&said.diagnostics, NULL, at(&said, "x"), "", "no harm");
    diagnostics_relate(&said.diagnostics, NULL, at(&said, "x"), "no harm");
    assert_non_null(diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "x"), "m"));
    assert_int_equal(said.diagnostics.count, 1);
}

static void json_holds_the_members_of_the_contract(void **state)
{
    (void)state;
    struct said said;
    start(&said, "\u00BD x\ntwo\n");
    struct diagnostic *diagnostic = diagnostics_add(&said.diagnostics, DIAG_SYNTAX, at(&said, "x"), "say \"%s\"", "it");
    diagnostics_fix(&said.diagnostics, diagnostic, at(&said, "x"), "y", "make it y");
    diagnostics_finish(&said.diagnostics);
    struct outlet out = {.take = NULL};
    buffer_start(&out.text, &arena);
    diagnostics_json(&said.diagnostics, &out);
    json_t *root = json_loadb(out.text.bytes, out.text.length, 0, NULL);
    assert_non_null(root);
    char *text = json_dumps(root, JSON_COMPACT | JSON_SORT_KEYS | JSON_ENSURE_ASCII);
    assert_string_equal(
        text, "{\"diagnostics\":[{\"column\":3,\"end_column\":4,\"end_line\":1,\"file\":\"test.bath\","
              "\"fixes\":[{\"column\":3,\"end_column\":4,\"line\":1,\"text\":\"y\",\"title\":\"make it y\"}],"
              "\"help\":\"make it y\",\"id\":\"syntax\",\"line\":1,\"message\":\"say \\\"it\\\"\",\"severity\":\"error\"}],"
              "\"errors\":1,\"warnings\":0}");
    free(text);
    json_decref(root);
}

/* OASIS SARIF 2.1.0: version, runs, tool.driver.name (3.13, 3.14, 3.18, 3.19); result.ruleIndex points into rules
 * (3.27.6); lines and columns from 1 (3.30). */
static void sarif_holds_what_the_standard_wants(void **state)
{
    (void)state;
    struct said said;
    start(&said, "x\ntwo\n");
    struct diagnostic *diagnostic = diagnostics_add(&said.diagnostics, DIAG_RANGE_GIVEN, at(&said, "two"), "m");
    diagnostics_fix(&said.diagnostics, diagnostic, at(&said, "two"), "2", "as a figure");
    diagnostics_finish(&said.diagnostics);
    struct outlet out = {.take = NULL};
    buffer_start(&out.text, &arena);
    diagnostics_sarif(&said.diagnostics, "1.2.3", &out);
    json_t *root = json_loadb(out.text.bytes, out.text.length, 0, NULL);
    assert_non_null(root);
    assert_string_equal(json_string_value(json_object_get(root, "version")), "2.1.0");
    const json_t *run = json_array_get(json_object_get(root, "runs"), 0);
    const json_t *driver = json_object_get(json_object_get(run, "tool"), "driver");
    assert_string_equal(json_string_value(json_object_get(driver, "name")), "potash");
    assert_string_equal(json_string_value(json_object_get(driver, "version")), "1.2.3");
    const json_t *result = json_array_get(json_object_get(run, "results"), 0);
    assert_string_equal(json_string_value(json_object_get(result, "ruleId")), "range-given");
    assert_string_equal(json_string_value(json_object_get(result, "level")), "warning");
    size_t index = (size_t)json_integer_value(json_object_get(result, "ruleIndex"));
    const json_t *rule = json_array_get(json_object_get(driver, "rules"), index);
    assert_string_equal(json_string_value(json_object_get(rule, "id")), "range-given");
    json_t *location = json_array_get(json_object_get(result, "locations"), 0);
    const json_t *region = json_object_get(json_object_get(location, "physicalLocation"), "region");
    assert_int_equal(json_integer_value(json_object_get(region, "startLine")), 2);
    assert_int_equal(json_integer_value(json_object_get(region, "startColumn")), 1);
    assert_int_equal(json_integer_value(json_object_get(region, "endColumn")), 4);
    assert_int_equal(json_array_size(json_object_get(result, "fixes")), 1);
    json_decref(root);
}

static void every_id_is_found_by_its_name(void **state)
{
    (void)state;
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        assert_int_equal(diagnostic_find(text_from(diagnostic_registry[id].name)), id);
    }
    assert_int_equal(diagnostic_find(TEXT("no-such-id")), DIAGNOSTIC_IDS);
    assert_int_equal(diagnostic_find(TEXT("")), DIAGNOSTIC_IDS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(they_stand_in_line_order),
        WITH_ARENA(many_are_kept),
        WITH_ARENA(the_caret_stands_under_the_place),
        WITH_ARENA(the_caret_counts_columns_of_the_terminal),
        WITH_ARENA(an_empty_span_has_a_caret),
        WITH_ARENA(a_span_over_several_lines_stays_on_its_first),
        WITH_ARENA(a_long_line_is_shown_around_the_place),
        WITH_ARENA(control_characters_do_not_reach_the_terminal),
        WITH_ARENA(colour_only_when_asked),
        WITH_ARENA(fixes_and_other_places_are_listed),
        WITH_ARENA(silenced_warnings_are_not_said_but_errors_are),
        WITH_ARENA(json_holds_the_members_of_the_contract),
        WITH_ARENA(sarif_holds_what_the_standard_wants),
        cmocka_unit_test(every_id_is_found_by_its_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
