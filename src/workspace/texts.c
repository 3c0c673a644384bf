/* One text: its lines, its tree, places in it. */
#include "workspace/texts.h"

#include "base/utf8.h"

#include <stdlib.h>

/* ---- making ---- */

static size_t count_lines(struct text text)
{
    size_t count = 1;
    for (size_t i = 0; i < text.length; i++) {
        count += text.at[i] == '\n' || (text.at[i] == '\r' && (i + 1 == text.length || text.at[i + 1] != '\n'));
    }
    return count;
}

static void find_lines(struct text_file *file)
{
    struct text text = file->text;
    uint32_t *lines = ARENA_ARRAY(&file->arena, uint32_t, count_lines(text));
    size_t count = 1;
    for (size_t i = 0; i < text.length; i++) {
        if (text.at[i] == '\n' || (text.at[i] == '\r' && (i + 1 == text.length || text.at[i + 1] != '\n'))) {
            lines[count++] = (uint32_t)(i + 1);
        }
    }
    file->lines = lines;
    file->line_count = count;
}

static bool fill(struct text_file *file, const char *path, struct text text)
{
    jmp_buf failed;
    file->arena.on_failure = &failed;
    if (setjmp(failed) != 0) {
        return false;
    }
    file->path = arena_copy(&file->arena, path, strlen(path));
    file->text = (struct text){arena_copy(&file->arena, text.at, text.length), text.length};
    find_lines(file);
    return true;
}

struct text_file *text_make(const char *path, struct text text, long fail_after, jmp_buf *on_failure)
{
    struct text_file *file = calloc(1, sizeof *file);
    if (file == NULL) {
        return NULL;
    }
    arena_start(&file->arena);
    file->arena.fail_after = fail_after;
    file->uses = 1;
    bool filled = fill(file, path, text);
    file->arena.on_failure = on_failure;
    if (!filled) {
        text_let_go(file);
        return NULL;
    }
    return file;
}

struct text_file *text_hold(struct text_file *file)
{
    file->uses++;
    return file;
}

void text_let_go(struct text_file *file)
{
    if (file != NULL && --file->uses == 0) {
        arena_release(&file->arena);
        free(file);
    }
}

const struct syntax_file *text_tree(struct text_file *file)
{
    if (file->tree != NULL) {
        return file->tree;
    }
    struct arena *arena = &file->arena;
    struct source_set *sources = ARENA_NEW(arena, struct source_set);
    source_start(sources, arena);
    struct diagnostics *aside = ARENA_NEW(arena, struct diagnostics);
    diagnostics_start(aside, arena, sources);
    names_start(&file->names, arena);
    char *bytes = arena_copy(arena, file->text.at, file->text.length); /* what is no text is masked in it */
    struct source_file *source = source_add(sources, file->path, bytes, file->text.length, false);
    struct syntax_file *tree = syntax_parse(arena, &file->names, aside, source, true);
    for (size_t i = 0; i < aside->count; i++) {
        source->faults += aside->items[i]->id == DIAG_SYNTAX || aside->items[i]->id == DIAG_TEXT_ENCODING;
    }
    file->tree = tree;
    return tree;
}

/* ---- places ---- */

/* Units of UTF-16: one for each character, two for one beyond the first 65536; a byte that is no text is shown as one. */
static size_t utf16_units(const char *bytes, size_t length)
{
    size_t units = 0;
    for (size_t i = 0; i < length;) {
        size_t size = utf8_character_length((struct text){bytes + i, length - i});
        units += size == 4 ? 2 : 1;
        i += size;
    }
    return units;
}

struct potash_place text_place(const struct text_file *file, size_t offset)
{
    offset = offset > file->text.length ? file->text.length : offset;
    size_t low = 0;
    size_t high = file->line_count; /* the line is in [low, high) */
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (file->lines[middle] <= offset) {
            low = middle;
        } else {
            high = middle;
        }
    }
    size_t column = offset - file->lines[low];
    return (struct potash_place){offset, low, column, utf16_units(file->text.at + file->lines[low], column)};
}

struct potash_range text_range(const struct text_file *file, size_t begin, size_t end)
{
    return (struct potash_range){text_place(file, begin), text_place(file, end)};
}

struct text text_line(const struct text_file *file, size_t line)
{
    const char *from = file->text.at + file->lines[line];
    const char *upto = file->text.at + (line + 1 < file->line_count ? file->lines[line + 1] : file->text.length);
    while (upto > from && (upto[-1] == '\n' || upto[-1] == '\r')) {
        upto--;
    }
    return (struct text){from, (size_t)(upto - from)};
}

size_t text_offset(const struct text_file *file, size_t line, size_t column, bool utf16)
{
    if (line >= file->line_count) {
        return file->text.length;
    }
    struct text text = text_line(file, line);
    size_t at = 0;
    for (size_t units = 0; at < text.length && units < column;) {
        size_t size = utf8_character_length((struct text){text.at + at, text.length - at});
        units += !utf16 ? size : size == 4 ? 2 : 1;
        if (units > column) { /* within a character: before it */
            break;
        }
        at += size;
    }
    return file->lines[line] + at;
}

/* ---- paths ---- */

void path_normalise(const char *path, char *to)
{
    size_t length = 0;
    size_t fixed = 0; /* nothing before it is taken back: the root, and what leads out of the folder */
    if (path[0] == '/') {
        to[length++] = '/';
        fixed = 1;
    }
    while (*path != '\0') {
        size_t part = strcspn(path, "/");
        bool up = part == 2 && path[0] == '.' && path[1] == '.';
        if (up && length > fixed) {
            do {
                length--;
            } while (length > fixed && to[length - 1] != '/');
        } else if (up && fixed == 1 && to[0] == '/') {
            /* above the root there is the root */
        } else if (part > 0 && !(part == 1 && path[0] == '.')) {
            memmove(to + length, path, part);
            length += part;
            to[length++] = '/';
            fixed = up ? length : fixed;
        }
        path += part + (path[part] == '/');
    }
    to[length > 1 && to[length - 1] == '/' ? length - 1 : length] = '\0';
}

bool path_is_inside(const char *path, const char *folder)
{
    size_t length = strlen(folder);
    if (length == 0) {
        return path[0] != '/' && strncmp(path, "../", 3) != 0;
    }
    bool root = folder[length - 1] == '/';
    return strncmp(path, folder, length) == 0 && (root || path[length] == '/');
}
