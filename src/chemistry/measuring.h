/* How well an amount can be weighed or measured: the uncertainty that the resolution of a balance or graduate leaves.
 *
 * A reading may lie anywhere within half a step of what it shows, or within the tolerance of the vessel: a rectangular
 * distribution of half-width a, of standard uncertainty a / sqrt 3 (JCGM 100:2008, Evaluation of measurement data, 4.3.7 and
 * F.2.2.1).  Independent readings add by their squares (5.1.2). */
#ifndef POTASH_CHEMISTRY_MEASURING_H
#define POTASH_CHEMISTRY_MEASURING_H

/* What is weighed and measured with. */
struct scales {
    double balance;  /* g that the balance shows */
    double graduate; /* mL that the smallest graduate shows: no volume is read finer */
};

/* A step that volumes up to `up_to` mL are read to. */
struct measuring_step {
    double up_to;
    double step;
};

/* The graduate that one takes for a volume, the smallest first (common practice, no source: 0.1 mL up to 25 mL, 0.5 up to 100, 1 up
 * to 1000, 5 up to 2000, 10 above). */
enum { GRADUATES = 5 };
extern const struct measuring_step graduates[GRADUATES];

/* mL to which a volume is read. */
double scales_volume_step(const struct scales *scales, double millilitres);

/* The bound of one reading of `amount` in steps of `step`, as a share of it: half a step (JCGM 100:2008, 4.3.7). */
double reading_bound(double amount, double step);

/* An amount with its standard uncertainty in the same unit. */
struct measured {
    double amount;
    double uncertainty;
};

/* A reading of which the instrument shows steps of `step`. */
struct measured measured_in_steps(double amount, double step);

/* Two independent readings added up. */
struct measured measured_sum(struct measured one, struct measured other);

/* The standard uncertainty as a share of the amount. */
double measured_share(struct measured reading);

/* Relative standard uncertainty of `grams` taken as a stock: `percent` g were weighed to steps of `balance` g and made up to
 * 100 mL in a vessel read in steps of `vessel` mL, and the volume taken is read in steps of `graduate` mL. */
double measured_stock_share(double grams, double percent, double balance, double vessel, double graduate);

#endif
