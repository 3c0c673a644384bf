/* Texts on their way onto a page: what they must not bring along, and the figures that are marked in them. */
#include "page/kept_text.h"

#include "base/shown.h"
#include "base/utf8.h"

/* What a character of a text that came from outside turns into. */
enum treatment { KEEP, MAKE_BLANK, MAKE_NO_BREAK_SPACE, REPLACE };

/* `c` is one character of valid UTF-8. */
static enum treatment treatment_of(struct text c)
{
    unsigned char first = (unsigned char)c.at[0];
    if (c.length == 1) {
        return first == ' ' || (first >= '\t' && first <= '\r') ? MAKE_BLANK : KEEP;
    }
    if (first == 0xE3 && (unsigned char)c.at[1] == 0x80 && (unsigned char)c.at[2] == 0x80) {
        return MAKE_BLANK; /* U+3000, the wide blank */
    }
    if (first == 0xE2 && (unsigned char)c.at[1] == 0x80) {
        unsigned char third = (unsigned char)c.at[2];
        if (third == 0x87 || third == 0xAF) {
            return MAKE_NO_BREAK_SPACE; /* U+2007, U+202F: as wide as a figure, narrow */
        }
        return third <= 0x8A ? MAKE_BLANK : KEEP; /* U+2000 to U+200A */
    }
    return page_figure_mark(c) != ' ' ? REPLACE : KEEP; /* a mark out of place */
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

static size_t add_sign(char *out)
{
    memcpy(out, SHOWN_SIGN, sizeof SHOWN_SIGN - 1);
    return sizeof SHOWN_SIGN - 1;
}

struct text page_words(struct arena *arena, struct text text, struct page_figure **figures)
{
    size_t fault = utf8_first_fault(text.at, text.length, 0);
    bool grows = fault < text.length; /* by 2 bytes for each of 1 */
    char *out = ARENA_ARRAY(arena, char, text.length * (grows ? sizeof SHOWN_SIGN - 1 : 1) + 1);
    size_t length = 0;
    struct page_figure *none = NULL;
    struct marks marks = {arena, NULL, figures == NULL ? &none : figures};
    for (size_t i = 0; i < text.length;) {
        if (fault < i) {
            fault = utf8_first_fault(text.at, text.length, i);
        }
        if (fault == i) { /* NUL, or a byte that is no UTF-8 */
            length += add_sign(out + length);
            i++;
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
        case REPLACE:
            length += add_sign(out + length);
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
