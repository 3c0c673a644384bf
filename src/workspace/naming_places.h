/* Places where one thing is named: found for definitions, references and renaming. */
#ifndef POTASH_WORKSPACE_NAMING_PLACES_H
#define POTASH_WORKSPACE_NAMING_PLACES_H

#include "syntax/mentions.h"
#include "workspace/snapshots.h"

/* What is looked for. */
struct wanted {
    struct mention mention;              /* the place that was asked about; kind -1 … */
    bool found;                          /* … there is none */
    const struct workspace_text *text;   /* that it stands in */
    const struct library_entry *entry;   /* of materials and stocks: what the library knows of it; or NULL */
    struct text folded;                  /* of those: the name */
    struct library *library;             /* as the text that was asked about has it */
};

struct place_named {
    const struct workspace_text *text;
    struct mention mention;
};

struct places_named {
    struct place_named *items;
    size_t count;
    size_t room;
};

/* The smallest name at an offset. */
struct wanted naming_at(struct potash_snapshot *snapshot, struct workspace_text *text, size_t offset);

/* Where it is declared, as the text that was asked about sees it: in what it reads, or else anywhere. */
struct places_named naming_declarations(struct potash_snapshot *snapshot, const struct wanted *wanted);

/* All places that mean it, by text and in the order of the text. */
struct places_named naming_all(struct potash_snapshot *snapshot, const struct wanted *wanted);

/* Whether `from` reads `other`, or what reads it; or is it. */
bool naming_reads(struct potash_snapshot *snapshot, const struct workspace_text *from, const struct workspace_text *other);

/* The path that a `read` line of the text `from` leads to, in the arena. */
const char *naming_path_read(struct potash_snapshot *snapshot, const char *from, struct text name);

struct potash_range naming_range(const struct workspace_text *text, struct span span);

#endif
