/* What can be done at a place: repairs, and changes that somebody may want. */
#include "workspace/actions.h"

#include <stdarg.h>

void doing_edit(struct doing *doing, struct span span, const char *text)
{
    *SNAPSHOT_ADD(doing->arena, struct potash_edit, doing->edits, doing->edit_count, doing->edit_room) =
        (struct potash_edit){doing->text->file->path, text_range_of(doing->text->file, doing->checked->source, span), text};
}

void doing_add(struct doing *doing, enum potash_action_kind kind, const char *title_format, ...)
{
    if (doing->edit_count == 0) {
        return;
    }
    va_list arguments;
    va_start(arguments, title_format);
    const char *title = arena_format_list(doing->arena, title_format, arguments);
    va_end(arguments);
    *SNAPSHOT_ADD(doing->arena, struct potash_action, doing->items, doing->count, doing->room) =
        (struct potash_action){title, kind, NULL, {doing->edits, doing->edit_count}};
    doing->edits = NULL;
    doing->edit_count = doing->edit_room = 0;
}

struct span doing_behind(const struct doing *doing)
{
    const struct declaration *declaration = doing->at.declaration;
    const struct source_file *source = doing->checked->source;
    uint32_t end = declaration_end(declaration);
    const char *at = source->bytes + (end < source->base + source->length ? end - source->base : source->length);
    const char *begin = source->bytes + (declaration->span.begin - source->base);
    for (bool comment = true; comment;) { /* what stands above the next heading belongs to that */
        while (at > begin && strchr(" \t\r\n", at[-1]) != NULL) {
            at--;
        }
        const char *line = at;
        while (line > begin && line[-1] != '\n' && line[-1] != '\r') {
            line--;
        }
        comment = line > begin && line[strspn(line, " \t")] == '#';
        at = comment ? line : at;
    }
    uint32_t place = source->base + (uint32_t)(at - source->bytes);
    return span_make(place, place);
}

static void add_repairs(struct doing *doing, const struct potash_findings *findings, size_t begin, size_t end)
{
    for (size_t i = 0; i < findings->count; i++) {
        const struct potash_finding *finding = &findings->items[i];
        bool there = finding->range.begin.offset <= end && finding->range.end.offset >= begin;
        for (size_t k = 0; k < finding->repair_count && there; k++) {
            *SNAPSHOT_ADD(doing->arena, struct potash_action, doing->items, doing->count, doing->room) =
                (struct potash_action){finding->repairs[k].title, POTASH_ACTION_REPAIR, finding, finding->repairs[k].edits};
        }
    }
}

enum potash_status potash_snapshot_actions(struct potash_snapshot *snapshot, const char *path, size_t begin, size_t end, const char *date,
                                           struct potash_actions *actions)
{
    struct potash_findings findings;
    *actions = (struct potash_actions){0};
    enum potash_status status = potash_snapshot_findings(snapshot, path, &findings);
    if (status != POTASH_GOOD) {
        return status;
    }
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    snapshot_read_folders(snapshot);
    struct workspace_text *text = snapshot_begin(snapshot, path);
    struct doing doing = {.snapshot = snapshot, .arena = &snapshot->arena, .text = text, .checked = snapshot_check(snapshot, text)};
    doing.at = line_find(doing.checked, begin < text->file->text.length ? begin : text->file->text.length);
    add_repairs(&doing, &findings, begin, end);
    if (doing.at.formula != NULL && !doing.at.formula->faulty) {
        doing_rewrite(&doing);
        doing_extract(&doing, date);
    }
    *actions = (struct potash_actions){doing.items, doing.count};
    return POTASH_GOOD;
}
