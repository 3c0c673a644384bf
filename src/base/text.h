/* Views into text: a start and a length in bytes, never owned, not NUL-terminated. */
#ifndef POTASH_BASE_TEXT_H
#define POTASH_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

struct text {
    const char *at;
    size_t length;
};

#define TEXT(literal) ((struct text){(literal), sizeof(literal) - 1})

static inline struct text text_from(const char *string)
{
    return (struct text){string, string == NULL ? 0 : strlen(string)};
}

static inline bool text_equal(struct text a, struct text b)
{
    return a.length == b.length && (a.length == 0 || memcmp(a.at, b.at, a.length) == 0);
}

static inline bool text_is(struct text a, const char *string)
{
    return text_equal(a, text_from(string));
}

/* Without white space at both ends. */
static inline struct text text_trim(struct text text)
{
    while (text.length > 0 && (text.at[0] == ' ' || text.at[0] == '\t')) {
        text.at++;
        text.length--;
    }
    while (text.length > 0 && (text.at[text.length - 1] == ' ' || text.at[text.length - 1] == '\t')) {
        text.length--;
    }
    return text;
}

/* For printf's "%.*s". */
#define TEXT_ARGUMENTS(text) (int)(text).length, ((text).at == NULL ? "" : (text).at)

#endif
