/* What it costs: each need at the price of the packs that could fill it. */
#include "store/mixing_cost.h"

#include <math.h>

bool price_by_read(const char *word, enum price_by *by)
{
    static const char *const words[] = {[PRICE_CHEAPEST] = "cheapest", [PRICE_OLDEST] = "oldest", [PRICE_AVERAGE] = "average"};
    for (int i = 0; i <= PRICE_AVERAGE; i++) {
        if (strcmp(word, words[i]) == 0) {
            *by = (enum price_by)i;
            return true;
        }
    }
    return false;
}

/* ---- which packs ---- */

/* Packs that may give the price: those on the shelf that are neither empty nor past their day before those of the shops, and the form that is wanted before others. */
struct tier {
    bool sold;
    bool other_form;
};

static double in_form(const struct form *from, const struct form *to, double grams)
{
    return from == to ? grams : form_equivalent(from, to, grams);
}

static bool belongs(const struct store *store, const struct need *need, const struct pack *pack, struct tier tier)
{
    bool usable = pack->sold || (pack->left > 0 && !pack_is_old(store, pack));
    return usable && pack->currency != NULL && pack->currency == store->currency && pack->sold == tier.sold &&
           (pack->form != need->form) == tier.other_form && in_form(need->form, pack->form, 1) > 0;
}

/* g or mL of the pack that do for so many grams of the need's form. */
static double amount_for(const struct need *need, const struct pack *pack, double grams)
{
    return pack_amount(pack, in_form(need->form, pack->form, grams));
}

static struct money price_of(const struct need *need, const struct pack *pack, double grams)
{
    return money_share(money_of_coins(pack->price), amount_for(need, pack, grams), pack->size);
}

/* ---- the three ways of pricing ---- */

static struct money by_cheapest(const struct store *store, const struct need *need, struct tier tier, struct cost_line *line)
{
    struct money best = money_of_coins(0);
    for (const struct pack *pack = store_packs(store, need->material); pack != NULL; pack = pack->next_of_material) {
        if (belongs(store, need, pack, tier)) {
            struct money price = price_of(need, pack, need->grams);
            if (line->pack == NULL || money_compare(price, best) < 0) {
                best = price;
                line->pack = pack;
            }
        }
    }
    line->packs = 1;
    return best;
}

static struct money by_average(const struct store *store, const struct need *need, struct tier tier, struct cost_line *line)
{
    struct money sum = money_of_coins(0);
    double grams = 0;
    for (const struct pack *pack = store_packs(store, need->material); pack != NULL; pack = pack->next_of_material) {
        if (belongs(store, need, pack, tier)) {
            sum = money_add(sum, money_of_coins(pack->price));
            grams += in_form(pack->form, need->form, pack_grams(pack, pack->size));
            line->pack = line->pack == NULL ? pack : line->pack;
            line->packs++;
        }
    }
    return money_share(sum, need->grams, grams);
}

/* The pack that is used after `after`, or first when that is NULL. */
static const struct pack *next_oldest(const struct store *store, const struct need *need, struct tier tier, const struct pack *after)
{
    const struct pack *found = NULL;
    for (const struct pack *pack = store_packs(store, need->material); pack != NULL; pack = pack->next_of_material) {
        bool later = after == NULL || pack_goes_before(after, pack);
        if (belongs(store, need, pack, tier) && later && (found == NULL || pack_goes_before(pack, found))) {
            found = pack;
        }
    }
    return found;
}

static struct money by_oldest(const struct store *store, const struct need *need, struct tier tier, struct cost_line *line)
{
    struct money sum = money_of_coins(0);
    double wanted = need->grams;
    const struct pack *last = NULL;
    for (const struct pack *pack = next_oldest(store, need, tier, NULL); pack != NULL && (wanted > 0 || last == NULL);
         pack = next_oldest(store, need, tier, pack)) {
        last = pack;
        double there = in_form(pack->form, need->form, pack_grams(pack, pack->left));
        double taken = fmin(there, wanted);
        if (!(taken > 0)) {
            continue;
        }
        line->pack = line->pack == NULL ? pack : line->pack;
        line->packs++;
        sum = money_add(sum, price_of(need, pack, taken));
        wanted -= taken;
    }
    if (wanted > 0 && last != NULL) { /* what the shelf does not have is bought again at the last price */
        line->pack = line->pack == NULL ? last : line->pack;
        line->packs += line->packs == 0;
        sum = money_add(sum, price_of(need, last, wanted));
    }
    return sum;
}

/* ---- a line ---- */

static bool tier_has_price(const struct store *store, const struct need *need, struct tier tier)
{
    for (const struct pack *pack = store_packs(store, need->material); pack != NULL; pack = pack->next_of_material) {
        if (belongs(store, need, pack, tier)) {
            return true;
        }
    }
    return false;
}

static void price_line(const struct store *store, enum price_by by, struct cost_line *line)
{
    static const struct tier tiers[] = {{false, false}, {false, true}, {true, false}, {true, true}};
    const struct need *need = line->need;
    line->money = money_of_coins(0);
    for (size_t i = 0; i < sizeof tiers / sizeof *tiers; i++) {
        if (tier_has_price(store, need, tiers[i])) {
            line->money = by == PRICE_CHEAPEST  ? by_cheapest(store, need, tiers[i], line)
                          : by == PRICE_AVERAGE ? by_average(store, need, tiers[i], line)
                                                : by_oldest(store, need, tiers[i], line);
            line->other_form = tiers[i].other_form;
            /* "as needed" has a price by the gram, but how many grams nobody knows */
            line->gap = need->unknown ? PRICE_NO_AMOUNT : PRICE_KNOWN;
            return;
        }
    }
    line->gap = PRICE_MISSING;
    for (const struct pack *pack = store_packs(store, need->material); pack != NULL; pack = pack->next_of_material) {
        if (pack->currency != NULL) {
            line->gap = PRICE_OTHER_CURRENCY;
            line->pack = pack;
            return;
        }
    }
}

struct cost cost_of_needs(const struct store *store, const struct need *needs, enum price_by by)
{
    struct cost cost = {.currency = store->currency, .batch = money_of_coins(0), .complete = true};
    struct cost_line **end = &cost.lines;
    for (const struct need *need = needs; need != NULL; need = need->next) {
        struct cost_line *line = ARENA_NEW(store->arena, struct cost_line);
        line->need = need;
        price_line(store, by, line);
        if (line->gap != PRICE_KNOWN) {
            cost.complete = false;
            cost.missing++;
        }
        if (line->gap == PRICE_KNOWN || line->gap == PRICE_NO_AMOUNT) {
            cost.batch = money_add(cost.batch, line->money);
        }
        *end = line;
        end = &line->next;
    }
    return cost;
}

struct cost cost_of_formula(const struct store *store, const struct formula *formula, enum price_by by)
{
    return cost_of_needs(store, needs_of_formula(store->formulary, formula), by);
}

struct cost cost_of_litre(const struct store *store, const struct formula *formula, const struct part *part, enum price_by by)
{
    return cost_of_needs(store, needs_of_part(store->formulary, formula, part, part_per_litre(part, 1)), by);
}

/* ---- working solutions ---- */

/* What so many mL of a use's working solution take. */
static struct need *needs_of_working(const struct store *store, const struct formula *formula, const struct use *use,
                                     double millilitres, bool *known)
{
    struct need *needs = NULL;
    *known = false;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        double share = use_share(use, formula, part);
        if (share > 0 && part->makes > 0) {
            *known = true;
            needs_add_all(store->arena, &needs, needs_of_part(store->formulary, formula, part, part_share(part, share * millilitres)), 1);
        }
    }
    double total = use_total_parts(use);
    for (const struct mix_share *share = use->mix; share != NULL && !isnan(total); share = share->next) {
        bool liquid = share->part == NULL && share->material != NULL && !share->material->is_water && share->form != NULL;
        if (liquid && share->form->density > 0) {
            struct need need = {.material = share->material,
                                .form = share->form,
                                .grams = share->amount / total * millilitres * share->form->density,
                                .measured = true,
                                .span = share->span};
            needs_add(store->arena, &needs, &need);
        }
    }
    return needs;
}

bool cost_of_working(const struct store *store, const struct formula *formula, const struct use *use, enum price_by by,
                     struct cost *cost)
{
    bool known;
    const struct need *needs = needs_of_working(store, formula, use, 1000, &known);
    *cost = cost_of_needs(store, needs, by);
    return known;
}

bool cost_of_goods(const struct store *store, const struct formula *formula, const struct use *use, enum price_by by, double area,
                   struct cost *cost)
{
    bool known = false;
    const struct need *needs = NULL;
    const struct part *bath = formula_bath_part(formula);
    if (use->needs > 0 && bath != NULL && bath->makes > 0) {
        double count = isnan(area) ? 1 : area / use->needs_area;
        known = count > 0;
        needs = known ? needs_of_part(store->formulary, formula, bath, part_share(bath, use->needs * count)) : NULL;
    } else if (use->capacity > 0 && use->capacity_per > 0) {
        double count = isnan(area) ? 1 : area / use->capacity_area;
        if (count > 0) {
            needs = needs_of_working(store, formula, use, use->capacity_per / use->capacity * count, &known);
        }
    }
    *cost = cost_of_needs(store, needs, by);
    return known;
}
