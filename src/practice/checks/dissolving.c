/* What does not dissolve: stocks above saturation, and amounts that a bath cannot hold. */
#include "practice/checks/dissolving.h"

#include "base/number.h"
#include "chemistry/solubility.h"
#include "practice/repairs/repairs.h"

#include <math.h>

static struct diagnostic *say_too_strong(struct bench *bench, struct span span, const struct material *material, double limit)
{
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_STOCK_TOO_STRONG, span, "%.*s does not dissolve to that strength in water at 20 °C",
            TEXT_ARGUMENTS(material->name));
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "about %.3g %% is the most; use a weaker stock or another solvent",
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

/* Salts whose solubility no other addition raises much: the amount is a slip before it is anything else. */
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

static void check_addition(struct bench *bench, const struct part *part, const struct step *step)
{
    if (!step_is_addition(step) || step->material == NULL || step->how != ADD_BY_MASS || !(part->makes > 0)) {
        return;
    }
    double limit = dissolving_most(step->material, step->form, PERCENT_PLAIN);
    double percent = part_share(part, least_substance(step)) * 100;
    if (percent <= limit * WELL_ABOVE || part_keeps_dissolved(bench->formulary->library, part, step)) {
        return;
    }
    struct diagnostics *diagnostics = bench->formulary->diagnostics;
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_STOCK_TOO_STRONG, step->amount_span,
                     "%s g of %.*s in a litre do not stay dissolved at 20 °C",
                     number_print_significant(bench->formulary->arena, percent * 10, 3), TEXT_ARGUMENTS(step->material->name));
    diagnostics_help(diagnostics, diagnostic, "about %.3g g are the most; check the figure, its point and its unit", limit * 10);
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(bench, step, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 3; i++) {
        if (percent * repairs[i].factor <= limit && repairs[i].factor < 1) {
            repair_offer(bench, diagnostic, &repairs[i]);
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
static void check_strength_is_kept(struct bench *bench, const struct step *step)
{
    const struct stock *kept = other_stock(bench->formulary, step);
    if (kept == NULL || kept->saturated || isnan(step->stock_percent) || bench_said(bench, DIAG_STOCK_TOO_STRONG, step->span)) {
        return;
    }
    struct diagnostics *diagnostics = bench->formulary->diagnostics;
    const char *strength = number_print(bench->formulary->arena, kept->percent, 4);
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, step->amount_span, "the stock of %.*s that is kept here has another strength: %s %%",
                     TEXT_ARGUMENTS(step->material->name), strength);
    diagnostics_relate(diagnostics, diagnostic, kept->declaration->span, "it is declared here");
    diagnostics_help(diagnostics, diagnostic, "take that strength, or declare the other: stock %.*s %s %%",
                     TEXT_ARGUMENTS(step->material->name), number_print(bench->formulary->arena, step->stock_percent, 4));
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(bench, step, repairs);
    for (size_t i = 0; i < count && repairs[i].of_stock; i++) {
        if (fabs(step->stock_percent * repairs[i].factor - kept->percent) < 1e-6 * kept->percent) {
            repair_offer(bench, diagnostic, &repairs[i]);
        }
    }
}

void dissolving_check(struct bench *bench)
{
    EACH_STEP(bench->formula, part, step)
    {
        if (!step_is_addition(step) || step->how != ADD_STOCK) {
            if (!bench->formula->faulty && !bench->verdict.volume_doubted && step_is_addition(step) && step->material != NULL &&
                is_plain_salt(step->material)) {
                check_addition(bench, part, step);
            }
            continue;
        }
        double limit = dissolving_most(step->material, step->form, step->basis);
        if (step->stock_percent > limit * 1.02 && !declared_in_other_solvent(bench->formulary, step)) {
            struct diagnostic *diagnostic = say_too_strong(bench, step->amount_span, step->material, limit);
            struct repair repairs[MOST_REPAIRS];
            if (repairs_of_amount(bench, step, repairs) > 0 && repairs[0].of_stock && step->stock_percent / 10 <= limit) {
                repair_offer(bench, diagnostic, &repairs[0]);
            }
        }
        check_strength_is_kept(bench, step);
    }
}

void dissolving_check_rest(struct bench *bench)
{
    EACH_STEP(bench->formula, part, step)
    {
        if (!bench->verdict.volume_doubted && !bench_doubts_amount(bench, step->span)) {
            check_addition(bench, part, step);
        }
    }
}

void practice_check_stocks(struct bench *bench)
{
    struct formula none = {0};
    bench->formula = &none;
    for (const struct stock *stock = bench->formulary->stocks; stock != NULL; stock = stock->next) {
        if (stock->material == NULL || stock->solvent.length > 0) {
            continue;
        }
        double limit = dissolving_most(stock->material, stock->form, stock->basis);
        if (stock->percent > limit * 1.02) {
            say_too_strong(bench, stock->declaration->strength.span, stock->material, limit);
        }
    }
    bench->formula = NULL;
}
