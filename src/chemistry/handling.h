/* Advice on handling, picked from the library by what a formula holds and what it is classed as. */
#ifndef POTASH_CHEMISTRY_HANDLING_H
#define POTASH_CHEMISTRY_HANDLING_H

#include "chemistry/hazard.h"

struct handled_material {
    struct handled_material *next;
    const struct material *material;
    const struct hazard_data *data;
};

struct handled_code {
    struct handled_code *next;
    struct text code;
    bool of_solution;       /* not only of a substance in its jar */
};

/* All that a person meets who mixes a formula and works with it. */
struct handling {
    struct arena *arena;
    struct library *library;
    struct handled_material *materials; /* as they come out of their jars */
    struct handled_code *codes;         /* of the substances and of the solutions */
    bool solids;
};

void handling_start(struct handling *handling, struct arena *arena, struct library *library);

/* Takes in a material as it comes out of its jar; a mixture with its classes. */
void handling_add_material(struct handling *handling, const struct material *material);
void handling_add(struct handling *handling, const struct mixture_safety *safety);

struct advice {
    struct advice *next;
    struct text text;
    struct text source;
};

/* The library's advice on a topic ("gloves": its phrases gloves-…) that fits, in the order of declaration.  `solutions`: it is
 * about the solutions, and what only the substances are classed as does not count. */
struct advice *handling_advice(const struct handling *handling, const char *topic, bool solutions);

/* The precautionary statements of one kind ("P3": what to do when it has happened) that answer to the classes of a mixture. */
struct safety_statement *handling_statements(struct arena *arena, struct library *library,
                                             const struct mixture_safety *safety, const char *kind);

/* °C by which dissolving the substance at once would warm the whole mixture, with no heat lost; NAN without a figure.  Heat
 * of solution over the heat capacity of the water in it (4.18 J/g K) and of the rest, taken as 1 J/g K. */
double handling_warming(const struct handling *handling, const struct mixture *mixture, const struct component *component);

#endif
