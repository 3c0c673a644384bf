/* Materials that baths of a kind do not hold, but are mistaken for one that they do. */
#include "practice/checks/look_alike.h"

#include "practice/ranges.h"
#include "practice/repairs/look_alikes.h"

#include <math.h>

static bool holds_material(const struct part *part, const struct material *material)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step->material == material) {
            return true;
        }
    }
    return false;
}

struct search {
    const struct formula *formula;
    const struct part *part;
    const struct step *step;
    const struct material *found;
};

static bool share_first_role(const struct material *a, const struct material *b)
{
    return a->role_count > 0 && b->role_count > 0 && text_equal(a->roles[0], b->roles[0]);
}

static bool belongs(void *context, const struct material *other)
{
    struct search *search = context;
    if (!share_first_role(search->step->material, other) && amount_is_known(other, search->formula->kind) &&
        !holds_material(search->part, other) && look_alike_by_name(search->step->material, other)) { /* which takes longest */
        bool fits = amount_would_fit(search->formula, search->part, search->step, other);
        search->found = fits || search->found == NULL ? other : search->found;
        return fits;
    }
    return false;
}

void look_alike_check(struct bench *bench)
{
    if (bench->formula->kind.length == 0 || text_is(bench->formula->kind, "other")) {
        return;
    }
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (!step_is_addition(step) || step->material == NULL || step->material->is_water || isnan(step->mass) ||
                amount_is_known(step->material, bench->formula->kind) || bench_vouches(bench, step) || bench_said(bench, DIAG_LOOK_ALIKE, step->span)) {
                continue;
            }
            struct search search = {bench->formula, part, step, NULL};
            look_alike_each(bench, step->material, belongs, &search);
            if (search.found != NULL) {
                look_alike_say(bench, step, search.found);
            }
        }
    }
}
