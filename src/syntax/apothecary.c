/* "gr. viij", "℥ iss", "3 ij": i and j are one, ss is a half (semis).  Roman figures go with apothecaries' weights only, so that
 * "gr." before one is the grain: common practice, no source. */
#include "syntax/apothecary.h"

#include "base/number.h"

#include <math.h>
#include <strings.h>

static const struct {
    const char *sign;
    const char *readings[APOTHECARY_READINGS];
} signs[] = {
    {"gr", {"grains"}},     {"grs", {"grains"}},      {"grain", {"grains"}},   {"grains", {"grains"}},
    {"℥", {"℥"}},           {"ʒ", {"drams"}},         {"℈", {"scruples"}},     {"f℥", {"fl oz"}},
    {"fʒ", {"fl dr"}},      {"oz", {"oz"}},           {"ozs", {"oz"}},         {"ounces", {"oz"}},
    {"dr", {"drams"}},      {"drs", {"drams"}},       {"drm", {"drams"}},      {"drms", {"drams"}},
    {"drachm", {"drams"}},  {"drachms", {"drams"}},   {"dram", {"drams"}},     {"drams", {"drams"}},
    {"scr", {"scruples"}},  {"scruple", {"scruples"}}, {"scruples", {"scruples"}}, {"lb", {"lb"}},
    {"m", {"minims"}},      {"min", {"minims"}},      {"minim", {"minims"}},   {"minims", {"minims"}},
    {"♏", {"minims"}},      {"♍", {"minims"}},        {"fl. oz", {"fl oz"}},   {"fl oz", {"fl oz"}},
    {"fl. dr", {"fl dr"}},  {"fl dr", {"fl dr"}},     {"3", {"drams", "℥"}},
};

static bool divides(char c)
{
    return c == ' ' || c == '\t' || c == '.' || c == ',';
}

static struct text without_dividers(struct text text)
{
    while (text.length > 0 && divides(text.at[text.length - 1])) {
        text.length--;
    }
    return text;
}

/* Where the last word of `text` begins. */
static size_t last_word(struct text text)
{
    size_t at = text.length;
    while (at > 0 && !divides(text.at[at - 1])) {
        at--;
    }
    return at;
}

/* The longest sign that ends `text`, as a word of its own or, other than a letter, right before the figure; -1 for none. */
static int sign_before(struct text text, bool apart)
{
    int found = -1;
    for (int i = 0; i < (int)(sizeof signs / sizeof *signs); i++) {
        size_t length = strlen(signs[i].sign);
        bool letter = (signs[i].sign[0] & 0x80) == 0 && signs[i].sign[0] != 'f';
        if (text.length < length || strncasecmp(text.at + text.length - length, signs[i].sign, length) != 0 || (letter && !apart)) {
            continue;
        }
        bool longer = found < 0 || length > strlen(signs[found].sign); /* "fl. oz" ends in "oz" too */
        if (longer && (text.length == length || divides(text.at[text.length - length - 1]))) {
            found = i;
        }
    }
    return found;
}

static const char *print_amount(struct arena *arena, double value, const char *unit)
{
    double whole = floor(value);
    bool half = value > whole;
    return whole == 0 ? arena_format(arena, "1/2 %s", unit) : arena_format(arena, half ? "%.0f 1/2 %s" : "%.0f %s", whole, unit);
}

struct apothecary_amount apothecary_read(struct arena *arena, struct text line)
{
    struct apothecary_amount amount = {0};
    struct text rest = without_dividers(line);
    size_t begin = last_word(rest);
    size_t after_sign = begin; /* "℥iss" is a word with its sign */
    for (size_t i = begin; i < rest.length; i++) {
        after_sign = (rest.at[i] & 0x80) != 0 && i + 1 < rest.length && (rest.at[i + 1] & 0x80) == 0 ? i + 1 : after_sign;
    }
    bool apart = after_sign == begin;
    if (apart && rest.length > begin + 1 && rest.at[begin] == '3' && !isnan(number_read_roman((struct text){rest.at + begin + 1, 1}))) { /* "3ij" */
        after_sign = begin + 1;
    }
    struct text roman = {rest.at + after_sign, rest.length - after_sign};
    struct text before = without_dividers((struct text){rest.at, after_sign});
    size_t previous = last_word(before);
    double value = number_read_roman(roman);
    struct text joined = {before.at + previous, (size_t)(rest.at + rest.length - (before.at + previous))};
    bool half_behind = apart && roman.length == 2 && strncasecmp(roman.at, "ss", 2) == 0;
    if (half_behind && !isnan(number_read_roman((struct text){before.at + previous, before.length - previous}))) {
        value = number_read_roman(joined);
        before = without_dividers((struct text){rest.at, previous});
    }
    int sign = isnan(value) ? -1 : sign_before(before, apart);
    if (sign < 0) {
        return amount;
    }
    const char *from = before.at + before.length - strlen(signs[sign].sign);
    amount.written = (struct text){from, (size_t)(rest.at + rest.length - from)};
    for (int i = 0; i < APOTHECARY_READINGS && signs[sign].readings[i] != NULL; i++) {
        amount.readings[i] = print_amount(arena, value, signs[sign].readings[i]);
    }
    return amount;
}
