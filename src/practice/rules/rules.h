/* Rules of practice: declared in stdlib/practice.bath and in the user's files, run over the checked form. */
#ifndef POTASH_PRACTICE_RULES_RULES_H
#define POTASH_PRACTICE_RULES_RULES_H

#include "practice/bench.h"

enum { MOST_ITEMS = 64 }; /* materials of one class of baths */
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

/* What is usual of a use. */
enum usual_what { USUAL_TIME, USUAL_DILUTION, USUAL_CAPACITY, USUAL_KEEPS, USUAL_WHATS };

struct usual_value {
    enum usual_what what;
    double low;                      /* s; parts of water to one of stock; cm2 of film or paper in a mL of working solution */
    double high;
    bool by_sheets;                  /* capacity: of goods that are never counted in rolls */
    struct text in;                  /* keeps: the vessel, or empty for any */
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
    const struct usual_value *usuals;     /* of a rule that says how baths are used */
    size_t usual_count;
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
    const struct rule **classes;
    size_t class_count;
    bool kept_as_stock;              /* what the library says of the kind */
    bool many_classes;
};

struct rule_list {
    const struct rule *const *rules;
    size_t count;
};

struct rules {
    struct library *library;
    struct rules_of_kind *by_kind;
    const struct subject_set **of_material; /* by the number of its entry, for any form of it and for each; NULL until asked for */
    struct rule_list list;           /* all of them */
    struct rule_list classes;        /* descriptions of classes of baths */
    struct rule_list usages;         /* how baths are used */
    const struct rule_subject *subjects;
    size_t subject_count;
    struct rule_reader *reader;      /* rules.c: where they are not the built-in ones */
};

/* What is read of the built-in library's rules, made with its tables (library/tables.h). */
struct built_in_rules {
    struct rule_list list;
    struct rule_list classes;
    struct rule_list usages;
    const struct rule_subject *subjects;
    size_t subject_count;
};
extern const struct built_in_rules built_in_rules;

/* The rules of a library; mistakes in the user's own are reported. */
void rules_start(struct rules *rules, struct library *library);

/* Whether the rule, or the reaction, is turned off by its name, for the formula or for the run. */
bool rule_is_silenced(const struct bench *bench, struct text name);

/* Whether the rule is about what the formula is for; true when one of them does not say. */
bool rule_is_for_purpose(const struct rules *rules, const struct rule *rule, const struct formula *formula);

/* Finds out what the formula on the bench holds. */
void rules_gather_all(struct bench *bench);

/* Says what the rules have to say of the formula on the bench. */
void rules_run(struct bench *bench);

/* The rules for a kind of bath. */
const struct rules_of_kind *rules_pick(struct rules *rules, struct text kind);

/* Of 64 of them from 64 times `word` on, a bit for each that is worth a look: of whose needs the one that is looked for is there. */
uint64_t rules_candidates(const struct rules_of_kind *picked, const struct subject_set *there, size_t word);

/* Whether what the rule needs is there, and what it finds missing is not. */
bool rule_may_hold(const struct rule *rule, const struct contents *contents);

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
