/* The library's tables, for its own files. */
#ifndef POTASH_LIBRARY_ENTRIES_H
#define POTASH_LIBRARY_ENTRIES_H

#include "base/table.h"
#include "library/library.h"

/* A declaration of the library, not parsed before it is asked for. */
struct library_entry {
    struct text key;                       /* folded name */
    enum declaration_kind kind;
    size_t number;                         /* in the order in which the library counts them; its identity where no pointer is at hand */
    struct source_file *file;
    uint32_t begin;                        /* bytes within the file */
    uint32_t end;
    const struct declaration *declaration; /* NULL until parsed */
    const void *made;                      /* the struct material or struct unit; NULL until made */
    bool making;
    bool of_library;
    bool replaces;                         /* it stands in the place of another declaration */
    bool offered;                          /* a unit that its declaration calls usual, or a base unit: looked through where one is offered */
    struct library_entry *next;            /* of those that are not in the tables: in order of declaration */
    struct mistaken *mistaken;             /* the materials that say they are taken for this one; NULL until asked for */
};

/* A name that is not in the tables. */
struct library_key {
    struct text key;                       /* folded */
    struct library_entry *entry;
    UT_hash_handle hh;
};

/* A material that says that it is taken for another. */
struct mistaken {
    struct mistaken *next;
    struct library_entry *entry;
};

/* The entry under that folded name; NULL when there is none. */
struct library_entry *library_find(struct library *library, enum declaration_kind kind, struct text key);

/* The next entry of a kind in the order of declaration; the first after NULL. */
struct library_entry *library_next_entry(struct library *library, enum declaration_kind kind, const struct library_entry *before);

/* Goes through all names of a kind: begin with {.library, .kind}; false at the end. */
struct library_key_walk {
    struct library *library;
    enum declaration_kind kind;
    struct text key;
    size_t next_built;
    const struct library_key *at;
    bool begun;
    bool own; /* behind the tables */
};
bool library_next_key(struct library_key_walk *walk);
struct library_entry *library_walked_entry(const struct library_key_walk *walk);

/* The declaration, parsed now if need be; NULL when it cannot be read. */
const struct declaration *library_declaration(struct library *library, struct library_entry *entry);

const struct unit *library_make_unit(struct library *library, struct library_entry *entry);
const struct material *library_make_material(struct library *library, struct library_entry *entry);

#endif
