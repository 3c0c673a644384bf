/* Ids of batches: the day and a letter, or whatever somebody calls them. */
#include "store/mixing.h"

#include "base/utf8.h"

#include <stdlib.h>

/* Of "2026-03-04 ab RK" the letters behind the day, else the figures that the id ends in; empty where it has neither. */
static struct text counted_by(struct text id)
{
    enum { DAY = 10 };
    size_t from = DAY + 1;
    size_t end = from;
    if (id.length > from && id.at[DAY] == ' ' && calendar_day((struct text){id.at, DAY}) != CALENDAR_NO_DAY) {
        while (end < id.length && id.at[end] >= 'a' && id.at[end] <= 'z') {
            end++;
        }
        if (end > from && end - from <= 4 && (end == id.length || id.at[end] == ' ')) {
            return (struct text){id.at + from, end - from};
        }
    }
    from = end = id.length;
    while (from > 0 && end - from < 9 && text_is_digit(id.at[from - 1])) {
        from--;
    }
    return (struct text){id.at + from, end - from};
}

/* a is 1, z 26, aa 27. */
static long letters_value(struct text letters)
{
    long value = 0;
    for (size_t i = 0; i < letters.length; i++) {
        value = value * 26 + (letters.at[i] - 'a' + 1);
    }
    return value;
}

static const char *letters_print(struct arena *arena, long value)
{
    char letters[16];
    size_t at = sizeof letters - 1;
    letters[at] = '\0';
    for (; value > 0; value = (value - 1) / 26) {
        letters[--at] = (char)('a' + (value - 1) % 26);
    }
    return arena_format(arena, "%s", letters + at);
}

struct text batch_id_after(struct arena *arena, struct text id, long more)
{
    struct text counter = counted_by(id);
    if (counter.length == 0) {
        return text_from(arena_format(arena, "%.*s %s", TEXT_ARGUMENTS(id), letters_print(arena, more + 1)));
    }
    const char *end = counter.at + counter.length;
    int before = (int)(counter.at - id.at);
    int behind = (int)(id.length - (size_t)(end - id.at));
    return text_is_digit(*counter.at)
               ? text_from(arena_format(arena, "%.*s%0*ld", before, id.at, (int)counter.length, strtol(counter.at, NULL, 10) + more))
               : text_from(arena_format(arena, "%.*s%s%.*s", before, id.at, letters_print(arena, letters_value(counter) + more), behind, end));
}

static void look_at_id(struct text id, struct text day, long *last)
{
    struct text counter = counted_by(id);
    if (counter.length > 0 && !text_is_digit(*counter.at) && id.length > day.length && memcmp(id.at, day.at, day.length) == 0) {
        long letters = letters_value(counter);
        *last = letters > *last ? letters : *last;
    }
}

/* "RK" of "Rosa Kern" or "R. K.". */
static struct text initials(struct arena *arena, struct text name)
{
    struct buffer out;
    buffer_start(&out, arena);
    bool starts = true;
    for (size_t i = 0; i < name.length;) {
        struct text rest = {name.at + i, name.length - i};
        size_t length = utf8_character_length(rest);
        bool gap = *rest.at == ' ' || *rest.at == '.' || *rest.at == '-' || *rest.at == '"';
        if (starts && !gap) {
            buffer_add(&out, rest.at, length);
            char *first = out.bytes + out.length - length;
            *first = *first >= 'a' && *first <= 'z' ? (char)(*first - 'a' + 'A') : *first;
        }
        starts = gap;
        i += length;
    }
    buffer_finish(&out);
    return (struct text){out.bytes, out.length};
}

struct text batches_new_id(const struct batches *batches, struct arena *arena, struct text day, struct text by,
                           const struct syntax_file *taken)
{
    long last = 0;
    for (const struct mixing *batch = batches->first; batch != NULL; batch = batch->next) {
        look_at_id(batch->id, day, &last);
    }
    const struct declaration *declaration = taken == NULL ? NULL : taken->declarations;
    for (; declaration != NULL; declaration = declaration->next) {
        if (declaration->kind == DECLARE_BATCH) {
            look_at_id(text_trim(declaration->title), day, &last);
        }
    }
    struct text who = initials(arena, by);
    return text_from(arena_format(arena, "%.*s %s%s%.*s", TEXT_ARGUMENTS(day), letters_print(arena, last + 1), who.length > 0 ? " " : "",
                                  TEXT_ARGUMENTS(who)));
}
