/* Rules of practice: declared in stdlib/practice.bath and in the user's files, run over the checked form. */
#ifndef POTASH_PRACTICE_RULES_H
#define POTASH_PRACTICE_RULES_H

#include "practice/practice.h"

#include <stdint.h>

enum { MOST_SUBJECTS = 256 }; /* materials and roles that the rules of one run name */

struct subject_set {
    uint64_t bits[MOST_SUBJECTS / 64];
};

/* A material, or every material that has a role.  A material is known by its entry in the library, so that a rule does not
 * make the compiler read what it knows of materials that no formula uses. */
struct rule_subject {
    const struct library_entry *entry; /* NULL: a role */
    struct text form;                  /* folded; empty: any */
    struct text role;
};

struct rule_condition {
    enum relation relation;
    size_t subject;                  /* index into struct rules */
    size_t object;                   /* likewise; the subject where there is none */
    double bound;                    /* g/L; NAN when there is none */
    bool over;
};

struct rule {
    struct rule *next;
    struct text name;
    struct text *kinds;              /* kinds of bath, folded; none: every kind */
    size_t kind_count;
    struct rule_condition *conditions;
    size_t condition_count;
    struct subject_set needs;        /* subjects that must be there for it to hold */
    struct subject_set lacks;        /* subjects that must not */
    struct text warn;
    struct text advise;
    struct text source;
    enum diagnostic_id id;
};

struct rules {
    struct library *library;
    struct rule *first;
    struct rule_subject subjects[MOST_SUBJECTS];
    size_t subject_count;
};

/* Reads all rules; mistakes in the user's are reported. */
void rules_start(struct rules *rules, struct library *library);

/* Says what the rules have to say of a formula. */
void rules_run(const struct rules *rules, const struct practice *practice, struct formula *formula);

#endif
