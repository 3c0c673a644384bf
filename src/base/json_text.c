/* JSON written as it comes. */
#include "base/json_text.h"

#include "base/utf8.h"

/* What stands behind the backslash for a byte that may not stand in a string; 'u' for its number; 0 for all others. */
static const char escapes[256] = {
    'u', 'u', 'u', 'u', 'u', 'u', 'u', 'u', 'b', 't', 'n', 'u', 'f', 'r', 'u', 'u', 'u', 'u', 'u', 'u', 'u', 'u', 'u', 'u',
    'u', 'u', 'u', 'u', 'u', 'u', 'u', 'u', ['"'] = '"', ['\\'] = '\\',
};

static void put_quoted(struct buffer *out, struct text text)
{
    buffer_character(out, '"');
    size_t plain = 0; /* from here on nothing had to be changed */
    size_t fault = 0; /* the next byte that is no UTF-8, once one is met that is not ASCII */
    for (size_t i = 0; i < text.length; i++) {
        unsigned char c = (unsigned char)text.at[i];
        if (c >= 0x80 && i >= fault) {
            fault = utf8_first_fault(text.at, text.length, i);
        }
        bool faulty = c >= 0x80 && i == fault;
        if (escapes[c] == 0 && !faulty) {
            continue;
        }
        buffer_add(out, text.at + plain, i - plain);
        plain = i + 1;
        if (faulty) {
            buffer_string(out, "\uFFFD");
            fault = 0;
        } else if (escapes[c] == 'u') {
            buffer_format(out, "\\u%04X", c);
        } else {
            buffer_character(out, '\\');
            buffer_character(out, escapes[c]);
        }
    }
    buffer_add(out, text.at + plain, text.length - plain);
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
