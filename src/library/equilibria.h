/* Equilibria of ions in water: which ions take up or lose hydrogen ions, their constants, and how ions act on each other.
 *
 * Made from the `equilibrium` declarations when somebody first asks; a run that prints no estimate never reads them. */
#ifndef POTASH_LIBRARY_EQUILIBRIA_H
#define POTASH_LIBRARY_EQUILIBRIA_H

#include "library/library.h"

enum { MOST_PK_VALUES = 12 }; /* temperatures at which one constant is given */

/* A constant as it was published. */
struct pk_value {
    double pk;
    double temperature;        /* °C */
    double strength;           /* ionic strength that it holds at, mol/L; 0: none */
    const struct pk_statement *statement;
};

/* `count` of an acid become `gives` and `released` hydrogen ions; water takes part as needed. */
struct acid_step {
    const struct species *acid;
    const struct species *gives;
    double count;
    double released;
    struct pk_value values[MOST_PK_VALUES];
    size_t value_count;
    double enthalpy;           /* of dissociation at 25 °C, J/mol; NAN when unknown */
    double heat_capacity;      /* of dissociation, J/mol/K; 0 when unknown */
    double within;             /* how far the constant may be off; 0 when not said */
};

/* What an ion or a neutral molecule of a family holds of the family's first species, and of hydrogen ions beyond it. */
struct species {
    struct text formula;
    int charge;
    const struct equilibrium *family; /* NULL: inert */
    double units;
    double protons;
    bool linked;                      /* a chain of steps leads to it; else its constants are of no use */
    size_t place;                     /* in equilibria.species */
};

struct equilibrium {
    struct text name;
    const struct declaration *declaration;
    bool is_water;                    /* its acid is the solvent */
    struct species *first;            /* species [first, first + count) are its own */
    size_t count;
    struct acid_step *steps;
    size_t step_count;
};

/* Specific ion interaction coefficient of a cation and an anion, kg/mol. */
struct interaction {
    struct text cation;
    struct text anion;
    double coefficient;
};

struct equilibria {
    struct equilibrium *families;
    size_t family_count;
    struct species *species;          /* the families' and the inert ones */
    size_t species_count;
    struct interaction *interactions;
    size_t interaction_count;
    const struct equilibrium *water;  /* NULL when the library has none: then nothing can be reckoned */
};

/* All of them; what is wrong with a declaration is reported once. */
const struct equilibria *library_equilibria(struct library *library);

/* The ion or molecule of that formula; NULL when no equilibrium knows it. */
const struct species *equilibria_species(const struct equilibria *equilibria, struct text formula);

/* The coefficient of a cation and an anion, in either order.  Where none is declared, 0. */
double equilibria_interaction(const struct equilibria *equilibria, struct text one, struct text other);

/* The charge that an ion's formula ends in: -2 for "SO3--". */
int ion_charge(struct text formula);

#endif
