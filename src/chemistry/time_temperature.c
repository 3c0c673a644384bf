/* Development time at another temperature. */
#include "chemistry/time_temperature.h"

#include <math.h>

const double time_temperature_lowest = 16;
const double time_temperature_highest = 27;

bool time_temperature_holds(double from, double to)
{
    return fmin(from, to) >= time_temperature_lowest && fmax(from, to) <= time_temperature_highest;
}

double time_at_temperature(double time, double from, double to, double coefficient, double per)
{
    if (!(coefficient > 0) || !(per > 0)) {
        return NAN;
    }
    return time * pow(coefficient, (from - to) / per);
}
