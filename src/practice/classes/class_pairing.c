/* Which of the amounts of a formula are which of a class, and which classes are worth a trial. */
#include "practice/classes/class_pairing.h"

#include <math.h>

/* ---- what a pairing takes from the score ---- */

static const double COST_OF_EXTRA = 3;
static const double COST_OF_OTHER_AGENT = 5; /* what a bath works by is never by the way */
static const double COST_OF_PURPOSE = 3;
static const double COST_OF_NO_PURPOSE = 1;
/* Of developers many classes overlap, and a few of them are most of what is mixed: these have advice for a missing line. */
static const double COST_OF_RARE_CLASS = 1.7;
static const double COST_OF_OPTIONAL = 0.2;

/* That the class is a rare one, that it is for something else than the formula, or that this does not say what it is for. */
static double doubt_of(const struct bench *bench, const struct rules_of_kind *picked, const struct rule *class)
{
    bool rare = class->advise.length == 0 && picked->many_classes;
    bool good = rule_is_for_purpose(bench->rules, class, bench->formula);
    return (rare ? COST_OF_RARE_CLASS : 0) + (good ? 0 : bench->formula->purposes == NULL ? COST_OF_NO_PURPOSE : COST_OF_PURPOSE);
}

static bool is_agent(const struct material *material)
{
    return material->role_count > 0 &&
           (text_is(material->roles[0], "developing agent") || text_is(material->roles[0], "fixing agent"));
}

/* ---- pairing ---- */

/* The first item that the point is one of. */
static size_t item_of(const struct rule *class, const struct class_point *point)
{
    size_t first = NO_ITEM;
    for (size_t w = 0; w < MOST_SUBJECTS / 64; w++) {
        for (uint64_t bits = point->subjects->bits[w] & class->knows.bits[w]; bits != 0; bits &= bits - 1) {
            size_t item = class->item_of_subject[w * 64 + (size_t)__builtin_ctzll(bits)];
            first = item < first ? item : first;
        }
    }
    return first;
}

static struct class_pairing pair(const struct rule *class, const struct class_points *points, double doubt)
{
    struct class_pairing pairing = {.class = class, .cost = doubt, .missing_item = NO_ITEM, .extra_point = NO_ITEM};
    uint64_t there = 0; /* a class has no more items than that has bits */
    double most = 0;    /* ranges that are narrower than others make a likelihood larger */
    for (size_t i = 0; i < points->count; i++) {
        size_t item = item_of(class, &points->points[i]);
        pairing.item[i] = (uint8_t)item;
        if (item == NO_ITEM) {
            pairing.extras++;
            pairing.extra_point = (uint8_t)i;
            pairing.cost += is_agent(points->points[i].step->material) ? COST_OF_OTHER_AGENT : COST_OF_EXTRA;
        } else {
            most += (there >> item & 1) != 0 ? 0 : fmax(0, -class->items[item].width);
            there |= (uint64_t)1 << item;
        }
    }
    for (uint64_t missing = class->needed_items & ~there; missing != 0; missing &= missing - 1) {
        pairing.missing++;
        pairing.missing_item = (uint8_t)__builtin_ctzll(missing);
    }
    size_t absent = class->item_count - (size_t)__builtin_popcountll(there) - pairing.missing;
    pairing.cost += COST_OF_OPTIONAL * (double)absent;
    pairing.bound = most * (double)points->group_count - pairing.cost;
    return pairing;
}

/* Whether there is anything that it could say of the formula; sets the bound to what that can come to. */
static bool is_promising(struct class_pairing *pairing, size_t points)
{
    size_t known = points - pairing->extras;
    bool as_it_stands = pairing->missing == 0 && pairing->extras <= 2 && known > 0;
    bool line_missing = pairing->missing == 1 && pairing->extras == 0 && known >= 3 && pairing->class->advise.length > 0;
    bool misnamed = pairing->missing == 1 && pairing->extras == 1 && known >= 2;
    pairing->bound -= line_missing ? COST_OF_MISSING : misnamed ? COST_OF_NAME - GAIN_OF_NAME : 0;
    return as_it_stands || line_missing || misnamed;
}

/* ---- which classes ---- */

/* Points that the class has no item for, or more than `enough`. */
static size_t unknown_to(const struct rule *class, const struct class_points *points, size_t enough)
{
    size_t unknown = 0;
    for (size_t i = 0; i < points->count && unknown <= enough; i++) {
        const struct subject_set *subjects = points->points[i].subjects;
        uint64_t known = 0;
        for (size_t w = 0; w < MOST_SUBJECTS / 64; w++) {
            known |= subjects->bits[w] & class->knows.bits[w];
        }
        unknown += known == 0;
    }
    return unknown;
}

/* 0, 1, or 2 for more. */
static size_t needed_but_absent(const struct rule *class, const struct subject_set *there)
{
    size_t absent = 0;
    for (size_t i = 0; i < MOST_SUBJECTS / 64; i++) {
        uint64_t bits = class->needs.bits[i] & ~there->bits[i];
        if (bits != 0 && (absent > 0 || (bits & (bits - 1)) != 0)) {
            return 2;
        }
        absent += bits != 0;
    }
    return absent;
}

/* Puts it among `count` others, the best bound first; of more than there is room for the least promising is left out. */
static size_t put_in_order(struct class_pairing *list, size_t count, const struct class_pairing *pairing)
{
    if (count == MOST_PAIRINGS && list[--count].bound >= pairing->bound) {
        return MOST_PAIRINGS;
    }
    size_t at = count;
    while (at > 0 && list[at - 1].bound < pairing->bound) {
        list[at] = list[at - 1];
        at--;
    }
    list[at] = *pairing;
    return count + 1;
}

void class_find_pairings(const struct bench *bench, const struct rules_of_kind *picked, const struct class_points *points,
                         struct class_pairings *pairings)
{
    size_t count = 0;
    for (size_t i = 0; i < picked->class_count; i++) {
        const struct rule *class = picked->classes[i];
        size_t absent = needed_but_absent(class, &bench->contents.there);
        size_t may_be_unknown = absent == 0 ? 2 : 1;
        if (absent > 1 || unknown_to(class, points, may_be_unknown) > may_be_unknown) {
            continue;
        }
        struct class_pairing pairing = pair(class, points, doubt_of(bench, picked, class));
        if (is_promising(&pairing, points->count)) {
            count = put_in_order(pairings->list, count, &pairing);
        }
    }
    pairings->count = count;
}
