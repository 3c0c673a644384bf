/* For the files that reckon sums: the words of a sum, the sum as it was parsed, and what its evaluation needs. */
#ifndef POTASH_RECKONING_SUMS_H
#define POTASH_RECKONING_SUMS_H

#include "formula/checking.h"
#include "reckoning/reckoning.h"
#include "syntax/builder.h"

#include "notation.tab.h"

/* ---- words ---- */

/* Tokens are the notation's; these words have a meaning only in sums. */
enum { WORD_AS = 10000, WORD_EACH, WORD_HOW_MANY, WORD_DO, WORD_DISSOLVE, WORD_COEFFICIENT, WORD_PH_OF };

struct sum_token {
    int kind;
    union NOTATION_STYPE value;
    struct span span;
};

/* ---- the parsed sum ---- */

enum sum_kind {
    SUM_DILUTION,  /* 1+29 for 300 mL, 1+29 from 10 mL, A 1 + B 1 + water 8 for 1 L */
    SUM_EITHER,    /* 1:29, which is read in two ways */
    SUM_SHARE,     /* 2 parts of 10 parts for 500 mL */
    SUM_RATIO,     /* 150 mL to 1 L as a ratio */
    SUM_COUNT,     /* 500 mL at 10 mL each */
    SUM_SCALE,     /* 7.5 g per 750 mL for 2 L */
    SUM_DOSE,      /* 5 g/L for 750 mL */
    SUM_CONTENT,   /* 25 mL of 1 % stock */
    SUM_MAKE,      /* 250 mL of 10 % */
    SUM_TAKE,      /* 0.25 g from 1 % stock */
    SUM_WEAKEN,    /* 28 % to 5 % for 1 L, 500 mL of 5 % from 28 % */
    SUM_CONVERT,   /* 3 oz 70 grains in g; 40 grains per 20 imperial fl oz in g/L */
    SUM_EQUIVALENT, /* 30 g sodium carbonate (anhydrous) as monohydrate */
    SUM_REPLACEMENT, /* 30 g sodium metaborate as borax + sodium hydroxide */
    SUM_PH,        /* pH of 45 g sodium carbonate (anhydrous) + 30 g sodium sulfite (anhydrous) in 1 L at 20 °C */
    SUM_DISSOLVE,  /* dissolve 30 g borax in 500 mL at 20 °C */
    SUM_TIME       /* 9 min at 20 °C to 24 °C coefficient 1.9 per 10 °C */
};

struct sum_share {
    struct sum_share *next;
    const char *label; /* NULL when none was written */
    double parts;
    struct span span;
};

/* One of the materials that are dissolved together. */
struct sum_dissolved {
    struct sum_dissolved *next;
    struct quantity *amount;
    struct material_words *material;
};

/* What an answer is wanted in. */
enum target_kind { TARGET_NONE, TARGET_UNIT, TARGET_PERCENT, TARGET_RATIO };
struct sum_target {
    enum target_kind kind;
    struct name *unit;    /* TARGET_UNIT: "g", or the first of "grains per 20 imperial fl oz" */
    struct quantity *per; /* the second, or NULL */
    struct span span;
};

/* A solution by its strength, or by the form or material that it is. */
struct sum_solution {
    const struct strength *strength; /* NULL when it is named */
    struct material_words *named;    /* "glacial", "acetic acid (28 %)", or NULL */
    struct span span;
};

struct sum {
    enum sum_kind kind;
    struct span span;
    struct quantity *amount; /* what the sum starts from */
    struct quantity *per;    /* the amount that it is in, or of one portion */
    struct quantity *total;  /* for 300 mL */
    struct quantity *taken;  /* from 10 mL */
    struct sum_share *shares;
    struct sum_dissolved *dissolved; /* pH of … */
    struct sum_solution weak; /* or the only solution there is */
    struct sum_solution strong;
    struct material_words *material; /* NULL when none is named */
    struct material_words *other;    /* as … */
    struct form_words *other_form;   /* as 28 % */
    struct material_words *with;     /* as … + …, or NULL */
    struct quantity *temperature;    /* at 20 °C, or NULL */
    struct quantity *to_temperature; /* of a time */
    double coefficient;              /* factor of the time for `per` of difference; NAN: not given */
    struct sum_target target;
};

/* ---- working on one ---- */

/* A unit of the bench that is not metric: answers are given in it as well. */
struct own_unit {
    double factor; /* base units in one; 0 when there is none */
    const char *name;
};

struct reckoner {
    struct arena *arena;
    struct library *library;
    struct builder builder; /* of the tokens' values and the parts of the sum */
    struct checker checker; /* reads amounts and names as it does those of a formula */
    struct formula formula; /* the empty formula that it thinks it is in */
    struct formulary formulary;
    struct sum_token *tokens; /* the last is T_NEWLINE */
    size_t next;
    struct own_unit own_mass;
    struct own_unit own_volume;
    bool tried;         /* one way of reading the sum, which only its figures are wanted of */
    int unclear_choice; /* which meaning an unclear unit is given; -1: none, it is an error */
    struct answer *answer;
};

/* Reads the words of the sum; false when it is not one line of text, which is reported. */
bool sum_read_words(struct reckoner *reckoner, struct source_file *source);

/* The sum, or NULL when it is not understood, which is reported. */
struct sum *sum_parse(struct reckoner *reckoner);

/* Longest start of `words` that names a unit; the words behind it go to *rest (empty when there are none).  NULL: none
 * does. */
struct name *sum_unit_in(struct reckoner *reckoner, const struct name *words, struct text *rest);

/* ---- amounts, materials ---- */

struct sum_amount {
    double value; /* base units; a temperature in °C */
    double high;  /* the value when it is no range */
    enum dimension dimension;
    const struct unit *unit;
    const struct quantity *quantity;
};

/* Reads an amount; false when it cannot be used, which is reported. */
bool sum_amount(struct reckoner *reckoner, const struct quantity *quantity, bool liquid, struct sum_amount *amount);

/* The same for an amount that must be a volume, or a mass too when `mass_too`. */
bool sum_volume(struct reckoner *reckoner, const struct quantity *quantity, bool mass_too, struct sum_amount *amount);

/* The material and form that are named; the usual form, with a note, when none is.  false: unknown, reported. */
bool sum_material(struct reckoner *reckoner, const struct material_words *words, const struct material **material,
                  const struct form **form);
void sum_note_assumed(struct reckoner *reckoner, const struct material *material);

/* Grams of a form in an amount; NAN, which is reported, when that is no weight and cannot be made one. */
double sum_grams(struct reckoner *reckoner, const struct quantity *quantity, const struct material *material,
                 const struct form *form);

/* Reads a temperature, °C; false when it is none, which is reported. */
bool sum_temperature(struct reckoner *reckoner, const struct quantity *quantity, double *celsius);

/* Says that something does not go together; returns false. */
bool sum_refuse(struct reckoner *reckoner, enum diagnostic_id id, struct span span, const char *help,
                const char *format, ...) __attribute__((format(printf, 5, 6)));

/* A solution of a liquid that is sold by strength. */
struct liquid {
    double grams;   /* of the substance in 1 mL; mL of it when `by_volume` */
    double density; /* g/mL; NAN when unknown or not needed */
    double percent; /* as reckoned with */
    bool by_volume;
    const char *label;       /* "5 %", "acetic acid (glacial)" */
    const struct form *form; /* the library's, or NULL */
    const struct material *material;
};

/* ---- the kinds of sums; each fills reckoner->answer, or reports and returns false ---- */

bool sum_dilution(struct reckoner *reckoner, const struct sum *sum);
bool sum_either(struct reckoner *reckoner, const struct sum *sum);
bool sum_share(struct reckoner *reckoner, const struct sum *sum);
bool sum_ratio(struct reckoner *reckoner, const struct sum *sum);
bool sum_count(struct reckoner *reckoner, const struct sum *sum);
bool sum_scale(struct reckoner *reckoner, const struct sum *sum);
bool sum_dose(struct reckoner *reckoner, const struct sum *sum);
bool sum_content(struct reckoner *reckoner, const struct sum *sum);
bool sum_make(struct reckoner *reckoner, const struct sum *sum);
bool sum_take(struct reckoner *reckoner, const struct sum *sum);
bool sum_weaken(struct reckoner *reckoner, const struct sum *sum);
bool sum_convert(struct reckoner *reckoner, const struct sum *sum);
bool sum_equivalent(struct reckoner *reckoner, const struct sum *sum);
bool sum_replacement(struct reckoner *reckoner, const struct sum *sum); /* as … + … */
bool sum_ph(struct reckoner *reckoner, const struct sum *sum);
bool sum_dissolve(struct reckoner *reckoner, const struct sum *sum);
bool sum_time(struct reckoner *reckoner, const struct sum *sum);

/* The liquid that `solution` is, of `material` when it does not name one.  false: not to be had, which is reported. */
bool sum_liquid(struct reckoner *reckoner, const struct sum_solution *solution, const struct material *material,
                struct liquid *liquid);

/* Whether a solution names a material of its own: that and its form. */
bool sum_solution_material(struct reckoner *reckoner, const struct sum_solution *solution,
                           const struct material **material);

/* The material of a sum about solutions: named behind a strength, or by the strong solution itself; NULL when none is,
 * or it is a solid of which strengths are plain figures.  *label: " potassium bromide", or empty. */
bool sum_solution_named(struct reckoner *reckoner, const struct sum *sum, const struct material **material,
                        const struct form **form, const char **label);

/* Whether it is measured by volume and sold by strength. */
bool sum_is_liquid(const struct material *material);

/* The figure of a form's label ("96 %"); its strength when the label is a word. */
double sum_label_percent(const struct form *form);

extern const double sum_water_density; /* g/mL */

/* ---- answers ---- */

void answer_add(struct reckoner *reckoner, double value, const char *unit, const char *what);
void answer_add_amount(struct reckoner *reckoner, double value, enum dimension dimension, const char *what);
void answer_note(struct reckoner *reckoner, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *answer_format(struct reckoner *reckoner, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Four significant figures; whole numbers are given in full. */
const char *answer_number(struct reckoner *reckoner, double value);

/* A mass or volume that is to be measured: four figures, no finer than 0.01 g or 0.1 mL unless that falsifies it by
 * more than a hundredth.  "18.5 g", "1.5 L". */
const char *answer_amount(struct reckoner *reckoner, double value, enum dimension dimension);

/* The same, and in the sum's own unit behind it when that is not metric: "19.7 mL (0.6667 US fl oz)". */
const char *answer_own_amount(struct reckoner *reckoner, double value, enum dimension dimension);

/* "28 %", "10 % w/w". */
const char *answer_percent(struct reckoner *reckoner, const struct strength *strength);

/* "sodium carbonate (monohydrate)". */
const char *answer_material(struct reckoner *reckoner, const struct material *material, const struct form *form);

#endif
