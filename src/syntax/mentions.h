/* Where a text names what can be declared: titles, materials, stocks, lots, batches.  It says what stands there, not what is meant by it;
 * renaming and looking up begin here. */
#ifndef POTASH_SYNTAX_MENTIONS_H
#define POTASH_SYNTAX_MENTIONS_H

#include "syntax/tree.h"

enum mention_kind {
    MENTION_TITLE,    /* of a formula or variant */
    MENTION_MATERIAL,
    MENTION_STOCK,    /* of `material`, of `strength` */
    MENTION_LOT,
    MENTION_BATCH,
    MENTION_SHELF,
    MENTION_PROCESS,
    MENTION_FILE      /* that is read */
};

struct mention {
    enum mention_kind kind;
    bool declares;
    struct span span;                        /* without quotes */
    struct text text;                        /* as it stands there */
    const struct material_words *material;   /* of materials and stocks */
    const struct strength *strength;         /* of stocks */
    const struct declaration *declaration;   /* that it stands in */
    const struct statement *statement;       /* NULL: in its heading */
};

/* Calls `visit` for each, declaration by declaration and line by line; within a line in any order. */
void mentions_visit(const struct syntax_file *tree, void (*visit)(void *context, const struct mention *mention), void *context);

#endif
