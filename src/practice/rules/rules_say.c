/* What rules say, of which line, and the repairs that go with it. */
#include "practice/rules/rules_say.h"

#include "practice/ranges.h"
#include "practice/repairs/amount_repairs.h"
#include "practice/repairs/line_repairs.h"

#include <math.h>

bool rule_is_silenced(const struct bench *bench, struct text name)
{
    for (const struct silenced_rule *silenced = bench->formula->silenced_rules; silenced != NULL; silenced = silenced->next) {
        if (text_equal(silenced->name, name)) {
            return true;
        }
    }
    for (const struct silenced_rule *silenced = bench->formulary->silenced_rules; silenced != NULL;
         silenced = silenced->next) {
        if (text_equal(silenced->name, name)) {
            return true;
        }
    }
    return false;
}

static bool has_purpose(const struct rule *rule, struct text purpose)
{
    for (size_t i = 0; i < rule->purpose_count; i++) {
        if (text_equal(rule->purposes[i], purpose)) {
            return true;
        }
    }
    return false;
}

bool rule_is_for_purpose(const struct rules *rules, const struct rule *rule, const struct formula *formula)
{
    for (const struct word *word = rule->purpose_count == 0 ? NULL : formula->purposes; word != NULL; word = word->next) {
        if (has_purpose(rule, names_folded(rules->library->names, word->name)->spelling)) {
            return true;
        }
    }
    return rule->purpose_count == 0;
}

struct diagnostic *rules_say(struct bench *bench, const struct rule *rule, struct span span)
{
    /* What has been said of a line is not said of it again in other words; a line that should go needs no other place; and the
     * temperature of the water is one figure, however many lines it is wrong for. */
    struct span anywhere = {bench->formula->declaration->span.begin, declaration_end(bench->formula->declaration)};
    if (rule_is_silenced(bench, rule->name) || bench_said(bench, rule->id, span) ||
        (rule->id == DIAG_AMOUNT_UNUSUAL && bench_doubts_amount(bench, span)) ||
        (rule->id == DIAG_ORDER && bench_said(bench, DIAG_ADDED_TWICE, span)) ||
        (rule->id == DIAG_TEMPERATURE_UNUSUAL && bench_said(bench, DIAG_TEMPERATURE_UNUSUAL, anywhere))) {
        return NULL;
    }
    struct diagnostic *diagnostic =
        bench_say(bench, rule->id, span, "%.*s", TEXT_ARGUMENTS(rule->warn));
    if (rule->advise.length > 0) {
        diagnostics_help(bench->formulary->diagnostics, diagnostic, "%.*s (rule %.*s)", TEXT_ARGUMENTS(rule->advise),
                         TEXT_ARGUMENTS(rule->shown));
    }
    return diagnostic;
}

/* Of two that do not go together, the one whose amount is further from the middle of what is usual is the likelier slip; where they are
 * as far as this, it may be either. */
static const double AS_LIKELY = 0.5;

/* The additions of a ratio: of either side the one that is furthest out of the usual. */
struct two_sides {
    struct amount_place side[2];
    bool all_vouched;
    bool doubted;       /* something has been said of one already */
};

static void weigh_sides(struct bench *bench, const struct rule_condition *condition, struct two_sides *sides)
{
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            bool subject = rules_step_is(bench->rules, step, condition->subject);
            if (!step_is_addition(step) || (!subject && !rules_step_is(bench->rules, step, condition->measured_by))) {
                continue;
            }
            sides->doubted = sides->doubted || bench_doubts_amount(bench, step->span);
            sides->all_vouched = sides->all_vouched && bench_vouches(bench, step);
            double of_class = bench_class_place(bench, step);
            double place = (isnan(of_class) ? amount_place(bench->formula, part, step) : of_class) * (subject == condition->over ? 1 : -1);
            if (place > sides->side[subject].place) {
                sides->side[subject] = (struct amount_place){part, step, place};
            }
        }
    }
}

static void say_side(struct bench *bench, const struct rule *rule, const struct rule_condition *condition,
                     const struct amount_place *blamed)
{
    struct diagnostic *diagnostic =
        bench_say(bench, rule->id, blamed->step->amount_span, "%.*s", TEXT_ARGUMENTS(rule->warn));
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "%.*s (rule %.*s)", TEXT_ARGUMENTS(rule->advise),
                     TEXT_ARGUMENTS(rule->shown));
    amount_offer_repairs(bench, diagnostic, blamed->part, blamed->step,
                         rules_step_is(bench->rules, blamed->step, condition->subject) == condition->over);
}

void rules_say_ratio(struct bench *bench, const struct rule *rule, const struct rule_condition *condition)
{
    struct two_sides sides = {{{NULL, NULL, -INFINITY}, {NULL, NULL, -INFINITY}}, true, false};
    weigh_sides(bench, condition, &sides);
    if (sides.doubted || sides.all_vouched || bench->verdict.volume_doubted || rule_is_silenced(bench, rule->name)) {
        return;
    }
    double furthest = fmax(sides.side[0].place, sides.side[1].place);
    double reach = rule->of_library ? AS_LIKELY : 0; /* a rule of the house knows which it is about */
    for (size_t i = 0; i < 2; i++) {
        if (sides.side[i].step != NULL && sides.side[i].place >= furthest - reach) {
            say_side(bench, rule, condition, &sides.side[i]);
        }
    }
}

/* What a developer for plates may do without, one for prints may not: of a rule for prints only a class of baths for prints knows
 * better. */
static bool knows_better(const struct rule *class, const struct rule *rule)
{
    bool shared = rule->purpose_count == 0;
    for (size_t i = 0; class != NULL && i < class->purpose_count; i++) {
        shared = shared || has_purpose(rule, class->purposes[i]);
    }
    return class != NULL && shared;
}

/* What the formula's class knows better than a rule for all baths of the kind: that nothing is missing, or that just this is. */
static bool is_said_by_class(struct bench *bench, const struct rule *rule)
{
    if (rule->id != DIAG_ROLE_MISSING || !rule->of_library) {
        return false;
    }
    bool said = knows_better(bench->verdict.complete, rule);
    for (size_t i = 0; i < rule->condition_count && bench->verdict.missing != NULL; i++) {
        said = said || (rule->conditions[i].relation == RELATION_MISSING &&
                        rules_material_is(bench->rules, bench->verdict.missing, rule->conditions[i].subject));
    }
    return said;
}

void rules_say_missing(struct bench *bench, const struct rule *rule, const struct step *beside)
{
    if (rule_is_silenced(bench, rule->name) || is_said_by_class(bench, rule)) {
        return;
    }
    bool of_names = rule->id == DIAG_ROLE_MISSING || rule->id == DIAG_LOOK_ALIKE;
    for (size_t i = 0; i < rule->condition_count && of_names; i++) {
        if (rule->conditions[i].relation == RELATION_MISSING &&
            look_alike_for_missing(bench, rule->conditions[i].subject,
                                   rule->id == DIAG_LOOK_ALIKE ? beside : NULL)) {
            return;
        }
    }
    struct span span = rule->id != DIAG_ROLE_MISSING && beside != NULL ? beside->span
                       : bench->formula->kind_span.end > 0                    ? bench->formula->kind_span
                                                                       : bench->formula->declaration->span;
    rules_say(bench, rule, span);
}

/* ---- what stands in the wrong order ---- */

/* The addition that changes places with the one that is pointed at; NULL when the rule does not tell. */
static const struct step *partner(const struct rules *rules, const struct rule *rule, const struct part *part, const struct step *step)
{
    for (size_t i = 0; i < rule->condition_count; i++) {
        const struct rule_condition *condition = &rule->conditions[i];
        if (condition->relation == RELATION_MISSING_BEFORE && rules_step_is(rules, step, condition->object)) {
            const struct step *late = rules_next_addition(rules, condition->subject, step->next, NULL);
            if (late != NULL) {
                return late;
            }
        }
    }
    const struct rule_condition *first = &rule->conditions[0];
    return first->relation == RELATION_AFTER    ? rules_next_addition(rules, first->object, part->steps, step)
           : first->relation == RELATION_BEFORE ? rules_next_addition(rules, first->object, step->next, NULL)
                                                : NULL;
}

void rules_offer_order(struct bench *bench, struct diagnostic *diagnostic, const struct rule *rule, const struct part *part,
                       const struct step *step)
{
    const struct step *other = rule->id == DIAG_ORDER && diagnostic != NULL ? partner(bench->rules, rule, part, step) : NULL;
    if (other != NULL) {
        bool later = rules_stands_after(other, step);
        lines_offer_exchange(bench, diagnostic, later ? step : other, later ? other : step);
    }
}
