/* JSON written as it comes. */
#include "base/json_text.h"

#include "base/shown.h"

/* A sign that is not seen, which would be lost, or obeyed by a terminal; also what RFC 8259, 7 forbids in a string. */
static void put_sign(struct buffer *out, int32_t code)
{
    static const char named[] = "btn\0fr"; /* from 8 on */
    if (code < 0) {
        buffer_string(out, SHOWN_SIGN);
    } else if (code >= '\b' && code <= '\r' && named[code - '\b'] != '\0') {
        buffer_character(out, '\\');
        buffer_character(out, named[code - '\b']);
    } else if (code > 0xFFFF) {
        buffer_format(out, "\\u%04X\\u%04X", (unsigned)(0xD7C0 + (code >> 10)), (unsigned)(0xDC00 + (code & 0x3FF)));
    } else {
        buffer_format(out, "\\u%04X", (unsigned)code);
    }
}

static void put_seen(struct buffer *out, struct text text)
{
    size_t plain = 0; /* from here on nothing had to be changed */
    for (size_t i = 0; i < text.length; i++) {
        if (text.at[i] == '"' || text.at[i] == '\\') {
            buffer_add(out, text.at + plain, i - plain);
            buffer_character(out, '\\');
            plain = i;
        }
    }
    buffer_add(out, text.at + plain, text.length - plain);
}

static void put_quoted(struct buffer *out, struct text text)
{
    size_t size = 0;
    int32_t code = 0;
    for (size_t done = 0; done < text.length; done += size) {
        size_t at = shown_find(text, done, &size, &code);
        put_seen(out, (struct text){text.at + done, at - done});
        if (at == text.length) {
            break;
        }
        put_sign(out, code);
        done = at;
    }
}

enum { MOST_BLANKS = 40 };

/* Where the next item's value is to be written, behind what stands before it, with room for `more` bytes; end_item takes its end.  There
 * are a hundred short lines to a diagnostic, so that each is put together where it will stay.  Keys are our own words, which need no
 * escape. */
static char *begin_item(struct json_text *json, const char *key, size_t more)
{
    static const char blanks[MOST_BLANKS + 1] = "                                        ";
    size_t length = key == NULL ? 0 : strlen(key);
    size_t indent = 2 * (size_t)json->depth;
    buffer_reserve(json->out, MOST_BLANKS + 8 + length + more);
    char *at = json->out->bytes + json->out->length;
    if (json->begun) {
        *at++ = ',';
    }
    if (json->depth > 0) {
        *at++ = '\n';
        memcpy(at, blanks, MOST_BLANKS); /* as many as are wanted and some that are written over: a size that is known is quick */
        at += indent < MOST_BLANKS ? indent : MOST_BLANKS;
    }
    if (key != NULL) {
        *at++ = '"';
        memcpy(at, key, length);
        at += length;
        memcpy(at, "\": ", 3);
        at += 3;
    }
    json->begun = true;
    return at;
}

static void end_item(struct json_text *json, char *end)
{
    *end = '\0';
    json->out->length = (size_t)(end - json->out->bytes);
}

void json_text_open(struct json_text *json, const char *key, char bracket)
{
    char *at = begin_item(json, key, 1);
    *at++ = bracket;
    end_item(json, at);
    json->depth++;
    json->begun = false;
}

void json_text_close(struct json_text *json, char bracket)
{
    json->depth--;
    if (json->depth == 0) {
        buffer_string(json->out, json->begun ? "\n" : "");
        buffer_character(json->out, bracket);
        buffer_character(json->out, '\n');
    } else if (json->begun) {
        json->begun = false; /* no comma */
        char *at = begin_item(json, NULL, 1);
        *at++ = bracket;
        end_item(json, at);
    } else {
        buffer_character(json->out, bracket);
    }
    json->begun = true;
}

void json_text_put(struct json_text *json, const char *key, struct text text)
{
    bool plain = shown_skip_plain(text, 0) == text.length &&
                 (text.length == 0 || (memchr(text.at, '"', text.length) == NULL && memchr(text.at, '\\', text.length) == NULL));
    char *at = begin_item(json, key, text.length + 2);
    *at++ = '"';
    if (plain && text.length > 0) { /* as nearly always */
        memcpy(at, text.at, text.length);
        at += text.length;
    } else {
        end_item(json, at);
        put_quoted(json->out, text);
        buffer_reserve(json->out, 1);
        at = json->out->bytes + json->out->length;
    }
    *at++ = '"';
    end_item(json, at);
}

void json_text_put_string(struct json_text *json, const char *key, const char *string)
{
    json_text_put(json, key, text_from(string));
}

void json_text_put_count(struct json_text *json, const char *key, uint64_t count)
{
    enum { MOST_FIGURES = 20 };
    char *at = begin_item(json, key, MOST_FIGURES);
    size_t length = 1;
    for (uint64_t rest = count; rest >= 10; rest /= 10) {
        length++;
    }
    for (size_t i = length; i > 0; i--, count /= 10) {
        at[i - 1] = (char)('0' + count % 10);
    }
    end_item(json, at + length);
}

void json_text_put_null(struct json_text *json, const char *key)
{
    char *at = begin_item(json, key, 4);
    memcpy(at, "null", 4);
    end_item(json, at + 4);
}
