/* Shopping: what is lacking of each material, and which packs cover it. */
#include "store/shopping.h"

#include <math.h>

/* Millionths of a gram in a gram: what packs are compared in. */
#define FINE 1e6

void basket_add(struct arena *arena, struct basket *basket, const struct need *needs, double factor)
{
    needs_add_all(arena, &basket->needs, needs, factor);
}

static double in_form(const struct form *from, const struct form *to, double grams)
{
    return from == to ? grams : form_equivalent(from, to, grams);
}

/* ---- what is lacking ---- */

static struct lack *add_lack(struct arena *arena, struct lack **list, const struct need *need)
{
    struct lack **at = list;
    while (*at != NULL && ((*at)->material->entry != need->material->entry || isnan(in_form(need->form, (*at)->form, 1)))) {
        at = &(*at)->next;
    }
    if (*at == NULL) {
        *at = ARENA_NEW(arena, struct lack);
        (*at)->material = need->material;
        (*at)->form = need->form;
    }
    (*at)->wanted += in_form(need->form, (*at)->form, need->grams);
    return *at;
}

static double left_for(const struct store *store, const struct lack *lack)
{
    double sum = 0;
    for (const struct pack *pack = store_packs(store, lack->material); pack != NULL; pack = pack->next_of_material) {
        if (!pack->sold && !pack_is_old(store, pack)) {
            double grams = in_form(pack->form, lack->form, pack_grams(pack, pack->left));
            sum += isnan(grams) ? 0 : grams;
        }
    }
    return sum;
}

/* ---- packs to choose from ---- */

enum { MOST_KINDS = 64 };

struct kinds {
    struct choice_pack choice[MOST_KINDS];
    const struct pack *packs[MOST_KINDS];
    size_t count;
};

enum pricing { PRICED_AT_HOME, PRICED_ABROAD, NOT_PRICED };

static bool is_priced(const struct store *store, const struct pack *pack, enum pricing pricing, const struct unit *abroad)
{
    switch (pricing) {
    case PRICED_AT_HOME:
        return pack->currency != NULL && pack->currency == store->currency;
    case PRICED_ABROAD:
        return pack->currency != NULL && pack->currency == abroad;
    case NOT_PRICED:
    default:
        return true;
    }
}

/* Takes a pack in unless one is there that holds as much for no more; leaves out those that it beats in turn. */
static void add_kind(struct kinds *kinds, const struct pack *pack, long long content, long long price)
{
    size_t kept = 0;
    for (size_t i = 0; i < kinds->count; i++) {
        if (kinds->choice[i].content >= content && kinds->choice[i].price <= price) {
            return;
        }
    }
    for (size_t i = 0; i < kinds->count; i++) {
        bool beaten = kinds->choice[i].content <= content && kinds->choice[i].price >= price;
        if (!beaten) {
            kinds->choice[kept] = kinds->choice[i];
            kinds->packs[kept++] = kinds->packs[i];
        }
    }
    kinds->count = kept;
    if (kinds->count < MOST_KINDS) {
        kinds->choice[kinds->count] = (struct choice_pack){content, price, 0};
        kinds->packs[kinds->count++] = pack;
    }
}

static void add_kinds(const struct store *store, const struct lack *lack, bool sold, enum pricing pricing,
                      const struct unit *abroad, struct kinds *kinds)
{
    for (const struct pack *pack = store_packs(store, lack->material); pack != NULL; pack = pack->next_of_material) {
        double grams = in_form(pack->form, lack->form, pack_grams(pack, pack->size));
        if (pack->sold == sold && grams > 0 && is_priced(store, pack, pricing, abroad)) {
            long long content = llround(fmin(grams, 1e9) * FINE);
            if (content > 0) {
                add_kind(kinds, pack, content, pricing == NOT_PRICED ? 1 : pack->price);
            }
        }
    }
}

/* A currency other than the store's in which packs of the material are priced; NULL when there is none. */
static const struct unit *currency_abroad(const struct store *store, const struct lack *lack)
{
    for (const struct pack *pack = store_packs(store, lack->material); pack != NULL; pack = pack->next_of_material) {
        if (pack->currency != NULL && in_form(pack->form, lack->form, 1) > 0) {
            return pack->currency;
        }
    }
    return NULL;
}

/* What the shops sell goes before what was bought once and could be bought again; a price in the shelf's currency before another,
 * and that before none. */
static void find_kinds(const struct store *store, struct lack *lack, struct kinds *kinds)
{
    static const enum purchase_fault faults[] = {[PRICED_AT_HOME] = PURCHASE_GOOD,
                                                 [PRICED_ABROAD] = PURCHASE_OTHER_CURRENCY,
                                                 [NOT_PRICED] = PURCHASE_NO_PRICE};
    const struct unit *abroad = currency_abroad(store, lack);
    for (int pricing = PRICED_AT_HOME; pricing <= NOT_PRICED; pricing++) {
        for (int held = 0; held <= 1 && kinds->count == 0; held++) {
            add_kinds(store, lack, held == 0, (enum pricing)pricing, abroad, kinds);
        }
        if (kinds->count > 0) {
            lack->fault = faults[pricing];
            lack->currency = pricing == PRICED_AT_HOME ? store->currency : pricing == PRICED_ABROAD ? abroad : NULL;
            return;
        }
    }
    lack->fault = PURCHASE_NO_PACK;
}

/* choose_packs puts the packs in another order: each is found again by what it holds and costs, which no two share. */
static const struct pack *pack_of(const struct kinds *kinds, const struct choice_pack *before, const struct choice_pack *chosen)
{
    for (size_t i = 0; i < kinds->count; i++) {
        if (before[i].content == chosen->content && before[i].price == chosen->price) {
            return kinds->packs[i];
        }
    }
    return NULL;
}

static void choose(const struct store *store, struct lack *lack)
{
    struct kinds kinds = {.count = 0};
    find_kinds(store, lack, &kinds);
    lack->cost = money_of_coins(0);
    if (kinds.count == 0) {
        return;
    }
    struct choice_pack before[MOST_KINDS];
    memcpy(before, kinds.choice, sizeof before);
    if (!choose_packs(kinds.choice, kinds.count, llround(fmin(lack->lacking, 1e9) * FINE)) && lack->fault == PURCHASE_GOOD) {
        lack->fault = PURCHASE_NOT_PROVED;
    }
    struct purchase **end = &lack->purchases;
    long long coins = 0;
    for (size_t i = 0; i < kinds.count; i++) {
        if (kinds.choice[i].count > 0) {
            struct purchase *purchase = ARENA_NEW(store->arena, struct purchase);
            purchase->pack = pack_of(&kinds, before, &kinds.choice[i]);
            purchase->count = kinds.choice[i].count;
            coins += (long long)purchase->count * kinds.choice[i].price;
            *end = purchase;
            end = &purchase->next;
        }
    }
    lack->cost = money_of_coins(lack->currency == NULL ? 0 : coins);
}

struct lack *shopping_list(const struct store *store, const struct basket *basket)
{
    struct lack *all = NULL;
    for (const struct need *need = basket->needs; need != NULL; need = need->next) {
        add_lack(store->arena, &all, need);
    }
    struct lack *list = NULL;
    struct lack **end = &list;
    struct lack *next;
    for (struct lack *lack = all; lack != NULL; lack = next) {
        next = lack->next;
        lack->next = NULL;
        lack->left = left_for(store, lack);
        lack->lacking = lack->wanted - lack->left;
        /* What is there to a millionth of a gram is there; of what is added "as needed" some must be. */
        bool none = !(lack->wanted > 0) && !(lack->left > 0);
        if (!(lack->lacking * FINE >= 0.5) && !none) {
            continue;
        }
        lack->lacking = fmax(lack->lacking, none ? 1 / FINE : 0);
        choose(store, lack);
        *end = lack;
        end = &lack->next;
    }
    return list;
}
