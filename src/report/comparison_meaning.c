/* What the changes come to: totals as mixed and in the working solutions.  Further figures that can be reckoned for both
 * (estimated pH, cost, hazard classes) are further rows of `measures`. */
#include "report/comparison.h"

#include "base/number.h"
#include "chemistry/estimate.h"
#include "chemistry/reactions.h"

#include <math.h>

struct side {
    bool known;
    struct totals totals;
    double pH; /* estimated; NAN when nothing can be said */
};

static const struct {
    const char *name;
    enum total_kind total;
    const char *unit;
} measures[] = {
    {"developing agents", TOTAL_DEVELOPING_AGENTS, "g"},
    {"sulfite, as the anhydrous sodium salt", TOTAL_SULFITE, "g"},
    {"alkali, as the acid it takes up", TOTAL_ALKALI, "mmol"},
    {"thiosulfate, as sodium crystals", TOTAL_THIOSULFATE, "g"},
};

/* Less than the first decimal of a pH says nothing in an estimate. */
static const double PH_ALIKE = 0.05;

static double figure_of(const struct side *side, size_t measure)
{
    double figure = side->totals.of[measures[measure].total];
    return measures[measure].total == TOTAL_ALKALI ? figure * 1000 : figure;
}

static bool alike(double within, double a, double b)
{
    return fabs(a - b) <= (isnan(within) ? 0.005 : within) * fmax(a, b) + 1e-9;
}

/* A bath of which nothing has changed is not worth the lines. */
static bool any_differs(double within, const struct side *a, const struct side *b)
{
    for (size_t i = 0; i < sizeof measures / sizeof *measures; i++) {
        if (!alike(within, figure_of(a, i), figure_of(b, i))) {
            return true;
        }
    }
    return fabs(a->pH - b->pH) > PH_ALIKE;
}

static void open_table(struct page *page, struct comparison_table *table, struct text heading, bool first)
{
    if (table->table == NULL) {
        page_add_heading(page, 2, TEXT("What it means"));
        *table = comparison_table(page, "by the litre", PAGE_COLUMN_AMOUNT);
    }
    if (first && heading.length > 0) {
        page_table_between(table->table, heading);
    }
}

static void add_ph(struct page *page, struct comparison_table *table, const struct side *a, const struct side *b)
{
    double change = b->pH - a->pH;
    comparison_row(table, TEXT("estimated pH"), isnan(a->pH) ? (struct text){0} : page_format(page, "%.1f", a->pH),
                   isnan(b->pH) ? (struct text){0} : page_format(page, "%.1f", b->pH),
                   fabs(change) > PH_ALIKE ? page_format(page, "%+.1f", change) : (struct text){0});
}

static void add_rows(struct page *page, double within, struct comparison_table *table, struct text heading, const struct side *a,
                     const struct side *b)
{
    bool any = false;
    if (!any_differs(within, a, b)) {
        return;
    }
    for (size_t i = 0; i < sizeof measures / sizeof *measures; i++) {
        double from = figure_of(a, i);
        double to = figure_of(b, i);
        if (!(from > 1e-9) && !(to > 1e-9)) {
            continue;
        }
        open_table(page, table, heading, !any);
        any = true;
        const double figures[] = {from, to};
        struct text words[2] = {{0}};
        for (int k = 0; k < 2; k++) {
            words[k] = figures[k] > 1e-9 ? page_format(page, "%s\u00A0%s", number_print_significant(page->arena, figures[k], 3),
                                                       measures[i].unit)
                                         : (struct text){0};
        }
        struct text change = alike(within, from, to) ? (struct text){0}
                             : from > 0 && to > 0 ? comparison_percent(page, (to - from) / from * 100)
                             : from > 0           ? TEXT("only in A")
                                                  : TEXT("only in B");
        comparison_row(table, text_from(measures[i].name), words[0], words[1], change);
    }
    if (!isnan(a->pH) || !isnan(b->pH)) {
        open_table(page, table, heading, !any);
        add_ph(page, table, a, b);
    }
}

static double ph_of(const struct estimate *estimate)
{
    return estimate->known ? estimate->pH : NAN;
}

static void add_unknown(struct page *page, const struct side *a, const struct side *b)
{
    struct text name = a->totals.unknown_alkali.length > 0 ? a->totals.unknown_alkali : b->totals.unknown_alkali;
    if (name.length > 0) {
        page_add_paragraph(page, page_format(page, "The alkali is without %.*s, whose ions the library does not know.",
                                             TEXT_ARGUMENTS(name)));
    }
}

static struct side as_mixed(struct page *page, struct formulary *formulary, const struct formula *formula)
{
    const struct part *part = formula->parts;
    struct side side = {.known = formula->part_count == 1 && part->makes > 0, .pH = NAN};
    if (side.known) {
        side.totals = compare_totals(part_contents(page->arena, part), part_volume(part));
    }
    if (side.known && formulary != NULL) {
        struct estimate estimate = estimate_part(formulary, part, NAN);
        side.pH = ph_of(&estimate);
    }
    return side;
}

static struct side in_use(struct page *page, struct formulary *formulary, const struct formula *formula, const struct use *use)
{
    const struct content *contents = use_contents(page->arena, formula, use);
    struct side side = {.known = contents != NULL, .pH = NAN};
    side.totals = compare_totals(contents, 1000);
    if (side.known && formulary != NULL) {
        struct estimate estimate = estimate_use(formulary, formula, use);
        side.pH = ph_of(&estimate);
    }
    return side;
}

static bool is_diluted(const struct use *use)
{
    return use->mix != NULL || use->water_parts > 0;
}

/* ---- dangers that a change brings ---- */

/* What reacts in the parts of a formula and in what its uses mix, the worst of each first. */
static const struct meeting *meetings_of_formula(struct page *page, struct formulary *formulary, const struct formula *formula)
{
    struct meeting *all = NULL;
    struct meeting **end = &all;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        const struct mixture *mixture = mixture_of_part(page->arena, formulary, part);
        *end = mixture == NULL ? NULL : meetings_within(page->arena, formulary->library, mixture);
        while (*end != NULL) {
            end = &(*end)->next;
        }
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        const struct mixture *mixture = use->mix == NULL ? NULL : mixture_of_use(page->arena, formulary, formula, use);
        *end = mixture == NULL ? NULL : meetings_within(page->arena, formulary->library, mixture);
        while (*end != NULL) {
            end = &(*end)->next;
        }
    }
    return all;
}

static bool has_reaction(const struct meeting *meetings, const struct meeting *upto, struct text name)
{
    while (meetings != upto && !text_equal(meetings->reaction->name, name)) {
        meetings = meetings->next;
    }
    return meetings != upto;
}

/* What the second formula brings about that the first does not. */
static void add_dangers(const struct comparison *comparison, struct page *page)
{
    if (comparison->formulary_a == NULL || comparison->formulary_b == NULL) {
        return;
    }
    const struct meeting *before = meetings_of_formula(page, comparison->formulary_a, comparison->a);
    const struct meeting *after = meetings_of_formula(page, comparison->formulary_b, comparison->b);
    for (const struct meeting *meeting = after; meeting != NULL; meeting = meeting->next) {
        const struct reaction *reaction = meeting->reaction;
        if (has_reaction(before, NULL, reaction->name) || has_reaction(after, meeting, reaction->name)) {
            continue;
        }
        page_add_warning(page, PAGE_CAUTION,
                         page_format(page, "Only in B: %s%.*s with %.*s", reaction->harm == HARM_DEADLY ? "deadly, " : "",
                                     TEXT_ARGUMENTS(meeting->first->name), TEXT_ARGUMENTS(meeting->second->name)),
                         page_format(page, "They give %.*s. Instead: %.*s.", TEXT_ARGUMENTS(reaction->warn),
                                     TEXT_ARGUMENTS(reaction->advise)));
    }
}

void comparison_meaning(const struct comparison *comparison, struct page *page)
{
    add_dangers(comparison, page);
    struct comparison_table table = {0};
    struct side a = as_mixed(page, comparison->formulary_a, comparison->a);
    struct side b = as_mixed(page, comparison->formulary_b, comparison->b);
    bool mixed = a.known && b.known;
    bool diluted = false;
    for (const struct compared_use *pair = comparison->uses; pair != NULL; pair = pair->next) {
        diluted = diluted || (pair->a != NULL && pair->b != NULL && (is_diluted(pair->a) || is_diluted(pair->b)));
    }
    if (mixed) {
        add_rows(page, comparison->within, &table, diluted ? TEXT("as mixed") : (struct text){0}, &a, &b);
    }
    for (const struct compared_use *pair = comparison->uses; pair != NULL; pair = pair->next) {
        bool both = pair->a != NULL && pair->b != NULL;
        if (!both || (mixed && !is_diluted(pair->a) && !is_diluted(pair->b))) {
            continue;
        }
        struct side first = in_use(page, comparison->formulary_a, comparison->a, pair->a);
        struct side second = in_use(page, comparison->formulary_b, comparison->b, pair->b);
        if (first.known && second.known) {
            add_rows(page, comparison->within, &table, page_format(page, "working solution for %.*s", TEXT_ARGUMENTS(pair->a->name)), &first, &second);
            a = first;
            b = second;
        }
    }
    add_unknown(page, &a, &b);
}
