/* The relation of what must not meet: the declared reactions, read once for a library and laid out as sets of groups. */
#ifndef POTASH_LIBRARY_RELATION_H
#define POTASH_LIBRARY_RELATION_H

#include "library/groups.h"

/* The worst first: the order of the relation. */
enum harm { HARM_DEADLY, HARM_SERIOUS, HARM_SPOILS };

extern const char *const harm_names[]; /* as they are declared */

/* Where two things meet; bits. */
enum meeting_place {
    MEET_DISSOLVED = 1,    /* in one bath at the strengths that it has; for what harms a person, in a drain and from bath to bath as well */
    MEET_CONCENTRATED = 2, /* the same, and while it is mixed, before it is diluted */
    MEET_DRY = 4,          /* as powders */
    MEET_STORED = 8,       /* side by side on a shelf */
    MEET_CARRIED = 16,     /* from one bath to the next, though in one bath it may be meant */
    MEET_DRAIN = 32        /* whoever pours away the second is told as well: the first goes down every sink */
};

/* One line of a reaction: what it speaks of, and from which strength on. */
struct reagent {
    const struct reagent *next;
    struct text words;        /* as it is shown: "acids except boric acid" */
    struct text also;         /* folded; a line of a formula must be written so ("tap water or well water"); empty: any name will do */
    struct group_set in;
    struct group_set out;
    double bound;             /* g/L; NAN: none */
    bool over;
    bool times;               /* the bound is so many times what there is of `measure` */
    struct group_set measure;
    double celsius;           /* of the water; NAN: any */
};

struct reaction {
    struct text name;         /* folded */
    struct text shown;
    enum harm harm;
    unsigned where;           /* of enum meeting_place */
    const struct reagent *first;
    const struct reagent *second; /* any of these; chained; NULL: the first does it by itself, in time */
    const struct reagent *beside; /* all must be there too; chained */
    const struct reagent *unless; /* any of these spares it; chained */
    const struct text *kinds; /* only in these baths, folded; none: in any */
    size_t kind_count;
    double keeps;             /* s that it takes before it matters; NAN: at once */
    double months;            /* of the calendar, in it */
    struct text vessel;       /* folded words of the vessel that `keeps` is about; empty: any */
    struct text warn;
    struct text advise;
    struct text source;
};

enum { MOST_REACTION_WORDS = 8 }; /* of 64 reactions each */

struct reactions {
    struct groups groups;
    const struct reaction *const *reactions; /* the worst first */
    size_t count;
    /* Sets of places in `reactions`, each of `words` words, so that nearly all are sorted out without being looked at. */
    size_t words;
    const uint64_t *by_first;          /* for each group, the reactions whose first line names it */
    const uint64_t *by_second;         /* and those of which a second one does */
    const uint64_t *alone;             /* those that have none */
};

/* The reactions that there may be among these groups, as a set of places. */
void reactions_among(const struct reactions *relation, const struct group_set *groups, uint64_t found[MOST_REACTION_WORDS]);

/* That of the built-in library, made with its tables (library/tables.h). */
extern const struct reactions built_in_reactions;

/* The relation of a library, read when it is first asked for; mistakes in a user's reactions are reported then. */
const struct reactions *library_relation(struct library *library);

/* Whether a line of a formula is written as the reagent asks, if it does; `written` is folded. */
bool reagent_is_written(const struct reagent *reagent, struct text written);

/* Whether a material is what the line speaks of, whatever its strength. */
static inline bool reagent_fits(const struct reagent *reagent, const struct group_set *groups)
{
    return group_sets_meet(&reagent->in, groups) && !group_sets_meet(&reagent->out, groups);
}

#endif
