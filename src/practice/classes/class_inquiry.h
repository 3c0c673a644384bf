/* What the check of classes has in hand, and how it says what it finds.  Between classes.c and class_say.c only. */
#ifndef POTASH_PRACTICE_CLASSES_CLASS_INQUIRY_H
#define POTASH_PRACTICE_CLASSES_CLASS_INQUIRY_H

#include "practice/classes/class_pairing.h"

enum explanation { AS_IT_STANDS, NO_CLASS, AMOUNT, MISSING_LINE, OTHER_NAME, OTHER_VOLUME, EXPLANATIONS };

struct finding {
    enum explanation explanation;
    double score;
    const struct class_pairing *pairing;
    struct supposition supposition;
    const struct material *material;   /* OTHER_NAME: what is meant */
};

struct inquiry {
    struct bench *bench;
    const struct rules_of_kind *picked;
    struct finding best;
    struct finding best_of[EXPLANATIONS]; /* of those that something is said of */
    struct class_match match;          /* of the class in hand, and when all are tried of the best */
    struct class_fit fit;              /* likewise, with what is supposed */
    struct class_points points;
    struct class_pairings pairings;
};

/* How many uses dilute the bath. */
size_t class_count_diluted(const struct formula *formula);

/* The first of the item's names that is one of a material. */
const struct material *class_first_material(const struct rules *rules, const struct class_item *item);

/* Says the best finding; the class and the fit in hand are its own then. */
void class_say_finding(struct inquiry *inquiry);

#endif
