/* JSON (RFC 8259) written as it comes, without a tree: members and elements one after the other, two blanks for each level. */
#ifndef POTASH_BASE_JSON_TEXT_H
#define POTASH_BASE_JSON_TEXT_H

#include "base/buffer.h"

struct json_text {
    struct buffer *out;
    unsigned depth;
    bool begun;               /* something stands in the innermost bracket already */
};

/* Opens a bracket, '{' or '[', as the member `key`, or as an element where it is NULL; so below. */
void json_text_open(struct json_text *json, const char *key, char bracket);

/* Closes it: '}' or ']'. */
void json_text_close(struct json_text *json, char bracket);

/* Signs that are not seen are written by their numbers (base/shown.h); bytes that are no UTF-8 come out as U+FFFD. */
void json_text_put(struct json_text *json, const char *key, struct text text);
void json_text_put_string(struct json_text *json, const char *key, const char *string);
void json_text_put_count(struct json_text *json, const char *key, uint64_t count);
void json_text_put_null(struct json_text *json, const char *key);

#endif
