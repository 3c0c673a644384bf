/* What a solution or a dry mix consists of, by weight. */
#include "chemistry/mixture.h"

#include <math.h>

enum { DEEPEST = 8 }; /* solutions within solutions */

static const double WATER_DENSITY = 0.9982; /* g/mL at 20 °C: CRC Handbook of Chemistry and Physics, 98th ed. (2017) */
static const double WATER_VOLUME = 18.0;    /* mL in a mole */

/* What is gathered before it is laid out in per cent. */
struct gathering {
    struct arena *arena;
    struct formulary *formulary;
    struct component *components;
    struct component *uncounted;
    double water;  /* g that were measured, or came with a liquid */
    double room;   /* mL that everything but the water to make takes up */
    bool estimated;
};

/* ---- forms ---- */

const struct form *mixture_form(struct library *library, const struct material *material)
{
    const struct form *driest = material->usual;
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        driest = !isnan(form->molar_mass) && (isnan(driest->molar_mass) || form->waters < driest->waters) ? form : driest;
    }
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        const struct form *form = statement->kind != SAY_COUNTS_AS
                                      ? NULL
                                      : library_form(library, material, ((const struct figure_statement *)statement)->form);
        driest = form != NULL ? form : driest;
    }
    return driest;
}

/* mL that a gram of a dissolved solid adds to the water: its crystal water as water, the rest by its kind.  An estimate from
 * the densities of aqueous solutions in the CRC Handbook of Chemistry and Physics, 102nd ed. (2021): 10 % solutions give 0.0
 * (sodium carbonate, hydroxide) to 0.3 (sodium chloride, potassium bromide) for salts, 0.55 to 0.6 for ammonium salts and
 * organic acids.  With 10 % of solids the weight is uncertain by about 1 %. */
static double dissolved_volume(const struct form *form)
{
    struct text chemical = form->chemical;
    bool carbon = false;
    bool ammonium = false;
    for (size_t i = 0; i + 1 < chemical.length; i++) {
        char after = chemical.at[i + 1];
        carbon = carbon || (chemical.at[i] == 'C' && (after == 'H' || (after >= '2' && after <= '9')));
        ammonium = ammonium || (chemical.at[i] == 'N' && after == 'H');
    }
    double dry = carbon || ammonium || chemical.length == 0 ? 0.6 : 0.2;
    if (isnan(form->molar_mass)) {
        return dry;
    }
    double crystal = form->waters * WATER_VOLUME;
    return (crystal + (form->molar_mass - crystal) * dry) / form->molar_mass;
}

/* ---- gathering ---- */

static struct component *component_of(struct gathering *gathering, struct component **list, const struct material *material)
{
    while (*list != NULL && (*list)->material != material) {
        list = &(*list)->next;
    }
    if (*list == NULL) {
        *list = ARENA_NEW(gathering->arena, struct component);
        (*list)->material = material;
        (*list)->form = mixture_form(gathering->formulary->library, material);
    }
    return *list;
}

static void add_substance(struct gathering *gathering, const struct material *material, const struct form *form, double grams)
{
    const struct form *counted = mixture_form(gathering->formulary->library, material);
    double pure = grams * form->percent / 100;
    double converted = pure;
    if (form->molar_mass > 0 && counted->molar_mass > 0) {
        converted = pure * counted->molar_mass / form->molar_mass;
    }
    gathering->water += grams - converted; /* what it was dissolved in, and crystal water */
    component_of(gathering, &gathering->components, material)->grams += converted;
}

static void add_matter(struct gathering *gathering, const struct material *material, const struct form *form, double grams,
                       double millilitres)
{
    if (material->is_water) {
        gathering->water += isnan(grams) ? millilitres * WATER_DENSITY : grams;
        gathering->room += isnan(millilitres) ? grams / WATER_DENSITY : millilitres;
        return;
    }
    gathering->room += !isnan(form->density) ? grams / form->density : grams * dissolved_volume(form);
    add_substance(gathering, material, form, grams);
}

static const struct material *solvent_of(struct formulary *formulary, const struct step *step)
{
    const struct stock *stock = formulary_stock(formulary, step);
    if (stock == NULL || stock->solvent.length == 0) {
        return NULL;
    }
    const struct material_reading *reading =
        library_material(formulary->library, names_find(formulary->names, stock->solvent));
    return reading == NULL ? NULL : reading->material;
}

/* What a stock brings beside its substance: the water, or the solvent, that it was made with. */
static void add_stock(struct gathering *gathering, const struct step *step, double scale)
{
    const struct material *solvent = solvent_of(gathering->formulary, step);
    double substance = step->mass * scale;
    double volume = step->volume * scale;
    add_matter(gathering, step->material, step->form, substance, NAN);
    double room = !isnan(step->form->density) ? substance / step->form->density : substance * dissolved_volume(step->form);
    double rest = isnan(volume) ? 0 : fmax(volume - room, 0);
    if (solvent == NULL || solvent->is_water) {
        gathering->water += rest * WATER_DENSITY;
        gathering->room += rest;
    } else {
        double density = isnan(solvent->usual->density) ? 1 : solvent->usual->density;
        add_matter(gathering, solvent, solvent->usual, rest * density, rest);
    }
}

static void gather_part(struct gathering *gathering, const struct part *part, double scale, int depth);

static void gather_step(struct gathering *gathering, const struct step *step, double scale, int depth)
{
    switch (step->how) {
    case ADD_AS_NEEDED:
        if (step->material != NULL && !step->material->is_water) {
            component_of(gathering, &gathering->uncounted, step->material);
        }
        break;
    case ADD_SOLUTION:
        if (step->solution != NULL && !isnan(step->volume) && step->solution->makes > 0) {
            gather_part(gathering, step->solution, scale * part_share(step->solution, step->volume), depth + 1);
        }
        break;
    case ADD_STOCK:
        if (!isnan(step->mass)) {
            add_stock(gathering, step, scale);
        }
        break;
    default:
        if (step->material != NULL && (step->material->is_water ? !isnan(step->volume) || !isnan(step->mass) : !isnan(step->mass))) {
            add_matter(gathering, step->material, step->form, step->mass * scale, step->volume * scale);
        }
        break;
    }
}

/* What fills up to the mark, mL. */
static void fill_up(struct gathering *gathering, const struct step *step, double left)
{
    gathering->estimated = true;
    if (step->material == NULL || step->material->is_water) {
        gathering->water += left * WATER_DENSITY;
        gathering->room += left;
    } else {
        double density = isnan(step->form->density) ? 1 : step->form->density;
        add_matter(gathering, step->material, step->form, left * density, left);
    }
}

/* `scale` is of the part as it is written. */
static void gather_part(struct gathering *gathering, const struct part *part, double scale, int depth)
{
    double room_before = gathering->room;
    for (const struct step *step = part->steps; step != NULL && depth < DEEPEST; step = step->next) {
        if (step_is_addition(step) && step->how == ADD_TO_MAKE) {
            fill_up(gathering, step, fmax(step->volume * scale - (gathering->room - room_before), 0));
        } else if (step_is_addition(step)) {
            gather_step(gathering, step, scale, depth);
        }
    }
}

/* ---- laying out ---- */

static const struct mixture *lay_out(struct gathering *gathering, double millilitres)
{
    struct mixture *mixture = ARENA_NEW(gathering->arena, struct mixture);
    mixture->dry = isnan(millilitres);
    mixture->millilitres = millilitres;
    mixture->water = gathering->water;
    mixture->grams = gathering->water;
    mixture->density_estimated = gathering->estimated;
    mixture->uncounted = gathering->uncounted;
    for (const struct component *component = gathering->components; component != NULL; component = component->next) {
        mixture->grams += component->grams;
    }
    while (gathering->components != NULL) { /* the heaviest first */
        struct component *component = gathering->components;
        gathering->components = component->next;
        component->percent = component->grams / mixture->grams * 100;
        struct component **at = &mixture->components;
        while (*at != NULL && (*at)->grams >= component->grams) {
            at = &(*at)->next;
        }
        component->next = *at;
        *at = component;
    }
    return mixture->grams > 0 ? mixture : NULL;
}

const struct mixture *mixture_of_part(struct arena *arena, struct formulary *formulary, const struct part *part)
{
    struct gathering gathering = {.arena = arena, .formulary = formulary};
    if (!(part->makes > 0) && !(part->makes_mass > 0)) {
        return NULL;
    }
    gather_part(&gathering, part, 1, 0);
    return lay_out(&gathering, part->makes > 0 ? part_volume(part) : NAN);
}

const struct mixture *mixture_of_use(struct arena *arena, struct formulary *formulary, const struct formula *formula,
                                     const struct use *use)
{
    enum { LITRE = 1000 };
    struct gathering gathering = {.arena = arena, .formulary = formulary};
    double taken = 0;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        double share = use_share(use, formula, part);
        if (share > 0 && part->makes > 0) {
            gather_part(&gathering, part, part_per_litre(part, share), 0);
            taken += share * LITRE;
        }
    }
    double total = use_total_parts(use);
    for (const struct mix_share *share = use->mix; share != NULL && !isnan(total); share = share->next) {
        bool liquid = share->part == NULL && share->material != NULL && !share->material->is_water && share->form != NULL &&
                      !isnan(share->form->density);
        if (liquid) {
            double volume = share->amount / total * LITRE;
            add_matter(&gathering, share->material, share->form, volume * share->form->density, volume);
            taken += volume;
        }
    }
    if (taken <= 0) {
        return NULL;
    }
    gathering.water += fmax(LITRE - taken, 0) * WATER_DENSITY;
    return lay_out(&gathering, LITRE);
}

double mixture_percent(const struct mixture *mixture, const struct material *material)
{
    for (const struct component *component = mixture->components; component != NULL; component = component->next) {
        if (component->material == material) {
            return component->percent;
        }
    }
    return 0;
}
