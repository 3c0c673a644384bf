/* Canonical layout as edits, line by line. */
#include "syntax/tidy.h"
#include "workspace/snapshots.h"

/* Tidying keeps the order of lines and what they say; it changes gaps, and takes out or puts in blank lines. */
struct laying {
    struct potash_snapshot *snapshot;
    const struct text_file *file;
    struct text after;
    size_t at;               /* where the next line of `after` begins */
    struct potash_edit *items;
    size_t count;
    size_t room;
};

static bool is_blank(struct text line)
{
    return text_trim(line).length == 0;
}

/* The next line of the tidied text that is not blank; *blanks: how many stand above it.  False at the end. */
static bool next_line(struct laying *laying, struct text *line, size_t *blanks)
{
    *blanks = 0;
    while (laying->at < laying->after.length) {
        const char *from = laying->after.at + laying->at;
        const char *end = memchr(from, '\n', laying->after.length - laying->at);
        size_t length = end == NULL ? laying->after.length - laying->at : (size_t)(end - from);
        laying->at += length + 1;
        *line = (struct text){from, length};
        if (!is_blank(*line)) {
            return true;
        }
        ++*blanks;
    }
    return false;
}

static void add_edit(struct laying *laying, size_t begin, size_t end, const char *text)
{
    struct text old = {laying->file->text.at + begin, end - begin};
    if (!text_equal(old, text_from(text))) {
        *SNAPSHOT_ADD(&laying->snapshot->arena, struct potash_edit, laying->items, laying->count, laying->room) =
            (struct potash_edit){laying->file->path, text_range(laying->file, begin, end), text};
    }
}

/* How the line ends that has no more but blanks from there: that is the editor's own, and only how many there are is ours. */
static const char *end_of_line(const struct text_file *file, size_t at)
{
    const char *end = file->text.at + at;
    end += strspn(end, " \t");
    return *end != '\r' ? "\n" : end[1] == '\n' ? "\r\n" : "\r";
}

/* From the end of the line before, which stays, to the end of the line itself: the blank lines between, and the line. */
static void lay_lines(struct laying *laying, size_t first_line, size_t last_line)
{
    const struct text_file *file = laying->file;
    struct arena *arena = &laying->snapshot->arena;
    bool mark = file->text.length >= 3 && memcmp(file->text.at, "\xEF\xBB\xBF", 3) == 0;
    size_t done = mark ? 3 : 0; /* what stands before it has been laid out */
    bool first = true;
    for (size_t line = 0; line < file->line_count; line++) {
        struct text old = text_line(file, line);
        size_t end = (size_t)(old.at - file->text.at) + old.length;
        if (line == 0 && mark) {
            old = (struct text){old.at + 3, old.length - 3};
        }
        if (is_blank(old)) {
            continue;
        }
        struct text new;
        size_t blanks;
        if (!next_line(laying, &new, &blanks)) {
            return;
        }
        if (line >= first_line && line <= last_line) {
            size_t begin = (size_t)(old.at - file->text.at);
            const char *line_end = end_of_line(file, done);
            add_edit(laying, done, begin, first ? "" : arena_format(arena, "%s%s", line_end, blanks > 0 ? line_end : ""));
            add_edit(laying, begin, end, arena_copy(arena, new.at, new.length));
        }
        done = end;
        first = false;
    }
    if (last_line >= file->line_count - 1) {
        add_edit(laying, done, file->text.length, first ? "" : end_of_line(file, done));
    }
}

/* The tidied text, where it says the same and is tidy itself; nothing where there is a fault in tidying. */
static struct text tidied(struct potash_snapshot *snapshot, const struct syntax_file *tree, struct names *names)
{
    struct arena *arena = &snapshot->arena;
    struct arena scratch;
    jmp_buf failed;
    arena_start(&scratch);
    scratch.on_failure = &failed;
    if (setjmp(failed) != 0) {
        arena_release(&scratch);
        longjmp(snapshot->workspace->failure, 1);
    }
    struct text after = tidy_text(arena, &scratch, names, tree);
    struct source_set *sources = ARENA_NEW(arena, struct source_set);
    source_start(sources, arena);
    struct diagnostics *aside = ARENA_NEW(arena, struct diagnostics);
    diagnostics_start(aside, arena, sources);
    struct source_file *source = source_add(sources, tree->source->path, arena_copy(arena, after.at, after.length), after.length, false);
    const struct syntax_file *again = source == NULL ? NULL : syntax_parse(arena, names, aside, source, false);
    bool good = again != NULL && tidy_same(&scratch, names, tree, again) && text_equal(after, tidy_text(arena, &scratch, names, again));
    arena_release(&scratch);
    return good ? after : (struct text){0};
}

enum potash_status potash_snapshot_layout(struct potash_snapshot *snapshot, const char *path, size_t first_line, size_t last_line,
                                          struct potash_edits *edits)
{
    *edits = (struct potash_edits){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    const struct syntax_file *tree = text_tree(text->file);
    if (tree->source->faults > 0) {
        return workspace_refuse(snapshot->workspace, POTASH_FAULTY, "there are lines that cannot be read: mend them first");
    }
    struct names *names = ARENA_NEW(&snapshot->arena, struct names);
    names_start(names, &snapshot->arena);
    struct laying laying = {.snapshot = snapshot, .file = text->file, .after = tidied(snapshot, tree, names)};
    if (laying.after.at == NULL) {
        return workspace_refuse(snapshot->workspace, POTASH_UNUSABLE, "internal error: the tidied text would not say the same, so it is held back");
    }
    lay_lines(&laying, first_line, last_line);
    *edits = (struct potash_edits){laying.items, laying.count};
    return POTASH_GOOD;
}
