/* Signs that are not seen: which they are, and what is shown in their place. */
#include "base/shown.h"

#include "base/utf8.h"

#include <utf8proc.h>

static bool is_joiner(int32_t code)
{
    bool selector = (code >= 0xFE00 && code <= 0xFE0F) || (code >= 0xE0100 && code <= 0xE01EF);
    bool mongolian = code >= 0x180B && code <= 0x180F;
    return (code >= 0x200B && code <= 0x200D) || code == 0x034F || selector || mongolian;
}

bool shown_is_unseen(int32_t code)
{
    if (code < 0x300) { /* most of what is written */
        return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0xAD;
    }
    if ((code >= 0x2010 && code < 0x2028) || (code >= 0x2070 && code < 0x3000)) { /* dashes, quotes, fractions, rules */
        return false;
    }
    const utf8proc_property_t *property = utf8proc_get_property(code);
    bool format = property->category == UTF8PROC_CATEGORY_CF && property->boundclass != UTF8PROC_BOUNDCLASS_PREPEND;
    bool separator = property->category == UTF8PROC_CATEGORY_ZL || property->category == UTF8PROC_CATEGORY_ZP;
    bool set_aside = code == 0x2065 || (code >= 0xFFF0 && code <= 0xFFF8) || (code >= 0xE0000 && code <= 0xE0FFF); /* for more of them */
    return format || separator || property->ignorable || set_aside;
}

size_t shown_skip_plain(struct text text, size_t at)
{
    const uint64_t ones = 0x0101010101010101u;
    for (; at + 8 <= text.length; at += 8) {
        uint64_t eight;
        memcpy(&eight, text.at + at, sizeof eight);
        uint64_t below = eight - 0x20 * ones;        /* a byte below 0x20 gets its high bit, and so may those above one that is */
        uint64_t del = (eight ^ 0x7F * ones) - ones; /* likewise 0x7F */
        if (((eight | below | del) & 0x80 * ones) != 0) {
            break;
        }
    }
    while (at < text.length && (unsigned char)text.at[at] >= 0x20 && (unsigned char)text.at[at] < 0x7F) {
        at++;
    }
    return at;
}

/* The sign at `at`, and its length; -1 for a byte that is no UTF-8. */
static int32_t sign_at(struct text text, size_t at, size_t *size)
{
    utf8proc_int32_t code = (unsigned char)text.at[at];
    *size = 1;
    if (code >= 0x80) {
        utf8proc_ssize_t length = utf8proc_iterate((const utf8proc_uint8_t *)text.at + at, (utf8proc_ssize_t)(text.length - at), &code);
        *size = length < 1 ? 1 : (size_t)length;
        code = length < 1 ? -1 : code;
    }
    return code;
}

/* A letter, a mark or a picture of the scripts in which joiners mean something: none of Latin, Greek and Cyrillic. */
static bool takes_joiners(int32_t code)
{
    if (code < 0x0590 || (code >= 0x1D00 && code < 0x2000)) {
        return false;
    }
    switch (utf8proc_category(code)) {
    case UTF8PROC_CATEGORY_LO:
    case UTF8PROC_CATEGORY_LM:
    case UTF8PROC_CATEGORY_LU:
    case UTF8PROC_CATEGORY_LL:
    case UTF8PROC_CATEGORY_MN:
    case UTF8PROC_CATEGORY_MC:
    case UTF8PROC_CATEGORY_ME:
    case UTF8PROC_CATEGORY_ND: /* of those scripts: Latin's lie further in front */
    case UTF8PROC_CATEGORY_SO:
    case UTF8PROC_CATEGORY_SK: /* colours of skin */
        return true;
    default:
        return false;
    }
}

/* Whether the joiner of `size` bytes at `at` has its use between the signs that it stands between. */
static bool is_needed(struct text text, size_t at, size_t size, int32_t joiner)
{
    size_t length;
    size_t before_at = at;
    while (before_at > 0 && (before_at == at || ((unsigned char)text.at[before_at] & 0xC0) == 0x80)) {
        before_at--;
    }
    int32_t before = at == 0 ? -1 : sign_at(text, before_at, &length);
    int32_t after = at + size >= text.length ? -1 : sign_at(text, at + size, &length);
    bool selects = joiner >= 0xFE00; /* the look of the one sign before it */
    if (selects) {
        bool keycap = after == 0x20E3 && before > 0 && before < 0x80;
        return keycap || (before > 0x7F && !shown_is_unseen(before));
    }
    return takes_joiners(before) && (takes_joiners(after) || utf8proc_get_property(before)->combining_class == 9 /* virama */);
}

bool shown_is_replaced(struct text text, size_t at, size_t size, int32_t code)
{
    return shown_is_unseen(code) && !(is_joiner(code) && is_needed(text, at, size, code));
}

size_t shown_unseen_length(struct text text, size_t at)
{
    size_t size;
    int32_t code = sign_at(text, at, &size);
    return code >= 0 && shown_is_unseen(code) ? size : 0;
}

/* An end of a line in an output of ours, or the form feed on a line of its own before a new sheet. */
static bool divides(struct text text, size_t at)
{
    char after = at + 1 < text.length ? text.at[at + 1] : '\0';
    switch (text.at[at]) {
    case '\n':
        return true;
    case '\r':
        return after == '\n';
    case '\f':
        return after == '\n' && at > 0 && text.at[at - 1] == '\n';
    default:
        return false;
    }
}

/* The first place at or behind `at` where something is replaced, and how long that is. */
static size_t next_hidden(struct text text, size_t at, bool lines, size_t *size)
{
    for (at = shown_skip_plain(text, at); at < text.length; at = shown_skip_plain(text, at + *size)) {
        int32_t code = sign_at(text, at, size);
        if ((code < 0 || shown_is_replaced(text, at, *size, code)) && !(lines && divides(text, at))) {
            return at;
        }
    }
    return text.length;
}

static void add(struct buffer *out, struct text text, bool lines)
{
    size_t size = 0;
    for (size_t done = 0; done < text.length;) {
        size_t at = next_hidden(text, done, lines, &size);
        buffer_add(out, text.at + done, at - done);
        if (at < text.length) {
            buffer_string(out, text.at[at] == '\t' ? " " : SHOWN_SIGN);
        }
        done = at < text.length ? at + size : at;
    }
}

static struct text shown(struct arena *arena, struct text text, bool lines)
{
    size_t size;
    if (next_hidden(text, 0, lines, &size) == text.length) {
        return text;
    }
    struct buffer out;
    buffer_start(&out, arena);
    add(&out, text, lines);
    return (struct text){buffer_finish(&out), out.length};
}

size_t shown_find(struct text text, size_t at, size_t *size, int32_t *code)
{
    at = next_hidden(text, at, false, size);
    *code = at < text.length ? sign_at(text, at, size) : 0;
    return at;
}

bool shown_is_plain(struct text text)
{
    size_t size;
    size_t at = next_hidden(text, 0, true, &size);
    while (at < text.length && text.at[at] == '\t') {
        at = next_hidden(text, at + 1, true, &size);
    }
    return at == text.length;
}

void shown_add(struct buffer *out, struct text text)
{
    add(out, text, false);
}

struct text shown_line(struct arena *arena, struct text text)
{
    return shown(arena, text, false);
}

struct text shown_lines(struct arena *arena, struct text text)
{
    return shown(arena, text, true);
}

void shown_add_named(struct buffer *out, struct text text)
{
    size_t size = 0;
    for (size_t done = 0; done < text.length;) {
        size_t at = next_hidden(text, done, true, &size);
        buffer_add(out, text.at + done, at - done);
        int32_t code = at < text.length ? sign_at(text, at, &size) : 0;
        if (at < text.length) {
            buffer_format(out, code < 0 ? "<byte %02X>" : "<U+%04X>", (unsigned)(code < 0 ? (unsigned char)text.at[at] : code));
        }
        done = at < text.length ? at + size : at;
    }
}

struct text shown_json(struct arena *arena, struct text json)
{
    if (shown_is_plain(json)) {
        return json;
    }
    struct buffer out;
    buffer_start(&out, arena);
    size_t size = 0;
    for (size_t done = 0; done < json.length;) {
        size_t at = next_hidden(json, done, true, &size);
        buffer_add(&out, json.at + done, at - done);
        int32_t code = at < json.length ? sign_at(json, at, &size) : 0;
        if (code > 0xFFFF) {
            buffer_format(&out, "\\u%04X\\u%04X", (unsigned)(0xD7C0 + (code >> 10)), (unsigned)(0xDC00 + (code & 0x3FF)));
        } else if (at < json.length) {
            buffer_format(&out, "\\u%04X", (unsigned)code);
        }
        done = at < json.length ? at + size : at;
    }
    return (struct text){buffer_finish(&out), out.length};
}
