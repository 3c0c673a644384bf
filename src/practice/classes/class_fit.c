/* How well a formula fits a class of baths.
 *
 * The amounts of a class scatter about their middles, reckoned in powers of ten, and all of them rise and fall with the strength
 * of the solution.  Where the dilution stands in the formula the strength is known nearly; of a stock whose dilution stands
 * nowhere it is found from the amounts themselves.  The likelihood is that of independent normal deviations, with the strength
 * at its likeliest value: an ordinary weighted mean. */
#include "practice/classes/class_pairing.h"

#include "practice/ranges.h"

#include <math.h>

/* ---- the amounts ---- */

/* A bath whose use says how it is diluted, or that it is used as it is: formulas of a class are not all of one strength. */
static const struct class_strength KNOWN = {0.16, 0.16};
/* A formula that says nothing: mostly the bath itself, sometimes a stock for 1+1 to 1+9, but nothing weaker. */
static const struct class_strength UNSAID = {0.16, 0.4};
/* Other baths than developers and fixers are seldom kept as stocks without saying so. */
static const struct class_strength UNSAID_BATH = {0.16, 0.25};
/* A part whose share stands nowhere. */
static const struct class_strength PART = {0.25, 0.9};

static bool counts(const struct step *step, const struct part *part)
{
    return ranges_judge_it(step, part) && step->how != ADD_AS_NEEDED;
}

static void add_point(struct class_points *points, const struct part *part, const struct step *step, size_t group, double share)
{
    const struct material *material = step->material;
    double grams = ranges_concentration(material, step->form, step->mass, part, false) * share;
    struct class_point *point = points->points;
    while (point != points->points + points->count && !(point->step->material == material && point->group == group)) {
        point++;
    }
    if (point == points->points + points->count) {
        *point = (struct class_point){.part = part, .step = step, .group = group, .grams = grams, .share = share};
        points->count++;
        return;
    }
    if (grams > point->grams / 2) { /* several additions of one material are judged together; the largest stands for them */
        point->part = part;
        point->step = step;
        point->share = share;
    }
    point->grams += grams;
}

bool class_gather(const struct rules *rules, const struct rules_of_kind *picked, const struct formula *formula, struct class_points *points)
{
    points->count = 0;
    points->whole = true;
    points->group_count = 0;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        points->whole = points->whole && !isnan(amount_share(formula, part)) && !isnan(part->makes);
    }
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        struct shares shares = ranges_shares(formula, part, NULL, 0);
        double share = points->whole || shares.known ? shares.most : 1;
        size_t group = points->whole ? 0 : points->group_count;
        bool any = false;
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (!counts(step, part)) {
                continue;
            }
            if (points->count == MOST_POINTS || group >= MOST_GROUPS) {
                return false;
            }
            add_point(points, part, step, group, share);
            any = true;
        }
        if (any) {
            points->strengths[group] = shares.known               ? KNOWN
                                       : formula->part_count > 1 ? PART
                                       : picked->kept_as_stock ? UNSAID
                                                                   : UNSAID_BATH;
            points->group_count = group + 1;
        }
    }
    for (size_t i = 0; i < points->count; i++) {
        struct class_point *point = &points->points[i];
        const struct material *material = point->step->material;
        point->subjects = rules_subjects_of(rules, material, point->step->form);
        point->millilitres = material->liquid ? log10(point->grams / material->usual->density) : NAN;
        point->grams = log10(point->grams);
        if (!isfinite(point->grams)) {
            return false;
        }
    }
    return points->count >= 1;
}

void class_one_group(const struct class_points *all, size_t group, struct class_points *points)
{
    *points = (struct class_points){.group_count = 1};
    points->strengths[0] = UNSAID_BATH;
    for (size_t i = 0; i < all->count; i++) {
        if (all->points[i].group == group) {
            points->points[points->count] = all->points[i];
            points->points[points->count++].group = 0;
        }
    }
}

double class_unknown(const struct class_points *points)
{
    return -0.5 * (double)points->count - 4.5;
}

double class_strength_spread(const struct class_strength *strength, double deviation)
{
    return deviation < 0 ? strength->weaker : strength->stronger;
}

/* ---- a class ---- */

/* Puts the amount of a point to what there is of its item in its group. */
static void add_up(struct class_match *match, size_t point)
{
    const struct class_point *of = &match->points->points[point];
    const struct class_item *item = &match->pairing->class->items[match->pairing->item[point]];
    double value = item->by_volume && !isnan(of->millilitres) ? of->millilitres : of->grams;
    struct class_sum *sum = match->sums;
    while (sum != match->sums + match->sum_count && !(sum->item == item && sum->group == of->group)) {
        sum++;
    }
    if (sum == match->sums + match->sum_count) {
        *sum = (struct class_sum){item, of->group, value, 1};
        match->sum_count++;
    } else {
        sum->amount = log10(pow(10, sum->amount) + pow(10, value));
        sum->of_points++;
    }
    match->value[point] = value;
    match->sum[point] = (size_t)(sum - match->sums);
}

/* `sign` 1 puts an amount to those of its group, -1 takes it away again. */
static void count_moments(struct class_moments *moments, const struct class_item *item, double amount, double sign)
{
    double off = amount - item->middle;
    double pull = off * item->precision * sign;
    moments->square += off * pull;
    moments->first += pull;
    moments->precision += item->precision * sign;
    moments->width += item->width * sign;
}

void class_match_points(const struct class_pairing *pairing, const struct class_points *points, struct class_match *match)
{
    match->pairing = pairing;
    match->points = points;
    match->sum_count = 0;
    for (size_t i = 0; i < points->count; i++) {
        match->sum[i] = NO_ITEM;
        if (pairing->item[i] != NO_ITEM) {
            add_up(match, i);
        }
    }
    for (size_t g = 0; g < points->group_count; g++) {
        match->moments[g] = (struct class_moments){0};
    }
    for (size_t s = 0; s < match->sum_count; s++) {
        count_moments(&match->moments[match->sums[s].group], match->sums[s].item, match->sums[s].amount, 1);
    }
}

/* What the class has there when the supposition holds.  False when the amount may be anything. */
static bool supposed_amount(const struct class_match *match, const struct supposition *supposition, double *amount)
{
    size_t s = match->sum[supposition->point];
    bool anything = isnan(supposition->shift);
    if (match->sums[s].of_points == 1) {
        *amount = match->sums[s].amount + supposition->shift;
        return !anything;
    }
    double sum = 0;
    for (size_t i = 0; i < match->points->count; i++) {
        bool supposed = i == supposition->point;
        if (match->sum[i] == s && !(supposed && anything)) {
            sum += pow(10, match->value[i] + (supposed ? supposition->shift : 0));
        }
    }
    *amount = log10(sum);
    return true;
}

/* The moments of a group when the supposition holds. */
static struct class_moments suppose(const struct class_match *match, size_t group, const struct supposition *supposition)
{
    struct class_moments moments = match->moments[group];
    size_t point = supposition->point;
    if (point != NO_ITEM && match->sum[point] != NO_ITEM && match->points->points[point].group == group) {
        const struct class_sum *sum = &match->sums[match->sum[point]];
        double amount;
        bool known = supposed_amount(match, supposition, &amount);
        count_moments(&moments, sum->item, sum->amount, -1);
        if (known) {
            count_moments(&moments, sum->item, amount, 1);
        }
    }
    moments.square += supposition->all * (2 * moments.first + supposition->all * moments.precision);
    moments.first += supposition->all * moments.precision;
    return moments;
}

/* One over the square of the spread of the strength beforehand. */
static double strength_precision(const struct class_strength *strength, double side)
{
    double spread = class_strength_spread(strength, side);
    return 1 / (spread * spread);
}

double class_score(const struct class_match *match, const struct supposition *supposition)
{
    double score = -match->pairing->cost;
    for (size_t g = 0; g < match->points->group_count; g++) {
        struct class_moments moments = suppose(match, g, supposition);
        double weight = moments.precision + strength_precision(&match->points->strengths[g], moments.first);
        /* The sum of squares about the likeliest strength, and that of the strength itself. */
        score -= (moments.square - moments.first * moments.first / weight) / 2 + moments.width;
    }
    return score;
}

void class_fit_points(const struct class_match *match, const struct supposition *supposition, struct class_fit *fit)
{
    const struct class_points *points = match->points;
    double weight[MOST_GROUPS];
    fit->strain = 0;
    for (size_t g = 0; g < points->group_count; g++) {
        struct class_moments moments = suppose(match, g, supposition);
        double precision = strength_precision(&points->strengths[g], moments.first);
        weight[g] = moments.precision + precision;
        fit->strength[g] = moments.first / weight[g];
        fit->strain += fit->strength[g] * fit->strength[g] * precision / 2;
    }
    for (size_t i = 0; i < points->count; i++) {
        fit->z[i] = NAN;
        fit->gain[i] = 0;
        if (match->sum[i] == NO_ITEM) {
            continue;
        }
        const struct class_sum *sum = &match->sums[match->sum[i]];
        double amount = sum->amount;
        bool same = supposition->point != NO_ITEM && match->sum[supposition->point] == match->sum[i];
        if (same && !supposed_amount(match, supposition, &amount)) {
            continue;
        }
        fit->z[i] = (amount + supposition->all - sum->item->middle - fit->strength[sum->group]) / sum->item->spread;
        /* Its part in the sum of squares, and its pull on the strength. */
        double share = sum->item->precision / weight[sum->group];
        fit->gain[i] = fit->z[i] * fit->z[i] / 2 / (1 - share);
    }
}

double class_alone(const struct class_match *match, const struct class_fit *fit, size_t point)
{
    const struct class_item *item = &match->pairing->class->items[match->pairing->item[point]];
    size_t group = match->points->points[point].group;
    double off = fit->z[point] * item->spread + fit->strength[group];
    double spread = class_strength_spread(&match->points->strengths[group], off);
    return off / sqrt(item->spread * item->spread + spread * spread);
}
