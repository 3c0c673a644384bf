/* Groups of materials that behave alike, as the library declares them: by name, role, ion, element or class of hazard. */
#ifndef POTASH_LIBRARY_GROUPS_H
#define POTASH_LIBRARY_GROUPS_H

#include "library/library.h"

enum { MOST_GROUPS = 256 }; /* groups, and materials and roles that reactions name by themselves */

struct group_set {
    uint64_t bits[MOST_GROUPS / 64];
};

static inline bool group_set_has(const struct group_set *set, size_t group)
{
    return (set->bits[group / 64] >> group % 64 & 1) != 0;
}

static inline void group_set_put(struct group_set *set, size_t group)
{
    set->bits[group / 64] |= (uint64_t)1 << group % 64;
}

static inline void group_set_add(struct group_set *set, const struct group_set *more)
{
    for (size_t i = 0; i < MOST_GROUPS / 64; i++) {
        set->bits[i] |= more->bits[i];
    }
}

static inline bool group_sets_meet(const struct group_set *a, const struct group_set *b)
{
    uint64_t both = 0;
    for (size_t i = 0; i < MOST_GROUPS / 64; i++) {
        both |= a->bits[i] & b->bits[i];
    }
    return both != 0;
}

/* Of a name, a role, an ion … : the groups that it makes something belong to. */
struct group_key {
    struct text text;     /* its first byte tells what it is of */
    struct group_set in;
    struct group_set out; /* groups that leave it out */
};

/* What the lines of all groups come to, turned round. */
struct groups {
    const struct group_key *keys;
    size_t key_count;
    const uint16_t *slots;               /* by hash: the place of a key and 1, or in the next free one behind */
    uint32_t mask;                       /* slots less one */
    struct text names[MOST_GROUPS];      /* folded */
    struct group_set holds[MOST_GROUPS]; /* groups that are in a group */
    size_t count;
};

/* Reads groups, and the names that reactions use by themselves. */
struct groups_reader {
    struct library *library;
    struct groups *groups;
    struct group_key *keys;              /* those of `groups`, while there are more to come */
    uint16_t *slots;
    size_t room;
};

/* Reads the declared groups. */
void groups_start(struct groups_reader *reader, struct groups *groups, struct library *library);

/* The place of a folded name of a group, a material or a role among the groups; MOST_GROUPS when there is no room for another.
 * All names must be known before the first material is made. */
size_t groups_place(struct groups_reader *reader, struct text name);

/* What a material belongs to, worked out when it is made. */
const struct group_set *groups_of_material(struct library *library, const struct material *material);

/* Whether the group with that folded name holds the material; false for no such group. */
bool material_in_group(struct library *library, const struct material *material, struct text group);

bool material_has_role(const struct material *material, struct text role);

/* Whether a folded name means the material: one of its own, a role of it, or a group that it is in. */
bool material_answers_to(struct library *library, const struct material *material, struct text name);

#endif
