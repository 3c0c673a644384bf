/* A line, and a pattern, as words, numbers and signs. */
#include "library/wording_parts.h"

static size_t character_length(struct text text, size_t at)
{
    unsigned char c = (unsigned char)text.at[at];
    size_t length = c < 0x80 ? 1 : c < 0xE0 ? 2 : c < 0xF0 ? 3 : 4;
    return at + length <= text.length ? length : 1;
}

static bool stands(struct text text, size_t at, const char *sign)
{
    size_t length = strlen(sign);
    return at + length <= text.length && memcmp(text.at + at, sign, length) == 0;
}

static bool stands_any(struct text text, size_t at, const char *const *signs)
{
    for (size_t i = 0; signs[i] != NULL; i++) {
        if (stands(text, at, signs[i])) {
            return true;
        }
    }
    return false;
}

static bool is_blank(struct text text, size_t at)
{
    static const char *const blanks[] = {" ", "\t", "\u00A0", "\u2009", "\u202F", NULL};
    return at < text.length && stands_any(text, at, blanks);
}

static bool is_vulgar(struct text text, size_t at)
{
    unsigned char c = (unsigned char)text.at[at];
    unsigned char second = at + 1 < text.length ? (unsigned char)text.at[at + 1] : 0;
    unsigned char third = at + 2 < text.length ? (unsigned char)text.at[at + 2] : 0;
    return (c == 0xC2 && second >= 0xBC && second <= 0xBE) || (c == 0xE2 && second == 0x85 && third >= 0x90 && third <= 0x9E);
}

static size_t digits(struct text text, size_t at)
{
    size_t end = at;
    while (end < text.length && text_is_digit(text.at[end])) {
        end++;
    }
    return end - at;
}

/* A figure with what belongs to it: "1.5", "1,5", "1/2", "1 1/2", "1½", "½", "11·5". */
static size_t number_length(struct text text, size_t at)
{
    size_t end = at + digits(text, at);
    static const char *const points[] = {".", ",", "\u00B7", "/", "\u2044", NULL};
    bool fraction = false;
    while (end > at && end < text.length && stands_any(text, end, points)) {
        size_t sign = character_length(text, end);
        size_t more = end + sign >= text.length ? 0 : digits(text, end + sign);
        if (more == 0) {
            break;
        }
        fraction = fraction || text.at[end] == '/' || sign == 3;
        end += sign + more;
    }
    if (end == at && at + 1 < text.length && text.at[at] == '.' && text_is_digit(text.at[at + 1])) {
        end = at + 1 + digits(text, at + 1); /* ".880" */
    }
    size_t next = end;
    while (end > at && !fraction && is_blank(text, next)) {
        next += character_length(text, next);
    }
    if (next < text.length && is_vulgar(text, next)) {
        return next + character_length(text, next) - at;
    }
    size_t above = next < text.length && next > end ? digits(text, next) : 0;
    if (above > 0 && stands(text, next + above, "/") && digits(text, next + above + 1) > 0) { /* "1 1/2" */
        return next + above + 1 + digits(text, next + above + 1) - at;
    }
    return end - at;
}

/* "8x10", "8 × 10 in": a size of sheet. */
static size_t size_length(struct text text, size_t at)
{
    size_t first = number_length(text, at);
    size_t end = at + first;
    while (is_blank(text, end)) {
        end++;
    }
    bool times = first > 0 && end < text.length && (text.at[end] == 'x' || stands(text, end, "×"));
    if (!times) {
        return 0;
    }
    end += character_length(text, end);
    while (is_blank(text, end)) {
        end++;
    }
    size_t second = end < text.length ? number_length(text, end) : 0;
    if (second == 0) {
        return 0;
    }
    end += second;
    size_t unit = end;
    while (is_blank(text, unit)) {
        unit++;
    }
    static const char *const units[] = {"inches", "inch", "in", "cm", "mm", NULL};
    for (size_t i = 0; units[i] != NULL; i++) {
        size_t behind = unit + strlen(units[i]);
        if (stands(text, unit, units[i]) && (behind >= text.length || !((text.at[behind] | 0x20) >= 'a' && (text.at[behind] | 0x20) <= 'z'))) {
            return behind - at;
        }
    }
    return end - at;
}

static bool is_soft(struct text text, size_t at)
{
    static const char *const soft[] = {",", ";", ".", ":", "(", ")", "[", "]", "–", "—", "*", "†", "‡", "…", "•", "·", "!", NULL};
    bool apart = (at == 0 || is_blank(text, at - 1)) && (at + 1 >= text.length || is_blank(text, at + 1));
    bool in_word = at > 0 && at + 1 < text.length && !text_is_digit(text.at[at - 1]) && !text_is_digit(text.at[at + 1]) &&
                   !is_blank(text, at - 1) && !is_blank(text, at + 1);
    bool between_figures = text.at[at] == ':' && at > 0 && at + 1 < text.length && text_is_digit(text.at[at - 1]) && text_is_digit(text.at[at + 1]);
    return (stands_any(text, at, soft) && !between_figures) || (text.at[at] == '-' && (apart || in_word));
}

static bool is_of_word(struct text text, size_t at)
{
    unsigned char c = (unsigned char)text.at[at];
    bool letter = ((c | 0x20) >= 'a' && (c | 0x20) <= 'z') || stands(text, at, "°");
    if (letter || c < 0x80) {
        return letter;
    }
    static const char *const signs[] = {"×", "“", "”", "„", "«", "»", "′", "″", "⁄", "½", "℥", "ʒ", "℈", NULL};
    return !is_blank(text, at) && !is_vulgar(text, at) && !is_soft(text, at) && !stands_any(text, at, signs);
}

static size_t word_length(struct text text, size_t at)
{
    size_t end = at;
    while (end < text.length) {
        bool inner = end > at && (stands(text, end, "'") || stands(text, end, "’")) && end + 1 < text.length && is_of_word(text, end + 1);
        bool figure = end > at && text_is_digit(text.at[end]);
        if (!inner && !figure && !is_of_word(text, end)) {
            break;
        }
        end += character_length(text, end);
    }
    return end - at;
}

size_t wording_items(struct library *library, struct text text, struct item **items)
{
    *items = ARENA_ARRAY(library->arena, struct item, text.length + 1);
    size_t count = 0;
    for (size_t at = 0; at < text.length;) {
        if (is_blank(text, at)) {
            at += character_length(text, at);
            continue;
        }
        struct item *item = &(*items)[count++];
        size_t size = size_length(text, at);
        size_t number = size > 0 ? 0 : is_vulgar(text, at) ? character_length(text, at) : number_length(text, at);
        size_t word = size + number > 0 ? 0 : word_length(text, at);
        size_t length = size + number + word;
        item->kind = size > 0 ? ITEM_SIZE : number > 0 ? ITEM_NUMBER : word > 0 ? ITEM_WORD : is_soft(text, at) ? ITEM_SOFT : ITEM_SIGN;
        length = length > 0 ? length : character_length(text, at);
        item->text = (struct text){text.at + at, length};
        item->ends_clause = item->kind == ITEM_SOFT && strchr(",;.:", text.at[at]) != NULL;
        item->word = names_folded(library->names, names_find(library->names, item->text));
        at += length;
    }
    return count;
}
