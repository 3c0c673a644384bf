/* UTF-8 by utf8proc, with a fast way through plain ASCII. */
#include "base/utf8.h"

#include <stdint.h>
#include <utf8proc.h>

size_t utf8_first_fault(const char *bytes, size_t length, size_t from)
{
    size_t at = from;
    while (at < length) {
        /* Eight bytes of ASCII without a NUL at a time. */
        while (at + 8 <= length) {
            uint64_t eight;
            memcpy(&eight, bytes + at, 8);
            uint64_t zero = (eight - 0x0101010101010101u) & ~eight & 0x8080808080808080u;
            if (((eight & 0x8080808080808080u) | zero) != 0) {
                break;
            }
            at += 8;
        }
        if (at >= length) {
            break;
        }
        if (bytes[at] == '\0') {
            return at;
        }
        if ((unsigned char)bytes[at] < 0x80) {
            at++;
            continue;
        }
        utf8proc_int32_t code;
        utf8proc_ssize_t size =
            utf8proc_iterate((const utf8proc_uint8_t *)bytes + at, (utf8proc_ssize_t)(length - at), &code);
        if (size < 1) {
            return at;
        }
        at += (size_t)size;
    }
    return length;
}

struct text utf8_fold_case(struct arena *arena, struct text text)
{
    /* A folded character is at most 3 times as long (U+0390). */
    char *out = arena_allocate(arena, text.length * 3 + 4);
    size_t length = 0;
    for (size_t i = 0; i < text.length;) {
        unsigned char c = (unsigned char)text.at[i];
        if (c < 0x80) {
            out[length++] = c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : (char)c;
            i++;
            continue;
        }
        utf8proc_int32_t code;
        utf8proc_ssize_t size =
            utf8proc_iterate((const utf8proc_uint8_t *)text.at + i, (utf8proc_ssize_t)(text.length - i), &code);
        if (size < 1) {
            out[length++] = text.at[i++];
            continue;
        }
        length += (size_t)utf8proc_encode_char(utf8proc_tolower(code), (utf8proc_uint8_t *)out + length);
        i += (size_t)size;
    }
    return (struct text){out, length};
}

size_t utf8_character_length(struct text text)
{
    unsigned char c = (unsigned char)text.at[0];
    size_t size = c < 0x80 ? 1 : c < 0xE0 ? 2 : c < 0xF0 ? 3 : 4;
    return size <= text.length ? size : 1;
}

size_t utf8_count(struct text text)
{
    size_t count = 0;
    for (size_t i = 0; i < text.length; i++) {
        count += ((unsigned char)text.at[i] & 0xC0) != 0x80;
    }
    return count;
}

size_t utf8_width(struct text text)
{
    size_t width = 0;
    for (size_t i = 0; i < text.length;) {
        if ((unsigned char)text.at[i] < 0x80) {
            width++;
            i++;
            continue;
        }
        utf8proc_int32_t code;
        utf8proc_ssize_t size =
            utf8proc_iterate((const utf8proc_uint8_t *)text.at + i, (utf8proc_ssize_t)(text.length - i), &code);
        if (size < 1) {
            width++;
            i++;
            continue;
        }
        int columns = utf8proc_charwidth(code);
        width += (size_t)(columns < 0 ? 0 : columns);
        i += (size_t)size;
    }
    return width;
}
