/* Bench sums: "1+29 for 300 mL", "30 g sodium carbonate (anhydrous) as monohydrate", "125 °F in °C".
 *
 * A sum is one line of its own small grammar, made of the notation's own words: the lexer that reads formulas reads
 * sums too, and the library knows the units, materials and forms.  Reckoning is a pure function of the parsed sum. */
#ifndef POTASH_RECKONING_RECKONING_H
#define POTASH_RECKONING_RECKONING_H

#include "library/library.h"

/* One figure of an answer, not rounded. */
struct answer_item {
    struct answer_item *next;
    double value;
    const char *unit; /* "mL", "g", "parts", or the unit that was asked for */
    const char *what; /* "stock", "water", "sodium carbonate (monohydrate)" */
};

struct answer_note {
    struct answer_note *next;
    const char *text;
};

struct answer {
    struct answer_item *items;
    struct answer_item *last;
    const char *text;          /* the answer in words, rounded to what the bench can measure */
    const char *working;       /* the arithmetic */
    struct answer_note *notes; /* what was assumed, and cautions; NULL when there are none */
    struct answer_note *last_note;
};

/* Reckons the sum that `source` holds.  NULL when it cannot be; why has been added to `diagnostics`.  *understood says
 * whether the sum was at least read as one (an ambiguous unit in it, say).  Everything lives in `arena`. */
const struct answer *reckoning_answer(struct arena *arena, struct names *names, struct library *library,
                                      struct diagnostics *diagnostics, struct source_file *source, bool *understood);

#endif
