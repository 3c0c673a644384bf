/* From what a bath holds to its pH. */
#include "chemistry/estimate.h"

#include "base/chemical.h"
#include "base/number.h"
#include "chemistry/ionic.h"
#include "chemistry/water.h"

#include <math.h>

/* Apparent volume of dissolved substance, mL/g: between 0.1 (carbonates) and 0.4 (thiosulfates) for salts, about 0.6 for organic
 * solids.  Estimates from densities of solutions in handbooks, memory; they decide how much water is left in a strong stock. */
static const double VOLUME_OF_SALTS = 0.3;
static const double VOLUME_OF_OTHERS = 0.6;

/* A material whose ions are not known is left out up to this much, mol/L or, without a formula, g/L. */
static const double LITTLE_MOLES = 0.005;
static const double LITTLE_GRAMS = 1;

/* Carbon dioxide of the air (1.3e-5 mol/L in water that stands open, by Henry's law) and traces in the chemicals come to about
 * so much strong acid or base, mol/L: an estimate. */
static const double TRACES = 5e-5;

/* What traces move by more than this is worth a word; beyond this reach an estimate is none. */
static const double TRACES_MATTER = 0.25;
static const double REACH_MOST = 1.5;

struct work {
    struct formulary *formulary;
    struct arena *arena;
    const struct equilibria *equilibria;
    struct estimate *estimate;
    struct estimate_caution **last;
    struct ionic_amount *amounts; /* of a litre at first, mol */
    size_t count;
    double water;                 /* kg in a litre */
    double solvents;              /* mL of liquids without ions in a litre */
};

static struct text format(struct work *work, const char *text, ...) __attribute__((format(printf, 2, 3)));

static struct text format(struct work *work, const char *text, ...)
{
    va_list arguments;
    va_start(arguments, text);
    struct text formatted = text_from(arena_format_list(work->arena, text, arguments));
    va_end(arguments);
    return formatted;
}

static void add_caution(struct work *work, struct text text)
{
    struct estimate_caution *caution = ARENA_NEW(work->arena, struct estimate_caution);
    caution->text = text;
    *work->last = caution;
    work->last = &caution->next;
}

static void refuse(struct work *work, struct text reason)
{
    if (work->estimate->reason.length == 0) {
        work->estimate->reason = reason;
    }
}

/* ---- what there is ---- */

static const struct ion *unknown_ion(struct work *work, const struct ion *ions)
{
    for (const struct ion *ion = ions; ion != NULL; ion = ion->next) {
        const struct species *species = equilibria_species(work->equilibria, ion->formula);
        bool solvent = text_is(ion->formula, "H+") || text_is(ion->formula, "OH-");
        if (!solvent && (species == NULL || (species->family != NULL && !species->linked))) {
            return ion;
        }
    }
    return NULL;
}

/* The balance of charges counts hydrogen and hydroxide ions by itself. */
static void add_ions(struct work *work, const struct ion *ions, double moles)
{
    for (const struct ion *ion = ions; ion != NULL; ion = ion->next) {
        const struct species *species = equilibria_species(work->equilibria, ion->formula);
        if (species != NULL && (species->family == NULL || !species->family->is_water)) {
            work->amounts[work->count++] = (struct ionic_amount){species, ion->count * moles};
        }
    }
}

/* A little of what is unknown is left out and said; more of it leaves nothing to say. */
static void leave_out(struct work *work, const struct content *content, double grams, double moles, struct text why)
{
    struct text name = content->material->name;
    if (isnan(moles) ? grams <= LITTLE_GRAMS : moles <= LITTLE_MOLES) {
        add_caution(work, format(work, "%.*s is left out: %.*s", TEXT_ARGUMENTS(name), TEXT_ARGUMENTS(why)));
    } else {
        refuse(work, format(work, "%.*s: %.*s", TEXT_ARGUMENTS(name), TEXT_ARGUMENTS(why)));
    }
}

/* Takes in `grams` of a material in a litre. */
static void add_content(struct work *work, const struct content *content, double grams)
{
    const struct form *form = content->form;
    if (content->material->is_water || !(grams > 0)) {
        return;
    }
    double crystal_water = isnan(form->molar_mass) ? 0 : form->waters * 18.015 / form->molar_mass;
    double substance = grams * form->percent / 100;
    double dry = substance * (1 - crystal_water);
    double moles = substance / form->molar_mass;
    bool known;
    const struct ion *ions = library_ions(content->material, &known);
    bool liquid = !isnan(form->density);
    double volume = liquid ? grams / form->density - (grams - dry) / water_density(20)
                           : dry * (ions != NULL ? VOLUME_OF_SALTS : VOLUME_OF_OTHERS);
    work->water -= volume / 1000 * water_density(20);
    if (!known) {
        leave_out(work, content, grams, moles, TEXT("the library does not say which ions it gives"));
    } else if (unknown_ion(work, ions) != NULL) {
        struct text formula = chemical_print(work->arena, unknown_ion(work, ions)->formula);
        leave_out(work, content, grams, moles, format(work, "no constants are known for %.*s", TEXT_ARGUMENTS(formula)));
    } else if (ions == NULL) {
        work->solvents += liquid ? volume : 0;
    } else if (isnan(moles)) {
        refuse(work, format(work, "%.*s: this form has no formula", TEXT_ARGUMENTS(content->material->name)));
    } else {
        add_ions(work, ions, moles);
    }
}

static size_t count_ions(const struct content *contents)
{
    size_t count = 0;
    for (; contents != NULL; contents = contents->next) {
        bool known;
        for (const struct ion *ion = library_ions(contents->material, &known); ion != NULL; ion = ion->next) {
            count++;
        }
    }
    return count;
}

static void gather(struct work *work, const struct content *contents, double volume)
{
    work->amounts = ARENA_ARRAY(work->arena, struct ionic_amount, count_ions(contents) + 1); /* one more for traces */
    work->water = water_density(20);
    for (; contents != NULL; contents = contents->next) {
        add_content(work, contents, contents->grams / volume * 1000);
    }
    for (size_t i = 0; work->water > 0 && i < work->count; i++) {
        work->amounts[i].molality /= work->water;
    }
}

/* ---- how good it is ---- */

/* How far the model itself may be off, by what was measured on published buffers and, in strong solutions, by what the theory's
 * authors say of it (docs/chemistry.md). */
static double reach_of_model(double ionic_strength)
{
    return ionic_strength <= 0.2                    ? 0.05
           : ionic_strength <= 0.6                  ? 0.1
           : ionic_strength <= 1.5                  ? 0.2
           : ionic_strength <= IONIC_STRENGTH_MOST ? 0.3
                                                    : 0.5;
}

/* The pH alone of another solution: its ions are not kept. */
static double pH_of(struct work *work, size_t count, const struct acid_step *shifted, double shift,
                    const struct ionic_state *near)
{
    struct arena_mark mark = arena_mark(work->arena);
    double pH = ionic_solve_near(work->arena, work->equilibria, work->amounts, count, work->estimate->temperature, shifted, shift,
                                 near).pH;
    arena_go_back(work->arena, mark);
    return pH;
}

/* The square of what the doubt in the constants of the solution's families comes to. */
static double doubt_of_constants(struct work *work, const struct ionic_state *state)
{
    double squares = 0;
    for (size_t f = 0; f < work->equilibria->family_count; f++) {
        const struct equilibrium *family = &work->equilibria->families[f];
        double total = 0;
        for (size_t i = 0; i < work->count; i++) {
            total += work->amounts[i].species->family == family ? work->amounts[i].molality : 0;
        }
        for (size_t s = 0; total > 0 && s < family->step_count; s++) {
            if (family->steps[s].within > 0) {
                double moved = pH_of(work, work->count, &family->steps[s], family->steps[s].within, state) - state->pH;
                squares += moved * moved;
            }
        }
    }
    return squares;
}

static double molality_of(const struct ionic_state *state, const char *formula)
{
    for (size_t i = 0; i < state->share_count; i++) {
        if (state->shares[i].species != NULL && text_is(state->shares[i].species->formula, formula)) {
            return state->shares[i].molality;
        }
    }
    return 0;
}

/* A metal's bare ion: one element and its charge. */
static bool is_metal_ion(const struct species *species)
{
    size_t length = 0;
    while (length < species->formula.length && species->formula.at[length] != '+') {
        length++;
    }
    bool element = (length == 1 || length == 2) && species->formula.at[0] >= 'A' && species->formula.at[0] <= 'Z';
    return species->family != NULL && species->charge > 0 && element && (length == 1 || species->formula.at[1] >= 'a');
}

/* Ions that bind metals or throw them down; sulfate, chloride and nitrate do so little that it does not matter here. */
static bool binds_metals(const struct species *species)
{
    bool mild = species->family != NULL && text_is(species->family->name, "sulfuric acid");
    return species->family != NULL && !mild && !species->family->is_water && !is_metal_ion(species->family->first);
}

/* Part of a family that has lost all the hydrogen ions that it can; only that binds metals. */
static double bare_part(const struct ionic_state *state, const struct equilibrium *family)
{
    double least = INFINITY;
    double bare = 0;
    double all = 0;
    for (size_t i = 0; i < state->share_count; i++) {
        const struct ionic_share *share = &state->shares[i];
        if (share->species != NULL && share->species->family == family) {
            double protons = share->species->protons / share->species->units;
            bare = protons < least ? share->molality : protons == least ? bare + share->molality : bare;
            least = fmin(least, protons);
            all += share->molality;
        }
    }
    return all > 0 ? bare / all : 0;
}

static void mind_metals(struct work *work, const struct ionic_state *state, double *reach)
{
    const struct species *metal = NULL;
    const struct species *binder = NULL;
    for (size_t i = 0; i < work->count; i++) {
        const struct species *species = work->amounts[i].species;
        bool counts = work->amounts[i].molality > 1e-4;
        metal = counts && is_metal_ion(species) ? species : metal;
        binder = counts && binds_metals(species) && bare_part(state, species->family) > 1e-4 ? species : binder;
    }
    if (metal != NULL && binder != NULL) {
        *reach += 0.5;
        add_caution(work, format(work, "what %.*s and %.*s form together is not reckoned",
                                 TEXT_ARGUMENTS(chemical_print(work->arena, metal->formula)),
                                 TEXT_ARGUMENTS(chemical_print(work->arena, binder->formula))));
    }
}

/* What the balances leave out and would move the pH. */
static void mind_losses(struct work *work, const struct ionic_state *state)
{
    static const struct {
        const char *formula;
        double over; /* mol/kg */
        const char *caution;
    } losses[] = {{"CO2", 0.01, "carbon dioxide leaves, and the pH rises"},
                  {"SO2", 0.01, "sulfur dioxide leaves: it smells, and the pH rises"},
                  {"NH3", 0.2, "ammonia leaves, and the pH falls"},
                  {"H2S", 1e-4, "hydrogen sulfide leaves: it is poisonous"},
                  {"HS2O3-", 1e-3, "thiosulfate breaks down in so much acid"}};
    for (size_t i = 0; i < sizeof losses / sizeof *losses; i++) {
        if (molality_of(state, losses[i].formula) > losses[i].over) {
            add_caution(work, text_from(losses[i].caution));
        }
    }
}

static double moved_by(struct work *work, const struct ionic_state *state, const char *ion)
{
    const struct species *species = equilibria_species(work->equilibria, text_from(ion));
    if (species == NULL) {
        return INFINITY;
    }
    work->amounts[work->count] = (struct ionic_amount){species, TRACES / work->water};
    return fabs(pH_of(work, work->count + 1, NULL, 0, state) - state->pH);
}

/* A trace of strong base or acid more: its ion without another is made up for by hydroxide or hydrogen ions. */
static double reach_of_traces(struct work *work, const struct ionic_state *state)
{
    return fmax(moved_by(work, state, "Na+"), moved_by(work, state, "Cl-"));
}

static void judge(struct work *work, const struct ionic_state *state)
{
    struct estimate *estimate = work->estimate;
    double model = reach_of_model(state->ionic_strength);
    double traces = reach_of_traces(work, state);
    double solvent = work->solvents / 1000 * 2; /* a tenth of alcohol moves pK by some tenths: memory */
    double reach = sqrt(model * model + doubt_of_constants(work, state) + traces * traces + solvent * solvent);
    mind_metals(work, state, &reach);
    if (traces > TRACES_MATTER) {
        add_caution(work, TEXT("hardly buffered: the air and traces in the chemicals move it"));
    }
    if (state->ionic_strength > IONIC_STRENGTH_MOST) {
        add_caution(work, TEXT("so many ions are beyond the theory of activities"));
    }
    if (work->solvents > 50) {
        add_caution(work, TEXT("the other solvents in it are not reckoned"));
    }
    mind_losses(work, state);
    estimate->reach = reach;
    if (traces > REACH_MOST) {
        refuse(work, TEXT("nothing buffers it: the air and traces in the chemicals decide the pH"));
    } else if (reach > REACH_MOST) {
        refuse(work, TEXT("the constants are too uncertain"));
    }
}

/* ---- the estimate ---- */

static void solve(struct work *work)
{
    struct estimate *estimate = work->estimate;
    struct ionic_state state =
        ionic_solve(work->arena, work->equilibria, work->amounts, work->count, estimate->temperature, NULL, 0);
    estimate->pH = state.pH;
    estimate->ionic_strength = state.ionic_strength * work->water;
    estimate->total_ions = state.total_ions * work->water;
    estimate->buffer_capacity = state.buffer_capacity * work->water;
    estimate->reserve = state.reserve * work->water;
    if (state.status != IONIC_SOLVED || !isfinite(state.pH)) {
        refuse(work, TEXT("the activities of so many ions do not settle"));
        return;
    }
    judge(work, &state);
}

struct estimate estimate_contents(struct formulary *formulary, const struct content *contents, double volume, double celsius)
{
    struct estimate estimate = {.temperature = isnan(celsius) ? ESTIMATE_TEMPERATURE : celsius};
    struct work work = {.formulary = formulary, .arena = formulary->arena, .estimate = &estimate, .last = &estimate.cautions};
    work.equilibria = library_equilibria(formulary->library);
    if (!(volume > 0)) {
        refuse(&work, TEXT("its volume is not known"));
    } else if (work.equilibria->water == NULL) {
        refuse(&work, TEXT("the library has no constant of water"));
    } else if (estimate.temperature < ESTIMATE_COLDEST || estimate.temperature > ESTIMATE_WARMEST) {
        refuse(&work, TEXT("the constants hold from 10 to 55 °C"));
    } else {
        gather(&work, contents, volume);
        if (work.count == 0) {
            refuse(&work, TEXT("nothing in it gives ions"));
        } else if (work.water < 0.5 || work.solvents > 400) {
            refuse(&work, TEXT("too little of it is water"));
        }
    }
    if (estimate.reason.length == 0) {
        solve(&work);
    }
    estimate.known = estimate.reason.length == 0;
    return estimate;
}

/* An addition without an amount leaves nothing to reckon with. */
static const struct step *unmeasured(const struct part *part, int depth)
{
    for (const struct step *step = part->steps; step != NULL && depth < 8; step = step->next) {
        if (!step_is_addition(step)) {
            continue;
        }
        bool water = step->material == NULL || step->material->is_water;
        if (step->how == ADD_AS_NEEDED || (!water && step->how != ADD_SOLUTION && isnan(step->mass))) {
            return step;
        }
        if (step->how == ADD_SOLUTION && step->solution != NULL && unmeasured(step->solution, depth + 1) != NULL) {
            return unmeasured(step->solution, depth + 1);
        }
    }
    return NULL;
}

static bool is_measured(struct formulary *formulary, const struct part *part, struct estimate *estimate)
{
    const struct step *step = unmeasured(part, 0);
    if (step != NULL) {
        struct text name = step->material == NULL ? TEXT("a solution") : step->material->name;
        estimate->reason = text_from(arena_format(
            formulary->arena, step->how == ADD_TO_MAKE ? "it is made up with %.*s" : "how much %.*s goes in is not known",
            TEXT_ARGUMENTS(name)));
    }
    return step == NULL;
}

/* ---- parts and uses ---- */

struct estimate estimate_part(struct formulary *formulary, const struct part *part, double celsius)
{
    struct estimate estimate = {.temperature = isnan(celsius) ? ESTIMATE_TEMPERATURE : celsius};
    if (isnan(part->makes)) {
        estimate.reason = isnan(part->makes_mass) ? TEXT("its volume is not known") : TEXT("it is a dry mix");
        return estimate;
    }
    if (!is_measured(formulary, part, &estimate)) {
        return estimate;
    }
    return estimate_contents(formulary, part_contents(formulary->arena, part), part_volume(part), estimate.temperature);
}

/* The part that a use takes as it is; NULL when it is diluted or mixed. */
static const struct part *undiluted(const struct formula *formula, const struct use *use)
{
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (use->mix == NULL && use_share(use, formula, part) == 1) {
            return part;
        }
    }
    return NULL;
}

struct estimate estimate_use(struct formulary *formulary, const struct formula *formula, const struct use *use)
{
    struct estimate estimate = {.temperature = isnan(use->temperature) ? ESTIMATE_TEMPERATURE : use->temperature};
    const struct part *as_it_is = undiluted(formula, use);
    if (as_it_is != NULL) {
        return estimate_part(formulary, as_it_is, use->temperature);
    }
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (use_share(use, formula, part) > 0 && !is_measured(formulary, part, &estimate)) {
            return estimate;
        }
    }
    struct content *contents = use_contents(formulary->arena, formula, use);
    if (contents == NULL) {
        estimate.reason = TEXT("its mixture is not known");
        return estimate;
    }
    return estimate_contents(formulary, contents, 1000, estimate.temperature);
}

struct text estimate_text(struct arena *arena, const struct estimate *estimate)
{
    return text_from(arena_format(arena, "%.1f at %s °C, within %s", estimate->pH,
                                  number_print(arena, estimate->temperature, 0),
                                  number_print(arena, ceil(estimate->reach * 10 - 0.1) / 10, 1)));
}
