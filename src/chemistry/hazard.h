/* The hazards of a mixture by the calculation methods of the UN GHS as Regulation (EC) No 1272/2008 ("CLP"), Annex I, has
 * them, and the label that follows from them.
 *
 * Classes, specific limits, M factors and toxicities of the substances are declarations of the library; what stands here is
 * the method.  Percentages are by weight.  Everything lives in the arena that is handed in; nothing fails but by running
 * out of memory. */
#ifndef POTASH_CHEMISTRY_HAZARD_H
#define POTASH_CHEMISTRY_HAZARD_H

#include "chemistry/estimate.h"
#include "chemistry/mixture.h"

/* ---- classes ---- */

/* Ways that acute toxicity is reckoned for: mg/kg, mg/kg, ppm by volume, mg/L, mg/L. */
enum hazard_route { ROUTE_ORAL, ROUTE_DERMAL, ROUTE_GAS, ROUTE_VAPOUR, ROUTE_DUST, ROUTES };

/* What is classed for itself; of one family a mixture has the most severe class. */
enum hazard_family {
    FAMILY_EXPLOSIVE, FAMILY_FLAMMABLE_LIQUID, FAMILY_FLAMMABLE_SOLID, FAMILY_PYROPHORIC, FAMILY_SELF_HEATING,
    FAMILY_WATER_REACTIVE, FAMILY_OXIDISING_LIQUID, FAMILY_OXIDISING_SOLID, FAMILY_METAL_CORROSIVE,
    FAMILY_ORAL, FAMILY_DERMAL, FAMILY_INHALATION, FAMILY_SKIN, FAMILY_EYE, FAMILY_AIRWAYS_SENSITISER,
    FAMILY_SKIN_SENSITISER, FAMILY_MUTAGEN, FAMILY_CARCINOGEN, FAMILY_REPRODUCTION, FAMILY_LACTATION,
    FAMILY_ORGAN_ONCE, FAMILY_AIRWAYS_IRRITANT, FAMILY_NARCOTIC, FAMILY_ORGAN_REPEATED, FAMILY_ASPIRATION,
    FAMILY_AQUATIC_ACUTE, FAMILY_AQUATIC_CHRONIC, FAMILY_SUPPLEMENT /* EUH statements: no class */, FAMILIES
};

enum hazard_signal { SIGNAL_NONE, SIGNAL_WARNING, SIGNAL_DANGER };

/* A class and category with what the label shows for it. */
struct hazard_class {
    const char *hazard;     /* "Acute Tox. 4" */
    const char *code;       /* "H302"; codes such as H360FD begin with it */
    enum hazard_family family;
    int rank;               /* within the family, 1 the most severe */
    const char *pictogram;  /* "GHS07"; NULL: none */
    enum hazard_signal signal;
};

/* The class with that name and code; a bare EUH code has an empty name.  NULL when there is none. */
const struct hazard_class *hazard_class_find(struct text hazard, struct text code);

/* ---- substances ---- */

/* Where a class comes from, by the source of its line. */
enum hazard_basis {
    BASIS_NONE,       /* no source is named, or what counts is no class: a pH */
    BASIS_REGULATION, /* Regulation (EC) No 1272/2008, Annex VI */
    BASIS_LIST,       /* another published list or card */
    BASIS_SUPPLIER,   /* a supplier's safety data sheet */
    BASIS_LIKENESS,   /* what is classed so has the same ion */
    BASIS_PRACTICE,
    BASIS_MEMORY
};

/* "Annex VI", "supplier's sheet", "memory" …; empty for none. */
struct text hazard_basis_words(enum hazard_basis basis);

struct hazard_entry {
    const struct hazard_class *class;
    struct text code;       /* as declared: "H360FD" */
    enum hazard_basis basis;
};

struct hazard_limit {
    const struct hazard_class *class;
    struct text code;
    enum hazard_basis basis;
    double from;            /* %; 0 when open */
    double to;              /* %; INFINITY when open */
};

/* What the library says of a substance. */
struct hazard_data {
    struct text name;
    bool stated;            /* something is said, if only that no hazard is known */
    enum hazard_basis basis; /* of `hazard none` */
    struct text stop;       /* why nobody handles it unprepared; empty for all but the gravest */
    struct hazard_entry *entries;
    size_t entry_count;
    struct hazard_limit *limits;
    size_t limit_count;
    double m_acute;         /* M factors; 1 when none is given */
    double m_chronic;
    double heat;            /* kJ that a mole gives off as it dissolves; NAN when the library has no figure */
    double toxicity[ROUTES]; /* acute toxicity estimates; NAN: the category's point estimate, or none */
    enum hazard_route inhaled; /* what an inhalation category without a figure is about */
    struct text not_understood; /* the code of a `hazard` line that names no class; empty when there is none */
    bool extreme_ph;        /* an acid of pH 2 or less, or a base of 11.5 or more */
    bool acid;              /* by its role */
    bool alkali;
    bool boron;             /* counted together for reproduction: Annex VI, note 11 */
};

/* Data of a material; made anew at each call. */
const struct hazard_data *hazard_data_of(struct arena *arena, struct library *library, const struct material *material);

struct ingredient {
    const struct hazard_data *data;
    double percent;         /* w/w of the substance as its classification means it */
    bool toxicity_unknown[ROUTES]; /* nothing is known of it by that way, so that the estimate leaves it out */
};

/* ---- mixtures ---- */

struct hazard_cause {
    struct hazard_cause *next;
    struct text material;
    double percent;           /* NAN: it goes in in an amount that is not stated */
    enum hazard_basis basis;
};

/* An ingredient that is among the gravest poisons and explosives. */
struct hazard_stop {
    struct hazard_stop *next;
    struct text material;
    struct text words;
};

/* A class of the mixture, with the rule and the ingredients that led to it. */
struct hazard_result {
    struct hazard_result *next;
    const struct hazard_class *class;
    struct text hazard;     /* "Skin Irrit. 2"; empty for a supplementary statement */
    struct text code;       /* "H315" */
    struct text rule;       /* in words, with the place in the Regulation */
    struct hazard_cause *because;
    bool omitted;           /* its statement gives way to another's on the label */
};

struct safety_statement {
    struct safety_statement *next;
    struct text code;       /* "H302+H312" where the standard joins them */
    struct text text;       /* ready to print, without a stop at its end */
};

enum { MOST_PICTOGRAMS = 9 };

struct safety_pictogram {
    struct text code;       /* "GHS07" */
    struct text name;       /* what it shows: "exclamation mark" */
};

/* How acid or alkaline a mixture is: its pH, and what it takes to bring it to pH 4 or 10, in grams of sodium hydroxide, or its
 * equal in acid, to 100 g of it (Young, How, Walker and Worth, Toxicology in Vitro 2 (1988) 19).  Each NAN where it is not known. */
struct hazard_acidity {
    double ph;
    double reserve;
};

struct mixture_safety {
    const struct mixture *mixture;
    struct hazard_cause *unassessed; /* ingredients of whose hazards, or amount, nothing is known; NULL: all are assessed */
    struct hazard_stop *stops;
    struct hazard_result *classes; /* in the order of the Regulation: physical, health, environment, supplementary */
    enum hazard_signal signal;
    struct text signal_word;       /* "Danger", "Warning"; empty for none */
    struct safety_pictogram pictograms[MOST_PICTOGRAMS];
    size_t pictogram_count;
    struct safety_statement *hazards;     /* as a label prints them */
    struct safety_statement *precautions; /* a choice of about six */
    double unknown_percent[ROUTES];       /* of unknown acute toxicity, where the label has to say so (1 % or more); else 0 */
    struct hazard_acidity acidity;        /* that was calculated with */
};

/* The classes of ingredients that make up 100 % (what is missing is taken as harmless), without a label; `liquid` is false for a
 * dry mix. */
struct hazard_result *hazard_classify(struct arena *arena, const struct ingredient *ingredients, size_t count,
                                      struct hazard_acidity acidity, bool liquid);

/* Whether an extreme pH makes corrosive by its reserve as well, and by which sum: pH + reserve/12 from 14.5 on, pH - reserve/12
 * down to -0.5 (Young and others, 1988; Guidance on the Application of the CLP Criteria, 3.2.3.1.2). */
bool hazard_acidity_is_extreme(struct hazard_acidity acidity);
bool hazard_acidity_corrodes(struct hazard_acidity acidity, double *sum);

/* The same with the label: the signal word, pictograms and statements of the classes. */
struct mixture_safety *hazard_label(struct arena *arena, struct library *library, struct hazard_result *classes);

/* The words of a statement: the choice that the library made where the standard leaves one, else the standard's own; and
 * whether a precautionary statement answers to one of these hazards. */
struct text phrase_words(const struct declaration *phrase);
bool phrase_answers(const struct declaration *phrase, const struct hazard_result *results);

/* All of it for a part as it stands in its bottle (liquid, or a dry mix), and for the working solution of a use, by the estimate of its
 * pH.  NULL when nothing can be said, since what it makes is not known. */
struct mixture_safety *safety_of_part(struct arena *arena, struct formulary *formulary, const struct part *part, const struct estimate *estimate);
struct mixture_safety *safety_of_use(struct arena *arena, struct formulary *formulary, const struct formula *formula,
                                     const struct use *use, const struct estimate *estimate);

/* All that there is to handle of a formula, each worked out once.  The arrays are in the order of the parts and of the uses. */
struct solutions {
    const struct estimate *part_estimates;
    const struct estimate *use_estimates;
    const struct mixture_safety **parts; /* NULL where nothing can be said */
    const struct mixture_safety **uses;
    const struct mixture_safety *whole;  /* in its bottles: the most severe of its parts; NULL likewise */
};

struct solutions solutions_of_formula(struct formulary *formulary, const struct formula *formula);

#endif
