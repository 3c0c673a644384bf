/* How books say for how long and how warm: "Develop 5 to 7 minutes at 68° F." is `time 5 to 7 minutes` and `temperature 68° F`. */
#include "syntax/sentences.h"

#include <strings.h>

static struct text behind(struct text line, const char *beginning)
{
    size_t length = strlen(beginning);
    bool begins = line.length > length && strncasecmp(line.at, beginning, length) == 0 && strchr(" :.\t", line.at[length]) != NULL;
    return begins ? (struct text){line.at + length, line.length - length} : (struct text){0};
}

static struct text without_signs(struct text text)
{
    while (text.length > 0 && strchr(" \t:.,", text.at[0]) != NULL) {
        text.at++;
        text.length--;
    }
    while (text.length > 0 && strchr(" \t.,;", text.at[text.length - 1]) != NULL) {
        text.length--;
    }
    return text;
}

/* Figures and the words of `units`, at least one of each, and nothing else. */
static bool is_quantity(struct text text, const char *units)
{
    bool figure = false;
    bool unit = false;
    for (size_t at = 0; at < text.length;) {
        unsigned char c = (unsigned char)text.at[at];
        size_t end = at;
        while (end < text.length && ((text.at[end] | 0x20) >= 'a' && (text.at[end] | 0x20) <= 'z')) {
            end++;
        }
        if (end == at) { /* a figure, a blank, a dash, a degree sign */
            figure = figure || text_is_digit((char)c);
            if (c < 0x80 && !text_is_digit((char)c) && strchr(" \t.-/", (char)c) == NULL) {
                return false;
            }
            at++;
            continue;
        }
        bool found = end - at == 2 && strncasecmp(text.at + at, "to", 2) == 0;
        for (const char *word = units; !found && *word != '\0'; word += strspn(word, " ")) {
            size_t length = strcspn(word, " ");
            found = length == end - at && strncasecmp(word, text.at + at, length) == 0;
            unit = unit || found;
            word += length;
        }
        if (!found) {
            return false;
        }
        at = end;
    }
    return figure && unit;
}

const char *syntax_working(struct arena *arena, struct text line)
{
    static const char *const beginnings[] = {"development time", "developing time", "time of development", "develop for",
                                             "develop",          "time",            "fix for",             "tone for",
                                             "temperature",      "temp",            "working temperature"};
    static const char times[] = "min mins minute minutes sec secs second seconds s h hr hrs hour hours";
    static const char degrees[] = "c f fahr fahrenheit cent celsius centigrade deg degrees";
    struct text rest = {0};
    if (line.length > LONGEST_SENTENCE) {
        return NULL;
    }
    for (size_t i = 0; rest.at == NULL && i < sizeof beginnings / sizeof *beginnings; i++) {
        rest = behind(line, beginnings[i]);
    }
    rest = without_signs(rest);
    size_t at = 0;
    while (at + 4 < rest.length && strncasecmp(rest.at + at, " at ", 4) != 0) {
        at++;
    }
    bool warm = at + 4 < rest.length;
    struct text first = without_signs(warm ? (struct text){rest.at, at} : rest);
    struct text second = warm ? without_signs((struct text){rest.at + at + 4, rest.length - at - 4}) : (struct text){0};
    if (warm) {
        bool good = is_quantity(first, times) && is_quantity(second, degrees);
        return good ? arena_format(arena, "time %.*s\ntemperature %.*s", TEXT_ARGUMENTS(first), TEXT_ARGUMENTS(second)) : NULL;
    }
    return is_quantity(first, times)     ? arena_format(arena, "time %.*s", TEXT_ARGUMENTS(first))
           : is_quantity(first, degrees) ? arena_format(arena, "temperature %.*s", TEXT_ARGUMENTS(first))
                                         : NULL;
}
