/* Working solutions on the mixing sheet: how much of what for the tank or tray, how warm, how long, how many. */
#include "report/sheet/model.h"

#include "base/number.h"

#include <math.h>

/* "40 sheets 8x10 in". */
static struct text goods(struct page *page, const struct use *use)
{
    const struct sheet_size *size = use->capacity_size;
    struct text number = text_from(number_print(page->arena, floor(use->capacity + 1e-9), 0));
    if (size == NULL) {
        return page_format(page, "%.*s %.*s", TEXT_ARGUMENTS(number), TEXT_ARGUMENTS(use->capacity_of->spelling));
    }
    return page_format(page, "%.*s %.*s %sx%s\u00A0%.*s", TEXT_ARGUMENTS(number), TEXT_ARGUMENTS(use->capacity_of->spelling),
                       number_print(page->arena, size->width, 2), number_print(page->arena, size->height, 2),
                       TEXT_ARGUMENTS(size->unit == NULL ? TEXT("in") : size->unit->spelling));
}

/* mL of working solution that the whole formula as written gives; NAN when it cannot be said. */
static double whole_working_volume(const struct sheet *sheet, const struct use *use)
{
    double least = NAN;
    for (const struct pour *pour = use->pours; pour != NULL; pour = pour->next) {
        least = fmin(least, part_volume(pour->part)); /* fmin passes NAN over */
    }
    for (const struct part *part = sheet->batch->written->parts; part != NULL; part = part->next) {
        double share = use_share(use, sheet->batch->written, part);
        if (share > 0) {
            double volume = part_volume(part) / share;
            least = isnan(least) ? volume : fmin(least, volume);
        }
    }
    return least;
}

static void add_capacity(const struct sheet *sheet, const struct sheet_use *of, struct page_facts *facts)
{
    struct page *page = sheet->page;
    const struct use *use = of->use;
    if (!isnan(use->capacity)) {
        struct text per = use->capacity_per == 1000 ? TEXT("litre") : print_volume(sheet->context, page, use->capacity_per);
        struct page_words words = page_compose(page, "{} per {} of working solution", page_plain(goods(page, use)), page_plain(per));
        if (!isnan(of->does)) {
            words = page_compose(page, "{}; this batch does {}", words, sheet_figure(sheet, PAGE_FIGURE_COUNT, of->does));
        }
        page_facts_add(facts, TEXT("capacity"), words);
    }
    if (!isnan(use->needs)) {
        struct text volume = print_volume(sheet->context, page, use->needs);
        struct page_words words = page_plain(page_format(page, "%.*s of stock for each %.*s", TEXT_ARGUMENTS(volume),
                                                         TEXT_ARGUMENTS(use->needs_per->spelling)));
        if (!isnan(of->enough_for)) {
            words = page_compose(page, "{}; this batch is enough for {}", words, sheet_figure(sheet, PAGE_FIGURE_COUNT, of->enough_for));
        }
        page_facts_add(facts, TEXT("needs"), words);
    }
}

static void add_replenishing(const struct sheet *sheet, const struct use *use, struct page_facts *facts)
{
    if (isnan(use->replenish)) {
        return;
    }
    struct page *page = sheet->page;
    struct text from = use->replenisher.length == 0 ? TEXT("the stock")
                                                    : page_format(page, "%.*s", TEXT_ARGUMENTS(use->replenisher));
    page_facts_add(facts, TEXT("replenish"),
                   page_format(page, "with %.*s of %.*s after each %.*s",
                               TEXT_ARGUMENTS(print_volume(sheet->context, page, use->replenish)), TEXT_ARGUMENTS(from),
                               TEXT_ARGUMENTS(use->replenish_per->unit->spelling)));
}

static void add_conditions(const struct sheet *sheet, const struct sheet_use *of)
{
    struct page *page = sheet->page;
    const struct use *use = of->use;
    struct page_facts *facts = page_add_facts(page);
    if (use->pours != NULL) {
        page_facts_add(facts, TEXT("strength"), TEXT("each part as it is mixed, one after the other"));
    } else if (isnan(use->stock_parts) && use->mix == NULL) {
        page_facts_add(facts, TEXT("strength"), TEXT("as mixed, undiluted"));
    } else if (use->water_parts == 0) {
        page_facts_add(facts, TEXT("strength"), TEXT("undiluted"));
    }
    if (!isnan(use->temperature) && !time_table_stands(use)) {
        page_facts_add(facts, TEXT("temperature"), print_temperature(page, use->temperature, use->temperature_high));
    }
    if (!isnan(use->time[0]) && !time_table_stands(use)) {
        page_facts_add(facts, TEXT("time"), print_time_range(page, use->time[0], use->time[1]));
    }
    if (use->agitation.length > 0) {
        page_facts_add(facts, TEXT("agitate"), use->agitation);
    }
    if (!isnan(use->coefficient)) {
        page_facts_add(facts, TEXT("time changes"),
                       page_format(page, "by a factor of %s for %s\u00A0°C", number_print(page->arena, use->coefficient, 2),
                                   number_print(page->arena, use->coefficient_per, 1)));
    }
    sheet_add_other_times(sheet, of, facts);
    add_replenishing(sheet, use, facts);
    add_capacity(sheet, of, facts);
    for (const struct remark *note = use->notes; note != NULL; note = note->next) {
        page_facts_add(facts, TEXT("note"), note->text);
    }
}

static struct text share_name(const struct sheet *sheet, const struct mix_share *share)
{
    if (share->part != NULL) {
        return share->part->name == NULL ? TEXT("stock")
                                         : page_format(sheet->page, "part %.*s", TEXT_ARGUMENTS(share->part->name->spelling));
    }
    if (share->material == NULL) {
        return TEXT("stock");
    }
    return print_material(sheet->page, share->material, share->form);
}

/* The finest step, mL, that any share of a mixture is measured in when a part is `part` mL. */
static double finest_step(const struct sheet *sheet, const struct mix_share *first, double part)
{
    double finest = INFINITY;
    for (const struct mix_share *share = first; share != NULL; share = share->next) {
        finest = share->amount > 0 ? fmin(finest, scales_volume_step(sheet->batch->scales, share->amount * part)) : finest;
    }
    return finest;
}

/* What is taken, and how much of it for each volume of working solution. */
static void fill_takes(const struct sheet *sheet, struct sheet_use *of)
{
    struct page *page = sheet->page;
    const struct use *use = of->use;
    double total = use_total_parts(use);
    bool diluted = use->mix != NULL || (!isnan(use->water_parts) && use->water_parts > 0);
    if (!diluted || isnan(total)) {
        return;
    }
    struct mix_share stock = {.amount = use->stock_parts, .part = formula_bath_part(sheet->formula)};
    struct mix_share water = {.amount = use->water_parts};
    stock.next = &water;
    const struct mix_share *first = use->mix != NULL ? use->mix : &stock;
    for (const struct mix_share *share = first; share != NULL; share = share->next) {
        of->take_count++;
    }
    of->takes = ARENA_ARRAY(page->arena, struct sheet_take, of->take_count);
    struct sheet_take *take = of->takes;
    for (const struct mix_share *share = first; share != NULL; share = share->next, take++) {
        *take = (struct sheet_take){.what = share == &water ? TEXT("water") : share_name(sheet, share),
                                    .parts = share->amount,
                                    .millilitres = ARENA_ARRAY(page->arena, double, sheet->volume_count),
                                    .amounts = ARENA_ARRAY(page->arena, struct text, sheet->volume_count)};
        for (size_t i = 0; i < sheet->volume_count; i++) {
            take->millilitres[i] = sheet->volumes[i] * share->amount / total;
            take->amounts[i] = print_share(page, take->millilitres[i], finest_step(sheet, first, sheet->volumes[i] / total));
        }
    }
}

static void add_takes(const struct sheet *sheet, const struct sheet_use *use)
{
    struct page *page = sheet->page;
    if (use->takes == NULL) {
        return;
    }
    struct page_table *table = page_add_table(page);
    struct page_column *name = page_table_column(table, TEXT("take"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    page_table_at_bench(table);
    struct page_column *parts = NULL; /* two figures stand in the heading */
    if (use->use->mix != NULL) {
        parts = page_table_column(table, TEXT("parts"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
        page_column_for_record(parts, TEXT("parts: "), (struct text){0});
    }
    struct page_column **volumes = ARENA_ARRAY(page->arena, struct page_column *, sheet->volume_count);
    for (size_t i = 0; i < sheet->volume_count; i++) {
        struct text volume = print_volume(sheet->context, page, sheet->volumes[i]);
        volumes[i] = page_table_column(table, page_format(page, "for %.*s", TEXT_ARGUMENTS(volume)), PAGE_COLUMN_AMOUNT,
                                       PAGE_DECIMAL, 1);
    }
    for (const struct sheet_take *take = use->takes; take < use->takes + use->take_count; take++) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, name, take->what);
        if (parts != NULL) {
            page_row_cell(row, parts, text_from(number_print(page->arena, take->parts, 3)));
        }
        for (size_t i = 0; i < sheet->volume_count; i++) {
            page_row_cell(row, volumes[i], take->amounts[i]);
        }
    }
}

/* Whether the tank or tray in hand takes what one roll or sheet must have. */
static void warn_of_working(const struct sheet *sheet, struct sheet_use *of)
{
    struct page *page = sheet->page;
    const struct use *use = of->use;
    double working = sheet->context->working;
    const struct part *bath = formula_bath_part(sheet->formula);
    double stock = bath == NULL ? NAN : working * use_share(use, sheet->formula, bath);
    double does = working / use->capacity_per * use->capacity;
    struct text volume = isnan(working) ? (struct text){0} : print_volume(sheet->context, page, working);
    if (stock > 0 && stock < use->needs * (1 - 1e-9)) {
        sheet_note(sheet, &of->warnings,
                   page_plain(page_format(page, "%.*s hold %.*s of stock, and one %.*s needs %.*s: take %.*s or more, or dilute less.",
                                          TEXT_ARGUMENTS(volume), TEXT_ARGUMENTS(print_volume(sheet->context, page, stock)),
                                          TEXT_ARGUMENTS(use->needs_per->spelling), TEXT_ARGUMENTS(print_volume(sheet->context, page, use->needs)),
                                          TEXT_ARGUMENTS(print_volume(sheet->context, page, working * use->needs / stock)))))
            ->title = TEXT("too little stock");
    }
    if (does < 1 - 1e-9) {
        sheet_note(sheet, &of->warnings,
                   page_plain(page_format(page, "%.*s are less than one of the %.*s takes by the capacity that is stated: take %.*s or more.",
                                          TEXT_ARGUMENTS(volume), TEXT_ARGUMENTS(use->capacity_of->spelling),
                                          TEXT_ARGUMENTS(print_volume(sheet->context, page, use->capacity_per / use->capacity)))))
            ->title = TEXT("too little bath");
    }
}

void sheet_fill_use(const struct sheet *sheet, struct sheet_use *of)
{
    const struct use *use = of->use;
    of->whole = whole_working_volume(sheet, use);
    of->does = use->capacity / use->capacity_per * of->whole;
    of->enough_for = sheet->formula->part_count == 1 ? part_volume(sheet->formula->parts) / use->needs : NAN;
    fill_takes(sheet, of);
    sheet_fill_times(sheet, of);
    warn_of_working(sheet, of);
    sheet_warn_of_use(sheet, of);
}

void sheet_add_use(const struct sheet *sheet, const struct sheet_use *of)
{
    struct page *page = sheet->page;
    const struct use *use = of->use;
    struct text name = use->name.length > 0 ? page_format(page, "Use for %.*s", TEXT_ARGUMENTS(use->name)) : TEXT("Use");
    if (!isnan(use->stock_parts) && use->water_parts > 0) {
        struct text ratio = print_ratio(page, use->stock_parts, use->water_parts);
        if (!isnan(use->water_parts_high)) {
            ratio = page_format(page, "%.*s to %.*s", TEXT_ARGUMENTS(ratio),
                                TEXT_ARGUMENTS(print_ratio(page, use->stock_parts, use->water_parts_high)));
        }
        name = page_format(page, "%.*s: dilute %.*s", TEXT_ARGUMENTS(name), TEXT_ARGUMENTS(ratio));
    }
    page_add_heading(page, 2, name);
    add_takes(sheet, of);
    sheet_add_times(sheet, use);
    add_conditions(sheet, of);
    sheet_add_boxes(sheet, of->warnings);
}
