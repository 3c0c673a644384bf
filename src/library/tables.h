/* What stdlib/ declares, as constant tables: stdlib/tables/make_library.c writes them when the program is built, so that no start reads the
 * texts again.  They hold no address of theirs but those of the tables, and every session and thread may share them. */
#ifndef POTASH_LIBRARY_TABLES_H
#define POTASH_LIBRARY_TABLES_H

#include "library/library.h"

enum { TABLE_KINDS = DECLARE_READ + 1 };

/* The library's files, made by the Makefile from stdlib/; closed by a name of NULL. */
struct stdlib_file {
    const char *name;
    char *text; /* never written to, since all of it is text */
    size_t length;
};
extern const struct stdlib_file stdlib_files[];

struct table_entry {
    uint32_t begin;     /* bytes within the file */
    uint32_t end;
    uint16_t file;      /* place in stdlib_files */
    uint16_t key;       /* place of its own name among the keys */
    bool offered;
};

/* A folded name of a declaration. */
struct table_key {
    uint32_t at;        /* bytes within `letters` */
    uint16_t length;
    uint16_t entry;
};

/* Two materials, of which the first says that it is taken for the second. */
struct table_mistake {
    uint16_t entry;
    uint16_t other;
};

struct library_tables {
    const char *letters;
    const struct table_entry *entries;         /* by kind, then as they are declared */
    const struct table_key *keys;              /* likewise */
    const uint16_t *slots;                     /* by the hash of kind and name: the place of the key and 1, or in the next free one behind */
    uint32_t mask;                             /* slots less one */
    const struct table_mistake *mistakes;
    size_t mistake_count;
    uint16_t first_entry[TABLE_KINDS + 1];     /* of each kind; the last closes them */
    uint16_t first_key[TABLE_KINDS + 1];
};

extern const struct library_tables library_tables;

/* Fowler, Noll and Vo's hash FNV-1a (public domain): byte by byte, so that the tables are the same on every machine. */
static inline uint32_t table_key_hash(enum declaration_kind kind, struct text name)
{
    uint32_t hash = (2166136261u ^ (uint32_t)kind) * 16777619u;
    for (size_t i = 0; i < name.length; i++) {
        hash = (hash ^ (unsigned char)name.at[i]) * 16777619u;
    }
    return hash ^ hash >> 15;
}

#endif
