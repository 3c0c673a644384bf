/* Equal amounts of two materials: as many moles of what both are used for. */
#include "library/entries.h"

#include <math.h>

static const struct ions_statement *ions_of(const struct material *material)
{
    const struct statement *statement = material->declaration == NULL ? NULL : material->declaration->statements;
    for (; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_IONS) {
            return (const struct ions_statement *)statement;
        }
    }
    return NULL;
}

/* Components that go along with the one that matters. */
static bool goes_along(struct text ion)
{
    static const char *const companions[] = {"H+", "Na+", "K+", "Li+", "NH3"};
    for (size_t i = 0; i < sizeof companions / sizeof *companions; i++) {
        if (text_is(ion, companions[i])) {
            return true;
        }
    }
    return false;
}

static const struct ion *shared_ion(const struct ions_statement *from, const struct ions_statement *to,
                                    const struct ion **other)
{
    for (const struct ion *ion = from->ions; ion != NULL; ion = ion->next) {
        for (*other = to->ions; *other != NULL; *other = (*other)->next) {
            if (text_equal(ion->formula, (*other)->formula) && !goes_along(ion->formula)) {
                return ion;
            }
        }
    }
    return NULL;
}

double library_equivalent(const struct material *from, const struct form *from_form, const struct material *to,
                          const struct form *to_form, double grams, struct text *ion, double *moles)
{
    *ion = (struct text){0};
    double units = grams * from_form->percent / 100 / from_form->molar_mass;
    if (from == to) {
        *moles = units;
        return units * to_form->molar_mass / to_form->percent * 100;
    }
    const struct ions_statement *from_ions = ions_of(from);
    const struct ions_statement *to_ions = ions_of(to);
    const struct ion *other = NULL;
    const struct ion *shared = from_ions == NULL || to_ions == NULL ? NULL : shared_ion(from_ions, to_ions, &other);
    if (shared == NULL) {
        return NAN;
    }
    *ion = shared->formula;
    *moles = units * shared->count;
    return *moles / other->count * to_form->molar_mass / to_form->percent * 100;
}
