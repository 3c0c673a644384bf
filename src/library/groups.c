/* Groups of materials that behave alike. */
#include "library/groups.h"

#include "library/entries.h"
#include "library/relation.h"
#include "library/tables.h"

#include <ctype.h>

/* What a key is of; its first byte. */
enum key_kind { KEY_MATERIAL = 'm', KEY_ROLE = 'r', KEY_ION = 'i', KEY_ELEMENT = 'e', KEY_HAZARD = 'h' };

enum { LONGEST_KEY = 96 };

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

/* Where the key is, or would be put. */
static size_t find_slot(const struct groups *groups, struct text text)
{
    uint32_t at = table_key_hash(DECLARE_GROUP, text) & groups->mask;
    while (groups->slots[at] != 0 && !text_equal(groups->keys[groups->slots[at] - 1].text, text)) {
        at = (at + 1) & groups->mask;
    }
    return at;
}

static void make_room(struct groups_reader *reader)
{
    enum { FIRST_ROOM = 512 };
    struct groups *groups = reader->groups;
    struct group_key *before = reader->keys;
    reader->room = reader->room == 0 ? FIRST_ROOM : 2 * reader->room;
    groups->keys = reader->keys = ARENA_ARRAY(reader->library->arena, struct group_key, reader->room);
    groups->slots = reader->slots = ARENA_ARRAY(reader->library->arena, uint16_t, 2 * reader->room);
    groups->mask = (uint32_t)(2 * reader->room - 1);
    for (size_t i = 0; i < groups->key_count; i++) {
        reader->keys[i] = before[i];
        reader->slots[find_slot(groups, before[i].text)] = (uint16_t)(i + 1);
    }
}

static struct group_key *make_key(struct groups_reader *reader, enum key_kind kind, struct text text)
{
    struct groups *groups = reader->groups;
    if (groups->key_count == reader->room) {
        make_room(reader);
    }
    char *room = arena_allocate(reader->library->arena, text.length + 1);
    room[0] = (char)kind;
    memcpy(room + 1, text.at, text.length);
    text = (struct text){room, text.length + 1};
    size_t slot = find_slot(groups, text);
    if (groups->slots[slot] == 0) {
        reader->keys[groups->key_count++].text = text;
        reader->slots[slot] = (uint16_t)groups->key_count;
    }
    return &reader->keys[groups->slots[slot] - 1];
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
static struct group_key *key_of_name(struct groups_reader *reader, struct text name)
{
    const struct library_entry *entry = library_material_entry(reader->library, name);
    return entry != NULL ? make_key(reader, KEY_MATERIAL, entry->key) : make_key(reader, KEY_ROLE, name);
}

size_t groups_place(struct groups_reader *reader, struct text name)
{
    struct groups *groups = reader->groups;
    size_t place = find_place(groups, name);
    if (place == MOST_GROUPS && groups->count < MOST_GROUPS) {
        place = groups->count++;
        groups->names[place] = name;
        group_set_put(&key_of_name(reader, name)->in, place);
    }
    return place;
}

static void read_names(struct groups_reader *reader, const struct word *word, size_t place, bool out)
{
    for (; word != NULL; word = word->next) {
        struct text name = names_folded(reader->library->names, word->name)->spelling;
        size_t inner = out ? MOST_GROUPS : find_place(reader->groups, name);
        if (inner < MOST_GROUPS) {
            group_set_put(&reader->groups->holds[place], inner);
        } else {
            struct group_key *key = key_of_name(reader, name);
            group_set_put(out ? &key->out : &key->in, place);
        }
    }
}

static void read_ions(struct groups_reader *reader, enum key_kind kind, const struct ion *ion, size_t place)
{
    for (; ion != NULL; ion = ion->next) {
        group_set_put(&make_key(reader, kind, ion->formula)->in, place);
    }
}

static void read_group(struct groups_reader *reader, const struct declaration *declaration, size_t place)
{
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct word *words = ((const struct words_statement *)statement)->words;
        switch (statement->kind) {
        case SAY_HOLDS:
        case SAY_LEAVE_OUT:
            read_names(reader, words, place, statement->kind == SAY_LEAVE_OUT);
            break;
        case SAY_IONS:
        case SAY_FORM:
            read_ions(reader, statement->kind == SAY_IONS ? KEY_ION : KEY_ELEMENT, ((const struct ions_statement *)statement)->ions,
                      place);
            break;
        case SAY_HAZARD:
            for (; words != NULL; words = words->next) {
                group_set_put(&make_key(reader, KEY_HAZARD, words->name->spelling)->in, place);
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

void groups_start(struct groups_reader *reader, struct groups *groups, struct library *library)
{
    *reader = (struct groups_reader){.library = library, .groups = groups};
    make_room(reader);
    struct naming naming = {.groups = groups, .library = library};
    library_each_declaration(library, DECLARE_GROUP, name_group, &naming);
    size_t declared = groups->count;
    for (size_t place = 0; place < declared; place++) { /* a group may hold one that is declared after it */
        read_group(reader, naming.declarations[place], place);
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
    char room[LONGEST_KEY];
    if (text.length >= LONGEST_KEY) {
        return;
    }
    room[0] = (char)kind;
    memcpy(room + 1, text.at, text.length);
    size_t place = belonging->groups->slots[find_slot(belonging->groups, (struct text){room, text.length + 1})];
    if (place > 0) {
        const struct group_key *key = &belonging->groups->keys[place - 1];
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

const struct group_set *groups_of_material(struct library *library, const struct material *material)
{
    struct belonging belonging = {.groups = &library_relation(library)->groups};
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

bool material_in_group(struct library *library, const struct material *material, struct text group)
{
    size_t place = library_group(library, group) == NULL ? MOST_GROUPS : find_place(&library_relation(library)->groups, group);
    return place < MOST_GROUPS && group_set_has(material->groups, place);
}

bool material_answers_to(struct library *library, const struct material *material, struct text name)
{
    return library_material_entry(library, name) == material->entry || material_has_role(material, name) ||
           material_in_group(library, material, name);
}
