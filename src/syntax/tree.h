/* The syntax tree: a file's declarations and their statements as they were written.
 *
 * A declaration holds its statements in the order of their lines; `part` and `use` are statements among them, and what
 * follows belongs to them until the next.  Nothing here is looked up or reckoned.  All nodes live in the arena of the
 * compilation; strings are views into the source. */
#ifndef POTASH_SYNTAX_TREE_H
#define POTASH_SYNTAX_TREE_H

#include "base/names.h"
#include "source/source.h"

/* A name in its place; lists are chained. */
struct word {
    struct name *name;
    struct span span;
    struct word *next;
};

/* A size of sheet, "8x10 in". */
struct sheet_size {
    double width;
    double height;
    struct name *unit; /* "in", "cm", "mm" */
};

/* A number and its unit, as the lexer gives them; what is added to it ("3 oz 70 grains"); the other end of a range ("50 to 65
 * grains").  The number begins where `span` does. */
struct quantity {
    double value;
    struct name *unit;              /* NULL when none was written */
    const struct sheet_size *size;  /* of counted sheets, or NULL */
    struct quantity *more;          /* added to this one, or NULL */
    struct quantity *high;          /* NULL when it is no range */
    struct span span;               /* of all of it */
    struct span unit_span;          /* of the words behind the number, or behind the last of a range; empty when there are none */
    uint32_t number_end;
};

/* Where its own number stands, without its unit and without what is added to it. */
static inline struct span quantity_number_span(const struct quantity *quantity)
{
    return span_make(quantity->span.begin, quantity->number_end);
}

/* Takes the first words of its unit for the unit, and leaves the rest out of it. */
static inline void quantity_cut_unit(struct quantity *quantity, struct name *unit)
{
    quantity->unit = unit;
    quantity->unit_span.end = quantity->unit_span.begin + (uint32_t)unit->spelling.length;
    quantity->span.end = quantity->unit_span.end;
}

enum percent_basis { PERCENT_PLAIN, PERCENT_WEIGHT_IN_VOLUME, PERCENT_WEIGHT_IN_WEIGHT, PERCENT_VOLUME_IN_VOLUME };

/* "1 %", "10 % w/w", "saturated". */
struct strength {
    double percent;
    enum percent_basis basis;
    bool saturated;
    struct span number_span;        /* of the number alone; empty when there is none */
    struct span span;
};

/* A form as it was written behind a name: words, a strength, or a specific gravity. */
struct form_words {
    struct name *words;     /* NULL when it is a number */
    double number;
    bool percent;           /* the number is per cent */
    bool temperature;       /* the number has the unit in `words`: "water (50 °C)" */
    struct span span;
};

/* A material with its form. */
struct material_words {
    struct name *name;
    struct span span;
    struct form_words *form; /* NULL when none was written */
};

enum declaration_kind {
    DECLARE_FORMULA, DECLARE_VARIANT, DECLARE_STOCK, DECLARE_MATERIAL, DECLARE_UNIT, DECLARE_ELEMENT, DECLARE_PHRASE,
    DECLARE_RULE, DECLARE_REACTION, DECLARE_GROUP, DECLARE_EQUILIBRIUM, DECLARE_KIND_OF_BATH, DECLARE_SHELF, DECLARE_BATCH, DECLARE_PROCESS,
    DECLARE_WORDING, DECLARE_READ
};

enum statement_kind {
    /* formulas and their kin */
    SAY_KIND, SAY_FOR, SAY_MAKES, SAY_MEASURES, SAY_AFTER, SAY_NOTE, SAY_KEEPS, SAY_SILENCE,
    SAY_ADDITION, SAY_PINCH, SAY_SOLUTION, SAY_COOL, SAY_WARM, SAY_STAND, SAY_FILTER, SAY_DO,
    SAY_PART, SAY_USE, SAY_DILUTE, SAY_MIX, SAY_TEMPERATURE, SAY_TIME, SAY_POUR, SAY_AGITATE, SAY_NEEDS, SAY_CAPACITY,
    SAY_COEFFICIENT, SAY_REPLENISH,
    /* variants */
    SAY_OF, SAY_CHANGE, SAY_LEAVE_OUT, SAY_ADD, SAY_SWAP,
    /* stocks */
    SAY_SOLVENT,
    /* materials */
    SAY_ALSO, SAY_ROLE, SAY_FORM, SAY_IONS, SAY_DISSOLVES, SAY_TYPICAL, SAY_DENSITY, SAY_HAZARD, SAY_LIMIT, SAY_FACTOR,
    SAY_TOXICITY, SAY_COUNTS_AS, SAY_CAUTION, SAY_STOP, SAY_MISTAKEN, SAY_STORE, SAY_SOURCE,
    /* equilibria */
    SAY_PK, SAY_INERT, SAY_INTERACTION,
    /* rules */
    SAY_PURPOSE, SAY_USUAL, SAY_WHEN, SAY_WARN, SAY_ADVISE, SAY_SAYS,
    /* reactions */
    SAY_MEETS, SAY_BESIDE, SAY_UNLESS, SAY_WHERE, SAY_HARM,
    /* shelves, batches, processes */
    SAY_CURRENCY, SAY_COUNTED, SAY_BALANCE, SAY_GRADUATE, SAY_HOLDS, SAY_SOLD, SAY_BOTTLES, SAY_MIXED, SAY_BY, SAY_MIXED_AS, SAY_TOOK, SAY_TOPPED_UP, SAY_MADE, SAY_USED, SAY_TANK, SAY_BATH, SAY_WASH,
    SAY_TRIAL, SAY_DISCARDED, SAY_TRAY, SAY_DRAIN, SAY_ONCE, SAY_REPLACE, SAY_TASK,
    /* wordings */
    SAY_MEANS, SAY_OFFERS,
    /* a line that the grammar does not know, or that has been read by a wording: it says nothing itself, and what it means follows */
    SAY_LINE
};

struct statement {
    struct statement *next;
    struct span span;
    enum statement_kind kind;
    bool stands_for_other; /* it was not typed so: a wording means it */
};

/* A line that the reading of others depends on, wherever it stands. */
static inline bool statement_is_property(enum statement_kind kind)
{
    return kind == SAY_KIND || kind == SAY_MEASURES || kind == SAY_SILENCE || kind == SAY_FOR || kind == SAY_AFTER;
}

/* A line that belongs to a use, or opens one. */
static inline bool statement_is_of_use(const struct statement *statement)
{
    switch (statement->kind) {
    case SAY_USE:
    case SAY_DILUTE:
    case SAY_MIX:
    case SAY_TEMPERATURE:
    case SAY_TIME:
    case SAY_POUR:
    case SAY_AGITATE:
    case SAY_NEEDS:
    case SAY_CAPACITY:
    case SAY_COEFFICIENT:
    case SAY_REPLENISH:
        return true;
    default:
        return false;
    }
}

/* kind, for, measures, silence, filter, role, also, mistaken, leave out, part, use … : words and nothing else */
struct words_statement {
    struct statement base;
    struct word *words;
};

/* note, after, agitate, do, caution, store, source, of: a text in quotes */
struct text_statement {
    struct statement base;
    struct text text;
    struct span text_span;
    struct text source;
};

/* makes, made … of, temperature, time, cool, warm, stand, keeps … in, needs … per, capacity … per, coefficient … per */
struct quantity_statement {
    struct statement base;
    struct quantity *quantity;
    struct quantity *per;      /* "per 10 °C", "per L" (a measure of 1), or NULL */
    struct word *word;         /* "in full bottle", "of A" */
};

enum amount_kind { AMOUNT_PLAIN, AMOUNT_FROM_STOCK, AMOUNT_OF_STOCK, AMOUNT_TO_MAKE, AMOUNT_AS_NEEDED };

struct amount_words {
    enum amount_kind kind;
    struct quantity *quantity;       /* NULL for "as needed" */
    const struct strength *strength; /* of the stock */
    struct span span;
};

/* What may follow an amount. */
struct tails {
    struct quantity *temperature;
    struct text note;
    bool optional;
    bool before;                     /* `place` is the addition to stand before, not after */
    struct material_words *place;    /* variants: after/before which addition */
    struct word *part;               /* variants: in which part, or NULL */
    struct quantity *other;          /* in brackets: the amount, or the temperature, in other units; or NULL */
    struct span other_span;          /* with its brackets */
    struct form_words *form;         /* in brackets behind the amount, or NULL */
};

struct addition_statement {
    struct statement base;           /* SAY_ADDITION, SAY_PINCH; SAY_ADD in a variant */
    struct material_words *material;
    struct amount_words *amount;     /* NULL for a pinch */
    const struct tails *tails;       /* NULL when there are none */
};

/* solution A 10 mL, solution "Gold stock" 10 mL */
struct solution_statement {
    struct statement base;
    struct word part;                /* name NULL when a formula is meant */
    double number;                   /* of a numbered part, NAN otherwise */
    struct text title;
    struct span title_span;
    struct quantity *quantity;
    const struct tails *tails;
};

/* One ingredient of `mix A 1 + B 1 + water 8`, or of `mix A 10 mL + B 10 mL + water to make 1 L`. */
struct mix_item {
    struct material_words what;      /* a part's name or a material */
    double number;                   /* of a numbered part, NAN otherwise */
    struct text title;               /* a formula in quotes */
    struct quantity *quantity;
    bool to_make;                    /* `quantity` is that of the whole mixture */
    struct span span;
    struct mix_item *next;
};

struct ratio {
    double *figures;
    size_t count;
    struct span last_span;           /* of the last number, where it stands as such */
    bool doubtful;                   /* it can be read in two ways, which has been reported */
    struct span span;
};

struct mix_statement {
    struct statement base;
    struct mix_item *items;          /* NULL when a ratio is given: mix 1+1+100 */
    struct ratio ratio;
};

/* dilute 1+3, dilute 150 mL to make 1 L */
struct ratio_statement {
    struct statement base;
    struct ratio ratio;              /* count 0 when volumes are given */
    struct ratio high;               /* count 0 when it is no range */
    struct quantity *taken;          /* so much stock … */
    struct quantity *whole;          /* … filled up to that; both NULL when it is a ratio */
};

/* Under what a time holds, or was tried: `9 min at 20 °C for speed 200 contrast 0.62`, in any order.  NULL: not said. */
struct conditions {
    struct quantity *time;
    struct quantity *temperature;
    struct quantity *speed;          /* film speed index, a plain number */
    struct quantity *contrast;       /* contrast index of a negative, a plain number */
    struct quantity *grade;          /* of the paper, a plain number */
    const struct ratio *ratio;       /* the dilution that it holds for */
};

/* time 7 min at 24 °C dilute 1+49 */
struct time_statement {
    struct statement base;
    struct conditions of;
};

/* A bath of one part in a use of parts one after the other: bath A 4 min at 20 °C */
struct pour_statement {
    struct statement base;
    struct word part;
    double number;                   /* of a numbered part, NAN otherwise */
    struct conditions of;
};

/* change NAME to AMOUNT; leave out NAME; swap NAME for NAME; swap NAME for NAME + NAME; behind the first name: in part A */
struct change_statement {
    struct statement base;
    struct material_words *from;
    struct word *part;               /* or NULL */
    struct material_words *to;       /* swap */
    struct material_words *with;     /* swap: the alkali or acid that makes up for what `to` lacks, or NULL */
    struct amount_words *amount;     /* change */
};

/* material: form NAME FORMULA cas N … */
struct form_statement {
    struct statement base;
    struct form_words *name;         /* NULL for the only form of a material */
    struct text chemical;            /* "Na2SO3.7H2O", empty for mixtures without a formula */
    struct span chemical_span;
    struct text cas;
    struct span cas_span;
    struct strength *strength;
    struct quantity *density;
    bool usual;
    struct form_list *others;
    struct text source;
};

struct form_list {
    struct form_words *form;
    struct form_list *next;
};

/* material: dissolves 27 g (anhydrous) per 100 mL at 20 °C in SOLVENT; typical KIND 5 to 150 g/L; density; toxicity; factor;
 * limit */
struct figure_statement {
    struct statement base;
    struct word *word;               /* kind of bath, way of exposure, hazard code, "freely" */
    struct text text;                /* hazard class in quotes */
    struct quantity *quantity;
    struct form_words *form;
    struct quantity *per;
    struct quantity *temperature;
    struct word *solvent;            /* kind of bath: what it holds where the range is for that, or NULL */
    double from_percent;             /* limit; NAN when open */
    double to_percent;
    struct text source;
};

/* material: ions 2 Na+, SO3-- */
struct ion {
    double count;
    struct text formula;             /* with its charge signs */
    struct span span;
    struct ion *next;
};

/* ions, inert */
struct ions_statement {
    struct statement base;
    struct ion *ions;                /* NULL: it gives none (`ions none`) */
    struct text source;
};

/* equilibrium: pk HCO3- 10.329 at 25 °C gives CO3-- enthalpy 14.7 kJ/mol heat capacity -249 J/mol/K */
struct pk_statement {
    struct statement base;
    struct ion *acid;                /* with how many of it take part */
    double pk;
    struct span pk_span;
    struct quantity *temperature;    /* NULL: 25 °C */
    struct quantity *strength;       /* ionic strength that it holds at; NULL: none */
    struct quantity *enthalpy;       /* of dissociation, or NULL */
    struct quantity *heat_capacity;
    double within;                   /* how far it may be off; NAN when not said */
    struct text gives;
    struct span gives_span;
    struct text source;
};

/* equilibrium: interaction CO3-- with Na+ -0.08, K+ 0.02 */
struct interaction_statement {
    struct statement base;
    struct text formula;
    struct span formula_span;
    struct ion *with;                /* `count` is the coefficient */
    struct text source;
};

/* One meaning of a unit: `29.57 mL in US`, `437.5 grain of solids`. */
struct unit_value {
    struct quantity *quantity;
    struct word *measures;           /* US, imperial */
    struct word *matter;             /* solids, liquids */
    struct unit_value *next;
};

struct unit_words {
    struct word *dimension;          /* `measures mass`: a base unit */
    double smallest;                 /* `measures money to 0.01`: the smallest coin; 0 when not said */
    struct unit_value *values;
    bool about;                      /* approximate */
    bool usual;                      /* one to offer where a unit is missing */
    double zero_at;                  /* `from 32`: where the other scale's zero lies; NAN otherwise */
    struct word *unclear;            /* `is unclear grain or g` */
    struct word *also;
    struct text source;
};

/* phrase: … for H302, H312 says "…": the hazards that a piece of advice answers to, and the words chosen where the standard
 * leaves a choice. */
struct phrase_words {
    struct word *codes;
    struct text says;
    struct text source;
};

/* rule: when metol comes after sodium sulfite over 10 g/L */
enum relation {
    RELATION_MISSING,        /* nowhere in the formula */
    RELATION_MISSING_BEFORE, /* not in the part before the object */
    RELATION_THERE, RELATION_AFTER, RELATION_BEFORE, RELATION_MEETS,
    RELATION_AT              /* dissolved in water of a temperature */
};

struct bound {
    struct quantity *quantity;
    bool over;                       /* more than it, not less */
};

struct condition_statement {
    struct statement base;
    struct material_words *subject;  /* a material or a role */
    enum relation relation;
    struct material_words *object;   /* NULL where the relation has none */
    struct bound *bound;             /* of the object, or of the subject when there is none, in g/L; °C of RELATION_AT; NULL: none */
};

/* shelf: holds NAME (FORM) 1 kg for 9.40 left 620 g opened DATE counted DATE best before DATE lot "…" from "…"; `sold` likewise */
struct holding_statement {
    struct statement base;
    struct material_words *material;
    struct quantity *pack;
    struct quantity *price;          /* NULL: not known */
    struct quantity *left;           /* NULL: full */
    struct text opened;
    struct span opened_span;
    struct text counted;             /* the day that `left` is of, where it is another than the shelf's */
    struct span counted_span;
    struct text best_before;
    struct span best_before_span;
    struct text lot;
    struct span lot_span;
    struct text supplier;
    double purity;                   /* %; NAN when not said */
    struct span purity_span;
    struct span twice_span;          /* the first thing that is said a second time; empty when nothing is */
};

/* shelf: bottle 6 of 1 L note "…" */
struct bottles_statement {
    struct statement base;
    double count;
    struct span count_span;
    struct quantity *volume;
    struct text note;
};

/* rule: holds MATERIAL RANGE [optional] */
struct usual_statement {
    struct statement base;
    struct material_words *material;
    struct quantity *range;
    bool optional;
};

/* rule: usual time 2 to 30 min; usual capacity 1 to 60 rolls per L; usual keeps 1 to 36 months in bottle; usual dilution 1+1 to 1+99 */
struct usual_use_statement {
    struct statement base;
    struct word *what;
    struct quantity *range;          /* NULL of a dilution */
    struct quantity *per;            /* or NULL */
    struct word *in;                 /* or NULL */
    struct ratio low;
    struct ratio high;
};

/* shelf: counted DATE; batch: mixed DATE; discarded DATE; used QUANTITY on DATE for QUANTITY */
struct dated_statement {
    struct statement base;
    struct text date;
    struct span date_span;
    struct quantity *quantity;       /* NULL: it went back into the bottle */
    struct quantity *goods;          /* what was processed, or NULL */
};

/* batch: took NAME QUANTITY of lot "…"; took "TITLE" QUANTITY of batch "…"; topped up QUANTITY of batch "…" on DATE */
struct took_statement {
    struct statement base;
    struct material_words *material; /* NULL where a title stands */
    struct text title;               /* of the formula that it is a solution of */
    struct span title_span;
    struct quantity *quantity;
    struct text lot, batch;          /* empty when not said */
    struct span from_span;           /* of either */
    struct text date;                /* topped up */
    struct span date_span;
};

/* batch: trial DATE film at 20 °C 9 min speed 200 grade 2 "verdict" */
struct trial_statement {
    struct statement base;
    struct text date;
    struct span date_span;
    struct word *use;                /* what was processed, or NULL */
    struct conditions of;
    struct text verdict;
};

/* process: wash 10 min, 3 L per min; wash 5 changes of 500 mL in 10 min */
struct wash_statement {
    struct statement base;
    struct quantity *time;           /* NULL: not said */
    struct quantity *changes;        /* NULL: in running water */
    struct quantity *filling;
    struct quantity *flow;           /* NULL: not said */
    struct quantity *flow_per;
    struct quantity *temperature;
};

/* process: replenish 20 mL per roll from "TITLE"; use: replenish 30 mL of "TITLE" per roll */
struct replenish_statement {
    struct statement base;
    struct quantity *quantity;
    struct quantity *per;
    struct text title;               /* empty: the bath's own stock */
    struct span title_span;
};

/* process: do "turn the reel under a lamp" 2 min */
struct task_statement {
    struct statement base;
    struct text text;
    struct span text_span;
    struct quantity *time;           /* NULL: outside the clock */
};

/* process: bath "TITLE" for film at 20 °C 9 min */
struct bath_statement {
    struct statement base;
    struct text title;
    struct span title_span;
    struct word *use;
    struct quantity *temperature;
    struct quantity *time;
};

struct declaration {
    struct declaration *next;
    enum declaration_kind kind;
    struct span span;                /* of the heading */
    struct text title;               /* in quotes */
    struct span title_span;
    struct text of;                  /* batch: the formula's title */
    struct span of_span;
    struct material_words name;      /* bare names: materials, units, stocks */
    struct strength strength;        /* stock */
    double number;                   /* element: atomic weight */
    struct unit_words *unit;
    const struct phrase_words *phrase;
    struct word *also;               /* element */
    struct text source;
    uint32_t title_hash;             /* of the title, by table_hash: worked out while it is at hand, since a large text is far away later */
    bool replacing;
    bool refused;                    /* it has lines that the grammar does not know (SAY_LINE) */
    bool broken;                     /* batch: a line of it could not be read, so that it may say too little */
    struct statement *statements;
    struct statement *last;
    const struct statement *last_property; /* the last line that the reading of the others depends on; NULL when there is none */
    struct source_file *file;
};

struct syntax_file {
    struct source_file *source;
    struct declaration *declarations;
    struct declaration *last;
    bool draws_on_formulas;          /* a line names another formula by its title */
    unsigned kinds;                  /* a bit for each kind that is among them: 1 << enum declaration_kind */
    struct span *comments;           /* in order */
    size_t comment_count;
    size_t comment_capacity;
};

/* The first declaration of a file that holds any of these kinds (bits as in syntax_file.kinds), else NULL: a file of ten thousand
 * formulas is not gone through for the shelves that are not in it. */
static inline const struct declaration *syntax_declarations(const struct syntax_file *file, unsigned kinds)
{
    return (file->kinds & kinds) != 0 ? file->declarations : NULL;
}

#endif
