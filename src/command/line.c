/* The words of a command line. */
#include "command/command.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

struct words {
    int count;
    char **at;
    int next;
};

static bool is_number(const char *word)
{
    return word[0] != '\0' && word[strspn(word, "0123456789./")] == '\0';
}

static bool starts_with_letter(const char *word)
{
    return (word[0] >= 'A' && word[0] <= 'Z') || (word[0] >= 'a' && word[0] <= 'z');
}

/* The value of an option: "--make 2L", "--make=2L"; NULL with a message when there is none. */
static const char *take_value(struct words *words, const char *option, const char *equals)
{
    if (equals != NULL) {
        return equals + 1;
    }
    if (words->next >= words->count) {
        command_say("potash: %s wants a value; see: potash --help", option);
        return NULL;
    }
    return words->at[words->next++];
}

/* A word that may be a unit, and is no file. */
static bool is_unit_word(const char *word)
{
    return starts_with_letter(word) && strlen(word) <= 8 && strchr(word, '.') == NULL && strchr(word, '/') == NULL;
}

static bool names_measures(const char *word)
{
    return strcasecmp(word, "US") == 0 || strcasecmp(word, "imperial") == 0;
}

/* An amount may be several words of the shell: "2 L", "30 days", "1 US quart".  With what belongs to `value` of the words behind it;
 * NULL when memory runs out, which is said. */
static char *join_amount(struct words *words, const char *value)
{
    const char *const *next = (const char *const *)words->at + words->next;
    int left = words->count - words->next;
    int taken = is_number(value) && left > 0 && is_unit_word(next[0]) ? 1 : 0;
    taken += taken == 1 && left > 1 && names_measures(next[0]) && is_unit_word(next[1]);
    const char *first = taken > 0 ? next[0] : "";
    const char *second = taken > 1 ? next[1] : "";
    size_t size = strlen(value) + strlen(first) + strlen(second) + 3;
    char *amount = malloc(size);
    if (amount == NULL) {
        fputs("potash: out of memory\n", stderr);
        return NULL;
    }
    snprintf(amount, size, "%s%s%s%s%s", value, taken > 0 ? " " : "", first, taken > 1 ? " " : "", second);
    words->next += taken;
    return amount;
}

static char *take_amount(struct words *words, const char *option, const char *equals)
{
    const char *value = take_value(words, option, equals);
    return value == NULL ? NULL : join_amount(words, value);
}

static bool take_format(struct command_line *line, const char *value)
{
    static const struct {
        const char *name;
        enum potash_format format;
    } formats[] = {
        {"text", POTASH_TEXT}, {"json", POTASH_JSON}, {"sarif", POTASH_SARIF}, {"html", POTASH_HTML}, {"pdf", POTASH_PDF},
        {"csv", POTASH_CSV},   {"ical", POTASH_ICAL}};
    for (size_t i = 0; i < sizeof formats / sizeof *formats; i++) {
        if (strcmp(value, formats[i].name) == 0) {
            line->format = formats[i].format;
            line->format_given = true;
            return true;
        }
    }
    command_say("potash: --as takes text, json, html, pdf, sarif, csv or ical, not \"%s\"", value);
    return false;
}

static bool option_is(const char *word, const char *option, const char **equals)
{
    size_t length = strlen(option);
    *equals = NULL;
    if (strncmp(word, option, length) != 0) {
        return false;
    }
    if (word[length] == '=') {
        *equals = word + length;
    }
    return word[length] == '\0' || word[length] == '=';
}

/* "30 days", "6 months": how far ahead the shelf looks, as two words or one. */
static bool take_horizon(struct command_line *line, struct words *words, const char *value)
{
    char *horizon = join_amount(words, value);
    if (horizon == NULL || is_number(horizon)) { /* a bare number is no time */
        free(horizon);
        return false;
    }
    free((char *)line->options.horizon);
    line->options.horizon = horizon;
    return true;
}

/* "2%", "2 %", "0.5": per cent, as a share; for the shelf a time. */
static bool take_within(struct command_line *line, struct words *words, const char *equals)
{
    const char *value = take_value(words, "--within", equals);
    if (value == NULL) {
        return false;
    }
    if (line->verb != NULL && strcmp(line->verb, "shelf") == 0) {
        bool good = take_horizon(line, words, value);
        if (!good) {
            command_say("potash: --within takes a time such as 30 days here, not \"%s\"", value);
        }
        return good;
    }
    const char *end = value + strspn(value, "0123456789.");
    char *read_to;
    double percent = strtod(value, &read_to);
    bool figure = end != value && read_to == end;
    end += strspn(end, " ");
    bool marked = *end == '%';
    end += marked;
    if (!figure || *end != '\0' || !(percent >= 0 && percent < 100)) {
        command_say("potash: --within takes a percentage such as 2%%, not \"%s\"", value);
        return false;
    }
    if (!marked && words->next < words->count && strcmp(words->at[words->next], "%") == 0) {
        words->next++; /* "--within 2 %" */
    }
    line->within = percent / 100;
    return line->within_given = true;
}

/* A formula for the shopping list; the `--make` behind it is for it. */
static bool take_for(struct command_line *line, const char *value)
{
    line->options.use_for = value;
    line->wanted[line->options.wanted_count++] = (struct potash_wanted){value, NULL};
    return value != NULL;
}

static bool take_make(struct command_line *line, char *amount)
{
    size_t count = line->options.wanted_count;
    bool of_wanted = count > 0 && line->wanted[count - 1].make == NULL;
    if (amount != NULL && of_wanted && (line->wanted[count - 1].make = strdup(amount)) == NULL) {
        fputs("potash: out of memory\n", stderr);
        free(amount);
        return false;
    }
    free((char *)line->options.make);
    return (line->options.make = amount) != NULL;
}

/* A day of the calendar (ISO 8601), or "none". */
static bool take_date(struct command_line *line, const char *value)
{
    int year;
    int month;
    int day;
    int end = 0;
    if (value == NULL) {
        return false;
    }
    line->options.date = value;
    bool good = strcmp(value, "none") == 0;
    if (sscanf(value, "%4d-%2d-%2d%n", &year, &month, &day, &end) == 3 && end == 10 && value[end] == '\0') {
        static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
        bool leap = month == 2 && day == 29 && year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        good = month >= 1 && month <= 12 && day >= 1 && (day <= days[month - 1] || leap);
    }
    if (!good) {
        command_say("potash: --date takes a day such as 2026-03-04, or none, not \"%s\"", value);
    }
    return good;
}

static bool take_paper(struct command_line *line, const char *value)
{
    if (value == NULL) {
        return false;
    }
    bool letter = strcasecmp(value, "Letter") == 0;
    if (!letter && strcasecmp(value, "A4") != 0) {
        command_say("potash: --paper takes A4 or Letter, not \"%s\"", value);
        return false;
    }
    line->options.paper = letter ? POTASH_LETTER : POTASH_A4;
    return true;
}

/* "--rolls 10"; "--sheets 12 8x10", "--sheets 12 '18x24 cm'", "--sheets 12", which are 8x10 in. */
static bool take_goods(struct command_line *line, struct words *words, const char *option, const char *equals)
{
    const char *count = take_value(words, option, equals);
    if (count == NULL) {
        return false;
    }
    bool sheets = strcmp(option, "--sheets") == 0;
    const char *next = words->next < words->count ? words->at[words->next] : "";
    const char *size = next + strspn(next, "0123456789.");
    bool sized = sheets && size != next && (*size == 'x' || *size == 'X') && size[1] >= '0' && size[1] <= '9';
    words->next += sized;
    size_t length = strlen(count) + strlen(next) + sizeof " sheets 8x10 in";
    char *goods = malloc(length);
    if (goods == NULL) {
        fputs("potash: out of memory\n", stderr);
        return false;
    }
    const char *gap = strchr(count, ' '); /* "12 5x7 in" as one word of the shell */
    int figures = (int)(gap == NULL ? strlen(count) : (size_t)(gap - count));
    const char *of = sized ? next : gap != NULL ? gap + 1 : "8x10 in";
    if (sheets) {
        snprintf(goods, length, "%.*s sheets %s", figures, count, of);
    } else {
        snprintf(goods, length, "%s rolls", count);
    }
    free((char *)line->options.goods);
    line->options.goods = goods;
    return true;
}

static bool take_option(struct command_line *line, struct words *words, const char *word)
{
    const char *equals;
    if (option_is(word, "--help", &equals) || strcmp(word, "-h") == 0) {
        return line->help = true;
    }
    if (option_is(word, "--version", &equals)) {
        return line->version = true;
    }
    if (option_is(word, "--strict", &equals)) {
        return line->options.strict = true;
    }
    if (option_is(word, "--title", &equals)) {
        return (line->options.title = take_value(words, "--title", equals)) != NULL;
    }
    if (option_is(word, "--make", &equals)) {
        return take_make(line, take_amount(words, "--make", equals));
    }
    if (strncmp(word, "--make", 6) == 0 && word[6] >= '0' && word[6] <= '9') {
        return take_make(line, strdup(word + 6));
    }
    if (option_is(word, "--working", &equals)) {
        free((char *)line->options.working);
        return (line->options.working = take_amount(words, "--working", equals)) != NULL;
    }
    if (option_is(word, "--counted", &equals)) {
        return (line->options.counted = take_value(words, "--counted", equals)) != NULL;
    }
    if (option_is(word, "--temperature", &equals)) {
        return (line->options.temperature = take_value(words, "--temperature", equals)) != NULL;
    }
    if (option_is(word, "--rolls", &equals)) {
        return take_goods(line, words, "--rolls", equals);
    }
    if (option_is(word, "--sheets", &equals)) {
        return take_goods(line, words, "--sheets", equals);
    }
    if (option_is(word, "--for", &equals)) {
        return take_for(line, take_value(words, "--for", equals));
    }
    if (option_is(word, "--shelf", &equals)) {
        return (line->shelf = take_value(words, "--shelf", equals)) != NULL;
    }
    if (option_is(word, "--using-shelf", &equals)) {
        return line->options.using_shelf = true;
    }
    if (option_is(word, "--price-by", &equals)) {
        return (line->options.price_by = take_value(words, "--price-by", equals)) != NULL;
    }
    if (option_is(word, "--against", &equals)) {
        free((char *)line->options.against);
        return (line->options.against = take_amount(words, "--against", equals)) != NULL;
    }
    if (option_is(word, "--allow-reads", &equals)) {
        return line->options.allow_reads = true;
    }
    if (option_is(word, "--in-place", &equals)) {
        return line->in_place = true;
    }
    if (option_is(word, "--verify", &equals)) {
        return line->verify = true;
    }
    if (option_is(word, "--library", &equals)) {
        return (line->options.library = take_value(words, "--library", equals)) != NULL;
    }
    if (option_is(word, "--date", &equals)) {
        return take_date(line, take_value(words, "--date", equals));
    }
    if (option_is(word, "--balance", &equals)) {
        free((char *)line->options.balance);
        return (line->options.balance = take_amount(words, "--balance", equals)) != NULL;
    }
    if (option_is(word, "--graduate", &equals)) {
        free((char *)line->options.graduate);
        return (line->options.graduate = take_amount(words, "--graduate", equals)) != NULL;
    }
    if (option_is(word, "--record-in", &equals)) {
        return (line->record_in = take_value(words, "--record-in", equals)) != NULL;
    }
    if (option_is(word, "--record", &equals)) {
        return line->record = true;
    }
    if (option_is(word, "--within", &equals)) {
        return take_within(line, words, equals);
    }
    if (option_is(word, "--known-as", &equals)) {
        return (line->known_as = take_value(words, "--known-as", equals)) != NULL;
    }
    if (option_is(word, "--silence", &equals)) {
        const char *id = take_value(words, "--silence", equals);
        line->silence[line->silence_count++] = id;
        return id != NULL;
    }
    if (option_is(word, "--with-safety", &equals)) {
        return line->options.book_with_safety = true;
    }
    if (option_is(word, "--called", &equals)) {
        return (line->options.book_title = take_value(words, "--called", equals)) != NULL;
    }
    if (option_is(word, "--paper", &equals)) {
        return take_paper(line, take_value(words, "--paper", equals));
    }
    if (option_is(word, "--without", &equals)) {
        const char *name = take_value(words, "--without", equals);
        line->without[line->without_count++] = name;
        return name != NULL;
    }
    if (option_is(word, "--all", &equals)) {
        return line->all = true;
    }
    if (option_is(word, "--like", &equals)) {
        return (line->like = take_value(words, "--like", equals)) != NULL;
    }
    if (option_is(word, "--as", &equals)) {
        const char *value = take_value(words, "--as", equals);
        return value != NULL && take_format(line, value);
    }
    if (strcmp(word, "-o") == 0 || option_is(word, "--output", &equals)) {
        return (line->output = take_value(words, word, strcmp(word, "-o") == 0 ? NULL : equals)) != NULL;
    }
    const char *equals_sign = strchr(word, '=');
    char option[16];
    size_t length = equals_sign == NULL ? strlen(word) : (size_t)(equals_sign - word);
    snprintf(option, sizeof option, "%.*s", (int)(length < sizeof option ? length : 0), word);
    if (command_is_label_option(option)) {
        const char *value = take_value(words, option, equals_sign);
        bool measured = words->next < words->count && strcmp(words->at[words->next], "mm") == 0;
        words->next += measured; /* "--label 99.1x67.7 mm" */
        return value != NULL && command_take_label_option(line, option, value);
    }
    command_say("potash: there is no option \"%s\"; see: potash --help", word);
    return false;
}

/* "-o book.pdf" says enough. */
static void take_format_of_file(struct command_line *line)
{
    const char *ending = line->output == NULL ? NULL : strrchr(line->output, '.');
    if (!line->format_given && ending != NULL && (strcmp(ending, ".pdf") == 0 || strcmp(ending, ".html") == 0)) {
        take_format(line, ending + 1);
    }
}

bool command_read_line(int count, char **at, struct command_line *line)
{
    *line = (struct command_line){0};
    struct words words = {count, at, 1};
    line->paths = calloc((size_t)count + 1, sizeof *line->paths);
    line->silence = calloc((size_t)count + 1, sizeof *line->silence);
    line->without = calloc((size_t)count + 1, sizeof *line->without);
    line->wanted = calloc((size_t)count + 1, sizeof *line->wanted);
    if (line->paths == NULL || line->silence == NULL || line->without == NULL || line->wanted == NULL) {
        fputs("potash: out of memory\n", stderr);
        return false;
    }
    line->options.silence = line->silence;
    line->options.without = line->without;
    line->options.wanted = line->wanted;
    bool only_paths = false;
    while (words.next < count) {
        const char *word = at[words.next++];
        if (!only_paths && strcmp(word, "--") == 0) {
            only_paths = true;
        } else if (!only_paths && word[0] == '-' && word[1] != '\0' && !(word[1] >= '0' && word[1] <= '9')) {
            if (!take_option(line, &words, word)) {
                return false;
            }
        } else if (line->verb == NULL) {
            line->verb = word;
        } else {
            line->paths[line->path_count++] = word;
        }
    }
    take_format_of_file(line);
    return true;
}

void command_free_line(struct command_line *line)
{
    free((char *)line->options.make);
    free((char *)line->options.working);
    free((char *)line->options.goods);
    free((char *)line->options.balance);
    free((char *)line->options.graduate);
    free((char *)line->options.against);
    free((char *)line->options.horizon);
    for (size_t i = 0; line->wanted != NULL && i < line->options.wanted_count; i++) {
        free((char *)line->wanted[i].make);
    }
    free(line->wanted);
    free(line->paths);
    free(line->silence);
    free(line->without);
}
