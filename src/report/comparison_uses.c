/* Uses, keeping and the totals of two formulas side by side. */
#include "report/comparison.h"

#include "base/number.h"

#include <math.h>

/* ---- uses ---- */

static const struct change *find_change(const struct comparison *comparison, const struct compared_use *pair,
                                        enum change_what what)
{
    struct text name = pair->a != NULL ? pair->a->name : pair->b->name;
    const struct change *change = comparison->changes;
    while (change != NULL && (change->what != what || !text_equal(change->use, name))) {
        change = change->next;
    }
    return change;
}

typedef struct text cell_function(struct page *page, const struct use *use);

static struct text dilution_cell(struct page *page, const struct use *use)
{
    return compare_mixture_words(page->arena, use);
}

static struct text temperature_cell(struct page *page, const struct use *use)
{
    return isnan(use->temperature) ? (struct text){0} : print_temperature(page, use->temperature, use->temperature_high);
}

static struct text time_cell(struct page *page, const struct use *use)
{
    return isnan(use->time[0]) ? (struct text){0} : print_time_range(page, use->time[0], use->time[1]);
}

static struct text agitation_cell(struct page *page, const struct use *use)
{
    (void)page;
    return use->agitation;
}

static struct text needs_cell(struct page *page, const struct use *use)
{
    return isnan(use->needs) ? (struct text){0}
                             : page_format(page, "%s\u00A0mL per %.*s", number_print_significant(page->arena, use->needs, 3),
                                           TEXT_ARGUMENTS(use->needs_per->spelling));
}

static struct text capacity_cell(struct page *page, const struct use *use)
{
    return compare_capacity_words(page->arena, use);
}

static struct text coefficient_cell(struct page *page, const struct use *use)
{
    return isnan(use->coefficient) ? (struct text){0}
                                   : page_format(page, "%s per %s\u00A0°C", number_print(page->arena, use->coefficient, 2),
                                                 number_print(page->arena, use->coefficient_per, 1));
}

static const struct {
    const char *name;
    enum change_what what;
    cell_function *cell;
} use_rows[] = {
    {"dilution", CHANGE_DILUTION, dilution_cell},       {"temperature", CHANGE_TEMPERATURE, temperature_cell},
    {"time", CHANGE_TIME, time_cell},                   {"agitation", CHANGE_AGITATION, agitation_cell},
    {"stock needed", CHANGE_NEEDS, needs_cell},         {"capacity", CHANGE_CAPACITY, capacity_cell},
    {"coefficient", CHANGE_COEFFICIENT, coefficient_cell},
};

static struct text use_change(struct page *page, const struct change *change)
{
    if (change == NULL) {
        return (struct text){0};
    }
    struct text percent = comparison_percent(page, change->percent);
    if (percent.length == 0 || !isnan(change->from_high) || !isnan(change->to_high)) {
        return TEXT("differs");
    }
    return change->what == CHANGE_DILUTION ? page_format(page, "strength %.*s", TEXT_ARGUMENTS(percent)) : percent;
}

static void add_use(const struct comparison *comparison, const struct compared_use *pair, struct page *page)
{
    struct text name = pair->a != NULL ? pair->a->name : pair->b->name;
    struct text heading = name.length > 0 ? page_format(page, "Use for %.*s", TEXT_ARGUMENTS(name)) : TEXT("Use");
    page_add_heading(page, 2, heading);
    if (pair->a == NULL || pair->b == NULL) {
        page_add_paragraph(page, pair->a == NULL ? TEXT("Only B has this use.") : TEXT("Only A has this use."));
    }
    struct comparison_table table = {0};
    for (size_t i = 0; i < sizeof use_rows / sizeof *use_rows; i++) {
        struct text a = pair->a == NULL ? (struct text){0} : use_rows[i].cell(page, pair->a);
        struct text b = pair->b == NULL ? (struct text){0} : use_rows[i].cell(page, pair->b);
        if (a.length == 0 && b.length == 0) {
            continue;
        }
        const struct change *change =
            pair->a == NULL || pair->b == NULL ? NULL : find_change(comparison, pair, use_rows[i].what);
        if (table.table == NULL) {
            table = comparison_table(page, "", PAGE_COLUMN_TEXT);
        }
        bool undiluted = use_rows[i].what == CHANGE_DILUTION;
        a = undiluted && a.length == 0 && pair->a != NULL ? TEXT("undiluted") : a;
        b = undiluted && b.length == 0 && pair->b != NULL ? TEXT("undiluted") : b;
        comparison_row(&table, text_from(use_rows[i].name), a, b, use_change(page, change));
    }
}

void comparison_uses(const struct comparison *comparison, struct page *page, struct buffer *alike)
{
    for (const struct compared_use *pair = comparison->uses; pair != NULL; pair = pair->next) {
        if (pair->differs) {
            add_use(comparison, pair, page);
        } else {
            buffer_format(alike, "%suse for %.*s", alike->length == 0 ? "" : ", ", TEXT_ARGUMENTS(pair->a->name));
        }
    }
}

/* ---- keeping ---- */

static struct text keeping_name(struct page *page, const struct change *change)
{
    struct text in = change->in.length > 0 ? page_format(page, "in %.*s", TEXT_ARGUMENTS(change->in)) : TEXT("keeps");
    return change->part.length == 0 ? in : page_format(page, "part %.*s, %.*s", TEXT_ARGUMENTS(change->part), TEXT_ARGUMENTS(in));
}

void comparison_keeping(const struct comparison *comparison, struct page *page)
{
    struct comparison_table table = {0};
    for (const struct change *change = comparison->changes; change != NULL; change = change->next) {
        if (change->what != CHANGE_KEEPING) {
            continue;
        }
        if (table.table == NULL) {
            page_add_heading(page, 2, TEXT("Keeping"));
            table = comparison_table(page, "", PAGE_COLUMN_TEXT);
        }
        struct text a = isnan(change->from) ? (struct text){0} : print_time(page, change->from);
        struct text b = isnan(change->to) ? (struct text){0} : print_time(page, change->to);
        comparison_row(&table, keeping_name(page, change), a, b, comparison_percent(page, change->percent));
    }
}
