/* UTF-8 by utf8proc, with a fast way through plain ASCII. */
#include "base/utf8.h"

#include "base/shown.h"

#include <stdint.h>
#include <utf8proc.h>

/* Past the plain ASCII at `at`, 64 bytes at a time: most texts are little else. */
static size_t skip_ascii(const char *bytes, size_t at, size_t end)
{
    while (at + 64 <= end) {
        uint64_t eights[8];
        memcpy(eights, bytes + at, sizeof eights);
        uint64_t all = (eights[0] | eights[1] | eights[2] | eights[3]) | (eights[4] | eights[5] | eights[6] | eights[7]);
        if ((all & 0x8080808080808080u) != 0) {
            break;
        }
        at += 64;
    }
    while (at < end && (unsigned char)bytes[at] < 0x80) {
        at++;
    }
    return at;
}

size_t utf8_walk_to_fault(struct utf8_walk *walk)
{
    const char *bytes = walk->bytes;
    size_t at = walk->at;
    if (walk->nul <= at) {
        const char *nul = at < walk->length ? memchr(bytes + at, '\0', walk->length - at) : NULL;
        walk->nul = nul != NULL ? (size_t)(nul - bytes) : walk->length;
    }
    const size_t end = walk->nul;
    for (at = skip_ascii(bytes, at, end); at < end; at = skip_ascii(bytes, at, end)) {
        utf8proc_int32_t code;
        utf8proc_ssize_t size =
            utf8proc_iterate((const utf8proc_uint8_t *)bytes + at, (utf8proc_ssize_t)(walk->length - at), &code);
        if (size < 1) {
            break;
        }
        if (walk->meet != NULL) {
            walk->meet(walk->context, at, code);
        }
        at += (size_t)size;
    }
    return walk->at = at;
}

size_t utf8_first_fault(const char *bytes, size_t length, size_t from)
{
    return utf8_walk_to_fault(&(struct utf8_walk){.bytes = bytes, .length = length, .at = from});
}

void utf8_mask_faults(char *bytes, size_t length, size_t from)
{
    for (size_t at = from; at < length;) {
        utf8proc_int32_t code;
        bool ascii = bytes[at] > 0;
        utf8proc_ssize_t size = ascii ? 1 : bytes[at] == '\0' ? 0
            : utf8proc_iterate((const utf8proc_uint8_t *)bytes + at, (utf8proc_ssize_t)(length - at), &code);
        if (size < 1) {
            bytes[at] = '?';
            size = 1;
        }
        at += (size_t)size;
    }
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
        int columns = shown_is_replaced(text, i, (size_t)size, code) ? 1 : utf8proc_charwidth(code);
        width += (size_t)(columns < 0 ? 0 : columns);
        i += (size_t)size;
    }
    return width;
}
