/* Kinds of bath, as the library declares them: what a book calls them, and what is usual of them. */
#ifndef POTASH_LIBRARY_BATH_KINDS_H
#define POTASH_LIBRARY_BATH_KINDS_H

#include "library/library.h"

enum bath_figure {
    BATH_MIXING,          /* °C that it is mixed at; what is beyond is doubted */
    BATH_COOLING,         /* °C that it is cooled to */
    BATH_USE,             /* °C that it is used at */
    BATH_MIXING_ADVISED,  /* °C that are told as usual */
    BATH_USE_ADVISED,
    BATH_ROOM,            /* °C of a room, which is never the same number in another scale: where it is, that scale is meant */
    BATH_START,           /* mL that a litre is begun with */
    BATH_FIGURES
};

enum bath_role { BATH_KEPT_AS_STOCK /* in a stronger stock */, BATH_OF_MANY_CLASSES /* which overlap */, BATH_ROLES };

struct bath_range {
    struct bath_range *next;
    enum bath_figure figure;
    double low, high;
    const struct word *holding; /* it is for baths that hold one of these materials, roles or groups; NULL: for all */
};

struct bath_kind {
    struct text name;           /* folded: one text for all formulas of the kind */
    struct text chapter;        /* "Developers"; empty: no formula says that it is of this kind */
    struct bath_range *ranges;  /* in the order of the lines */
    bool roles[BATH_ROLES];
};

/* The kind with that folded name; NULL when there is none that a formula can say. */
const struct bath_kind *library_bath_kind(struct library *library, struct text folded);

/* All that a formula can say, in the order of their declarations; how many.  `found` NULL: only counts. */
size_t library_bath_kinds(struct library *library, const struct bath_kind **found);

/* Whether baths of the kind have that role; false for a kind that is not declared. */
bool library_bath_role(struct library *library, struct text kind, enum bath_role role);

/* Whether a bath holds what answers to a folded name. */
typedef bool bath_holds(void *context, struct text name);

/* The range of a figure for a bath of a kind, or where that says nothing, for any bath.  Of its lines the last one holds that is for all, or
 * for what the bath holds; `holds` is asked only when `value` is outside of a range, since it takes longer.  Without bounds where nothing
 * is declared. */
struct bath_range library_bath_range(struct library *library, struct text kind, enum bath_figure figure, double value, bath_holds *holds,
                                     void *context);

#endif
