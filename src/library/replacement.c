/* Replacing a material by another of the same acting ion. */
#include "library/replacement.h"

#include <math.h>

double material_acidity(const struct material *material)
{
    return library_ion_count(material, TEXT("H+")) - library_ion_count(material, TEXT("OH-")) -
           library_ion_count(material, TEXT("NH3"));
}

/* Moles of the pure substance in grams of a form. */
static double moles_in(const struct form *form, double grams)
{
    return grams * form->percent / 100 / form->molar_mass;
}

static double grams_of(const struct form *form, double moles)
{
    return moles * form->molar_mass / form->percent * 100;
}

/* A hydroxide, ammonia, or an acid: acidity and nothing that acts by itself. */
static bool neutralizes(const struct material *material)
{
    static const char *const bystanders[] = {"Na+", "K+", "Li+", "OH-", "H+", "NH3", "Cl-", "SO4--", "NO3-", "CH3COO-"};
    double known = 0;
    for (size_t i = 0; i < sizeof bystanders / sizeof *bystanders; i++) {
        known += library_ion_count(material, text_from(bystanders[i]));
    }
    return known > 0 && known == library_ion_total(material) && material_acidity(material) != 0;
}

struct replacement material_replacement(const struct formed_material *from, double grams, const struct formed_material *to,
                                        const struct formed_material *companion)
{
    struct replacement answer = {.fault = REPLACEMENT_GOOD};
    bool related = from->material == to->material || library_acting_ion(from->material, to->material) != NULL;
    answer.grams = library_equivalent(from->material, from->form, to->material, to->form, grams, &answer.ion, &answer.moles);
    if (isnan(answer.grams)) {
        answer.fault = related ? REPLACEMENT_NO_FORMULA : REPLACEMENT_NO_ION;
        return answer;
    }
    double wanted = moles_in(from->form, grams) * material_acidity(from->material);
    double brought = moles_in(to->form, answer.grams) * material_acidity(to->material);
    answer.acidity = brought - wanted;
    /* Less than a thousandth of what acts is the rounding of molar masses, not acid. */
    bool level = fabs(answer.acidity) <= 1e-3 * fabs(answer.moles);
    answer.acidity = level ? 0 : answer.acidity;
    if (companion == NULL) {
        return answer;
    }
    if (!neutralizes(companion->material)) {
        answer.fault = REPLACEMENT_NO_NEUTRALIZER;
        return answer;
    }
    if (level) {
        answer.fault = REPLACEMENT_NOT_NEEDED;
        return answer;
    }
    double each = material_acidity(companion->material);
    if (each * answer.acidity > 0) {
        answer.fault = REPLACEMENT_WRONG_WAY;
        return answer;
    }
    answer.companion_grams = grams_of(companion->form, -answer.acidity / each);
    answer.fault = isnan(answer.companion_grams) ? REPLACEMENT_NO_FORMULA : REPLACEMENT_GOOD;
    answer.acidity = 0;
    return answer;
}
