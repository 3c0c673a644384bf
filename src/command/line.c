/* The words of a command line, read by the tables of verbs and options. */
#include "command/command.h"

#include "base/buffer.h"
#include "base/slips.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

struct reading {
    struct command_line *line;
    int count;
    char **words;
    int next;
    bool *given;                    /* by the table's order: which have been given */
    const char *old;                /* the option before this one, where it was spelt as of old */
};

bool command_refuse(struct arena *arena, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *message = arena_format_list(arena, format, arguments);
    va_end(arguments);
    command_say("potash: %s", message);
    return false;
}

/* ---- the tables ---- */

static bool is_spelt(const char *spelling, const char *word, size_t length)
{
    return spelling != NULL && strlen(spelling) == length && memcmp(spelling, word, length) == 0;
}

/* The option of that name which the verb takes; without a verb, any. */
static const struct option *find_option(const struct verb *verb, const char *word, size_t length)
{
    unsigned takes = verb == NULL ? ~0u : 1u << verb->id;
    const struct option *old = NULL;
    for (size_t i = 0; i < option_count; i++) {
        const struct option *option = &option_table[i];
        if ((option->verbs & takes) == 0) {
            continue;
        }
        if (is_spelt(option->name, word, length) || is_spelt(option->also, word, length)) {
            return option;
        }
        old = is_spelt(option->old, word, length) ? option : old;
    }
    return old;
}

static const struct verb *find_verb(const char *word)
{
    for (size_t i = 0; i < VERBS; i++) {
        if (strcmp(word, verbs[i].name) == 0) {
            return &verbs[i];
        }
    }
    return NULL;
}

/* Words that are near: a slip or two of the hand, or the beginning of a longer one. */
struct nearest {
    struct text wanted;
    int distance; /* as of text_slips */
    const char *name;
};

static void look_near(struct nearest *nearest, const char *name)
{
    struct text text = text_from(name);
    if (nearest->wanted.length > SLIPS_LONGEST) {
        return;
    }
    bool begins = nearest->wanted.length > 3 && nearest->wanted.length < text.length &&
                  memcmp(name, nearest->wanted.at, nearest->wanted.length) == 0;
    int distance = begins ? 1 : text_slips(nearest->wanted, text, nearest->distance);
    if (distance < nearest->distance) {
        nearest->distance = distance;
        nearest->name = name;
    }
}

static struct nearest near_to(const char *word, size_t length)
{
    int letters = (int)length - (int)strspn(word, "-");
    return (struct nearest){{word, length}, letters <= 3 ? 2 : letters <= 6 ? 4 : 5, NULL};
}

static const char *near_option(unsigned takers, const char *word, size_t length)
{
    struct nearest nearest = near_to(word, length);
    for (size_t i = 0; i < option_count; i++) {
        if ((option_table[i].verbs & takers) != 0) {
            look_near(&nearest, option_table[i].name);
        }
    }
    return nearest.name;
}

static bool refuse_verb(struct command_line *line, const char *word)
{
    struct nearest nearest = near_to(word, strlen(word));
    for (size_t i = 0; i < VERBS; i++) {
        look_near(&nearest, verbs[i].name);
    }
    return nearest.name == NULL
               ? command_refuse(line->arena, "there is no verb \"%.80s\"; the verbs: potash --help", word)
               : command_refuse(line->arena, "there is no verb \"%.80s\"; did you mean %s?", word, nearest.name);
}

/* "sheet, label and process" */
static const char *verbs_with(struct arena *arena, unsigned takers)
{
    struct buffer out;
    buffer_start(&out, arena);
    for (unsigned i = 0; i < VERBS; i++) {
        if ((takers >> i & 1) != 0) {
            bool last = takers >> i == 1;
            buffer_format(&out, "%s%s", out.length == 0 ? "" : last ? " and " : ", ", verbs[i].name);
        }
    }
    return buffer_finish(&out);
}

static bool refuse_option(struct command_line *line, const char *word, size_t length)
{
    const struct option *elsewhere = find_option(NULL, word, length);
    const struct verb *verb = line->verb;
    int shown = (int)(length < 80 ? length : 80);
    if (elsewhere != NULL && verb != NULL) {
        bool one = (elsewhere->verbs & (elsewhere->verbs - 1)) == 0;
        return command_refuse(line->arena, "%s does not take %.*s; %s %s", verb->name, shown, word,
                              verbs_with(line->arena, elsewhere->verbs), one ? "does" : "do");
    }
    const char *near = verb == NULL ? NULL : near_option(1u << verb->id, word, length);
    near = near != NULL ? near : near_option(~0u, word, length);
    return near != NULL
               ? command_refuse(line->arena, "there is no option %.*s; did you mean %s?", shown, word, near)
               : command_refuse(line->arena, "there is no option %.*s; the options: potash %s%s--help", shown, word,
                                verb == NULL ? "" : verb->name, verb == NULL ? "" : " ");
}

/* ---- values ---- */

static bool is_option_word(const char *word)
{
    return word[0] == '-' && word[1] != '\0' && word[1] != '.' && !text_is_digit(word[1]);
}

static bool is_number(const char *word)
{
    const char *digits = word + (word[0] == '-');
    return digits[0] != '\0' && digits[strspn(digits, "0123456789./")] == '\0';
}

/* A word that may be a unit, and is no file. */
static bool is_unit_word(const char *word)
{
    bool starts = (word[0] >= 'A' && word[0] <= 'Z') || (word[0] >= 'a' && word[0] <= 'z') || strncmp(word, "°", 2) == 0 || word[0] == '%';
    return starts && strlen(word) <= 8 && strpbrk(word, "./") == NULL && access(word, F_OK) != 0;
}

static bool names_measures(const char *word)
{
    return strcasecmp(word, "US") == 0 || strcasecmp(word, "imperial") == 0;
}

/* How many of the next words belong to a measure whose first word is `value`: "2 L", "1 1/2 L", "1 US quart", "99x67 mm". */
static int count_unit_words(const struct reading *reading, const char *value)
{
    char *const *next = reading->words + reading->next;
    int left = reading->count - reading->next;
    int taken = 0;
    bool pair = strchr(value, 'x') != NULL && left > 0 && strcmp(next[0], "mm") == 0;
    if (pair || !is_number(value)) {
        return pair;
    }
    if (left > 1 && strchr(next[0], '/') != NULL && is_number(next[0]) && is_unit_word(next[1])) {
        taken = 1;
    }
    if (left > taken && is_unit_word(next[taken])) {
        taken++;
        taken += names_measures(next[taken - 1]) && left > taken && is_unit_word(next[taken]);
    }
    return taken;
}

/* "12 8x10", "12 '18x24 cm'" */
static int count_size_words(const struct reading *reading)
{
    const char *next = reading->next < reading->count ? reading->words[reading->next] : "";
    const char *by = next + strspn(next, "0123456789.");
    return by != next && (*by == 'x' || *by == 'X') && text_is_digit(by[1]);
}

/* The value with the words of the shell that belong to it; NULL with a message when there is none. */
static const char *take_value(struct reading *reading, const struct option *option, const char *spelling, const char *equals)
{
    struct arena *arena = reading->line->arena;
    const char *value = equals != NULL ? equals : reading->next < reading->count ? reading->words[reading->next] : "";
    if (equals == NULL && is_option_word(value)) {
        command_refuse(arena, "%s wants a value, and %.80s is an option; write it as %s %s, or as %s=%.80s", spelling, value,
                       option->name, option->value, option->name, value);
        return NULL;
    }
    if (value[0] == '\0') {
        command_refuse(arena, "%s wants a value; write it as %s %s", spelling, option->name, option->value);
        return NULL;
    }
    reading->next += equals == NULL;
    int more = option->kind == VALUE_MEASURE  ? count_unit_words(reading, value)
               : option->kind == VALUE_SHEETS ? count_size_words(reading)
                                              : 0;
    for (; more > 0; more--) {
        value = arena_format(arena, "%s %s", value, reading->words[reading->next++]);
    }
    return value;
}

static bool is_day(const char *value)
{
    int year, month, day, end = 0;
    if (sscanf(value, "%4d-%2d-%2d%n", &year, &month, &day, &end) != 3 || end != 10 || value[end] != '\0' || year < 1) {
        return false;
    }
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = month == 2 && day == 29 && year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return month >= 1 && month <= 12 && day >= 1 && (day <= days[month - 1] || leap);
}

/* The choice that is meant, as the table spells it; NULL when it is none. */
static const char *find_choice(const struct option *option, const char *value)
{
    for (size_t i = 0; option->choices[i] != NULL; i++) {
        if (strcasecmp(value, option->choices[i]) == 0) {
            return option->choices[i];
        }
    }
    return NULL;
}

static bool refuse_choice(struct command_line *line, const struct option *option, const char *value)
{
    struct buffer out;
    buffer_start(&out, line->arena);
    for (size_t i = 0; option->choices[i] != NULL; i++) {
        buffer_format(&out, "%s%s", i == 0 ? "" : option->choices[i + 1] == NULL ? " or " : ", ", option->choices[i]);
    }
    return command_refuse(line->arena, "%s takes %s, not \"%.80s\"", option->name, buffer_finish(&out), value);
}

static void add_text(struct arena *arena, struct text_list *list, const char *text)
{
    const char **longer = ARENA_ARRAY(arena, const char *, list->count + 2);
    if (list->count > 0) {
        memcpy(longer, list->at, list->count * sizeof *longer);
    }
    longer[list->count++] = text;
    list->at = longer;
}

/* Of old, `shelf --for TITLE --make AMOUNT` said how much of that title was meant. */
static bool make_is_for_title(struct reading *reading, const struct option *option, const char *value)
{
    struct text_list *mix = &reading->line->mix;
    if (strcmp(option->name, "--make") != 0 || reading->old == NULL || strcmp(reading->old, "--for") != 0) {
        return false;
    }
    mix->at[mix->count - 1] = arena_format(reading->line->arena, "%s of %s", value, mix->at[mix->count - 1]);
    return true;
}

static bool store(struct reading *reading, const struct option *option, const char *value)
{
    struct command_line *line = reading->line;
    size_t index = (size_t)(option - option_table);
    char *field = (char *)line + option->field;
    if (option->kind == VALUE_NONE ? false : make_is_for_title(reading, option, value)) {
        return true;
    }
    if (reading->given[index] && !option->repeats) {
        return command_refuse(line->arena, "%s is given twice; give it once", option->name);
    }
    reading->given[index] = true;
    const char *choice = option->kind == VALUE_NONE ? NULL : find_choice(option, value);
    if (option->kind == VALUE_CHOICE && choice == NULL && strcmp(option->name, "--of") == 0) {
        line->options.use_for = value; /* the old spelling of --for */
        return true;
    }
    if (option->kind == VALUE_CHOICE && choice == NULL) {
        return refuse_choice(line, option, value);
    }
    if (option->kind == VALUE_DATE && choice == NULL && !is_day(value)) {
        return command_refuse(line->arena, "%s takes a day such as 2026-03-04%s, not \"%.80s\"", option->name,
                              option->choices[0] != NULL ? ", or none" : "", value);
    }
    value = choice != NULL ? choice : value;
    if (option->kind == VALUE_NONE) {
        *(bool *)field = true;
    } else if (option->repeats) {
        add_text(line->arena, (struct text_list *)field, value);
    } else {
        *(const char **)field = value;
    }
    return true;
}

/* ---- words ---- */

/* "--make=2L" and "--make2L" are cut behind the name. */
static size_t name_length(const struct verb *verb, const char *word)
{
    size_t length = strcspn(word, "=");
    size_t letters = word[0] == '-' && word[1] == '-' ? 2 + strspn(word + 2, "abcdefghijklmnopqrstuvwxyz-") : length;
    const struct option *option = letters < length && text_is_digit(word[letters]) ? find_option(verb, word, letters) : NULL;
    return option != NULL && option->kind == VALUE_MEASURE ? letters : length;
}

static bool take_option(struct reading *reading, const char *word)
{
    struct command_line *line = reading->line;
    size_t length = name_length(line->verb, word);
    const struct option *option = find_option(line->verb, word, length);
    if (option == NULL) {
        return refuse_option(line, word, length);
    }
    const char *spelling = arena_copy(line->arena, word, length);
    const char *equals = word[length] == '\0' ? NULL : word + length + (word[length] == '=');
    if (option->kind == VALUE_NONE && equals != NULL) {
        return command_refuse(line->arena, "%s takes no value; write it as %s alone", spelling, option->name);
    }
    const char *value = option->kind == VALUE_NONE ? NULL : take_value(reading, option, spelling, equals);
    bool good = (option->kind == VALUE_NONE || value != NULL) && store(reading, option, value);
    bool old = option->old != NULL && strcmp(spelling, option->old) == 0;
    reading->old = old ? option->old : NULL;
    return good;
}

/* Whether the word is one of the verb's, or of the paths', and no option. */
static bool is_plain_word(const char *word)
{
    return word[0] != '-' || word[1] == '\0' || text_is_digit(word[1]);
}

/* Looks for the verb, which options may stand before, and for --help and --version, which go before all that may be wrong. */
static const char *look_through(struct reading *reading)
{
    const char *verb = NULL;
    for (reading->next = 1; reading->next < reading->count;) {
        const char *word = reading->words[reading->next++];
        if (strcmp(word, "--") == 0) {
            return verb == NULL && reading->next < reading->count ? reading->words[reading->next] : verb;
        }
        if (is_plain_word(word)) {
            verb = verb == NULL ? word : verb;
            continue;
        }
        size_t length = name_length(NULL, word);
        const struct option *option = find_option(verb == NULL ? NULL : find_verb(verb), word, length);
        reading->line->help = reading->line->help || (option != NULL && strcmp(option->name, "--help") == 0);
        reading->line->version = reading->line->version || (option != NULL && strcmp(option->name, "--version") == 0);
        if (option == NULL || option->kind == VALUE_NONE || word[length] != '\0' || reading->next >= reading->count ||
            is_option_word(reading->words[reading->next])) {
            continue;
        }
        const char *value = reading->words[reading->next++];
        reading->next += option->kind == VALUE_MEASURE  ? count_unit_words(reading, value)
                         : option->kind == VALUE_SHEETS ? count_size_words(reading)
                                                        : 0;
    }
    return verb;
}

static bool take_words(struct reading *reading)
{
    struct command_line *line = reading->line;
    bool only_paths = false;
    bool verb_seen = false;
    for (reading->next = 1; reading->next < reading->count;) {
        const char *word = reading->words[reading->next++];
        if (!only_paths && strcmp(word, "--") == 0) {
            only_paths = true;
        } else if (!only_paths && !is_plain_word(word)) {
            if (!take_option(reading, word)) {
                return false;
            }
        } else if (!verb_seen) {
            verb_seen = true;
        } else {
            line->paths.at[line->paths.count++] = word;
        }
    }
    return true;
}

static bool is_given(const struct reading *reading, const char *name)
{
    for (size_t i = 0; i < option_count; i++) {
        if (reading->given[i] && strcmp(option_table[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

static bool go_together(const struct reading *reading)
{
    for (size_t i = 0; i < option_pair_count; i++) {
        const struct option_pair *pair = &option_pairs[i];
        for (const char *const *other = pair->others; *other != NULL && is_given(reading, pair->one); other++) {
            if (is_given(reading, *other)) {
                return command_refuse(reading->line->arena, "%s does not go with %s: %s", pair->one, *other, pair->why);
            }
        }
    }
    return true;
}

/* Whether what was given has an effect on what is asked for. */
static bool have_effect(const struct reading *reading)
{
    struct command_line *line = reading->line;
    for (size_t i = 0; i < option_need_count; i++) {
        const struct option_need *need = &option_needs[i];
        const char *const *other = need->others;
        while (*other != NULL && !is_given(reading, *other)) {
            other++;
        }
        if (need->verb == line->verb->id && *other == NULL && is_given(reading, need->option)) {
            return command_refuse(line->arena, "%s has no effect on this %s without %s%s%s", need->option, line->verb->name, need->others[0],
                                  need->others[1] == NULL ? "" : " or ", need->others[1] == NULL ? "" : need->others[1]);
        }
    }
    for (size_t i = 0; i < option_count; i++) {
        const struct option *option = &option_table[i];
        if (reading->given[i] && option->formats != 0 && (option->formats >> line->format & 1) == 0) {
            return command_refuse(line->arena, "%s has no effect on %s; add --as %s", option->name, format_names[line->format],
                                  command_format_list(line->arena, option->formats));
        }
    }
    return true;
}

bool command_read_line(struct arena *arena, int count, char **words, struct command_line *line)
{
    *line = (struct command_line){.arena = arena};
    line->paths.at = ARENA_ARRAY(arena, const char *, (size_t)count + 1);
    struct reading reading = {.line = line, .count = count, .words = words, .given = ARENA_ARRAY(arena, bool, option_count)};
    const char *verb = look_through(&reading);
    line->verb = verb == NULL ? NULL : find_verb(verb);
    if (line->version || (line->help && (verb == NULL || line->verb != NULL))) {
        return true;
    }
    if (verb != NULL && line->verb == NULL) {
        return refuse_verb(line, verb);
    }
    if (!take_words(&reading)) {
        return false;
    }
    if (verb == NULL) {
        return command_refuse(arena, "write potash VERB PATH…, as in: potash sheet formulas.bath; the verbs: potash --help");
    }
    line->options.silence = line->silence.at;
    line->options.without = line->without.at;
    line->options.mix = line->mix.at;
    return go_together(&reading) && command_read_values(line) && have_effect(&reading);
}
