/* Names cut short as printed columns have them ("Pot. brom.", "Carb. soda", "Sodii hyposulph."): which known names they may stand
 * for.  They are offered and never taken, since a short word may stand for more than the library knows of. */
#include "library/entries.h"

enum { MOST_WORDS = 4, SHORTEST = 2, SHORTEST_ALONE = 5, MOST_SEARCHES = 2000 };

struct words {
    struct text list[MOST_WORDS];
    struct text other[MOST_WORDS]; /* of a name that is looked for */
    size_t count; /* MOST_WORDS + 1 where there are more */
};

/* The words of a folded name; `of` and `and` go. */
static struct words split(struct text name)
{
    struct words words = {0};
    for (size_t at = 0; at < name.length && words.count <= MOST_WORDS;) {
        size_t end = at;
        while (end < name.length && name.at[end] != ' ') {
            end++;
        }
        struct text word = {name.at + at, end - at};
        bool joins = text_is(word, "of") || text_is(word, "and");
        if (!joins && word.length > 0) {
            if (words.count < MOST_WORDS) {
                words.list[words.count] = word;
            }
            words.count++;
        }
        at = end + 1;
    }
    return words;
}

/* The other words that the library says those of a name stand for: "soda" and "sodii" for sodium. */
static void find_others(struct library *library, struct words *words)
{
    for (size_t i = 0; i < words->count && i < MOST_WORDS; i++) {
        const char *code = arena_format(library->arena, "short-%.*s", TEXT_ARGUMENTS(words->list[i]));
        const struct declaration *phrase = library_phrase(library, text_from(code));
        words->other[i] = phrase == NULL ? (struct text){0} : phrase->title;
    }
}

static bool begins(struct text known, struct text word)
{
    return word.length >= SHORTEST && word.length <= known.length && memcmp(word.at, known.at, word.length) == 0;
}

static bool is_short_for(const struct words *wanted, size_t word, struct text known)
{
    return begins(known, wanted->list[word]) || begins(known, wanted->other[word]);
}

static bool stands_for(const struct words *wanted, const struct words *known)
{
    if (wanted->count == 1 && known->count == 2) { /* "bromide": of what? */
        return text_equal(wanted->list[0], known->list[1]);
    }
    if (wanted->count != known->count) {
        return false;
    }
    bool same = true;
    bool turned = true; /* "bromide potass." */
    for (size_t i = 0; i < wanted->count; i++) {
        same = same && is_short_for(wanted, i, known->list[i]);
        turned = turned && is_short_for(wanted, i, known->list[wanted->count - 1 - i]);
    }
    return same || turned;
}

size_t library_abbreviated_materials(struct library *library, struct text spelling, struct text *found, size_t most, struct text *grave)
{
    *grave = (struct text){0};
    struct text folded = names_fold(library->arena, spelling);
    struct words wanted = split(folded);
    bool readable = wanted.count >= 1 && wanted.count <= MOST_WORDS && (wanted.count > 1 || folded.length >= SHORTEST_ALONE);
    if (!readable || library->near_searches++ > MOST_SEARCHES) {
        return 0;
    }
    find_others(library, &wanted);
    const struct library_entry *told_of[8];
    size_t count = 0;
    for (struct library_key_walk walk = {.library = library, .kind = DECLARE_MATERIAL}; library_next_key(&walk);) {
        const struct words known = split(walk.key);
        if (known.count > MOST_WORDS || !stands_for(&wanted, &known)) {
            continue;
        }
        struct library_entry *entry = library_walked_entry(&walk);
        bool told = false;
        for (size_t i = 0; i < count; i++) {
            told = told || told_of[i] == entry;
        }
        const struct material *material = told ? NULL : library_make_material(library, entry);
        if (material == NULL || (material->stop.length > 0 && wanted.count == 1)) {
            continue;
        }
        if (material->stop.length > 0) {
            *grave = material->name;
            return 0;
        }
        if (count == most || count == sizeof told_of / sizeof *told_of) {
            return wanted.count == 1 ? count : 0; /* short for too many */
        }
        told_of[count] = entry;
        found[count++] = material->name;
    }
    return count;
}
