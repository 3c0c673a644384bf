/* What does not dissolve: stocks above saturation, and amounts that a bath cannot hold. */
#include "practice/checks/dissolving.h"

#include "base/number.h"
#include "practice/classes/classes.h"
#include "practice/repairs/repairs.h"

#include <math.h>

static struct diagnostic *say_too_strong(const struct practice *practice, struct formula *formula, struct span span,
                           const struct material *material, double limit)
{
    struct diagnostic *diagnostic =
        practice_say(practice, formula, DIAG_STOCK_TOO_STRONG, span, "%.*s does not dissolve to that strength in water at 20 °C",
            TEXT_ARGUMENTS(material->name));
    diagnostics_help(practice->formulary->diagnostics, diagnostic, "about %.3g %% is the most; use a weaker stock or another solvent",
                     limit);
    return diagnostic;
}

/* The most that a stock in water can hold at 20 °C, in the same per cent; INFINITY when no figure speaks against more. */
double dissolving_most(const struct material *material, const struct form *form, enum percent_basis basis)
{
    if (material->liquid || basis == PERCENT_VOLUME_IN_VOLUME) {
        return INFINITY;
    }
    double limit = material_saturated_percent(material, form);
    return isnan(limit) ? INFINITY : limit;
}

static bool declared_in_other_solvent(const struct formulary *formulary, const struct step *step)
{
    const struct stock *stock = formulary_stock(formulary, step);
    return stock != NULL && stock->solvent.length > 0;
}

/* Salts whose solubility no other addition raises much; developing agents and acids dissolve better in an alkaline bath. */
static bool is_plain_salt(const struct material *material)
{
    static const char *const roles[] = {"alkali", "preservative", "restrainer", "fixing agent"};
    for (size_t i = 0; i < sizeof roles / sizeof *roles && material->role_count > 0; i++) {
        if (text_is(material->roles[0], roles[i])) {
            return true;
        }
    }
    for (size_t i = 0; i < material->role_count; i++) {
        if (text_is(material->roles[i], "salt")) {
            return true;
        }
    }
    return false;
}

/* For each form the per cent that a bath holds at 20 °C; INFINITY when there is nothing to say about it. */
static const double *find_limits(const struct practice *practice, const struct material *material)
{
    double *limits = ARENA_ARRAY(practice->formulary->arena, double, material->form_count);
    bool plain = is_plain_salt(material);
    for (size_t i = 0; i < material->form_count; i++) {
        limits[i] = plain ? dissolving_most(material, &material->forms[i], PERCENT_PLAIN) : INFINITY;
    }
    return limits;
}

static double limit_of(const struct practice *practice, const struct material *material, const struct form *form)
{
    struct material_marks *marks = material->marks;
    if (marks->dissolving == NULL) {
        marks->dissolving = find_limits(practice, material);
    }
    return marks->dissolving[form - material->forms];
}

/* The weight read as the form with the most water, where an old formula does not say which. */
static double least_substance(const struct step *step)
{
    double least = step->mass;
    for (size_t i = 0; step->form_assumed && i < step->material->form_count; i++) {
        double read = form_equivalent(&step->material->forms[i], step->form, step->mass);
        least = read < least ? read : least;
    }
    return least;
}

/* Common practice does not work at saturation, and the figures of handbooks differ: only what is well above is said. */
static const double WELL_ABOVE = 1.25;

static void check_addition(const struct practice *practice, struct formula *formula, const struct part *part,
                           const struct step *step)
{
    if (!step_is_addition(step) || step->material == NULL || step->how != ADD_BY_MASS || !(part->makes > 0)) {
        return;
    }
    double limit = limit_of(practice, step->material, step->form);
    double percent = least_substance(step) / part->makes * 100;
    if (percent <= limit * WELL_ABOVE) {
        return;
    }
    struct diagnostics *diagnostics = practice->formulary->diagnostics;
    struct diagnostic *diagnostic =
        practice_say(practice, formula, DIAG_STOCK_TOO_STRONG, step->amount_span,
                     "%s g of %.*s in a litre do not stay dissolved at 20 °C",
                     number_print_significant(practice->formulary->arena, percent * 10, 3), TEXT_ARGUMENTS(step->material->name));
    diagnostics_help(diagnostics, diagnostic, "about %.3g g are the most; check the figure, its point and its unit", limit * 10);
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(practice, formula, step, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 3; i++) {
        if (percent * repairs[i].factor <= limit && repairs[i].factor < 1) {
            repair_offer(practice, diagnostic, &repairs[i]);
            offered++;
        }
    }
}

/* The stock of that material that a line `stock` declares; NULL when none does, or when one has just that strength. */
static const struct stock *other_stock(const struct formulary *formulary, const struct step *step)
{
    const struct stock *other = NULL;
    for (const struct stock *stock = formulary->stocks; stock != NULL; stock = stock->next) {
        if (stock->material != step->material) {
            continue;
        }
        if (fabs(stock->percent - step->stock_percent) < 1e-6 * stock->percent) {
            return NULL;
        }
        other = stock;
    }
    return other;
}

/* Where the darkroom says what stocks it keeps, a formula that draws on another strength of one is a slip, or wants a stock of its
 * own. */
static void check_strength_is_kept(const struct practice *practice, struct formula *formula, const struct step *step)
{
    const struct stock *kept = other_stock(practice->formulary, step);
    if (kept == NULL || kept->saturated || isnan(step->stock_percent) || practice_said(practice, DIAG_STOCK_TOO_STRONG, step->span)) {
        return;
    }
    struct diagnostics *diagnostics = practice->formulary->diagnostics;
    const char *strength = number_print(practice->formulary->arena, kept->percent, 4);
    struct diagnostic *diagnostic =
        practice_say(practice, formula, DIAG_AMOUNT_UNUSUAL, step->amount_span, "the stock of %.*s that is kept here has another strength: %s %%",
                     TEXT_ARGUMENTS(step->material->name), strength);
    diagnostics_relate(diagnostics, diagnostic, kept->declaration->span, "it is declared here");
    diagnostics_help(diagnostics, diagnostic, "take that strength, or declare the other: stock %.*s %s %%",
                     TEXT_ARGUMENTS(step->material->name), number_print(practice->formulary->arena, step->stock_percent, 4));
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(practice, formula, step, repairs);
    for (size_t i = 0; i < count && repairs[i].of_stock; i++) {
        if (fabs(step->stock_percent * repairs[i].factor - kept->percent) < 1e-6 * kept->percent) {
            repair_offer(practice, diagnostic, &repairs[i]);
        }
    }
}

void dissolving_check(const struct practice *practice, struct formula *formula)
{
    EACH_STEP(formula, part, step)
    {
        if (!step_is_addition(step) || step->how != ADD_STOCK) {
            if (!formula->faulty && !practice->verdict->volume_doubted) {
                check_addition(practice, formula, part, step);
            }
            continue;
        }
        double limit = dissolving_most(step->material, step->form, step->basis);
        if (step->stock_percent > limit * 1.02 && !declared_in_other_solvent(practice->formulary, step)) {
            struct diagnostic *diagnostic = say_too_strong(practice, formula, step->amount_span, step->material, limit);
            struct repair repairs[MOST_REPAIRS];
            if (repairs_of_amount(practice, formula, step, repairs) > 0 && repairs[0].of_stock && step->stock_percent / 10 <= limit) {
                repair_offer(practice, diagnostic, &repairs[0]);
            }
        }
        check_strength_is_kept(practice, formula, step);
    }
}

void practice_check_stocks(const struct practice *practice)
{
    struct formula none = {0};
    for (const struct stock *stock = practice->formulary->stocks; stock != NULL; stock = stock->next) {
        if (stock->material == NULL || stock->solvent.length > 0) {
            continue;
        }
        double limit = dissolving_most(stock->material, stock->form, stock->basis);
        if (stock->percent > limit * 1.02) {
            say_too_strong(practice, &none, stock->declaration->strength.span, stock->material, limit);
        }
    }
}
