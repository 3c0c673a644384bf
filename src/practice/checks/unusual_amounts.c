/* Amounts held against what baths of a kind usually hold.
 *
 * When most amounts are off the same way, one figure is wrong that they all hang on: the dilution, or the final volume. */
#include "practice/checks/unusual_amounts.h"

#include "practice/part_volumes.h"
#include "practice/ranges.h"
#include "practice/repairs/amount_repairs.h"
#include "practice/repairs/repairs.h"

#include <math.h>
#include <string.h>

/* ---- one amount ---- */

static void offer_repairs(struct bench *bench, struct diagnostic *diagnostic, const struct part *part, const struct step *step,
                          const struct shares *shares)
{
    if (!diagnostics_take_fixes(bench->formulary->diagnostics, diagnostic)) {
        return;
    }
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(bench, step, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 4; i++) {
        double mass = step->mass * repairs[i].factor;
        if (ranges_judge(bench->formula, part, step->material, step->form, mass, shares).verdict == USUAL) {
            repair_offer(bench, diagnostic, &repairs[i]);
            offered++;
        }
    }
    amount_offer_names(bench, diagnostic, part, step);
}

static void say_unusual(struct bench *bench, const struct part *part, const struct step *step, const struct judgement *judgement,
                        const struct shares *shares)
{
    const struct typical_bounds *bounds = &judgement->bounds;
    const char *unit = bounds->by_volume ? "mL" : "g";
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, step->amount_span,
                     "%.3g %s of %.*s in a litre of %.*s%s is %s than usual", judgement->value, unit,
                     TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(bench->formula->kind), judgement->where,
                     judgement->verdict == TOO_MUCH ? "more" : "less");
    diagnostics_help(bench->formulary->diagnostics, diagnostic,
                     "usual are %.3g to %.3g %s; check the figure, its point and its unit", bounds->low, bounds->high, unit);
    offer_repairs(bench, diagnostic, part, step, shares);
}

/* ---- what all amounts hang on ---- */

struct tally {
    size_t known;
    size_t little;
    size_t much;
};

static void tally_part(struct bench *bench, struct tally *tally, const struct formula *formula, const struct part *part, double scale,
                       const struct shares *shares)
{
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        if (!ranges_judge_it(step, part)) {
            continue;
        }
        bool vouched = scale == 1 && shares->known && bench_vouches(bench, step);
        enum verdict verdict =
            vouched ? USUAL : ranges_judge(formula, part, step->material, step->form, step->mass * scale, shares).verdict;
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

static struct shares one_share(double share)
{
    return (struct shares){share, share, true};
}

/* Uses of one stock differ by four or five times at the most, for soft prints or for slow work in a tank (common practice, no source). */
static const double FAR_WEAKER = 8;

static double ratio_total(double stock, double water)
{
    return (stock + water) / stock;
}

/* The least diluted of the other uses, as water and stock together for one of stock; NAN when there is none. */
static double strongest_of_others(const struct formula *formula, const struct use *use)
{
    double least = NAN;
    for (const struct use *other = formula->uses; other != NULL; other = other->next) {
        bool diluted = other != use && !isnan(other->stock_parts) && !isnan(other->water_parts);
        least = diluted ? fmin(least, ratio_total(other->stock_parts, other->water_parts)) : least; /* fmin passes NAN over */
    }
    return least;
}

static bool check_against_others(struct bench *bench, const struct use *use)
{
    double strongest = strongest_of_others(bench->formula, use);
    double times = ratio_total(use->stock_parts, use->water_parts) / strongest;
    if (isnan(times) || times < FAR_WEAKER) {
        return false;
    }
    struct diagnostic *diagnostic = bench_say(bench, DIAG_AMOUNT_UNUSUAL, use->ratio->span,
                                                 "diluted %.2g times as much as in another use of this %.*s", times,
                                                 TEXT_ARGUMENTS(bench->formula->kind));
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "check both dilutions against the source");
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_ratio(bench, use, repairs);
    for (size_t i = 0; i < count; i++) {
        if (ratio_total(1, repairs[i].factor) / strongest < FAR_WEAKER) {
            repair_offer(bench, diagnostic, &repairs[i]);
        }
    }
    return true;
}

/* A dilution that makes the whole bath too weak or too strong. */
static bool check_dilution(struct bench *bench, const struct use *use)
{
    if (!amount_is_diluted(use)) {
        return false;
    }
    if (use->ratio->doubtful) { /* nothing is reckoned with it */
        return true;
    }
    if (check_against_others(bench, use)) {
        return true;
    }
    const struct part *part = bench->formula->parts;
    struct shares shares = one_share(use_share(use, bench->formula, part));
    struct tally tally = {0};
    tally_part(bench, &tally, bench->formula, part, 1, &shares);
    enum verdict fault = common_fault(&tally);
    struct shares stock = {1, 1, false};
    struct tally undiluted = {0};
    tally_part(bench, &undiluted, bench->formula, part, 1, &stock);
    if (common_fault(&undiluted) != NOT_KNOWN || volumes_begin_with_little(bench->formulary->library, bench->formula, part)) { /* it is the stock that is wrong */
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
    size_t count = repairs_of_ratio(bench, use, repairs);
    size_t good = 0;
    struct diagnostic *diagnostic = NULL;
    for (size_t i = 0; i < count; i++) {
        struct shares other = one_share(1 / (1 + repairs[i].factor));
        struct tally after = {0};
        tally_part(bench, &after, bench->formula, part, 1, &other);
        if (after.little + after.much == 0) {
            repairs[good++] = repairs[i];
        }
    }
    diagnostic = bench_say(bench, DIAG_AMOUNT_UNUSUAL, use->ratio->span,
                              "diluted so, most of what is in this %.*s is %s than usual", TEXT_ARGUMENTS(bench->formula->kind),
                              fault == TOO_LITTLE ? "less" : "more");
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "check the dilution against the source");
    for (size_t i = 0; i < good && i < 4; i++) {
        repair_offer(bench, diagnostic, &repairs[i]);
    }
    return true;
}

/* Of what bath no usual amount is known. */
static const double LEAST_START_OF_ANY = 0.25;

static bool check_final_volume(struct bench *bench, const struct part *part, const struct shares *shares)
{
    const struct step *make = volumes_line(part);
    if (make == NULL || isnan(make->volume)) {
        return false;
    }
    struct tally tally = {0};
    tally_part(bench, &tally, bench->formula, part, 1, shares);
    enum verdict fault = common_fault(&tally);
    double start = volumes_of_liquids(part) / make->volume;
    bool little_water = volumes_begin_with_little(bench->formulary->library, bench->formula, part) && (tally.known > 0 || start < LEAST_START_OF_ANY);
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
        little_water ? bench_say(bench, DIAG_AMOUNT_UNUSUAL, make->amount_span,
                                    "made up to %.6g mL from %.4g mL to begin with: a bath is begun with half of its water or more",
                                    make->volume, volumes_of_liquids(part))
                     : bench_say(bench, DIAG_AMOUNT_UNUSUAL, make->amount_span,
                                    "in this volume most of what the %.*s holds is %s than usual",
                                    TEXT_ARGUMENTS(bench->formula->kind), fault == TOO_LITTLE ? "less" : "more");
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "check the final volume: is it that of another batch?");
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_volume(bench, make, repairs);
    size_t offered = 0;
    for (size_t i = 0; i < count && offered < 4; i++) {
        struct tally after = {0};
        tally_part(bench, &after, bench->formula, part, 1 / repairs[i].factor, shares);
        double begun = start / repairs[i].factor;
        if (after.little + after.much == 0 &&
            (make->how != ADD_TO_MAKE || !volumes_start_with_water(part) || (begun >= 0.5 && begun <= 0.95))) {
            repair_offer(bench, diagnostic, &repairs[i]);
            offered++;
        }
    }
    return true;
}

/* ---- the check ---- */

enum { MOST_USES = 32 };

/* Whether nothing at all is out of the usual: so most formulas are done with after one look.  Several uses are looked at one by
 * one, since each has a dilution of its own. */
static bool all_usual(struct bench *bench)
{
    const struct part *part = bench->formula->parts;
    bool several = bench->formula->part_count > 1 || (bench->formula->uses != NULL && bench->formula->uses->next != NULL);
    if (several || volumes_begin_with_little(bench->formulary->library, bench->formula, part) || !(part->makes >= 5 && part->makes <= 100e3)) {
        return false;
    }
    struct shares shares = ranges_shares(bench->formula, part, NULL, 0);
    struct tally tally = {0};
    tally_part(bench, &tally, bench->formula, part, 1, &shares);
    return tally.little + tally.much == 0;
}

void amounts_check(struct bench *bench)
{
    if (bench->verdict.volume_doubted || all_usual(bench)) {
        return;
    }
    const struct use *wrong[MOST_USES];
    size_t wrong_count = 0;
    if (bench->formula->part_count == 1) {
        for (const struct use *use = bench->formula->uses; use != NULL && wrong_count < MOST_USES; use = use->next) {
            if (check_dilution(bench, use)) {
                wrong[wrong_count++] = use;
            }
        }
    }
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        struct shares shares = ranges_shares(bench->formula, part, wrong, wrong_count);
        if (check_final_volume(bench, part, &shares)) {
            continue;
        }
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (!ranges_judge_it(step, part) || bench_vouches(bench, step) || bench_doubts_amount(bench, step->span)) {
                continue;
            }
            struct judgement judgement = ranges_judge_step(bench->formula, part, step, &shares);
            if (judgement.verdict == TOO_LITTLE || judgement.verdict == TOO_MUCH) {
                say_unusual(bench, part, step, &judgement, &shares);
            }
        }
    }
}
