/* Lines of plain text: breaking between words, hanging indents, no blanks at the end. */
#include "page/page_text.h"

#include "base/shown.h"
#include "base/utf8.h"

static const char no_break_space[] = "\xC2\xA0";

enum { FLOW_GAP = 3 /* between short things on one line */ };

static struct text character_at(struct text text, size_t at)
{
    struct text rest = {text.at + at, text.length - at};
    return (struct text){rest.at, utf8_character_length(rest)};
}

static bool is_one_of(struct text character, const char *const *set)
{
    for (; *set != NULL; set++) {
        if (text_is(character, *set)) {
            return true;
        }
    }
    return false;
}

/* Punctuation that must not start a line where words are written without blanks (common practice of setting Chinese and
 * Japanese, no source). */
static bool must_not_start_line(struct text character)
{
    static const char *const closing[] = {"、", "。", "，", "．", "：", "；", "？", "！", "）", "」",
                                          "』", "】", "〉", "》", "〕", "ー", "々", "・", NULL};
    return is_one_of(character, closing);
}

static bool must_not_end_line(struct text character)
{
    static const char *const opening[] = {"（", "「", "『", "【", "〈", "《", "〔", NULL};
    return is_one_of(character, opening);
}

/* Whether the word that ends before `at` is a figure ("12", "0.5", "1+29", "½"): what follows is its unit. */
static bool figure_before(struct text text, size_t at)
{
    static const char *const parts[] = {"½", "¼", "¾", "⅓", "⅔", "⅛", "–", "×", "±", NULL};
    bool figure = false;
    for (size_t i = at; i > 0;) {
        size_t end = i;
        do {
            i--;
        } while (i > 0 && ((unsigned char)text.at[i] & 0xC0) == 0x80);
        char c = text.at[i];
        if (c == ' ') {
            break;
        }
        if (c >= '0' && c <= '9') {
            figure = true;
        } else if (is_one_of((struct text){text.at + i, end - i}, parts)) {
            figure = true;
        } else if (strchr(".,+-/:(*", c) == NULL) {
            return false;
        }
    }
    return figure;
}

enum opportunity { NO_BREAK, POOR_BREAK, GOOD_BREAK };

/* May a line end before the character at `at`?  `at` is neither 0 nor the end. */
static enum opportunity opportunity_before(struct text text, size_t at)
{
    if (text.at[at] == ' ') {
        return figure_before(text, at) ? POOR_BREAK : GOOD_BREAK;
    }
    struct text next = character_at(text, at);
    size_t previous = at - 1;
    while (previous > 0 && ((unsigned char)text.at[previous] & 0xC0) == 0x80) {
        previous--;
    }
    struct text last = character_at(text, previous);
    if (last.at[0] == ' ' || utf8_width(next) == 0) {
        return NO_BREAK;
    }
    if ((utf8_width(next) == 2 || utf8_width(last) == 2) && !must_not_start_line(next) && !must_not_end_line(last) &&
        !text_is(next, no_break_space) && !text_is(last, no_break_space) && next.length > 1 && last.length > 1 &&
        shown_unseen_length(next, 0) == 0 && shown_unseen_length(last, 0) == 0) { /* a picture of several, joined, stays whole */
        return GOOD_BREAK;
    }
    return NO_BREAK;
}

struct text text_take_line(struct text *rest, size_t width)
{
    struct text text = *rest;
    size_t good = 0;
    size_t poor = 0;
    size_t taken = 0;
    size_t at = 0;
    while (at < text.length) {
        if (at > 0) {
            enum opportunity opportunity = opportunity_before(text, at);
            good = opportunity == GOOD_BREAK ? at : good;
            poor = opportunity == POOR_BREAK ? at : poor;
        }
        struct text character = character_at(text, at);
        size_t columns = utf8_width(character);
        /* A blank may hang over the end: it is dropped there. */
        if (taken + columns > width && character.at[0] != ' ' && at > 0) {
            at = good > 0 ? good : poor > 0 ? poor : at;
            break;
        }
        taken += columns;
        at += character.length;
    }
    struct text line = {text.at, at};
    rest->at += at;
    rest->length -= at;
    *rest = text_trim(*rest);
    return text_trim(line);
}

size_t text_longest_piece(struct text text)
{
    size_t longest = 0;
    size_t start = 0;
    for (size_t at = 0; at < text.length;) {
        at += character_at(text, at).length;
        if (at == text.length || opportunity_before(text, at) == GOOD_BREAK) {
            size_t columns = utf8_width(text_trim((struct text){text.at + start, at - start}));
            longest = columns > longest ? columns : longest;
            start = at;
        }
    }
    return longest;
}

void setter_go(struct setter *setter, size_t column)
{
    if (column > setter->column) {
        buffer_repeat(setter->out, ' ', column - setter->column);
        setter->column = column;
    }
}

void setter_print(struct setter *setter, struct text text)
{
    text = shown_line(setter->out->arena, text);
    setter->column += utf8_width(text);
    for (size_t i = 0; i < text.length;) {
        struct text character = character_at(text, i);
        buffer_text(setter->out, text_is(character, no_break_space) ? TEXT(" ") : character);
        i += character.length;
    }
}

void setter_repeat(struct setter *setter, struct text character, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        setter_print(setter, character);
    }
}

void setter_end_line(struct setter *setter)
{
    struct buffer *out = setter->out;
    while (out->length > setter->line_start && out->bytes[out->length - 1] == ' ') {
        out->length--;
    }
    if (out->length > setter->line_start) {
        buffer_character(out, '\n');
        setter->empty_lines = 0;
        setter->started = true;
    }
    setter->line_start = out->length;
    setter->column = 0;
}

void setter_space(struct setter *setter, size_t count)
{
    setter_end_line(setter);
    while (setter->started && setter->empty_lines < count) {
        buffer_character(setter->out, '\n');
        setter->empty_lines++;
    }
    setter->line_start = setter->out->length;
}

void setter_wrap(struct setter *setter, struct text text, size_t hang, size_t end)
{
    while (text.length > 0) {
        setter_print(setter, text_take_line(&text, end > setter->column ? end - setter->column : 1));
        if (text.length > 0) {
            setter_end_line(setter);
            setter_go(setter, hang);
        }
    }
}

void setter_flow(struct setter *setter, struct text text, size_t left, size_t spacing)
{
    if (setter->column > left) {
        if (setter->column + FLOW_GAP + utf8_width(text) <= setter->width) {
            setter_go(setter, setter->column + FLOW_GAP);
        } else {
            setter_space(setter, spacing);
        }
    }
    setter_go(setter, left);
    bool fits = setter->column + utf8_width(text) <= setter->width;
    setter_wrap(setter, text, fits ? setter->column : left + 2, setter->width);
}

struct text text_blank(struct arena *arena, size_t columns)
{
    char *blank = arena_allocate(arena, columns + 1);
    memset(blank, '_', columns);
    return (struct text){blank, columns};
}
