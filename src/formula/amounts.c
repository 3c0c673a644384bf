/* Amounts of the checked form: moles, equivalents, solubilities, shares of a mixture. */
#include "formula/formula.h"

#include <math.h>

const struct quantity *step_quantity(const struct step *step)
{
    const struct statement *statement = step->statement;
    if (statement == NULL) {
        return NULL;
    }
    if (statement->kind == SAY_SOLUTION) {
        return ((const struct solution_statement *)statement)->quantity;
    }
    const struct amount_words *amount =
        statement->kind == SAY_ADDITION || statement->kind == SAY_ADD ? ((const struct addition_statement *)statement)->amount : NULL;
    return amount == NULL ? NULL : amount->quantity;
}

struct measure step_measure(struct library *library, const struct formula *formula, const struct step *step)
{
    const struct quantity *quantity = step_quantity(step);
    if (quantity == NULL) {
        return (struct measure){.fault = MEASURE_REFUSED};
    }
    bool liquid = step->material == NULL || step->material->liquid || step->material->is_water || step->how == ADD_TO_MAKE;
    const struct amount_words *amount = step->how == ADD_STOCK ? ((const struct addition_statement *)step->statement)->amount : NULL;
    liquid = liquid || (amount != NULL && amount->kind != AMOUNT_FROM_STOCK);
    return measure_read(library, quantity, formula->measures, liquid);
}

void formula_offer_unit(struct formulary *formulary, struct diagnostic *diagnostic, struct span span, const struct word *meant)
{
    const struct unit *unit = library_unit(formulary->library, meant->name);
    const char *text = arena_format(formulary->arena, "%.*s", TEXT_ARGUMENTS(library_unit_plural(formulary->library, unit)));
    diagnostics_fix(formulary->diagnostics, diagnostic, span, text, "%.*s are meant", TEXT_ARGUMENTS(meant->name->spelling));
}

double step_substance(const struct step *step)
{
    return step->form == NULL ? NAN : step->mass * step->form->percent / 100;
}

double step_moles(const struct step *step)
{
    return step->form == NULL ? NAN : step_substance(step) / step->form->molar_mass;
}

double form_equivalent(const struct form *from, const struct form *to, double grams)
{
    return grams * from->percent / from->molar_mass * to->molar_mass / to->percent;
}

/* The library's figure converted to the usual form, g in 100 mL of water. */
static double usual_grams(const struct material *material, const struct solubility *figure)
{
    if (figure->form == material->usual || figure->form == NULL) {
        return figure->grams;
    }
    double converted = form_equivalent(figure->form, material->usual, figure->grams);
    return isnan(converted) ? figure->grams : converted;
}

static const double ICE_POINT = 273.15; /* K; SI Brochure, 9th ed., 2.3.1 */

double material_solubility_between(const struct material *material, double temperature,
                                   double (*grams)(const struct material *material, const struct solubility *figure))
{
    const struct solubility *below = NULL;
    const struct solubility *above = NULL;
    for (size_t i = 0; i < material->solubility_count; i++) {
        const struct solubility *figure = &material->solubilities[i];
        if (figure->solvent.length > 0) {
            continue;
        }
        if (figure->freely) {
            return INFINITY;
        }
        if (figure->temperature <= temperature && (below == NULL || figure->temperature > below->temperature)) {
            below = figure;
        }
        if (figure->temperature >= temperature && (above == NULL || figure->temperature < above->temperature)) {
            above = figure;
        }
    }
    if (below == NULL || above == NULL) {
        const struct solubility *nearest = below != NULL ? below : above;
        return nearest == NULL ? NAN : grams(material, nearest);
    }
    double low = grams(material, below);
    if (above->temperature == below->temperature) {
        return low;
    }
    double high = grams(material, above);
    double share = (1 / (below->temperature + ICE_POINT) - 1 / (temperature + ICE_POINT)) /
                   (1 / (below->temperature + ICE_POINT) - 1 / (above->temperature + ICE_POINT));
    return low * pow(high / low, share);
}

double material_solubility(const struct material *material, double temperature)
{
    return material_solubility_between(material, temperature, usual_grams);
}

double material_saturated_percent(const struct material *material, const struct form *form)
{
    double grams = material_solubility(material, 20);
    if (isnan(grams) || isinf(grams)) {
        return NAN;
    }
    if (form != NULL && form != material->usual) {
        double converted = form_equivalent(material->usual, form, grams);
        grams = isnan(converted) ? grams : converted;
    }
    return 100 * grams / (100 + DISSOLVED_VOLUME * grams);
}

double step_poured(const struct part *part, const struct step *step)
{
    if (step->how != ADD_TO_MAKE) {
        return step->volume;
    }
    double before = 0;
    for (const struct step *at = part->steps; at != step; at = at->next) {
        bool counts = step_is_addition(at) && at->how != ADD_TO_MAKE && !isnan(at->volume);
        before += counts ? at->volume : 0;
    }
    return fmax(0, step->volume - before);
}

double step_room(const struct step *step)
{
    double room = isnan(step->volume) ? step->mass * DISSOLVED_VOLUME : step->volume;
    return step_is_addition(step) && step->how != ADD_TO_MAKE && !isnan(room) ? room : 0;
}

double use_total_parts(const struct use *use)
{
    if (use->mix == NULL) {
        return use->stock_parts + use->water_parts;
    }
    double total = 0;
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        if (share->by_volume != use->mix->by_volume) {
            return NAN;
        }
        total += share->amount;
    }
    return total;
}

const struct part *formula_bath_part(const struct formula *formula)
{
    const struct part *bath = NULL;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (formula->part_count > 1 && part->used) {
            continue;
        }
        if (bath != NULL) {
            return NULL;
        }
        bath = part;
    }
    return bath;
}

double use_share(const struct use *use, const struct formula *formula, const struct part *part)
{
    if (use->mix == NULL) {
        bool bath = part == formula_bath_part(formula);
        return isnan(use->stock_parts) ? (formula->part_count == 1 ? 1 : 0) : bath ? use->stock_parts / use_total_parts(use) : 0;
    }
    double share_of_part = 0;
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        share_of_part += share->part == part ? share->amount : 0;
    }
    double total = use_total_parts(use);
    return isnan(total) ? 0 : share_of_part / total;
}
