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
    buffer_character(out, '"');
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
    buffer_character(out, '"');
}

static void begin_line(struct json_text *json)
{
    static const char blanks[] = "                                        ";
    size_t indent = 2 * (size_t)json->depth;
    buffer_character(json->out, '\n');
    buffer_add(json->out, blanks, indent < sizeof blanks ? indent : sizeof blanks - 1);
}

/* Keys are our own words, which need no escape. */
static void begin_item(struct json_text *json, const char *key)
{
    if (json->begun) {
        buffer_character(json->out, ',');
    }
    if (json->depth > 0) {
        begin_line(json);
    }
    if (key != NULL) {
        buffer_character(json->out, '"');
        buffer_string(json->out, key);
        buffer_add(json->out, "\": ", 3);
    }
    json->begun = true;
}

void json_text_open(struct json_text *json, const char *key, char bracket)
{
    begin_item(json, key);
    buffer_character(json->out, bracket);
    json->depth++;
    json->begun = false;
}

void json_text_close(struct json_text *json, char bracket)
{
    json->depth--;
    if (json->begun) {
        begin_line(json);
    }
    buffer_character(json->out, bracket);
    json->begun = true;
    if (json->depth == 0) {
        buffer_character(json->out, '\n');
    }
}

void json_text_put(struct json_text *json, const char *key, struct text text)
{
    begin_item(json, key);
    put_quoted(json->out, text);
}

void json_text_put_string(struct json_text *json, const char *key, const char *string)
{
    json_text_put(json, key, text_from(string));
}

void json_text_put_count(struct json_text *json, const char *key, uint64_t count)
{
    begin_item(json, key);
    buffer_number(json->out, count, 0);
}

void json_text_put_null(struct json_text *json, const char *key)
{
    begin_item(json, key);
    buffer_string(json->out, "null");
}
