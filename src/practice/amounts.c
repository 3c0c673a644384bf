/* Amounts held against what baths of a kind usually hold.
 *
 * What counts is the bath as it is used: a part or a stock is held against the working range at its dilution; the range of
 * stocks serves where only that is known.  When most amounts are off the same way, one figure is wrong that they all hang on:
 * the dilution, or the final volume. */
#include "practice/amounts.h"

#include "practice/look_alike.h"
#include "practice/repairs.h"

#include <math.h>
#include <string.h>

enum verdict { TOO_LITTLE = -1, USUAL = 0, TOO_MUCH = 1, NOT_KNOWN = 2 };

/* The dilutions that a part is used at, as shares of it in the bath. */
struct shares {
    double least;
    double most;
    bool known;    /* false: it is used as it is, or a stock whose dilution stands nowhere */
};

struct judgement {
    enum verdict verdict;
    double value;         /* in the unit of the bounds, in a litre */
    struct typical_bounds bounds;
    const char *where;    /* " stock", or nothing */
};

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

/* The bounds for a kind, which are asked for once a line; those of the last kind are kept with the material. */
static const struct material_marks *bounds_for(const struct material *material, struct text kind)
{
    struct material_marks *marks = material->marks;
    if (marks->bounds_kind != kind.at || kind.at == NULL) {
        marks->working = find_bounds(material, kind, STRENGTH_WORKING);
        marks->stock = find_bounds(material, kind, STRENGTH_STOCK);
        marks->bounds_kind = kind.at;
    }
    return marks;
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
static struct shares part_shares(const struct formula *formula, const struct part *part, const struct use *const *except,
                                 size_t except_count)
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
                take_share(&shares, step->volume / other->makes);
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
    struct shares shares = part_shares(formula, part, NULL, 0);
    return shares.known || formula->part_count == 1 ? shares.most : NAN;
}

/* g/L of the usual form (mL/L for ranges by volume) in the part's own volume; NAN when it cannot be known. */
static double concentration(const struct material *material, const struct form *form, double mass, const struct part *part,
                            bool by_volume)
{
    double grams = form == NULL || form == material->usual ? mass : form_equivalent(form, material->usual, mass);
    if (isnan(grams)) {
        grams = mass;
    }
    double litres = part->makes / 1000;
    return by_volume ? grams / material->usual->density / litres : grams / litres;
}

/* `form` NULL: the usual one. */
static struct judgement judge(const struct formula *formula, const struct part *part, const struct material *material,
                              const struct form *form, double mass, const struct shares *shares)
{
    struct judgement judgement = {.verdict = NOT_KNOWN, .where = ""};
    const struct material_marks *marks = bounds_for(material, formula->kind);
    struct typical_bounds working = marks->working;
    struct typical_bounds stock = marks->stock;
    if (working.found) {
        double value = concentration(material, form, mass, part, working.by_volume);
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
        double value = concentration(material, form, mass, part, stock.by_volume);
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

static bool is_judged(const struct step *step, const struct part *part)
{
    return step_is_addition(step) && step->material != NULL && !isnan(step->mass) && step->mass > 0 &&
           !step->material->is_water && !isnan(part->makes);
}

static struct judgement judge_step(const struct formula *formula, const struct part *part, const struct step *step,
                                   const struct shares *shares)
{
    return judge(formula, part, step->material, step->form, step->mass, shares);
}

bool amount_would_fit(const struct formula *formula, const struct part *part, const struct step *step,
                      const struct material *other)
{
    struct shares shares = part_shares(formula, part, NULL, 0);
    enum verdict verdict = judge(formula, part, other, NULL, step->mass, &shares).verdict;
    return verdict == USUAL || verdict == NOT_KNOWN;
}

/* ---- one amount ---- */

struct other_name {
    const struct formula *formula;
    const struct part *part;
    const struct step *step;
    const struct shares *shares;
    const struct material *found[3];
    size_t count;
};

static bool would_be_usual(void *context, const struct material *other)
{
    struct other_name *search = context;
    if (judge(search->formula, search->part, other, NULL, search->step->mass, search->shares).verdict == USUAL) {
        search->found[search->count++] = other;
    }
    return search->count == sizeof search->found / sizeof *search->found;
}

double amount_place(const struct formula *formula, const struct part *part, const struct step *step)
{
    struct shares shares = part_shares(formula, part, NULL, 0);
    struct judgement judgement = judge_step(formula, part, step, &shares);
    const struct typical_bounds *bounds = &judgement.bounds;
    if (!bounds->found || judgement.verdict == NOT_KNOWN || isinf(bounds->high)) {
        return 0;
    }
    double value = concentration(step->material, step->form, step->mass, part, bounds->by_volume) * shares.most;
    double middle = (log(bounds->low) + log(bounds->high)) / 2;
    return (log(value) - middle) / (log(bounds->high) - middle);
}

void amount_offer_repairs(const struct practice *practice, struct diagnostic *diagnostic, const struct formula *formula,
                          const struct part *part, const struct step *step, bool less)
{
    struct shares shares = part_shares(formula, part, NULL, 0);
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(practice, step, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 3; i++) {
        double mass = step->mass * repairs[i].factor;
        if ((repairs[i].factor < 1) == less &&
            judge(formula, part, step->material, step->form, mass, &shares).verdict == USUAL) {
            diagnostics_fix(practice->formulary->diagnostics, diagnostic, repairs[i].span, repairs[i].text, "%s",
                            repairs[i].title);
            offered++;
        }
    }
}

static void offer_repairs(const struct practice *practice, struct diagnostic *diagnostic, const struct formula *formula,
                          const struct part *part, const struct step *step, const struct shares *shares)
{
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(practice, step, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 4; i++) {
        double mass = step->mass * repairs[i].factor;
        if (judge(formula, part, step->material, step->form, mass, shares).verdict == USUAL) {
            diagnostics_fix(practice->formulary->diagnostics, diagnostic, repairs[i].span, repairs[i].text, "%s",
                            repairs[i].title);
            offered++;
        }
    }
    struct other_name search = {.formula = formula, .part = part, .step = step, .shares = shares};
    if (diagnostic == NULL || step->statement->kind != SAY_ADDITION) {
        return;
    }
    look_alike_each(practice, step->material, would_be_usual, &search);
    for (size_t i = 0; i < search.count; i++) {
        struct span span =
            look_alike_name_span(practice, (const struct addition_statement *)step->statement, search.found[i]);
        diagnostics_fix(practice->formulary->diagnostics, diagnostic, span,
                        arena_format(practice->formulary->arena, "%.*s", TEXT_ARGUMENTS(search.found[i]->name)), "%.*s is meant",
                        TEXT_ARGUMENTS(search.found[i]->name));
    }
}

static void say_unusual(const struct practice *practice, struct formula *formula, const struct part *part,
                        const struct step *step, const struct judgement *judgement, const struct shares *shares)
{
    const struct typical_bounds *bounds = &judgement->bounds;
    const char *unit = bounds->by_volume ? "mL" : "g";
    struct diagnostic *diagnostic =
        practice_say(practice, formula, DIAG_AMOUNT_UNUSUAL, step->amount_span,
                     "%.3g %s of %.*s in a litre of %.*s%s is %s than usual", judgement->value, unit,
                     TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(formula->kind), judgement->where,
                     judgement->verdict == TOO_MUCH ? "more" : "less");
    diagnostics_help(practice->formulary->diagnostics, diagnostic,
                     "usual are %.3g to %.3g %s; check the figure, its point and its unit", bounds->low, bounds->high, unit);
    offer_repairs(practice, diagnostic, formula, part, step, shares);
}

/* ---- what all amounts hang on ---- */

struct tally {
    size_t known;
    size_t little;
    size_t much;
};

static void tally_part(struct tally *tally, const struct formula *formula, const struct part *part, double scale,
                       const struct shares *shares)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!is_judged(step, part)) {
            continue;
        }
        enum verdict verdict = judge(formula, part, step->material, step->form, step->mass * scale, shares).verdict;
        tally->known += verdict != NOT_KNOWN;
        tally->little += verdict == TOO_LITTLE;
        tally->much += verdict == TOO_MUCH;
    }
}

/* Most amounts are off, all of them the same way: NOT_KNOWN when that is not so. */
static enum verdict common_fault(const struct tally *tally)
{
    size_t most = tally->little > tally->much ? tally->little : tally->much;
    if (tally->known < 2 || most < 2 || most * 2 <= tally->known || (tally->little > 0 && tally->much > 0)) {
        return NOT_KNOWN;
    }
    return tally->little > 0 ? TOO_LITTLE : TOO_MUCH;
}

/* The line that the part's volume hangs on: `to make`, or the largest liquid where the liquids are added up. */
static const struct step *made_up(const struct part *part)
{
    const struct step *largest = NULL;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (step_is_addition(step) && step->how == ADD_TO_MAKE) {
            return step;
        }
        bool water = step_is_addition(step) && step->how == ADD_WATER;
        if (water && !isnan(step->volume) && (largest == NULL || step->volume > largest->volume)) {
            largest = step;
        }
    }
    return largest;
}

/* Liquids that go in before the volume is made up, mL. */
static double liquids_of(const struct part *part)
{
    double sum = 0;
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        bool liquid = step_is_addition(step) && step->how != ADD_TO_MAKE && !isnan(step->volume);
        sum += liquid ? step->volume : 0;
    }
    return sum;
}

static bool starts_with_water(const struct part *part)
{
    const struct step *first = part->steps;
    return first != NULL && step_is_addition(first) && first->how == ADD_WATER;
}

/* Common practice: a bath is begun with half to nine tenths of its water. */
static const double LEAST_START = 0.4;

static bool begins_with_little(const struct part *part)
{
    const struct step *make = made_up(part);
    return make != NULL && make->how == ADD_TO_MAKE && !isnan(make->volume) && starts_with_water(part) &&
           liquids_of(part) < LEAST_START * make->volume;
}

static struct shares one_share(double share)
{
    return (struct shares){share, share, true};
}

/* A dilution that makes the whole bath too weak or too strong. */
static bool check_dilution(const struct practice *practice, struct formula *formula, const struct use *use)
{
    if (isnan(use->stock_parts) || isnan(use->water_parts) || use->ratio_span.end == 0) {
        return false;
    }
    struct text written = source_text(practice->formulary->sources, use->ratio_span);
    if (memchr(written.at, ':', written.length) != NULL) { /* read in two ways, which is said: nothing is reckoned with it */
        return true;
    }
    const struct part *part = formula->parts;
    struct shares shares = one_share(use_share(use, formula, part));
    struct tally tally = {0};
    tally_part(&tally, formula, part, 1, &shares);
    enum verdict fault = common_fault(&tally);
    struct shares stock = {1, 1, false};
    struct tally undiluted = {0};
    tally_part(&undiluted, formula, part, 1, &stock);
    if (common_fault(&undiluted) != NOT_KNOWN || begins_with_little(part)) { /* it is the stock that is wrong */
        return false;
    }
    if (fault == NOT_KNOWN && tally.known > 0 && tally.little + tally.much == tally.known &&
        undiluted.little + undiluted.much == 0) { /* the only amount that is known, and as usual in the stock */
        fault = tally.little > 0 ? TOO_LITTLE : TOO_MUCH;
    }
    if (fault == NOT_KNOWN) {
        return false;
    }
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_ratio(practice, use, repairs);
    size_t good = 0;
    struct diagnostic *diagnostic = NULL;
    for (size_t i = 0; i < count; i++) {
        struct shares other = one_share(1 / (1 + repairs[i].factor));
        struct tally after = {0};
        tally_part(&after, formula, part, 1, &other);
        if (after.little + after.much == 0) {
            repairs[good++] = repairs[i];
        }
    }
    diagnostic = practice_say(practice, formula, DIAG_AMOUNT_UNUSUAL, use->ratio_span,
                              "diluted so, most of what is in this %.*s is %s than usual", TEXT_ARGUMENTS(formula->kind),
                              fault == TOO_LITTLE ? "less" : "more");
    diagnostics_help(practice->formulary->diagnostics, diagnostic, "check the dilution against the source");
    for (size_t i = 0; i < good && i < 4; i++) {
        diagnostics_fix(practice->formulary->diagnostics, diagnostic, repairs[i].span, repairs[i].text, "%s", repairs[i].title);
    }
    return true;
}

static bool check_final_volume(const struct practice *practice, struct formula *formula, const struct part *part,
                               const struct shares *shares)
{
    const struct step *make = made_up(part);
    if (make == NULL || isnan(make->volume)) {
        return false;
    }
    struct tally tally = {0};
    tally_part(&tally, formula, part, 1, shares);
    enum verdict fault = common_fault(&tally);
    double start = liquids_of(part) / make->volume;
    bool little_water = tally.known > 0 && begins_with_little(part);
    if (fault == NOT_KNOWN && little_water) {
        fault = TOO_LITTLE;
    }
    /* A volume that nobody mixes by hand is the likelier slip, however few amounts are known. */
    bool outlandish = part->makes > 100e3 || (part->makes < 5 && make->how == ADD_TO_MAKE);
    if (fault == NOT_KNOWN && outlandish && tally.known > 0 && tally.little + tally.much == tally.known) {
        fault = tally.little > 0 ? TOO_LITTLE : TOO_MUCH;
    }
    if (fault == NOT_KNOWN) {
        return false;
    }
    struct diagnostic *diagnostic =
        little_water ? practice_say(practice, formula, DIAG_AMOUNT_UNUSUAL, make->amount_span,
                                    "made up to %.6g mL from %.4g mL to begin with: a bath is begun with half of its water or more",
                                    make->volume, liquids_of(part))
                     : practice_say(practice, formula, DIAG_AMOUNT_UNUSUAL, make->amount_span,
                                    "in this volume most of what the %.*s holds is %s than usual",
                                    TEXT_ARGUMENTS(formula->kind), fault == TOO_LITTLE ? "less" : "more");
    diagnostics_help(practice->formulary->diagnostics, diagnostic, "check the final volume: is it that of another batch?");
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_volume(practice, make, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 4; i++) {
        struct tally after = {0};
        tally_part(&after, formula, part, 1 / repairs[i].factor, shares);
        double begun = start / repairs[i].factor;
        if (after.little + after.much == 0 &&
            (make->how != ADD_TO_MAKE || !starts_with_water(part) || (begun >= 0.5 && begun <= 0.95))) {
            diagnostics_fix(practice->formulary->diagnostics, diagnostic, repairs[i].span, repairs[i].text, "%s",
                            repairs[i].title);
            offered++;
        }
    }
    return true;
}

/* ---- the check ---- */

enum { MOST_USES = 32 };

/* Whether nothing at all is out of the usual: so most formulas are done with after one look.  Several uses are looked at one by
 * one, since each has a dilution of its own. */
static bool all_usual(const struct formula *formula)
{
    const struct part *part = formula->parts;
    bool several = formula->part_count > 1 || (formula->uses != NULL && formula->uses->next != NULL);
    if (several || begins_with_little(part) || !(part->makes >= 5 && part->makes <= 100e3)) {
        return false;
    }
    struct shares shares = part_shares(formula, part, NULL, 0);
    struct tally tally = {0};
    tally_part(&tally, formula, part, 1, &shares);
    return tally.little + tally.much == 0;
}

void amounts_check(const struct practice *practice, struct formula *formula)
{
    if (all_usual(formula)) {
        return;
    }
    const struct use *wrong[MOST_USES];
    size_t wrong_count = 0;
    if (formula->part_count == 1) {
        for (const struct use *use = formula->uses; use != NULL && wrong_count < MOST_USES; use = use->next) {
            if (check_dilution(practice, formula, use)) {
                wrong[wrong_count++] = use;
            }
        }
    }
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        struct shares shares = part_shares(formula, part, wrong, wrong_count);
        if (check_final_volume(practice, formula, part, &shares)) {
            continue;
        }
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (!is_judged(step, part) || practice_doubts_amount(practice, step->span)) {
                continue;
            }
            struct judgement judgement = judge_step(formula, part, step, &shares);
            if (judgement.verdict == TOO_LITTLE || judgement.verdict == TOO_MUCH) {
                say_unusual(practice, formula, part, step, &judgement, &shares);
            }
        }
    }
}
