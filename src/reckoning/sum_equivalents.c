/* The same salt in another form, and another salt of the same ion: equal moles. */
#include "reckoning/sums.h"

#include "base/buffer.h"
#include "base/number.h"

/* Equal moles of an ion are not equal acid or alkali when they bring other amounts of H+, OH- or ammonia with them. */
static void note_acidity(struct reckoner *reckoner, const struct material *from, const struct material *to,
                         const struct ion *ion, double moles)
{
    static const char *const carried[] = {"H+", "OH-", "NH3"};
    for (size_t i = 0; i < sizeof carried / sizeof *carried; i++) {
        struct text formula = text_from(carried[i]);
        if (!text_equal(formula, ion->formula) && library_ion_count(from, formula) != moles * library_ion_count(to, formula)) {
            answer_note(reckoner, "equal %.*s, but not equal acid or alkali: the pH will differ",
                        TEXT_ARGUMENTS(ion->formula));
            return;
        }
    }
}

/* ---- what it is to be ---- */

/* The form of the same material, or the other material with its form. */
static bool read_other(struct reckoner *reckoner, const struct sum *sum, const struct material *from,
                       const struct material **to, const struct form **form)
{
    *to = from;
    struct material_words words = {0};
    if (sum->other != NULL) {
        words = *sum->other;
        bool form_only = sum->other_form == NULL && words.form == NULL;
        *form = form_only ? library_form_named(reckoner->library, from, words.name) : NULL;
        if (*form != NULL) {
            return true;
        }
        struct text near[1];
        struct text grave;
        bool known = library_material(reckoner->library, words.name) != NULL;
        bool form_meant = form_only && !known &&
                          (library_near_form(reckoner->library, from, words.name->spelling) != NULL ||
                           (library_near_materials(reckoner->library, words.name->spelling, near, 1, &grave) == 0 && grave.length == 0));
        if (!form_meant) {
            words.form = words.form == NULL ? sum->other_form : words.form;
            return sum_material(reckoner, &words, to, form);
        }
        words.form = build_form(&reckoner->builder, words.name, NAN, false);
        words.form->span = words.span;
    } else {
        words.form = sum->other_form;
        words.span = sum->other_form->span;
    }
    words.name = names_find(reckoner->builder.names, from->name);
    return sum_material(reckoner, &words, to, form);
}

/* ---- the reckoning ---- */

struct chain {
    struct reckoner *reckoner;
    struct buffer working;
};

static bool refuse_unweighable(struct reckoner *reckoner, struct span span, const struct sum_amount *amount,
                               const char *name)
{
    return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, span, "give a mass, or name a liquid form that has a density",
                      "%s of %s cannot be reckoned", dimension_phrases[amount->dimension], name);
}

/* Grams (or grams a litre) of `form` in the amount; the step is added to the working. */
static bool grams_of(struct chain *chain, const struct sum_amount *amount, const struct material *material,
                     const struct form *form, double *grams)
{
    struct reckoner *reckoner = chain->reckoner;
    bool volume = amount->dimension == DIMENSION_VOLUME || amount->dimension == DIMENSION_VOLUME_RATIO;
    bool moles = amount->dimension == DIMENSION_SUBSTANCE || amount->dimension == DIMENSION_MOLARITY;
    double factor = volume ? form->density : moles ? form->molar_mass * 100 / form->percent : 1;
    bool weighed = amount->dimension == DIMENSION_MASS || amount->dimension == DIMENSION_CONCENTRATION;
    if ((!weighed && !volume && !moles) || isnan(factor)) {
        return refuse_unweighable(reckoner, amount->quantity->span, amount, answer_material(reckoner, material, form));
    }
    *grams = amount->value * factor;
    if (volume) {
        buffer_format(&chain->working, "%s mL x %s g/mL", answer_number(reckoner, amount->value),
                      number_print_significant(reckoner->arena, form->density, 5));
    } else if (moles) {
        buffer_format(&chain->working, "%s mol x %s g/mol", answer_number(reckoner, amount->value),
                      answer_number(reckoner, factor));
    } else {
        buffer_format(&chain->working, "%s g", answer_number(reckoner, *grams));
    }
    return true;
}

static bool is_a_litre(enum dimension dimension)
{
    return dimension == DIMENSION_CONCENTRATION || dimension == DIMENSION_MOLARITY ||
           dimension == DIMENSION_VOLUME_RATIO;
}

static const char *result_text(struct reckoner *reckoner, double value, enum dimension dimension, bool a_litre)
{
    if (a_litre) {
        return answer_format(reckoner, "%s %s", answer_number(reckoner, value),
                             dimension == DIMENSION_MASS ? "g/L" : "mL/L");
    }
    return answer_own_amount(reckoner, value, dimension);
}

bool sum_equivalent(struct reckoner *reckoner, const struct sum *sum)
{
    const struct material *from;
    const struct material *to;
    const struct form *from_form;
    const struct form *to_form;
    if (!sum_material(reckoner, sum->material, &from, &from_form) || !read_other(reckoner, sum, from, &to, &to_form)) {
        return false;
    }
    struct sum_amount amount;
    if (!sum_amount(reckoner, sum->amount, from->liquid || from->is_water, &amount)) {
        return false;
    }
    double moles = 1; /* of `to` for one of `from` */
    const struct ion *ion = NULL;
    if (to != from) {
        ion = library_acting_ion(from, to);
        if (ion == NULL) {
            return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->other->span,
                              "equal moles are reckoned between salts of one acting ion, such as the carbonates",
                              "%.*s and %.*s have no acting ion in common", TEXT_ARGUMENTS(from->name),
                              TEXT_ARGUMENTS(to->name));
        }
        moles = ion->count / library_ion_count(to, ion->formula);
    }
    struct chain chain = {.reckoner = reckoner};
    buffer_start(&chain.working, reckoner->arena);
    double grams = NAN;
    if (!grams_of(&chain, &amount, from, from_form, &grams)) {
        return false;
    }
    double masses =
        text_equal(from_form->chemical, to_form->chemical) ? 1 : to_form->molar_mass / from_form->molar_mass;
    if (isnan(masses)) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->span, NULL,
                          "the library has no chemical formula to reckon %.*s by",
                          TEXT_ARGUMENTS(isnan(to_form->molar_mass) ? to->name : from->name));
    }
    double result = grams * from_form->percent / 100 * masses * moles * 100 / to_form->percent;
    if (from_form->percent != to_form->percent) {
        buffer_format(&chain.working, " x %s %% / %s %%", answer_number(reckoner, from_form->percent),
                      answer_number(reckoner, to_form->percent));
    }
    if (masses != 1) {
        buffer_format(&chain.working, " x %s%s / %s",
                      moles == 1 ? "" : answer_format(reckoner, "%s x ", answer_number(reckoner, moles)),
                      answer_number(reckoner, to_form->molar_mass), answer_number(reckoner, from_form->molar_mass));
    }
    buffer_format(&chain.working, " = %s g", answer_number(reckoner, result));
    bool a_litre = is_a_litre(amount.dimension);
    bool measured = !isnan(to_form->density);
    const char *name = answer_material(reckoner, to, to_form);
    struct answer *answer = reckoner->answer;
    const char *weight = result_text(reckoner, result, DIMENSION_MASS, a_litre);
    answer->text = answer_format(reckoner, "%s of %s", weight, name);
    if (measured) {
        double volume = result / to_form->density;
        buffer_format(&chain.working, "; / %s g/mL = %s mL",
                      number_print_significant(reckoner->arena, to_form->density, 5), answer_number(reckoner, volume));
        answer->text = answer_format(reckoner, "%s of %s, which weighs %s",
                                     result_text(reckoner, volume, DIMENSION_VOLUME, a_litre), name, weight);
        answer_add(reckoner, volume, a_litre ? "mL/L" : "mL", name);
    }
    answer_add(reckoner, result, a_litre ? "g/L" : "g", name);
    if (ion != NULL) {
        buffer_format(&chain.working, ", equal moles of %.*s", TEXT_ARGUMENTS(ion->formula));
        note_acidity(reckoner, from, to, ion, moles);
    } else if (masses != 1) {
        buffer_string(&chain.working, ", equal moles");
    }
    answer->working = buffer_finish(&chain.working);
    return true;
}
