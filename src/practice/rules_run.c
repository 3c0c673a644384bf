/* Rules over the checked form. */
#include "practice/rules.h"

#include <math.h>


static bool material_is(const struct material *material, const struct form *form, const struct rule_subject *subject)
{
    if (subject->entry != NULL) {
        bool any_form = subject->form.length == 0;
        return material->entry == subject->entry &&
               (any_form || (form != NULL && form->name != NULL && text_equal(form->name->spelling, subject->form)));
    }
    for (size_t i = 0; i < material->role_count; i++) {
        if (text_equal(material->roles[i], subject->role)) {
            return true;
        }
    }
    return false;
}

static bool counts(const struct step *step)
{
    return (step_is_addition(step) || step->kind == STEP_PINCH) && step->material != NULL && step->how != ADD_TO_MAKE;
}

static bool step_is(const struct rules *rules, const struct step *step, size_t subject)
{
    return counts(step) && material_is(step->material, step->form, &rules->subjects[subject]);
}

/* Which subjects a material answers to; worked out once for each material of a run. */
static const struct subject_set *subjects_of(const struct rules *rules, const struct step *step)
{
    struct material_marks *marks = step->material->marks;
    if (marks->subjects == NULL) {
        struct subject_set *set = ARENA_NEW(rules->library->arena, struct subject_set);
        for (size_t i = 0; i < rules->subject_count; i++) {
            struct rule_subject any_form = rules->subjects[i];
            any_form.form = (struct text){0}; /* forms are looked at when a rule is tried */
            if (material_is(step->material, step->form, &any_form)) {
                set->bits[i / 64] |= (uint64_t)1 << i % 64;
            }
        }
        marks->subjects = set;
    }
    return marks->subjects;
}

/* g/L of the substance as its usual form, in the part's volume as far as it is filled by the whole. */
static double step_concentration(const struct step *step, const struct part *part)
{
    double grams = form_equivalent(step->form, step->material->usual, step->mass);
    grams = isnan(grams) ? step->mass : grams;
    return grams / (part->makes / 1000);
}

/* Whether `step` and the like of it, before `upto` (NULL: all), come to more or less than the bound. */
static bool within_bound(const struct rules *rules, const struct rule_condition *condition, size_t subject,
                         const struct part *part, const struct step *upto)
{
    if (isnan(condition->bound)) {
        return true;
    }
    double sum = 0;
    for (const struct step *step = part->steps; step != upto && step != NULL; step = step->next) {
        bool amount = step_is(rules, step, subject) && step_is_addition(step) && !isnan(step->mass);
        sum += amount ? step_concentration(step, part) : 0;
    }
    if (isnan(sum)) {
        return false;
    }
    return condition->over ? sum > condition->bound : sum < condition->bound;
}

static const struct step *find(const struct rules *rules, size_t subject, const struct step *from, const struct step *upto)
{
    for (const struct step *step = from; step != upto && step != NULL; step = step->next) {
        if (step_is(rules, step, subject)) {
            return step;
        }
    }
    return NULL;
}

/* The step that makes the condition hold in this part; NULL when it does not. */
static const struct step *witness(const struct rules *rules, const struct rule_condition *condition, const struct part *part)
{
    for (const struct step *step = find(rules, condition->subject, part->steps, NULL); step != NULL;
         step = find(rules, condition->subject, step->next, NULL)) {
        switch (condition->relation) {
        case RELATION_THERE:
            if (step_is_addition(step) && within_bound(rules, condition, condition->subject, part, NULL)) {
                return step;
            }
            break;
        case RELATION_AFTER:
            if (step_is_addition(step) && find(rules, condition->object, part->steps, step) != NULL &&
                within_bound(rules, condition, condition->object, part, step)) {
                return step;
            }
            break;
        case RELATION_BEFORE:
            if (step_is_addition(step) && find(rules, condition->object, step->next, NULL) != NULL &&
                within_bound(rules, condition, condition->object, part, NULL)) {
                return step;
            }
            break;
        case RELATION_MEETS: {
            const struct step *other = find(rules, condition->object, part->steps, NULL);
            if (other == step) {
                other = find(rules, condition->object, step->next, NULL);
            }
            if (other != NULL && within_bound(rules, condition, condition->object, part, NULL)) {
                /* The line that brings them together is the later one. */
                return find(rules, condition->object, part->steps, step) != NULL ? step : other;
            }
            break;
        }
        case RELATION_MISSING:
        default:
            break;
        }
    }
    return NULL;
}

static bool missing(const struct rules *rules, const struct formula *formula, size_t subject)
{
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            /* Another formula's solution may hold anything. */
            if (step_is(rules, step, subject) || (step->how == ADD_SOLUTION && step->solution_of != formula)) {
                return false;
            }
        }
    }
    return true;
}

static void say_rule(const struct practice *practice, struct formula *formula, const struct rule *rule,
                     const struct step *step)
{
    struct span span = step != NULL                 ? step->span
                       : formula->kind_span.end > 0 ? formula->kind_span
                                                    : formula->declaration->span;
    struct diagnostic *diagnostic =
        practice_say(practice, formula, rule->id, span, "%.*s", TEXT_ARGUMENTS(rule->warn));
    if (rule->advise.length > 0) {
        diagnostics_help(practice->formulary->diagnostics, diagnostic, "%.*s", TEXT_ARGUMENTS(rule->advise));
    }
}

static void try_rule(const struct rules *rules, const struct practice *practice, struct formula *formula,
                     const struct rule *rule)
{
    for (size_t i = 0; i < rule->condition_count; i++) {
        const struct rule_condition *condition = &rule->conditions[i];
        if (condition->relation == RELATION_MISSING && !missing(rules, formula, condition->subject)) {
            return;
        }
    }
    /* All other conditions must hold in one and the same part. */
    bool only_missing = true;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        const struct step *first = NULL;
        bool holds = true;
        for (size_t i = 0; i < rule->condition_count && holds; i++) {
            if (rule->conditions[i].relation == RELATION_MISSING) {
                continue;
            }
            only_missing = false;
            const struct step *step = witness(rules, &rule->conditions[i], part);
            holds = step != NULL;
            first = first != NULL ? first : step;
        }
        if (!only_missing && holds) {
            say_rule(practice, formula, rule, rule->conditions[0].relation == RELATION_MISSING ? NULL : first);
            return;
        }
    }
    if (only_missing) {
        say_rule(practice, formula, rule, NULL);
    }
}

static bool is_for_kind(const struct rule *rule, struct text kind)
{
    for (size_t i = 0; i < rule->kind_count; i++) {
        if (text_equal(rule->kinds[i], kind)) {
            return true;
        }
    }
    return rule->kind_count == 0;
}

static bool may_hold(const struct rule *rule, const struct subject_set *there)
{
    for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
        if ((rule->needs.bits[i] & ~there->bits[i]) != 0) {
            return false;
        }
    }
    return true;
}

void rules_run(const struct rules *rules, const struct practice *practice, struct formula *formula)
{
    struct subject_set there = {0};
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (counts(step)) {
                const struct subject_set *set = subjects_of(rules, step);
                for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
                    there.bits[i] |= set->bits[i];
                }
            }
        }
    }
    for (const struct rule *rule = rules->first; rule != NULL; rule = rule->next) {
        if (may_hold(rule, &there) && is_for_kind(rule, formula->kind)) {
            try_rule(rules, practice, formula, rule);
        }
    }
}
