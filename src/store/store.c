/* Shelves: from their lines to scales, graduates and bottles, with what is wrong about them; packs have their own file. */
#include "store/shelving.h"

#include <math.h>

void store_start(struct store *store, struct formulary *formulary, long today)
{
    *store = (struct store){.arena = formulary->arena,
                            .formulary = formulary,
                            .library = formulary->library,
                            .diagnostics = formulary->diagnostics,
                            .today = today};
}

/* ---- money ---- */

const struct unit *shelving_currency(struct shelving *shelving, struct name *name, struct span span)
{
    const struct unit *unit = library_unit(shelving->store->library, name);
    if (unit != NULL && unit->dimension == DIMENSION_MONEY) {
        return unit;
    }
    struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_UNIT_UNKNOWN, span, "\"%.*s\" is no known currency",
                                              TEXT_ARGUMENTS(name->spelling));
    diagnostics_help(shelving->store->diagnostics, diagnostic,
                     "give its code of three letters (ISO 4217), such as GBP, EUR or USD; another is declared so: unit %.*s "
                     "measures money to 0.01",
                     TEXT_ARGUMENTS(name->spelling));
    return NULL;
}

static void read_currency(struct shelving *shelving, const struct words_statement *statement)
{
    struct shelf *shelf = shelving->shelf;
    if (shelf->currency != NULL) {
        struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_DECLARED_TWICE, statement->base.span,
                                                  "the shelf has a currency already: %.*s", TEXT_ARGUMENTS(shelf->currency->name));
        diagnostics_help(shelving->store->diagnostics, diagnostic,
                         "a single price may be in another, with its code behind it: for 9.40 EUR");
        return;
    }
    shelf->currency = shelving_currency(shelving, statement->words->name, statement->words->span);
    if (shelving->store->currency == NULL) {
        shelving->store->currency = shelf->currency;
    }
}

/* ---- the count ---- */

long shelving_read_count(struct shelving *shelving, struct text date, struct span span)
{
    long day = store_read_day(&shelving->checker, date, span);
    const long today = shelving->store->today;
    if (day != CALENDAR_NO_DAY && today != CALENDAR_NO_DAY && day > today) {
        struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_AMOUNT_UNUSUAL, span, "this day is still to come");
        diagnostics_help(shelving->store->diagnostics, diagnostic, "nothing is taken off what was counted before that day is past");
    }
    return day;
}

static void read_count(struct shelving *shelving, const struct dated_statement *statement)
{
    struct shelf *shelf = shelving->shelf;
    if (shelf->counted_span.end > 0) {
        struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_DECLARED_TWICE, statement->base.span,
                                                  "the day on which the shelf was counted is said already");
        diagnostics_relate(shelving->store->diagnostics, diagnostic, shelf->counted_span, "the first one is here");
        diagnostics_help(shelving->store->diagnostics, diagnostic,
                         "keep the day that the figures behind left are of; a pack that was looked at on another day has that day on "
                         "its line, as in: left 400 g counted 2026-03-14");
        return;
    }
    shelf->counted_span = statement->base.span;
    shelf->counted = shelving_read_count(shelving, statement->date, statement->date_span);
}

/* ---- instruments and bottles ---- */

static void read_instrument(struct shelving *shelving, const struct quantity_statement *statement, enum dimension dimension)
{
    bool scale = dimension == DIMENSION_MASS;
    const char *example = scale ? "balance 0.1 g, or balance 500 g within 0.1 g" : "graduate 100 mL within 1 mL";
    /* `balance STEP`, `balance CAPACITY within STEP`, `graduate CAPACITY within STEP` */
    const struct quantity *step = scale ? statement->quantity : statement->per;
    const struct quantity *capacity = scale ? statement->per : statement->quantity;
    struct measure shown = check_quantity_of(&shelving->checker, step, dimension, example);
    struct measure taken = {.low = NAN};
    if (capacity != NULL) {
        taken = check_quantity_of(&shelving->checker, capacity, dimension, example);
    }
    if (shown.fault != MEASURE_GOOD || taken.fault != MEASURE_GOOD) {
        return;
    }
    if (!(shown.low > 0) || taken.low <= shown.low) {
        struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_AMOUNT_OUT_OF_RANGE, step->span,
                                                  "what it shows must be more than nothing, and less than it takes");
        diagnostics_help(shelving->store->diagnostics, diagnostic, "write it as in: %s", example);
        return;
    }
    struct instrument *instrument = ARENA_NEW(shelving->store->arena, struct instrument);
    instrument->step = shown.low;
    instrument->capacity = taken.low;
    instrument->span = statement->base.span;
    struct instrument **list = scale ? &shelving->shelf->balances : &shelving->shelf->graduates;
    while (*list != NULL) {
        list = &(*list)->next;
    }
    *list = instrument;
}

static void read_bottles(struct shelving *shelving, const struct bottles_statement *statement)
{
    double volume = store_read_volume(&shelving->checker, statement->volume, "bottle 1 L");
    if (isnan(volume)) {
        return;
    }
    if (!(statement->count >= 1) || statement->count > 1e6 || floor(statement->count) < statement->count) {
        diagnostics_help(shelving->checker.diagnostics,
                         check_say(&shelving->checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->count_span,
                                   "bottles are counted in whole numbers"),
                         "write it as in: bottles 6 of 1 L");
        return;
    }
    struct bottle *bottle = ARENA_NEW(shelving->store->arena, struct bottle);
    bottle->volume = volume;
    bottle->count = (unsigned long)statement->count;
    bottle->note = statement->note;
    struct bottle **list = &shelving->shelf->bottles;
    while (*list != NULL) {
        list = &(*list)->next;
    }
    *list = bottle;
}

/* ---- shelves ---- */

static void read_statement(struct shelving *shelving, const struct statement *statement)
{
    switch (statement->kind) {
    case SAY_BALANCE:
        read_instrument(shelving, (const struct quantity_statement *)statement, DIMENSION_MASS);
        break;
    case SAY_GRADUATE:
        read_instrument(shelving, (const struct quantity_statement *)statement, DIMENSION_VOLUME);
        break;
    case SAY_HOLDS:
    case SAY_SOLD:
        shelving_read_pack(shelving, (const struct holding_statement *)statement);
        break;
    case SAY_BOTTLES:
        read_bottles(shelving, (const struct bottles_statement *)statement);
        break;
    case SAY_NOTE:
        store_read_note(&shelving->checker, &shelving->shelf->notes, ((const struct text_statement *)statement)->text);
        break;
    default:
        break;
    }
}

static void check_title(struct shelving *shelving)
{
    const struct shelf *shelf = shelving->shelf;
    for (const struct shelf *other = shelving->store->shelves; other != shelf && shelf->title.length > 0; other = other->next) {
        if (text_equal(other->title, shelf->title)) {
            struct diagnostic *diagnostic = check_say(&shelving->checker, DIAG_DECLARED_TWICE, shelf->declaration->title_span,
                                                      "a shelf \"%.*s\" is there already", TEXT_ARGUMENTS(shelf->title));
            diagnostics_relate(shelving->store->diagnostics, diagnostic, other->declaration->title_span, "the other one is here");
            diagnostics_help(shelving->store->diagnostics, diagnostic, "give one of them another title");
            return;
        }
    }
}

static void read_shelf(struct store *store, const struct declaration *declaration)
{
    struct formula stand_in = {.declaration = declaration};
    struct shelving shelving = {.store = store, .checker = store_checker(store->formulary, &stand_in)};
    struct shelf *shelf = ARENA_NEW(store->arena, struct shelf);
    shelving.shelf = shelf;
    shelf->declaration = declaration;
    shelf->title = text_trim(declaration->title);
    shelf->counted = CALENDAR_NO_DAY;
    if (store->last_shelf == NULL) {
        store->shelves = shelf;
    } else {
        store->last_shelf->next = shelf;
    }
    store->last_shelf = shelf;
    check_title(&shelving);
    /* The currency holds for the prices above it too, and the count for the packs. */
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_CURRENCY) {
            read_currency(&shelving, (const struct words_statement *)statement);
        } else if (statement->kind == SAY_COUNTED) {
            read_count(&shelving, (const struct dated_statement *)statement);
        }
    }
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        read_statement(&shelving, statement);
    }
}

void store_add_file(struct store *store, const struct syntax_file *file)
{
    const struct declaration *declaration = syntax_declarations(file, 1u << DECLARE_SHELF);
    for (; declaration != NULL; declaration = declaration->next) {
        if (declaration->kind == DECLARE_SHELF) {
            read_shelf(store, declaration);
        }
    }
}

static double finest(const struct instrument *list, double so_far)
{
    for (; list != NULL; list = list->next) {
        so_far = isnan(so_far) ? list->step : fmin(so_far, list->step);
    }
    return so_far;
}

double store_balance(const struct store *store)
{
    double step = NAN;
    for (const struct shelf *shelf = store->shelves; shelf != NULL; shelf = shelf->next) {
        step = finest(shelf->balances, step);
    }
    return step;
}

double store_graduate(const struct store *store)
{
    double step = NAN;
    for (const struct shelf *shelf = store->shelves; shelf != NULL; shelf = shelf->next) {
        step = finest(shelf->graduates, step);
    }
    return step;
}
