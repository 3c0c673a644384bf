/* Water as a solvent for ions: density, permittivity, and the limiting slope of activity coefficients. */
#ifndef POTASH_CHEMISTRY_WATER_H
#define POTASH_CHEMISTRY_WATER_H

/* Density of air-free water at ordinary pressure, kg/L, 0 to 100 °C.  Kell, J. Chem. Eng. Data 20 (1975) 97. */
double water_density(double celsius);

/* Relative permittivity of water, 0 to 100 °C.  Malmberg and Maryott, J. Res. Natl. Bur. Stand. 56 (1956) 1. */
double water_permittivity(double celsius);

/* Debye and Hückel's limiting slope for decimal logarithms on the molal scale, (kg/mol)^(1/2); 0.51 at 25 °C. */
double water_limiting_slope(double celsius);

#endif
