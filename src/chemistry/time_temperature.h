/* Development time at another temperature, by the temperature coefficient that a formula declares.
 *
 * The rate of development rises by the factor `coefficient` for each `per` °C, so that the time for equal development falls
 * by it: t2 = t1 x coefficient^((T1 - T2) / per).  The law is that of temperature coefficients as photographic chemistry uses
 * them (J. H. van 't Hoff's rule of a constant ratio for equal steps, Etudes de dynamique chimique, 1884); it holds over a
 * small range only. */
#ifndef POTASH_CHEMISTRY_TIME_TEMPERATURE_H
#define POTASH_CHEMISTRY_TIME_TEMPERATURE_H

#include <stdbool.h>

/* Within these °C a coefficient is taken to hold (common practice, no source); beyond, a time is an extrapolation. */
extern const double time_temperature_lowest;
extern const double time_temperature_highest;

/* Whether both temperatures, °C, lie where a coefficient is taken to hold. */
bool time_temperature_holds(double from, double to);

/* The time, in the unit of `time`, at `to` °C for what takes `time` at `from` °C.  NAN for a coefficient or a step of
 * temperature that is not above 0. */
double time_at_temperature(double time, double from, double to, double coefficient, double per);

#endif
