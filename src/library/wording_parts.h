/* Wordings, for the files that compile and match them. */
#ifndef POTASH_LIBRARY_WORDING_PARTS_H
#define POTASH_LIBRARY_WORDING_PARTS_H

#include "library/wordings.h"

#include <setjmp.h>

/* What a capture stands for.  The names, and an example of each, are in wording_load.c. */
enum capture_kind {
    CAPTURE_NUMBER, CAPTURE_AMOUNT, CAPTURE_VOLUME, CAPTURE_RATIO, CAPTURE_TIME, CAPTURE_TEMPERATURE, CAPTURE_MATERIAL, CAPTURE_FORM,
    CAPTURE_PART, CAPTURE_GOODS, CAPTURE_SIZE, CAPTURE_ROMAN, CAPTURE_PURPOSE, CAPTURE_VESSEL, CAPTURE_DILUTION, CAPTURE_SHARE, CAPTURE_WORDS, CAPTURE_TEXT,
    CAPTURE_LINE,  /* all that was typed */
    CAPTURE_KINDS,
    WHOLE_LINE = CAPTURE_KINDS, /* not a capture: what a wording without a kind is held against */
    ROOTS
};

/* A capture of a pattern: `{time low}` is of the kind `time`, and its name is all of it. */
struct capture {
    enum capture_kind kind;
    const struct name *name;
};

/* A piece of what a wording means. */
struct meaning {
    struct text text;               /* as it is written; or … */
    struct capture capture;         /* … a capture's name, where there is one */
    struct meaning *within;         /* or `[…]`: it stands only where all its captures were typed */
    struct meaning *next;
};

struct meaning_line {
    struct meaning *pieces;
    struct meaning_line *next;
};

struct wording {
    const struct declaration *declaration;
    struct meaning_line *lines;
    bool offers;
    unsigned places;                /* PLACE_…; 0: everywhere */
    unsigned texts;                 /* how many of its captures are any text: of two readings the one with fewer says more */
    struct wording *next;           /* that ends at the same node */
};

enum { PLACE_FORMULA = 1, PLACE_PART = 2, PLACE_USE = 4, PLACE_VARIANT = 8, PLACE_STOCK = 16 };

struct wording_edge {
    const struct name *word;        /* folded; or … */
    struct capture capture;         /* … where `name` is not NULL; else it is passed without a word */
    struct wording_node *to;
    struct wording_edge *next;
};

struct wording_node {
    unsigned number;
    struct wording_edge *edges;
    struct wording *ends;           /* the patterns that end here */
};

/* All wordings, compiled. */
struct wording_set {
    struct wording_node *roots[ROOTS]; /* NULL: there is none of the kind */
    unsigned nodes;
};

/* ---- the line ---- */

enum item_kind {
    ITEM_WORD, ITEM_NUMBER, ITEM_SIZE,
    ITEM_SOFT, /* a sign that may stand anywhere: a comma, a bracket */
    ITEM_SIGN  /* one that means something */
};

struct item {
    enum item_kind kind;
    struct text text;
    const struct name *word;        /* folded, of a word or a sign */
    bool ends_clause;               /* a sign behind which a new clause begins: , ; . : */
};

/* The items of a text.  Returns how many; the array lives in the arena. */
size_t wording_items(struct library *library, struct text text, struct item **items);

/* What may have been typed at a place. */
struct candidate {
    size_t end;                     /* the item behind it */
    const struct reread_piece *pieces;
    size_t count;
    enum dimension dimension;       /* of a quantity */
    const struct unit *unit;
    struct candidate *next;
};

struct matching;

/* The candidates for a kind of capture at an item (wording_captures.c), and what those `in` the kind add (wording_match.c). */
struct candidate *wording_captured(struct matching *matching, enum capture_kind kind, size_t at);
struct candidate *wording_nested(struct matching *matching, enum capture_kind kind, size_t at);

/* A line that is held against the wordings. */
struct matching {
    struct library *library;
    const struct wording_set *set;
    const struct wording_place *place;
    struct text line;
    uint32_t begin;
    struct item *items;
    size_t count;
    struct candidate **known[ROOTS];   /* by kind and place, once they are worked out */
    bool *asked[ROOTS];
    unsigned char *lost;               /* a bit for each node and place that leads to no reading */
    bool unknown_materials;            /* names of materials need not be known */
};

/* The span of the text from one item to before another, as typed. */
struct reread_piece wording_typed(const struct matching *matching, size_t from, size_t upto);

#endif
