/* The working sheet of a process: what a person takes into the darkroom (a batch production record as 21 CFR 211.188 has it:
 * amounts, times, what was used, blanks for what was really done). */
#include "report/process.h"

#include "base/number.h"

#include <math.h>

struct text process_bath_name(const struct process_sheet *sheet, const struct plan_stage *stage)
{
    int number = 0;
    for (const struct plan_stage *other = sheet->plan->stages; other != NULL; other = other->next) {
        number += other->stage->kind == STAGE_BATH;
        if (other == stage) {
            break;
        }
    }
    return page_format(sheet->page, "%d\u00A0%.*s", number, TEXT_ARGUMENTS(stage->stage->title));
}

/* ---- head ---- */

static const char *count_words(struct page *page, double count, const char *one, const char *many)
{
    return page_format(page, "%s %s", number_print(page->arena, count, 0), count == 1 ? one : many).at;
}

static struct text subtitle(const struct process_sheet *sheet)
{
    const struct plan *plan = sheet->plan;
    struct page *page = sheet->page;
    struct text vessel = print_volume(sheet->context, page, plan->vessel);
    const char *kind = plan->process->trays ? "trays" : "tank";
    if (plan->goods.unit == NULL) {
        return page_format(page, "Working sheet: one load, %s of %.*s", kind, TEXT_ARGUMENTS(vessel));
    }
    struct text all = print_goods_asked(page, &plan->goods);
    struct goods load = plan->goods;
    load.count = plan->at_a_time;
    if (plan->loads == 1) {
        return page_format(page, "Working sheet: %.*s, %s of %.*s", TEXT_ARGUMENTS(all), kind, TEXT_ARGUMENTS(vessel));
    }
    return page_format(page, "Working sheet: %.*s, %s at a time, %s of %.*s", TEXT_ARGUMENTS(all),
                       number_print(page->arena, load.count, 0), kind, TEXT_ARGUMENTS(vessel));
}

/* "28 min 30 s", "1 h 5 min". */
static struct text print_length(struct page *page, double seconds)
{
    long whole = lround(seconds);
    long hours = whole / 3600;
    long minutes = whole / 60 % 60;
    long rest = whole % 60;
    struct buffer out;
    buffer_start(&out, page->arena);
    if (hours > 0) {
        buffer_format(&out, "%ld\u00A0h", hours);
    }
    if (minutes > 0) {
        buffer_format(&out, "%s%ld\u00A0min", out.length > 0 ? " " : "", minutes);
    }
    if (rest > 0 || out.length == 0) {
        buffer_format(&out, "%s%ld\u00A0s", out.length > 0 ? " " : "", rest);
    }
    return text_from(buffer_finish(&out));
}

static void add_head(const struct process_sheet *sheet)
{
    const struct plan *plan = sheet->plan;
    struct page *page = sheet->page;
    page_set_title(page, plan->process->title);
    page_set_subtitle(page, subtitle(sheet));
    struct text length = print_length(page, plan->length);
    page_fact_value(page_add_fact(page, TEXT("one load takes"),
                                  page_format(page, "%.*s, from the first pour to the end", TEXT_ARGUMENTS(length))),
                    plan->length, TEXT("s"));
    if (plan->loads > 1 && !plan->process->trays) {
        struct text all = print_length(page, plan->length * plan->loads);
        page_add_fact(page, page_format(page, "%.0f loads take", plan->loads),
                      page_format(page, "%.*s, and the loading of the tank besides", TEXT_ARGUMENTS(all)));
    }
    if (plan->water > 0 || plan->water_unknown) {
        struct text water = print_volume(sheet->context, page, plan->water);
        struct page_fact *fact = page_add_fact(page, TEXT("water"),
                                               page_format(page, "%.*s for baths and washes%s", TEXT_ARGUMENTS(water),
                                                           plan->water_unknown ? ", and the running water of a wash that does "
                                                                                 "not say how fast it runs"
                                                                               : ""));
        page_fact_value(fact, plan->water, TEXT("mL"));
    }
    process_cost(sheet);
    if (plan->vessel_assumed) {
        page_add_fact(page, TEXT("tank"), TEXT("not stated: reckoned for 1 L of each bath; say it with tank 500 mL, or --working"));
    }
    for (const struct remark *note = plan->process->notes; note != NULL; note = note->next) {
        page_add_fact(page, TEXT("note"), note->text);
    }
    page_set_source(page, text_from(plan->process->declaration->file->name));
    if (sheet->context->date != NULL) {
        page_set_date(page, text_from(sheet->context->date));
    }
    report_caution(page);
}

/* ---- make ready ---- */

struct text process_share_name(const struct process_sheet *sheet, const struct plan_stage *stage, const struct plan_share *share)
{
    struct page *page = sheet->page;
    if (share->part == NULL) {
        return share->material == NULL ? TEXT("water") : print_material(page, share->material, share->form);
    }
    if (share->part->name != NULL && stage->stage->part == NULL) {
        return page_format(page, "part %.*s", TEXT_ARGUMENTS(share->part->name->spelling));
    }
    return stage->shares->next == NULL ? TEXT("as mixed") : TEXT("stock");
}

/* "; it keeps 8 h in tray", where the formula says so of the vessel in hand. */
static struct text standing_time(const struct process_sheet *sheet, const struct plan_stage *planned)
{
    const char *vessel = sheet->plan->process->trays ? "tray" : "tank";
    for (const struct keeping *keeping = planned->stage->formula->keeps; keeping != NULL; keeping = keeping->next) {
        if (keeping_is_in(keeping, vessel)) {
            return page_format(sheet->page, "; it keeps %.*s", TEXT_ARGUMENTS(print_keeping(sheet->page, keeping)));
        }
    }
    return (struct text){0};
}

/* What becomes of a filling. */
static struct text reuse(const struct process_sheet *sheet, const struct plan_stage *planned)
{
    const struct plan *plan = sheet->plan;
    struct page *page = sheet->page;
    const char *vessel = plan->process->trays ? "tray" : "tank";
    if (stage_is_once(planned->stage)) {
        return plan->loads > 1 ? page_format(page, "made up afresh for each load: %s in all, none is used twice",
                                             count_words(page, planned->fillings, "filling", "fillings"))
                               : TEXT("for this load only: it is not used again");
    }
    if (planned->replenisher > 0) {
        struct text volume = print_volume(sheet->context, page, planned->stage->replenish);
        struct goods one = planned->stage->replenish_per;
        return page_format(page, "used again; after each %.*s add %.*s of %s", TEXT_ARGUMENTS(print_goods(page, &one)) ,
                           TEXT_ARGUMENTS(volume),
                           planned->stage->replenisher != NULL ? page_format(page, "%.*s", TEXT_ARGUMENTS(planned->stage->replenisher->title)).at
                                                               : "the same stock");
    }
    struct text stands = standing_time(sheet, planned);
    if (isnan(planned->does) || plan->goods.unit == NULL) {
        return page_format(page, "used again; how much a %s of it does is not stated%.*s", vessel, TEXT_ARGUMENTS(stands));
    }
    struct goods does = plan->goods;
    does.count = planned->does;
    struct text able = print_goods(page, &does);
    if (planned->fillings > 1) {
        const char *loads = planned->loads_per_filling == 1 ? "load" : count_words(page, planned->loads_per_filling, "load", "loads");
        return page_format(page, "used again; a filling does %.*s: make up %s in all, and change after every %s%.*s", TEXT_ARGUMENTS(able),
                           count_words(page, planned->fillings, "filling", "fillings"), loads, TEXT_ARGUMENTS(stands));
    }
    return page_format(page, "used again; a filling does %.*s%.*s", TEXT_ARGUMENTS(able), TEXT_ARGUMENTS(stands));
}

static double finest_step(const struct process_sheet *sheet, const struct plan_stage *stage)
{
    double finest = INFINITY;
    for (const struct plan_share *share = stage->shares; share != NULL; share = share->next) {
        finest = share->volume > 0 ? fmin(finest, scales_volume_step(&sheet->context->scales, share->volume)) : finest;
    }
    return finest;
}

struct ready_columns {
    struct page_column *tick, *bath, *take, *filling, *all, *at;
};

static void add_shares(const struct process_sheet *sheet, struct page_table *table, const struct ready_columns *columns,
                       const struct plan_stage *planned)
{
    struct page *page = sheet->page;
    double step = finest_step(sheet, planned);
    struct page_row *row = NULL;
    for (const struct plan_share *share = planned->shares; share != NULL; share = share->next) {
        row = page_table_row(table);
        if (share == planned->shares) {
            page_row_cell(row, columns->bath, process_bath_name(sheet, planned));
            if (!isnan(planned->temperature)) {
                page_row_amount(row, columns->at, print_temperature(page, planned->temperature, planned->temperature_high), planned->temperature, TEXT("°C"));
            }
        }
        page_row_cell(row, columns->take, process_share_name(sheet, planned, share));
        page_row_amount(row, columns->filling, print_share(page, share->volume, step), share->volume, TEXT("mL"));
        if (columns->all != NULL) {
            double all = share->volume * planned->fillings;
            page_row_amount(row, columns->all, print_volume(sheet->context, page, all), all, TEXT("mL"));
        }
    }
    if (row == NULL) {
        row = page_table_row(table);
        page_row_cell(row, columns->bath, process_bath_name(sheet, planned));
        page_row_note(row, TEXT("the use does not say how the parts are mixed: see the mixing sheet"));
        return;
    }
    page_row_remark(row, reuse(sheet, planned));
}

void process_make_ready(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    page_add_heading(page, 2, TEXT("Make ready"));
    page_add_paragraph(page, sheet->plan->process->trays
                                 ? TEXT("Fill the trays in this order, left to right, before the first sheet goes in.")
                                 : TEXT("Stand every bath ready in this order, measured out and at its temperature, with the clock at "
                                        "zero beside them, before the first pour."));
    struct page_table *table = page_add_table(page);
    page_table_at_bench(table);
    struct ready_columns columns = {0};
    columns.tick = page_table_column(table, (struct text){0}, PAGE_COLUMN_TICK, PAGE_CENTRE, 1);
    columns.bath = page_table_column(table, TEXT("bath"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.take = page_table_column(table, TEXT("take"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    columns.filling = page_table_column(table, TEXT("one filling"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    bool several = false;
    for (const struct plan_stage *planned = sheet->plan->stages; planned != NULL; planned = planned->next) {
        several = several || (planned->stage->kind == STAGE_BATH && planned->fillings > 1);
    }
    if (several) {
        columns.all = page_table_column(table, TEXT("in all"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    }
    columns.at = page_table_column(table, TEXT("at"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    for (const struct plan_stage *planned = sheet->plan->stages; planned != NULL; planned = planned->next) {
        if (planned->stage->kind == STAGE_BATH) {
            add_shares(sheet, table, &columns, planned);
        }
    }
}

/* ---- what stops the reader ---- */

static void add_warnings(const struct process_sheet *sheet)
{
    const struct plan *plan = sheet->plan;
    struct page *page = sheet->page;
    struct goods load = plan->goods;
    load.count = plan->at_a_time;
    for (const struct plan_stage *planned = plan->stages; planned != NULL; planned = planned->next) {
        if (planned->lacking > 0) {
            struct text held = print_volume(sheet->context, page, planned->stock);
            struct text needed = print_volume(sheet->context, page, planned->stock + planned->lacking);
            page_add_warning(page, PAGE_CAUTION, TEXT("too little stock"),
                             page_format(page, "%.*s hold %.*s of %.*s, and %.*s need %.*s. Take a larger tank, load fewer at a time, "
                                               "or dilute less.",
                                         TEXT_ARGUMENTS(print_volume(sheet->context, page, planned->volume)), TEXT_ARGUMENTS(held),
                                         TEXT_ARGUMENTS(planned->stage->title), TEXT_ARGUMENTS(print_goods(page, &load)),
                                         TEXT_ARGUMENTS(needed)));
        }
        if (planned->stage->kind == STAGE_BATH && planned->does < plan->at_a_time * (1 - 1e-9) && !stage_is_once(planned->stage)) {
            struct goods does = plan->goods;
            does.count = planned->does;
            page_add_warning(page, PAGE_CAUTION, TEXT("one load is too much"),
                             page_format(page, "A filling of %.*s does %s of what is counted here, and a load is %s.",
                                         TEXT_ARGUMENTS(planned->stage->title), number_print(page->arena, does.count, 1),
                                         number_print(page->arena, plan->at_a_time, 1)));
        }
    }
}

/* ---- record ---- */

static void add_record(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    page_add_heading(page, 2, TEXT("Record"));
    struct page_blanks *blanks = page_add_blanks(page);
    page_blank(blanks, TEXT("date"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("by"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, TEXT("first bath measured"), PAGE_ROOM_FIGURE, TEXT("°C"));
    page_blank(blanks, sheet->plan->process->trays ? TEXT("paper") : TEXT("film"), PAGE_ROOM_NAME, (struct text){0});
    page_blank(blanks, sheet->plan->process->trays ? TEXT("grade") : TEXT("exposed as speed"), PAGE_ROOM_FIGURE, (struct text){0});
    page_blank(blanks, TEXT("how it came out"), PAGE_ROOM_LINE, (struct text){0});
}

void report_process(const struct process_sheet *sheet)
{
    add_head(sheet);
    add_warnings(sheet);
    process_carried(sheet);
    process_make_ready(sheet);
    process_clock(sheet);
    process_bottles(sheet);
    process_poured_away(sheet);
    add_record(sheet);
}
