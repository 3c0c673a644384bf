/* Signs that are not seen in the text of a file. */
#include "syntax/hidden_signs.h"

#include "base/shown.h"
#include "base/utf8.h"

#include <utf8proc.h>

/* What the signs of a line come to. */
struct found {
    size_t first, end;    /* from the first of them to behind the last, in bytes */
    int32_t code;         /* of the first */
    size_t count;
    bool beyond_ascii;
};

static const char *kind_of(int32_t code)
{
    if (code < 0xA0) {
        return "a control sign";
    }
    bool turns = code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
    return turns ? "a direction sign" : code == 0xAD ? "a soft hyphen" : "a sign without width";
}

/* Length of the sign at `at` that is to be remarked on, and which it is; 0 when it is none. */
static size_t sign_length(struct text line, size_t at, int32_t *code)
{
    unsigned char c = (unsigned char)line.at[at];
    if (c < 0x80) {
        *code = c;
        return (c < 0x20 || c == 0x7F) && c != '\t' && c != '\r';
    }
    utf8proc_ssize_t size = utf8proc_iterate((const utf8proc_uint8_t *)line.at + at, (utf8proc_ssize_t)(line.length - at), code);
    return size >= 1 && shown_is_replaced(line, at, (size_t)size, *code) ? (size_t)size : 0;
}

static struct found find_signs(struct text line)
{
    struct found found = {0};
    for (size_t at = 0; at < line.length;) {
        int32_t code = 0;
        size_t size = sign_length(line, at, &code);
        if (size > 0) {
            found.first = found.count == 0 ? at : found.first;
            found.code = found.count == 0 ? code : found.code;
            found.end = at + size;
            found.count++;
            found.beyond_ascii = found.beyond_ascii || code >= 0x80;
        }
        at += size > 0 ? size : 1;
    }
    return found;
}

/* What stands between the first sign and the last without them; an end of a line or paragraph parts words. */
static const char *without_signs(struct arena *arena, struct text line, const struct found *found)
{
    struct buffer out;
    buffer_start(&out, arena);
    for (size_t at = found->first; at < found->end;) {
        int32_t code = 0;
        size_t size = sign_length(line, at, &code);
        if (size == 0) {
            buffer_character(&out, line.at[at]);
        } else if (code == 0x2028 || code == 0x2029) {
            buffer_character(&out, ' ');
        }
        at += size > 0 ? size : 1;
    }
    return buffer_finish(&out);
}

static struct text line_at(const struct source_file *source, size_t at, size_t *begin)
{
    const char *bytes = source->bytes;
    *begin = at;
    while (*begin > 0 && bytes[*begin - 1] != '\n') {
        (*begin)--;
    }
    bool byte_order_mark = *begin == 0 && source->length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0;
    *begin += byte_order_mark ? 3 : 0;
    const char *newline = memchr(bytes + at, '\n', source->length - at);
    size_t end = newline == NULL ? source->length : (size_t)(newline - bytes);
    return (struct text){bytes + *begin, end - *begin};
}

static void tell(struct hidden_signs *signs, struct text line, size_t begin, const struct found *found)
{
    struct diagnostics *diagnostics = signs->diagnostics;
    uint32_t base = signs->source->base + (uint32_t)begin;
    struct span span = {base + (uint32_t)found->first, base + (uint32_t)found->end};
    const char *stand = found->count == 1 ? "stands" : arena_format(diagnostics->arena, "and %zu more stand", found->count - 1);
    struct diagnostic *diagnostic = diagnostics_add(diagnostics, DIAG_HIDDEN_SIGN, span, "U+%04X, %s that is not seen, %s here",
                                                    (unsigned)found->code, kind_of(found->code), stand);
    diagnostics_fix(diagnostics, diagnostic, span, without_signs(diagnostics->arena, line, found),
                    found->count == 1 ? "take it out" : "take them out");
}

void hidden_signs_meet(void *context, size_t at, int32_t code)
{
    struct hidden_signs *signs = context;
    if (!shown_is_unseen(code) || at < signs->told_upto) {
        return;
    }
    size_t begin;
    struct text line = line_at(signs->source, at, &begin);
    signs->told_upto = begin + line.length;
    struct found found = find_signs(line);
    if (found.count > 0) {
        tell(signs, line, begin, &found);
    }
}

static bool holds_control(struct text text)
{
    size_t at = shown_skip_plain(text, 0);
    while (at < text.length && (unsigned char)text.at[at] >= 0x80) {
        at = shown_skip_plain(text, at + 1);
    }
    return at < text.length;
}

void hidden_signs_in_text(struct hidden_signs *signs, size_t from, size_t upto)
{
    if (!holds_control((struct text){signs->source->bytes + from, upto - from}) || from < signs->told_upto) {
        return;
    }
    size_t begin;
    struct text line = line_at(signs->source, from, &begin);
    signs->told_upto = begin + line.length;
    struct found found = find_signs(line);
    if (found.count > 0 && !found.beyond_ascii) { /* else the walk has told of it */
        tell(signs, line, begin, &found);
    }
}
