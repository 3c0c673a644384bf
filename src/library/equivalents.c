/* Equal amounts of two materials: as many moles of what both are used for. */
#include "library/entries.h"

#include <math.h>

const struct ion *library_ions(const struct material *material, bool *known)
{
    const struct statement *statement = material->declaration == NULL ? NULL : material->declaration->statements;
    for (; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_IONS) {
            *known = true;
            return ((const struct ions_statement *)statement)->ions;
        }
    }
    *known = false;
    return NULL;
}

static const struct ion *ions_of(const struct material *material)
{
    bool known;
    return library_ions(material, &known);
}

double library_ion_count(const struct material *material, struct text formula)
{
    for (const struct ion *ion = ions_of(material); ion != NULL; ion = ion->next) {
        if (text_equal(ion->formula, formula)) {
            return ion->count;
        }
    }
    return 0;
}

double library_ion_total(const struct material *material)
{
    double total = 0;
    for (const struct ion *ion = ions_of(material); ion != NULL; ion = ion->next) {
        total += ion->count;
    }
    return total;
}

static bool is_one_of(struct text formula, const char *const *list)
{
    for (; *list != NULL; list++) {
        if (text_is(formula, *list)) {
            return true;
        }
    }
    return false;
}

/* Ions that only carry the one that acts. */
static const char *const carriers[] = {"H+", "Na+", "K+", "Li+", "NH3", NULL};
/* Ions that act when nothing but carriers is with them. */
static const char *const companions[] = {"OH-", "SO4--", "Cl-", "NO3-", NULL};

static bool is_plain_salt(const struct material *material, struct text ion)
{
    for (const struct ion *other = ions_of(material); other != NULL; other = other->next) {
        if (!text_equal(other->formula, ion) && !is_one_of(other->formula, carriers)) {
            return false;
        }
    }
    return true;
}

const struct ion *library_acting_ion(const struct material *from, const struct material *to)
{
    for (const struct ion *ion = ions_of(from); ion != NULL; ion = ion->next) {
        bool acts = !is_one_of(ion->formula, carriers) && !is_one_of(ion->formula, companions);
        if (acts && library_ion_count(to, ion->formula) > 0) {
            return ion;
        }
    }
    for (const struct ion *ion = ions_of(from); ion != NULL; ion = ion->next) {
        if (is_one_of(ion->formula, companions) && library_ion_count(to, ion->formula) > 0 &&
            is_plain_salt(from, ion->formula) && is_plain_salt(to, ion->formula)) {
            return ion;
        }
    }
    return NULL;
}

double library_equivalent(const struct material *from, const struct form *from_form, const struct material *to,
                          const struct form *to_form, double grams, struct text *ion, double *moles)
{
    *ion = (struct text){0};
    *moles = grams * from_form->percent / 100 / from_form->molar_mass;
    double units = *moles; /* of `to` */
    if (from != to) {
        const struct ion *acting = library_acting_ion(from, to);
        if (acting == NULL) {
            return NAN;
        }
        *ion = acting->formula;
        *moles *= acting->count;
        units = *moles / library_ion_count(to, acting->formula);
    }
    return units * to_form->molar_mass / to_form->percent * 100;
}
