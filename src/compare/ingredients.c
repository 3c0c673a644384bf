/* What is done on the way to a part, in order, ready to be set against another part. */
#include "compare/comparing.h"

#include "base/number.h"

enum { DEEPEST = 8 /* solutions within solutions, as when contents are counted through */ };

struct gathering {
    struct comparison *comparison;
    const struct formula *formula;
    struct ingredient **end;
    size_t place;
};

static struct ingredient *add(struct gathering *gathering, enum ingredient_kind kind, const struct step *step)
{
    struct ingredient *ingredient = ARENA_NEW(gathering->comparison->arena, struct ingredient);
    ingredient->kind = kind;
    ingredient->step = step;
    ingredient->amount = NAN;
    ingredient->place = ++gathering->place;
    *gathering->end = ingredient;
    gathering->end = &ingredient->next;
    return ingredient;
}

static void add_material(struct gathering *gathering, const struct step *within, const struct step *step, double scale)
{
    struct ingredient *ingredient = add(gathering, INGREDIENT_MATERIAL, within);
    ingredient->material = step->material;
    ingredient->form = step->form;
    ingredient->name = step->material->name;
    ingredient->key = compare_key(gathering->comparison, step->material->name);
    if (step->how == ADD_AS_NEEDED) {
        return;
    }
    ingredient->by_volume = isnan(step->mass);
    ingredient->amount = (ingredient->by_volume ? step->volume : step->mass) * scale;
}

/* The materials of another formula that is taken in as a solution. */
static void open_up(struct gathering *gathering, const struct step *within, const struct part *part, double scale, int depth)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        bool solution = step_is_addition(step) && step->how == ADD_SOLUTION;
        if (solution && depth < DEEPEST && step->solution != NULL && step->volume > 0 && step->solution->makes > 0) {
            open_up(gathering, within, step->solution, scale * part_share(step->solution, step->volume), depth + 1);
        } else if (step_is_addition(step) && step->material != NULL && step->how != ADD_WATER && step->how != ADD_TO_MAKE) {
            add_material(gathering, within, step, scale);
        }
    }
}

static void add_solution(struct gathering *gathering, const struct step *step, double scale)
{
    struct comparison *comparison = gathering->comparison;
    bool own = false; /* another part of the same formula stands for itself: it is compared by itself */
    for (const struct part *part = gathering->formula->parts; part != NULL; part = part->next) {
        own = own || part == step->solution;
    }
    if (!own && step->solution != NULL && step->volume > 0 && step->solution->makes > 0) {
        open_up(gathering, step, step->solution, scale * part_share(step->solution, step->volume), 1);
        return;
    }
    struct ingredient *ingredient = add(gathering, INGREDIENT_SOLUTION, step);
    const struct compared_part *pair = own ? compare_pair_of(comparison, step->solution) : NULL;
    struct text title = step->solution_of == NULL ? (struct text){0} : step->solution_of->title;
    bool named = own && step->solution->name != NULL;
    ingredient->name = named ? compare_format(comparison, "solution %.*s", TEXT_ARGUMENTS(step->solution->name->spelling))
                             : compare_format(comparison, "solution \"%.*s\"", TEXT_ARGUMENTS(title));
    /* A part that has another name on the other side is the same part. */
    ingredient->key = compare_key(comparison, pair == NULL ? ingredient->name
                                                           : compare_format(comparison, "part %.*s", TEXT_ARGUMENTS(pair->name)));
    ingredient->by_volume = true;
    ingredient->amount = step->volume * scale;
}

static void add_water(struct gathering *gathering, const struct step *step, double scale)
{
    struct ingredient *ingredient = add(gathering, INGREDIENT_WATER, step);
    bool to_make = step->how == ADD_TO_MAKE;
    ingredient->material = step->material;
    ingredient->name = step->material->name;
    ingredient->key = to_make ? TEXT("to make") : TEXT("water");
    ingredient->by_volume = true;
    ingredient->amount = step->volume * scale;
}

static void add_step(struct gathering *gathering, const struct step *step)
{
    struct comparison *comparison = gathering->comparison;
    struct ingredient *ingredient = add(gathering, INGREDIENT_STEP, step);
    ingredient->material = step->kind == STEP_PINCH ? step->material : NULL;
    const char *degrees = isnan(step->temperature) ? "" : number_print(comparison->arena, step->temperature, 1);
    switch (step->kind) {
    case STEP_PINCH:
        ingredient->name = compare_format(comparison, "a pinch of %.*s", TEXT_ARGUMENTS(step->material->name));
        ingredient->key = ingredient->name;
        break;
    case STEP_COOL:
        ingredient->name = compare_format(comparison, "cool to %s\u00A0°C", degrees);
        ingredient->key = TEXT("cool");
        break;
    case STEP_WARM:
        ingredient->name = compare_format(comparison, "warm to %s\u00A0°C", degrees);
        ingredient->key = TEXT("warm");
        break;
    case STEP_STAND:
        ingredient->name = compare_format(comparison, "let stand %s\u00A0%s",
                                          number_print(comparison->arena, step->duration / (step->duration < 5400 ? 60 : 3600), 1),
                                          step->duration < 5400 ? "min" : "h");
        ingredient->key = TEXT("stand");
        break;
    case STEP_FILTER:
        ingredient->name = TEXT("filter");
        ingredient->key = ingredient->name;
        break;
    case STEP_DO:
    default:
        ingredient->name = step->text;
        ingredient->key = compare_format(comparison, "do %.*s", TEXT_ARGUMENTS(compare_key(comparison, step->text)));
        break;
    }
}

struct ingredient *compare_ingredients(struct comparison *comparison, const struct formula *formula, const struct part *part,
                                       double scale)
{
    struct ingredient *list = NULL;
    struct gathering gathering = {comparison, formula, &list, 0};
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!step_is_addition(step)) {
            add_step(&gathering, step);
        } else if (step->how == ADD_SOLUTION) {
            add_solution(&gathering, step, scale);
        } else if (step->material == NULL) {
            continue;
        } else if (step->how == ADD_TO_MAKE || step->how == ADD_WATER || step->material->is_water) {
            add_water(&gathering, step, scale);
        } else {
            add_material(&gathering, step, step, scale);
        }
    }
    return list;
}

double compare_reduced(const struct ingredient *ingredient, const struct form *form, double amount)
{
    const struct form *from = ingredient->form;
    if (from == NULL || form == NULL || from == form || ingredient->by_volume) {
        return amount;
    }
    double reduced = form_equivalent(from, form, amount);
    if (!isnan(reduced) || isnan(amount)) {
        return reduced;
    }
    return text_equal(from->label, form->label) ? amount : amount * from->percent / form->percent;
}
