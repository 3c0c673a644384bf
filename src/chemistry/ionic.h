/* Ionic equilibrium: what the ions and molecules of a solution become, and its pH.
 *
 * Pure functions of amounts in moles per kilogram of water, the temperature and the library's constants. */
#ifndef POTASH_CHEMISTRY_IONIC_H
#define POTASH_CHEMISTRY_IONIC_H

#include "library/equilibria.h"

/* So many moles of a species are put into a kilogram of water. */
struct ionic_amount {
    const struct species *species;
    double molality;
};

enum ionic_status {
    IONIC_SOLVED,
    IONIC_UNSETTLED /* the activity coefficients did not settle */
};

/* What there is of a species at equilibrium. */
struct ionic_share {
    const struct species *species; /* NULL for the free hydrogen ion */
    double charge;
    double molality;
    double log_activity_coefficient;
};

struct ionic_state {
    enum ionic_status status;
    double pH;                /* -log10 of the activity of the hydrogen ion */
    double ionic_strength;    /* mol/kg */
    double total_ions;        /* mol/kg of charged particles */
    double buffer_capacity;   /* mol/kg of strong base for a unit of pH */
    double reserve;           /* mol/kg of strong acid or base that bring it to pH 10 or pH 4; 0 between these */
    double residual;          /* what is left of the balance of charges, mol/kg */
    int rounds;               /* of activity coefficients */
    const struct ionic_share *shares;
    size_t share_count;
};

/* Above this ionic strength, mol/kg, the interaction terms are held at their value there: the theory's published reach. */
#define IONIC_STRENGTH_MOST 3.5

/* pK of a step at `celsius` and zero ionic strength; NAN when the library gives no value. */
double ionic_pk(const struct acid_step *step, double celsius);

/* Solves the balances of `amounts`.  The amounts must be of known, linked or inert species, together without charge, finite and
 * not negative; otherwise what is missing in charge is made up by hydrogen or hydroxide ions.  `shifted`, unless NULL, has its pK
 * raised by `shift`: how far does a doubtful constant reach? */
struct ionic_state ionic_solve(struct arena *arena, const struct equilibria *equilibria, const struct ionic_amount *amounts,
                               size_t count, double celsius, const struct acid_step *shifted, double shift);

/* The same, started from a mixture that differs in little: sooner done. */
struct ionic_state ionic_solve_near(struct arena *arena, const struct equilibria *equilibria, const struct ionic_amount *amounts,
                                    size_t count, double celsius, const struct acid_step *shifted, double shift,
                                    const struct ionic_state *near);


#endif
