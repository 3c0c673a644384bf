/* Working solutions on the mixing sheet: how much of what for the tank or tray, how warm, how long, how many. */
#include "report/sheet/sheet.h"

#include "base/number.h"

#include <math.h>

/* Volumes of working solution that are shown, mL: common sizes of tanks and trays (common practice, no source). */
static const double working_volumes[] = {300, 500, 1000};

/* "40 sheets 8x10 in"; `whole`: of the whole batch, of which they are so many for the formula as written. */
static struct page_words goods(const struct sheet *sheet, const struct use *use, double count, bool whole)
{
    struct page *page = sheet->page;
    struct page_words number = whole ? sheet_figure(sheet, PAGE_FIGURE_COUNT, count)
                                     : page_plain(text_from(number_print(page->arena, floor(count + 1e-9), 0)));
    const struct sheet_size *size = use->capacity_size;
    struct text sized = size == NULL ? (struct text){0}
                                     : page_format(page, " %sx%s %.*s", number_print(page->arena, size->width, 2),
                                                   number_print(page->arena, size->height, 2),
                                                   TEXT_ARGUMENTS(size->unit == NULL ? TEXT("in") : size->unit->spelling));
    return page_compose(page, "{} {}{}", number, page_plain(use->capacity_of->spelling), page_plain(sized));
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

static void add_capacity(const struct sheet *sheet, const struct use *use, struct page_facts *facts)
{
    struct page *page = sheet->page;
    if (!isnan(use->capacity)) {
        struct text per = use->capacity_per == 1000 ? TEXT("litre") : print_volume(sheet->context, page, use->capacity_per);
        double whole = whole_working_volume(sheet, use);
        struct page_words words = page_compose(page, "{} per {} of working solution", goods(sheet, use, use->capacity, false), page_plain(per));
        if (!isnan(whole)) {
            words = page_compose(page, "{}; this batch does {}", words, goods(sheet, use, use->capacity / use->capacity_per * whole, true));
        }
        page_facts_add(facts, TEXT("capacity"), words);
    }
    if (!isnan(use->needs)) {
        struct text volume = print_volume(sheet->context, page, use->needs);
        double makes = part_volume(sheet->formula->parts);
        struct page_words words = page_plain(page_format(page, "%.*s of stock for each %.*s", TEXT_ARGUMENTS(volume),
                                                         TEXT_ARGUMENTS(use->needs_per->spelling)));
        if (sheet->formula->part_count == 1 && !isnan(makes)) {
            words = page_compose(page, "{}; this batch is enough for {}", words, sheet_figure(sheet, PAGE_FIGURE_COUNT, makes / use->needs));
        }
        page_facts_add(facts, TEXT("needs"), words);
    }
}

/* Grams of each material in a litre of the working solution. */
static void add_contents(const struct sheet *sheet, const struct use *use, struct page_facts *facts)
{
    struct page *page = sheet->page;
    struct buffer list;
    buffer_start(&list, page->arena);
    for (const struct content *content = use_contents(page->arena, sheet->batch->written, use); content != NULL;
         content = content->next) {
        struct text name = print_material(page, content->material, content->form);
        buffer_format(&list, "%s%.*s %s\u00A0g", list.length == 0 ? "" : ", ", TEXT_ARGUMENTS(name),
                      number_print_significant(page->arena, content->grams, 4));
    }
    if (list.length > 0) {
        page_facts_add(facts, TEXT("in a litre"), text_from(buffer_finish(&list)));
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

static void add_conditions(const struct sheet *sheet, const struct use *use)
{
    struct page *page = sheet->page;
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
    sheet_other_times(sheet, use, facts);
    add_replenishing(sheet, use, facts);
    add_capacity(sheet, use, facts);
    add_contents(sheet, use, facts);
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

/* A table: what is taken, and how much of it for each volume of working solution. */
static void add_volumes(const struct sheet *sheet, const struct use *use)
{
    struct page *page = sheet->page;
    double total = use_total_parts(use);
    bool diluted = use->mix != NULL || (!isnan(use->water_parts) && use->water_parts > 0);
    if (!diluted || isnan(total)) {
        return;
    }
    const double *wanted = working_volumes;
    size_t wanted_count = sizeof working_volumes / sizeof *working_volumes;
    if (!isnan(sheet->context->working)) {
        wanted = &sheet->context->working;
        wanted_count = 1;
    }
    struct page_table *table = page_add_table(page);
    struct page_column *name = page_table_column(table, TEXT("take"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *parts = page_table_column(table, TEXT("parts"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    enum { VOLUMES = sizeof working_volumes / sizeof *working_volumes };
    struct page_column *volumes[VOLUMES];
    for (size_t i = 0; i < wanted_count; i++) {
        struct text volume = print_volume(sheet->context, page, wanted[i]);
        volumes[i] = page_table_column(table, page_format(page, "for %.*s", TEXT_ARGUMENTS(volume)), PAGE_COLUMN_AMOUNT,
                                       PAGE_DECIMAL, 1);
    }
    struct mix_share stock = {.amount = use->stock_parts, .part = formula_bath_part(sheet->formula)};
    struct mix_share water = {.amount = use->water_parts};
    stock.next = &water;
    const struct mix_share *first = use->mix != NULL ? use->mix : &stock;
    for (const struct mix_share *share = first; share != NULL; share = share->next) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, name, share == &water ? TEXT("water") : share_name(sheet, share));
        page_row_amount(row, parts, text_from(number_print(page->arena, share->amount, 3)), share->amount, TEXT("parts"));
        for (size_t i = 0; i < wanted_count; i++) {
            double amount = wanted[i] * share->amount / total;
            page_row_amount(row, volumes[i], print_share(page, amount, finest_step(sheet, first, wanted[i] / total)), amount,
                            TEXT("mL"));
        }
    }
}

/* Whether the tank or tray in hand takes what one roll or sheet must have. */
static void warn_of_working(const struct sheet *sheet, const struct use *use)
{
    struct page *page = sheet->page;
    double working = sheet->context->working;
    const struct part *bath = formula_bath_part(sheet->formula);
    double stock = bath == NULL ? NAN : working * use_share(use, sheet->formula, bath);
    double does = working / use->capacity_per * use->capacity;
    struct text volume = isnan(working) ? (struct text){0} : print_volume(sheet->context, page, working);
    if (stock > 0 && stock < use->needs * (1 - 1e-9)) {
        page_add_warning(page, PAGE_CAUTION, TEXT("too little stock"),
                         page_format(page, "%.*s hold %.*s of stock, and one %.*s needs %.*s: take %.*s or more, or dilute less.",
                                     TEXT_ARGUMENTS(volume), TEXT_ARGUMENTS(print_volume(sheet->context, page, stock)),
                                     TEXT_ARGUMENTS(use->needs_per->spelling), TEXT_ARGUMENTS(print_volume(sheet->context, page, use->needs)),
                                     TEXT_ARGUMENTS(print_volume(sheet->context, page, working * use->needs / stock))));
    }
    if (does < 1 - 1e-9) {
        page_add_warning(page, PAGE_CAUTION, TEXT("too little bath"),
                         page_format(page, "%.*s are less than one of the %.*s takes by the capacity that is stated: take %.*s or more.",
                                     TEXT_ARGUMENTS(volume), TEXT_ARGUMENTS(use->capacity_of->spelling),
                                     TEXT_ARGUMENTS(print_volume(sheet->context, page, use->capacity_per / use->capacity))));
    }
}

void sheet_uses(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    for (const struct use *use = sheet->batch->written->uses; use != NULL; use = use->next) {
        if (!report_wants_use(sheet->context, use)) {
            continue;
        }
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
        add_volumes(sheet, use);
        sheet_times(sheet, use);
        add_conditions(sheet, use);
        warn_of_working(sheet, use);
        sheet_warn_of_use(sheet, use);
    }
}
