/* The table of checks, and the checks that need no rule. */
#include "practice/practice.h"

#include "batch/batch.h"
#include "practice/checks/dissolving.h"
#include "practice/checks/doubtful_volumes.h"
#include "practice/checks/look_alike.h"
#include "practice/checks/meetings.h"
#include "practice/checks/temperatures.h"
#include "practice/checks/unit_systems.h"
#include "practice/checks/unusual_amounts.h"
#include "practice/checks/usual_uses.h"
#include "practice/classes/classes.h"
#include "practice/rules/rules.h"

#include <math.h>
#include <stdio.h>

/* ---- the gravest poisons and explosives ---- */

static bool is_first_of_material(const struct formula *formula, const struct step *wanted)
{
    EACH_STEP(formula, part, step)
    {
        if (step_is_addition(step) && step->material == wanted->material) {
            return step == wanted;
        }
    }
    return false;
}

static void check_grave(struct bench *bench)
{
    EACH_STEP(bench->formula, part, step)
    {
        if (step_is_addition(step) && step->material != NULL && step->material->stop.length > 0 && is_first_of_material(bench->formula, step)) {
            struct diagnostic *diagnostic =
                bench_say(bench, DIAG_GRAVE_DANGER, step->span, "stop: %.*s: %.*s",
                             TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(step->material->stop));
            diagnostics_help(bench->formulary->diagnostics, diagnostic,
                             "look for a formula without it; who may work with it reads the safety data sheet and the local rules first");
        }
    }
}

/* ---- added twice ---- */

/* What goes in as needed may go in again later, but not in two lines with nothing between them. */
static bool may_be_added_again(const struct step *before, const struct step *step)
{
    bool as_needed = before->how == ADD_AS_NEEDED || step->how == ADD_AS_NEEDED;
    return as_needed && !(before->how == step->how && before->next == step);
}

static void check_added_twice(struct bench *bench)
{
    EACH_STEP(bench->formula, part, step)
    {
        if (!step_is_addition(step) || step->material == NULL || step->material->is_water) {
            continue;
        }
        for (const struct step *before = part->steps; before != step; before = before->next) {
            bool same = step_is_addition(before) && before->material == step->material && !may_be_added_again(before, step) &&
                        before->how != ADD_TO_MAKE && step->how != ADD_TO_MAKE;
            if (!same) {
                continue;
            }
            struct diagnostic *diagnostic = bench_say(bench, DIAG_ADDED_TWICE, step->span,
                                                "%.*s is added a second time", TEXT_ARGUMENTS(step->material->name));
            diagnostics_relate(bench->formulary->diagnostics, diagnostic, before->span, "the first time is here");
            diagnostics_help(bench->formulary->diagnostics, diagnostic,
                             "leave one out; a little taken ahead from a later addition is written: pinch of %.*s",
                             TEXT_ARGUMENTS(step->material->name));
            diagnostics_fix(bench->formulary->diagnostics, diagnostic, step->span, "", "leave this line out");
            break;
        }
    }
}

/* ---- parts that hold nothing ---- */

static const struct step *water_alone(const struct part *part)
{
    const struct step *water = NULL;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step_is_addition(step)) {
            if (step->material == NULL || !step->material->is_water) {
                return NULL;
            }
            water = water == NULL ? step : water;
        }
    }
    return water;
}

/* A stock of water would not be a part: the line with what it holds was left out. */
static void check_empty_parts(struct bench *bench)
{
    for (const struct part *part = bench->formula->parts; part != NULL && bench->formula->part_count > 1; part = part->next) {
        const struct step *water = water_alone(part);
        if (water == NULL) {
            continue;
        }
        struct diagnostic *diagnostic =
            bench_say(bench, DIAG_ROLE_MISSING, water->span, "this part holds nothing but water");
        diagnostics_help(bench->formulary->diagnostics, diagnostic,
                         "look in the source for the line that is missing; a bath of plain water is written where it is used: mix A 1 + water 1");
    }
}

/* ---- what the scale cannot show ---- */

static const double UNNAMED_SCALE = 0.4; /* half a step is then 5 % */

static void check_small_weights(struct bench *bench)
{
    if (isnan(bench->batch) && bench->formula->parts->makes < PRACTICE_SMALLEST_BATCH) {
        return;
    }
    const struct formula *mixed = isnan(bench->batch) ? bench->formula
                                                         : batch_make(bench->formulary->arena, bench->formula, batch_scale(bench->formula, bench->batch),
                                                                      NULL, &(struct scales){bench->balance, 0})->formula;
    EACH_STEP(mixed, part, step)
    {
        if (!step_is_addition(step) || step->how != ADD_BY_MASS || step->from_parts) {
            continue;
        }
        double grams = step->mass;
        double error = reading_bound(grams, bench->balance);
        /* A figure that is unusual anyway has to be put right before it is weighed. */
        /* Of a scale that nobody has named only what is well below its reach is said. */
        double least = practice_least_weight(bench->balance) * (bench->balance_said ? 1 : UNNAMED_SCALE);
        if (grams >= least * (1 - 1e-9) || bench_said(bench, DIAG_AMOUNT_UNUSUAL, step->amount_span)) {
            continue;
        }
        struct diagnostic *diagnostic =
            bench_say(bench, DIAG_TOO_SMALL_TO_WEIGH, step->amount_span,
                "%.3g g cannot be weighed well: a scale that shows %.3g g is off by up to %.2g %%", grams,
                bench->balance, error * 100);
        double most = dissolving_most(step->material, step->form, PERCENT_PLAIN);
        double percent = most >= 10 ? 10 : most >= 1 ? 1 : 0.1;
        const char *taken = percent == 10 ? "10" : percent == 1 ? "1" : "0.1";
        diagnostics_help(bench->formulary->diagnostics, diagnostic, "take it from a stock: %.4g mL of %s %% hold as much",
                         grams * 100 / percent, taken);
        struct span end = {step->amount_span.end, step->amount_span.end};
        diagnostics_fix(bench->formulary->diagnostics, diagnostic, end,
                        percent == 10  ? " from 10 % stock"
                        : percent == 1 ? " from 1 % stock"
                                       : " from 0.1 % stock",
                        "take it from a %s %% stock", taken);
    }
}

/* ---- the table ---- */

/* One check: its name, what it needs, and the function. */
static const struct practice_check {
    const char *name;
    bool needs_sound;    /* only formulas without errors */
    void (*run)(struct bench *bench);
} checks[] = {
    {"grave-danger", false, check_grave},
    {"added-twice", false, check_added_twice}, /* a liquid that stands there twice may overfill the bath */
    {"empty-part", true, check_empty_parts},
    {"volumes", true, volumes_check},
    {"after-the-mark", true, volumes_check_mark},
    {"stock-too-strong", false, dissolving_check},
    {"classes", true, classes_check},
    {"look-alike", true, look_alike_check},
    {"amount-unusual", true, amounts_check},
    {"too-much-to-dissolve", true, dissolving_check_rest},
    {"reactions", false, meetings_check}, /* a poison gas does not wait until the water is written */
    {"unit-systems", true, unit_systems_check},
    {"temperature-unusual", false, temperatures_check},
    {"usual-uses", true, usual_uses_check},
    {"too-small-to-weigh", true, check_small_weights},
};

void practice_start(struct bench *bench)
{
    struct library *library = bench->formulary->library;
    bench->rules = ARENA_NEW(library->arena, struct rules);
    rules_start(bench->rules, library);
}

/* Another formula lies on the bench from now on; the room for its lines serves again. */
static void lay_on(struct bench *bench, struct formula *formula)
{
    bench->formula = formula;
    bench->said_from = bench->formulary->diagnostics->count;
    bench->verdict = (struct class_verdict){0};
    bench->bath.known = false;
    bench->contents = (struct contents){0};
    rules_gather_all(bench);
}

void practice_check_formula(void *context, struct formula *formula)
{
    struct bench *bench = context;
    if (formula->practised) {
        return;
    }
    formula->practised = true;
    if (formula->variant_of != NULL) { /* what is said of the parent is not said of the variant again */
        practice_check_formula(bench, formula->variant_of);
    }
    lay_on(bench, formula);
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++) {
        if (!checks[i].needs_sound || !formula->faulty) {
            checks[i].run(bench);
        }
    }
    if (!formula->faulty) {
        rules_run(bench);
    }
}
