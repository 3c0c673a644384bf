/* The contract's JSON of the shelf. */
#include "report/shelf.h"

#include "base/version.h"
#include "report/json_values.h"

static json_t *day_json(struct arena *arena, long day)
{
    return text_or_null(calendar_print(arena, day));
}

static json_t *written_json(const struct store *store, const struct quantity *quantity)
{
    return text_json(source_text(store->formulary->sources, quantity->span));
}

/* What a pack held when it was counted; null where nothing was taken off. */
static json_t *counted_json(const struct shelf_view *view, struct page *page, const struct pack *pack)
{
    if (pack->counted == CALENDAR_NO_DAY) {
        return json_null();
    }
    return json_pack("{s:o, s:o, s:f, s:i, s:i}", "day", day_json(page->arena, pack->counted), "left",
                     text_json(shelf_written_left(view, pack)), "amount", pack->written_left, "batches",
                     (int)pack->batches, "calculated", (int)pack->calculated);
}

static json_t *pack_json(const struct shelf_view *view, struct page *page, const struct pack *pack)
{
    struct arena *arena = view->store->arena;
    bool priced = pack->currency != NULL;
    return json_pack(
        "{s:o, s:o, s:o, s:f, s:o, s:f, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:b, s:o}", "material", text_json(pack->material->name),
        "form", text_or_null(pack->form->label), "left", text_json(shelf_left(view, page, pack)), "amount",
        pack->left, "pack", written_json(view->store, pack->statement->pack), "purity_percent", pack->purity * 100, "unit",
        pack->by_volume ? "mL" : "g", "price",
        priced ? json_real(money_value(money_of_coins(pack->price), pack->currency)) : json_null(), "currency",
        priced ? text_json(pack->currency->name) : json_null(), "opened", day_json(arena, pack->opened), "best_before",
        day_json(arena, pack->best_before), "lot", text_or_null(pack->lot), "supplier", text_or_null(pack->supplier), "shelf",
        text_json(pack->shelf->title), "too_old", pack_is_old(view->store, pack), "counted",
        counted_json(view, page, pack));
}

static json_t *counts_json(const struct shelf_view *view)
{
    json_t *list = json_array();
    for (const struct shelf *shelf = view->store->shelves; shelf != NULL; shelf = shelf->next) {
        if (shelf->counted != CALENDAR_NO_DAY) {
            put_item(&list, json_pack("{s:o, s:o, s:i}", "shelf", text_json(shelf->title), "day",
                                      day_json(view->store->arena, shelf->counted), "batches", (int)shelf->batches));
        }
    }
    return list;
}

static json_t *overdrawn_json(const struct shelf_view *view)
{
    json_t *list = json_array();
    for (const struct overdrawn *at = view->drawn_down->overdrawn; at != NULL; at = at->next) {
        put_item(&list, json_pack("{s:o, s:o, s:f, s:i, s:o}", "material", text_json(at->material->name), "form",
                                  text_or_null(at->form->label), "mass_g", at->grams, "batches", (int)at->batches, "first",
                                  text_json(at->first->id)));
    }
    return list;
}

static json_t *left_json(const struct shelf_view *view, struct page *page)
{
    json_t *list = json_array();
    for (const struct pack *pack = view->store->packs; pack != NULL; pack = pack->next) {
        if (!pack->sold) {
            put_item(&list, pack_json(view, page, pack));
        }
    }
    return list;
}

static json_t *drawn_json(const struct found *found, const struct drawn *drawn)
{
    const struct need *need = found->need;
    return json_pack("{s:o, s:o, s:f, s:o, s:o, s:f}", "material", text_json(drawn->pack->material->name), "form",
                     text_or_null(drawn->pack->form->label), "mass_g", drawn->grams, "in_place_of", text_json(need->material->name),
                     "in_place_of_form", text_or_null(need->form->label), "in_place_of_g", drawn->does_for);
}

static json_t *mixable_json(const struct shelf_view *view, struct page *page, const struct mixable *mixable)
{
    json_t *missing = json_array();
    json_t *with = json_array();
    for (const struct found *found = mixable->found; found != NULL; found = found->next) {
        if (!found_is_there(found)) {
            put_item(&missing, text_json(found->need->material->name));
        } else if (found->how != FOUND_AS_WRITTEN) {
            for (const struct drawn *drawn = found->drawn; drawn != NULL; drawn = drawn->next) {
                put_item(&with, drawn_json(found, drawn));
            }
        }
    }
    return json_pack("{s:o, s:s, s:o, s:o, s:o}", "title", text_json(mixable->batch->written->title), "how", shelf_how(mixable), "missing",
                     missing, "with", with, "batch",
                     text_or_null(shelf_batch(view->context, page, mixable->batch)));
}

static json_t *purchase_json(const struct shelf_view *view, const struct lack *lack, const struct purchase *purchase)
{
    const struct pack *pack = purchase == NULL ? NULL : purchase->pack;
    struct text remark = shelf_purchase_remark(lack);
    bool priced = pack != NULL && lack->currency != NULL;
    struct money cost = money_of_coins(priced ? (long long)purchase->count * pack->price : 0);
    const struct form *form = pack == NULL ? lack->form : pack->form;
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:f, s:o, s:o}", "material", text_json(lack->material->name), "form",
                     text_or_null(form->label), "pack", pack == NULL ? json_null() : written_json(view->store, pack->statement->pack),
                     "packs", pack == NULL ? json_null() : json_integer((json_int_t)purchase->count), "cost",
                     priced ? json_real(money_value(cost, lack->currency)) : json_null(), "currency",
                     priced ? text_json(lack->currency->name) : json_null(), "supplier",
                     pack == NULL ? json_null() : text_or_null(pack->supplier), "lacking_g", lack->lacking, "lacking_form",
                     text_or_null(lack->form->label), "remark", text_or_null(remark));
}

static json_t *buy_json(const struct shelf_view *view)
{
    json_t *list = json_array();
    for (const struct lack *lack = view->lacks; lack != NULL; lack = lack->next) {
        if (lack->purchases == NULL) {
            put_item(&list, purchase_json(view, lack, NULL));
        }
        for (const struct purchase *purchase = lack->purchases; purchase != NULL; purchase = purchase->next) {
            put_item(&list, purchase_json(view, lack, purchase));
        }
    }
    return list;
}

static json_t *expires_json(const struct shelf_view *view, struct page *page)
{
    const struct store *store = view->store;
    json_t *list = json_array();
    const struct pack **packs = shelf_expiring(view);
    for (size_t i = 0; packs[i] != NULL; i++) {
        const struct pack *pack = packs[i];
        json_t *days = store->today == CALENDAR_NO_DAY ? json_null() : json_integer((json_int_t)(pack->best_before - store->today));
        put_item(&list, json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:b}", "material", text_json(pack->material->name),
                                  "form", text_or_null(pack->form->label), "left",
                                  text_json(shelf_left(view, page, pack)), "best_before",
                                  day_json(store->arena, pack->best_before), "days", days, "lot",
                                  text_or_null(pack->lot), "shelf", text_json(pack->shelf->title), "too_old",
                                  pack_is_old(store, pack)));
    }
    return list;
}

static json_t *dangers_json(const struct shelf_view *view, struct page *page)
{
    json_t *list = json_array();
    for (const struct shelf_danger *danger = shelf_dangers(view, page); danger != NULL; danger = danger->next) {
        put_item(&list, json_pack("{s:o, s:o, s:s, s:o, s:o}", "these", text_json(danger->these), "those",
                                  text_or_null(danger->those), "harm", harm_names[danger->reaction->harm], "gives",
                                  text_json(danger->reaction->warn), "instead", text_or_null(danger->reaction->advise)));
    }
    return list;
}

json_t *report_shelf_json(const struct shelf_view *view)
{
    struct page *page = page_start(view->store->arena); /* for what is printed into it */
    const struct unit *currency = view->store->currency;
    json_t *mixables = json_array();
    for (const struct mixable *mixable = view->mixables; mixable != NULL; mixable = mixable->next) {
        put_item(&mixables, mixable_json(view, page, mixable));
    }
    bool complete;
    struct money total = shelf_total(view, &complete);
    return json_pack("{s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:b, s:o, s:o, s:o, s:o, s:i}", "potash", POTASH_VERSION, "left", left_json(view, page), "can_mix",
                     mixables, "buy", buy_json(view), "expires", expires_json(view, page), "keep_apart",
                     dangers_json(view, page), "currency",
                     currency == NULL ? json_null() : text_json(currency->name), "total",
                     currency == NULL ? json_null() : json_real(money_value(total, currency)), "complete", complete, "batches",
                     report_batches_json(view->context, view->batches), "mix_next",
                     report_mix_next_json(view->context, view->batches), "counted", counts_json(view), "overdrawn",
                     overdrawn_json(view), "left_out", (int)view->drawn_down->left_out);
}
