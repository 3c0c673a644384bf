/* Packs: what stands on a shelf or is sold in shops, with what is wrong about the lines. */
#include "store/shelving.h"

#include <math.h>

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

/* A lot of a material, and where it was first met. */
struct lot_entry {
    struct text key;                /* material and lot */
    const struct pack *pack;
    UT_hash_handle hh;
};

/* Whether the shelf has a line that states the currency, be it a faulty one. */
static bool states_currency(const struct shelf *shelf)
{
    for (const struct statement *statement = shelf->declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_CURRENCY) {
            return true;
        }
    }
    return false;
}

static void read_price(struct shelving *shelving, const struct quantity *price, struct pack *pack)
{
    struct diagnostics *diagnostics = shelving->store->diagnostics;
    const struct unit *currency = shelving->shelf->currency;
    if (price->unit != NULL) {
        currency = shelving_currency(shelving, price->unit, price->span);
    } else if (currency == NULL && !states_currency(shelving->shelf)) {
        struct diagnostic *diagnostic =
            check_say(&shelving->checker, DIAG_SYNTAX, price->span, "this price has no currency");
        diagnostics_help(diagnostics, diagnostic, "add a line to the shelf, such as: currency GBP");
    }
    if (currency == NULL) {
        return;
    }
    if (price->more != NULL || price->high != NULL) {
        diagnostics_help(shelving->checker.diagnostics,
                         check_say(&shelving->checker, DIAG_SYNTAX, price->span, "a price is one amount"),
                         "write it as in: for 9.40, or: for 9.40 EUR");
        return;
    }
    if (price->value < 0) {
        diagnostics_help(
            shelving->checker.diagnostics,
            check_say(&shelving->checker, DIAG_AMOUNT_OUT_OF_RANGE, price->span, "a price cannot be less than nothing"),
            "leave \"for\" out where nothing was paid");
        return;
    }
    if (!money_read(currency, price->value, &pack->price)) {
        struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_AMOUNT_OUT_OF_RANGE, price->span,
                                                  "no coins of %.*s make up this price", TEXT_ARGUMENTS(currency->name));
        diagnostics_help(diagnostics, diagnostic, "its smallest coin is %g %.*s", currency->smallest,
                         TEXT_ARGUMENTS(currency->name));
        return;
    }
    pack->currency = currency;
}

/* ---- packs ---- */

/* A size or what is left, g or mL; NAN when it is wrong. */
static double read_amount(struct shelving *shelving, const struct quantity *quantity, const struct form *form, bool *by_volume)
{
    struct checker *checker = &shelving->checker;
    bool liquid = form->density > 0;
    struct measure reading = check_quantity(checker, quantity, liquid);
    if (reading.fault != MEASURE_GOOD) {
        return NAN;
    }
    if (reading.leftover != NULL || quantity->high != NULL) {
        diagnostics_help(
            checker->diagnostics,
            check_say(checker, DIAG_SYNTAX, quantity->span, "one plain amount is expected here, such as 500 g"),
            "write it as in: holds metol 500 g for 9.40");
        return NAN;
    }
    bool mass = reading.dimension == DIMENSION_MASS;
    if (!mass && (reading.dimension != DIMENSION_VOLUME || !liquid)) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_UNIT_MISMATCH, quantity->span,
                      reading.dimension == DIMENSION_VOLUME ? "a solid is kept by weight" : "a pack is a weight or a volume");
        diagnostics_help(shelving->store->diagnostics, diagnostic, "write it as in: 500 g%s", liquid ? ", 500 mL" : "");
        return NAN;
    }
    *by_volume = !mass;
    return reading.low;
}

static void say_form_assumed(struct shelving *shelving, const struct material_words *words, const struct material *material)
{
    struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_FORM_UNSTATED, words->span,
                                              "%.*s comes in several forms; %.*s is assumed", TEXT_ARGUMENTS(material->name),
                                              TEXT_ARGUMENTS(material->usual->label));
    diagnostics_help(shelving->store->diagnostics, diagnostic, "read it off the bottle's label and write it in brackets");
    struct span end = {words->span.end, words->span.end};
    for (size_t i = 0; i < material->form_count; i++) {
        diagnostics_fix_writing(shelving->store->diagnostics, diagnostic, end, " (%.*s)", TEXT_ARGUMENTS(material->forms[i].label));
    }
}

static bool read_material(struct shelving *shelving, const struct holding_statement *statement, struct pack *pack)
{
    double temperature = NAN;
    if (!check_material(&shelving->checker, statement->material, &pack->material, &pack->form, &temperature)) {
        return false;
    }
    if (pack->form == NULL) {
        pack->form = pack->material->usual;
        if (pack->material->form_count > 1 && pack->form != NULL) {
            say_form_assumed(shelving, statement->material, pack->material);
        }
    }
    return pack->form != NULL;
}

static bool read_left(struct shelving *shelving, const struct holding_statement *statement, struct pack *pack)
{
    if (statement->left == NULL) {
        pack->left = pack->sold ? 0 : pack->size;
        return true;
    }
    struct checker *checker = &shelving->checker;
    bool by_volume = pack->by_volume;
    double left = read_amount(shelving, statement->left, pack->form, &by_volume);
    if (isnan(left)) {
        return false;
    }
    if (left < 0) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->left->span, "less than nothing cannot be left of a pack");
        diagnostics_help(shelving->store->diagnostics, diagnostic, "an empty pack has: left 0 g");
        return false;
    }
    if (by_volume != pack->by_volume) {
        left = pack->by_volume ? left / pack->form->density : left * pack->form->density;
    }
    if (left > pack->size * (1 + 1e-9)) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->left->span, "more is left than the pack held");
        diagnostics_relate(shelving->store->diagnostics, diagnostic, statement->pack->span, "the pack is this large");
        diagnostics_help(shelving->store->diagnostics, diagnostic, "give a second pack a line of its own");
        return false;
    }
    pack->left = left;
    return true;
}

static bool read_purity(struct shelving *shelving, const struct holding_statement *statement, struct pack *pack)
{
    pack->purity = isnan(statement->purity) ? 1 : statement->purity / 100;
    if (pack->purity > 0 && pack->purity <= 1) {
        return true;
    }
    struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->purity_span,
                                              "a purity lies above 0 and not above 100 %%");
    diagnostics_help(shelving->store->diagnostics, diagnostic, "write it as the label has it, as in: purity 98 %%");
    return false;
}

/* A mistaken day takes the day with it, not the pack: the pack stands there all the same. */
static void read_days(struct shelving *shelving, const struct holding_statement *statement, struct pack *pack)
{
    struct checker *checker = &shelving->checker;
    pack->opened = pack->best_before = CALENDAR_NO_DAY;
    if (statement->opened.length > 0) {
        pack->opened = store_read_day(checker, statement->opened, statement->opened_span);
    }
    if (statement->best_before.length > 0) {
        pack->best_before = store_read_day(checker, statement->best_before, statement->best_before_span);
    }
    pack->counted = shelving->shelf->counted;
    if (statement->counted.length > 0) {
        pack->counted = shelving_read_count(shelving, statement->counted, statement->counted_span);
    }
    if (pack->opened == CALENDAR_NO_DAY) {
        return;
    }
    if (pack->best_before != CALENDAR_NO_DAY && pack->best_before < pack->opened) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_UNUSUAL, statement->best_before_span,
                                                  "it was best before a day that lies before the one on which it was opened");
        diagnostics_relate(shelving->store->diagnostics, diagnostic, statement->opened_span, "opened here");
        diagnostics_help(shelving->store->diagnostics, diagnostic, "one of the two days may be mistyped");
    } else if (shelving->store->today != CALENDAR_NO_DAY && pack->opened > shelving->store->today) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_AMOUNT_UNUSUAL, statement->opened_span, "this day is still to come"),
                         "write the day as year, month, day: 2026-02-01");
    }
}

/* What is left of a pack that was opened after the count cannot have been seen at the count. */
static void check_count(struct shelving *shelving, const struct holding_statement *statement, const struct pack *pack)
{
    bool later = pack->counted != CALENDAR_NO_DAY && pack->opened != CALENDAR_NO_DAY && pack->opened > pack->counted;
    if (!later || statement->left == NULL || !(pack->left < pack->size * (1 - 1e-9))) {
        return;
    }
    struct text day = calendar_print(shelving->store->arena, pack->counted);
    struct diagnostic *diagnostic =
        check_say(&shelving->checker, DIAG_AMOUNT_UNUSUAL, statement->left->span,
                  "this would be left of it on %.*s, the day of the count, when it was not yet opened", TEXT_ARGUMENTS(day));
    diagnostics_relate(shelving->store->diagnostics, diagnostic, statement->opened_span, "opened here");
    diagnostics_help(shelving->store->diagnostics, diagnostic,
                     "a pack that was looked at on another day has that day on its line, as in: left 400 g counted 2026-03-14");
}

static struct supply *find_supply(const struct store *store, const struct material *material)
{
    const void *key = material->entry;
    struct supply *supply = NULL;
    HASH_FIND_PTR(store->supplies, &key, supply);
    return supply;
}

static void add_to_supply(struct store *store, struct pack *pack)
{
    struct arena *table_arena = store->arena;
    struct supply *supply = find_supply(store, pack->material);
    if (supply == NULL) {
        supply = ARENA_NEW(store->arena, struct supply);
        supply->key = pack->material->entry;
        supply->material = pack->material;
        supply->first = pack;
        HASH_ADD_PTR(store->supplies, key, supply);
    } else {
        supply->last->next_of_material = pack;
    }
    supply->last = pack;
}

/* One bottle stands in one place: the same lot of a material on two shelves is one of them written down twice. */
static bool lot_is_elsewhere(struct shelving *shelving, const struct holding_statement *statement, const struct pack *pack)
{
    struct store *store = shelving->store;
    if (pack->sold || pack->lot.length == 0) {
        return false;
    }
    struct arena *table_arena = store->arena;
    char *key = arena_format(store->arena, "%.*s\n%.*s", TEXT_ARGUMENTS(pack->material->name), TEXT_ARGUMENTS(pack->lot));
    struct lot_entry *entry = NULL;
    HASH_FIND_STR(store->lots, key, entry);
    if (entry == NULL) {
        entry = ARENA_NEW(store->arena, struct lot_entry);
        entry->key = text_from(key);
        entry->pack = pack;
        HASH_ADD_KEYPTR(hh, store->lots, entry->key.at, entry->key.length, entry);
        return false;
    }
    if (entry->pack->shelf == pack->shelf) {
        return false;
    }
    struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_DECLARED_TWICE, statement->lot_span,
                                              "lot \"%.*s\" of %.*s stands on the shelf \"%.*s\" already", TEXT_ARGUMENTS(pack->lot),
                                              TEXT_ARGUMENTS(pack->material->name), TEXT_ARGUMENTS(entry->pack->shelf->title));
    diagnostics_relate(store->diagnostics, diagnostic, entry->pack->statement->lot_span, "the other one is here");
    diagnostics_help(store->diagnostics, diagnostic, "leave it on the shelf where it stands");
    return true;
}

void shelving_read_pack(struct shelving *shelving, const struct holding_statement *statement)
{
    struct store *store = shelving->store;
    struct pack *pack = ARENA_NEW(store->arena, struct pack);
    *pack = (struct pack){.shelf = shelving->shelf, .statement = statement, .sold = statement->base.kind == SAY_SOLD};
    if (!read_material(shelving, statement, pack)) {
        return;
    }
    pack->size = read_amount(shelving, statement->pack, pack->form, &pack->by_volume);
    if (isnan(pack->size)) {
        return;
    }
    if (!(pack->size > 0)) {
        diagnostics_help(shelving->checker.diagnostics,
                         check_say(&shelving->checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->pack->span,
                                   "a pack holds more than nothing"),
                         "write what is in a full one: 500 g");
        return;
    }
    if (statement->twice_span.end > 0) {
        struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_DECLARED_TWICE, statement->twice_span,
                                                  "this is said of the pack already");
        diagnostics_help(store->diagnostics, diagnostic, "keep one of the two; a second pack has a line of its own");
        return;
    }
    pack->lot = statement->lot;
    pack->supplier = statement->supplier;
    read_days(shelving, statement, pack);
    if (!read_purity(shelving, statement, pack) || !read_left(shelving, statement, pack) ||
        lot_is_elsewhere(shelving, statement, pack)) {
        return;
    }
    pack->written_left = pack->left;
    check_count(shelving, statement, pack);
    if (statement->price != NULL) { /* without a price that can be read the pack stands there all the same */
        read_price(shelving, statement->price, pack);
    }
    if (store->last_pack == NULL) {
        store->packs = pack;
    } else {
        store->last_pack->next = pack;
    }
    store->last_pack = pack;
    add_to_supply(store, pack);
}

/* ---- asking ---- */

const struct pack *store_packs(const struct store *store, const struct material *material)
{
    const struct supply *supply = find_supply(store, material);
    return supply == NULL ? NULL : supply->first;
}

/* Sorted by putting each in at its place: packs of a material are few, and mostly written down in this order. */
static void chain_usable(const struct store *store, struct supply *supply)
{
    struct pack *last = NULL;
    for (struct pack *pack = supply->first; pack != NULL; pack = pack->next_of_material) {
        if (pack->sold || !(pack->left > 0) || pack_is_old(store, pack)) {
            continue;
        }
        struct pack **at = last != NULL && pack_goes_before(last, pack) ? &last->next_usable : &supply->usable;
        while (*at != NULL && pack_goes_before(*at, pack)) {
            at = &(*at)->next_usable;
        }
        pack->next_usable = *at;
        *at = pack;
        last = pack->next_usable == NULL ? pack : last;
    }
}

void store_settle(struct store *store)
{
    for (struct supply *supply = store->supplies; supply != NULL; supply = supply->hh.next) {
        chain_usable(store, supply);
    }
}

const struct pack *store_usable(const struct store *store, const struct material *material)
{
    const struct supply *supply = find_supply(store, material);
    return supply == NULL ? NULL : supply->usable;
}

bool pack_is_old(const struct store *store, const struct pack *pack)
{
    return store->today != CALENDAR_NO_DAY && pack->best_before != CALENDAR_NO_DAY && pack->best_before < store->today;
}

double pack_grams(const struct pack *pack, double amount)
{
    return amount * (pack->by_volume ? pack->form->density : 1) * pack->purity;
}

double pack_amount(const struct pack *pack, double grams)
{
    return grams / pack->purity / (pack->by_volume ? pack->form->density : 1);
}

static int compare_days(long a, long b)
{
    /* a day that is not known comes last */
    long first = a == CALENDAR_NO_DAY ? LONG_MAX : a;
    long second = b == CALENDAR_NO_DAY ? LONG_MAX : b;
    return (first > second) - (first < second);
}

/* Something was taken out of it before its line was written, and so it has been opened. */
static bool is_begun(const struct pack *pack)
{
    return pack->written_left < pack->size * (1 - 1e-9);
}

bool pack_goes_before(const struct pack *a, const struct pack *b)
{
    int order = compare_days(a->opened, b->opened);
    order = order != 0 ? order : is_begun(b) - is_begun(a);
    order = order != 0 ? order : compare_days(a->best_before, b->best_before);
    return order != 0 ? order < 0 : a->statement->base.span.begin < b->statement->base.span.begin;
}
