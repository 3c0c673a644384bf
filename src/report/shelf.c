/* The shelf's page: what can be mixed, what to buy, what expires, what is left. */
#include "report/shelf.h"

#include "base/number.h"

#include <math.h>

/* ---- what can be mixed ---- */

static void add_row_notes(const struct shelf_view *view, struct page *page, struct page_row *row, const struct mixable *mixable)
{
    for (const struct found *found = mixable->found; found != NULL; found = found->next) {
        struct text instead = shelf_instead(view, page, found);
        if (instead.length > 0) {
            page_row_remark(row, instead);
        }
    }
}

static struct text missing_words(const struct shelf_view *view, struct page *page, const struct mixable *mixable)
{
    struct buffer out;
    buffer_start(&out, page->arena);
    for (const struct found *found = mixable->found; found != NULL; found = found->next) {
        struct text missing = shelf_missing(view, page, found);
        if (missing.length > 0) {
            buffer_format(&out, "%s%.*s", out.length == 0 ? "" : "; ", TEXT_ARGUMENTS(missing));
        }
    }
    return text_from(buffer_finish(&out));
}

static void add_mixables(const struct shelf_view *view, struct page *page, const char *how, struct text heading)
{
    struct page_table *table = NULL;
    struct page_column *title = NULL;
    struct page_column *batch = NULL;
    struct page_column *missing = NULL;
    bool no = strcmp(how, "no") == 0;
    for (const struct mixable *mixable = view->mixables; mixable != NULL; mixable = mixable->next) {
        if (strcmp(shelf_how(mixable), how) != 0) {
            continue;
        }
        if (table == NULL) {
            page_add_heading(page, 2, heading);
            table = page_add_table(page);
            title = page_table_column(table, TEXT("formula"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
            batch = page_table_column(table, TEXT("batch"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
            missing = no ? page_table_column(table, TEXT("missing"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1) : NULL;
        }
        struct page_row *row = page_table_row(table);
        page_row_cell(row, title, mixable->batch->written->title);
        page_row_cell(row, batch, shelf_batch(view->context, page, mixable->batch));
        if (missing != NULL) {
            page_row_cell(row, missing, missing_words(view, page, mixable));
        }
        add_row_notes(view, page, row, mixable);
    }
}

/* ---- what to buy ---- */

struct buy_columns {
    struct page_column *tick, *material, *lacking, *packs, *cost, *supplier;
};

static void add_lack(const struct shelf_view *view, struct page *page, struct page_table *table, const struct buy_columns *columns,
                     const struct lack *lack)
{
    struct page_row *row = page_table_row(table);
    page_row_cell(row, columns->material, print_material(page, lack->material, lack->form));
    page_row_amount(row, columns->lacking, print_mass(view->context, page, lack->lacking), lack->lacking, TEXT("g"));
    for (const struct purchase *purchase = lack->purchases; purchase != NULL; purchase = purchase->next) {
        if (purchase != lack->purchases) {
            row = page_table_row(table);
        }
        const struct pack *pack = purchase->pack;
        struct text size = source_text(view->store->formulary->sources, pack->statement->pack->span);
        struct text packs = page_format(page, "%lu x %.*s", purchase->count, TEXT_ARGUMENTS(size));
        if (pack->form != lack->form && pack->form->label.length > 0) {
            packs = page_format(page, "%.*s (%.*s)", TEXT_ARGUMENTS(packs), TEXT_ARGUMENTS(pack->form->label));
        }
        page_row_cell(row, columns->packs, packs);
        page_row_cell(row, columns->supplier, pack->supplier);
        if (lack->currency != NULL) {
            struct money money = money_of_coins((long long)purchase->count * pack->price);
            page_row_amount(row, columns->cost, money_print(page->arena, money, lack->currency),
                            money_value(money, lack->currency), lack->currency->name);
        }
    }
    struct text remark = shelf_purchase_remark(lack);
    if (remark.length > 0) {
        page_row_note(row, remark);
    }
}

static void add_shopping_head(const struct shelf_view *view, struct page *page)
{
    page_add_heading(page, 2, TEXT("To buy"));
    if (!view->asked) {
        page_add_paragraph(page, TEXT("For one batch of each formula that cannot be mixed now; others are asked for with --mix."));
        return;
    }
    struct buffer out;
    buffer_start(&out, page->arena);
    for (size_t i = 0; i < view->wanted_count; i++) {
        buffer_format(&out, "%s%.*s", i == 0 ? "For " : i + 1 < view->wanted_count ? ", " : " and ", TEXT_ARGUMENTS(view->wanted[i]));
    }
    page_add_paragraph(page, page_format(page, "%s.", buffer_finish(&out)));
}

static void add_shopping(const struct shelf_view *view, struct page *page)
{
    if (view->lacks == NULL && !view->asked) {
        return;
    }
    add_shopping_head(view, page);
    if (view->lacks == NULL) {
        page_add_paragraph(page, TEXT("Nothing: all of it is there."));
        return;
    }
    page_keep_with_next(page);
    struct page_table *table = page_add_table(page);
    struct buy_columns columns;
    columns.tick = page_table_column(table, TEXT(""), PAGE_COLUMN_TICK, PAGE_LEFT, 1);
    columns.material = page_table_column(table, TEXT("material"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.lacking = page_table_column(table, TEXT("lacking"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    columns.packs = page_table_column(table, TEXT("packs"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.cost = page_table_column(table, TEXT("cost"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    columns.supplier = page_table_column(table, TEXT("from"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    for (const struct lack *lack = view->lacks; lack != NULL; lack = lack->next) {
        add_lack(view, page, table, &columns, lack);
    }
    bool complete;
    struct money total = shelf_total(view, &complete);
    const struct unit *currency = view->store->currency;
    if (currency != NULL) {
        struct page_row *row = page_table_total(table);
        page_row_cell(row, columns.material, complete ? TEXT("in all") : TEXT("in all, incomplete"));
        page_row_amount(row, columns.cost, money_print(page->arena, total, currency), money_value(total, currency), currency->name);
    }
}

/* ---- what expires ---- */

static struct text days_words(const struct shelf_view *view, struct page *page, const struct pack *pack)
{
    if (view->store->today == CALENDAR_NO_DAY) {
        return (struct text){0};
    }
    long days = pack->best_before - view->store->today;
    if (days < 0) {
        return page_format(page, "too old by %ld day%s", -days, days == -1 ? "" : "s");
    }
    return days == 0 ? TEXT("last day today") : page_format(page, "%ld day%s to go", days, days == 1 ? "" : "s");
}

static void add_expiring(const struct shelf_view *view, struct page *page)
{
    const struct pack **list = shelf_expiring(view);
    bool dated = view->store->today != CALENDAR_NO_DAY;
    page_add_heading(page, 2, dated ? page_format(page, "Too old, or so within %ld days", view->horizon) : TEXT("Best before"));
    if (list[0] == NULL) {
        page_add_paragraph(page, TEXT("Nothing that has a day written down."));
        return;
    }
    struct page_table *table = page_add_table(page);
    struct page_column *material = page_table_column(table, TEXT("material"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *left = page_table_column(table, TEXT("left"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    struct page_column *day = page_table_column(table, TEXT("best before"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *days = page_table_column(table, TEXT("that is"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *lot = page_table_column(table, TEXT("lot"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    for (size_t i = 0; list[i] != NULL; i++) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, material, print_material(page, list[i]->material, list[i]->form));
        page_row_cell(row, left, shelf_left(view, page, list[i]));
        page_row_cell(row, day, calendar_print(page->arena, list[i]->best_before));
        page_row_cell(row, days, days_words(view, page, list[i]));
        page_row_cell(row, lot, list[i]->lot);
        if (pack_is_old(view->store, list[i])) {
            page_row_emphasize(row, days);
        }
    }
}

/* ---- what is left ---- */

static bool any_purity(const struct shelf *shelf, const struct pack *packs)
{
    for (; packs != NULL; packs = packs->next) {
        if (packs->shelf == shelf && !packs->sold && packs->purity < 1) {
            return true;
        }
    }
    return false;
}

static void add_left(const struct shelf_view *view, struct page *page, const struct shelf *shelf)
{
    page_add_heading(page, 2, view->store->shelves->next == NULL
                                  ? TEXT("What is left")
                                  : page_format(page, "What is left: %.*s", TEXT_ARGUMENTS(shelf->title)));
    struct page_table *table = page_add_table(page);
    struct page_column *material = page_table_column(table, TEXT("material"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *left = page_table_column(table, TEXT("left"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    struct page_column *of = page_table_column(table, TEXT("of"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 4);
    struct page_column *purity =
        any_purity(shelf, view->store->packs) ? page_table_column(table, TEXT("purity"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 5) : NULL;
    struct page_column *opened = page_table_column(table, TEXT("opened"), PAGE_COLUMN_TEXT, PAGE_LEFT, 6);
    struct page_column *day = page_table_column(table, TEXT("best before"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    struct page_column *lot = page_table_column(table, TEXT("lot"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    for (const struct pack *pack = view->store->packs; pack != NULL; pack = pack->next) {
        if (pack->shelf != shelf || pack->sold) {
            continue;
        }
        struct page_row *row = page_table_row(table);
        page_row_cell(row, material, print_material(page, pack->material, pack->form));
        page_row_amount(row, left, pack->left > 0 ? shelf_left(view, page, pack) : TEXT("empty"), pack->left,
                        pack->by_volume ? TEXT("mL") : TEXT("g"));
        page_row_cell(row, of, shelf_amount(view->context, page, pack, pack->size));
        if (purity != NULL && pack->purity < 1) {
            page_row_cell(row, purity, page_format(page, "%s\u00A0%%", number_print(page->arena, pack->purity * 100, 2)));
        }
        page_row_cell(row, opened, calendar_print(page->arena, pack->opened));
        page_row_cell(row, day, calendar_print(page->arena, pack->best_before));
        page_row_cell(row, lot, pack->lot);
        if (pack_is_old(view->store, pack) || !(pack->left > 0)) {
            page_row_emphasize(row, pack->left > 0 ? day : left);
        }
        if (pack->batches > 0) {
            page_row_remark(row, shelf_as_counted(view, page, pack));
        }
    }
}

static struct text instrument_words(const struct shelf_view *view, struct page *page, const struct instrument *list, bool scale)
{
    struct buffer out;
    buffer_start(&out, page->arena);
    for (; list != NULL; list = list->next) {
        const char *unit = scale ? "g" : "mL";
        buffer_format(&out, "%s%s\u00A0%s", out.length == 0 ? "" : "; ", number_print_significant(page->arena, list->step, 3), unit);
        if (!isnan(list->capacity)) {
            struct text most = scale ? print_mass(view->context, page, list->capacity) : print_volume(view->context, page, list->capacity);
            buffer_format(&out, " up to %.*s", TEXT_ARGUMENTS(most));
        }
    }
    return text_from(buffer_finish(&out));
}

static struct text bottle_words(const struct shelf_view *view, struct page *page, const struct bottle *list)
{
    struct buffer out;
    buffer_start(&out, page->arena);
    for (; list != NULL; list = list->next) {
        buffer_format(&out, "%s%lu of %.*s", out.length == 0 ? "" : "; ", list->count,
                      TEXT_ARGUMENTS(print_volume(view->context, page, list->volume)));
        if (list->note.length > 0) {
            buffer_format(&out, ", %.*s", TEXT_ARGUMENTS(list->note));
        }
    }
    return text_from(buffer_finish(&out));
}

static void add_tools(const struct shelf_view *view, struct page *page, const struct shelf *shelf)
{
    if (shelf->balances == NULL && shelf->graduates == NULL && shelf->bottles == NULL) {
        return;
    }
    struct page_facts *facts = page_add_facts(page);
    if (shelf->balances != NULL) {
        page_facts_add(facts, TEXT("scales show"), instrument_words(view, page, shelf->balances, true));
    }
    if (shelf->graduates != NULL) {
        page_facts_add(facts, TEXT("graduates are right within"), instrument_words(view, page, shelf->graduates, false));
    }
    if (shelf->bottles != NULL) {
        page_facts_add(facts, TEXT("bottles"), bottle_words(view, page, shelf->bottles));
    }
}

/* ---- the count ---- */

static void add_counts(const struct shelf_view *view, struct page *page)
{
    for (const struct shelf *shelf = view->store->shelves; shelf != NULL; shelf = shelf->next) {
        if (shelf->counted == CALENDAR_NO_DAY) {
            continue;
        }
        struct text day = calendar_print(page->arena, shelf->counted);
        struct text which = view->store->shelves->next == NULL ? (struct text){0}
                                                               : page_format(page, "%.*s, ", TEXT_ARGUMENTS(shelf->title));
        struct text since = shelf->batches == 0   ? TEXT("no batch was mixed since")
                            : shelf->batches == 1 ? TEXT("what 1 batch mixed since took is taken off")
                                                  : page_format(page, "what %zu batches mixed since took is taken off", shelf->batches);
        page_add_fact(page, TEXT("counted"),
                      page_format(page, "%.*s%.*s; %.*s", TEXT_ARGUMENTS(which), TEXT_ARGUMENTS(day), TEXT_ARGUMENTS(since)));
    }
}

static void add_doubts(const struct shelf_view *view, struct page *page)
{
    size_t left_out = view->drawn_down->left_out;
    if (left_out > 0) {
        page_add_warning(page, PAGE_CAUTION, TEXT("Less may be left"),
                         page_format(page, "%zu batch%s of the diary %s errors, or no day or volume that is known: what %s took is not "
                                           "taken off.",
                                     left_out, left_out == 1 ? "" : "es", left_out == 1 ? "has" : "have", left_out == 1 ? "it" : "they"));
    }
    if (view->drawn_down->overdrawn == NULL) {
        return;
    }
    struct buffer names;
    buffer_start(&names, page->arena);
    for (const struct overdrawn *overdrawn = view->drawn_down->overdrawn; overdrawn != NULL; overdrawn = overdrawn->next) {
        buffer_format(&names, "%s%.*s (by %.*s)", names.length == 0 ? "" : ", ", TEXT_ARGUMENTS(overdrawn->material->name),
                      TEXT_ARGUMENTS(print_mass(view->context, page, overdrawn->grams)));
    }
    page_add_warning(page, PAGE_CAUTION, TEXT("Count anew"),
                     page_format(page, "More was mixed since the count than stood on the shelf, of %s. Some came from elsewhere, or a "
                                       "figure is mistaken.",
                                 buffer_finish(&names)));
}

void report_shelf(const struct shelf_view *view, struct page *page)
{
    const struct store *store = view->store;
    const struct shelf *first = store->shelves;
    page_set_title(page, first->next == NULL ? first->title : TEXT("The shelves"));
    page_set_subtitle(page, TEXT("What is there, what can be mixed, what to buy"));
    page_set_source(page, text_from(first->declaration->file->name));
    if (view->context->date != NULL) {
        page_set_date(page, text_from(view->context->date));
    }
    page_set_caution(page, page_format(page, "By what the shelf's lines say is left%s. Look at a bottle before you trust it: a "
                                       "chemical may have spoilt before its day.",
                                       view->drawn_down->counted ? ", less what the diary says was mixed since" : ""));
    add_counts(view, page);
    for (const struct remark *note = first->notes; note != NULL; note = note->next) {
        page_add_fact(page, TEXT("note"), note->text);
    }
    add_doubts(view, page);
    shelf_add_dangers(view, page);
    add_mixables(view, page, "as written", TEXT("Can be mixed now"));
    add_mixables(view, page, "with other forms", TEXT("Can be mixed with other forms"));
    add_mixables(view, page, "no", TEXT("Cannot be mixed now"));
    add_shopping(view, page);
    report_batches(view->context, view->batches, page);
    add_expiring(view, page);
    for (const struct shelf *shelf = first; shelf != NULL; shelf = shelf->next) {
        add_left(view, page, shelf);
        add_tools(view, page, shelf);
    }
}
