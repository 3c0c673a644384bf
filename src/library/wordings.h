/* Lines as print and habit have them: `wording` declarations, compiled into one matcher, and held against a line that the grammar does
 * not know.
 *
 * A wording is a pattern of words and typed captures with the lines of the notation that it means.  Patterns that begin alike share
 * their beginnings; a capture is read by the units, materials and parts that are known, and by wordings `in` its own kind ("two" in
 * number, "gleich" in another language).  What has been found out about a place of the line is kept, so the work is linear in the
 * line, which is short (LONGEST_LINE). */
#ifndef POTASH_LIBRARY_WORDINGS_H
#define POTASH_LIBRARY_WORDINGS_H

#include "library/library.h"
#include "syntax/reread.h"

enum { WORDING_READINGS = 8, WORDING_LONGEST_LINE = 1000 /* bytes; nobody types a longer one, and it is not looked at */ };

/* Where the line stands. */
struct wording_place {
    enum declaration_kind kind;
    bool in_use;                    /* a use is open above it */
    struct name *const *parts;      /* of the formula, folded */
    size_t part_count;
    bool known_materials;           /* nothing stands for a material that nobody knows */
    struct text purpose;            /* what the formula says that it is for, as it is written; empty when it says nothing, or several */
};

/* What a line may mean: whole lines of the notation in pieces (syntax/reread.h). */
struct wording_reading {
    const struct reread_piece *pieces;
    size_t count;
    const char *text;               /* the same as one text */
    bool offered;                   /* a person must say so; it is not assumed */
};

/* The readings of `line`, which begins at the offset `begin`; none that says the same as another.  Returns how many, 0 when it is none
 * of the wordings. */
size_t wordings_read(struct library *library, const struct wording_place *place, struct text line, uint32_t begin,
                     struct wording_reading readings[WORDING_READINGS]);

/* Whether any are declared. */
bool wordings_are_there(struct library *library);

/* Takes in a declaration of a user's file. */
void wordings_add(struct library *library, const struct declaration *declaration);

struct wording_set;

/* All of them, compiled when they are first asked for; what is wrong with those of users is reported then. */
const struct wording_set *wordings_compiled(struct library *library);

/* Compiles all that there are, so that mistakes in them are reported: where files were read that have some, or only where users' have. */
void wordings_make_all(struct library *library, bool only_of_users);

#endif
