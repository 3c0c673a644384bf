/* Snapshots: the texts of a workspace as they stood once. */
#include "workspace/snapshots.h"

#include <stdlib.h>

/* ---- taking and releasing ---- */

static void copy_texts(struct potash_snapshot *snapshot)
{
    struct potash_workspace *workspace = snapshot->workspace;
    const struct text_set *from = &workspace->texts;
    snapshot->texts.items = workspace_allocate(workspace, NULL, (from->count + 1) * sizeof *from->items);
    snapshot->texts.room = from->count + 1;
    for (size_t i = 0; i < from->count; i++) {
        struct workspace_text *text = &from->items[i];
        if (!text->open && !workspace->folders_read) { /* it may be another by now: it is read anew when it is asked for */
            continue;
        }
        if (text->checked != NULL && !checked_holds(text->checked, from, workspace->generation)) {
            checked_let_go(text->checked);
            text->checked = NULL;
        }
        snapshot->texts.items[snapshot->texts.count++] = (struct workspace_text){text_hold(text->file), checked_hold(text->checked), text->open};
    }
}

static bool copied_texts(struct potash_snapshot *snapshot)
{
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        workspace_out_of_memory(snapshot->workspace);
        return false;
    }
    copy_texts(snapshot);
    return true;
}

struct potash_snapshot *potash_snapshot_take(struct potash_workspace *workspace)
{
    struct potash_snapshot *snapshot = calloc(1, sizeof *snapshot);
    if (snapshot == NULL) {
        return NULL;
    }
    snapshot->workspace = workspace;
    arena_start(&snapshot->arena);
    snapshot->arena.on_failure = &workspace->failure;
    snapshot->arena.fail_after = workspace->options.fail_after - 1;
    if (!copied_texts(snapshot)) {
        free(snapshot);
        return NULL;
    }
    return snapshot;
}

void potash_snapshot_release(struct potash_snapshot *snapshot)
{
    if (snapshot != NULL) {
        texts_release(&snapshot->texts);
        arena_release(&snapshot->arena);
        free(snapshot);
    }
}

void snapshot_read_folders(struct potash_snapshot *snapshot)
{
    struct potash_workspace *workspace = snapshot->workspace;
    workspace_read_folders(workspace);
    for (size_t i = 0; i < workspace->texts.count; i++) {
        const struct workspace_text *text = &workspace->texts.items[i];
        if (!text->open && texts_find(&snapshot->texts, text->file->path) == NULL &&
            !texts_put(&snapshot->texts, text_hold(text->file), false)) {
            longjmp(workspace->failure, 1);
        }
    }
}

/* ---- for the calls ---- */

/* A path of the caller's, normalised, in the arena. */
static const char *plain(struct potash_snapshot *snapshot, const char *path)
{
    char *copy = arena_allocate(&snapshot->arena, strlen(path) + 2);
    path_normalise(path, copy);
    return copy;
}

struct workspace_text *snapshot_begin(struct potash_snapshot *snapshot, const char *path)
{
    const char *wanted = plain(snapshot, path);
    struct workspace_text *found = texts_find(&snapshot->texts, wanted);
    if (found == NULL) {
        snapshot_read_folders(snapshot);
        found = texts_find(&snapshot->texts, wanted);
    }
    if (found == NULL) {
        workspace_refuse(snapshot->workspace, POTASH_UNUSABLE, "there is no text %s", path);
    }
    return found;
}

void *snapshot_grow(struct arena *arena, const void *items, size_t count, size_t *room, size_t size)
{
    *room = *room == 0 ? 8 : *room * 2;
    char *grown = arena_allocate(arena, *room * size);
    if (count > 0) {
        memcpy(grown, items, count * size);
    }
    return grown;
}

struct workspace_text *snapshot_text_of(const struct potash_snapshot *snapshot, const struct source_file *source)
{
    char *copy = malloc(strlen(source->path) + 2);
    if (copy == NULL) {
        longjmp(snapshot->workspace->failure, 1);
    }
    path_normalise(source->path, copy);
    struct workspace_text *found = texts_find(&snapshot->texts, copy);
    free(copy);
    return found != NULL && text_equal(found->file->text, (struct text){source->bytes, source->length}) ? found : NULL;
}

/* ---- calls about the texts themselves ---- */

bool potash_snapshot_differs(struct potash_snapshot *snapshot, struct potash_snapshot *before, const char *path)
{
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        workspace_out_of_memory(snapshot->workspace);
        return true;
    }
    const char *wanted = plain(snapshot, path);
    const struct workspace_text *now = texts_find(&snapshot->texts, wanted);
    const struct workspace_text *then = before == NULL ? NULL : texts_find(&before->texts, wanted);
    return now == NULL || then == NULL || now->checked == NULL || now->checked != then->checked;
}

bool potash_snapshot_text(struct potash_snapshot *snapshot, const char *path, struct potash_output *text)
{
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        workspace_out_of_memory(snapshot->workspace);
        return false;
    }
    const struct workspace_text *found = snapshot_begin(snapshot, path);
    if (found != NULL) {
        *text = (struct potash_output){found->file->text.at, found->file->text.length};
    }
    return found != NULL;
}

enum potash_status potash_snapshot_offset(struct potash_snapshot *snapshot, const char *path, size_t line, size_t column, bool utf16,
                                          size_t *offset)
{
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    const struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    *offset = text_offset(text->file, line, column, utf16);
    return POTASH_GOOD;
}

/* ---- trees ---- */

const struct declaration *tree_declaration_at(const struct syntax_file *tree, size_t offset)
{
    const struct declaration *found = NULL;
    uint32_t at = tree->source->base + (uint32_t)offset;
    for (const struct declaration *declaration = tree->declarations; declaration != NULL && declaration->span.begin <= at;
         declaration = declaration->next) {
        found = declaration;
    }
    return found;
}

const struct statement *tree_statement_at(const struct syntax_file *tree, const struct declaration *declaration, size_t offset)
{
    const struct source_file *source = tree->source;
    const char *line = source->bytes + offset; /* its end */
    line += strcspn(line, "\r\n");
    uint32_t end = source->base + (uint32_t)(line - source->bytes);
    while (line > source->bytes && line[-1] != '\n' && line[-1] != '\r') {
        line--;
    }
    uint32_t begin = source->base + (uint32_t)(line - source->bytes);
    const struct statement *statement = declaration == NULL ? NULL : declaration->statements;
    while (statement != NULL && (statement->span.begin < begin || statement->span.begin > end || statement->kind == SAY_LINE)) {
        statement = statement->next;
    }
    return statement;
}
