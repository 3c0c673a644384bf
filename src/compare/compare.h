/* What differs between two checked formulas.
 *
 * Pure functions of the checked form.  The two may come from two sessions with the same titles (two versions of a file), so
 * materials, parts and uses are matched by name, never by pointer.  Amounts go by the litre, whatever the batch, and forms
 * are reduced to equal moles of the usual form.  What is made lives in the arena that is handed in. */
#ifndef POTASH_COMPARE_COMPARE_H
#define POTASH_COMPARE_COMPARE_H

#include "formula/formula.h"

enum change_what {
    CHANGE_KIND,        /* kind of bath */
    CHANGE_PURPOSE,     /* what it is for */
    CHANGE_PART,        /* a part is on one side only, or has another name */
    CHANGE_MAKES,       /* one is mixed dry, or makes an unknown volume, and the other is a solution */
    CHANGE_SOLVENT,     /* made up with another liquid */
    CHANGE_ADDED,       /* a material that only the second has */
    CHANGE_REMOVED,     /* a material that only the first has */
    CHANGE_AMOUNT,
    CHANGE_RANGE,       /* the upper end of a range */
    CHANGE_OPTIONAL,
    CHANGE_PORTIONS,    /* the same amount, taken in more or fewer goes */
    CHANGE_ORDER,       /* it is added at another place among the others */
    CHANGE_WATER,       /* how warm the water, or another addition, goes in */
    CHANGE_STEP,        /* a working step between the additions */
    CHANGE_USE,         /* a use is on one side only */
    CHANGE_DILUTION,
    CHANGE_TEMPERATURE,
    CHANGE_TIME,
    CHANGE_AGITATION,
    CHANGE_NEEDS,       /* stock that a roll or a sheet must have */
    CHANGE_CAPACITY,
    CHANGE_COEFFICIENT,
    CHANGE_KEEPING,
    /* remarks: the bath is the same */
    CHANGE_FORM,        /* equal moles of another form */
    CHANGE_STOCK,       /* taken from another stock solution, or weighed in place of it */
    CHANGE_START_WATER, /* other volume of water to begin with; the final volume is the same */
    CHANGE_KINDS
};

/* The word for it in the JSON. */
extern const char *const change_names[CHANGE_KINDS];

struct change {
    struct change *next;
    enum change_what what;
    bool remark;                 /* the two make the same bath in spite of it */
    struct text part;            /* name of the part, as the first has it where it can; empty for a formula of one part */
    struct text material;        /* library name, or what stands in its place ("solution A"); empty when it is no addition */
    struct text use;
    struct text in;              /* keeping: "full bottle" */
    double from;                 /* NAN where it is no figure or there is none */
    double to;
    double from_high;            /* upper ends of ranges; NAN for none */
    double to_high;
    struct text from_text;       /* in words, where it is no figure; empty where there is none */
    struct text to_text;
    const char *unit;            /* of the figures: "g/L", "s"; NULL for none */
    double percent;              /* (to - from) / from x 100; NAN where that says nothing */
};

enum ingredient_kind { INGREDIENT_MATERIAL, INGREDIENT_SOLUTION /* another part */, INGREDIENT_WATER, INGREDIENT_STEP };

/* One thing that is done on the way to a part, in order.  Other formulas that it takes in are opened up into their materials. */
struct ingredient {
    struct ingredient *next;
    enum ingredient_kind kind;
    const struct step *step;          /* where it stands */
    const struct material *material;  /* NULL for solutions and most steps */
    const struct form *form;
    struct text name;                 /* as it is shown */
    struct text key;                  /* by which the two sides are matched */
    double amount;                    /* g of `form`, or mL, by the basis of the pair; NAN when unknown or as needed */
    bool by_volume;                   /* `amount` is mL: no weight is known */
    size_t place;                     /* from 1, within the part, working steps and water counted */
    struct ingredient *match;         /* on the other side, or NULL */
    bool moved;
};

/* What an amount of a pair of parts is by. */
enum amount_basis { BY_LITRE, BY_DRY_WEIGHT /* of all that is weighed: by the kg */ };

/* A line of the two parts side by side. */
struct compared_line {
    struct compared_line *next;
    struct ingredient *a;             /* NULL where only the other has it; with several portions the first of them */
    struct ingredient *b;
    const struct form *form;          /* that both are reduced to; NULL for solutions */
    double from;                      /* g of `form`, or mL; NAN when absent or not known */
    double to;
    bool by_volume;
    bool differs;
    bool form_differs;                /* equal moles of another form, or from another stock */
    size_t portions_a;
    size_t portions_b;
};

struct compared_part {
    struct compared_part *next;
    const struct part *a;             /* NULL where only the other has it */
    const struct part *b;
    struct text name;
    enum amount_basis basis;
    struct ingredient *ingredients_a;
    struct ingredient *ingredients_b;
    struct compared_line *lines;      /* in the order of mixing of the first */
};

struct compared_use {
    struct compared_use *next;
    const struct use *a;              /* NULL where only the other has it */
    const struct use *b;
    bool differs;
};

struct comparison {
    struct comparison *next;
    struct arena *arena;
    const struct formula *a;          /* NULL where only the other has it */
    const struct formula *b;
    struct formulary *formulary_a;    /* what they were compiled in, for figures that need the library; or NULL */
    struct formulary *formulary_b;
    double within;                    /* share by which amounts may differ; NAN: rounding of print */
    bool same;                        /* nothing but remarks */
    struct change *changes;
    struct change *last;
    struct compared_part *parts;
    struct compared_use *uses;
};

/* What differs.  Amounts count as equal when they differ by no more than the share `within` of the larger; NAN allows for
 * the rounding of print: 0.5 %, and up to 1 % where an amount written in another unit or form is rounded so far.  One of
 * `a` and `b` may be NULL: a formula that the other side does not have. */
struct comparison *compare_formulas(struct arena *arena, const struct formula *a, const struct formula *b, double within);

/* How a use is mixed, in words: "1+29", "A 1 + B 1 + water 8", "undiluted"; empty when nothing is said. */
struct text compare_mixture_words(struct arena *arena, const struct use *use);

/* "12 rolls per L", "40 sheets 8x10 in per L"; empty when nothing is said. */
struct text compare_capacity_words(struct arena *arena, const struct use *use);

/* ---- totals, for what the change means ---- */

enum total_kind { TOTAL_DEVELOPING_AGENTS, TOTAL_SULFITE, TOTAL_ALKALI, TOTAL_THIOSULFATE, TOTAL_KINDS };

struct totals {
    double of[TOTAL_KINDS];      /* g/L; alkali: mol/L of strong acid that it takes up */
    struct text unknown_alkali;  /* an alkali whose ions the library does not know, or empty */
};

/* Totals of what `volume` mL hold. */
struct totals compare_totals(const struct content *contents, double volume);

#endif
