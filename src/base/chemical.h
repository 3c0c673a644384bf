/* Chemical formulas as they are printed. */
#ifndef POTASH_BASE_CHEMICAL_H
#define POTASH_BASE_CHEMICAL_H

#include "base/arena.h"
#include "base/text.h"

/* "Na₂SO₃·7H₂O" for "Na2SO3.7H2O", "S₂O₃²⁻" for "S2O3--" (IUPAC, Nomenclature of Inorganic Chemistry, 2005, IR-4: numbers of
 * atoms below the line, the charge above it with its number before the sign, a centred dot before crystal water).  Letters and
 * brackets stay as they are. */
struct text chemical_print(struct arena *arena, struct text formula);

#endif
