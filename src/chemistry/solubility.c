/* Will it dissolve. */
#include "chemistry/solubility.h"

#include "library/groups.h"

#include <math.h>

static const double water_molar_mass = 18.015; /* g/mol; IUPAC standard atomic weights 2021, abridged */
static const double room = 20;                 /* °C */
static const double warmest = 60;              /* °C; above it nobody mixes (common practice, no source) */

double form_dry_share(const struct form *form)
{
    if (form == NULL || isnan(form->molar_mass) || !(form->waters > 0)) {
        return 1;
    }
    return (form->molar_mass - form->waters * water_molar_mass) / form->molar_mass;
}

/* A figure of the library, g of a form in 100 mL of water added, as g of the dry substance in 100 g of all the water. */
static double dry_grams(const struct material *material, const struct solubility *figure)
{
    const struct form *form = figure->form == NULL ? material->usual : figure->form;
    double dry = figure->grams * form_dry_share(form);
    return 100 * dry / (100 + figure->grams - dry);
}

double solubility_dry(const struct material *material, double temperature)
{
    return material_solubility_between(material, temperature, dry_grams);
}

double solubility_water_for(const struct material *material, const struct form *form, double grams, double temperature)
{
    double holds = solubility_dry(material, temperature);
    double dry = grams * form_dry_share(form);
    return fmax(0, dry * 100 / holds - (grams - dry));
}

/* Two figures no further apart than that speak of the temperatures between them: on printed tables the logarithmic law then misses the
 * figure in the middle by a few per cent (tests/chemistry/test_solubility.c), and by much more only where the hydrate changes. */
static const double BRIDGED = 40; /* °C */

/* Whether the library's figures in water reach to a temperature: one stands there, or one on either side and near enough. */
static bool figures_reach(const struct material *material, double temperature)
{
    double below = -INFINITY;
    double above = INFINITY;
    for (size_t i = 0; i < material->solubility_count; i++) {
        const struct solubility *figure = &material->solubilities[i];
        if (figure->solvent.length > 0 || figure->freely) {
            continue;
        }
        below = figure->temperature <= temperature ? fmax(below, figure->temperature) : below;
        above = figure->temperature >= temperature ? fmin(above, figure->temperature) : above;
    }
    return above - below <= BRIDGED;
}

double solubility_temperature_for(const struct material *material, const struct form *form, double grams, double water,
                                  double from)
{
    for (double temperature = ceil(from); temperature <= warmest; temperature++) {
        if (solubility_water_for(material, form, grams, temperature) <= water) {
            return figures_reach(material, temperature) ? temperature : NAN;
        }
    }
    return NAN;
}

/* ---- along the order of mixing ---- */

/* The liquid while a part is being mixed. */
struct vessel {
    double water;       /* g */
    double temperature; /* °C */
};

/* Alcohol and its kin dissolve other amounts than water does: where they are more than a tenth, nothing is said. */
static bool in_other_solvent(const struct part *part)
{
    double other = 0;
    double all = 0;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        bool liquid = step_is_addition(step) && step->how != ADD_BY_MASS && step->volume > 0;
        if (!liquid) {
            continue;
        }
        all = step->how == ADD_TO_MAKE ? fmax(all, step->volume) : all + step->volume;
        bool watery = step->material == NULL || step->material->is_water || step->form == NULL || step->form->percent < 50 ||
                      step->how == ADD_STOCK;
        other += watery ? 0 : step_poured(part, step);
    }
    return other > 0.1 * all;
}

/* Liquid of some temperature poured in: both come to the mean by their weights. */
static void pour(struct vessel *vessel, double water, double temperature)
{
    double poured = isnan(temperature) ? (vessel->water > 0 ? vessel->temperature : room) : temperature;
    double whole = vessel->water + water;
    if (whole > 0) {
        vessel->temperature = (vessel->temperature * vessel->water + poured * water) / whole;
    }
    vessel->water = whole;
}

static bool is_weighed(const struct step *step)
{
    return step_is_addition(step) && step->how == ADD_BY_MASS && step->material != NULL && !isnan(step->mass);
}

static void pour_step(struct vessel *vessel, const struct part *part, const struct step *step)
{
    if (!step_is_addition(step)) {
        bool set = (step->kind == STEP_COOL || step->kind == STEP_WARM) && !isnan(step->temperature);
        vessel->temperature = set ? step->temperature : vessel->temperature;
        return;
    }
    double volume = step_poured(part, step);
    if (step->how != ADD_BY_MASS && volume > 0) {
        pour(vessel, volume, step->temperature);
    }
}

/* Water that the part has in all, when its lines begin with something to dissolve; 0 when they begin with a liquid. */
static double water_listed_last(const struct part *part)
{
    double water = 0;
    bool solid_first = false;
    bool first = true;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!step_is_addition(step)) {
            continue;
        }
        solid_first = solid_first || (first && step->how == ADD_BY_MASS);
        first = false;
        bool is_water = step->how == ADD_WATER || step->how == ADD_TO_MAKE;
        water += is_water ? step_poured(part, step) : 0;
    }
    return solid_first && water > 0 ? water : 0;
}

static double grams_so_far(const struct part *part, const struct step *upto)
{
    double grams = 0;
    for (const struct step *step = part->steps; step != upto->next; step = step->next) {
        if (is_weighed(step) && step->material == upto->material) {
            double same = step->form == upto->form ? step->mass : form_equivalent(step->form, upto->form, step->mass);
            grams += isnan(same) ? step->mass : same;
        }
    }
    return grams;
}

/* Whether an addition is what the library says dissolves the material, and there is a mole of it for each mole or more: one mole is the
 * least that any such reaction takes. */
static bool dissolves(struct library *library, const struct step *helper, const struct step *step)
{
    if (!step_is_addition(helper) || helper->material == NULL || step_moles(helper) < step_moles(step)) {
        return false;
    }
    for (size_t i = 0; i < step->material->solubility_count; i++) {
        const struct solubility *figure = &step->material->solubilities[i];
        if (figure->freely && figure->solvent.length > 0 && material_answers_to(library, helper->material, figure->solvent)) {
            return true;
        }
    }
    return false;
}

/* The first addition of the part that dissolves a step's material by what it is; NULL when there is none.  *later tells whether it is
 * added behind the step. */
static const struct step *find_dissolver(struct library *library, const struct part *part, const struct step *step, bool *later)
{
    *later = false;
    for (const struct step *at = part->steps; at != NULL; at = at->next) {
        *later = *later || at == step;
        if (at != step && dissolves(library, at, step)) {
            return at;
        }
    }
    return NULL;
}

static struct dissolving *look_at(struct arena *arena, struct library *library, const struct part *part, const struct step *step,
                                  const struct vessel *vessel)
{
    struct dissolving *one = ARENA_NEW(arena, struct dissolving);
    *one = (struct dissolving){.step = step, .temperature = vessel->temperature, .water = vessel->water, .dissolves_at = NAN};
    double grams = grams_so_far(part, step);
    double dry = grams * form_dry_share(step->form);
    double holds = solubility_dry(step->material, vessel->temperature);
    /* What it brings of water is counted; that of the same material added before is in the vessel already. */
    one->share = dry * 100 / holds / (vessel->water + step->mass * (1 - form_dry_share(step->form)));
    one->water_needed = solubility_water_for(step->material, step->form, grams, vessel->temperature);
    if (one->share > 1) {
        one->dissolves_at = solubility_temperature_for(step->material, step->form, grams, vessel->water, vessel->temperature);
        one->dissolver = find_dissolver(library, part, step, &one->dissolver_follows);
    }
    return one;
}

struct dissolving *part_dissolving(struct arena *arena, struct library *library, const struct part *part, double share_of_water)
{
    struct dissolving *list = NULL;
    struct dissolving **end = &list;
    double at_start = water_listed_last(part) * share_of_water;
    struct vessel vessel = {at_start, room};
    for (const struct step *step = in_other_solvent(part) ? NULL : part->steps; step != NULL; step = step->next) {
        if (is_weighed(step) && vessel.water > 0) {
            *end = look_at(arena, library, part, step, &vessel);
            end = &(*end)->next;
            vessel.water += step->mass * (1 - form_dry_share(step->form));
        } else if (at_start == 0 || (step->how != ADD_WATER && step->how != ADD_TO_MAKE)) {
            pour_step(&vessel, part, step);
        }
    }
    return list;
}

/* ---- in the finished bath ---- */

/* Water in a finished part, g: its volume less what the dissolved substances take up in it. */
static double water_in(const struct part *part, const struct content *contents)
{
    double water = part_volume(part);
    for (const struct content *content = contents; content != NULL; content = content->next) {
        bool liquid = content->form != NULL && !isnan(content->form->density);
        water -= liquid ? content->grams / content->form->density * content->form->percent / 100
                        : content->grams * form_dry_share(content->form) * DISSOLVED_VOLUME;
    }
    return water;
}

bool part_keeps_dissolved(struct library *library, const struct part *part, const struct step *step)
{
    bool later;
    return in_other_solvent(part) || find_dissolver(library, part, step, &later) != NULL;
}

struct coming_out part_coming_out(struct arena *arena, struct library *library, const struct part *part)
{
    struct coming_out out = {.below = NAN};
    if (!(part->makes > 0) || in_other_solvent(part)) {
        return out;
    }
    const struct content *contents = part_contents(arena, part);
    double water = water_in(part, contents);
    for (const struct content *content = contents; content != NULL && water > 0; content = content->next) {
        double dry = content->grams * form_dry_share(content->form);
        const struct step *added = part_find(part, content->material);
        bool kept = added != NULL && added->material == content->material && part_keeps_dissolved(library, part, added);
        bool solid = content->form != NULL && isnan(content->form->density) && !content->material->is_water && !kept;
        for (double temperature = room; solid && temperature >= 0; temperature--) {
            if (!(solubility_dry(content->material, temperature) * water / 100 < dry)) {
                continue;
            }
            double below = temperature + 1;
            if (temperature == room) {
                below = solubility_temperature_for(content->material, content->form, content->grams,
                                                   water - (content->grams - dry), room);
                below = isnan(below) ? warmest : below;
            }
            if (out.material == NULL || below > out.below) {
                out = (struct coming_out){content->material, content->form, below};
            }
            break;
        }
    }
    return out;
}
