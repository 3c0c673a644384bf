/* Diagnostics of a checked file, with their repairs as edits. */
#include "workspace/naming_places.h"

#include <stdlib.h>

struct finder {
    struct potash_snapshot *snapshot;
    const struct workspace_text *text;
    const struct checked *checked;
    struct arena *arena;
};

static const char *print(struct arena *arena, const struct kept_words *words)
{
    struct buffer out;
    buffer_start(&out, arena);
    words_print_short(&out, words);
    return buffer_finish(&out);
}

static const char *title_of(struct arena *arena, const struct fix *fix)
{
    struct buffer out;
    buffer_start(&out, arena);
    diagnostic_print_title(&out, fix);
    return buffer_finish(&out);
}

/* What other texts would need done is not offered: their lines are not under the eyes of who is asked. */
static bool is_own(const struct finder *finder, struct span span)
{
    const struct source_file *source = finder->checked->source;
    return span.begin >= source->base && span.end <= source->base + source->length;
}

static struct potash_range range_of(const struct finder *finder, struct span span)
{
    return text_range_of(finder->text->file, finder->checked->source, span);
}

static void add_repairs(const struct finder *finder, const struct diagnostic *item, struct potash_finding *finding)
{
    size_t count = 0;
    size_t edits = 0;
    for (const struct fix *fix = item->fixes; fix != NULL; fix = fix->next) {
        count += !fix->of_last;
        edits++;
    }
    struct potash_repair *repairs = ARENA_ARRAY(finder->arena, struct potash_repair, count);
    struct potash_edit *edit = ARENA_ARRAY(finder->arena, struct potash_edit, edits);
    finding->repairs = repairs;
    for (const struct fix *fix = item->fixes; fix != NULL; fix = fix_next(fix)) {
        struct potash_repair *repair = &repairs[finding->repair_count];
        *repair = (struct potash_repair){title_of(finder->arena, fix), {edit, 0}};
        bool own = true;
        for (const struct fix *also = fix; also != NULL; also = fix_also(also)) {
            own = own && is_own(finder, also->span);
            *edit = (struct potash_edit){.path = finder->text->file->path, .text = arena_copy(finder->arena, also->text, strlen(also->text))};
            if (own) {
                edit->range = range_of(finder, also->span);
            }
            edit++;
            repair->edits.count++;
        }
        finding->repair_count += own;
    }
}

static void add_remarks(const struct finder *finder, const struct diagnostic *item, struct potash_finding *finding)
{
    size_t count = 0;
    for (const struct related *related = item->related; related != NULL; related = related->next) {
        count++;
    }
    struct potash_remark *remarks = ARENA_ARRAY(finder->arena, struct potash_remark, count);
    finding->remarks = remarks;
    for (const struct related *related = item->related; related != NULL; related = related->next) {
        const struct source_file *source = source_file_at(&finder->checked->session->sources, related->span.begin);
        const struct workspace_text *text = is_own(finder, related->span) ? finder->text : snapshot_text_of(finder->snapshot, source);
        if (text != NULL) {
            remarks[finding->remark_count++] = (struct potash_remark){
                {text->file->path, text_range_of(text->file, source, related->span)}, arena_copy(finder->arena, related->message, strlen(related->message))};
        }
    }
}

static void add_finding(const struct finder *finder, const struct diagnostic *kept, struct potash_finding *finding)
{
    struct diagnostic item = diagnostics_explained(&finder->checked->session->diagnostics, kept);
    *finding = (struct potash_finding){
        .range = range_of(finder, item.span),
        .error = item.severity == SEVERITY_ERROR,
        .id = diagnostic_registry[item.id].name,
        .message = print(finder->arena, item.message),
        .help = item.help == NULL ? NULL : print(finder->arena, item.help),
    };
    add_repairs(finder, &item, finding);
    add_remarks(finder, &item, finding);
}

/* A ring of reads is found where it closes, which is in another file when this one is the first: then it is shown at the line here that
 * leads there. */
static struct span read_line(const struct finder *finder, const struct diagnostic *item)
{
    const struct potash *session = finder->checked->session;
    struct span first = {0};
    if (item->id != DIAG_READS_ITSELF || is_own(finder, item->span)) {
        return first;
    }
    const struct source_file *closes = source_file_at(&session->sources, item->span.begin);
    char *there = arena_allocate(finder->arena, strlen(closes->path) + 2);
    path_normalise(closes->path, there);
    struct text name = source_text(&session->sources, item->span); /* in its quotes */
    const char *again = name.length < 2 ? "" : naming_path_read(finder->snapshot, there, (struct text){name.at + 1, name.length - 2});
    if (strcmp(again, finder->text->file->path) != 0) { /* a ring of others */
        return first;
    }
    for (const struct declaration *declaration = syntax_declarations(session->files->file, 1u << DECLARE_READ); declaration != NULL;
         declaration = declaration->next) {
        if (declaration->kind == DECLARE_READ && declaration->title.at != NULL) {
            bool leads = strcmp(naming_path_read(finder->snapshot, finder->text->file->path, declaration->title), there) == 0;
            first = leads || first.end == 0 ? declaration->title_span : first;
        }
    }
    return first;
}

/* How many of the session's diagnostics are of the ring that this file is in, and not in it. */
static size_t add_rings(const struct finder *finder, struct potash_finding *items, size_t count)
{
    const struct diagnostics *diagnostics = &finder->checked->session->diagnostics;
    for (size_t i = 0; i < diagnostics->count; i++) {
        struct span line = read_line(finder, diagnostics->items[i]);
        if (line.end > 0) {
            struct diagnostic moved = *diagnostics->items[i];
            moved.span = line;
            add_finding(finder, &moved, &items[count++]);
        }
    }
    return count;
}

static int by_place(const void *a, const void *b)
{
    size_t one = ((const struct potash_finding *)a)->range.begin.offset;
    size_t other = ((const struct potash_finding *)b)->range.begin.offset;
    return one < other ? -1 : one > other;
}

enum potash_status potash_snapshot_findings(struct potash_snapshot *snapshot, const char *path, struct potash_findings *findings)
{
    *findings = (struct potash_findings){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct finder finder = {snapshot, text, snapshot_check(snapshot, text), &snapshot->arena};
    const struct diagnostics *diagnostics = &finder.checked->session->diagnostics;
    const struct source_file *source = finder.checked->source;
    size_t from = diagnostics_from(diagnostics, source->base);
    size_t upto = from;
    while (upto < diagnostics->count && diagnostics->items[upto]->span.begin <= source->base + source->length) {
        upto++;
    }
    size_t rings = 0;
    for (size_t i = 0; i < diagnostics->count; i++) {
        rings += diagnostics->items[i]->id == DIAG_READS_ITSELF;
    }
    struct potash_finding *items = ARENA_ARRAY(&snapshot->arena, struct potash_finding, upto - from + rings);
    for (size_t i = from; i < upto; i++) {
        add_finding(&finder, diagnostics->items[i], &items[i - from]);
    }
    size_t count = rings == 0 ? upto - from : add_rings(&finder, items, upto - from);
    if (count > upto - from) {
        qsort(items, count, sizeof *items, by_place);
    }
    *findings = (struct potash_findings){items, count};
    return POTASH_GOOD;
}
