/* Source files and positions in them. */
#include "source/source.h"

#include "base/shown.h"
#include "base/utf8.h"

void source_start(struct source_set *set, struct arena *arena)
{
    *set = (struct source_set){.arena = arena};
}

enum { NULS_OF_A_TEXT = 20 /* lines with NUL bytes; with more it is no text, with fewer perhaps one in another encoding */ };

bool source_is_text(const char *bytes, size_t length)
{
    const char *end = bytes + length;
    int lines = 0;
    for (const char *at = bytes; at < end && (at = memchr(at, '\0', (size_t)(end - at))) != NULL;) {
        if (++lines > NULS_OF_A_TEXT) {
            return false;
        }
        at = memchr(at, '\n', (size_t)(end - at));
        if (at == NULL) {
            break;
        }
    }
    return true;
}

const char *source_show_path(struct arena *arena, const char *path)
{
    struct text text = text_from(path);
    return utf8_first_fault(text.at, text.length, 0) == text.length ? path : shown_line(arena, text).at;
}

struct source_file *source_add(struct source_set *set, const char *path, char *bytes, size_t length, bool of_library)
{
    uint64_t base = 1; /* offset 0 stands for "nowhere" */
    if (set->count > 0) {
        const struct source_file *last = set->files[set->count - 1];
        base = (uint64_t)last->base + last->length + 1;
    }
    if (length > SOURCE_LONGEST || base + length + 1 > UINT32_MAX) {
        return NULL;
    }
    if (set->count == set->capacity) {
        size_t capacity = set->capacity == 0 ? 16 : set->capacity * 2;
        struct source_file **files = ARENA_ARRAY(set->arena, struct source_file *, capacity);
        if (set->count > 0) {
            memcpy(files, set->files, set->count * sizeof *files);
        }
        set->files = files;
        set->capacity = capacity;
    }
    struct source_file *file = ARENA_NEW(set->arena, struct source_file);
    file->path = path;
    file->name = source_show_path(set->arena, path);
    file->bytes = bytes;
    file->length = (uint32_t)length;
    file->base = (uint32_t)base;
    file->of_library = of_library;
    set->files[set->count++] = file;
    return file;
}

struct source_file *source_file_at(const struct source_set *set, uint32_t offset)
{
    size_t low = 0;
    size_t high = set->count;
    while (high - low > 1) {
        size_t middle = (low + high) / 2;
        if (set->files[middle]->base <= offset) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return set->count == 0 ? NULL : set->files[low];
}

/* The text is counted through in pieces; a count of one piece fits a byte, so that the compiler can take many bytes at a time. */
enum { PIECE = 128, BLOCK = 4 * PIECE };

static uint32_t newlines_in(const char *at, size_t length)
{
    uint32_t count = 0;
    for (; length >= PIECE; at += PIECE, length -= PIECE) {
        unsigned char in_piece = 0;
        for (size_t i = 0; i < PIECE; i++) {
            in_piece = (unsigned char)(in_piece + (at[i] == '\n'));
        }
        count += in_piece;
    }
    for (size_t i = 0; i < length; i++) {
        count += at[i] == '\n';
    }
    return count;
}

static void index_lines(const struct source_set *set, struct source_file *file)
{
    size_t blocks = file->length / BLOCK + 1;
    file->newlines_before = ARENA_ARRAY(set->arena, uint32_t, blocks);
    uint32_t count = 0;
    for (size_t block = 0; block < blocks; block++) {
        file->newlines_before[block] = count;
        size_t left = file->length - block * BLOCK;
        count += newlines_in(file->bytes + block * BLOCK, left < BLOCK ? left : BLOCK);
    }
}

/* The number of the line that `within` lies on, from 1, and where it begins. */
static uint32_t line_at(const struct source_file *file, uint32_t within, uint32_t *begin)
{
    uint32_t block = within / BLOCK;
    uint32_t line = 1 + file->newlines_before[block] + newlines_in(file->bytes + block * BLOCK, within - block * BLOCK);
    while (within > 0 && file->bytes[within - 1] != '\n') {
        within--;
    }
    bool byte_order_mark = within == 0 && file->length >= 3 && memcmp(file->bytes, "\xEF\xBB\xBF", 3) == 0;
    *begin = byte_order_mark ? 3 : within; /* which takes no column */
    return line;
}

/* The column, and where the line ends, of a place whose line is known. */
static struct place place_on_line(struct place place, uint32_t within)
{
    const struct source_file *file = place.file;
    const char *from = file->bytes + place.line_begin;
    const char *newline = memchr(from, '\n', file->length - place.line_begin);
    uint32_t line_end = newline == NULL ? file->length : (uint32_t)(newline - file->bytes);
    if (line_end > place.line_begin && file->bytes[line_end - 1] == '\r') {
        line_end--;
    }
    place.line_length = line_end - place.line_begin;
    uint32_t upto = within > line_end ? line_end : within < place.line_begin ? place.line_begin : within;
    place.column = 1 + (uint32_t)utf8_count((struct text){from, upto - place.line_begin});
    return place;
}

struct place source_place(const struct source_set *set, uint32_t offset)
{
    struct source_file *file = source_file_at(set, offset);
    struct place place = {.file = file, .line = 1, .column = 1};
    if (file == NULL) {
        return place;
    }
    if (file->newlines_before == NULL) {
        index_lines(set, file);
    }
    uint32_t within = offset - file->base < file->length ? offset - file->base : file->length;
    place.line = line_at(file, within, &place.line_begin);
    return place_on_line(place, within);
}

struct place source_place_from(const struct source_set *set, const struct place *known, uint32_t offset)
{
    const struct source_file *file = known->file;
    if (file == NULL || offset < file->base + known->line_begin || offset - file->base > file->length ||
        offset - file->base - known->line_begin > BLOCK) {
        return source_place(set, offset);
    }
    struct place place = *known;
    const char *at = file->bytes + place.line_begin;
    const char *end = file->bytes + (offset - file->base);
    for (const char *newline = memchr(at, '\n', (size_t)(end - at)); newline != NULL; newline = memchr(at, '\n', (size_t)(end - at))) {
        at = newline + 1;
        place.line++;
    }
    place.line_begin = (uint32_t)(at - file->bytes);
    return place_on_line(place, offset - file->base);
}

struct text source_text(const struct source_set *set, struct span span)
{
    const struct source_file *file = source_file_at(set, span.begin);
    if (file == NULL || span.end <= span.begin) {
        return (struct text){"", 0};
    }
    return (struct text){file->bytes + (span.begin - file->base), span.end - span.begin};
}

struct text source_line(const struct source_set *set, struct place place)
{
    (void)set;
    return (struct text){place.file->bytes + place.line_begin, place.line_length};
}
