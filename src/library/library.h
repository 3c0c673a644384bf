/* What the compiler knows of the trade: units, elements, materials and their forms.
 *
 * All of it is read from `.bath` declarations: the texts that are built in, or those of a folder given in their place, and
 * the user's own.  The built-in ones are found by tables that are made when the program is built (library/tables.h), which nothing
 * writes to; a declaration is parsed when a session first asks for it, and what comes of it is that session's. */
#ifndef POTASH_LIBRARY_LIBRARY_H
#define POTASH_LIBRARY_LIBRARY_H

#include "base/names.h"
#include "source/diagnostics.h"
#include "syntax/tree.h"

#include <math.h>

/* ---- units ---- */

enum dimension {
    DIMENSION_NONE,
    DIMENSION_MASS,           /* g */
    DIMENSION_VOLUME,         /* mL */
    DIMENSION_SUBSTANCE,      /* mol */
    DIMENSION_PARTS,          /* part */
    DIMENSION_CONCENTRATION,  /* g/L */
    DIMENSION_MOLARITY,       /* mol/L */
    DIMENSION_TEMPERATURE,    /* °C */
    DIMENSION_TIME,           /* s */
    DIMENSION_LENGTH,         /* mm */
    DIMENSION_AREA,           /* cm2 */
    DIMENSION_COUNT,          /* sheet */
    DIMENSION_MONEY,          /* a currency's own unit */
    DIMENSION_DOSE,           /* mg/kg */
    DIMENSION_VOLUME_RATIO,   /* mL/L */
    DIMENSION_ENTHALPY,       /* kJ/mol */
    DIMENSION_HEAT_CAPACITY,  /* J/mol/K */
    DIMENSIONS
};

/* Of a set of dimensions. */
#define DIMENSION_BIT(dimension) (1u << (unsigned)(dimension))

enum measures { MEASURES_UNSTATED, MEASURES_METRIC, MEASURES_US, MEASURES_IMPERIAL };

struct unit {
    struct text name;
    enum dimension dimension;      /* of `factor`, or of the US and imperial factors */
    double factor;                 /* base units of the dimension in one; NAN when it depends on the measures */
    double us_factor;              /* NAN when the unit does not differ */
    double imperial_factor;
    double zero_at;                /* temperature: the reading at 0 °C; 0 otherwise */
    const struct unit *of_liquids; /* what the bare name means for liquids (oz -> fl oz), or NULL */
    const struct word *unclear;    /* the units that it may stand for; not NULL: it cannot be used */
    const struct word *mistaken;   /* the units that are written so by mistake, the likeliest first; or NULL */
    bool approximate;
    bool metric;                   /* a power of ten of the base unit, which nothing in an old table is */
    double smallest;               /* of money: the smallest coin, in the currency's own unit; 0 where none is declared */
    struct text source;
    const struct declaration *declaration;
};

/* ---- materials ---- */

struct form {
    struct name *name;         /* folded; NULL for the only, nameless form */
    struct name **others;      /* other names, folded */
    size_t other_count;
    struct text label;         /* as it is shown; empty when nameless */
    struct text chemical;      /* "Na2SO3.7H2O", or empty */
    double molar_mass;         /* g/mol of the whole, water of crystallisation included; NAN without a formula */
    double waters;             /* molecules of water in it */
    double percent;            /* strength in % w/w of the formula; 100 for what is pure */
    double density;            /* g/mL at 20 °C; NAN for solids */
    bool usual;
    struct text cas;
    struct text source;
    const struct form_statement *statement;
};

struct solubility {
    double grams;              /* of `form` that 100 mL of solvent take up */
    const struct form *form;
    double temperature;        /* °C */
    struct text solvent;       /* empty for water */
    bool freely;               /* miscible in every proportion: grams is not set */
    struct text source;
};

enum bath_strength { STRENGTH_ANY, STRENGTH_STOCK, STRENGTH_WORKING, STRENGTH_REPLENISHER };

struct typical_range {
    struct text kind;          /* kind of bath, folded */
    enum bath_strength strength;
    double low;                /* g/L of the usual form; mL/L of a liquid's */
    double high;
    bool by_volume;
    struct text source;
};

struct group_set;

struct library_entry;
struct library_key;
struct library_tables;
struct reactions;

struct material {
    struct text name;          /* library name */
    struct text *also;
    size_t also_count;
    struct text *roles;        /* folded */
    size_t role_count;
    struct form *forms;
    size_t form_count;
    const struct form *usual;
    bool liquid;               /* its forms have a density and are measured by volume */
    bool is_water;
    struct text stop;          /* of the gravest poisons and explosives: why nobody mixes with it unprepared; else empty */
    const struct library_entry *entry; /* where the library keeps it; its identity */
    size_t number;             /* of its entry: what others work out of materials is kept by it */
    const struct group_set *groups; /* library/groups.h: what it belongs to */
    struct solubility *solubilities;
    size_t solubility_count;
    struct typical_range *typical;
    size_t typical_count;
    const struct declaration *declaration;
};

/* A name as a person wrote it, understood: the material, and the form when the name held one ("anhydrous sodium sulfite"). */
struct material_reading {
    const struct material *material;
    const struct form *form;
};

/* ---- the library ---- */

enum { FIGURE_NAMES = 32 };

/* The name of a form that is a number: "28 %", "0.88". */
struct figure_name {
    double number;
    bool percent;
    struct name *name;
};

struct wording_set;

/* A wording of a file that was read. */
struct wording_source {
    const struct declaration *declaration;
    struct wording_source *next;
};

struct library {
    struct arena *arena;
    struct names *names;
    struct source_set *sources;
    struct diagnostics *diagnostics;
    const struct library_tables *tables; /* of what is built in (library/tables.h); NULL: nothing is */
    struct library_entry **built;        /* the entries of the tables that were asked for */
    struct source_file **built_files;
    struct library_key *keys[DECLARE_READ + 1]; /* what is not in the tables, for each kind by folded name */
    const struct reactions *relation;     /* of reactions, read from all of those; NULL until asked for (library/relation.h) */
    const struct equilibria *equilibria; /* read from all of those; NULL until asked for (library/equilibria.h) */
    struct wording_source *wording_sources; /* in the order in which they were read */
    const struct wording_set *wordings; /* compiled of those; NULL until a line asks for them (library/wordings.h) */
    struct library_entry *declared;    /* every declaration that is not in the tables, in order; chained by `next` */
    struct library_entry *last;
    struct library_entry *replaced;    /* entries of the tables in whose place something else stands; likewise */
    size_t declared_count;
    struct figure_name figure_names[FIGURE_NAMES];
    size_t near_searches;              /* searches for near misses so far */
    bool mistakes_known;               /* which materials are taken for which has been gathered */
};

/* With the built-in library. */
void library_start(struct library *library, struct arena *arena, struct names *names, struct source_set *sources,
                   struct diagnostics *diagnostics);

/* The same without any text: files of another library follow by library_add_file. */
void library_start_empty(struct library *library, struct arena *arena, struct names *names, struct source_set *sources,
                         struct diagnostics *diagnostics);

/* Forgets what the session has made of the built-in library, as long as nothing was added to it. */
void library_start_over(struct library *library);

/* Takes in the declarations of a parsed file: of a library's, or the user's own.  What is there already is
 * `declared-twice`, unless the declaration says that it replaces the library's. */
void library_add_file(struct library *library, const struct syntax_file *file);

/* Makes every declaration, or only those of the user's files, so that all mistakes in them are reported. */
void library_make_all(struct library *library, bool only_of_users);

const struct unit *library_look_up_unit(struct library *library, struct name *name);

/* The unit that a dimension is counted in: the first that is declared to measure it; NULL when there is none. */
const struct unit *library_base_unit(struct library *library, enum dimension dimension);

/* The unit's name behind a number: a word takes the plural ("grains"), a sign does not ("oz"). */
struct text library_unit_plural(struct library *library, const struct unit *unit);

/* The unit of weight that the bare name stands for where it is a solid's, by a name that means nothing else: oz av for oz.  NULL when
 * there is none. */
const struct unit *library_unit_of_weight(struct library *library, const struct unit *unit);

/* The units of these dimensions (DIMENSION_BIT of each) that a text or a bench mostly uses, as their declarations say, in their
 * order; up to `most`.  Returns how many. */
size_t library_usual_units(struct library *library, unsigned dimensions, const struct unit **found, size_t most);

const struct material_reading *library_look_up_material(struct library *library, struct name *name);

static inline const struct unit *library_unit(struct library *library, struct name *name)
{
    bool known = (name->looked_up & 1u << NAME_UNIT) != 0; /* as nearly always */
    return known ? name->meaning[NAME_UNIT] : library_look_up_unit(library, name);
}

static inline const struct material_reading *library_material(struct library *library, struct name *name)
{
    bool known = (name->looked_up & 1u << NAME_MATERIAL) != 0;
    return known ? name->meaning[NAME_MATERIAL] : library_look_up_material(library, name);
}

/* Parts "borax and sodium hydroxide" into the two materials, unless that is the name of one; whether it did. */
bool library_part_pair(struct library *library, struct material_words *first, struct material_words *second);

/* The form of `material` that is written so; NULL when it has none. */
const struct form *library_form(struct library *library, const struct material *material, const struct form_words *words);
const struct form *library_form_named(struct library *library, const struct material *material, struct name *name);

/* How many of an ion, such as "SO3--", one formula unit of the material gives by its `ions` declaration; 0 for none. */
double library_ion_count(const struct material *material, struct text formula);

/* How many ions of any kind a formula unit gives, by its `ions` declaration; 0 without one. */
double library_ion_total(const struct material *material);

/* The ions that a material gives.  *known: it says so; NULL and *known: it gives none. */
const struct ion *library_ions(const struct material *material, bool *known);

/* The ion that both materials give and that acts in them (carbonate, bromide, thiosulfate …); NULL when there is none. */
const struct ion *library_acting_ion(const struct material *from, const struct material *to);

/* Grams of `to` that hold as many moles as `grams` of `from` of the ion that both are used for (carbonate, bromide …), by their
 * `ions` declarations; of two forms of one material, of the substance itself.  *ion names it (empty for the substance) and
 * *moles says how much.  NAN when they share none, or a formula is unknown. */
double library_equivalent(const struct material *from, const struct form *from_form, const struct material *to,
                          const struct form *to_form, double grams, struct text *ion, double *moles);

/* The entry of a material by its folded name or another of its names, without reading its declaration; NULL when unknown. */
const struct library_entry *library_material_entry(struct library *library, struct text folded);

/* How many entries there are; their numbers are less. */
size_t library_entry_count(const struct library *library);

/* The number of an entry, which is its identity where no pointer is at hand. */
size_t library_entry_number(const struct library_entry *entry);

/* The material of the entry of that number; NULL when it cannot be read. */
const struct material *library_entry_material(struct library *library, size_t number);

/* Whether a rule of practice, or a reaction, has that folded name. */
bool library_has_rule(struct library *library, struct text folded);

/* Calls `visit` with the declaration of each rule of practice, in the order of the files. */
void library_each_rule(struct library *library, void (*visit)(void *context, const struct declaration *declaration),
                       void *context);

/* The same for the declarations of any kind that the library keeps. */
void library_each_declaration(struct library *library, enum declaration_kind kind,
                              void (*visit)(void *context, const struct declaration *declaration), void *context);

/* Whether a declaration of that kind is not of the tables, or stands in the place of one of theirs. */
bool library_declares(const struct library *library, enum declaration_kind kind);

/* What stands in the place of the built-in declaration of that number; NULL when nothing does. */
const struct declaration *library_replacement(const struct library *library, size_t number);

/* library_each_declaration for those alone that are neither in the tables nor in the place of one. */
void library_each_added(struct library *library, enum declaration_kind kind,
                        void (*visit)(void *context, const struct declaration *declaration), void *context);

/* The declaration of a hazard or precautionary statement by its code ("H302"), of a group of materials by its folded name;
 * NULL when there is none. */
const struct declaration *library_phrase(struct library *library, struct text code);
const struct declaration *library_group(struct library *library, struct text folded);

/* Calls `visit` for each material, in the order of the files. */
void library_each_material(struct library *library, void (*visit)(void *context, const struct material *material),
                           void *context);

/* Calls `visit` with each material that says that it is taken for this one, until it answers true; returns whether it did. */
bool library_each_mistaken(struct library *library, const struct material *material,
                           bool (*visit)(void *context, const struct material *other), void *context);

/* Base units of `dimension` in one `unit`, for a formula with these measures and a material that is liquid or not.
 * UNIT_NEEDS_MEASURES when US and imperial differ and neither is stated; UNIT_UNCLEAR when the name itself is. */
enum unit_answer { UNIT_GOOD, UNIT_NEEDS_MEASURES, UNIT_UNCLEAR };
struct unit_reading {
    enum unit_answer answer;
    enum dimension dimension;
    double factor;
    double zero_at;
    bool approximate;
    const struct unit *unit; /* the one that applied (fl oz for the oz of a liquid) */
};
struct unit_reading library_read_unit(const struct unit *unit, enum measures measures, bool liquid);

/* The measures that a folded word names ("us", "imperial"); MEASURES_UNSTATED when it names none. */
enum measures library_measures_named(struct text folded);

/* Whether there is but one reading of a unit, whatever the measures and the material. */
static inline bool library_unit_is_plain(const struct unit *unit)
{
    return unit->of_liquids == NULL && unit->unclear == NULL && isnan(unit->us_factor);
}

/* Library names near to a misspelt one, the nearest first; up to `most`.  Returns how many. */
/* A word, folded, that says nothing of what is weighed: "pure", "powdered". */
bool library_is_quality(struct text words);
/* Of the materials to follow, one that has a `stop` line is never among those found.  Where it is the likeliest, or the name has a
 * word that only such materials have, nothing is found, and *grave is its name; else that is empty. */
/* The known materials that a name cut short may stand for; 0 where there are none, or more than `most`
 * (8 at most).  Of a lone word, as "bromide", the first of those that have it are told. */
size_t library_abbreviated_materials(struct library *library, struct text spelling, struct text *found, size_t most, struct text *grave);
size_t library_near_materials(struct library *library, struct text spelling, struct text *found, size_t most, struct text *grave);
/* Only units of these dimensions, DIMENSION_BIT of each. */
size_t library_near_units(struct library *library, struct text spelling, unsigned dimensions, struct text *found, size_t most);
/* Whether `known` may be what was meant by `wanted`, and by how many half slips they differ.  A search through many texts is
 * counted in library->near_searches by its caller. */
bool library_near_text(struct library *library, struct text wanted, struct text known, int *distance);
const struct form *library_near_form(struct library *library, const struct material *material, struct text spelling);

/* Molar mass, g/mol, of a chemical formula such as KAl(SO4)2.12H2O, by the `element` declarations; *waters gets the
 * molecules of crystal water.  NAN when it cannot be read; *fault then gets the offset. */
double library_molar_mass(struct library *library, struct text chemical, double *waters, size_t *fault);

extern const char *const dimension_names[DIMENSIONS];
extern const char *const dimension_phrases[DIMENSIONS]; /* with their articles: "an area" */

#endif
