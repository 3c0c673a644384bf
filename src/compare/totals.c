/* What a bath holds in all of developing agents, sulfite, alkali, thiosulfate: by the roles and the ions that the library has
 * for its materials. */
#include "compare/comparing.h"

/* How much of each total one ion counts for. */
struct ion_worth {
    const char *ion;
    double sulfite;     /* mol of sulfite, bound or free acid */
    double alkali;      /* mol of strong acid that it takes up, about pH 4 (memory: the end point of a total alkalinity) */
    double thiosulfate;
};

/* The library writes acid salts with their hydrogen apart: bicarbonate is H+ and CO3--, and so comes to 1.  Phosphate takes
 * up two of its three only, the last below pH 3. */
static const struct ion_worth worths[] = {
    {"SO3--", 1, 0, 0},      {"S2O3--", 0, 0, 1},     {"OH-", 0, 1, 0},       {"CO3--", 0, 2, 0},
    {"PO4---", 0, 2, 0},     {"NH3", 0, 1, 0},        {"H+", 0, -1, 0},       {"C2H7NO", 0, 1, 0},
    {"C4H11NO2", 0, 1, 0},   {"C6H15NO3", 0, 1, 0},
};

/* g/mol, IUPAC abridged standard atomic weights 2021 */
static const double molar_sodium_sulfite = 126.04;                 /* Na2SO3 */
static const double molar_sodium_thiosulfate_crystals = 248.17;    /* Na2S2O3.5H2O */

static bool has_role(const struct material *material, const char *role)
{
    for (size_t i = 0; i < material->role_count; i++) {
        if (text_is(material->roles[i], role)) {
            return true;
        }
    }
    return false;
}

static const struct ions_statement *ions_of(const struct material *material)
{
    const struct statement *statement = material->declaration == NULL ? NULL : material->declaration->statements;
    while (statement != NULL && statement->kind != SAY_IONS) {
        statement = statement->next;
    }
    return (const struct ions_statement *)statement;
}

static struct ion_worth worth_of(const struct ions_statement *ions)
{
    struct ion_worth sum = {0};
    for (const struct ion *ion = ions->ions; ion != NULL; ion = ion->next) {
        for (size_t i = 0; i < sizeof worths / sizeof *worths; i++) {
            if (text_is(ion->formula, worths[i].ion)) {
                sum.sulfite += ion->count * worths[i].sulfite;
                sum.alkali += ion->count * worths[i].alkali;
                sum.thiosulfate += ion->count * worths[i].thiosulfate;
            }
        }
    }
    return sum;
}

struct totals compare_totals(const struct content *contents, double volume)
{
    struct totals totals = {0};
    double litres = volume / 1000;
    for (const struct content *content = contents; content != NULL; content = content->next) {
        const struct material *material = content->material;
        double substance = content->form == NULL ? content->grams : content->grams * content->form->percent / 100;
        if (material->role_count > 0 && text_is(material->roles[0], "developing agent")) {
            totals.of[TOTAL_DEVELOPING_AGENTS] += substance / litres;
        }
        const struct ions_statement *ions = ions_of(material);
        double moles = content->form == NULL ? NAN : substance / content->form->molar_mass;
        bool alkali = has_role(material, "alkali");
        if (ions == NULL || isnan(moles)) {
            totals.unknown_alkali = alkali ? material->name : totals.unknown_alkali;
            continue;
        }
        struct ion_worth worth = worth_of(ions);
        totals.of[TOTAL_SULFITE] += worth.sulfite * moles * molar_sodium_sulfite / litres;
        totals.of[TOTAL_THIOSULFATE] += worth.thiosulfate * moles * molar_sodium_thiosulfate_crystals / litres;
        totals.of[TOTAL_ALKALI] += alkali ? fmax(0, worth.alkali) * moles / litres : 0;
    }
    return totals;
}
