/* Diagnostics of texts that change: those of a fresh check of the same text, whatever was typed before. */
#include "workspace_help.h"

#include "support/program.h"

/* ---- against a session ---- */

/* What a session says of a text by itself, as one line for each: id, place and repairs. */
static char *said_by_session(const char *path, const char *text, size_t length)
{
    struct potash *potash = potash_open(NULL);
    struct potash_output output;
    potash_read_text(potash, path, text, length);
    potash_check(potash);
    assert_int_equal(potash_diagnostics(potash, POTASH_JSON, false, &output), POTASH_GOOD);
    json_t *all = json_loadb(output.bytes, output.length, 0, NULL);
    char *out = NULL;
    size_t room = 0;
    FILE *stream = open_memstream(&out, &room);
    size_t index;
    json_t *item;
    json_array_foreach(json_object_get(all, "diagnostics"), index, item)
    {
        fprintf(stream, "%s %s %lld %s", json_string_value(json_object_get(item, "severity")), json_string_value(json_object_get(item, "id")),
                json_integer_value(json_object_get(item, "line")), json_string_value(json_object_get(item, "message")));
        size_t k;
        json_t *fix;
        json_array_foreach(json_object_get(item, "fixes"), k, fix)
        {
            fprintf(stream, " | %s: %s", json_string_value(json_object_get(fix, "title")), json_string_value(json_object_get(fix, "text")));
        }
        fputs("\n", stream);
    }
    fclose(stream);
    json_decref(all);
    potash_close(potash);
    return out;
}

static char *said_by_workspace(struct house *house, const char *path)
{
    struct potash_findings findings;
    assert_int_equal(potash_snapshot_findings(house->snapshot, path, &findings), POTASH_GOOD);
    char *out = NULL;
    size_t room = 0;
    FILE *stream = open_memstream(&out, &room);
    for (size_t i = 0; i < findings.count; i++) {
        const struct potash_finding *finding = &findings.items[i];
        fprintf(stream, "%s %s %zu %s", finding->error ? "error" : "warning", finding->id, finding->range.begin.line + 1, finding->message);
        for (size_t k = 0; k < finding->repair_count; k++) {
            fprintf(stream, " | %s: %s", finding->repairs[k].title, finding->repairs[k].edits.items[0].text);
        }
        fputs("\n", stream);
    }
    fclose(stream);
    return out;
}

static void expect_same(struct house *house, const char *path)
{
    struct potash_output text;
    assert_true(potash_snapshot_text(house->snapshot, path, &text));
    char *fresh = said_by_session(path, text.bytes, text.length);
    char *kept = said_by_workspace(house, path);
    if (strcmp(fresh, kept) != 0) {
        fail_msg("the workspace says:\n%s\na session says:\n%s\nof:\n%.*s", kept, fresh, (int)text.length, text.bytes);
    }
    free(fresh);
    free(kept);
}

static void says_what_a_session_says(void **state)
{
    (void)state;
    static const char *const samples[] = {"samples/faulty.bath", "samples/old-print-developer.bath", "samples/two-part-developer.bath", NULL};
    for (size_t i = 0; samples[i] != NULL; i++) {
        char *text = file_bytes(samples[i], NULL);
        struct house house = HOUSE(samples[i], text);
        expect_same(&house, samples[i]);
        house_close(&house);
        free(text);
    }
}

/* ---- typing ---- */

/* A sequence of its own, the same everywhere: Marsaglia, "Xorshift RNGs", J. Stat. Softw. 8 (14), 2003. */
static uint32_t next_random(uint32_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 17;
    *seed ^= *seed << 5;
    return *seed;
}

static const char *const pieces[] = {
    "formula \"X\"\n", "    metol 2 g\n",  "1:29",  "\"", "\n", " ", "use for paper\n    dilute 1+9\n", "0,25 g", "gr", "ä", "part A\n", "(",
    "water to make 1 L\n", "\xff",      "stock phenidone 1 %\n", "variant \"Y\"\n    of \"X\"\n    leave out metol\n", "#", "50 to 65 grains",
    "sodium sulfite 30 g\n", "read \"none.bath\"\n", "\r\n", "\t", "<<<<<<< a\n", "°C", "𝛼"};

static void typing_at_random_says_the_same(void **state)
{
    (void)state;
    const char *edits = getenv("POTASH_EDITS"); /* for a longer run: as many edits */
    size_t count = edits == NULL ? 300 : strtoul(edits, NULL, 10);
    const char *given = getenv("POTASH_SEED");
    uint32_t seed = given == NULL ? 2463534242u : (uint32_t)strtoul(given, NULL, 10);
    char *text = file_bytes("samples/print-developer.bath", NULL);
    struct house house = HOUSE("samples/print-developer.bath", text);
    size_t length = strlen(text);
    for (size_t i = 0; i < count; i++) {
        size_t begin = next_random(&seed) % (length + 1);
        size_t end = begin + next_random(&seed) % 30;
        end = end > length || next_random(&seed) % 2 == 0 ? begin : end;
        const char *piece = pieces[next_random(&seed) % (sizeof pieces / sizeof *pieces)];
        assert_int_equal(potash_workspace_edit(house.workspace, house.path, begin, end, piece, strlen(piece)), POTASH_GOOD);
        length = length - (end - begin) + strlen(piece);
        house_renew(&house);
        expect_same(&house, house.path);
        if (length > 20000 || i % 200 == 199) { /* from the start again */
            length = strlen(text);
            assert_int_equal(potash_workspace_set(house.workspace, house.path, text, length), POTASH_GOOD);
        }
    }
    house_close(&house);
    free(text);
}

/* ---- texts that read each other ---- */

#define VARIANT "read \"stop.bath\"\nvariant \"Cold\"\n    of \"Saltmarsh stop bath\"\n"

static void an_open_text_stands_for_its_file(void **state)
{
    (void)state;
    struct house house = HOUSE("/club/cold.bath", VARIANT, "/club/stop.bath", STOP_BATH);
    expect_findings(&house, "/club/cold.bath", "");
    struct potash_snapshot *before = house.snapshot;
    assert_false(potash_snapshot_differs(before, before, "/club/cold.bath"));
    /* What is changed in it changes what is said of who reads it. */
    size_t title = place_of(&(struct house){house.workspace, before, "/club/stop.bath"}, "Saltmarsh stop bath");
    assert_int_equal(potash_workspace_edit(house.workspace, "/club/stop.bath", title, title + strlen("Saltmarsh"), "Seawall", 7), POTASH_GOOD);
    house.snapshot = potash_snapshot_take(house.workspace);
    assert_true(potash_snapshot_differs(house.snapshot, before, "/club/cold.bath"));
    expect_findings(&house, "/club/cold.bath", "formula-unknown:3");
    /* The snapshot that was taken before has not changed. */
    struct house old = {house.workspace, before, "/club/cold.bath"};
    expect_findings(&old, "/club/cold.bath", "");
    potash_snapshot_release(before);
    /* When the other is closed there is no such file. */
    assert_int_equal(potash_workspace_forget(house.workspace, "/club/stop.bath"), POTASH_GOOD);
    house_renew(&house);
    expect_findings(&house, "/club/cold.bath", "file-missing:1");
    house_close(&house);
}

static void what_nothing_depends_on_is_not_checked_again(void **state)
{
    (void)state;
    struct house house = HOUSE("/club/cold.bath", VARIANT, "/club/stop.bath", STOP_BATH, "/club/other.bath", STOP_BATH);
    expect_findings(&house, "/club/cold.bath", "");
    struct potash_snapshot *before = house.snapshot;
    assert_int_equal(potash_workspace_edit(house.workspace, "/club/other.bath", 0, 0, "# x\n", 4), POTASH_GOOD);
    house.snapshot = potash_snapshot_take(house.workspace);
    assert_false(potash_snapshot_differs(house.snapshot, before, "/club/cold.bath"));
    potash_snapshot_release(before);
    house_close(&house);
}

static void a_ring_and_the_folder_are_kept(void **state)
{
    (void)state;
    struct house house = HOUSE("/club/a.bath", "# both read each other\nread \"b.bath\"\n", "/club/b.bath", "read \"../club/./a.bath\"\n", "/club/sub/c.bath",
                               "read \"../b.bath\"\n", "/elsewhere.bath", STOP_BATH, "/club/d.bath", "read \"../elsewhere.bath\"\n");
    expect_findings(&house, "/club/a.bath", "reads-itself:2");
    expect_findings(&house, "/club/b.bath", "reads-itself:1");
    expect_findings(&house, "/club/sub/c.bath", "file-refused:1");
    expect_findings(&house, "/club/d.bath", "file-refused:1");
    /* The folder of the workspace is the one that reads stay inside. */
    assert_int_equal(potash_workspace_add_folder(house.workspace, "/club/"), POTASH_GOOD);
    house_renew(&house);
    potash_workspace_edit(house.workspace, "/club/sub/c.bath", 0, 0, "#\n", 2);
    house_renew(&house);
    expect_findings(&house, "/club/sub/c.bath", "");
    house_close(&house);
}

static bool read_stop(void *context, const char *path, struct potash_output *text)
{
    ++*(size_t *)context;
    *text = (struct potash_output){STOP_BATH, strlen(STOP_BATH)};
    return strcmp(path, "club/stop.bath") == 0;
}

static void a_reader_gives_what_is_not_open(void **state)
{
    (void)state;
    size_t asked = 0;
    struct potash_workspace_options options = {.read = read_stop, .read_context = &asked};
    struct house house = house_open(&options, (const char *const[]){"club/cold.bath", VARIANT, "club/lost.bath", "read \"none.bath\"\n", NULL});
    expect_findings(&house, "club/cold.bath", "");
    expect_findings(&house, "club/lost.bath", "file-missing:1");
    assert_int_equal(asked, 2);
    struct potash_snapshot *before = house.snapshot;
    house.snapshot = potash_snapshot_take(house.workspace);
    assert_false(potash_snapshot_differs(house.snapshot, before, "club/cold.bath"));
    potash_snapshot_release(before);
    assert_int_equal(potash_workspace_refresh(house.workspace, "club/stop.bath"), POTASH_GOOD);
    house_renew(&house);
    expect_findings(&house, "club/cold.bath", "");
    assert_int_equal(asked, 3);
    house_close(&house);
}

static void files_on_disk_are_read_and_refreshed(void **state)
{
    (void)state;
    scratch_text("stop.bath", STOP_BATH);
    const char *path = scratch_path("cold.bath");
    struct house house = HOUSE(path, VARIANT);
    expect_findings(&house, path, "");
    scratch_text("stop.bath", "# empty\n");
    assert_int_equal(potash_workspace_refresh(house.workspace, scratch_path("stop.bath")), POTASH_GOOD);
    house_renew(&house);
    expect_findings(&house, path, "formula-unknown:3");
    house_close(&house);
    scratch_remove();
}

/* ---- places ---- */

static void places_count_bytes_and_utf16(void **state)
{
    (void)state;
    /* RFC 3629: ° takes two bytes and one unit of UTF-16 (RFC 2781), 𝛼 (U+1D6FC) four bytes and two units. */
    struct house house = HOUSE("a.bath", "# °𝛼x\r\nformula \"A\"\r# c\n");
    size_t offset;
    assert_int_equal(potash_snapshot_offset(house.snapshot, "a.bath", 0, 5, true, &offset), POTASH_GOOD);
    assert_int_equal(offset, 8);
    assert_int_equal(potash_snapshot_offset(house.snapshot, "a.bath", 0, 8, false, &offset), POTASH_GOOD);
    assert_int_equal(offset, 8);
    potash_snapshot_offset(house.snapshot, "a.bath", 0, 4, true, &offset); /* within 𝛼 */
    assert_int_equal(offset, 4);
    potash_snapshot_offset(house.snapshot, "a.bath", 0, 99, true, &offset);
    assert_int_equal(offset, 9);
    potash_snapshot_offset(house.snapshot, "a.bath", 2, 0, true, &offset); /* behind the lone return */
    assert_int_equal(offset, place_of(&house, "# c"));
    potash_snapshot_offset(house.snapshot, "a.bath", 99, 0, true, &offset);
    assert_int_equal(offset, place_of(&house, "# c|") + 1);
    struct potash_symbols symbols;
    assert_int_equal(potash_snapshot_outline(house.snapshot, "a.bath", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.items[0].name_range.begin.line, 1);
    assert_int_equal(symbols.items[0].name_range.begin.column_16, 9);
    house_close(&house);
}

static void wrong_calls_are_refused(void **state)
{
    (void)state;
    struct house house = HOUSE("a.bath", STOP_BATH);
    struct potash_findings findings;
    assert_int_equal(potash_snapshot_findings(house.snapshot, "b.bath", &findings), POTASH_UNUSABLE);
    assert_string_equal(potash_workspace_message(house.workspace), "there is no text b.bath");
    assert_int_equal(potash_workspace_edit(house.workspace, "b.bath", 0, 0, "", 0), POTASH_FAULTY);
    assert_int_equal(potash_workspace_edit(house.workspace, "a.bath", 1, 0, "", 0), POTASH_FAULTY);
    assert_int_equal(potash_workspace_edit(house.workspace, "a.bath", 0, 5000, "", 0), POTASH_FAULTY);
    assert_int_equal(potash_workspace_forget(house.workspace, "b.bath"), POTASH_FAULTY);
    assert_int_equal(potash_workspace_remove_folder(house.workspace, "b"), POTASH_FAULTY);
    char nothing[100] = {0};
    assert_int_equal(potash_workspace_set(house.workspace, "b.bath", nothing, sizeof nothing), POTASH_GOOD); /* one line with NULs may be damaged text */
    static const char *const unknown[] = {"no-such-id", NULL};
    struct house wrong = house_open(&(struct potash_workspace_options){.silence = unknown}, (const char *const[]){"a.bath", STOP_BATH, NULL});
    assert_int_equal(potash_snapshot_findings(wrong.snapshot, "a.bath", &findings), POTASH_UNUSABLE);
    assert_non_null(strstr(potash_workspace_message(wrong.workspace), "no-such-id"));
    house_close(&wrong);
    house_close(&house);
}

static void a_library_is_shared(void **state)
{
    (void)state;
    char why[200];
    assert_null(potash_library_open("samples/none", why, sizeof why));
    assert_non_null(strstr(why, "samples/none"));
    struct potash_library *library = potash_library_open("stdlib", why, sizeof why);
    assert_non_null(library);
    struct potash_workspace_options options = {.library = library};
    struct house one = house_open(&options, (const char *const[]){"a.bath", STOP_BATH, NULL});
    struct house two = house_open(&options, (const char *const[]){"a.bath", "formula \"A\"\n    metool 2 g\n    water to make 1 L\n", NULL});
    expect_findings(&one, "a.bath", "");
    expect_findings(&two, "a.bath", "material-unknown:2");
    house_close(&one);
    house_close(&two);
    potash_library_close(library);
    library = potash_library_open(NULL, NULL, 0);
    assert_non_null(library);
    potash_library_close(library);
}

/* ---- memory ---- */

/* All calls, with memory that runs out; false when it did not. */
static bool run_once(long fail_after)
{
    struct potash_workspace_options options = {.fail_after = fail_after};
    struct potash_workspace *workspace = potash_workspace_open(&options);
    bool out = false;
    const char *text = VARIANT "    change acetic acid to 30 mL\n" STOP_BATH;
    out = potash_workspace_set(workspace, "a.bath", text, strlen(text)) == POTASH_UNUSABLE;
    assert_string_equal(potash_workspace_message(workspace), out ? "out of memory" : "");
    struct potash_snapshot *snapshot = potash_snapshot_take(workspace);
    struct potash_findings findings;
    struct potash_symbols symbols;
    struct potash_locations locations;
    struct potash_edits edits;
    struct potash_hover hover;
    struct potash_completions completions;
    struct potash_highlights highlights;
    struct potash_folds folds;
    struct potash_inlays inlays;
    struct potash_actions actions;
    size_t offset = strlen(VARIANT "    change acetic");
    out = potash_snapshot_findings(snapshot, "a.bath", &findings) == POTASH_UNUSABLE || out;
    out = potash_snapshot_outline(snapshot, "a.bath", &symbols) == POTASH_UNUSABLE || out;
    out = potash_snapshot_search(snapshot, "", &symbols) == POTASH_UNUSABLE || out;
    out = potash_snapshot_references(snapshot, "a.bath", offset, true, &locations) == POTASH_UNUSABLE || out;
    out = potash_snapshot_rename(snapshot, "a.bath", strlen("read \"stop.bath\"\nvariant \"Co"), "Warm", &edits) == POTASH_UNUSABLE || out;
    out = potash_snapshot_hover(snapshot, "a.bath", offset, &hover) == POTASH_UNUSABLE || out;
    out = potash_snapshot_complete(snapshot, "a.bath", offset, &completions) == POTASH_UNUSABLE || out;
    out = potash_snapshot_highlights(snapshot, "a.bath", &highlights) == POTASH_UNUSABLE || out;
    out = potash_snapshot_folds(snapshot, "a.bath", &folds) == POTASH_UNUSABLE || out;
    out = potash_snapshot_inlays(snapshot, "a.bath", 0, 1000, &inlays) == POTASH_UNUSABLE || out;
    out = potash_snapshot_layout(snapshot, "a.bath", 0, SIZE_MAX, &edits) == POTASH_UNUSABLE || out;
    out = potash_snapshot_actions(snapshot, "a.bath", offset, offset, "2026-03-04", &actions) == POTASH_UNUSABLE || out;
    potash_snapshot_release(snapshot);
    potash_workspace_close(workspace);
    return out;
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    long fail_after = 1;
    while (run_once(fail_after)) {
        fail_after++;
        assert_true(fail_after < 1000);
    }
    assert_true(fail_after > 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_what_a_session_says),
        cmocka_unit_test(typing_at_random_says_the_same),
        cmocka_unit_test(an_open_text_stands_for_its_file),
        cmocka_unit_test(what_nothing_depends_on_is_not_checked_again),
        cmocka_unit_test(a_ring_and_the_folder_are_kept),
        cmocka_unit_test(a_reader_gives_what_is_not_open),
        cmocka_unit_test(files_on_disk_are_read_and_refreshed),
        cmocka_unit_test(places_count_bytes_and_utf16),
        cmocka_unit_test(wrong_calls_are_refused),
        cmocka_unit_test(a_library_is_shared),
        cmocka_unit_test(every_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
