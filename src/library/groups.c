/* Groups of materials that behave alike. */
#include "library/groups.h"

#include "library/entries.h"
#include "library/relation.h"

#include <ctype.h>

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

/* What a key is of; its first byte. */
enum key_kind { KEY_MATERIAL = 'm', KEY_ROLE = 'r', KEY_ION = 'i', KEY_ELEMENT = 'e', KEY_HAZARD = 'h' };

enum { LONGEST_KEY = 96 };

struct group_key {
    struct group_set in;
    struct group_set out; /* groups that leave it out */
    UT_hash_handle hh;
};

bool material_has_role(const struct material *material, struct text role)
{
    for (size_t i = 0; i < material->role_count; i++) {
        if (text_equal(material->roles[i], role)) {
            return true;
        }
    }
    return false;
}

/* ---- reading the declarations ---- */

static struct group_key *find_key(const struct groups *groups, enum key_kind kind, struct text text)
{
    char room[LONGEST_KEY];
    struct group_key *key = NULL;
    if (text.length < LONGEST_KEY) {
        room[0] = (char)kind;
        memcpy(room + 1, text.at, text.length);
        HASH_FIND(hh, groups->keys, room, text.length + 1, key);
    }
    return key;
}

static struct group_key *make_key(struct groups *groups, struct library *library, enum key_kind kind, struct text text)
{
    struct arena *table_arena = library->arena;
    struct group_key *key = find_key(groups, kind, text);
    if (key == NULL) {
        key = ARENA_NEW(library->arena, struct group_key);
        char *room = arena_allocate(library->arena, text.length + 1);
        room[0] = (char)kind;
        memcpy(room + 1, text.at, text.length);
        HASH_ADD_KEYPTR(hh, groups->keys, room, text.length + 1, key);
    }
    return key;
}

static size_t find_place(const struct groups *groups, struct text name)
{
    size_t place = 0;
    while (place < groups->count && !text_equal(groups->names[place], name)) {
        place++;
    }
    return place == groups->count ? MOST_GROUPS : place;
}

/* The key of what a name means: a material's own, whichever of its names this is, or a role's. */
static struct group_key *key_of_name(struct groups *groups, struct library *library, struct text name)
{
    const struct library_entry *entry = library_material_entry(library, name);
    return entry != NULL ? make_key(groups, library, KEY_MATERIAL, entry->key) : make_key(groups, library, KEY_ROLE, name);
}

size_t groups_place(struct groups *groups, struct library *library, struct text name)
{
    size_t place = find_place(groups, name);
    if (place == MOST_GROUPS && groups->count < MOST_GROUPS) {
        place = groups->count++;
        groups->names[place] = name;
        group_set_put(&key_of_name(groups, library, name)->in, place);
    }
    return place;
}

static void read_names(struct groups *groups, struct library *library, const struct word *word, size_t place, bool out)
{
    for (; word != NULL; word = word->next) {
        struct text name = names_folded(library->names, word->name)->spelling;
        size_t inner = out ? MOST_GROUPS : find_place(groups, name);
        if (inner < MOST_GROUPS) {
            group_set_put(&groups->holds[place], inner);
        } else {
            struct group_key *key = key_of_name(groups, library, name);
            group_set_put(out ? &key->out : &key->in, place);
        }
    }
}

static void read_ions(struct groups *groups, struct library *library, enum key_kind kind, const struct ion *ion, size_t place)
{
    for (; ion != NULL; ion = ion->next) {
        group_set_put(&make_key(groups, library, kind, ion->formula)->in, place);
    }
}

static void read_group(struct groups *groups, struct library *library, const struct declaration *declaration, size_t place)
{
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct word *words = ((const struct words_statement *)statement)->words;
        switch (statement->kind) {
        case SAY_HOLDS:
        case SAY_LEAVE_OUT:
            read_names(groups, library, words, place, statement->kind == SAY_LEAVE_OUT);
            break;
        case SAY_IONS:
        case SAY_FORM:
            read_ions(groups, library, statement->kind == SAY_IONS ? KEY_ION : KEY_ELEMENT,
                      ((const struct ions_statement *)statement)->ions, place);
            break;
        case SAY_HAZARD:
            for (; words != NULL; words = words->next) {
                group_set_put(&make_key(groups, library, KEY_HAZARD, words->name->spelling)->in, place);
            }
            break;
        default:
            break;
        }
    }
}

struct naming {
    struct groups *groups;
    struct library *library;
    const struct declaration *declarations[MOST_GROUPS];
};

static void name_group(void *context, const struct declaration *declaration)
{
    struct naming *naming = context;
    struct groups *groups = naming->groups;
    if (declaration->name.name != NULL && groups->count < MOST_GROUPS) {
        naming->declarations[groups->count] = declaration;
        groups->names[groups->count++] = names_folded(naming->library->names, declaration->name.name)->spelling;
    }
}

void groups_start(struct groups *groups, struct library *library)
{
    struct naming naming = {.groups = groups, .library = library};
    library_each_declaration(library, DECLARE_GROUP, name_group, &naming);
    size_t declared = groups->count;
    for (size_t place = 0; place < declared; place++) { /* a group may hold one that is declared after it */
        read_group(groups, library, naming.declarations[place], place);
    }
}

/* ---- what a material belongs to ---- */

struct belonging {
    const struct groups *groups;
    struct group_set in;
    struct group_set out;
};

static void add_key(struct belonging *belonging, enum key_kind kind, struct text text)
{
    const struct group_key *key = find_key(belonging->groups, kind, text);
    if (key != NULL) {
        group_set_add(&belonging->in, &key->in);
        group_set_add(&belonging->out, &key->out);
    }
}

static void add_elements(struct belonging *belonging, struct text chemical)
{
    for (size_t i = 0; i < chemical.length; i++) {
        if (isupper((unsigned char)chemical.at[i])) {
            bool two = i + 1 < chemical.length && islower((unsigned char)chemical.at[i + 1]);
            add_key(belonging, KEY_ELEMENT, (struct text){chemical.at + i, two ? 2 : 1});
        }
    }
}

/* A group that holds another has what is in that, unless it leaves it out. */
static void close_over(struct belonging *belonging)
{
    const struct groups *groups = belonging->groups;
    for (size_t i = 0; i < MOST_GROUPS / 64; i++) {
        belonging->in.bits[i] &= ~belonging->out.bits[i];
    }
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t place = 0; place < groups->count; place++) {
            if (!group_set_has(&belonging->in, place) && !group_set_has(&belonging->out, place) &&
                group_sets_meet(&belonging->in, &groups->holds[place])) {
                group_set_put(&belonging->in, place);
                grown = true;
            }
        }
    }
}

static const struct group_set *find_groups(const struct groups *groups, struct library *library, const struct material *material)
{
    struct belonging belonging = {.groups = groups};
    add_key(&belonging, KEY_MATERIAL, material->entry->key);
    for (size_t i = 0; i < material->role_count; i++) {
        add_key(&belonging, KEY_ROLE, material->roles[i]);
    }
    bool known;
    for (const struct ion *ion = library_ions(material, &known); ion != NULL; ion = ion->next) {
        add_key(&belonging, KEY_ION, ion->formula);
    }
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        const struct figure_statement *figure = (const struct figure_statement *)statement;
        if (statement->kind == SAY_HAZARD && figure->word != NULL) {
            add_key(&belonging, KEY_HAZARD, figure->word->name->spelling);
        }
    }
    add_elements(&belonging, material->usual->chemical);
    close_over(&belonging);
    struct group_set *found = ARENA_NEW(library->arena, struct group_set);
    *found = belonging.in;
    return found;
}

const struct group_set *material_groups(struct library *library, const struct material *material)
{
    if (material->marks->groups == NULL) {
        material->marks->groups = find_groups(&library_relation(library)->groups, library, material);
    }
    return material->marks->groups;
}

bool material_in_group(struct library *library, const struct material *material, struct text group)
{
    size_t place = library_group(library, group) == NULL ? MOST_GROUPS : find_place(&library_relation(library)->groups, group);
    return place < MOST_GROUPS && group_set_has(material_groups(library, material), place);
}

bool material_answers_to(struct library *library, const struct material *material, struct text name)
{
    return library_material_entry(library, name) == material->entry || material_has_role(material, name) ||
           material_in_group(library, material, name);
}
