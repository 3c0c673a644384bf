/* Will it dissolve: in the water that is there when it is added, and in the finished bath when that cools.
 *
 * Reckoned from the library's solubilities in pure water, each substance by itself, the water of crystallisation counted as
 * water.  A substance that the library says another dissolves (glycin in an alkali, selenium in a sulfite) is judged with that.  What
 * else other substances do to it (a common ion, a salt that draws the water) is left out: an estimate. */
#ifndef POTASH_CHEMISTRY_SOLUBILITY_H
#define POTASH_CHEMISTRY_SOLUBILITY_H

#include "formula/formula.h"

/* Share of a form's weight that is not water of crystallisation, 0 to 1; 1 where the formula is unknown. */
double form_dry_share(const struct form *form);

/* Grams of the dry substance that 100 g of water hold at `temperature` °C, between the library's figures or at the nearest;
 * NAN when there is none, INFINITY for what mixes freely. */
double solubility_dry(const struct material *material, double temperature);

/* Grams of water in which `grams` of a form dissolve at `temperature` °C, beside the water that it brings itself; 0 when it
 * needs none, NAN when unknown. */
double solubility_water_for(const struct material *material, const struct form *form, double grams, double temperature);

/* The lowest whole temperature from `from` °C up to 60 °C at which `grams` of a form dissolve in `water` g; NAN when there
 * is none that the library's figures show, or the figures on either side of it lie more than 40 °C apart. */
double solubility_temperature_for(const struct material *material, const struct form *form, double grams, double water,
                                  double from);

/* How an addition meets the water. */
struct dissolving {
    struct dissolving *next;
    const struct step *step;
    double temperature;    /* °C of the liquid at that moment; 20 where nothing is said */
    double water;          /* g of water there, that of crystallisation in what went before included */
    double share;          /* of what the water holds; above 1 it does not all dissolve; NAN: unknown */
    double dissolves_at;   /* °C at which it would, when share > 1; NAN: at none that is known */
    double water_needed;   /* g of water in which it would at that temperature, when share > 1 */
    const struct step *dissolver; /* when share > 1: what dissolves it all the same; NULL for nothing */
    bool dissolver_follows;       /* it is added later */
};

/* The weighed additions of a part, in mixing order.  `share_of_water`: how much of the water is there at the start when the
 * formula lists it last. */
struct dissolving *part_dissolving(struct arena *arena, struct library *library, const struct part *part, double share_of_water);

/* Whether a part holds more of a step's material than water would: something else in it dissolves it, or it is not made with water. */
bool part_keeps_dissolved(struct library *library, const struct part *part, const struct step *step);

/* What comes out of the finished part first when it cools. */
struct coming_out {
    const struct material *material; /* NULL: nothing does, or nothing is known */
    const struct form *form;
    double below;                    /* °C: at this and above it stays in solution */
};

/* From 20 °C down to 0; `below` is above 20 when it does not even stay in solution at 20 °C. */
struct coming_out part_coming_out(struct arena *arena, struct library *library, const struct part *part);

#endif
