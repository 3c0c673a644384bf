/* Constants of ionic equilibrium at a temperature. */
#include "chemistry/ionic.h"

#include "chemistry/water.h"

#include <math.h>

static const double GAS_CONSTANT = 8.314462618; /* J/mol/K, exact in the SI since 2019 */
static const double REFERENCE = 298.15;         /* K; enthalpies and heat capacities hold there */

/* How much lower pK is at `celsius` than at 25 °C, from the enthalpy and the heat capacity of the step: Clarke and Glew, Trans.
 * Faraday Soc. 62 (1966) 539, with a constant heat capacity. */
static double drop(const struct acid_step *step, double celsius)
{
    double T = celsius + 273.15;
    double enthalpy = isnan(step->enthalpy) ? 0 : step->enthalpy;
    double log_k = enthalpy / GAS_CONSTANT * (1 / REFERENCE - 1 / T) +
                   step->heat_capacity / GAS_CONSTANT * (REFERENCE / T - 1 + log(T / REFERENCE));
    return log_k / log(10);
}

/* A published value brought to zero ionic strength.  pH electrodes give the hydrogen ion by its activity, so that only the acid
 * and what it becomes are corrected: Debye and Hückel's term with the ion size of the interaction theory. */
static double at_zero_strength(const struct acid_step *step, const struct pk_value *value)
{
    double root = sqrt(value->strength);
    double term = water_limiting_slope(value->temperature) * root / (1 + 1.5 * root);
    double squares = step->gives->charge * step->gives->charge - step->count * step->acid->charge * step->acid->charge;
    return value->pk + squares * term;
}

/* Without an enthalpy: a straight line in 1/T through the two values that enclose the temperature, or the nearest two. */
static double between_values(const struct acid_step *step, double celsius)
{
    const struct pk_value *low = NULL;
    const struct pk_value *high = NULL;
    for (size_t i = 0; i < step->value_count; i++) {
        const struct pk_value *value = &step->values[i];
        bool below = value->temperature <= celsius;
        if (below && (low == NULL || value->temperature > low->temperature)) {
            low = value;
        } else if (!below && (high == NULL || value->temperature < high->temperature)) {
            high = value;
        }
    }
    for (size_t i = 0; i < step->value_count && (low == NULL || high == NULL); i++) { /* outside: one more on the same side */
        const struct pk_value *value = &step->values[i];
        const struct pk_value *only = low == NULL ? high : low;
        if (value->temperature < only->temperature && low == NULL) {
            low = value;
        } else if (value->temperature > only->temperature && high == NULL) {
            high = value;
        } else if (value->temperature != only->temperature && (low == NULL || high == NULL)) {
            *(low == NULL ? &low : &high) = value;
        }
    }
    if (low == NULL || high == NULL || low->temperature == high->temperature) {
        return at_zero_strength(step, low == NULL ? high : low);
    }
    double at_low = at_zero_strength(step, low);
    double at_high = at_zero_strength(step, high);
    double from = 1 / (low->temperature + 273.15);
    double upto = 1 / (high->temperature + 273.15);
    return at_low + (at_high - at_low) * (1 / (celsius + 273.15) - from) / (upto - from);
}

double ionic_pk(const struct acid_step *step, double celsius)
{
    if (step->value_count == 0) {
        return NAN;
    }
    if (isnan(step->enthalpy) && step->value_count > 1) {
        return between_values(step, celsius);
    }
    const struct pk_value *nearest = &step->values[0];
    for (size_t i = 1; i < step->value_count; i++) {
        if (fabs(step->values[i].temperature - celsius) < fabs(nearest->temperature - celsius)) {
            nearest = &step->values[i];
        }
    }
    return at_zero_strength(step, nearest) - (drop(step, celsius) - drop(step, nearest->temperature));
}
