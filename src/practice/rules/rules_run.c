/* Rules over the checked form.
 *
 * Each rule is tried in every part.  The first of its conditions that something must fulfil is tried line by line; where the
 * other conditions name the same subject again, they speak of the same line. */
#include "practice/rules/rules.h"

#include "practice/ranges.h"
#include "practice/repairs/form_repairs.h"
#include "practice/rules/rules_say.h"

#include <math.h>

/* ---- amounts and temperatures ---- */

/* g/L of the substance as its usual form. */
static double step_concentration(const struct step *step, const struct part *part)
{
    return ranges_concentration(step->material, step->form, step->mass, part, false);
}

static bool beyond(const struct rule_condition *condition, double value)
{
    return isnan(condition->bound) || (condition->over ? value > condition->bound : value < condition->bound);
}

/* Whether `subject`, before `upto` (NULL: all of it), comes to more or less than the bound. */
static bool within_bound(struct bench *bench, const struct rule_condition *condition, size_t subject, const struct part *part,
                         const struct step *upto)
{
    if (isnan(condition->bound)) {
        return true;
    }
    double sum = 0;
    for (const struct step *step = part->steps; step != upto && step != NULL; step = step->next) {
        bool amount = step_is_addition(step) && rules_step_is(bench->rules, step, subject) && !isnan(step->mass);
        sum += amount ? step_concentration(step, part) : 0;
    }
    return !isnan(sum) && beyond(condition, sum);
}

/* ---- what a litre of the bath holds, all parts together ---- */

static void add_to_bath(struct bench *bench, const struct step *step, double grams)
{
    struct bath_lines *bath = &bench->bath;
    if (bath->count == bath->room) {
        enum { FIRST_ROOM = 16 };
        size_t room = bath->room == 0 ? FIRST_ROOM : bath->room * 2;
        struct bath_line *lines = ARENA_ARRAY(bench->rules->library->arena, struct bath_line, room);
        for (size_t i = 0; i < bath->count; i++) {
            lines[i] = bath->lines[i];
        }
        bath->lines = lines;
        bath->room = room;
    }
    bath->lines[bath->count++] = (struct bath_line){rules_subjects_of(bench->rules, step->material, step->form), grams};
}

static void reckon_bath(struct bench *bench)
{
    bench->bath.known = true;
    bench->bath.count = 0;
    EACH_STEP(bench->formula, part, step)
    {
        double share = bench->formula->part_count == 1 ? 1 : amount_share(bench->formula, part); /* one part: it drops out of the ratio */
        if (step_is_addition(step) && rules_step_counts(step) && step->how != ADD_AS_NEEDED) {
            add_to_bath(bench, step, step_concentration(step, part) * share);
        }
    }
}

/* g in a litre of the bath; NAN when it is not known. */
static double in_the_bath(struct bench *bench, size_t subject)
{
    if (!bench->bath.known) {
        reckon_bath(bench);
    }
    double sum = 0;
    for (size_t i = 0; i < bench->bath.count; i++) {
        const struct bath_line *line = &bench->bath.lines[i];
        sum += subject_set_has(line->subjects, subject) ? line->grams : 0;
    }
    return sum;
}

/* g in a litre of what a use mixes. */
static double in_the_use(struct bench *bench, size_t subject, const struct use *use)
{
    double sum = 0;
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        double share = use_share(use, bench->formula, part);
        for (const struct step *step = part->steps; step != NULL && share > 0; step = step->next) {
            if (step_is_addition(step) && rules_step_is(bench->rules, step, subject) && step->how != ADD_AS_NEEDED) {
                sum += step_concentration(step, part) * share;
            }
        }
    }
    return sum;
}

static bool within_ratio(struct bench *bench, const struct rule_condition *condition)
{
    double subject = in_the_bath(bench, condition->subject);
    double measure = in_the_bath(bench, condition->measured_by);
    return subject > 0 && measure > 0 && beyond(condition, subject / measure);
}

double rules_water_temperature(const struct part *part, const struct step *upto)
{
    double celsius = NAN;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        bool water = step_is_addition(step) && step->material != NULL && step->material->is_water;
        bool sets = water || step->kind == STEP_COOL || step->kind == STEP_WARM || step->kind == STEP_STAND ||
                    step->kind == STEP_DO;
        if (step == upto) {
            return isnan(step->temperature) ? celsius : step->temperature;
        }
        celsius = sets ? step->temperature : celsius;
    }
    return celsius;
}

/* ---- conditions ---- */

/* The line that the rule is tried on. */
struct focus {
    size_t subject;
    const struct step *step;
};

static bool is_candidate(struct bench *bench, const struct step *step, size_t subject, const struct focus *focus)
{
    return rules_step_is(bench->rules, step, subject) && (focus->subject != subject || focus->step == step);
}

/* `tied`: only that one will do. */
static bool find_tied(struct bench *bench, size_t subject, const struct step *from, const struct step *upto, const struct step *tied)
{
    const struct step *step = rules_find(bench->rules, subject, from, upto);
    while (step != NULL && tied != NULL && step != tied) {
        step = rules_find(bench->rules, subject, step->next, upto);
    }
    return step != NULL;
}

/* The other of two that meet in a part; solutions are looked into. */
static const struct step *find_other(struct bench *bench, size_t subject, const struct part *part, const struct step *but)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step != but && rules_step_holds(bench->rules, step, subject, 0)) {
            return step;
        }
    }
    return NULL;
}

static const struct step *meeting(struct bench *bench, const struct rule_condition *condition, const struct part *part,
                                  const struct focus *focus)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!rules_step_holds(bench->rules, step, condition->subject, 0) ||
            (focus->subject == condition->subject && focus->step != step)) {
            continue;
        }
        const struct step *other = find_other(bench, condition->object, part, step);
        if (other != NULL && within_bound(bench, condition, condition->object, part, NULL)) {
            /* The line that brings them together is the later one. */
            return rules_stands_after(step, other) ? step : other;
        }
    }
    return NULL;
}

/* The step that makes the condition hold in this part; NULL when it does not. */
static const struct step *witness(struct bench *bench, const struct rule_condition *condition, const struct part *part,
                                  const struct focus *focus)
{
    size_t subject = condition->subject;
    size_t object = condition->object;
    if (condition->relation == RELATION_MEETS) {
        return meeting(bench, condition, part, focus);
    }
    /* The line itself stands where the rule speaks of it again. */
    const struct step *tied = focus->subject == object && object != subject ? focus->step : NULL;
    size_t shown = condition->relation == RELATION_MISSING_BEFORE ? object : subject;
    bool one = focus->subject == shown; /* then only the line in hand will do */
    for (const struct step *step = one ? focus->step : part->steps; step != NULL; step = one ? NULL : step->next) {
        if (!is_candidate(bench, step, shown, focus) || !step_is_addition(step)) {
            continue;
        }
        bool holds = false;
        switch (condition->relation) {
        case RELATION_THERE:
            holds = condition->measured_by != MOST_SUBJECTS ? within_ratio(bench, condition) : within_bound(bench, condition, subject, part, NULL);
            break;
        case RELATION_AT:
            holds = !isnan(rules_water_temperature(part, step)) && beyond(condition, rules_water_temperature(part, step));
            break;
        case RELATION_AFTER:
            holds = find_tied(bench, object, part->steps, step, tied) && within_bound(bench, condition, object, part, step);
            break;
        case RELATION_BEFORE:
            holds = find_tied(bench, object, step->next, NULL, tied) && within_bound(bench, condition, object, part, NULL);
            break;
        case RELATION_MISSING_BEFORE: /* a pinch is not enough of it */
            holds = rules_next_addition(bench->rules, subject, part->steps, step) == NULL;
            break;
        default:
            break;
        }
        if (holds) {
            return step;
        }
    }
    return NULL;
}

static bool missing(struct bench *bench, size_t subject)
{
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            /* A pinch is taken from a later line: without that it is none. */
            if (step->kind != STEP_PINCH && rules_step_holds(bench->rules, step, subject, 0)) {
                return false;
            }
        }
    }
    return true;
}

/* ---- rules ---- */

/* The line that all of the rule's conditions hold on in a part; NULL when there is none. */
static const struct step *rule_holds(struct bench *bench, const struct rule *rule, const struct part *part,
                                     const struct rule_condition *main)
{
    size_t subject = main->relation == RELATION_MISSING_BEFORE ? main->object : main->subject;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        struct focus focus = {subject, step};
        bool candidate = main->relation == RELATION_MEETS ? rules_step_holds(bench->rules, step, subject, 0)
                                                          : rules_step_is(bench->rules, step, subject);
        if (!candidate) {
            continue;
        }
        const struct step *shown = witness(bench, main, part, &focus);
        for (size_t i = 0; i < rule->condition_count && shown != NULL; i++) {
            const struct rule_condition *condition = &rule->conditions[i];
            if (condition != main && condition->relation != RELATION_MISSING &&
                witness(bench, condition, part, &focus) == NULL) {
                shown = NULL;
            }
        }
        if (shown != NULL) {
            return shown;
        }
    }
    return NULL;
}

/* Two that stand in different parts meet where a use mixes these. */
static bool meet_in_use(struct bench *bench, const struct rule_condition *condition, const struct use *use, struct span *where)
{
    bool subject = false;
    bool object = false;
    if (!isnan(condition->bound) && !beyond(condition, in_the_use(bench, condition->object, use))) {
        return false;
    }
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        for (const struct step *step = share->part == NULL ? NULL : share->part->steps; step != NULL; step = step->next) {
            bool is_subject = rules_step_holds(bench->rules, step, condition->subject, 0);
            bool is_object = rules_step_holds(bench->rules, step, condition->object, 0);
            if ((is_subject && object) || (is_object && subject)) {
                *where = share->span;
                return true;
            }
            subject = subject || is_subject;
            object = object || is_object;
        }
    }
    return false;
}

/* Where something is missing, what is merely there may stand in any part. */
static bool all_are_there(struct bench *bench, const struct rule *rule)
{
    for (size_t i = 0; i < rule->condition_count; i++) {
        const struct rule_condition *condition = &rule->conditions[i];
        bool there = condition->relation == RELATION_THERE && isnan(condition->bound) &&
                     !missing(bench, condition->subject);
        if (condition->relation != RELATION_MISSING && !there) {
            return false;
        }
    }
    return true;
}

/* The first line of any part that a condition about a form holds on.  A form that was only assumed is none. */
static const struct step *stated(struct bench *bench, const struct rule_condition *condition)
{
    struct focus nothing = {MOST_SUBJECTS, NULL};
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        const struct step *step = witness(bench, condition, part, &nothing);
        if (step != NULL && !(step->form_assumed && bench->rules->subjects[condition->subject].form.length > 0)) {
            return step;
        }
    }
    return NULL;
}

/* A rule about a form, whose conditions may hold in different parts. */
static void try_forms(struct bench *bench, const struct rule *rule)
{
    const struct step *odd = NULL;
    for (size_t i = 0; i < rule->condition_count; i++) {
        const struct rule_condition *condition = &rule->conditions[i];
        if (condition->relation == RELATION_MISSING) {
            continue;
        }
        const struct step *step = stated(bench, condition);
        if (step == NULL) {
            return;
        }
        bool about_form = bench->rules->subjects[condition->subject].form.length > 0;
        odd = odd == NULL ? step : about_form ? forms_odd_one(bench, odd, step) : odd;
    }
    if (!bench_said(bench, DIAG_LOOK_ALIKE, odd->span)) { /* then it is another salt */
        forms_offer(bench, rules_say(bench, rule, forms_span(odd)), odd);
    }
}

static void try_rule(struct bench *bench, const struct rule *rule)
{
    const struct rule_condition *main = NULL;
    for (size_t i = 0; i < rule->condition_count; i++) {
        const struct rule_condition *condition = &rule->conditions[i];
        if (condition->relation == RELATION_MISSING && !missing(bench, condition->subject)) {
            return;
        }
        main = main == NULL && condition->relation != RELATION_MISSING ? condition : main;
    }
    if (main == NULL || (rule->conditions[0].relation == RELATION_MISSING && all_are_there(bench, rule))) {
        rules_say_missing(bench, rule, NULL);
        return;
    }
    if (rule->condition_count == 1 && main->relation == RELATION_THERE && main->measured_by != MOST_SUBJECTS) {
        if (within_ratio(bench, main)) {
            rules_say_ratio(bench, rule, main);
        }
        return;
    }
    if (rule->id == DIAG_FORM_UNUSUAL) {
        try_forms(bench, rule);
        return;
    }
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        const struct step *step = rule_holds(bench, rule, part, main);
        if (step != NULL && (rule->conditions[0].relation == RELATION_MISSING || rule->id == DIAG_LOOK_ALIKE)) {
            rules_say_missing(bench, rule, step);
            return;
        }
        if (step != NULL && main->measured_by != MOST_SUBJECTS) {
            rules_say_ratio(bench, rule, main);
            return;
        }
        if (step != NULL) {
            rules_offer_order(bench, rules_say(bench, rule, step->span), rule, part, step);
            return;
        }
    }
    for (const struct use *use = bench->formula->uses; use != NULL; use = use->next) {
        struct span where;
        if (rule->condition_count == 1 && main->relation == RELATION_MEETS && meet_in_use(bench, main, use, &where)) {
            rules_say(bench, rule, where);
            return;
        }
    }
}

void rules_run(struct bench *bench)
{
    const struct rules_of_kind *picked = rules_pick(bench->rules, bench->formula->kind);
    for (size_t w = 0; w < picked->words; w++) {
        for (uint64_t bits = rules_candidates(picked, &bench->contents.there, w); bits != 0; bits &= bits - 1) {
            const struct rule *rule = picked->rules[w * 64 + (size_t)__builtin_ctzll(bits)];
            if (rule_may_hold(rule, &bench->contents) && rule_is_for_purpose(bench->rules, rule, bench->formula)) {
                try_rule(bench, rule);
            }
        }
    }
}
