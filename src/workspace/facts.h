/* Facts about materials, amounts and formulas, in a few lines of CommonMark. */
#ifndef POTASH_WORKSPACE_FACTS_H
#define POTASH_WORKSPACE_FACTS_H

#include "base/number.h"
#include "workspace/snapshots.h"

struct facts {
    struct arena *arena;
    const struct checked *checked;
    struct buffer *out;
};

/* What a material is; of a step of a formula, unless that is NULL, also what it comes to there. */
void fact_material(const struct facts *facts, const struct material *material, const struct formula *formula, const struct part *part,
                   const struct step *step);

/* What an addition weighs or measures, in g or mL. */
void fact_amount(const struct facts *facts, const struct step *step);

/* What a formula makes, and its working solutions. */
void fact_formula(const struct facts *facts, const struct formula *formula);

#endif
