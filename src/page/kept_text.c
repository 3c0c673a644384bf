/* Texts on their way onto a page: what they must not bring along, and where their figures then stand. */
#include "page/kept_text.h"

#include "base/shown.h"
#include "base/utf8.h"

/* What a character of a text that came from outside turns into. */
enum treatment { KEEP, MAKE_BLANK, MAKE_NO_BREAK_SPACE };

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
    return KEEP;
}

/* Figures on their way from where they stood to where they stand. */
struct moving {
    struct arena *arena;
    const struct page_figure *from; /* the first that has not ended yet */
    struct page_figure *open;       /* its copy, where it has begun */
    const struct page_figure *first, **end;
};

/* The text has been copied up to `at`, and stands there as `length` bytes. */
static void move_figures(struct moving *moving, size_t at, size_t length)
{
    while (moving->from != NULL) {
        if (moving->open == NULL && moving->from->at <= at) {
            moving->open = ARENA_NEW(moving->arena, struct page_figure);
            *moving->open = *moving->from;
            moving->open->at = length;
            moving->open->next = NULL;
        }
        if (moving->open == NULL || moving->from->at + moving->from->length > at) {
            return;
        }
        moving->open->length = length - moving->open->at;
        *moving->end = moving->open;
        moving->end = &moving->open->next;
        moving->from = moving->from->next;
        moving->open = NULL;
    }
}

static size_t add_sign(char *out)
{
    memcpy(out, SHOWN_SIGN, sizeof SHOWN_SIGN - 1);
    return sizeof SHOWN_SIGN - 1;
}

struct page_words page_words(struct arena *arena, struct page_words words)
{
    struct text text = words.text;
    size_t fault = utf8_first_fault(text.at, text.length, 0);
    bool grows = fault < text.length; /* by 2 bytes for each of 1 */
    char *out = ARENA_ARRAY(arena, char, text.length * (grows ? sizeof SHOWN_SIGN - 1 : 1) + 1);
    size_t length = 0;
    struct moving moving = {.arena = arena, .from = words.figures};
    moving.end = &moving.first;
    for (size_t i = 0; i < text.length;) {
        move_figures(&moving, i, length);
        if (fault < i) {
            fault = utf8_first_fault(text.at, text.length, i);
        }
        if (fault == i) { /* NUL, or a byte that is no UTF-8 */
            length += add_sign(out + length);
            i++;
            continue;
        }
        struct text rest = {text.at + i, text.length - i};
        size_t size = utf8_character_length(rest);
        switch (treatment_of((struct text){rest.at, size})) {
        case MAKE_BLANK:
            if (length > 0 && out[length - 1] != ' ') {
                out[length++] = ' ';
            }
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
    move_figures(&moving, text.length, length);
    while (length > 0 && out[length - 1] == ' ') {
        length--;
    }
    out[length] = '\0';
    return (struct page_words){{out, length}, moving.first};
}
