/* Many diagnostics: order, the index by stretches of text, what waits until somebody asks, how many a terminal shows, names of files in
 * JSON and SARIF, and output piece by piece. */
#include "support/arena_help.h"

#include "source/diagnostics.h"

#include <jansson.h>
#include <stdio.h>

static struct source_set sources;
static struct diagnostics diagnostics;
static struct source_file *file;

static void start(const char *path, const char *text, size_t length)
{
    source_start(&sources, &arena);
    file = source_add(&sources, path, arena_copy(&arena, text, length), length, false);
    diagnostics_start(&diagnostics, &arena, &sources);
}

static struct span at(uint32_t offset)
{
    return (struct span){file->base + offset, file->base + offset + 1};
}

static const char *printed(size_t most)
{
    struct outlet out = {.take = NULL};
    buffer_start(&out.text, &arena);
    diagnostics_finish(&diagnostics);
    diagnostics_print(&diagnostics, &out, false, most);
    return buffer_finish(&out.text);
}

static size_t times(const char *text, const char *word)
{
    size_t count = 0;
    for (const char *found = strstr(text, word); found != NULL; found = strstr(found + 1, word)) {
        count++;
    }
    return count;
}

enum { LENGTH = 100000 };

static void start_long(void)
{
    char *text = arena_allocate(&arena, LENGTH);
    for (size_t i = 0; i < LENGTH; i++) {
        text[i] = i % 50 == 49 ? '\n' : 'x';
    }
    start("long.bath", text, LENGTH);
}

static void any_order_becomes_line_order(void **state)
{
    (void)state;
    start_long();
    uint32_t offset = 17;
    for (int i = 0; i < 5000; i++) {
        offset = (offset * 7919u + 12345u) % LENGTH;
        diagnostics_add(&diagnostics, DIAG_SYNTAX, at(offset - offset % 3), "%d", i);
    }
    diagnostics_finish(&diagnostics);
    assert_int_equal(diagnostics.count, 5000);
    for (size_t i = 1; i < diagnostics.count; i++) {
        const struct diagnostic *before = diagnostics.items[i - 1];
        const struct diagnostic *item = diagnostics.items[i];
        assert_true(before->span.begin <= item->span.begin);
        if (before->span.begin == item->span.begin) { /* as they came */
            assert_true(atoi(diagnostic_message(&arena, before)) < atoi(diagnostic_message(&arena, item)));
        }
    }
}

/* A walk along all of them is what the index is held against. */
static bool found_by_walk(enum diagnostic_id id, struct span span, size_t since)
{
    for (size_t i = since; i < diagnostics.count; i++) {
        const struct diagnostic *item = diagnostics.items[i];
        if (item->id == id && item->span.begin >= span.begin && item->span.begin < span.end) {
            return true;
        }
    }
    return false;
}

static void the_index_knows_what_lies_in_a_span(void **state)
{
    (void)state;
    start_long();
    for (uint32_t i = 0; i < 3000; i++) {
        diagnostics_add(&diagnostics, i % 7 == 0 ? DIAG_RANGE_GIVEN : DIAG_SYNTAX, at(i * 7919u % LENGTH), "m");
        struct span span = {file->base + i * 31u % LENGTH, file->base + i * 31u % LENGTH + i % 600};
        size_t since = i % 4 == 0 ? i / 2 : 0;
        assert_int_equal(diagnostics_any(&diagnostics, DIAG_RANGE_GIVEN, span, since), found_by_walk(DIAG_RANGE_GIVEN, span, since));
    }
    struct span one = diagnostics.items[0]->span;
    assert_true(diagnostics_any(&diagnostics, DIAG_RANGE_GIVEN, one, 0));
    assert_false(diagnostics_any(&diagnostics, DIAG_RANGE_GIVEN, (struct span){one.begin, one.begin}, 0));
    diagnostics_finish(&diagnostics);
    for (uint32_t i = 0; i < 500; i++) {
        struct span span = {file->base + i * 199u % LENGTH, file->base + i * 199u % LENGTH + 100};
        assert_int_equal(diagnostics_any(&diagnostics, DIAG_RANGE_GIVEN, span, 0), found_by_walk(DIAG_RANGE_GIVEN, span, 0));
    }
}

static void say_lines(size_t count)
{
    start_long();
    for (uint32_t i = 0; i < count; i++) {
        diagnostics_add(&diagnostics, DIAG_RANGE_GIVEN, at(i * 50), "m");
    }
}

static void a_terminal_shows_so_many_of_one_id(void **state)
{
    (void)state;
    say_lines(20);
    assert_int_equal(times(printed(20), "[range-given]"), 20);
    assert_null(strstr(printed(20), "more of this kind"));
    say_lines(21);
    diagnostics_add(&diagnostics, DIAG_SYNTAX, at(5), "another");
    assert_int_equal(times(printed(20), "[range-given]"), 20);
    assert_int_equal(times(printed(20), "[syntax]"), 1);
    assert_int_equal(times(printed(20), "      = and 1 more of this kind; --all shows them\n"), 1);
    assert_int_equal(times(printed(0), "[range-given]"), 21);
    assert_null(strstr(printed(0), "more of this kind"));
    say_lines(1020);
    assert_non_null(strstr(printed(20), "= and 1,000 more of this kind"));
    say_lines(1019);
    assert_non_null(strstr(printed(20), "= and 999 more of this kind"));
}

static size_t explained_times;

static void explain(struct diagnostics *to, struct diagnostic *diagnostic, const void *arguments)
{
    explained_times++;
    diagnostics_help(to, diagnostic, "number %d", *(const int *)arguments);
    diagnostics_fix_as(to, diagnostic, diagnostic->span, "%s is meant", "%d g", *(const int *)arguments);
}

static void what_takes_a_search_waits_until_somebody_asks(void **state)
{
    (void)state;
    start_long();
    explained_times = 0;
    for (int i = 0; i < 100; i++) {
        struct diagnostic *diagnostic = diagnostics_add(&diagnostics, DIAG_RANGE_GIVEN, at((uint32_t)i * 50), "m");
        diagnostics_explain_later(&diagnostics, diagnostic, explain, &i, sizeof i);
    }
    assert_int_equal(explained_times, 0);
    assert_non_null(strstr(printed(20), "help: number 19\n"));
    assert_int_equal(explained_times, 20); /* not for those that are only counted */
    struct diagnostic explained = diagnostics_explained(&diagnostics, diagnostics.items[7]);
    assert_non_null(explained.fixes);
    struct buffer title;
    buffer_start(&title, &arena);
    diagnostic_print_title(&title, explained.fixes);
    assert_string_equal(buffer_finish(&title), "7 g is meant");
}

static void nobody_looks_for_fixes_that_are_not_shown(void **state)
{
    (void)state;
    start_long();
    diagnostics.text_only = true;
    struct diagnostic *diagnostic = diagnostics_add(&diagnostics, DIAG_RANGE_GIVEN, at(0), "m");
    assert_true(diagnostics_take_fixes(&diagnostics, diagnostic)); /* their titles would be the help */
    diagnostics_help(&diagnostics, diagnostic, "do this");
    assert_false(diagnostics_take_fixes(&diagnostics, diagnostic));
    diagnostics.text_only = false;
    assert_true(diagnostics_take_fixes(&diagnostics, diagnostic));
    diagnostic->without_fixes = true;
    assert_false(diagnostics_take_fixes(&diagnostics, diagnostic));
    assert_false(diagnostics_take_fixes(&diagnostics, NULL));
}

static json_t *report(bool sarif)
{
    struct outlet out = {.take = NULL};
    buffer_start(&out.text, &arena);
    if (sarif) {
        diagnostics_sarif(&diagnostics, "1.2.3", &out);
    } else {
        diagnostics_json(&diagnostics, &out);
    }
    json_error_t error;
    json_t *root = json_loadb(out.text.bytes, out.text.length, 0, &error);
    if (root == NULL) {
        fail_msg("no JSON: %s", error.text);
    }
    return root;
}

/* RFC 3986: unreserved characters (2.3) stand as they are, everything else by its bytes (2.1), and a colon in the first segment of a
 * relative reference would be read as a scheme's (4.2). */
static void names_of_files_are_uris_in_sarif(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        const char *uri;
    } cases[] = {
        {"a/b-c_d.e~f.bath", "a/b-c_d.e~f.bath"}, {"two words.bath", "two%20words.bath"}, {"100%.bath", "100%25.bath"},
        {"c:d.bath", "c%3Ad.bath"},               {"#1?.bath", "%231%3F.bath"},           {"b\u00E4d.bath", "b%C3%A4d.bath"},
        {"\xE4.bath", "%E4.bath"},                {"\033[2J.bath", "%1B%5B2J.bath"},      {"\\.bath", "%5C.bath"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        start(cases[i].path, "x\n", 2);
        diagnostics_add(&diagnostics, DIAG_SYNTAX, at(0), "m");
        json_t *root = report(true);
        const json_t *results = json_object_get(json_array_get(json_object_get(root, "runs"), 0), "results");
        const json_t *place = json_array_get(json_object_get(json_array_get(results, 0), "locations"), 0);
        const json_t *location = json_object_get(json_object_get(place, "physicalLocation"), "artifactLocation");
        assert_string_equal(json_string_value(json_object_get(location, "uri")), cases[i].uri);
        json_decref(root);
    }
}

static void a_name_that_is_no_utf8_is_shown_in_json(void **state)
{
    (void)state;
    start("b\xE4""d.bath", "x\n", 2);
    diagnostics_add(&diagnostics, DIAG_SYNTAX, at(0), "a \xFF byte, \"quotes\", \\, \t, \001 and \u202E");
    json_t *root = report(false);
    const json_t *item = json_array_get(json_object_get(root, "diagnostics"), 0);
    assert_string_equal(json_string_value(json_object_get(item, "file")), "b\uFFFDd.bath");
    assert_string_equal(json_string_value(json_object_get(item, "message")), "a \uFFFD byte, \"quotes\", \\, \t, \001 and \u202E");
    json_decref(root);
}

struct taken {
    char bytes[200000];
    size_t length;
    size_t pieces;
    size_t most; /* pieces that are taken */
};

static bool take(void *context, const char *bytes, size_t length)
{
    struct taken *taken = context;
    if (taken->pieces == taken->most) {
        return false;
    }
    assert_true(taken->length + length <= sizeof taken->bytes);
    memcpy(taken->bytes + taken->length, bytes, length);
    taken->length += length;
    taken->pieces++;
    return true;
}

static void output_comes_in_pieces(void **state)
{
    (void)state;
    say_lines(600);
    diagnostics_finish(&diagnostics);
    struct outlet whole = {.take = NULL};
    buffer_start(&whole.text, &arena);
    diagnostics_json(&diagnostics, &whole);
    static struct taken taken;
    taken = (struct taken){.most = 100};
    struct outlet out = {.take = take, .context = &taken};
    buffer_start(&out.text, &arena);
    diagnostics_json(&diagnostics, &out);
    outlet_finish(&out);
    assert_true(taken.pieces > 1);
    assert_int_equal(taken.length, whole.text.length);
    assert_memory_equal(taken.bytes, whole.text.bytes, taken.length);
    assert_true(out.text.capacity < whole.text.length); /* never all of it at once */
    taken = (struct taken){.most = 1};
    out = (struct outlet){.take = take, .context = &taken};
    buffer_start(&out.text, &arena);
    diagnostics_json(&diagnostics, &out);
    outlet_finish(&out);
    assert_true(out.refused);
    assert_int_equal(taken.pieces, 1);
}

static void a_record_is_small(void **state)
{
    (void)state;
    assert_true(sizeof(struct diagnostic) <= 96);
    start_long();
    size_t before = arena.total;
    for (uint32_t i = 0; i < 100000; i++) {
        diagnostics_add(&diagnostics, DIAG_RANGE_GIVEN, at(i % LENGTH), "%s", "sodium sulfite");
    }
    assert_true(arena.total - before < 100000 * (size_t)160); /* with its words and the table */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(any_order_becomes_line_order),
        WITH_ARENA(the_index_knows_what_lies_in_a_span),
        WITH_ARENA(a_terminal_shows_so_many_of_one_id),
        WITH_ARENA(what_takes_a_search_waits_until_somebody_asks),
        WITH_ARENA(nobody_looks_for_fixes_that_are_not_shown),
        WITH_ARENA(names_of_files_are_uris_in_sarif),
        WITH_ARENA(a_name_that_is_no_utf8_is_shown_in_json),
        WITH_ARENA(output_comes_in_pieces),
        WITH_ARENA(a_record_is_small),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
