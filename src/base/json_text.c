/* JSON written as it comes. */
#include "base/json_text.h"

#include "base/utf8.h"

static void put_quoted(struct buffer *out, struct text text)
{
    buffer_character(out, '"');
    size_t plain = 0; /* from here on nothing had to be changed */
    size_t fault = utf8_first_fault(text.at, text.length, 0);
    for (size_t i = 0; i < text.length; i++) {
        unsigned char c = (unsigned char)text.at[i];
        if (c >= 0x20 && c != '"' && c != '\\' && i != fault) {
            continue;
        }
        buffer_add(out, text.at + plain, i - plain);
        plain = i + 1;
        const char *named = c == '\0' ? NULL : strchr("\"\"\\\\\bb\ff\nn\rr\tt", c);
        if (c >= 0x20 && i == fault) {
            buffer_string(out, "\uFFFD");
        } else if (named != NULL) {
            buffer_character(out, '\\');
            buffer_character(out, named[1]);
        } else {
            buffer_format(out, "\\u%04X", c);
        }
        if (i == fault) {
            fault = utf8_first_fault(text.at, text.length, i + 1);
        }
    }
    buffer_add(out, text.at + plain, text.length - plain);
    buffer_character(out, '"');
}

static void begin_item(struct json_text *json, const char *key)
{
    if (json->depth > 0) {
        buffer_string(json->out, json->begun ? ",\n" : "\n");
        buffer_repeat(json->out, ' ', 2 * (size_t)json->depth);
    }
    if (key != NULL) {
        put_quoted(json->out, text_from(key));
        buffer_string(json->out, ": ");
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
        buffer_character(json->out, '\n');
        buffer_repeat(json->out, ' ', 2 * (size_t)json->depth);
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
