/* What the tests of the workspace share: texts by their paths, places by the words that stand there. */
#ifndef POTASH_TESTS_WORKSPACE_HELP_H
#define POTASH_TESTS_WORKSPACE_HELP_H

#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* asprintf */
#endif

#include "support/compiling.h"
#include "workspace.h"

#include <stdio.h>
#include <string.h>

/* A workspace with a snapshot of it, and the text that is asked about. */
struct house {
    struct potash_workspace *workspace;
    struct potash_snapshot *snapshot;
    const char *path;
};

/* Texts are given as path, text, path, text …, NULL; the first is asked about. */
static inline struct house house_open(const struct potash_workspace_options *options, const char *const *texts)
{
    struct house house = {.workspace = potash_workspace_open(options), .path = texts[0]};
    assert_non_null(house.workspace);
    for (; *texts != NULL; texts += 2) {
        assert_int_equal(potash_workspace_set(house.workspace, texts[0], texts[1], strlen(texts[1])), POTASH_GOOD);
    }
    house.snapshot = potash_snapshot_take(house.workspace);
    assert_non_null(house.snapshot);
    return house;
}

#define HOUSE(...) house_open(NULL, (const char *const[]){__VA_ARGS__, NULL})

static inline void house_close(struct house *house)
{
    potash_snapshot_release(house->snapshot);
    potash_workspace_close(house->workspace);
}

static inline void house_renew(struct house *house)
{
    potash_snapshot_release(house->snapshot);
    house->snapshot = potash_snapshot_take(house->workspace);
    assert_non_null(house->snapshot);
}

/* Where `mark` stands in the text: the place is behind a "|" in it, which is not in the text, or at its start. */
static inline size_t place_of(struct house *house, const char *mark)
{
    struct potash_output text;
    assert_true(potash_snapshot_text(house->snapshot, house->path, &text));
    const char *bar = strchr(mark, '|');
    char plain[200];
    snprintf(plain, sizeof plain, "%.*s%s", bar == NULL ? 0 : (int)(bar - mark), mark, bar == NULL ? mark : bar + 1);
    const char *found = memmem(text.bytes, text.length, plain, strlen(plain));
    if (found == NULL) {
        fail_msg("\"%s\" does not stand in %s", plain, house->path);
    }
    return (size_t)(found - text.bytes) + (bar == NULL ? 0 : (size_t)(bar - mark));
}

/* The text with the edits made in it, of one path; to be freed. */
static inline char *edited(struct house *house, const char *path, const struct potash_edits *edits)
{
    struct potash_output text;
    assert_true(potash_snapshot_text(house->snapshot, path, &text));
    char *out = NULL;
    size_t length = 0;
    FILE *stream = open_memstream(&out, &length);
    size_t at = 0;
    for (size_t i = 0; i < edits->count; i++) {
        const struct potash_edit *edit = &edits->items[i];
        if (strcmp(edit->path, path) == 0) {
            assert_true(edit->range.begin.offset >= at && edit->range.end.offset <= text.length);
            fwrite(text.bytes + at, 1, edit->range.begin.offset - at, stream);
            fputs(edit->text, stream);
            at = edit->range.end.offset;
        }
    }
    fwrite(text.bytes + at, 1, text.length - at, stream);
    fclose(stream);
    return out;
}

/* Fails unless the findings are those, as "id:line id:line …", lines from 1. */
static inline void expect_findings(struct house *house, const char *path, const char *wanted)
{
    struct potash_findings findings;
    if (potash_snapshot_findings(house->snapshot, path, &findings) != POTASH_GOOD) {
        fail_msg("%s", potash_workspace_message(house->workspace));
    }
    char got[2000] = "";
    size_t length = 0;
    for (size_t i = 0; i < findings.count && length < sizeof got; i++) {
        length += (size_t)snprintf(got + length, sizeof got - length, "%s%s:%zu", i == 0 ? "" : " ", findings.items[i].id,
                                   findings.items[i].range.begin.line + 1);
    }
    assert_string_equal(got, wanted);
}

/* The action of that title; fails when there is none. */
static inline const struct potash_action *find_action(const struct potash_actions *actions, const char *title)
{
    for (size_t i = 0; i < actions->count; i++) {
        if (strcmp(actions->items[i].title, title) == 0) {
            return &actions->items[i];
        }
    }
    fail_msg("there is no action \"%s\"", title);
    return NULL;
}

#define STOP_BATH                                                                                                      \
    "formula \"Saltmarsh stop bath\"\n"                                                                                \
    "    kind stop bath\n"                                                                                             \
    "    for paper\n"                                                                                                  \
    "\n"                                                                                                               \
    "    water                750 mL\n"                                                                                \
    "    acetic acid (28 %)   48 mL\n"                                                                                 \
    "    water                to make 1 L\n"

#endif
