/* Near misses: which known name a misspelt one was meant to be. */
#include "library/entries.h"

#include "base/slips.h"

enum {
    LONGEST = SLIPS_LONGEST,
    MOST_SEARCHES = 2000 /* a file of nothing but unknown words must not take for ever */
};

struct candidate {
    struct library_entry *entry;
    struct text key;
    int distance;
};

/* A unit of what is not asked for: nobody weighs in degrees, and half of all words of three letters are near to the code of some
 * currency. */
static bool is_out_of_question(struct library *library, struct library_entry *entry, unsigned dimensions)
{
    const struct unit *unit = entry->kind == DECLARE_UNIT ? library_make_unit(library, entry) : NULL;
    if (unit == NULL) {
        return false;
    }
    unsigned measures = DIMENSION_BIT(unit->dimension) | (unit->of_liquids != NULL ? DIMENSION_BIT(DIMENSION_VOLUME) : 0);
    return (dimensions & measures) == 0;
}

static size_t near_entries(struct library *library, enum declaration_kind kind, struct text spelling, unsigned dimensions,
                           struct candidate *found, size_t most)
{
    if (library->near_searches++ > MOST_SEARCHES) {
        return 0;
    }
    struct text wanted = names_fold(library->arena, spelling);
    if (wanted.length == 0 || wanted.length > LONGEST) {
        return 0;
    }
    int limit = wanted.length <= 3 ? 2 : wanted.length <= 6 ? 3 : 2 * (int)(wanted.length / 4);
    limit = limit > 8 ? 8 : limit;
    size_t count = 0;
    for (struct library_key_walk walk = {.library = library, .kind = kind}; library_next_key(&walk);) {
        size_t longer = walk.key.length > wanted.length ? walk.key.length - wanted.length : wanted.length - walk.key.length;
        if (walk.key.length > LONGEST || 2 * (int)longer > limit) {
            continue;
        }
        int distance = text_slips(wanted, walk.key, limit);
        struct library_entry *entry = distance > limit ? NULL : library_walked_entry(&walk);
        if (entry == NULL || is_out_of_question(library, entry, dimensions)) {
            continue;
        }
        /* Keep the nearest few, in order, each material once; of equal ones the own name before the others. */
        size_t place = count;
        bool worse = false;
        for (size_t i = 0; i < count; i++) {
            if (found[i].entry == entry) {
                worse = found[i].distance <= distance;
                place = i;
                break;
            }
        }
        if (worse) {
            continue;
        }
        if (place == count) {
            if (count == most && found[most - 1].distance <= distance) {
                continue;
            }
            place = count < most ? count++ : most - 1;
        }
        struct candidate candidate = {entry, walk.key, distance};
        while (place > 0 && found[place - 1].distance > distance) {
            found[place] = found[place - 1];
            place--;
        }
        found[place] = candidate;
    }
    return count;
}

bool library_near_text(struct library *library, struct text wanted, struct text known, int *distance)
{
    int limit = wanted.length <= 6 ? 3 : 8;
    size_t longer = known.length > wanted.length ? known.length - wanted.length : wanted.length - known.length;
    if (library->near_searches > MOST_SEARCHES || wanted.length > LONGEST || known.length > LONGEST ||
        2 * longer > (size_t)limit) {
        return false;
    }
    *distance = text_slips(wanted, known, limit);
    return *distance <= limit;
}

enum { MOST_FOUND = 8 };

static bool has_word(struct text name, struct text word)
{
    for (size_t at = 0; at + word.length <= name.length; at++) {
        bool begins = at == 0 || name.at[at - 1] == ' ';
        bool ends = at + word.length == name.length || name.at[at + word.length] == ' ';
        if (begins && ends && memcmp(name.at + at, word.at, word.length) == 0) {
            return true;
        }
    }
    return false;
}

/* The first grave material whose names have a word that no other material's have: "cyanide", "picrate". */
static const struct material *grave_by_word(struct library *library, struct text word)
{
    const struct material *grave = NULL;
    for (struct library_key_walk walk = {.library = library, .kind = DECLARE_MATERIAL}; library_next_key(&walk);) {
        const struct material *material = has_word(walk.key, word) ? library_make_material(library, library_walked_entry(&walk)) : NULL;
        if (material != NULL && material->stop.length == 0) {
            return NULL;
        }
        grave = grave == NULL ? material : grave;
    }
    return grave;
}

static const struct material *grave_by_words(struct library *library, struct text spelling)
{
    enum { SHORTEST_WORD = 5 };
    struct text rest = names_fold(library->arena, spelling);
    const struct material *grave = NULL;
    while (grave == NULL && rest.length > 0 && rest.length <= LONGEST) {
        const char *blank = memchr(rest.at, ' ', rest.length);
        struct text word = {rest.at, blank == NULL ? rest.length : (size_t)(blank - rest.at)};
        grave = word.length >= SHORTEST_WORD ? grave_by_word(library, word) : NULL;
        rest = text_trim((struct text){rest.at + word.length, rest.length - word.length});
    }
    return grave;
}

size_t library_near_materials(struct library *library, struct text spelling, struct text *found, size_t most, struct text *grave)
{
    struct candidate candidates[MOST_FOUND];
    size_t count = near_entries(library, DECLARE_MATERIAL, spelling, 0, candidates, MOST_FOUND);
    const struct material *poison = library->near_searches > MOST_SEARCHES ? NULL : grave_by_words(library, spelling);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        const struct material *material = library_make_material(library, candidates[i].entry);
        if (material != NULL && material->stop.length == 0 && kept < most) {
            found[kept++] = material->name;
        } else if (material != NULL && material->stop.length > 0 && candidates[i].distance == candidates[0].distance) {
            poison = material;
        }
    }
    *grave = poison == NULL ? (struct text){0} : poison->name;
    return poison == NULL ? kept : 0;
}

size_t library_near_units(struct library *library, struct text spelling, unsigned dimensions, struct text *found, size_t most)
{
    struct candidate candidates[MOST_FOUND];
    size_t count = near_entries(library, DECLARE_UNIT, spelling, dimensions, candidates, most < MOST_FOUND ? most : MOST_FOUND);
    for (size_t i = 0; i < count; i++) {
        const struct unit *unit = library_make_unit(library, candidates[i].entry);
        found[i] = unit == NULL ? candidates[i].key : unit->name;
    }
    return count;
}

const struct form *library_near_form(struct library *library, const struct material *material, struct text spelling)
{
    struct text wanted = names_fold(library->arena, spelling);
    const struct form *nearest = NULL;
    int least = 7;
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        if (form->name == NULL || wanted.length > LONGEST || form->name->spelling.length > LONGEST) {
            continue;
        }
        int distance = text_slips(wanted, form->name->spelling, least);
        if (distance < least) {
            least = distance;
            nearest = form;
        }
    }
    return nearest;
}
