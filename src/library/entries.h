/* The library's tables, for its own files. */
#ifndef POTASH_LIBRARY_ENTRIES_H
#define POTASH_LIBRARY_ENTRIES_H

#include "base/table.h"
#include "library/library.h"

/* The library's files, made by the Makefile from stdlib/; closed by a name of NULL. */
struct stdlib_file {
    const char *name;
    char *text; /* never written to, since all of it is text */
    size_t length;
};
extern const struct stdlib_file stdlib_files[];

/* A declaration of the library, not parsed before it is asked for. */
struct library_entry {
    struct text key;                       /* folded name, or one of its other names */
    enum declaration_kind kind;
    struct source_file *file;
    uint32_t begin;                        /* bytes within the file */
    uint32_t end;
    const struct declaration *declaration; /* NULL until parsed */
    const void *made;                      /* the struct material or struct unit; NULL until made */
    bool making;
    bool of_library;
    bool replaces;                         /* it stands in the place of another declaration */
    struct library_entry *main;            /* the entry of the declaration's own name; itself there */
    struct library_entry *next;            /* in order of declaration; main entries only */
    struct library_entry *next_offered;    /* units that are usual or a base unit: the next of them */
    bool offered;
    struct mistaken *mistaken;             /* the materials that say they are taken for this one; NULL until asked for */
    UT_hash_handle hh;
};

/* A material that says that it is taken for another. */
struct mistaken {
    struct mistaken *next;
    struct library_entry *entry;
};

/* The table for declarations of that kind; NULL when they are not kept in one. */
struct library_entry **library_table(struct library *library, enum declaration_kind kind);

struct library_entry *library_find(struct library *library, enum declaration_kind kind, struct text key);
void library_insert(struct library *library, struct library_entry *entry);

/* A new main entry under `key`. */
struct library_entry *library_declare(struct library *library, enum declaration_kind kind, struct text key);

/* A unit that its declaration calls usual, or a base unit: those are looked through where one is offered. */
void library_offer(struct library *library, struct library_entry *entry);

/* Another key for it. */
void library_alias(struct library *library, struct library_entry *main, struct text key);

/* The declaration, parsed now if need be; NULL when it cannot be read. */
const struct declaration *library_declaration(struct library *library, struct library_entry *entry);

const struct unit *library_make_unit(struct library *library, struct library_entry *entry);
const struct material *library_make_material(struct library *library, struct library_entry *entry);

/* Indexes a file of the built-in library without parsing it. */
void library_index(struct library *library, struct source_file *file);

/* The names behind `mistaken for` in a declaration of the built-in library, which is not parsed; empty when it has none. */
struct text library_indexed_mistakes(const struct library_entry *entry);

/* Cuts the first of the names that commas divide off the list; empty when there is none left. */
struct text library_cut_name(struct text *list);

#endif
