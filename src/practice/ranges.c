/* Usual ranges of materials, and where an amount stands in them.
 *
 * What counts is the bath as it is used: a part or a stock is held against the working range at its dilution; the range of
 * stocks serves where only that is known. */
#include "practice/ranges.h"

#include "library/groups.h"

#include <math.h>

/* The widest range that the library knows for this kind and strength. */
static struct typical_bounds find_bounds(const struct material *material, struct text kind, enum bath_strength strength)
{
    struct typical_bounds bounds = {.low = INFINITY};
    for (size_t i = 0; i < material->typical_count; i++) {
        const struct typical_range *range = &material->typical[i];
        if (text_equal(range->kind, kind) && (range->strength == STRENGTH_ANY || range->strength == strength)) {
            bounds.found = true;
            bounds.by_volume = range->by_volume;
            bounds.low = fmin(bounds.low, range->low);
            bounds.high = fmax(bounds.high, range->high);
        }
    }
    return bounds;
}

bool amount_is_known(const struct material *material, struct text kind)
{
    for (size_t i = 0; i < material->typical_count; i++) {
        if (text_equal(material->typical[i].kind, kind)) {
            return true;
        }
    }
    return false;
}

static void take_share(struct shares *shares, double share)
{
    if (share > 0) {
        shares->least = fmin(shares->least, share);
        shares->most = fmax(shares->most, share);
        shares->known = true;
    }
}

/* What is in another part comes into the bath as that does: diluted where uses say so, else as it is. */
static void take_share_through(struct shares *shares, const struct formula *formula, const struct part *other, double share)
{
    bool used = false;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        double of_other = use_share(use, formula, other);
        if (of_other > 0) {
            take_share(shares, share * of_other);
            used = true;
        }
    }
    if (!used) {
        take_share(shares, share);
    }
}

static bool takes_in(const struct part *part)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step->how == ADD_SOLUTION) {
            return true;
        }
    }
    return false;
}

/* How a part comes into the baths: by uses (but for `except`), and by other parts that take it in. */
struct shares ranges_shares(const struct formula *formula, const struct part *part, const struct use *const *except, size_t except_count)
{
    struct shares shares = {INFINITY, 0, false};
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        bool left_out = false;
        for (size_t i = 0; i < except_count; i++) {
            left_out = left_out || except[i] == use;
        }
        if (!left_out) {
            take_share(&shares, use_share(use, formula, part));
        }
    }
    for (const struct part *other = formula->parts; other != NULL; other = other->next) {
        for (const struct step *step = other->steps; step != NULL; step = step->next) {
            if (step->how == ADD_SOLUTION && step->solution == part && step->volume > 0 && other->makes > 0) {
                take_share_through(&shares, formula, other, part_share(other, step->volume));
            }
        }
    }
    if (!shares.known) {
        /* What takes the others in is the bath itself. */
        shares.known = except_count == 0 && formula->part_count > 1 && takes_in(part);
        shares.least = shares.most = 1;
    }
    return shares;
}

double amount_share(const struct formula *formula, const struct part *part)
{
    struct shares shares = ranges_shares(formula, part, NULL, 0);
    return shares.known || formula->part_count == 1 ? shares.most : NAN;
}

/* g/L of the usual form (mL/L for ranges by volume) in the part's own volume; NAN when it cannot be known. */
double ranges_concentration(const struct material *material, const struct form *form, double mass, const struct part *part, bool by_volume)
{
    double grams = form == NULL || form == material->usual ? mass : form_equivalent(form, material->usual, mass);
    double per_litre = part_per_litre(part, isnan(grams) ? mass : grams);
    return by_volume ? per_litre / material->usual->density : per_litre;
}

/* `form` NULL: the usual one. */
struct judgement ranges_judge(const struct formula *formula, const struct part *part, const struct material *material,
                              const struct form *form, double mass, const struct shares *shares)
{
    struct judgement judgement = {.verdict = NOT_KNOWN, .where = ""};
    struct typical_bounds working = find_bounds(material, formula->kind, STRENGTH_WORKING);
    struct typical_bounds stock = find_bounds(material, formula->kind, STRENGTH_STOCK);
    if (working.found) {
        double value = ranges_concentration(material, form, mass, part, working.by_volume);
        /* An undiluted formula may be a concentrate whose dilution stands nowhere. */
        judgement.bounds = working;
        if (!shares->known && stock.found) {
            judgement.bounds.high = fmax(working.high, stock.high);
        }
        /* A part that nothing says the share of may be of any strength. */
        if (!shares->known && formula->part_count > 1) {
            judgement.bounds.high = INFINITY;
        }
        if (value * shares->least > judgement.bounds.high * 1.001) {
            judgement.verdict = TOO_MUCH;
            judgement.value = value * shares->least;
        } else if (value * shares->most < working.low * 0.999) {
            judgement.verdict = TOO_LITTLE;
            judgement.value = value * shares->most;
            judgement.bounds = working;
        } else {
            judgement.verdict = isnan(value) ? NOT_KNOWN : USUAL;
        }
    } else if (stock.found) {
        double value = ranges_concentration(material, form, mass, part, stock.by_volume);
        judgement.bounds = stock;
        judgement.value = value;
        judgement.where = " stock";
        judgement.verdict = value > stock.high * 1.001  ? TOO_MUCH
                            : value < stock.low * 0.999 ? TOO_LITTLE
                            : isnan(value)              ? NOT_KNOWN
                                                        : USUAL;
    }
    return judgement;
}

bool ranges_judge_it(const struct step *step, const struct part *part)
{
    return step_is_addition(step) && step->material != NULL && !isnan(step->mass) && step->mass > 0 &&
           !step->material->is_water && !isnan(part->makes);
}

/* What the bath holds of the step's material beside what the step adds, in the same unit as `value` g/L of it in its part, times its
 * share: a material that comes in twice is judged together. */
static double elsewhere(const struct formula *formula, const struct step *step, bool by_volume)
{
    double sum = 0;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        double share = NAN;
        for (const struct step *other = part->steps; other != NULL; other = other->next) {
            if (other == step || other->material != step->material || !ranges_judge_it(other, part)) {
                continue;
            }
            share = isnan(share) ? amount_share(formula, part) : share;
            double more = ranges_concentration(other->material, other->form, other->mass, part, by_volume) * share;
            sum += isnan(more) ? 0 : more;
        }
    }
    return sum;
}

/* The share of a stock that is diluted 1+9. */
static const double MANY_TIMES = 0.1;

/* A preservative is for the bottle: in what is diluted many times as it is used there may be any little of it. */
static bool keeps_the_stock(const struct material *material, const struct shares *shares, const struct judgement *judgement)
{
    return shares->known && shares->most <= MANY_TIMES && judgement->value / shares->most >= judgement->bounds.low &&
           material_has_role(material, TEXT("preservative"));
}

struct judgement ranges_judge_step(const struct formula *formula, const struct part *part, const struct step *step,
                                   const struct shares *shares)
{
    struct judgement judgement = ranges_judge(formula, part, step->material, step->form, step->mass, shares);
    if (judgement.verdict == TOO_LITTLE &&
        (judgement.value + elsewhere(formula, step, judgement.bounds.by_volume) >= judgement.bounds.low * 0.999 ||
         keeps_the_stock(step->material, shares, &judgement))) {
        judgement.verdict = USUAL;
    }
    return judgement;
}

bool amount_would_fit(const struct formula *formula, const struct part *part, const struct step *step, const struct material *other)
{
    struct shares shares = ranges_shares(formula, part, NULL, 0);
    enum verdict verdict = ranges_judge(formula, part, other, NULL, step->mass, &shares).verdict;
    return verdict == USUAL || verdict == NOT_KNOWN;
}

double amount_place(const struct formula *formula, const struct part *part, const struct step *step)
{
    struct shares shares = ranges_shares(formula, part, NULL, 0);
    struct judgement judgement = ranges_judge_step(formula, part, step, &shares);
    const struct typical_bounds *bounds = &judgement.bounds;
    if (!bounds->found || judgement.verdict == NOT_KNOWN || isinf(bounds->high)) {
        return 0;
    }
    double value = ranges_concentration(step->material, step->form, step->mass, part, bounds->by_volume) * shares.most;
    double middle = (log(bounds->low) + log(bounds->high)) / 2;
    return (log(value) - middle) / (log(bounds->high) - middle);
}

bool amount_is_diluted(const struct use *use)
{
    return !isnan(use->stock_parts) && !isnan(use->water_parts) && use->ratio != NULL;
}
