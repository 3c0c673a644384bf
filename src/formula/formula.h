/* The checked form: a formula with its names resolved and its amounts in base units, as written (not yet scaled).
 *
 * g, mL, mol, s and °C in doubles; nothing is rounded here.  What could not be understood has been reported and is left
 * out; `faulty` then says that the formula must not be used.  Once it is checked, nothing changes it: its parts, steps and uses are
 * constant to all but the checker (formula/checking.h), and a report at another size reads a batch (batch/batch.h). */
#ifndef POTASH_FORMULA_FORMULA_H
#define POTASH_FORMULA_FORMULA_H

#include "library/measure.h"

#include <stdarg.h>

enum step_kind { STEP_ADDITION, STEP_PINCH, STEP_COOL, STEP_WARM, STEP_STAND, STEP_FILTER, STEP_DO };

enum addition_kind {
    ADD_BY_MASS,     /* weighed */
    ADD_BY_VOLUME,   /* a liquid, measured */
    ADD_STOCK,       /* a solid or liquid taken as a stock solution */
    ADD_WATER,       /* a plain volume of water */
    ADD_TO_MAKE,     /* water, or another solvent, up to the final volume */
    ADD_AS_NEEDED,
    ADD_SOLUTION     /* some of another part or formula */
};

struct part;
struct formula;

struct step {
    const struct step *next;
    struct span span;               /* the line */
    struct span amount_span;        /* the amount in it, empty when there is none */
    enum step_kind kind : 8;
    enum addition_kind how : 8;     /* additions */
    enum percent_basis basis : 8;   /* of the stock */
    bool form_assumed;              /* no form was written and the material has several */
    bool approximate;               /* counted in drops or spoons */
    bool from_parts;                /* written in parts: 1 part taken as 1 g or 1 mL */
    const struct material *material; /* NULL for a solution */
    const struct form *form;
    double mass;                    /* g of `form`; NAN for water and where it cannot be known */
    double volume;                  /* mL measured out; NAN for what is weighed */
    double high;                    /* upper end of a range over its lower end; 1 when it is none */
    double stock_percent;           /* NAN when it is no stock */
    double temperature;             /* °C; NAN when none is given; for cool and warm the aim */
    double duration;                /* s; stand */
    const struct tails *tails;      /* optional, note, place; or NULL */
    union {
        struct text text;           /* do */
        struct {
            const struct part *solution;       /* ADD_SOLUTION; NULL otherwise */
            const struct formula *solution_of; /* the formula that `solution` belongs to */
        };
    };
    const struct statement *statement;
};

struct keeping {
    struct keeping *next;
    struct keeping *last;           /* of the chain, in its first link (base/chain.h); so below */
    double duration;                /* s, with mean months */
    double months;                  /* of the calendar, in it */
    struct text in;                 /* "full bottle", or empty */
    struct span span;
    struct span amount_span;
};

struct remark {
    struct remark *next;
    struct remark *last;
    struct text text;
};

struct part {
    const struct part *next;
    struct name *name;              /* NULL for a formula of one part */
    struct span span;               /* its heading, or the formula's */
    const struct step *steps;             /* in mixing order */
    struct step *last;
    double makes;                   /* mL; NAN when unknown or a dry mix */
    double after_mark;              /* mL that what is added after the water to make brings on top of that; 0 where it hardly shows */
    double makes_mass;              /* g of a dry mix; NAN otherwise */
    bool makes_assumed;             /* no final volume was stated */
    struct keeping *keeps;
    struct remark *notes;
    bool used;                      /* a use or another part draws on it */
    size_t opened;                  /* its additions, with those of the solutions in it; 0 before they were counted */
    int levels;                     /* solutions within solutions under it */
};

struct mix_share {
    const struct mix_share *next;
    const struct part *part;        /* NULL for water and other materials */
    const struct material *material;
    const struct form *form;
    double amount;                  /* parts, or mL when `by_volume` */
    bool by_volume;
    struct span span;
};

/* A time and what it holds for: a row of a use's table, or what was tried.  NAN: not said. */
struct time_row {
    const struct time_row *next;
    double time[2];                 /* s */
    double temperature;             /* °C; of a use's rows that say none: the use's */
    double temperature_high;
    const struct quantity *temperature_words; /* as it was written; NULL when it was not */
    double speed;                   /* film speed index */
    double contrast;                /* contrast index of a negative */
    double grade;                   /* of the paper */
    double stock_parts;             /* likewise the use's where the row says none */
    double water_parts;
    const struct ratio *ratio;      /* the row's own; NULL when it says none */
    struct span span;
    struct span time_span;
};

/* A bath of one part alone, where the parts of a use follow each other. */
struct pour {
    const struct pour *next;
    const struct part *part;
    struct time_row of;             /* its time and temperature */
};

struct use {
    const struct use *next;
    struct text name;               /* "film" */
    struct span span;
    double stock_parts;             /* 1 of 1+29; NAN when it is not diluted but mixed, or nothing is said */
    double water_parts;
    double water_parts_high;        /* of a range of dilutions; NAN otherwise */
    const struct ratio *ratio;      /* the line of `dilute`; NULL when there is none */
    struct span dilution_span;      /* the line that says it */
    const struct mix_share *mix;
    struct mix_share *last_share;
    const struct pour *pours;       /* one after the other, in place of a mixture */
    struct pour *last_pour;
    double temperature;             /* °C of the first row of `times`, or of the use without any; NAN when none */
    double temperature_high;
    const struct quantity *temperature_words; /* as it was written; NULL when it was not */
    const struct time_row *times;
    struct time_row *last_time;
    double time[2];                 /* s of the first row; NAN when none */
    struct text agitation;
    double needs;                   /* mL of stock that one `needs_per` must have; NAN when none */
    struct name *needs_per;
    double needs_area;              /* cm2 of one of them, NAN when unknown */
    double capacity;                /* counted goods that `capacity_per` mL do; NAN when none */
    struct name *capacity_of;       /* "rolls", "sheets" */
    const struct sheet_size *capacity_size;
    double capacity_area;           /* cm2 of one, NAN when unknown */
    double capacity_per;            /* mL */
    struct span capacity_span;
    double coefficient;             /* factor of the time per coefficient_per °C; NAN when none */
    double coefficient_per;
    double replenish;               /* mL for one `replenish_per`; NAN when none */
    const struct quantity *replenish_per;
    double replenish_area;          /* cm2 of one of them, NAN when unknown */
    struct text replenisher;        /* title; empty: the bath's own stock */
    struct remark *notes;
    struct keeping *keeps;
};

/* A rule of practice that is turned off, by its name. */
struct silenced_rule {
    struct silenced_rule *next;
    struct text name;               /* folded */
    struct text shown;              /* as it was written */
};


struct formula {
    struct formula *next;
    struct text title;
    const struct declaration *declaration;
    const struct statement *statements; /* the declaration's; of a variant: its parent's with the changes worked in */
    struct text kind;               /* "developer"; empty when not said */
    struct span kind_span;
    struct word *purposes;          /* for */
    enum measures measures;
    const struct part *parts;
    size_t part_count;
    const struct use *uses;
    struct use *last_use;
    struct text source;             /* after "…"; empty when not said */
    struct remark *notes;
    struct keeping *keeps;
    bool silenced[DIAGNOSTIC_IDS];
    struct silenced_rule *silenced_rules;
    bool faulty;
    struct formula *variant_of;
    int level;                      /* variants of variants: 1 for one of a formula */
    struct said *said;              /* table of what has been said of it (formulary.c) */
    bool said_is_kept;              /* there are variants, which do not say the same again */
    bool practised;                 /* the checks of practice have been run */
    bool being_checked;
    bool scratch;                   /* reckoned with in passing: nothing is said of it */
};

/* A stock solution that is kept on the shelf. */
struct stock {
    struct stock *next;
    struct stock *last;
    const struct declaration *declaration;
    const struct material *material;
    const struct form *form;
    double percent;
    enum percent_basis basis;
    bool saturated;
    struct text solvent;            /* empty for water */
    struct keeping *keeps;
    struct remark *notes;
};

/* What is compiled together. */
/* A line that was read by a wording, and the lines that stand for it. */
struct line_read {
    struct span typed;
    const char *text;
    struct line_read *next;
};

struct formulary {
    struct arena *arena;
    struct arena *forms;            /* for parts, steps and uses; another than `arena` where no form is asked for once it was looked at */
    struct names *names;
    struct source_set *sources;
    struct diagnostics *diagnostics;
    struct library *library;
    struct formula *formulas;       /* in the order of the files */
    struct formula *last;
    size_t formula_count;
    struct stock *stocks;
    struct title_entry *titles;     /* table by title */
    struct silenced_rule *silenced_rules;
    int depth;                      /* formulas that are being checked for the sake of another */
    struct line_read *read_lines;   /* the last first */
    bool draws_on_formulas;         /* what a wording stands for does: from then on no form is forgotten */
};

void formulary_start(struct formulary *formulary, struct library *library);

/* Takes in the formulas, variants and stocks of a parsed file; they are checked by formulary_check. */
void formulary_add_file(struct formulary *formulary, const struct syntax_file *file);

/* Checks everything that was taken in, the stocks first.  `then`, unless NULL, is called with each formula once it is checked, and
 * while it is at hand: going through all of them a second time would fetch everything from memory anew.  Where the forms have an
 * arena of their own, a formula has none after that. */
void formulary_check(struct formulary *formulary, void (*then)(void *context, struct formula *formula), void *context);

/* Adds and checks the formulas that are chained from `declaration` on, none of which any other draws on; they lie in `arena` themselves,
 * and nothing of them but their titles is kept. */
void formulary_check_piece(struct formulary *formulary, struct declaration *declaration, struct arena *arena,
                           void (*then)(void *context, struct formula *formula), void *context);

/* The formula with that title; NULL when there is none. */
struct formula *formulary_find(struct formulary *formulary, struct text title);

/* The title nearest to a misspelt one; empty when none is near. */
struct text formulary_near_title(const struct formulary *formulary, struct text title);

/* One past the last byte of a declaration: where the next one of its file begins. */
uint32_t declaration_end(const struct declaration *declaration);

/* Adds a diagnostic about a formula unless it silences it.  What is said of a line that a variant has from its parent is not said
 * again; what holds for the variant only is said on its title, and without repairs, since the line is not its own.  NULL when
 * nothing is said. */
struct diagnostic *formula_say(struct diagnostics *diagnostics, struct formula *formula, enum diagnostic_id id,
                               struct span span, const char *format, va_list arguments) __attribute__((format(printf, 5, 0)));

/* "phenidone 1 % stock". */
struct text stock_title(struct arena *arena, const struct stock *stock);

/* A stock as a formula that makes 100 mL of it; NULL when its declaration is faulty. */
const struct formula *stock_formula(struct formulary *formulary, const struct stock *stock);

/* The declared stock that a step draws on; NULL when none of that strength is declared. */
const struct stock *formulary_stock(const struct formulary *formulary, const struct step *step);

/* ---- reading the checked form ---- */

static inline bool step_is_addition(const struct step *step)
{
    return step->kind == STEP_ADDITION;
}

/* The amount of an addition as it was written; NULL where it is none, as in "as needed". */
const struct quantity *step_quantity(const struct step *step);

/* The same read again, with its unit and its spans; MEASURE_REFUSED where there is none. */
struct measure step_measure(struct library *library, const struct formula *formula, const struct step *step);

/* Offers to write a unit that is meant in the place of another, as the library's line `mistaken for` spells it. */
void formula_offer_unit(struct formulary *formulary, struct diagnostic *diagnostic, struct span span, const struct word *meant);

/* Moles of the substance in an addition; NAN when its formula or amount is unknown. */
double step_moles(const struct step *step);

/* Grams of the pure substance (crystal water included as the form has it) in an addition; NAN when unknown. */
double step_substance(const struct step *step);

/* Grams of `to` that hold as many moles as `grams` of `from`; NAN when either has no formula. */
double form_equivalent(const struct form *from, const struct form *to, double grams);

/* Grams of the material's usual form that 100 mL of water dissolve at `temperature` °C, between the library's figures or at
 * the nearest one; NAN when the library has none, INFINITY for what mixes freely. */
double material_solubility(const struct material *material, double temperature);

/* The same by another reading of the library's figures: what `grams` makes of one.  Between two figures the logarithm of the amount is
 * taken to be linear in 1/T (van 't Hoff's equation with a constant enthalpy of solution). */
double material_solubility_between(const struct material *material, double temperature,
                                   double (*grams)(const struct material *material, const struct solubility *figure));

/* mL that a gram of what is dissolved takes up in the solution (common practice, no source): 36 g of sodium chloride in 100 mL of
 * water give 31.9 g in 100 mL, where handbooks have 31.7. */
#define DISSOLVED_VOLUME 0.36

/* Grams in 100 mL of a saturated solution at 20 °C, an estimate; NAN when the solubility is unknown. */
double material_saturated_percent(const struct material *material, const struct form *form);

/* mL that are measured out for an addition; of what makes up to the final volume as much as is left to add when its turn comes.
 * NAN for what is weighed. */
double step_poured(const struct part *part, const struct step *step);

/* mL that a part really comes to: what it makes, and what is added after the mark.  NAN when that is unknown, or it is a dry mix; so below. */
static inline double part_volume(const struct part *part)
{
    return part->makes + part->after_mark;
}

/* So much of a part, in a litre of it. */
static inline double part_per_litre(const struct part *part, double amount)
{
    return amount / (part_volume(part) / 1000);
}

/* The share of a part that so many mL of it are. */
static inline double part_share(const struct part *part, double millilitres)
{
    return millilitres / part_volume(part);
}

/* mL that an addition takes up in the bath, dissolved where it is a solid; 0 for what makes up to the mark, and where it is not known. */
double step_room(const struct step *step);

/* How many uses it has. */
static inline size_t formula_use_count(const struct formula *formula)
{
    size_t count = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        count++;
    }
    return count;
}

/* The part that a dilution speaks of: the only one, or the one that nothing else draws on.  NULL when that is not one. */
const struct part *formula_bath_part(const struct formula *formula);

/* Share of a part's liquid in the working solution of a use, 0 to 1; 0 when it is not in it. */
double use_share(const struct use *use, const struct formula *formula, const struct part *part);

/* So much of a material: g of `form`. */
struct content {
    struct content *next;
    const struct material *material;
    const struct form *form;
    double grams;
};

/* The first addition of a material to a part, or to a solution that it takes in (however little, and as needed too); NULL when
 * there is none.  For a solution it is the line that takes it in. */
const struct step *part_find(const struct part *part, const struct material *material);

/* What a part holds as it is made, in the order of mixing; solutions that it takes in are counted through, water is left out. */
struct content *part_contents(struct arena *arena, const struct part *part);

/* The same for a litre of the working solution of a use; empty when its mixture is not known. */
struct content *use_contents(struct arena *arena, const struct formula *formula, const struct use *use);

/* Total of parts in a use's mixture: 30 of 1+29; NAN when nothing is said or it is given by volumes of unlike kind. */
double use_total_parts(const struct use *use);

#endif
