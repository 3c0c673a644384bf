/* The table of checks, and the checks that need no rule. */
#include "batch/batch.h"
#include "practice/checks/unusual_amounts.h"
#include "practice/classes/class_pairing.h"
#include "practice/checks/dissolving.h"
#include "practice/checks/look_alike.h"
#include "practice/meetings.h"
#include "practice/repairs/repairs.h"
#include "practice/rules/rules.h"
#include "practice/checks/temperatures.h"
#include "practice/checks/unit_systems.h"
#include "practice/checks/doubtful_volumes.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static struct diagnostics *diagnostics_of(const struct practice *practice)
{
    return practice->formulary->diagnostics;
}

struct diagnostic *practice_say(const struct practice *practice, struct formula *formula, enum diagnostic_id id,
                                struct span span, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    struct diagnostic *diagnostic = formula_say(diagnostics_of(practice), formula, id, span, format, arguments);
    va_end(arguments);
    return diagnostic;
}

bool practice_said(const struct practice *practice, enum diagnostic_id id, struct span span)
{
    return diagnostics_any(practice->formulary->diagnostics, id, span, practice->said_from);
}

bool practice_doubts_amount(const struct practice *practice, struct span line)
{
    return practice_said(practice, DIAG_AMOUNT_UNUSUAL, line) || practice_said(practice, DIAG_LOOK_ALIKE, line) ||
           practice_said(practice, DIAG_STOCK_TOO_STRONG, line);
}

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

static void check_grave(const struct practice *practice, struct formula *formula)
{
    EACH_STEP(formula, part, step)
    {
        if (step_is_addition(step) && step->material != NULL && step->material->stop.length > 0 && is_first_of_material(formula, step)) {
            struct diagnostic *diagnostic =
                practice_say(practice, formula, DIAG_GRAVE_DANGER, step->span, "stop: %.*s: %.*s",
                             TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(step->material->stop));
            diagnostics_help(diagnostics_of(practice), diagnostic,
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

static void check_added_twice(const struct practice *practice, struct formula *formula)
{
    EACH_STEP(formula, part, step)
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
            struct diagnostic *diagnostic = practice_say(practice, formula, DIAG_ADDED_TWICE, step->span,
                                                "%.*s is added a second time", TEXT_ARGUMENTS(step->material->name));
            diagnostics_relate(diagnostics_of(practice), diagnostic, before->span, "the first time is here");
            diagnostics_help(diagnostics_of(practice), diagnostic,
                             "leave one out; a little taken ahead from a later addition is written: pinch of %.*s",
                             TEXT_ARGUMENTS(step->material->name));
            diagnostics_fix(diagnostics_of(practice), diagnostic, step->span, "", "leave this line out");
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
static void check_empty_parts(const struct practice *practice, struct formula *formula)
{
    for (const struct part *part = formula->parts; part != NULL && formula->part_count > 1; part = part->next) {
        const struct step *water = water_alone(part);
        if (water == NULL) {
            continue;
        }
        struct diagnostic *diagnostic =
            practice_say(practice, formula, DIAG_ROLE_MISSING, water->span, "this part holds nothing but water");
        diagnostics_help(diagnostics_of(practice), diagnostic,
                         "look in the source for the line that is missing; a bath of plain water is written where it is used: mix A 1 + water 1");
    }
}

/* ---- what the scale cannot show ---- */

static const double UNNAMED_SCALE = 0.4; /* half a step is then 5 % */

static void check_small_weights(const struct practice *practice, struct formula *formula)
{
    if (isnan(practice->batch) && formula->parts->makes < PRACTICE_SMALLEST_BATCH) {
        return;
    }
    const struct formula *mixed = isnan(practice->batch) ? formula
                                                         : batch_make(practice->formulary->arena, formula, batch_scale(formula, practice->batch),
                                                                      NULL, &(struct scales){practice->balance, 0})->formula;
    EACH_STEP(mixed, part, step)
    {
        if (!step_is_addition(step) || step->how != ADD_BY_MASS || step->from_parts) {
            continue;
        }
        double grams = step->mass;
        double error = reading_bound(grams, practice->balance);
        /* A figure that is unusual anyway has to be put right before it is weighed. */
        /* Of a scale that nobody has named only what is well below its reach is said. */
        double least = practice_least_weight(practice->balance) * (practice->balance_said ? 1 : UNNAMED_SCALE);
        if (grams >= least * (1 - 1e-9) || practice_said(practice, DIAG_AMOUNT_UNUSUAL, step->amount_span)) {
            continue;
        }
        struct diagnostic *diagnostic =
            practice_say(practice, formula, DIAG_TOO_SMALL_TO_WEIGH, step->amount_span,
                "%.3g g cannot be weighed well: a scale that shows %.3g g is off by up to %.2g %%", grams,
                practice->balance, error * 100);
        double most = dissolving_most(step->material, step->form, PERCENT_PLAIN);
        double percent = most >= 10 ? 10 : most >= 1 ? 1 : 0.1;
        const char *taken = percent == 10 ? "10" : percent == 1 ? "1" : "0.1";
        diagnostics_help(diagnostics_of(practice), diagnostic, "take it from a stock: %.4g mL of %s %% hold as much",
                         grams * 100 / percent, taken);
        struct span end = {step->amount_span.end, step->amount_span.end};
        diagnostics_fix(diagnostics_of(practice), diagnostic, end,
                        percent == 10  ? " from 10 % stock"
                        : percent == 1 ? " from 1 % stock"
                                       : " from 0.1 % stock",
                        "take it from a %s %% stock", taken);
    }
}

/* ---- the table ---- */

static const struct practice_check checks[] = {
    {"grave-danger", false, check_grave},
    {"added-twice", false, check_added_twice}, /* a liquid that stands there twice may overfill the bath */
    {"empty-part", true, check_empty_parts},
    {"volumes", true, volumes_check},
    {"after-the-mark", true, volumes_check_mark},
    {"stock-too-strong", false, dissolving_check},
    {"classes", true, classes_check},
    {"look-alike", true, look_alike_check},
    {"amount-unusual", true, amounts_check},
    {"reactions", false, meetings_check}, /* a poison gas does not wait until the water is written */
    {"unit-systems", true, unit_systems_check},
    {"temperature-unusual", false, temperatures_check},
    {"too-small-to-weigh", true, check_small_weights},
};

void practice_start(struct practice *practice)
{
    struct library *library = practice->formulary->library;
    practice->rules = ARENA_NEW(library->arena, struct rules);
    rules_start(practice->rules, library);
    practice->rules->pairings = class_pairings_start(library->arena);
    practice->verdict = ARENA_NEW(library->arena, struct class_verdict);
}

void practice_check_formula(void *context, struct formula *formula)
{
    struct practice *practice = context;
    if (formula->practised) {
        return;
    }
    formula->practised = true;
    if (formula->variant_of != NULL) { /* what is said of the parent is not said of the variant again */
        practice_check_formula(practice, formula->variant_of);
    }
    practice->said_from = diagnostics_of(practice)->count;
    *practice->verdict = (struct class_verdict){0};
    rules_begin(practice->rules);
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++) {
        if (!checks[i].needs_sound || !formula->faulty) {
            checks[i].run(practice, formula);
        }
    }
    if (!formula->faulty) {
        rules_run(practice->rules, practice, formula);
    }
}
