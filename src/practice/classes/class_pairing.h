/* Which amount of a formula is which of a class of baths: all that follows from what the formula holds, whatever the amounts. */
#ifndef POTASH_PRACTICE_CLASSES_CLASS_PAIRING_H
#define POTASH_PRACTICE_CLASSES_CLASS_PAIRING_H

#include "practice/classes/classes.h"

enum { MOST_PAIRINGS = 64 };

/* What is said of a formula's pairing takes these from the score: logarithms of how much rarer a formula with that slip is than one
 * without.  A wrong name is not counted as an extra as well, and so gains GAIN_OF_NAME. */
#define COST_OF_MISSING 2.8
#define COST_OF_NAME 3.4
#define GAIN_OF_NAME 3.0

struct class_pairing {
    const struct rule *class;
    double cost;                   /* that the class is doubtful, of extras and absent items; what is missing costs nothing yet */
    double bound;                  /* the most that can come of trying the class */
    uint8_t missing;               /* items that the class needs and that are not there */
    uint8_t missing_item;          /* the last of them */
    uint8_t extras;                /* points that the class does not know */
    uint8_t extra_point;
    uint8_t item[MOST_POINTS];     /* of each point; NO_ITEM for an extra */
};

/* Those that may say something of a formula, the most promising first. */
struct class_pairings {
    struct class_pairing list[MOST_PAIRINGS];
    size_t count;
};

/* The pairings of the formula on the bench with the classes of its kind; nothing has been silenced in them. */
void class_find_pairings(const struct bench *bench, const struct rules_of_kind *picked, const struct class_points *points,
                         struct class_pairings *pairings);

#endif
