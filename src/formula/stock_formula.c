/* A stock solution as a formula of its own, so that it has a sheet like any other. */
#include "formula/checking.h"

#include "base/number.h"

static struct step *add_step(struct arena *arena, struct part *part, enum addition_kind how, const struct material *material,
                             const struct form *form)
{
    struct step *step = part_add_step(arena, part, STEP_ADDITION, part->span);
    step->how = how;
    step->material = material;
    step->form = form;
    return step;
}

static const struct material *solvent_of(struct formulary *formulary, const struct stock *stock)
{
    struct text name = stock->solvent.length > 0 ? stock->solvent : TEXT("water");
    const struct material_reading *reading = library_material(formulary->library, names_find(formulary->names, name));
    return reading == NULL ? NULL : reading->material;
}

/* What 100 mL hold: grams of a solid, millilitres of a liquid. */
static void add_substance(struct arena *arena, struct part *part, const struct stock *stock)
{
    bool liquid = !isnan(stock->form->density);
    bool by_volume = liquid && stock->basis != PERCENT_WEIGHT_IN_VOLUME && stock->basis != PERCENT_WEIGHT_IN_WEIGHT;
    struct step *step =
        add_step(arena, part, liquid ? ADD_BY_VOLUME : ADD_BY_MASS, stock->material, stock->form);
    if (by_volume) {
        step->volume = stock->percent;
        step->mass = stock->percent * stock->form->density;
    } else {
        step->mass = stock->percent;
        step->volume = stock->percent / stock->form->density;
    }
    if (stock->saturated) {
        struct tails *tails = ARENA_NEW(arena, struct tails);
        tails->note = TEXT("an estimate; add until some stays undissolved, let stand, and draw off the clear solution");
        step->tails = tails;
    }
}

struct text stock_title(struct arena *arena, const struct stock *stock)
{
    struct text name = stock->material->name;
    if (stock->saturated) {
        return text_from(arena_format(arena, "%.*s saturated stock", TEXT_ARGUMENTS(name)));
    }
    static const char *const bases[] = {"", " w/v", " w/w", " v/v"};
    return text_from(arena_format(arena, "%.*s %s %%%s stock", TEXT_ARGUMENTS(name),
                                  number_print_significant(arena, stock->percent, 4), bases[stock->basis]));
}

const struct formula *stock_formula(struct formulary *formulary, const struct stock *stock)
{
    struct arena *arena = formulary->arena;
    const struct material *solvent = solvent_of(formulary, stock);
    if (stock->material == NULL || solvent == NULL || isnan(stock->percent)) {
        return NULL;
    }
    struct formula *formula = ARENA_NEW(arena, struct formula);
    struct part *part = ARENA_NEW(arena, struct part);
    formula->title = stock_title(arena, stock);
    formula->declaration = stock->declaration;
    formula->kind = TEXT("stock solution");
    formula->keeps = stock->keeps;
    formula->notes = stock->notes;
    formula->parts = part;
    formula->part_count = 1;
    part->span = stock->declaration->span;
    part->makes = 100; /* mL: what percent goes by */
    part->makes_mass = NAN;
    enum addition_kind how = solvent->is_water ? ADD_WATER : ADD_BY_VOLUME;
    struct step *first = add_step(arena, part, how, solvent, solvent->usual);
    first->volume = 80;
    first->mass = solvent->is_water ? NAN : first->volume * solvent->usual->density;
    add_substance(arena, part, stock);
    add_step(arena, part, ADD_TO_MAKE, solvent, solvent->usual)->volume = part->makes;
    return formula;
}
