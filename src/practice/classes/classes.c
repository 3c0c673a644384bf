/* A formula held against the classes of baths that the library describes.
 *
 * Several explanations compete: the formula is one of a class as it stands; it would be with one amount ten times as much or as
 * little; with one line more; with another name in one line; in another final volume; or it is of a class that the library does
 * not know.  A slip is rare, so it has to explain the amounts a good deal better than the rest before it is said. */
#include "practice/classes/class_inquiry.h"

#include "practice/repairs/look_alikes.h"

#include <math.h>
#include <string.h>

/* Logarithms of how much rarer a formula with that slip is than one without: about one line in thirty. */
static const double COST_OF_SLIP = 2.2;
static const double COST_OF_RARE_SLIP = 4.6;
static const double COST_OF_ANY_AMOUNT = 4.5;
static const double COST_OF_VOLUME = 3.8;

/* An amount that is no further than this from the middle of its class is vouched for. */
static const double VOUCHED = 1.9;
/* Baths differ by so much in strength with nothing wrong in them. */
static const double LEAST_STRAIN = 1;

/* The strength's standard deviation differs to its two sides, which the bound on what can be gained leaves out. */
static const double SLACK = 0.5;

static const struct supposition NOTHING = {NO_ITEM, 0, 0};

/* An explanation that is no worse than this beside the best may as well be the right one: both are said. */
static const double AS_LIKELY = 1.2;

static void offer(struct inquiry *inquiry, enum explanation explanation, double score, const struct supposition *supposition)
{
    if (score > inquiry->best_of[explanation].score) {
        inquiry->best_of[explanation] = (struct finding){explanation, score, inquiry->match.pairing, *supposition, NULL};
    }
    if (score > inquiry->best.score) {
        inquiry->best = inquiry->best_of[explanation];
    }
}

/* What an explanation has to come to, to be said. */
static double least_score(const struct inquiry *inquiry)
{
    bool slip = inquiry->best.explanation != NO_CLASS && inquiry->best.explanation != AS_IT_STANDS;
    return inquiry->best.score - (slip ? AS_LIKELY : 0);
}

/* ---- suppositions ---- */

static void suppose_amount(struct inquiry *inquiry, size_t point)
{
    static const struct {
        double shift;
        double cost;
    } slips[] = {{1, COST_OF_SLIP}, {-1, COST_OF_SLIP}, {2, COST_OF_RARE_SLIP}, {-2, COST_OF_RARE_SLIP},
                 {3, COST_OF_RARE_SLIP}, {-3, COST_OF_RARE_SLIP}, {NAN, COST_OF_ANY_AMOUNT}};
    for (size_t s = 0; s < sizeof slips / sizeof *slips; s++) {
        struct supposition supposition = {point, slips[s].shift, 0};
        offer(inquiry, AMOUNT, class_score(&inquiry->match, &supposition) - slips[s].cost, &supposition);
    }
}

static void suppose_amounts(struct inquiry *inquiry, double as_it_stands)
{
    for (size_t i = 0; i < inquiry->points.count; i++) {
        bool can_gain = as_it_stands + inquiry->fit.gain[i] + SLACK - COST_OF_SLIP >= least_score(inquiry);
        if (can_gain && inquiry->match.pairing->item[i] != NO_ITEM) {
            suppose_amount(inquiry, i);
        }
    }
}

/* What the amounts' own deviations take from the score: the strength does not take them all up. */
static double deviations_of(const struct inquiry *inquiry)
{
    double sum = 0;
    for (size_t i = 0; i < inquiry->points.count; i++) {
        sum += isnan(inquiry->fit.z[i]) ? 0 : inquiry->fit.z[i] * inquiry->fit.z[i] / 2;
    }
    return sum;
}

static void suppose_volumes(struct inquiry *inquiry, double as_it_stands)
{
    static const double factors[] = {2, 5, 10, 0.5, 0.2, 0.1};
    const struct formula *formula = inquiry->bench->formula;
    if (inquiry->fit.strain < LEAST_STRAIN ||
        as_it_stands + inquiry->fit.strain + deviations_of(inquiry) + SLACK - COST_OF_VOLUME < least_score(inquiry) ||
        class_count_diluted(formula) > 1) {
        return;
    }
    for (size_t i = 0; i < sizeof factors / sizeof *factors && formula->part_count == 1; i++) {
        struct supposition supposition = {NO_ITEM, 0, log10(factors[i])};
        offer(inquiry, OTHER_VOLUME, class_score(&inquiry->match, &supposition) - COST_OF_VOLUME, &supposition);
    }
}

struct name_search {
    struct inquiry *inquiry;
    const struct class_item *item;
    double middle;                     /* of the item at the formula's strength */
    const struct class_point *point;
    double score;                      /* of the rest */
    const struct material *found;
    double best;
};

static bool try_name(void *context, const struct material *other)
{
    struct name_search *search = context;
    const struct rules *rules = search->inquiry->bench->rules;
    const struct class_point *point = search->point;
    if (!rules_material_is(rules, other, search->item->subject) || !look_alike_by_name(point->step->material, other)) {
        return false;
    }
    /* The grams that stand there, read as the other's usual form. */
    double value = log10(part_per_litre(point->part, point->step->mass) * point->share);
    value -= search->item->by_volume && other->liquid ? log10(other->usual->density) : 0;
    double z = (value - search->middle) / search->item->spread;
    if (search->score - z * z / 2 > search->best) {
        search->best = search->score - z * z / 2;
        search->found = other;
    }
    return false;
}

/* The strength is found from the other amounts, which is close enough. */
static void suppose_name(struct inquiry *inquiry, double as_it_stands)
{
    const struct class_pairing *pairing = inquiry->match.pairing;
    const struct class_point *point = &inquiry->points.points[pairing->extra_point];
    const struct class_item *item = &pairing->class->items[pairing->missing_item];
    struct name_search search = {inquiry, item, 0, point, as_it_stands + GAIN_OF_NAME - COST_OF_NAME, NULL, inquiry->best.score};
    if (search.score <= search.best) {
        return;
    }
    class_fit_points(&inquiry->match, &NOTHING, &inquiry->fit);
    search.middle = item->middle + inquiry->fit.strength[point->group];
    look_alike_each(inquiry->bench, point->step->material, try_name, &search);
    if (search.found != NULL) {
        offer(inquiry, OTHER_NAME, search.best, &NOTHING);
        inquiry->best_of[OTHER_NAME].material = search.found;
        inquiry->best = inquiry->best_of[OTHER_NAME];
    }
}

/* ---- trying the classes ---- */

static void try_class(struct inquiry *inquiry, const struct class_pairing *pairing)
{
    struct class_match *match = &inquiry->match;
    class_match_points(pairing, &inquiry->points, match);
    size_t known = inquiry->points.count - pairing->extras;
    double score = class_score(match, &NOTHING);
    if (pairing->missing == 0) {
        offer(inquiry, AS_IT_STANDS, score, &NOTHING);
        class_fit_points(match, &NOTHING, &inquiry->fit);
        suppose_amounts(inquiry, score);
        if (pairing->extras == 0 && known >= 2) {
            suppose_volumes(inquiry, score);
        }
    } else if (pairing->extras == 0) {
        offer(inquiry, MISSING_LINE, score - COST_OF_MISSING, &NOTHING);
    } else {
        suppose_name(inquiry, score);
    }
}

/* The most promising classes first: they set what the others have to beat, and most of those need not be tried. */
static void try_classes(struct inquiry *inquiry)
{
    struct bench *bench = inquiry->bench;
    const struct class_pairings *pairings = &inquiry->pairings;
    class_find_pairings(bench, inquiry->picked, &inquiry->points, &inquiry->pairings);
    inquiry->match.pairing = NULL;
    inquiry->best = (struct finding){.explanation = NO_CLASS, .score = class_unknown(&inquiry->points)};
    for (size_t i = 0; i < EXPLANATIONS; i++) {
        inquiry->best_of[i].score = -INFINITY;
    }
    for (size_t i = 0; i < pairings->count && pairings->list[i].bound > least_score(inquiry); i++) {
        if (!rule_is_silenced(bench, pairings->list[i].class->name)) {
            try_class(inquiry, &pairings->list[i]);
        }
    }
}

/* ---- what comes of it ---- */

static void remember(const struct inquiry *inquiry)
{
    struct class_verdict *verdict = &inquiry->bench->verdict;
    const struct finding *best = &inquiry->best;
    verdict->missing = best->explanation == MISSING_LINE ? class_first_material(inquiry->bench->rules, &best->pairing->class->items[best->pairing->missing_item]) : NULL;
    bool complete = best->explanation == AS_IT_STANDS && best->pairing->extras == 0 &&
                    rule_is_for_purpose(inquiry->bench->rules, best->pairing->class, inquiry->bench->formula);
    verdict->complete = complete ? best->pairing->class : NULL;
    for (size_t i = 0; i < inquiry->points.count; i++) {
        if (fabs(inquiry->fit.z[i]) < VOUCHED && fabs(class_alone(&inquiry->match, &inquiry->fit, i)) < VOUCHED && i != best->supposition.point) {
            verdict->usual[verdict->usual_count++] = inquiry->points.points[i].step;
        }
        if (!isnan(inquiry->fit.z[i]) && verdict->step_count < MOST_POINTS) {
            verdict->places[verdict->step_count] = inquiry->fit.z[i] / DEVIATIONS;
            verdict->steps[verdict->step_count++] = inquiry->points.points[i].step;
        }
    }
}

/* The best slip of another amount, in the same class. */
static void say_other_amounts(struct inquiry *inquiry, const struct finding *best)
{
    for (size_t i = 0; i < inquiry->points.count; i++) {
        inquiry->best_of[AMOUNT].score = best->score - AS_LIKELY;
        inquiry->best_of[AMOUNT].pairing = NULL;
        if (i != best->supposition.point && inquiry->match.pairing->item[i] != NO_ITEM) {
            suppose_amount(inquiry, i);
        }
        if (inquiry->best_of[AMOUNT].pairing != NULL) {
            inquiry->best = inquiry->best_of[AMOUNT];
            class_say_finding(inquiry);
        }
    }
}

/* What explains the amounts nearly as well is as true of them. */
static void say_as_likely(struct inquiry *inquiry)
{
    const struct finding best = inquiry->best;
    const struct class_match match = inquiry->match;
    const struct class_fit fit = inquiry->fit;
    for (enum explanation other = AMOUNT; other < EXPLANATIONS; other++) {
        bool same_gap = other + best.explanation == MISSING_LINE + OTHER_NAME; /* what is misnamed is missing */
        if (other != best.explanation && !same_gap && inquiry->best_of[other].score > best.score - AS_LIKELY) {
            inquiry->best = inquiry->best_of[other];
            class_say_finding(inquiry);
        }
    }
    inquiry->match = match;
    if (best.explanation == AMOUNT) {
        say_other_amounts(inquiry, &best);
    }
    inquiry->best = best;
    inquiry->fit = fit;
}

static void conclude(struct inquiry *inquiry)
{
    if (inquiry->best.explanation == NO_CLASS) {
        return;
    }
    class_say_finding(inquiry);
    if (inquiry->best.explanation != AS_IT_STANDS) {
        say_as_likely(inquiry);
    }
    remember(inquiry);
}

void classes_check(struct bench *bench)
{
    struct inquiry inquiry; /* 10 kB, most of which is not looked at: not cleared */
    inquiry.bench = bench;
    inquiry.picked = rules_pick(bench->rules, bench->formula->kind);
    if (bench->verdict.volume_doubted || inquiry.picked->class_count == 0 || !class_gather(bench->rules, inquiry.picked, bench->formula, &inquiry.points)) {
        return;
    }
    try_classes(&inquiry);
    if (inquiry.best.explanation != NO_CLASS || inquiry.points.whole) {
        conclude(&inquiry);
        return;
    }
    /* Nothing says how the parts come together: they may be baths of their own. */
    struct class_points all = inquiry.points;
    for (size_t g = 0; g < all.group_count; g++) {
        class_one_group(&all, g, &inquiry.points);
        if (inquiry.points.count > 0) {
            try_classes(&inquiry);
            conclude(&inquiry);
        }
    }
}
