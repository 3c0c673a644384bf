/* The library's tables: what is declared under which name. */
#include "library/entries.h"

#include "library/equilibria.h"
#include "syntax/parse.h"

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

struct library_entry **library_table(struct library *library, enum declaration_kind kind)
{
    switch (kind) {
    case DECLARE_MATERIAL:
        return &library->materials;
    case DECLARE_UNIT:
        return &library->units;
    case DECLARE_ELEMENT:
        return &library->elements;
    case DECLARE_PHRASE:
        return &library->phrases;
    case DECLARE_RULE:
        return &library->rules;
    case DECLARE_REACTION:
        return &library->reactions;
    case DECLARE_GROUP:
        return &library->groups;
    case DECLARE_EQUILIBRIUM:
        return &library->equilibrium_entries;
    default:
        return NULL;
    }
}

struct library_entry *library_find(struct library *library, enum declaration_kind kind, struct text key)
{
    struct library_entry **table = library_table(library, kind);
    struct library_entry *entry = NULL;
    HASH_FIND(hh, *table, key.at, key.length, entry);
    return entry;
}

void library_insert(struct library *library, struct library_entry *entry)
{
    struct arena *table_arena = library->arena;
    struct library_entry **table = library_table(library, entry->kind);
    HASH_ADD_KEYPTR(hh, *table, entry->key.at, entry->key.length, entry);
}

struct library_entry *library_declare(struct library *library, enum declaration_kind kind, struct text key)
{
    struct library_entry *entry = ARENA_NEW(library->arena, struct library_entry);
    entry->kind = kind;
    entry->key = key;
    entry->main = entry;
    if (library->last == NULL) {
        library->declared = entry;
    } else {
        library->last->next = entry;
    }
    library->last = entry;
    library_insert(library, entry);
    return entry;
}

void library_offer(struct library *library, struct library_entry *entry)
{
    if (entry->offered) {
        return;
    }
    entry->offered = true;
    *(library->offered == NULL ? &library->offered : &library->offered_last->next_offered) = entry;
    library->offered_last = entry;
}

void library_alias(struct library *library, struct library_entry *main, struct text key)
{
    struct library_entry *entry = ARENA_NEW(library->arena, struct library_entry);
    entry->kind = main->kind;
    entry->key = key;
    entry->main = main;
    library_insert(library, entry);
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
    for (const struct stdlib_file *file = stdlib_files; file->name != NULL; file++) {
        struct source_file *source = source_add(sources, file->name, file->text, file->length, true);
        library_index(library, source);
    }
}

/* ---- files that are parsed as a whole ---- */

static struct text fold_key(struct library *library, enum declaration_kind kind, struct name *name)
{
    /* Symbols of elements and codes of phrases are what they are; Co is not CO. */
    bool exact = kind == DECLARE_ELEMENT || kind == DECLARE_PHRASE;
    return exact ? name->spelling : names_folded(library->names, name)->spelling;
}

static void report_twice(struct library *library, const struct library_entry *before, const struct word *name)
{
    struct diagnostics *diagnostics = library->diagnostics;
    bool replaceable = before->main->of_library;
    struct diagnostic *diagnostic =
        diagnostics_add(diagnostics, DIAG_DECLARED_TWICE, name->span, "\"%.*s\" is declared already%s",
                        TEXT_ARGUMENTS(name->name->spelling), replaceable ? " in the library" : "");
    const struct declaration *other = library_declaration(library, before->main);
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
            library_alias(library, entry, key);
        } else if (before->main != entry) {
            report_twice(library, before, name);
        }
    }
}

static void add_declaration(struct library *library, const struct declaration *declaration)
{
    if (declaration->name.name == NULL || library_table(library, declaration->kind) == NULL) {
        return;
    }
    struct text key = fold_key(library, declaration->kind, declaration->name.name);
    struct library_entry *before = library_find(library, declaration->kind, key);
    struct library_entry *entry;
    if (before != NULL && declaration->replacing && before->main->of_library) {
        entry = before->main; /* its other names now lead to the new declaration */
        entry->made = NULL;
        entry->replaces = true;
    } else if (before != NULL) {
        struct word name = {declaration->name.name, declaration->name.span, NULL};
        report_twice(library, before, &name);
        return;
    } else {
        entry = library_declare(library, declaration->kind, key);
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
            library_offer(library, entry);
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
    unsigned known = 0;
    for (enum declaration_kind kind = 0; kind <= DECLARE_READ; kind++) {
        known |= library_table(library, kind) == NULL ? 0 : 1u << kind;
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

void library_make_all(struct library *library, bool only_of_users)
{
    bool equilibria = false;
    for (struct library_entry *entry = library->declared; entry != NULL; entry = entry->next) {
        if (only_of_users && entry->of_library) {
            continue;
        }
        if (entry->declaration != NULL && entry->declaration->replacing && !entry->replaces) {
            report_nothing_replaced(library, entry);
        }
        if (entry->kind == DECLARE_UNIT) {
            library_make_unit(library, entry);
        } else if (entry->kind == DECLARE_MATERIAL) {
            library_make_material(library, entry);
        } else if (entry->kind == DECLARE_EQUILIBRIUM) {
            equilibria = true;
        } else {
            library_declaration(library, entry);
        }
    }
    if (equilibria) { /* their ions are known once all are read */
        library_equilibria(library);
    }
}

const struct library_entry *library_material_entry(struct library *library, struct text folded)
{
    const struct library_entry *entry = library_find(library, DECLARE_MATERIAL, folded);
    return entry == NULL ? NULL : entry->main;
}

const struct material *library_entry_material(struct library *library, const struct library_entry *entry)
{
    struct library_entry *found = library_find(library, DECLARE_MATERIAL, entry->key);
    return found == NULL ? NULL : library_make_material(library, found->main);
}

bool library_has_rule(struct library *library, struct text folded)
{
    return library_find(library, DECLARE_RULE, folded) != NULL || library_find(library, DECLARE_REACTION, folded) != NULL;
}

void library_each_declaration(struct library *library, enum declaration_kind kind,
                              void (*visit)(void *context, const struct declaration *declaration), void *context)
{
    for (struct library_entry *entry = library->declared; entry != NULL; entry = entry->next) {
        const struct declaration *declaration = entry->kind == kind ? library_declaration(library, entry) : NULL;
        if (declaration != NULL) {
            visit(context, declaration);
        }
    }
}

void library_each_rule(struct library *library, void (*visit)(void *context, const struct declaration *declaration),
                       void *context)
{
    library_each_declaration(library, DECLARE_RULE, visit, context);
}

static bool names_any(struct text line, const struct text *kinds, size_t kind_count)
{
    for (size_t i = 0; i < kind_count; i++) {
        for (size_t at = 0; at + kinds[i].length <= line.length; at++) {
            if (strncasecmp(line.at + at, kinds[i].at, kinds[i].length) == 0) {
                return true;
            }
        }
    }
    return false;
}

/* Looks at the text alone: true also when it only may be about one of them. */
static bool may_be_in(const struct library_entry *entry, const struct text *kinds, size_t kind_count)
{
    const char *at = entry->file->bytes + entry->begin;
    const char *end = entry->file->bytes + entry->end;
    bool says_in = false;
    while (at < end) {
        const char *newline = memchr(at, '\n', (size_t)(end - at));
        const char *upto = newline == NULL ? end : newline;
        while (at < upto && (*at == ' ' || *at == '\t')) {
            at++;
        }
        if (upto - at > 3 && strncasecmp(at, "in", 2) == 0 && (at[2] == ' ' || at[2] == '\t')) {
            says_in = true;
            if (names_any((struct text){at, (size_t)(upto - at)}, kinds, kind_count)) {
                return true;
            }
        }
        at = upto + 1;
    }
    return !says_in;
}

void library_each_rule_in(struct library *library, const struct text *kinds, size_t kind_count,
                          void (*visit)(void *context, const struct declaration *declaration), void *context)
{
    for (struct library_entry *entry = library->declared; entry != NULL; entry = entry->next) {
        bool unread = entry->declaration == NULL && entry->of_library;
        if (entry->kind != DECLARE_RULE || (unread && !may_be_in(entry, kinds, kind_count))) {
            continue;
        }
        const struct declaration *declaration = library_declaration(library, entry);
        if (declaration != NULL) {
            visit(context, declaration);
        }
    }
}

const struct declaration *library_phrase(struct library *library, struct text code)
{
    struct library_entry *entry = library_find(library, DECLARE_PHRASE, code);
    return entry == NULL ? NULL : library_declaration(library, entry->main);
}

const struct declaration *library_group(struct library *library, struct text folded)
{
    struct library_entry *entry = library_find(library, DECLARE_GROUP, folded);
    return entry == NULL ? NULL : library_declaration(library, entry->main);
}

void library_each_material(struct library *library, void (*visit)(void *context, const struct material *material),
                           void *context)
{
    for (struct library_entry *entry = library->declared; entry != NULL; entry = entry->next) {
        if (entry->kind == DECLARE_MATERIAL) {
            const struct material *material = library_make_material(library, entry);
            if (material != NULL) {
                visit(context, material);
            }
        }
    }
}
