/* What the cost page and its JSON both reckon. */
#include "report/cost.h"

#include <math.h>

/* The sheet by which papers are compared, in inches (common practice, no source). */
static const struct sheet_size usual_sheet = {8, 10, NULL};

static const struct unit *roll(const struct store *store)
{
    return library_unit(store->library, names_find(store->library->names, TEXT("roll")));
}

/* Whether a use is about film: it counts rolls, or says so. */
static bool is_for_film(const struct store *store, const struct use *use)
{
    struct name *unit = !isnan(use->needs) ? use->needs_per : use->capacity_of;
    bool rolls = unit != NULL && roll(store) != NULL && library_unit(store->library, unit) == roll(store);
    bool named = use->name.length >= 4 && strncmp(use->name.at, "film", 4) == 0;
    return rolls || named;
}

struct use_cost report_use_cost(const struct report_context *context, const struct cost_terms *terms,
                                const struct formula *formula, const struct use *use)
{
    const struct store *store = context->store;
    struct use_cost cost = {0};
    cost.working_known = cost_of_working(store, formula, use, terms->by, &cost.working);
    if (is_for_film(store, use)) {
        cost.roll_known = cost_of_goods(store, formula, use, terms->by, roll(store) == NULL ? NAN : roll(store)->factor, &cost.roll);
    } else {
        bool sized = isnan(use->needs) && use->capacity_size != NULL;
        cost.size = sized ? use->capacity_size : NULL;
        cost.sheet_known = cost_of_goods(store, formula, use, terms->by, sized ? NAN : measure_sheet_area(store->library, &usual_sheet), &cost.sheet);
    }
    return cost;
}

bool report_stock_cost(const struct report_context *context, const struct cost_terms *terms, const struct formula *formula,
                       struct cost *cost)
{
    const struct part *bath = formula_bath_part(formula);
    if (bath == NULL || !(bath->makes > 0)) {
        return false;
    }
    *cost = cost_of_litre(context->store, formula, bath, terms->by);
    return true;
}

struct text report_need_amount(const struct report_context *context, struct page *page, const struct need *need)
{
    if (need->unknown && !(need->grams > 0)) {
        return TEXT("as needed");
    }
    if (need->measured && need->form->density > 0) {
        return print_volume(context, page, need->grams / need->form->density);
    }
    return print_mass(context, page, need->grams);
}

struct text report_pack_price(struct arena *arena, const struct store *store, const struct pack *pack)
{
    struct text money = money_print(arena, money_of_coins(pack->price), pack->currency);
    struct text size = source_text(store->formulary->sources, pack->statement->pack->span);
    return text_from(arena_format(arena, "%.*s for %.*s", TEXT_ARGUMENTS(money), TEXT_ARGUMENTS(size)));
}

struct text report_price_gap(struct arena *arena, const struct store *store, const struct cost_line *line)
{
    switch (line->gap) {
    case PRICE_MISSING:
        return store_packs(store, line->need->material) == NULL ? TEXT("it is on no shelf, and no shop's price is known")
                                                                : TEXT("no price is written down for it");
    case PRICE_OTHER_CURRENCY:
        return text_from(arena_format(arena, "its price is in another currency: %.*s",
                                      TEXT_ARGUMENTS(report_pack_price(arena, store, line->pack))));
    case PRICE_NO_AMOUNT:
        return TEXT("how much of it is needed shows only at the bench");
    case PRICE_KNOWN:
    default:
        return (struct text){0};
    }
}
