/* What rules find missing, and another material stands in its place. */
#include "practice/rules/rules_say.h"

#include "practice/ranges.h"
#include "practice/repairs/look_alikes.h"

struct search {
    const struct bench *bench;
    const struct step *step;
    size_t subject;
    const struct material *found;
};

/* Whether some rule would miss the material itself if it were taken out. */
static bool is_wanted(const struct rules *rules, const struct formula *formula, const struct material *material)
{
    for (size_t r = 0; r < rules->list.count; r++) {
        const struct rule *rule = rules->list.rules[r];
        for (size_t i = 0; i < rule->condition_count && rule_is_for_kind(rule, formula->kind); i++) {
            const struct rule_condition *condition = &rule->conditions[i];
            if (rule->id == DIAG_ROLE_MISSING && condition->relation == RELATION_MISSING &&
                rules_material_is(rules, material, condition->subject)) {
                return true;
            }
        }
    }
    return false;
}

static bool fills_the_gap(void *context, const struct material *other)
{
    struct search *search = context;
    if (rules_material_is(search->bench->rules, other, search->subject) && amount_is_known(other, search->bench->formula->kind) &&
        look_alike_by_name(search->step->material, other)) { /* which takes longest */
        search->found = other;
    }
    return search->found != NULL;
}

bool look_alike_for_missing(struct bench *bench, size_t subject, const struct step *only)
{
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            struct search search = {bench, step, subject, NULL};
            if (!step_is_addition(step) || step->material == NULL || step->material->is_water ||
                (only != NULL && step != only) || (only == NULL && is_wanted(bench->rules, bench->formula, step->material)) ||
                !look_alike_each(bench, step->material, fills_the_gap, &search)) {
                continue;
            }
            if (!bench_said(bench, DIAG_LOOK_ALIKE, step->span)) {
                look_alike_say(bench, step, search.found);
            }
            return true;
        }
    }
    return false;
}
