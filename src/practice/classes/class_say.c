/* What a class of baths lets one say of a formula: an amount, a volume, a dilution, a line that is missing. */
#include "practice/classes/class_inquiry.h"

#include "practice/part_volumes.h"
#include "practice/ranges.h"
#include "practice/repairs/amount_repairs.h"
#include "practice/repairs/line_repairs.h"
#include "practice/repairs/look_alikes.h"
#include "practice/repairs/repairs.h"

#include <math.h>
#include <string.h>

/* A repair has to bring an amount so near to the middle. */
static const double ORDINARY = 2.3;

size_t class_count_diluted(const struct formula *formula)
{
    size_t count = 0;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        count += amount_is_diluted(use);
    }
    return count;
}

/* "a soft metol developer", from the rule's name. */
static const char *class_words(struct bench *bench, const struct rule *class)
{
    char *words = arena_format(bench->formulary->arena, "%s %.*s", text_article(class->shown), TEXT_ARGUMENTS(class->shown));
    for (char *at = words; *at != '\0'; at++) {
        *at = *at == '-' ? ' ' : *at;
    }
    return words;
}

static void say_amount(const struct inquiry *inquiry)
{
    struct bench *bench = inquiry->bench;
    struct diagnostics *diagnostics = bench->formulary->diagnostics;
    const struct finding *best = &inquiry->best;
    size_t i = best->supposition.point;
    const struct class_point *point = &inquiry->points.points[i];
    const struct class_item *item = &best->pairing->class->items[best->pairing->item[i]];
    if (bench_doubts_amount(bench, point->step->span)) {
        return;
    }
    double middle = item->middle + inquiry->fit.strength[point->group] - log10(point->share);
    double reach = DEVIATIONS * item->spread;
    bool volume = item->by_volume && !isnan(point->millilitres);
    double value = volume ? point->millilitres : point->grams;
    bool much = value - log10(point->share) > middle;
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, point->step->amount_span,
                     "so %s %.*s does not go with the other amounts of this %.*s", much ? "much" : "little",
                     TEXT_ARGUMENTS(point->step->material->name), TEXT_ARGUMENTS(inquiry->bench->formula->kind));
    diagnostics_help(diagnostics, diagnostic,
                     "%s of this strength holds %.2g to %.2g %s in a litre; check the figure, its point and its unit (rule %.*s)",
                     class_words(bench, best->pairing->class), pow(10, middle - reach), pow(10, middle + reach), volume ? "mL" : "g", TEXT_ARGUMENTS(best->pairing->class->shown));
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_amount(bench, point->step, repairs);
    for (size_t r = 0; r < count; r++) {
        double after = value - log10(point->share) + log10(repairs[r].factor) - middle;
        if (fabs(after) < ORDINARY * item->spread) {
            repair_offer(bench, diagnostic, &repairs[r]);
        }
    }
    amount_offer_names(bench, diagnostic, point->part, point->step);
}

/* As many times as much as it should be. */
static double times_of(const struct inquiry *inquiry)
{
    return pow(10, -inquiry->best.supposition.all);
}

static const double NEAR = 0.31; /* a factor of two, in powers of ten */

static void say_dilution(const struct inquiry *inquiry, const struct use *use)
{
    struct bench *bench = inquiry->bench;
    double times = times_of(inquiry);
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, use->ratio->span, "diluted so, all that is in this %.*s is %s than usual",
                     TEXT_ARGUMENTS(inquiry->bench->formula->kind), times < 1 ? "less" : "more");
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "check the dilution against the source");
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_ratio(bench, use, repairs);
    double total = 1 + use->water_parts / use->stock_parts;
    for (size_t r = 0; r < count; r++) {
        if (fabs(log10((1 + repairs[r].factor) / total) - log10(times)) < NEAR) {
            repair_offer(bench, diagnostic, &repairs[r]);
        }
    }
}

static void say_volume(const struct inquiry *inquiry)
{
    struct bench *bench = inquiry->bench;
    const struct part *part = inquiry->bench->formula->parts;
    bench->verdict.volume_doubted = true;
    /* What the bath is begun with tells which of the two it is; where nothing does, it may be either. */
    bool little = volumes_begin_with_little(inquiry->bench->formulary->library, inquiry->bench->formula, part);
    for (const struct use *use = inquiry->bench->formula->uses; use != NULL && !little; use = use->next) {
        if (amount_is_diluted(use)) {
            say_dilution(inquiry, use);
        }
    }
    const struct step *make = volumes_line(part);
    bool good = make != NULL && volumes_start_with_water(part) && !little;
    if (make == NULL || make->how != ADD_TO_MAKE || (class_count_diluted(inquiry->bench->formula) > 0 && good)) {
        return;
    }
    double factor = times_of(inquiry);
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, make->amount_span,
                     "in this volume all amounts of this %.*s are %s than usual", TEXT_ARGUMENTS(inquiry->bench->formula->kind),
                     factor < 1 ? "less" : "more");
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "check the final volume: is it that of another batch?");
    struct repair repairs[MOST_REPAIRS];
    size_t count = repairs_of_volume(bench, make, repairs);
    for (size_t r = 0; r < count; r++) {
        if (fabs(log10(repairs[r].factor) - log10(factor)) < NEAR) {
            repair_offer(bench, diagnostic, &repairs[r]);
        }
    }
}

const struct material *class_first_material(const struct rules *rules, const struct class_item *item)
{
    const struct rule_name *first = NULL;
    for (const struct rule_name *name = rules->subjects[item->subject].names; name != NULL; name = name->next) {
        first = name->entry != NO_MATERIAL && !name->excepted ? name : first; /* the list runs backwards */
    }
    return first == NULL ? NULL : library_entry_material(rules->library, (size_t)first->entry);
}

/* The addition that the missing one follows in the class's order of mixing; else the one that it precedes. */
static const struct class_point *neighbour(const struct inquiry *inquiry, bool *before)
{
    const struct class_pairing *pairing = inquiry->best.pairing;
    const struct class_point *behind = NULL;
    const struct class_point *ahead = NULL;
    size_t behind_item = 0;
    size_t ahead_item = NO_ITEM;
    for (size_t i = 0; i < inquiry->points.count; i++) {
        size_t item = pairing->item[i];
        if (item < pairing->missing_item && (behind == NULL || item >= behind_item)) {
            behind = &inquiry->points.points[i];
            behind_item = item;
        } else if (item != NO_ITEM && item > pairing->missing_item && item < ahead_item) {
            ahead = &inquiry->points.points[i];
            ahead_item = item;
        }
    }
    *before = behind == NULL;
    return behind != NULL ? behind : ahead;
}

static void say_missing_line(const struct inquiry *inquiry)
{
    struct bench *bench = inquiry->bench;
    struct formula *formula = inquiry->bench->formula;
    const struct finding *best = &inquiry->best;
    const struct class_item *item = &best->pairing->class->items[best->pairing->missing_item];
    const struct material *material = class_first_material(bench->rules, item);
    bool before;
    const struct class_point *beside = neighbour(inquiry, &before);
    if (material == NULL || beside == NULL) {
        return;
    }
    struct span span = formula->kind_span.end > 0 ? formula->kind_span : formula->declaration->span;
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_ROLE_MISSING, span, "all lines of %s are there but %.*s",
                     class_words(bench, best->pairing->class), TEXT_ARGUMENTS(bench->rules->subjects[item->subject].words));
    double logarithm = item->middle + inquiry->fit.strength[beside->group] - log10(beside->share);
    bool volume = item->by_volume && material->liquid;
    double per_litre = pow(10, logarithm) * (volume ? material->usual->density : 1);
    diagnostics_help(bench->formulary->diagnostics, diagnostic,
                     "%.*s; beside the other amounts about %.2g %s in a litre would be usual (rule %.*s)",
                     TEXT_ARGUMENTS(best->pairing->class->advise), pow(10, logarithm), volume ? "mL" : "g", TEXT_ARGUMENTS(best->pairing->class->shown));
    lines_offer_addition(bench, diagnostic, material, per_litre * part_volume(beside->part) / 1000, beside->step, before);
}

void class_say_finding(struct inquiry *inquiry)
{
    const struct finding *finding = &inquiry->best;
    bool in_hand = inquiry->match.pairing == finding->pairing;
    if (!in_hand) {
        class_match_points(finding->pairing, &inquiry->points, &inquiry->match);
    }
    if (!in_hand || finding->explanation != AS_IT_STANDS) { /* that was the last fit of the class in hand */
        class_fit_points(&inquiry->match, &finding->supposition, &inquiry->fit);
    }
    switch (finding->explanation) {
    case AMOUNT:
        say_amount(inquiry);
        break;
    case OTHER_VOLUME:
        say_volume(inquiry);
        break;
    case MISSING_LINE:
        say_missing_line(inquiry);
        break;
    case OTHER_NAME:
        look_alike_say(inquiry->bench, inquiry->points.points[finding->pairing->extra_point].step, finding->material);
        break;
    case NO_CLASS:
    case AS_IT_STANDS:
    case EXPLANATIONS:
        break;
    }
}
