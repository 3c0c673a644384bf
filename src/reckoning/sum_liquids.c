/* Liquids that are sold by strength: how much of the substance a millilitre holds. */
#include "reckoning/sums.h"

#include "base/number.h"


/* CRC Handbook of Chemistry and Physics: density of water at 20 °C. */
const double sum_water_density = 0.9982;

/* Density at `percent` by weight, on the straight line between the library's figures next to it; water at 0 %. */
static double density_at(const struct material *material, double percent, bool *exact)
{
    double low = 0;
    double low_density = sum_water_density;
    double high = INFINITY;
    double high_density = NAN;
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        if (isnan(form->density)) {
            continue;
        }
        if (form->percent <= percent && form->percent > low) {
            low = form->percent;
            low_density = form->density;
        }
        if (form->percent >= percent && form->percent < high) {
            high = form->percent;
            high_density = form->density;
        }
    }
    *exact = low == percent || high == percent;
    if (isnan(high_density)) {
        return low_density; /* above the strongest that is sold */
    }
    return high == low ? low_density : low_density + (percent - low) / (high - low) * (high_density - low_density);
}

/* The figure of a form's label ("96 %"); its strength when the label is a word. */
double sum_label_percent(const struct form *form)
{
    double figure;
    number_scan(form->label, &figure);
    return figure > 1 ? figure : form->percent;
}

/* Alcohols are labelled by volume and stand in the library by weight as well. */
static bool labelled_by_volume(const struct material *material)
{
    for (size_t i = 0; i < material->form_count; i++) {
        if (fabs(sum_label_percent(&material->forms[i]) - material->forms[i].percent) > 1) {
            return true;
        }
    }
    return false;
}

static bool liquid_of_form(struct reckoner *reckoner, const struct material *material, const struct form *form,
                           struct liquid *liquid)
{
    liquid->form = form;
    liquid->label = answer_material(reckoner, material, form);
    liquid->percent = form->percent;
    liquid->density = form->density;
    liquid->grams = form->density * form->percent / 100;
    return true;
}

static bool liquid_by_strength(struct reckoner *reckoner, const struct strength *strength,
                               const struct material *material, struct liquid *liquid)
{
    struct form_words words = {.number = strength->percent, .percent = true};
    const struct form *form = library_form(reckoner->library, material, &words);
    if (form != NULL && strength->basis == PERCENT_PLAIN && !isnan(form->density)) {
        return liquid_of_form(reckoner, material, form, liquid);
    }
    liquid->percent = strength->percent;
    liquid->label =
        answer_format(reckoner, "%s %.*s", answer_percent(reckoner, strength), TEXT_ARGUMENTS(material->name));
    bool by_volume = strength->basis == PERCENT_VOLUME_IN_VOLUME ||
                     (strength->basis == PERCENT_PLAIN && labelled_by_volume(material));
    if (by_volume) {
        liquid->by_volume = true;
        liquid->grams = strength->percent / 100;
        if (strength->basis == PERCENT_PLAIN) {
            answer_note(reckoner, "per cent of %.*s are taken by volume, as it is sold",
                        TEXT_ARGUMENTS(material->name));
        }
        return true;
    }
    if (strength->basis == PERCENT_WEIGHT_IN_VOLUME) {
        liquid->grams = strength->percent / 100;
        return true;
    }
    bool exact;
    liquid->density = density_at(material, strength->percent, &exact);
    liquid->grams = liquid->density * strength->percent / 100;
    if (!exact) {
        answer_note(reckoner, "%s g/mL at %s is drawn between the strengths that the library knows",
                    number_print_significant(reckoner->arena, liquid->density, 4), answer_percent(reckoner, strength));
    }
    return true;
}

bool sum_solution_material(struct reckoner *reckoner, const struct sum_solution *solution,
                           const struct material **material)
{
    const struct material_words *named = solution->named;
    const struct material_reading *reading =
        named == NULL || named->name == NULL ? NULL : library_material(reckoner->library, named->name);
    if (reading == NULL) {
        return false;
    }
    *material = reading->material;
    return true;
}

bool sum_liquid(struct reckoner *reckoner, const struct sum_solution *solution, const struct material *material,
                struct liquid *liquid)
{
    *liquid = (struct liquid){.density = NAN, .material = material};
    if (solution->strength != NULL) {
        const struct strength *strength = solution->strength;
        double most = strength->basis == PERCENT_WEIGHT_IN_VOLUME ? 200 : 100;
        if (!(strength->percent > 0) || strength->percent > most) {
            return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, strength->span, NULL,
                              "no solution has this strength");
        }
        return liquid_by_strength(reckoner, strength, material, liquid);
    }
    const struct material_words *named = solution->named;
    const struct form *form = NULL;
    if (named == NULL) {
        form = material->usual;
        sum_note_assumed(reckoner, material);
    } else {
        const struct form_words *words = named->form;
        struct form_words name = {.words = named->name, .number = NAN, .span = named->span};
        form = words == NULL         ? library_form(reckoner->library, material, &name)
               : named->name == NULL ? library_form(reckoner->library, material, words)
                                     : NULL;
        if (form == NULL && named->name == NULL) { /* reported as the wrong form that it is */
            struct material_words whole = {
                .name = names_find(reckoner->builder.names, material->name), .span = named->span, .form = named->form};
            return sum_material(reckoner, &whole, &liquid->material, &form);
        }
        const struct material *other;
        if (form == NULL && !sum_material(reckoner, named, &other, &form)) {
            return false;
        }
        if (form != NULL && (form < material->forms || form >= material->forms + material->form_count)) {
            return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, named->span, NULL, "this is no %.*s",
                              TEXT_ARGUMENTS(material->name));
        }
    }
    if (isnan(form->density)) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, solution->span, "give its strength, such as 20 %",
                          "%s is not a liquid", answer_material(reckoner, material, form));
    }
    return liquid_of_form(reckoner, material, form, liquid);
}
