/* pH, ionic strength and buffer capacity of a part and of a working solution: an estimate, with how far it may be off. */
#ifndef POTASH_CHEMISTRY_ESTIMATE_H
#define POTASH_CHEMISTRY_ESTIMATE_H

#include "formula/formula.h"

/* What to mind about an estimate. */
struct estimate_caution {
    struct estimate_caution *next;
    struct text text;
};

struct estimate {
    bool known;
    struct text reason;         /* why nothing can be said; empty when `known` */
    double pH;
    double reach;               /* the pH may be off by so much either way */
    double temperature;         /* °C */
    double ionic_strength;      /* mol in a litre */
    double total_ions;          /* mol in a litre */
    double buffer_capacity;     /* mol of strong acid or base in a litre for a change of 1 in pH */
    double reserve;             /* mol of strong acid or base in a litre that bring it to pH 10 or 4; 0 between these */
    struct estimate_caution *cautions;
};

/* Degrees that an estimate is made for where the formula gives none. */
#define ESTIMATE_TEMPERATURE 20.0

/* The range of the constants, °C. */
#define ESTIMATE_COLDEST 10.0
#define ESTIMATE_WARMEST 55.0

/* Of a part as it is mixed, at `celsius`. */
struct estimate estimate_part(struct formulary *formulary, const struct part *part, double celsius);

/* Of the working solution of a use, at its temperature. */
struct estimate estimate_use(struct formulary *formulary, const struct formula *formula, const struct use *use);

/* Of `contents` in so many mL. */
struct estimate estimate_contents(struct formulary *formulary, const struct content *contents, double volume, double celsius);

/* How an estimate is said: "10.2 at 20 °C, within 0.1". */
struct text estimate_text(struct arena *arena, const struct estimate *estimate);

#endif
