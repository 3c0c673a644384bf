/* How books say what is mixed for use, and how that is written here: "For use mix 1 part of A, 1 part of B and 2 parts water" is
 * `mix A 1 + B 1 + water 2`, "dilute with an equal volume of water" is `dilute 1+1`. */
#include "syntax/sentences.h"

#include "base/buffer.h"

#include <ctype.h>
#include <strings.h>

enum { MOST_SHARES = 8 };

struct share {
    struct text name;   /* "A", "No. 1", "water"; "" for the stock itself; at NULL as long as none was read */
    struct text figure; /* as it will be written; at NULL likewise */
    struct text unit;   /* empty for parts */
};

struct mixture {
    struct arena *arena;
    struct share shares[MOST_SHARES];
    size_t count;
    struct share open;      /* the one that is being read */
    struct text of_each;    /* the figure of all that have none */
    bool water, stock, failed;
};

static struct text next_token(struct text *line)
{
    static const char blanks[] = " \t";
    while (line->length > 0 && strchr(blanks, line->at[0]) != NULL) {
        line->at++;
        line->length--;
    }
    size_t end = 0;
    bool sign = line->length > 0 && strchr(",;:&+=", line->at[0]) != NULL;
    while (end < line->length && strchr(" \t,;:&+=", line->at[end]) == NULL) {
        end++;
    }
    struct text token = {line->at, sign ? 1 : end};
    line->at += token.length;
    line->length -= token.length;
    return token;
}

static struct text without_point(struct text word)
{
    while (word.length > 1 && word.at[word.length - 1] == '.') {
        word.length--;
    }
    return word;
}

static bool among(struct text word, const char *words)
{
    word = without_point(word);
    for (const char *at = words; *at != '\0'; at += strspn(at, " ")) {
        size_t length = strcspn(at, " ");
        if (word.length == length && strncasecmp(at, word.at, length) == 0) {
            return true;
        }
        at += length;
    }
    return false;
}

/* A figure, or a number that is spelled out. */
static struct text read_figure(struct text word)
{
    static const char *const spelled[][2] = {{"one", "1"},   {"an", "1"},    {"two", "2"},  {"twice", "2"},
                                             {"three", "3"}, {"thrice", "3"}, {"four", "4"}, {"five", "5"}, {"six", "6"},
                                             {"seven", "7"}, {"eight", "8"}, {"nine", "9"}, {"ten", "10"}, {"twelve", "12"}};
    for (size_t i = 0; i < sizeof spelled / sizeof *spelled; i++) {
        if (among(word, spelled[i][0])) {
            return text_from(spelled[i][1]);
        }
    }
    word = without_point(word);
    bool vulgar = word.length >= 2 && (memcmp(word.at, "½", 2) == 0 || memcmp(word.at, "¼", 2) == 0 || memcmp(word.at, "¾", 2) == 0);
    bool figure = word.length > 0 && (text_is_digit(word.at[0]) || vulgar);
    for (size_t i = 0; i < word.length && figure; i++) {
        figure = text_is_digit(word.at[i]) || word.at[i] == '.' || word.at[i] == '/' || (word.at[i] & 0x80) != 0;
    }
    return figure ? word : (struct text){0};
}

static void close_share(struct mixture *mixture)
{
    struct share open = mixture->open;
    mixture->open = (struct share){0};
    if (open.name.at == NULL && open.figure.at == NULL) {
        return;
    }
    struct share *last = mixture->count == 0 ? NULL : &mixture->shares[mixture->count - 1];
    if (open.name.at == NULL && last != NULL && last->figure.at == NULL) { /* "A, 1 part" */
        last->figure = open.figure;
        last->unit = open.unit;
        return;
    }
    mixture->failed = mixture->failed || open.name.at == NULL || mixture->count == MOST_SHARES;
    if (!mixture->failed) {
        mixture->shares[mixture->count++] = open;
    }
}

static void read_name(struct mixture *mixture, struct text name)
{
    if (mixture->open.name.at != NULL) {
        close_share(mixture);
    }
    mixture->open.name = name;
}

static bool is_label(struct text word)
{
    word = without_point(word);
    bool letter = word.length == 1 && word.at[0] >= 'A' && word.at[0] <= 'H';
    return letter || (word.length > 0 && strspn(word.at, "IVX") >= word.length);
}

static void read_word(struct mixture *mixture, struct text word, struct text *rest)
{
    bool article = word.length == 1 && word.at[0] == 'a'; /* and not A, the solution */
    struct text figure = article ? text_from("1") : read_figure(word);
    if (figure.at != NULL) {
        if (mixture->open.figure.at != NULL) {
            close_share(mixture);
        }
        mixture->open.figure = figure;
    } else if (among(word, ", ; & + and with to plus")) {
        if (among(word, "with to") && mixture->count == 0 && mixture->open.figure.at != NULL && mixture->open.name.at == NULL) {
            mixture->open.name = text_from(""); /* "1 part to 3 parts water": of the stock */
        }
        close_share(mixture);
    } else if (among(word, "no nos")) {
        struct text number = next_token(rest);
        mixture->failed = mixture->failed || (read_figure(number).at == NULL && !is_label(number));
        number = without_point(number);
        read_name(mixture, (struct text){word.at, (size_t)(number.at + number.length - word.at)});
    } else if (is_label(word)) {
        if (mixture->open.name.at != NULL && mixture->open.name.length == 0) { /* "stock solution A" */
            mixture->open.name = (struct text){0};
        }
        read_name(mixture, without_point(word));
    } else if (among(word, "water")) {
        read_name(mixture, text_from("water"));
    } else if (among(word, "stock developer concentrate solution solutions")) {
        if (mixture->open.name.at == NULL) {
            read_name(mixture, text_from(""));
        }
    } else if (among(word, "each")) {
        mixture->of_each = mixture->open.figure;
        mixture->failed = mixture->failed || mixture->of_each.at == NULL || mixture->open.unit.length > 0;
        mixture->open = (struct share){0};
    } else if (among(word, "equal")) {
        mixture->of_each = text_from("1");
    } else if (among(word, "oz ozs ounce ounces cc c.c ml drm drms dram drams drachm drachms fl minim minims pint pints")) {
        mixture->open.unit = mixture->open.unit.length == 0 ? without_point(word)
                                                            : (struct text){mixture->open.unit.at, (size_t)(word.at + word.length - mixture->open.unit.at)};
        mixture->failed = mixture->failed || mixture->open.figure.at == NULL;
    } else {
        mixture->failed = mixture->failed || !among(word, "part parts pt pts of the in cold hot distilled its own volume volumes bulk quantity "
                                                          "quantities amount amounts times weight : sol immediately just before at time use needed required");
    }
}

static const char *print_ratio(struct mixture *mixture, const struct share *stock, const struct share *water)
{
    if (!text_equal(stock->unit, water->unit)) {
        return NULL;
    }
    return arena_format(mixture->arena, "dilute %.*s+%.*s", TEXT_ARGUMENTS(stock->figure), TEXT_ARGUMENTS(water->figure));
}

static const char *print_mixture(struct mixture *mixture)
{
    for (size_t i = 0; i < mixture->count; i++) {
        struct share *share = &mixture->shares[i];
        share->figure = share->figure.at == NULL ? mixture->of_each : share->figure;
        if (share->figure.at == NULL) {
            return NULL;
        }
        mixture->stock = mixture->stock || share->name.length == 0;
        mixture->water = mixture->water || text_is(share->name, "water");
    }
    static const struct share one = {.figure = {"1", 1}};
    if (mixture->count == 1 && mixture->water && mixture->shares[0].unit.length == 0) {
        return print_ratio(mixture, &one, &mixture->shares[0]); /* "dilute with 3 parts of water" */
    }
    if (mixture->stock) {
        bool first = mixture->shares[0].name.length == 0;
        return mixture->count != 2 || !mixture->water ? NULL
                                                      : print_ratio(mixture, &mixture->shares[first ? 0 : 1], &mixture->shares[first ? 1 : 0]);
    }
    if (mixture->count < 2) {
        return NULL;
    }
    struct buffer out;
    buffer_start(&out, mixture->arena);
    for (size_t i = 0; i < mixture->count; i++) {
        const struct share *share = &mixture->shares[i];
        buffer_format(&out, "%s%.*s %.*s%s%.*s", i == 0 ? "mix " : " + ", TEXT_ARGUMENTS(share->name), TEXT_ARGUMENTS(share->figure),
                      share->unit.length == 0 ? "" : " ", TEXT_ARGUMENTS(share->unit));
    }
    return buffer_finish(&out);
}

/* "1:3", "1+3", "1 in 10": such a line has repairs of its own. */
static const char *bare_ratio(struct arena *arena, struct text rest)
{
    rest = without_point(text_trim(rest));
    for (size_t i = 1; i + 4 < rest.length; i++) { /* "1 to 3" is as open as 1:3 */
        if (strncasecmp(rest.at + i, " to ", 4) == 0 && strspn(rest.at, "0123456789") == i && strspn(rest.at + i + 4, "0123456789") >= rest.length - i - 4) {
            return arena_format(arena, "dilute %.*s:%.*s", (int)i, rest.at, (int)(rest.length - i - 4), rest.at + i + 4);
        }
    }
    size_t first = 0;
    while (first < rest.length && text_is_digit(rest.at[first])) {
        first++;
    }
    size_t second = first;
    while (second < rest.length && (strchr(" :+", rest.at[second]) != NULL || strncasecmp(rest.at + second, "in ", 3) == 0)) {
        second += rest.at[second] == 'i' || rest.at[second] == 'I' ? 2 : 1;
    }
    size_t end = second;
    while (end < rest.length && text_is_digit(rest.at[end])) {
        end++;
    }
    bool ratio = first > 0 && second > first && end > second && end == rest.length;
    return ratio ? arena_format(arena, "dilute %.*s", TEXT_ARGUMENTS(rest)) : NULL;
}

/* The first sentence of the line; the others go to *more. */
static struct text first_sentence(struct text line, struct text *more)
{
    for (size_t at = 1; at + 2 < line.length; at++) {
        bool ends = line.at[at] == '.' && line.at[at + 1] == ' ' && isupper((unsigned char)line.at[at + 2]);
        size_t word = at;
        while (ends && word > 0 && line.at[word - 1] != ' ') {
            word--;
        }
        struct text last = {line.at + word, at - word};
        bool heads = word == 0 && last.length == 1; /* "A. Pyro" */
        if (ends && !heads && !among(last, "no nos sol")) {
            *more = text_trim((struct text){line.at + at + 1, line.length - at - 1});
            return (struct text){line.at, at};
        }
    }
    *more = (struct text){0};
    return line;
}

static const char *read_mixture(struct arena *arena, struct text rest)
{
    struct text word = next_token(&rest);
    if (!among(word, "for use mix take dilute dilution working to combine add")) {
        return NULL;
    }
    struct mixture mixture = {.arena = arena};
    struct text after = rest;
    while (among(word, "for use mix take dilute dilution working to combine solution bath developer add , : make up")) {
        rest = after;
        word = next_token(&after);
    }
    const char *ratio = bare_ratio(arena, rest);
    if (ratio != NULL) {
        return ratio;
    }
    struct text strength = without_point(text_trim(rest));
    if (among(strength, "undiluted") || (strength.length == 13 && strncasecmp(strength.at, "full strength", 13) == 0)) {
        return "dilute undiluted";
    }
    if (strength.length == 13 && strncasecmp(strength.at, "half strength", 13) == 0) {
        return "dilute 1+1";
    }
    while (!mixture.failed && (word = next_token(&rest)).length > 0) {
        read_word(&mixture, word, &rest);
    }
    close_share(&mixture);
    return mixture.failed ? NULL : print_mixture(&mixture);
}

const char *syntax_mixture(struct arena *arena, struct text line)
{
    struct text more;
    if (line.length > LONGEST_SENTENCE) {
        return NULL;
    }
    const char *mixed = read_mixture(arena, first_sentence(text_trim(line), &more));
    if (mixed == NULL || more.length == 0) {
        return mixed;
    }
    const char *working = syntax_working(arena, more);
    if (working != NULL) {
        return arena_format(arena, "%s\n%s", mixed, working);
    }
    char *both = arena_format(arena, "%s\nnote \"%.*s\"", mixed, TEXT_ARGUMENTS(more));
    for (char *at = both + strlen(mixed) + strlen("\nnote \""); at[1] != '\0'; at++) {
        *at = *at == '"' ? '\'' : *at;
    }
    return both;
}

const char *syntax_use(struct arena *arena, struct text line)
{
    struct text rest = text_trim(line);
    if (line.length > LONGEST_SENTENCE || !among(next_token(&rest), "for")) {
        return NULL;
    }
    rest = text_trim(rest);
    struct text name = {rest.at, 0};
    struct text word;
    struct text after = rest;
    for (int words = 0; words < 4 && (word = next_token(&after)).length > 0; words++) {
        bool divides = among(word, ", : use dilute mix take");
        if (divides || text_is_digit(word.at[0])) {
            break;
        }
        name.length = (size_t)(word.at + word.length - name.at);
        rest = after;
    }
    if (name.length == 0) {
        return NULL;
    }
    const char *mixture = syntax_mixture(arena, text_from(arena_format(arena, "use %.*s", TEXT_ARGUMENTS(rest))));
    const char *quote = memchr(name.at, ' ', name.length) != NULL ? "\"" : "";
    return mixture == NULL ? NULL : arena_format(arena, "use for %s%.*s%s\n%s", quote, TEXT_ARGUMENTS(name), quote, mixture);
}
