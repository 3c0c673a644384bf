/* Where a batch stands: what is left, how many it still does, how long it keeps. */
#include "store/mixing.h"

#include <strings.h>

/* ---- keeping ---- */

static bool says(struct text text, const char *word)
{
    size_t length = strlen(word);
    for (size_t i = 0; i + length <= text.length; i++) {
        if (strncasecmp(text.at + i, word, length) == 0) {
            return true;
        }
    }
    return false;
}

bool keeping_is_in(const struct keeping *keeping, const char *vessel)
{
    return says(keeping->in, vessel);
}

/* Working solutions stand in these, and what is said of them is not said of the bottle. */
static bool stands_open(struct text in)
{
    static const char *const vessels[] = {"tray", "dish", "tank", "basin", "open"};
    for (size_t i = 0; i < sizeof vessels / sizeof *vessels; i++) {
        if (says(in, vessels[i])) {
            return true;
        }
    }
    return false;
}

static void look_at_keeping(const struct keeping *keeping, const struct keeping **full, const struct keeping **begun)
{
    for (; keeping != NULL; keeping = keeping->next) {
        if (stands_open(keeping->in)) {
            continue;
        }
        bool half = says(keeping->in, "half") || says(keeping->in, "part");
        const struct keeping **kept = half ? begun : full;
        if (*kept == NULL || keeping->duration > (*kept)->duration) {
            *kept = keeping;
        }
    }
}

/* The day on which no more than half of the batch was left; CALENDAR_NO_DAY while more is. */
static long day_of_half(const struct mixing *batch)
{
    double taken = 0;
    long latest = CALENDAR_NO_DAY;
    for (const struct batch_use *use = batch->uses; use != NULL; use = use->next) {
        taken += use->volume;
        latest = use->day > latest ? use->day : latest;
        if (taken >= batch->made / 2 * 0.9999) {
            return latest;
        }
    }
    return CALENDAR_NO_DAY;
}

/* From the day of mixing as a full bottle; once half of it is gone, from that day on as one that is not.  Of several parts the one
 * that spoils first ends it: to be called for each. */
static void reckon_bottle(const struct mixing *batch, const struct keeping *of_formula, const struct keeping *of_part, long half,
                          struct mixing_standing *standing)
{
    const struct keeping *full = NULL;
    const struct keeping *begun = NULL;
    look_at_keeping(of_formula, &full, &begun);
    look_at_keeping(of_part, &full, &begun);
    const struct keeping *kept = full;
    long day = full == NULL ? CALENDAR_NO_DAY : calendar_later(batch->mixed, full->duration, full->months);
    if (begun != NULL && (half != CALENDAR_NO_DAY || full == NULL)) {
        long from_half = calendar_later(half != CALENDAR_NO_DAY ? half : batch->mixed, begun->duration, begun->months);
        if (kept == NULL || from_half < day) {
            day = from_half;
            kept = begun;
        }
    }
    if (kept != NULL && (standing->keeping == NULL || day < standing->discard)) {
        standing->discard = day;
        standing->keeping = kept;
    }
}

static void reckon_keeping(const struct mixing *batch, struct mixing_standing *standing)
{
    if (batch->mixed == CALENDAR_NO_DAY) {
        return;
    }
    const struct formula *formula = batch->formula;
    long half = day_of_half(batch);
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (batch->part == NULL || batch->part == part) {
            /* what is said of the formula is said of the parts that say nothing */
            bool own = formula->part_count > 1 && part->keeps != NULL;
            reckon_bottle(batch, own ? NULL : formula->keeps, part->keeps, half, standing);
        }
    }
}

/* ---- capacity ---- */

/* The use whose goods the diary counts, or else the first that says how many the bath does. */
static const struct use *counting_use(const struct mixing *batch)
{
    const struct use *first = NULL;
    for (const struct use *use = batch->formula->uses; use != NULL; use = use->next) {
        if (isnan(use->capacity) && isnan(use->needs)) {
            continue;
        }
        first = first == NULL ? use : first;
        struct goods able = isnan(use->capacity) ? goods_of_needs(use) : goods_of_capacity(use);
        for (const struct batch_use *done = batch->uses; done != NULL; done = done->next) {
            if (goods_alike(&done->goods, &able)) {
                return use;
            }
        }
    }
    return first;
}

/* Goods of the kind of `able` that went through the bottle and back. */
static double poured_back(const struct mixing *batch, const struct goods *able)
{
    double sum = 0;
    for (const struct batch_use *use = batch->uses; use != NULL; use = use->next) {
        double done = use->volume > 0 ? 0 : goods_in(&use->goods, able);
        sum += isnan(done) ? 0 : done;
    }
    return sum;
}

/* Of these so many as it was topped up for, at the rate of its use: a bath that is replenished serves on. */
static double replenished(const struct mixing *batch, const struct use *use, const struct goods *able)
{
    if (!(use->replenish > 0)) {
        return 0;
    }
    struct goods done = {batch->topped_up / use->replenish, use->replenish_per->unit, use->replenish_per->size, use->replenish_area};
    double in_kind = goods_in(&done, able);
    return isnan(in_kind) ? 0 : in_kind;
}

static void reckon_goods(const struct mixing *batch, const struct use *use, struct mixing_standing *standing)
{
    use = standing->use = use != NULL && (!isnan(use->capacity) || !isnan(use->needs)) ? use : counting_use(batch);
    const struct part *part = batch->part != NULL ? batch->part : formula_bath_part(batch->formula);
    if (use == NULL || part == NULL || batch->dry) {
        return;
    }
    double share = use_share(use, batch->formula, part);
    struct goods able = isnan(use->capacity) ? goods_of_needs(use) : goods_of_capacity(use);
    double still = INFINITY;
    if (!isnan(use->capacity) && share > 0) {
        double worn = fmax(poured_back(batch, &able) - replenished(batch, use, &able), 0);
        still = standing->left / share * use->capacity / use->capacity_per - worn;
    }
    if (!isnan(use->needs) && part == formula_bath_part(batch->formula)) {
        struct goods need = goods_of_needs(use);
        need.count = standing->left / use->needs;
        double in_kind = goods_in(&need, &able);
        still = isnan(in_kind) ? still : fmin(still, in_kind);
    }
    if (isfinite(still)) {
        standing->still = able;
        standing->still.count = fmax(still, 0);
    }
}

static double taken_per_day(const struct mixing *batch)
{
    long last = CALENDAR_NO_DAY;
    for (const struct batch_use *use = batch->uses; use != NULL; use = use->next) {
        last = use->day > last ? use->day : last;
    }
    bool known = batch->mixed != CALENDAR_NO_DAY && last > batch->mixed;
    return known ? batch->taken / (double)(last - batch->mixed) : 0;
}

double mixing_scale(const struct mixing *batch)
{
    const struct part *part = batch->part != NULL ? batch->part : batch->formula == NULL ? NULL : batch->formula->parts;
    return part == NULL ? NAN : batch->made / (batch->dry ? part->makes_mass : part->makes);
}

struct mixing_standing mixing_standing(const struct mixing *batch, long today, const struct use *use)
{
    struct mixing_standing standing = {.left = NAN, .still.area = NAN, .discard = CALENDAR_NO_DAY};
    if (batch->faulty || batch->formula == NULL) {
        return standing;
    }
    standing.left = mixing_left(batch);
    standing.per_day = taken_per_day(batch);
    reckon_keeping(batch, &standing);
    reckon_goods(batch, use, &standing);
    bool old = today != CALENDAR_NO_DAY && standing.discard != CALENDAR_NO_DAY && today > standing.discard;
    bool spent = standing.still.unit != NULL && standing.still.count < 1 - 1e-9;
    /* What clings to the bottle is no batch: less than a millilitre. */
    bool discarded = batch->discarded != CALENDAR_NO_DAY && (today == CALENDAR_NO_DAY || batch->discarded <= today);
    standing.state = discarded                           ? BATCH_DISCARDED
                     : standing.left < 1                 ? BATCH_EMPTY
                     : old                               ? BATCH_TOO_OLD
                     : spent                             ? BATCH_EXHAUSTED
                                                         : BATCH_IN_USE;
    return standing;
}

double mixing_does_for(const struct mixing *batch, double left)
{
    const struct part *first = batch->formula->parts;
    double whole = isnan(first->makes) ? first->makes_mass : first->makes;
    return batch->part == NULL ? left : left / (batch->dry ? batch->part->makes_mass : batch->part->makes) * whole;
}

/* How many whole loads a bottle does by its capacity; INFINITY where that is not known. */
static double loads_of(const struct mixing_standing *standing, const struct goods *load)
{
    double one = load == NULL ? NAN : goods_in(load, &standing->still);
    return one > 0 ? floor(standing->still.count / one + 1e-9) : INFINITY;
}

/* What the bottles have of one part, in mL of the whole formula, and the goods that they do; NAN where a bottle does not say.  `discard`
 * is the day up to which the last of them keeps. */
static double part_left(const struct batch_list *list, const struct part *part, long today, const struct use *use,
                        const struct goods *load, struct goods *still, double *loads, long *discard)
{
    double left = 0;
    still->count = *loads = 0;
    *discard = CALENDAR_NO_DAY;
    for (const struct mixing *batch = list->first; batch != NULL; batch = batch->next_alike) {
        if (batch->faulty || (batch->part != NULL && batch->part != part)) {
            continue;
        }
        struct mixing_standing standing = mixing_standing(batch, today, use);
        if (standing.state == BATCH_IN_USE && loads_of(&standing, load) >= 1) {
            *loads += loads_of(&standing, load);
            left += mixing_does_for(batch, standing.left);
            still->count += goods_in(&standing.still, still);
            *discard = standing.discard > *discard ? standing.discard : *discard;
        }
    }
    return left;
}

/* Without one of its parts the others do nothing: what is there of the formula is what is there of its scarcest part. */
static void reckon_parts(const struct batch_list *list, long today, const struct use *use, const struct goods *load,
                         struct batch_supply *supply)
{
    struct goods still = supply->still;
    supply->left = supply->still.count = supply->loads = INFINITY;
    for (const struct part *part = list->formula->parts; part != NULL; part = part->next) {
        long discard;
        double loads;
        double left = part_left(list, part, today, use, load, &still, &loads, &discard);
        supply->loads = fmin(supply->loads, loads);
        bool sooner = discard != CALENDAR_NO_DAY && discard < supply->discard;
        supply->discard = sooner ? discard : supply->discard;
        if (left < supply->left) {
            supply->left = left;
            supply->scarcest = part;
        }
        supply->still.count = isnan(still.count) ? NAN : fmin(supply->still.count, still.count);
    }
    supply->last = NULL; /* the youngest bottle of that part */
    for (const struct mixing *batch = list->first; batch != NULL; batch = batch->next_alike) {
        bool holds = !batch->faulty && (batch->part == NULL || batch->part == supply->scarcest);
        supply->last = holds && (supply->last == NULL || batch->mixed >= supply->last->mixed) ? batch : supply->last;
    }
    if (!isfinite(supply->still.count)) {
        supply->still.unit = NULL;
        supply->still.count = 0;
    }
}

struct batch_supply batch_supply(const struct batch_list *list, long today, const struct use *use, const struct goods *load)
{
    struct batch_supply supply = {.still.area = NAN, .discard = CALENDAR_NO_DAY};
    long soonest = CALENDAR_NO_DAY;
    bool in_parts = false;
    for (const struct mixing *batch = list == NULL ? NULL : list->first; batch != NULL; batch = batch->next_alike) {
        if (batch->faulty) {
            continue;
        }
        if (supply.last == NULL || batch->mixed >= supply.last->mixed) {
            supply.last = batch;
        }
        struct mixing_standing standing = mixing_standing(batch, today, use);
        if (standing.state != BATCH_IN_USE) {
            continue;
        }
        double loads = loads_of(&standing, load);
        if (loads < 1) {
            supply.set_aside = batch;
            continue;
        }
        supply.loads += loads;
        supply.in_use++;
        in_parts = in_parts || batch->part != NULL;
        supply.left += standing.left;
        if (supply.still.unit == NULL) {
            supply.still = standing.still;
        } else {
            double more = goods_in(&standing.still, &supply.still);
            supply.still.count += isnan(more) ? 0 : more;
        }
        supply.discard = standing.discard > supply.discard ? standing.discard : supply.discard;
        bool sooner = supply.next == NULL || (standing.discard != CALENDAR_NO_DAY &&
                                              (soonest == CALENDAR_NO_DAY || standing.discard < soonest));
        if (sooner) {
            supply.next = batch;
            soonest = standing.discard;
        }
    }
    if (in_parts) {
        reckon_parts(list, today, use, load, &supply);
    }
    return supply;
}
