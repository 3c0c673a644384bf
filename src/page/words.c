/* Texts on their way onto a page: what they must not bring along, and the figures that are marked in them. */
#include "page/words.h"

#include "base/utf8.h"

/* What a character of a text that came from outside turns into. */
enum treatment { KEEP, MAKE_BLANK, MAKE_NO_BREAK_SPACE, MAKE_QUESTION };

/* `c` is one character of valid UTF-8. */
static enum treatment treatment_of(struct text c)
{
    unsigned char first = (unsigned char)c.at[0];
    if (c.length == 1) {
        if (first == ' ' || (first >= '\t' && first <= '\r')) {
            return MAKE_BLANK;
        }
        return first < 0x20 || first == 0x7F ? MAKE_QUESTION : KEEP;
    }
    unsigned char second = (unsigned char)c.at[1];
    if (first == 0xC2) {
        return second < 0xA0 ? MAKE_QUESTION : KEEP; /* U+0080 to U+009F: some terminals obey them */
    }
    if (first == 0xD8 && second == 0x9C) {
        return MAKE_QUESTION; /* U+061C, a mark of direction */
    }
    if (first == 0xE3 && second == 0x80 && (unsigned char)c.at[2] == 0x80) {
        return MAKE_BLANK; /* U+3000, the wide blank */
    }
    if (first == 0xE2) {
        unsigned char third = (unsigned char)c.at[2];
        if (second == 0x80) {
            if (third == 0x87 || third == 0xAF) {
                return MAKE_NO_BREAK_SPACE; /* U+2007, U+202F: as wide as a figure, narrow */
            }
            if (third <= 0x8A || third == 0xA8 || third == 0xA9) {
                return MAKE_BLANK; /* U+2000 to U+200A, and U+2028, U+2029: ends of lines and paragraphs */
            }
            /* U+200E, U+200F, U+202A to U+202E: could show the figures of an amount in another order. */
            return third == 0x8E || third == 0x8F || (third >= 0xAA && third <= 0xAE) ? MAKE_QUESTION : KEEP;
        }
        if (second == 0x81 && third >= 0xA6 && third <= 0xA9) {
            return MAKE_QUESTION; /* U+2066 to U+2069, likewise */
        }
    }
    if (page_figure_mark(c) != ' ') {
        return MAKE_QUESTION; /* a mark out of place */
    }
    return KEEP;
}

/* The marks of figures met so far. */
struct marks {
    struct arena *arena;
    struct page_figure *open; /* whose end has not been met */
    struct page_figure **next;
};

/* Takes a mark at the start of `rest`; how many bytes it has, 0 when there is none. */
static size_t take_mark(struct marks *marks, struct text rest, size_t length)
{
    char mark = page_figure_mark(rest);
    if (mark == ')' && marks->open != NULL) {
        marks->open->length = length - marks->open->at;
        *marks->next = marks->open;
        marks->next = &marks->open->next;
        marks->open = NULL;
        return utf8_character_length(rest);
    }
    if (mark != '(' || marks->open != NULL) {
        return 0;
    }
    struct page_figure *figure = ARENA_NEW(marks->arena, struct page_figure);
    size_t size = page_figure_read(rest, figure);
    figure->at = length;
    marks->open = size > 0 ? figure : NULL;
    return size;
}

struct text page_words(struct arena *arena, struct text text, struct page_figure **figures)
{
    char *out = ARENA_ARRAY(arena, char, text.length + 1);
    size_t length = 0;
    size_t fault = 0;
    struct page_figure *none = NULL;
    struct marks marks = {arena, NULL, figures == NULL ? &none : figures};
    for (size_t i = 0; i < text.length;) {
        if (fault <= i) {
            fault = utf8_first_fault(text.at, text.length, i);
        }
        if (fault == i) {
            out[length++] = '?'; /* NUL, or a byte that is no UTF-8 */
            i++;
            fault = 0;
            continue;
        }
        struct text rest = {text.at + i, text.length - i};
        size_t mark = take_mark(&marks, rest, length);
        if (mark > 0) {
            i += mark;
            continue;
        }
        size_t size = utf8_character_length(rest);
        switch (treatment_of((struct text){rest.at, size})) {
        case MAKE_BLANK:
            if (length > 0 && out[length - 1] != ' ') {
                out[length++] = ' ';
            }
            break;
        case MAKE_QUESTION:
            out[length++] = '?';
            break;
        case MAKE_NO_BREAK_SPACE: /* 2 bytes for 3 */
            out[length++] = '\xC2';
            out[length++] = '\xA0';
            break;
        case KEEP:
            memcpy(out + length, rest.at, size);
            length += size;
            break;
        }
        i += size;
    }
    while (length > 0 && out[length - 1] == ' ') {
        length--;
    }
    out[length] = '\0';
    return (struct text){out, length};
}
