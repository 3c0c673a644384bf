/* Rules of practice: declared in stdlib/practice.bath and in the user's files, run over the checked form. */
#ifndef POTASH_PRACTICE_RULES_RULES_H
#define POTASH_PRACTICE_RULES_RULES_H

#include "practice/practice.h"

#include <stdint.h>

enum { MOST_ITEMS = 64 }; /* materials of one class of baths */
enum { MOST_SUBJECTS = 256 }; /* subjects that the rules of one run name */

struct subject_set {
    uint64_t bits[MOST_SUBJECTS / 64];
};

static inline bool subject_set_has(const struct subject_set *set, size_t subject)
{
    return (set->bits[subject / 64] >> subject % 64 & 1) != 0;
}

static inline void subject_set_put(struct subject_set *set, size_t subject)
{
    set->bits[subject / 64] |= (uint64_t)1 << subject % 64;
}

enum { NO_MATERIAL = -1 };

/* One of the names of a subject.  A material is known by the number of its entry in the library, so that a rule does not make the
 * compiler read what it knows of materials that no formula uses. */
struct rule_name {
    const struct rule_name *next;
    long entry;                        /* NO_MATERIAL: a role */
    struct text form;                  /* folded; empty: any */
    struct text role;
    bool excepted;                     /* "acid except boric acid" */
};

/* What a condition speaks of: a material, every material that has a role, or several of these. */
struct rule_subject {
    struct text words;                 /* folded: "metol or phenidone" */
    struct text form;
    const struct rule_name *names;
};

/* The usual range of a class reaches so many standard deviations to either side. */
#define DEVIATIONS 1.8

struct rule_condition {
    enum relation relation;
    size_t subject;                  /* index into struct rules */
    size_t object;                   /* likewise; the subject where there is none */
    double bound;                    /* g/L, or °C of RELATION_AT; NAN when there is none */
    bool over;
    size_t measured_by;              /* "over 2 times hydroquinone": the bound is so many times that; MOST_SUBJECTS: none */
};

/* One of the materials of a class of baths, and how much of it these hold. */
struct class_item {
    size_t subject;
    bool optional;
    bool by_volume;
    double low;                      /* g/L of the usual form, mL/L of a liquid's, in the bath as it is used */
    double high;
    double middle;                   /* of the two, as logarithm to the base of ten */
    double spread;                   /* a standard deviation, likewise */
    double precision;                /* one over its square */
    double width;                    /* natural logarithm of the spread over an ordinary one */
};

struct rule {
    long entry;                      /* of a built-in rule: the number of its entry in the library */
    struct text name;                /* folded */
    struct text shown;               /* as it is written */
    const struct text *kinds;        /* kinds of bath, folded; none: every kind */
    size_t kind_count;
    const struct text *purposes;     /* film, paper, folded; none: whatever it is for */
    size_t purpose_count;
    const struct rule_condition *conditions;
    size_t condition_count;
    struct subject_set needs;        /* subjects that must be there for it to hold */
    struct subject_set lacks;        /* subjects, in whatever form, that must not */
    struct text warn;
    struct text advise;
    struct text source;
    enum diagnostic_id id;
    bool of_library;                 /* not the user's own */
    struct subject_set knows;        /* all subjects of its items */
    const struct class_item *items;       /* of a rule that describes a class of baths, in mixing order */
    size_t item_count;
    uint64_t needed_items;           /* a bit for each that is not optional */
    const unsigned char *item_of_subject; /* the first item of each subject that it knows */
};

/* The rules for one kind of bath, picked out when the first formula of that kind comes: most rules are for other kinds. */
struct rules_of_kind {
    struct rules_of_kind *next;
    const char *kind;                /* the text of the checked form, which is one for all formulas of a kind */
    const struct rule **rules;
    size_t count;
    /* Sets of places in `rules`, each of `words` words: most rules are sorted out by what a formula holds without being looked at. */
    size_t words;
    uint64_t *without_need;          /* the rules that need nothing */
    struct subject_set looked_for;   /* for each rule one of its needs, the one that fewest others share */
    uint64_t *by_need;               /* for each of those, the rules that it was taken from */
    uint64_t *candidates;            /* those that are worth a look at the formula in hand */
    const struct rule **speaking;    /* and those that may speak of it */
    const struct rule **classes;
    size_t class_count;
    bool kept_as_stock;              /* what the library says of the kind */
    bool many_classes;
};

/* What a formula holds; a pinch alone is not an addition, so that it says nothing of what is missing. */
struct contents {
    struct subject_set there;
    bool pinches;
    bool known;                      /* gathered, of the formula in hand */
};

/* An addition to the bath, all parts together. */
struct bath_line {
    const struct subject_set *subjects; /* that it answers to */
    double grams;                    /* in a litre; NAN when it is not known how the parts are mixed */
};

struct bath_lines {
    struct bath_line *lines;
    size_t count;
    size_t room;
    bool known;                      /* of the formula in hand; else to be reckoned when a rule asks */
};

struct rule_list {
    const struct rule *const *rules;
    size_t count;
};

struct rules {
    struct library *library;
    struct rules_of_kind *by_kind;
    struct contents contents;        /* of the formula in hand: rules_contents */
    struct bath_lines *bath;         /* what a litre of the formula in hand holds: rules_run.c */
    struct rule_list found;          /* those of the formula in hand, where they are not kept */
    struct pairing_memory *pairings; /* of classes: practice/classes/class_pairing.h */
    struct rule_list list;           /* all of them */
    struct rule_list classes;        /* descriptions of classes of baths */
    const struct rule_subject *subjects;
    size_t subject_count;
    struct rule_reader *reader;      /* rules.c: where they are not the built-in ones */
};

/* What is read of the built-in library's rules, made with its tables (library/tables.h). */
struct built_in_rules {
    struct rule_list list;
    struct rule_list classes;
    const struct rule_subject *subjects;
    size_t subject_count;
};
extern const struct built_in_rules built_in_rules;

/* The rules of a library; mistakes in the user's own are reported. */
void rules_start(struct rules *rules, struct library *library);

/* Whether the rule, or the reaction, is turned off by its name, for the formula or for the run. */
bool rule_is_silenced(const struct practice *practice, const struct formula *formula, struct text name);

/* Whether the rule is about what the formula is for; true when one of them does not say. */
bool rule_is_for_purpose(const struct rules *rules, const struct rule *rule, const struct formula *formula);

/* Another formula is in hand from now on. */
void rules_begin(struct rules *rules);

/* What the formula in hand holds. */
const struct contents *rules_contents(struct rules *rules, const struct formula *formula);

/* Says what the rules have to say of a formula. */
void rules_run(struct rules *rules, const struct practice *practice, struct formula *formula);

/* The rules for a kind of bath. */
const struct rules_of_kind *rules_pick(struct rules *rules, struct text kind);

/* Those of them that may speak of a formula: what they need is there, what they find missing is not, and they are about what it is
 * for.  The list stays valid until the next call. */
const struct rule_list *rules_that_may_speak(struct rules *rules, const struct formula *formula);

/* Which subjects a form of a material answers to; NULL: any form of it.  Worked out once for each material of a run. */
const struct subject_set *rules_subjects_of(const struct rules *rules, const struct material *material, const struct form *form);

static inline bool rules_step_counts(const struct step *step)
{
    return (step_is_addition(step) || step->kind == STEP_PINCH) && step->material != NULL && step->how != ADD_TO_MAKE;
}

/* Whether the step adds some of what the subject speaks of. */
static inline bool rules_step_is(const struct rules *rules, const struct step *step, size_t subject)
{
    return rules_step_counts(step) && subject_set_has(rules_subjects_of(rules, step->material, step->form), subject);
}

/* The same, or a solution that holds some; `depth` 0. */
bool rules_step_holds(const struct rules *rules, const struct step *step, size_t subject, int depth);

/* The first step from `from` on and before `upto` (NULL: to the end) that adds what the subject speaks of; a pinch counts. */
const struct step *rules_find(const struct rules *rules, size_t subject, const struct step *from, const struct step *upto);

/* The same, but a pinch does not count. */
const struct step *rules_next_addition(const struct rules *rules, size_t subject, const struct step *from, const struct step *upto);

/* Whether a step stands anywhere behind another of its part. */
bool rules_stands_after(const struct step *step, const struct step *other);

/* Adds everything that a part holds; `depth` 0. */
void rules_gather(const struct rules *rules, const struct part *part, struct subject_set *there, int depth);

/* °C of the liquid that `upto` goes into; NAN when it is not known, as after a wait or more water. */
double rules_water_temperature(const struct part *part, const struct step *upto);

bool rules_material_is(const struct rules *rules, const struct material *material, size_t subject);

/* Whether the rule is about baths of that kind. */
bool rule_is_for_kind(const struct rule *rule, struct text kind);

#endif
