/* What a formula wants of each material, solutions and the solvents of stocks counted through. */
#include "store/store.h"

#include <math.h>

enum { DEEPEST = 8 /* solutions within solutions: see src/formula/contents.c */ };

void needs_add(struct arena *arena, struct need **list, const struct need *need)
{
    struct need **at = list;
    while (*at != NULL && ((*at)->material->entry != need->material->entry || (*at)->form != need->form)) {
        at = &(*at)->next;
    }
    if (*at == NULL) {
        *at = ARENA_NEW(arena, struct need);
        **at = *need;
        (*at)->next = NULL;
        return;
    }
    (*at)->grams += need->grams;
    (*at)->measured = (*at)->measured || need->measured;
    (*at)->unknown = (*at)->unknown || need->unknown;
}

void needs_add_all(struct arena *arena, struct need **list, const struct need *more, double factor)
{
    for (; more != NULL; more = more->next) {
        struct need need = *more;
        need.grams *= factor;
        needs_add(arena, list, &need);
    }
}

/* A stock in another solvent than water takes as much of that as there is of the stock. */
static void add_solvent(struct formulary *formulary, struct need **list, const struct step *step, double scale)
{
    const struct stock *stock = formulary_stock(formulary, step);
    if (stock == NULL || stock->solvent.length == 0 || isnan(step->volume)) {
        return;
    }
    const struct material_reading *reading =
        library_material(formulary->library, names_find(formulary->names, stock->solvent));
    if (reading == NULL || reading->material->is_water) {
        return;
    }
    const struct form *form = reading->form != NULL ? reading->form : reading->material->usual;
    if (form != NULL && form->density > 0) {
        struct need need = {.material = reading->material,
                            .form = form,
                            .grams = step->volume * form->density * scale,
                            .measured = true,
                            .span = step->span};
        needs_add(formulary->arena, list, &need);
    }
}

/* Where a step names its material. */
static struct span name_span(const struct step *step)
{
    const struct statement *statement = step->statement;
    bool named = statement != NULL && (statement->kind == SAY_ADDITION || statement->kind == SAY_ADD);
    return named ? ((const struct addition_statement *)statement)->material->span : step->span;
}

static void add_step(struct formulary *formulary, struct need **list, const struct part *part, const struct step *step, double scale)
{
    if (step->material == NULL || step->material->is_water) {
        return;
    }
    double grams = step->mass;
    /* What another solvent than water still has to fill. */
    if (step->how == ADD_TO_MAKE && step->form != NULL && step->form->density > 0) {
        grams = step_poured(part, step) * step->form->density;
    }
    bool unknown = step->how == ADD_AS_NEEDED || isnan(grams);
    struct need need = {.material = step->material,
                        .form = step->form != NULL ? step->form : step->material->usual,
                        .grams = unknown ? 0 : grams * scale,
                        .measured = step->how == ADD_BY_VOLUME || step->how == ADD_TO_MAKE,
                        .unknown = unknown,
                        .span = name_span(step)};
    if (need.form == NULL) {
        return;
    }
    needs_add(formulary->arena, list, &need);
    if (step->how == ADD_STOCK) {
        add_solvent(formulary, list, step, scale);
    }
}

/* How a formula's needs are counted. */
struct counting {
    struct formulary *formulary;
    const struct formula *formula;
    struct need *list;
    bool (*has_a_bottle)(void *context, const struct step *step, double scale); /* or NULL: nothing stands ready */
    void *context;
};

/* `own_parts`: what is taken of other parts of the same formula is counted through as well. */
static void add_part(struct counting *counting, const struct formula *formula, const struct part *part, bool own_parts,
                     double scale, int depth)
{
    for (const struct step *step = part->steps; step != NULL && depth < DEEPEST; step = step->next) {
        bool drawn = step->how == ADD_STOCK || step->how == ADD_SOLUTION;
        if (!step_is_addition(step) ||
            (drawn && counting->has_a_bottle != NULL && step->solution_of != counting->formula &&
             counting->has_a_bottle(counting->context, step, scale))) {
            continue;
        }
        if (step->how != ADD_SOLUTION) {
            add_step(counting->formulary, &counting->list, part, step, scale);
        } else if (step->solution != NULL && (own_parts || step->solution_of != formula) && !isnan(step->volume) &&
                   step->solution->makes > 0) {
            add_part(counting, step->solution_of, step->solution, true, scale * part_share(step->solution, step->volume), depth + 1);
        }
    }
}

struct need *needs_of_part(struct formulary *formulary, const struct formula *formula, const struct part *part, double scale)
{
    struct counting counting = {.formulary = formulary, .formula = formula};
    add_part(&counting, formula, part, true, scale, 0);
    return counting.list;
}

/* All parts, or one.  Its own parts are mixed anyway, whole, so that what one takes of another is counted with that. */
static struct need *count_whole(struct counting *counting, const struct part *only)
{
    for (const struct part *part = counting->formula->parts; part != NULL; part = part->next) {
        if (only == NULL || part == only) {
            add_part(counting, counting->formula, part, false, 1, 0);
        }
    }
    return counting->list;
}

struct need *needs_of_formula(struct formulary *formulary, const struct formula *formula)
{
    struct counting counting = {.formulary = formulary, .formula = formula};
    return count_whole(&counting, NULL);
}

struct need *needs_of_formula_beside(struct formulary *formulary, const struct formula *formula, const struct part *part,
                                     bool (*has_a_bottle)(void *context, const struct step *step, double scale), void *context)
{
    struct counting counting = {.formulary = formulary, .formula = formula, .has_a_bottle = has_a_bottle, .context = context};
    return count_whole(&counting, part);
}
