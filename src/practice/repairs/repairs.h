/* Other readings of an amount: its point moved, its unit exchanged, its stock ten times as strong. */
#ifndef POTASH_PRACTICE_REPAIRS_REPAIRS_H
#define POTASH_PRACTICE_REPAIRS_REPAIRS_H

#include "practice/bench.h"

enum { MOST_REPAIRS = 24 };

/* Most of them are never offered: they are put in words only then. */
struct repair {
    struct span span;
    double number;           /* what is to stand there; NAN: a unit, `meant` */
    double factor;           /* what the amount is multiplied by; for ratios, parts of water to one of stock */
    const char *title;       /* what was mistaken, as for diagnostics_fix_as */
    const struct word *meant; /* the unit that is meant, as the library's declaration of the other one spells it; or NULL */
    bool of_stock;           /* the per cent of a stock */
};

/* Repairs of an addition's amount, the likeliest first.  Returns how many; nothing for sums, and but other units for ranges. */
size_t repairs_of_amount(struct bench *bench, const struct step *step, struct repair *repairs);

/* Repairs of a final volume. */
size_t repairs_of_volume(struct bench *bench, const struct step *make, struct repair *repairs);

/* Repairs of a dilution of two figures: one too many or too few in that of the water. */
size_t repairs_of_ratio(struct bench *bench, const struct use *use, struct repair *repairs);

void repair_offer(struct bench *bench, struct diagnostic *diagnostic, const struct repair *repair);

enum unit_system { SYSTEM_NONE, SYSTEM_METRIC, SYSTEM_OLD /* ounces, drams, grains, minims, pints */ };

/* The system that an addition is written in; drops and spoons are of none, and neither are parts and stocks. */
enum unit_system repairs_system_of(struct bench *bench, const struct step *step);

#endif
