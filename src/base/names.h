/* Names: each spelling is kept once, with what it means once that has been looked up.
 *
 * A file repeats few spellings many times.  The lexer turns each into a `struct name *`, so that everything after it
 * compares pointers, and the work of folding and looking up is done once for each spelling. */
#ifndef POTASH_BASE_NAMES_H
#define POTASH_BASE_NAMES_H

#include "base/table.h"
#include "base/text.h"

/* Meanings that a later floor attaches to a name. */
enum name_meaning { NAME_MATERIAL, NAME_UNIT, NAME_MEANINGS };

struct name {
    struct text spelling;    /* as first written; a view into the source or the arena */
    struct name *single;     /* the same with single blanks between its words; NULL until asked for */
    struct name *folded;     /* the name of the folded spelling (see names_fold); itself when nothing folds */
    const void *meaning[NAME_MEANINGS];
    unsigned looked_up;      /* bit 1 << meaning: the look-up has been done, even when it found nothing */
};

struct name_slot {
    uint32_t hash;
    struct name *name;       /* NULL: the place is free */
};

struct names {
    struct arena *arena;
    struct name_slot *slots; /* by hash of the spelling, or in the next free place behind it */
    uint32_t mask;           /* places - 1; a power of two less one */
    uint32_t count;
};

void names_start(struct names *names, struct arena *arena);

/* The name spelt so; made when it is new.  The spelling is viewed, not copied: it must live as long as the arena. */
struct name *names_find(struct names *names, struct text spelling);

/* All look-ups are to be done again. */
void names_forget_meanings(struct names *names);

/* The name with one blank where several, or leader dots, stand between its words; mostly itself. */
struct name *names_make_single(struct names *names, struct name *name);

static inline struct name *names_single(struct names *names, struct name *name)
{
    return name->single != NULL ? name->single : names_make_single(names, name);
}

/* Length in bytes of the blank, hyphen or leader at `at`, all of which fold to a space; 0 when there is none. */
size_t names_wide_blank_length(struct text text, size_t at);
static inline size_t names_blank_length(struct text text, size_t at)
{
    unsigned char c = (unsigned char)text.at[at];
    bool plain = (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; /* as nearly always */
    return plain ? 0 : names_wide_blank_length(text, at);
}

/* Folds a spelling to the one that look-ups use: lower case; runs of white space, leader dots and hyphens to one
 * space; full stops of abbreviations dropped; sulph- to sulf-, aluminium, litre, gramme and their kin to one spelling. */
struct text names_fold(struct arena *arena, struct text spelling);

/* names_fold, kept with the name. */
struct name *names_folded(struct names *names, struct name *name);

#endif
