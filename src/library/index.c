/* Finds the declarations of a built-in text without parsing them: where each begins and ends, and its names.
 *
 * The texts are ours and tested as a whole (tests/), so their lines are known to be well formed: a heading starts in the
 * first column, a statement is indented. */
#include "library/entries.h"

static struct text next_line(const char **at, const char *end)
{
    const char *begin = *at;
    const char *newline = memchr(begin, '\n', (size_t)(end - begin));
    *at = newline == NULL ? end : newline + 1;
    return (struct text){begin, (size_t)((newline == NULL ? end : newline) - begin)};
}

static bool starts_with(struct text line, const char *word)
{
    size_t length = strlen(word);
    return line.length > length && memcmp(line.at, word, length) == 0 && line.at[length] == ' ';
}

static bool starts_with_word(struct text text, const char *word)
{
    size_t length = strlen(word);
    return text.length >= length && memcmp(text.at, word, length) == 0;
}

/* The text up to the first of `stops`, each a word of its own. */
static struct text until(struct text text, const char *const *stops)
{
    for (size_t i = 0; i < text.length; i++) {
        if (text.at[i] == '#') {
            return text_trim((struct text){text.at, i});
        }
        if (text.at[i] != ' ') {
            continue;
        }
        struct text rest = text_trim((struct text){text.at + i, text.length - i});
        for (size_t s = 0; stops[s] != NULL; s++) {
            if (starts_with(rest, stops[s])) {
                return text_trim((struct text){text.at, i});
            }
        }
    }
    return text_trim(text);
}

struct text library_cut_name(struct text *list)
{
    while (list->length > 0) {
        bool quoted = false;
        size_t upto = 0;
        while (upto < list->length && (quoted || list->at[upto] != ',')) {
            quoted ^= list->at[upto] == '"';
            upto++;
        }
        struct text name = text_trim((struct text){list->at, upto});
        size_t skip = upto < list->length ? upto + 1 : upto;
        *list = (struct text){list->at + skip, list->length - skip};
        if (name.length >= 2 && name.at[0] == '"') {
            name = (struct text){name.at + 1, name.length - 2};
        }
        if (name.length > 0) {
            return name;
        }
    }
    return (struct text){"", 0};
}

static void add_aliases(struct library *library, struct library_entry *entry, struct text list)
{
    for (struct text name; (name = library_cut_name(&list)).length > 0;) {
        library_alias(library, entry, names_fold(library->arena, name));
    }
}

static struct text behind(struct text line, size_t keyword_length)
{
    return text_trim((struct text){line.at + keyword_length, line.length - keyword_length});
}

/* `unit fl oz is …  also fluid ounce, …  source "…"` */
static struct library_entry *index_unit(struct library *library, struct text line)
{
    static const char *const name_ends[] = {"is", "measures", NULL};
    static const char *const list_ends[] = {"source", NULL};
    struct text rest = behind(line, 4);
    struct library_entry *entry =
        library_declare(library, DECLARE_UNIT, names_fold(library->arena, until(rest, name_ends)));
    for (size_t i = 0; i + 6 < rest.length; i++) {
        if (rest.at[i] == '"') { /* the source's text */
            break;
        }
        struct text there = {rest.at + i, rest.length - i};
        if (starts_with_word(there, " usual ") || (starts_with_word(there, " measures ") && !starts_with_word(there, " measures money "))) {
            library_offer(library, entry);
        }
        if (memcmp(rest.at + i, " also ", 6) == 0) {
            add_aliases(library, entry, until((struct text){rest.at + i + 6, rest.length - i - 6}, list_ends));
            break;
        }
    }
    return entry;
}

static struct text first_word(struct text text)
{
    size_t length = 0;
    while (length < text.length && text.at[length] != ' ') {
        length++;
    }
    return (struct text){text.at, length};
}

static struct library_entry *index_heading(struct library *library, struct text line)
{
    static const char *const no_ends[] = {NULL};
    if (starts_with(line, "material")) {
        return library_declare(library, DECLARE_MATERIAL, names_fold(library->arena, until(behind(line, 8), no_ends)));
    }
    if (starts_with(line, "unit")) {
        return index_unit(library, line);
    }
    if (starts_with(line, "element")) {
        return library_declare(library, DECLARE_ELEMENT, first_word(behind(line, 7)));
    }
    if (starts_with(line, "rule")) {
        return library_declare(library, DECLARE_RULE, names_fold(library->arena, until(behind(line, 4), no_ends)));
    }
    if (starts_with(line, "reaction")) {
        return library_declare(library, DECLARE_REACTION,
                               names_fold(library->arena, until(behind(line, 8), no_ends)));
    }
    if (starts_with(line, "group")) {
        return library_declare(library, DECLARE_GROUP, names_fold(library->arena, until(behind(line, 5), no_ends)));
    }
    if (starts_with(line, "equilibrium")) {
        return library_declare(library, DECLARE_EQUILIBRIUM, names_fold(library->arena, until(behind(line, 11), no_ends)));
    }
    if (starts_with(line, "phrase")) {
        return library_declare(library, DECLARE_PHRASE, first_word(behind(line, 6)));
    }
    return NULL;
}

void library_index(struct library *library, struct source_file *file)
{
    static const char *const list_ends[] = {"source", NULL};
    const char *at = file->bytes;
    const char *end = file->bytes + file->length;
    struct library_entry *open = NULL;
    while (at < end) {
        const char *begin = at;
        struct text line = next_line(&at, end);
        bool heading = line.length > 0 && line.at[0] >= 'a' && line.at[0] <= 'z';
        if (heading) {
            struct library_entry *entry = index_heading(library, line);
            if (open != NULL) {
                open->end = (uint32_t)(begin - file->bytes);
            }
            open = entry;
            if (entry != NULL) {
                entry->file = file;
                entry->begin = (uint32_t)(begin - file->bytes);
                entry->of_library = true;
            }
        } else if (open != NULL && open->kind == DECLARE_MATERIAL) {
            line = text_trim(line);
            if (starts_with(line, "also")) {
                add_aliases(library, open, until(behind(line, 4), list_ends));
            }
        }
    }
    if (open != NULL) {
        open->end = file->length;
    }
}

struct text library_indexed_mistakes(const struct library_entry *entry)
{
    static const char *const no_ends[] = {NULL};
    const char *at = entry->file->bytes + entry->begin;
    const char *end = entry->file->bytes + entry->end;
    while (at < end) {
        struct text line = text_trim(next_line(&at, end));
        if (starts_with(line, "mistaken")) {
            return until(behind(behind(line, 8), 3), no_ends); /* `for` stands between, in its column */
        }
    }
    return (struct text){"", 0};
}
