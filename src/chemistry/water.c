/* Water as a solvent for ions. */
#include "chemistry/water.h"

#include <math.h>

double water_density(double t)
{
    double above = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
    return above / (1 + 16.879850e-3 * t) / 1000;
}

double water_permittivity(double t)
{
    return 87.740 + t * (-0.40008 + t * (9.398e-4 - t * 1.410e-6));
}

double water_limiting_slope(double t)
{
    /* e^3 (2 pi N)^(1/2) / (ln 10 (4 pi epsilon0 k)^(3/2)) with the constants of the SI and litres: 1.8248e6. */
    static const double constants = 1.8248e6;
    return constants * sqrt(water_density(t)) / pow(water_permittivity(t) * (t + 273.15), 1.5);
}
