/* The library's tables: what is declared under which name. */
#include "library/entries.h"

#include "library/equilibria.h"
#include "library/tables.h"
#include "library/wordings.h"
#include "syntax/parse.h"

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

/* Whether declarations of that kind are kept here. */
static bool is_kept(enum declaration_kind kind)
{
    const unsigned kept = 1u << DECLARE_MATERIAL | 1u << DECLARE_UNIT | 1u << DECLARE_ELEMENT | 1u << DECLARE_PHRASE | 1u << DECLARE_RULE |
                          1u << DECLARE_REACTION | 1u << DECLARE_GROUP | 1u << DECLARE_EQUILIBRIUM | 1u << DECLARE_KIND_OF_BATH;
    return (kept >> kind & 1) != 0;
}

/* ---- what is built in ---- */

static struct text table_key_text(const struct library_tables *tables, size_t key)
{
    return (struct text){tables->letters + tables->keys[key].at, tables->keys[key].length};
}

static size_t built_count(const struct library *library)
{
    return library->tables == NULL ? 0 : library->tables->first_entry[TABLE_KINDS];
}

static struct library_entry *built_entry(struct library *library, enum declaration_kind kind, size_t place)
{
    struct library_entry *entry = library->built[place];
    if (entry == NULL) {
        const struct table_entry *row = &library->tables->entries[place];
        entry = library->built[place] = ARENA_NEW(library->arena, struct library_entry);
        entry->key = table_key_text(library->tables, row->key);
        entry->kind = kind;
        entry->number = place;
        entry->file = library->built_files[row->file];
        entry->begin = row->begin;
        entry->end = row->end;
        entry->of_library = true;
        entry->offered = row->offered;
    }
    return entry;
}

static struct library_entry *find_built(struct library *library, enum declaration_kind kind, struct text key)
{
    const struct library_tables *tables = library->tables;
    for (uint32_t at = table_key_hash(kind, key);; at++) {
        size_t found = tables->slots[at & tables->mask];
        if (found == 0) {
            return NULL;
        }
        bool of_kind = found > tables->first_key[kind] && found <= tables->first_key[kind + 1];
        if (of_kind && text_equal(table_key_text(tables, found - 1), key)) {
            return built_entry(library, kind, tables->keys[found - 1].entry);
        }
    }
}

/* ---- names ---- */

struct library_entry *library_find(struct library *library, enum declaration_kind kind, struct text key)
{
    struct library_key *found = NULL;
    HASH_FIND(hh, library->keys[kind], key.at, key.length, found);
    if (found != NULL) {
        return found->entry;
    }
    return library->tables == NULL ? NULL : find_built(library, kind, key);
}

static void add_key(struct library *library, struct library_entry *entry, struct text text)
{
    struct arena *table_arena = library->arena;
    struct library_key *key = ARENA_NEW(library->arena, struct library_key);
    key->key = text;
    key->entry = entry;
    HASH_ADD_KEYPTR(hh, library->keys[entry->kind], key->key.at, key->key.length, key);
}

/* A new entry under `key`. */
static struct library_entry *declare(struct library *library, enum declaration_kind kind, struct text key)
{
    struct library_entry *entry = ARENA_NEW(library->arena, struct library_entry);
    entry->kind = kind;
    entry->key = key;
    entry->number = built_count(library) + library->declared_count++;
    *(library->last == NULL ? &library->declared : &library->last->next) = entry;
    library->last = entry;
    add_key(library, entry, key);
    return entry;
}

struct library_entry *library_next_entry(struct library *library, enum declaration_kind kind, const struct library_entry *before)
{
    struct library_entry *next = library->declared;
    if (before != NULL && before->number >= built_count(library)) {
        next = before->next;
    } else if (library->tables != NULL) {
        size_t place = before == NULL ? library->tables->first_entry[kind] : before->number + 1;
        if (place < library->tables->first_entry[kind + 1]) {
            return built_entry(library, kind, place);
        }
    }
    while (next != NULL && next->kind != kind) {
        next = next->next;
    }
    return next;
}

bool library_next_key(struct library_key_walk *walk)
{
    const struct library_tables *tables = walk->library->tables;
    if (tables != NULL && !walk->own) {
        walk->next_built = walk->begun ? walk->next_built : tables->first_key[walk->kind];
        walk->begun = true;
        if (walk->next_built < tables->first_key[walk->kind + 1]) {
            walk->key = table_key_text(tables, walk->next_built++);
            return true;
        }
    }
    walk->at = walk->own ? walk->at->hh.next : walk->library->keys[walk->kind];
    walk->own = true;
    walk->key = walk->at == NULL ? (struct text){0} : walk->at->key;
    return walk->at != NULL;
}

struct library_entry *library_walked_entry(const struct library_key_walk *walk)
{
    return walk->own ? walk->at->entry
                     : built_entry(walk->library, walk->kind, walk->library->tables->keys[walk->next_built - 1].entry);
}

const struct declaration *library_declaration(struct library *library, struct library_entry *entry)
{
    if (entry->declaration == NULL) {
        struct syntax_file *file = syntax_parse_slice(library->arena, library->names, library->diagnostics, entry->file,
                                                      entry->begin, entry->end);
        entry->declaration = file->declarations;
    }
    return entry->declaration;
}

void library_start_empty(struct library *library, struct arena *arena, struct names *names, struct source_set *sources,
                         struct diagnostics *diagnostics)
{
    *library = (struct library){.arena = arena, .names = names, .sources = sources, .diagnostics = diagnostics};
}

void library_start(struct library *library, struct arena *arena, struct names *names, struct source_set *sources,
                   struct diagnostics *diagnostics)
{
    library_start_empty(library, arena, names, sources, diagnostics);
    size_t count = 0;
    while (stdlib_files[count].name != NULL) {
        count++;
    }
    library->tables = &library_tables;
    library->built = ARENA_ARRAY(arena, struct library_entry *, built_count(library));
    library->built_files = ARENA_ARRAY(arena, struct source_file *, count);
    for (size_t i = 0; i < count; i++) {
        const struct stdlib_file *file = &stdlib_files[i];
        library->built_files[i] = source_add(sources, file->name, file->text, file->length, true);
    }
}

void library_start_over(struct library *library)
{
    struct library fresh = {.arena = library->arena, .names = library->names, .sources = library->sources, .diagnostics = library->diagnostics,
                            .tables = library->tables, .built_files = library->built_files};
    fresh.built = ARENA_ARRAY(library->arena, struct library_entry *, built_count(library));
    *library = fresh;
    names_forget_meanings(library->names);
}

/* ---- files that are parsed as a whole ---- */

static struct text fold_key(struct library *library, enum declaration_kind kind, struct name *name)
{
    /* Symbols of elements and codes of phrases are what they are; Co is not CO. */
    bool exact = kind == DECLARE_ELEMENT || kind == DECLARE_PHRASE;
    return exact ? name->spelling : names_folded(library->names, name)->spelling;
}

static void report_twice(struct library *library, struct library_entry *before, const struct word *name)
{
    struct diagnostics *diagnostics = library->diagnostics;
    bool replaceable = before->of_library;
    struct diagnostic *diagnostic =
        diagnostics_add(diagnostics, DIAG_DECLARED_TWICE, name->span, "\"%.*s\" is declared already%s",
                        TEXT_ARGUMENTS(name->name->spelling), replaceable ? " in the library" : "");
    const struct declaration *other = library_declaration(library, before);
    if (other != NULL) {
        diagnostics_relate(diagnostics, diagnostic, other->name.span, "the other declaration is here");
    }
    if (replaceable) {
        struct span end = {name->span.end, name->span.end};
        diagnostics_help(diagnostics, diagnostic, "to put yours in its place, add: replacing the library's");
        diagnostics_fix(diagnostics, diagnostic, end, ", replacing the library's", "replace the library's declaration");
    }
}

static void add_names(struct library *library, struct library_entry *entry, const struct word *names)
{
    for (const struct word *name = names; name != NULL; name = name->next) {
        struct text key = fold_key(library, entry->kind, name->name);
        struct library_entry *before = library_find(library, entry->kind, key);
        if (before == NULL) {
            add_key(library, entry, key);
        } else if (before != entry) {
            report_twice(library, before, name);
        }
    }
}

static void add_declaration(struct library *library, const struct declaration *declaration)
{
    if (declaration->kind == DECLARE_WORDING) {
        wordings_add(library, declaration);
        return;
    }
    if (declaration->name.name == NULL || !is_kept(declaration->kind)) {
        return;
    }
    struct text key = fold_key(library, declaration->kind, declaration->name.name);
    struct library_entry *before = library_find(library, declaration->kind, key);
    struct library_entry *entry;
    if (before != NULL && declaration->replacing && before->of_library) {
        entry = before; /* its other names now lead to the new declaration */
        entry->made = NULL;
        entry->replaces = true;
        if (entry->number < built_count(library)) {
            entry->next = library->replaced;
            library->replaced = entry;
        }
    } else if (before != NULL) {
        struct word name = {declaration->name.name, declaration->name.span, NULL};
        report_twice(library, before, &name);
        return;
    } else {
        entry = declare(library, declaration->kind, key);
    }
    entry->declaration = declaration;
    library->mistakes_known = false;
    library->relation = NULL;
    entry->file = declaration->file;
    entry->of_library = declaration->file->of_library;
    add_names(library, entry, declaration->also);
    if (declaration->unit != NULL) {
        add_names(library, entry, declaration->unit->also);
        if (declaration->unit->usual || declaration->unit->dimension != NULL) {
            entry->offered = true;
        }
    }
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_ALSO) {
            add_names(library, entry, ((const struct words_statement *)statement)->words);
        }
    }
}

void library_add_file(struct library *library, const struct syntax_file *file)
{
    unsigned known = 1u << DECLARE_WORDING;
    for (enum declaration_kind kind = 0; kind <= DECLARE_READ; kind++) {
        known |= is_kept(kind) ? 1u << kind : 0;
    }
    const struct declaration *declaration = syntax_declarations(file, known);
    for (; declaration != NULL; declaration = declaration->next) {
        add_declaration(library, declaration);
    }
}

/* "replacing the library's", and the library has none of that name: a slip in the name leaves the library's own in force. */
static void report_nothing_replaced(struct library *library, const struct library_entry *entry)
{
    enum { MOST = 3 };
    const struct word name = {entry->declaration->name.name, entry->declaration->name.span, NULL};
    struct text spelling = name.name->spelling;
    enum diagnostic_id id = entry->kind == DECLARE_MATERIAL ? DIAG_MATERIAL_UNKNOWN
                            : entry->kind == DECLARE_UNIT   ? DIAG_UNIT_UNKNOWN
                                                            : DIAG_SYNTAX;
    struct diagnostic *diagnostic = diagnostics_add(library->diagnostics, id, name.span,
                                                    "the library has no \"%.*s\" that this could replace", TEXT_ARGUMENTS(spelling));
    diagnostics_help(library->diagnostics, diagnostic, "look at the name; what is new is declared without: replacing the library's");
    struct text near[MOST];
    struct text grave;
    size_t count = entry->kind == DECLARE_MATERIAL ? library_near_materials(library, spelling, near, MOST, &grave) : 0;
    for (size_t i = 0; i < count; i++) {
        if (!text_equal(names_fold(library->arena, near[i]), entry->key)) {
            diagnostics_fix_as(library->diagnostics, diagnostic, name.span, "%s is meant", "%.*s", TEXT_ARGUMENTS(near[i]));
        }
    }
    struct text rest = {entry->file->bytes + (name.span.end - entry->file->base), 0};
    rest.length = strcspn(rest.at, "\r\n");
    const char *words_end = memchr(rest.at, '\'', rest.length); /* of "library's" */
    if (words_end != NULL) {
        struct span words = {name.span.end, name.span.end + (uint32_t)(words_end + 2 - rest.at)};
        diagnostics_fix(library->diagnostics, diagnostic, words, "", "it is a new one");
    }
}

static void make_entry(struct library *library, struct library_entry *entry)
{
    if (entry->declaration != NULL && entry->declaration->replacing && !entry->replaces) {
        report_nothing_replaced(library, entry);
    }
    if (entry->kind == DECLARE_UNIT) {
        library_make_unit(library, entry);
    } else if (entry->kind == DECLARE_MATERIAL) {
        library_make_material(library, entry);
    } else {
        library_declaration(library, entry);
    }
}

void library_make_all(struct library *library, bool only_of_users)
{
    bool equilibria = false;
    struct library_entry *lists[] = {library->replaced, library->declared};
    for (size_t i = 0; i < 2; i++) {
        for (struct library_entry *entry = lists[i]; entry != NULL; entry = entry->next) {
            if (!only_of_users || !entry->of_library) {
                make_entry(library, entry);
                equilibria = equilibria || entry->kind == DECLARE_EQUILIBRIUM;
            }
        }
    }
    wordings_make_all(library, only_of_users);
    if (equilibria) { /* their ions are known once all are read */
        library_equilibria(library);
    }
}

const struct library_entry *library_material_entry(struct library *library, struct text folded)
{
    return library_find(library, DECLARE_MATERIAL, folded);
}

size_t library_entry_count(const struct library *library)
{
    return built_count(library) + library->declared_count;
}

size_t library_entry_number(const struct library_entry *entry)
{
    return entry->number;
}

const struct material *library_entry_material(struct library *library, size_t number)
{
    struct library_entry *entry = library->declared;
    if (number < built_count(library)) {
        entry = built_entry(library, DECLARE_MATERIAL, number);
    } else {
        while (entry != NULL && entry->number != number) {
            entry = entry->next;
        }
    }
    return entry == NULL ? NULL : library_make_material(library, entry);
}

bool library_has_rule(struct library *library, struct text folded)
{
    return library_find(library, DECLARE_RULE, folded) != NULL || library_find(library, DECLARE_REACTION, folded) != NULL;
}

void library_each_declaration(struct library *library, enum declaration_kind kind,
                              void (*visit)(void *context, const struct declaration *declaration), void *context)
{
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, kind, entry)) != NULL;) {
        const struct declaration *declaration = library_declaration(library, entry);
        if (declaration != NULL) {
            visit(context, declaration);
        }
    }
}

void library_each_added(struct library *library, enum declaration_kind kind,
                        void (*visit)(void *context, const struct declaration *declaration), void *context)
{
    for (struct library_entry *entry = library->declared; entry != NULL; entry = entry->next) {
        if (entry->kind == kind && entry->declaration != NULL) {
            visit(context, entry->declaration);
        }
    }
}

bool library_declares(const struct library *library, enum declaration_kind kind)
{
    const struct library_entry *lists[] = {library->replaced, library->declared};
    for (size_t i = 0; i < 2; i++) {
        for (const struct library_entry *entry = lists[i]; entry != NULL; entry = entry->next) {
            if (entry->kind == kind) {
                return true;
            }
        }
    }
    return false;
}

const struct declaration *library_replacement(const struct library *library, size_t number)
{
    const struct library_entry *entry = library->built[number];
    return entry != NULL && entry->replaces ? entry->declaration : NULL;
}

void library_each_rule(struct library *library, void (*visit)(void *context, const struct declaration *declaration),
                       void *context)
{
    library_each_declaration(library, DECLARE_RULE, visit, context);
}

const struct declaration *library_phrase(struct library *library, struct text code)
{
    struct library_entry *entry = library_find(library, DECLARE_PHRASE, code);
    return entry == NULL ? NULL : library_declaration(library, entry);
}

const struct declaration *library_group(struct library *library, struct text folded)
{
    struct library_entry *entry = library_find(library, DECLARE_GROUP, folded);
    return entry == NULL ? NULL : library_declaration(library, entry);
}

void library_each_material(struct library *library, void (*visit)(void *context, const struct material *material),
                           void *context)
{
    for (struct library_entry *entry = NULL; (entry = library_next_entry(library, DECLARE_MATERIAL, entry)) != NULL;) {
        const struct material *material = library_make_material(library, entry);
        if (material != NULL) {
            visit(context, material);
        }
    }
}
