/* What reacts with what: in one bath, from one bath to the next, in a drain, as powders, on a shelf.  All of it comes out of the
 * library's one relation (library/relation.h). */
#ifndef POTASH_CHEMISTRY_REACTIONS_H
#define POTASH_CHEMISTRY_REACTIONS_H

#include "chemistry/mixture.h"
#include "library/relation.h"

/* Something that may react. */
struct reactant {
    const struct material *material;
    const struct group_set *groups;
    double strength;          /* g/L; of a dry mix g in a kg; INFINITY: nobody knows, as of what goes in as needed */
    double celsius;           /* of the liquid that it goes into; NAN: not known */
    struct text written;      /* folded, as its line has it; empty: not known */
};

/* What is together in one vessel. */
struct reactants {
    struct reactant *items;
    size_t count;
    size_t room;
    struct group_set groups;  /* of all of them */
};

/* Two that react. */
struct meeting {
    struct meeting *next;
    const struct reaction *reaction;
    const struct material *first;
    const struct material *second; /* NULL where any bath with `other` is meant, and where one does it by itself */
    struct text other;             /* what it must not meet, in the words of the library: "chlorine bleach" */
};

/* Appends something to what is together. */
void reactants_add(struct arena *arena, struct reactants *reactants, const struct material *material,
                   double strength);

/* All of a mixture, with its water. */
void reactants_add_mixture(struct arena *arena, struct reactants *reactants, const struct mixture *mixture);

/* Whether two vessels' contents (one vessel's: a == b) react so; *meeting is filled.  Whether it takes time is not asked. */
bool reaction_happens(const struct reaction *reaction, const struct reactants *a, const struct reactants *b, struct meeting *meeting);

/* What happens at once where the two meet at any of `places` (of enum meeting_place), the worst first. */
struct meeting *meetings_between(struct arena *arena, struct library *library, const struct reactants *a, const struct reactants *b,
                                 unsigned places);

/* What happens within a mixture, a dry one or a solution. */
struct meeting *meetings_within(struct arena *arena, struct library *library, const struct mixture *mixture);

/* What happens where one bath is carried into another, or both go into one drain. */
struct meeting *meetings_of_baths(struct arena *arena, struct library *library, const struct reactants *a, const struct reactants *b);

/* All that harms a person when a bath meets it, whatever else the other bath holds. */
struct meeting *meetings_of(struct arena *arena, struct library *library, const struct mixture *mixture);

/* All that a material is kept apart from, as strong as it may be. */
struct meeting *meetings_of_material(struct arena *arena, struct library *library, const struct material *material);

#endif
