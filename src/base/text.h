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

static inline bool text_is_digit(char c)
{
    return c >= '0' && c <= '9';
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

/* The article that is spoken before a word or a figure: "an area", "an 8 % stock".  Of no use for words such as "unit" and "hour",
 * whose first letter is not what is spoken. */
static inline const char *text_article(struct text text)
{
    size_t digits = 0;
    while (digits < text.length && text.at[digits] >= '0' && text.at[digits] <= '9') {
        digits++;
    }
    bool eleven = digits == 2 && text.at[0] == '1' && (text.at[1] == '1' || text.at[1] == '8');
    bool eight = digits > 0 && text.at[0] == '8';
    bool vowel = text.length > 0 && strchr("aeiouAEIOU", text.at[0]) != NULL;
    return eleven || eight || vowel ? "an" : "a";
}

/* For printf's "%.*s". */
#define TEXT_ARGUMENTS(text) (int)(text).length, ((text).at == NULL ? "" : (text).at)

#endif
