/* Places in the lines of a formula where mistakes are made. */
#ifndef POTASH_TESTS_PLACES_H
#define POTASH_TESTS_PLACES_H

#include "mistakes/mistakes.h"

struct piece {
    size_t begin;
    size_t end;
};

/* An addition's line: name, bracket, figure and unit.  False when it is not written so simply. */
struct anatomy {
    struct piece name;
    struct piece form;     /* with its brackets; empty when there is none */
    struct piece number;   /* a plain decimal */
    struct piece unit;
    bool plain;            /* number and unit are there */
};

struct anatomy look_at(const char *line);
bool piece_is(const char *line, struct piece piece, const char *const *words);
double number_in(const char *line, struct piece piece);

/* The sample with a piece of one line replaced; the caller frees it. */
char *with_piece(const struct sample *sample, size_t line, struct piece piece, const char *text);

/* Takes over `wrong`, a mistake on one line. */
void add_mistake(struct mistake *mistakes, size_t *count, char *wrong, size_t line);

/* The sorts of mistakes: in figures and units, in names and lines. */
size_t mistake_point_moved(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_grams_milligrams(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_grams_millilitres(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_millilitres_litres(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_grains_grams(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_ounces_fluid(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_stock_percent(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_final_volume(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_colon_ratio(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_dilution_digit(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_fahrenheit(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_form_dropped(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_form_exchanged(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_misspelt(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_look_alike(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_swapped(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_dropped_only(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_dropped_of_several(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
size_t mistake_doubled(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);

#endif
