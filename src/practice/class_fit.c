/* How well a formula fits a class of baths.
 *
 * The amounts of a class scatter about their middles, reckoned in powers of ten, and all of them rise and fall with the strength
 * of the solution.  Where the dilution stands in the formula the strength is known nearly; of a stock whose dilution stands
 * nowhere it is found from the amounts themselves.  The likelihood is that of independent normal deviations, with the strength
 * at its likeliest value: an ordinary weighted mean. */
#include "practice/classes.h"

#include "practice/amounts.h"
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

static bool is_kept_as_stock(const struct formula *formula)
{
    return text_is(formula->kind, "developer") || text_is(formula->kind, "fixer") || text_is(formula->kind, "replenisher");
}

bool class_gather(const struct rules *rules, const struct formula *formula, struct class_points *points)
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
                                       : is_kept_as_stock(formula) ? UNSAID
                                                                   : UNSAID_BATH;
            points->group_count = group + 1;
        }
    }
    for (size_t i = 0; i < points->count; i++) {
        struct class_point *point = &points->points[i];
        const struct material *material = point->step->material;
        point->subjects = rules_subjects_of(rules, material);
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

static const double COST_OF_EXTRA = 3;
static const double COST_OF_OTHER_AGENT = 5; /* what a bath works by is never by the way */
static const double COST_OF_PURPOSE = 3;
static const double COST_OF_NO_PURPOSE = 1;
static const double COST_OF_OPTIONAL = 0.2;

double class_doubt(const struct rules *rules, const struct rule *class, const struct formula *formula)
{
    return rule_is_for_purpose(rules, class, formula) ? 0 : formula->purposes == NULL ? COST_OF_NO_PURPOSE : COST_OF_PURPOSE;
}

/* Asked for every point of every class: a bit of the material's answers it, but for subjects that name a form. */
static size_t item_of(const struct rules *rules, const struct rule *class, const struct class_point *point)
{
    for (size_t i = 0; i < class->item_count; i++) {
        size_t subject = class->items[i].subject;
        bool answers = (point->subjects->bits[subject / 64] >> subject % 64 & 1) != 0;
        if (answers && (rules->subjects[subject].form.length == 0 || rules_step_fits(rules, point->step, subject))) {
            return i;
        }
    }
    return NO_ITEM;
}

static bool is_agent(const struct material *material)
{
    return material->role_count > 0 &&
           (text_is(material->roles[0], "developing agent") || text_is(material->roles[0], "fixing agent"));
}

/* The points of one item in one group, as one amount: their sum. */
struct sum {
    const struct class_item *item;
    size_t group;
    double amount;     /* logarithm to the base of ten */
    double deviation;  /* standard deviations */
};

/* Matches the points with the items of the class, and adds up what belongs to one. */
static size_t add_up(const struct rules *rules, const struct rule *class, const struct class_points *points,
                     const struct supposition *supposition, struct class_fit *fit, struct sum *sums, size_t *sum_of)
{
    size_t sum_count = 0;
    uint64_t there = 0; /* a class has fewer items than that has bits */
    for (size_t i = 0; i < points->count; i++) {
        const struct class_point *point = &points->points[i];
        size_t item = item_of(rules, class, point);
        bool supposed = supposition->point == i;
        fit->item[i] = item;
        sum_of[i] = NO_ITEM;
        if (item == NO_ITEM) {
            fit->extras++;
            fit->extra_point = i;
            fit->score -= is_agent(point->step->material) ? COST_OF_OTHER_AGENT : COST_OF_EXTRA;
            continue;
        }
        there |= (uint64_t)1 << item;
        if (supposed && isnan(supposition->shift)) {
            continue;
        }
        double value = class->items[item].by_volume && !isnan(point->millilitres) ? point->millilitres : point->grams;
        value += supposition->all + (supposed ? supposition->shift : 0);
        size_t s = 0;
        while (s < sum_count && !(sums[s].item == &class->items[item] && sums[s].group == point->group)) {
            s++;
        }
        if (s == sum_count) {
            sums[sum_count++] = (struct sum){&class->items[item], point->group, value, 0};
        } else {
            sums[s].amount = log10(pow(10, sums[s].amount) + pow(10, value));
        }
        sum_of[i] = s;
    }
    for (size_t i = 0; i < class->item_count; i++) {
        if ((there >> i & 1) == 0 && class->items[i].optional) {
            fit->score -= COST_OF_OPTIONAL;
        } else if ((there >> i & 1) == 0) {
            fit->missing++;
            fit->missing_item = i;
        }
    }
    return sum_count;
}

void class_try(const struct rules *rules, const struct rule *class, const struct class_points *points,
               const struct supposition *supposition, double doubt, struct class_fit *fit)
{
    struct sum sums[MOST_POINTS];
    size_t sum_of[MOST_POINTS];
    fit->score = -doubt;
    fit->missing = fit->extras = 0;
    fit->missing_item = fit->extra_point = NO_ITEM;
    size_t sum_count = add_up(rules, class, points, supposition, fit, sums, sum_of);
    double weight[MOST_GROUPS];
    for (size_t g = 0; g < points->group_count; g++) {
        fit->strength[g] = weight[g] = 0;
    }
    for (size_t s = 0; s < sum_count; s++) {
        fit->strength[sums[s].group] += (sums[s].amount - sums[s].item->middle) * sums[s].item->precision;
        weight[sums[s].group] += sums[s].item->precision;
    }
    fit->strain = 0;
    for (size_t g = 0; g < points->group_count; g++) {
        double spread = class_strength_spread(&points->strengths[g], fit->strength[g]);
        weight[g] += 1 / (spread * spread);
        fit->strength[g] /= weight[g];
        double z = fit->strength[g] / spread;
        fit->strain += z * z / 2;
    }
    fit->score -= fit->strain;
    for (size_t s = 0; s < sum_count; s++) {
        const struct class_item *item = sums[s].item;
        sums[s].deviation = (sums[s].amount - item->middle - fit->strength[sums[s].group]) / item->spread;
        fit->score -= sums[s].deviation * sums[s].deviation / 2 + item->width;
    }
    for (size_t i = 0; i < points->count; i++) {
        fit->z[i] = sum_of[i] == NO_ITEM ? NAN : sums[sum_of[i]].deviation;
        /* What is gained when this amount may be anything: its part in the sum of squares, and its pull on the strength. */
        double share = sum_of[i] == NO_ITEM ? 0 : sums[sum_of[i]].item->precision / weight[points->points[i].group];
        fit->gain[i] = sum_of[i] == NO_ITEM ? 0 : fit->z[i] * fit->z[i] / 2 / (1 - share);
    }
}

double class_alone(const struct rule *class, const struct class_points *points, const struct class_fit *fit, size_t point)
{
    const struct class_item *item = &class->items[fit->item[point]];
    size_t group = points->points[point].group;
    double off = fit->z[point] * item->spread + fit->strength[group];
    double spread = class_strength_spread(&points->strengths[group], off);
    return off / sqrt(item->spread * item->spread + spread * spread);
}
