/* For the files that check formulas. */
#ifndef POTASH_FORMULA_CHECKING_H
#define POTASH_FORMULA_CHECKING_H

#include "base/chain.h"
#include "base/table.h"
#include "formula/formula.h"

#include <math.h>
#include <stdint.h>

struct title_entry {
    struct formula *formula;        /* NULL where it is not kept */
    struct span title_span;
    UT_hash_handle hh;
};

/* Variants of variants and solutions of solutions are followed so far: the checking of one waits for that of the next. */
enum { CHECK_DEEPEST = 64 };

/* Parts and uses of one formula: each use is looked at for each part. */
enum { CHECK_MOST_PARTS = 1000, CHECK_MOST_USES = 1000 };

/* The formula that is being checked. */
struct checker {
    struct formulary *formulary;
    struct library *library;
    struct diagnostics *diagnostics;
    struct arena *arena;
    struct arena *forms;                /* for the checked form itself */
    struct formula *formula;
    struct part *part;                  /* open part */
    struct use *use;                    /* open use, or NULL */
    const struct statement *use_lines[SAY_REPLENISH - SAY_DILUTE + 1]; /* its lines, each where it was said first */
    struct span measures_span;          /* of the line that says whose they are; empty when none does */
    const struct statement *makes;      /* `makes`, or NULL */
    double makes_volume;                /* mL, g; NAN when not said */
    double makes_mass;
    bool line_lost;                     /* a line that may have been the water could not be read */
    bool told_of_measures;              /* one missing `measures` is one mistake */
    enum dimension wanted;              /* of the amount that is being read, or DIMENSION_NONE for whatever can be added */
    size_t use_count;
    bool too_many_parts;            /* which has been reported */
    bool too_many_uses;
};

/* A part, a step or a use of the formula that is being checked.  To everybody else the checked form is constant; these are what the checker
 * itself has made, and none of them was defined as constant. */
static inline struct part *check_open_part(const struct part *part)
{
    return (struct part *)part;
}

static inline struct step *check_open_step(const struct step *step)
{
    return (struct step *)step;
}

static inline struct use *check_open_use(const struct use *use)
{
    return (struct use *)use;
}

/* Reads an amount of something that is liquid or not; reports what is wrong with it, which its `fault` tells. */
struct measure check_quantity(struct checker *checker, const struct quantity *quantity, bool liquid);

/* The same where the name before it is not known: what has no unit, nor a slip of the pen for one, is no amount, and nothing is
 * said of it. */
struct measure check_quantity_of_unknown(struct checker *checker, const struct quantity *quantity, bool liquid);

/* Whether `other` is the amount of `first` in other units; reported where it is not, with a repair that keeps each. */
bool check_same_amount(struct checker *checker, const struct measure *first, struct span first_span, const struct quantity *other,
                       struct span other_span, bool liquid);

/* The same, for an amount that must be a time, a temperature, a volume …; not good otherwise. */
struct measure check_quantity_of(struct checker *checker, const struct quantity *quantity, enum dimension dimension,
                                 const char *example);

/* Adds a diagnostic unless the formula or the run silences it. */
struct diagnostic *check_say(struct checker *checker, enum diagnostic_id id, struct span span, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Reports a line that says again what an earlier one has said: "the kind of bath is". */
void check_say_twice(struct checker *checker, const struct statement *statement, const char *what, struct span first);

/* Whether a figure stands between the name and the amount that belongs to neither, which is reported: "1 000 g". */
bool check_two_figures(struct checker *checker, const struct material_words *words);

/* Reads the lines of a declaration that the grammar does not know (reading_lines.c). */
void formula_read_lines(struct formulary *formulary, struct declaration *declaration);

/* The same for a line that reads as an addition of a material that nobody knows.  True when what it means follows it in the tree now, or
 * has been offered: then it is not an addition. */
bool formula_read_addition(struct checker *checker, const struct addition_statement *addition);

/* The material and form of a name; false when unknown, which is reported (*material stands where only the form is not known).
 * *form is NULL when none is written. */
bool check_material(struct checker *checker, const struct material_words *words, const struct material **material,
                    const struct form **form, double *temperature);

/* Warns that the form was assumed, with what the step would weigh in the others. */
void check_say_form_unstated(struct checker *checker, const struct step *step, const struct material_words *words);

/* Whether the name is a material's with a unit behind it, and the amount has none: "hydroquinone gr. 8", which is reported. */
bool check_unit_first(struct checker *checker, const struct material_words *words, const struct amount_words *amount);

/* Whether an amount is more than nothing and no more than anybody mixes; reported otherwise. */
bool check_amount_in_range(struct checker *checker, const struct step *step, const struct measure *reading);

/* How warm an addition is, from what stands behind it. */
void check_step_temperature(struct checker *checker, struct step *step, const struct tails *tails);

/* The addition in the notation's own order where print has another; the same one where nothing has to be turned. */
const struct addition_statement *check_as_printed(struct checker *checker, const struct addition_statement *statement);
void check_addition(struct checker *checker, const struct addition_statement *statement);
void check_solution(struct checker *checker, const struct solution_statement *statement);
/* Reads what a time holds for; what is refused is reported and stays NAN. */
void check_conditions(struct checker *checker, const struct conditions *conditions, struct time_row *row);
/* Whether parts of stock and of water can be meant by it; reported otherwise. */
bool check_ratio(struct checker *checker, const struct ratio *ratio);
void check_time(struct checker *checker, struct use *use, const struct time_statement *statement);
void check_pour(struct checker *checker, struct use *use, const struct pour_statement *statement);
/* What the lines of a use say together, once all of them are read. */
void check_times(struct checker *checker, struct use *use);
void check_use_statement(struct checker *checker, const struct statement *statement);
void check_part_volume(struct checker *checker, struct part *part);
/* Says so, and is true, where `makes 5 oz` stands over nothing but solids: a weight, or the volume of a solution. */
bool check_ounces_of_dry_mix(struct checker *checker, const struct quantity *quantity);
void check_mixtures(struct checker *checker);
void check_formula(struct formulary *formulary, struct formula *formula);

/* The checked form of formula->statements. */
void check_statements(struct formulary *formulary, struct formula *formula);

/* Gives a variant its statements; false when its parent cannot be had, which is reported. */
bool check_derive(struct checker *checker, struct formula *variant);

/* A step of which nothing is known yet, at the end of a part. */
struct step *part_add_step(struct arena *arena, struct part *part, enum step_kind kind, struct span span);

/* The same for a statement, at the end of the open part. */
struct step *check_new_step(struct checker *checker, enum step_kind kind, const struct statement *statement);
/* Says that the checker's formula has no part of that name, and which it has. */
void check_say_unknown_part(struct checker *checker, const struct name *name, struct span span);

/* Reads what bears on the reading of the other statements, wherever it stands. */
void check_properties(struct checker *checker);

struct part *check_find_part(const struct formula *formula, const struct names *names, struct name *name);
struct keeping *check_keeping(struct checker *checker, const struct quantity_statement *statement);

void check_stock(struct formulary *formulary, struct stock *stock);

/* Reports what there is too much of in one formula; once, which `*told` keeps. */
void check_say_too_many(struct checker *checker, struct span span, const char *what, int most, bool *told);

#endif
