/* Two formulas side by side: what differs, in the order in which a person asks for it. */
#include "report/comparison.h"

#include "base/number.h"

#include <math.h>

/* ---- what the pieces share ---- */

struct text comparison_percent(struct page *page, double percent)
{
    if (isnan(percent)) {
        return (struct text){0};
    }
    double ratio = 1 + percent / 100;
    const char *times = number_print_significant(page->arena, ratio, 3);
    if (ratio <= 0) {
        return (struct text){0};
    }
    if (ratio >= 10) {
        return page_format(page, "x\u00A0%s", times);
    }
    const char *figure = number_print_significant(page->arena, fabs(percent), fabs(percent) < 10 ? 2 : 3);
    return page_format(page, "%s%s\u00A0%%, x\u00A0%s", percent < 0 ? "-" : "+", figure, times);
}

struct comparison_table comparison_table(struct page *page, const char *title, enum page_column_kind kind)
{
    struct comparison_table table = {.table = page_add_table(page)};
    enum page_alignment alignment = kind == PAGE_COLUMN_AMOUNT ? PAGE_DECIMAL : PAGE_LEFT;
    table.name = page_table_column(table.table, text_from(title), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    table.a = page_table_column(table.table, TEXT("A"), kind, alignment, 1);
    table.b = page_table_column(table.table, TEXT("B"), kind, alignment, 1);
    table.change = page_table_column(table.table, TEXT("change"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    return table;
}

void comparison_row(const struct comparison_table *table, struct text name, struct text a, struct text b, struct text change)
{
    struct page_row *row = page_table_row(table->table);
    page_row_cell(row, table->name, name);
    page_row_cell(row, table->a, a.length > 0 ? a : TEXT("–"));
    page_row_cell(row, table->b, b.length > 0 ? b : TEXT("–"));
    page_row_cell(row, table->change, change);
}

/* ---- the sentence at the head ---- */

struct noun {
    const char *one;
    const char *many; /* "%zu amounts"; NULL where the number says nothing */
};

static const struct noun nouns[CHANGE_KINDS] = {
    [CHANGE_KIND] = {"the kind of bath", NULL},
    [CHANGE_PURPOSE] = {"what they are for", NULL},
    [CHANGE_PART] = {"a part", "parts"},
    [CHANGE_MAKES] = {"how they are kept, dry or dissolved", NULL},
    [CHANGE_SOLVENT] = {"the solvent", NULL},
    [CHANGE_ADDED] = {"a material that only B has", "materials that only B has"},
    [CHANGE_REMOVED] = {"a material that only A has", "materials that only A has"},
    [CHANGE_AMOUNT] = {"an amount", "amounts"},
    [CHANGE_RANGE] = {"a range", "ranges"},
    [CHANGE_OPTIONAL] = {"what may be left out", NULL},
    [CHANGE_PORTIONS] = {"the portions", NULL},
    [CHANGE_ORDER] = {"the order of mixing", NULL},
    [CHANGE_WATER] = {"the warmth of the water", NULL},
    [CHANGE_STEP] = {"a working step", "working steps"},
    [CHANGE_USE] = {"a use", "uses"},
    [CHANGE_DILUTION] = {"the dilution", "dilutions"},
    [CHANGE_TEMPERATURE] = {"the temperature", "temperatures"},
    [CHANGE_TIME] = {"the time", "times"},
    [CHANGE_AGITATION] = {"agitation", NULL},
    [CHANGE_NEEDS] = {"the stock needed", NULL},
    [CHANGE_CAPACITY] = {"capacity", "capacities"},
    [CHANGE_COEFFICIENT] = {"the temperature coefficient", NULL},
    [CHANGE_KEEPING] = {"a keeping time", "keeping times"},
};

static struct text verdict(const struct comparison *comparison, struct page *page)
{
    size_t counts[CHANGE_KINDS] = {0};
    size_t kinds = 0;
    for (const struct change *change = comparison->changes; change != NULL; change = change->next) {
        kinds += !change->remark && counts[change->what]++ == 0;
    }
    struct buffer words;
    buffer_start(&words, page->arena);
    buffer_string(&words, "They differ in ");
    size_t said = 0;
    for (size_t i = 0; i < CHANGE_KINDS; i++) {
        const struct noun *noun = &nouns[i];
        if (counts[i] == 0 || noun->one == NULL) {
            continue;
        }
        buffer_string(&words, said == 0 ? "" : said + 1 == kinds ? " and " : ", ");
        if (counts[i] > 1 && noun->many != NULL) {
            buffer_format(&words, "%zu %s", counts[i], noun->many);
        } else {
            buffer_string(&words, noun->one);
        }
        said++;
    }
    buffer_character(&words, '.');
    return (struct text){words.bytes, words.length};
}

/* ---- remarks ---- */

static struct text in_part(struct page *page, const struct change *change)
{
    return change->part.length == 0 ? (struct text){0}
                                    : page_format(page, " in part %.*s", TEXT_ARGUMENTS(change->part));
}

static struct text form_name(struct text label)
{
    return label.length == 0 ? TEXT("no form") : label;
}

struct text comparison_stock(struct page *page, double percent)
{
    if (isnan(percent)) {
        return TEXT("by itself");
    }
    const char *figure = number_print_significant(page->arena, percent, 3);
    return page_format(page, "from %s %s\u00A0%% stock", text_article(text_from(figure)), figure);
}

static struct text remark_words(struct page *page, const struct change *change)
{
    struct text part = in_part(page, change);
    switch (change->what) {
    case CHANGE_FORM:
        return page_format(page, "%.*s%.*s: %.*s in A, as much of it as %.*s in B", TEXT_ARGUMENTS(change->material),
                           TEXT_ARGUMENTS(part), TEXT_ARGUMENTS(form_name(change->from_text)),
                           TEXT_ARGUMENTS(form_name(change->to_text)));
    case CHANGE_STOCK:
        return page_format(page, "%.*s%.*s: %.*s in A, %.*s in B", TEXT_ARGUMENTS(change->material), TEXT_ARGUMENTS(part),
                           TEXT_ARGUMENTS(comparison_stock(page, change->from)), TEXT_ARGUMENTS(comparison_stock(page, change->to)));
    case CHANGE_START_WATER:
    default:
        return page_format(page, "%.*s to begin with%.*s: %s\u00A0mL for the litre in A, %s\u00A0mL in B",
                           TEXT_ARGUMENTS(change->material), TEXT_ARGUMENTS(part),
                           number_print_significant(page->arena, change->from, 3),
                           number_print_significant(page->arena, change->to, 3));
    }
}

static void add_same(const struct comparison *comparison, struct page *page)
{
    page_add_paragraph(page, TEXT("The two are the same."));
    if (comparison->changes == NULL) {
        return;
    }
    page_add_paragraph(page, TEXT("They are only written or measured in another way:"));
    page_keep_with_next(page);
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (const struct change *change = comparison->changes; change != NULL; change = change->next) {
        page_list_item(list, remark_words(page, change));
    }
}

/* ---- a formula that only one side has ---- */

static void add_only(const struct comparison *comparison, struct page *page)
{
    const struct formula *formula = comparison->a != NULL ? comparison->a : comparison->b;
    page_add_paragraph(page, page_format(page, "Only %s has this formula%s%.*s.", comparison->a != NULL ? "A" : "B",
                                         formula->kind.length > 0 ? ", a " : "", TEXT_ARGUMENTS(formula->kind)));
    struct page_table *table = NULL;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (!(part->makes > 0)) {
            continue;
        }
        table = page_add_table(page);
        struct text title = part->name == NULL ? TEXT("in a litre")
                                               : page_format(page, "part %.*s, in a litre", TEXT_ARGUMENTS(part->name->spelling));
        struct page_column *name = page_table_column(table, title, PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
        struct page_column *amount = page_table_column(table, TEXT(""), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
        for (const struct content *content = part_contents(page->arena, part); content != NULL; content = content->next) {
            double grams = part_per_litre(part, content->grams);
            struct page_row *row = page_table_row(table);
            page_row_cell(row, name, print_material(page, content->material, content->form));
            page_row_amount(row, amount, page_format(page, "%s\u00A0g", number_print_significant(page->arena, grams, 4)), grams,
                            TEXT("g"));
        }
    }
}

/* ---- the page ---- */

static struct text purposes(struct page *page, const struct formula *formula)
{
    struct buffer words;
    buffer_start(&words, page->arena);
    struct text kind = formula->kind.length == 0 ? TEXT("formula") : text_is(formula->kind, "other") ? TEXT("bath") : formula->kind;
    buffer_format(&words, "%s %.*s", text_article(kind), TEXT_ARGUMENTS(kind));
    for (const struct word *word = formula->purposes; word != NULL; word = word->next) {
        buffer_string(&words, word == formula->purposes ? " for " : word->next == NULL ? " and " : ", ");
        buffer_text(&words, word->name->spelling);
    }
    return (struct text){words.bytes, words.length};
}

static bool has_change(const struct comparison *comparison, enum change_what what)
{
    for (const struct change *change = comparison->changes; change != NULL; change = change->next) {
        if (change->what == what) {
            return true;
        }
    }
    return false;
}

static void add_comparison(const struct comparison_report *report, const struct comparison *comparison, struct page *page)
{
    if (comparison->a == NULL || comparison->b == NULL) {
        add_only(comparison, page);
        return;
    }
    if (comparison->same) {
        add_same(comparison, page);
        comparison_cost(report, comparison, page);
        return;
    }
    page_add_paragraph(page, verdict(comparison, page));
    if (has_change(comparison, CHANGE_KIND) || has_change(comparison, CHANGE_PURPOSE)) {
        page_add_paragraph(page, page_format(page, "A is %.*s, B %.*s.", TEXT_ARGUMENTS(purposes(page, comparison->a)),
                                             TEXT_ARGUMENTS(purposes(page, comparison->b))));
    }
    struct buffer alike;
    buffer_start(&alike, page->arena);
    for (const struct compared_part *part = comparison->parts; part != NULL; part = part->next) {
        comparison_part(part, page, &alike);
    }
    comparison_mixing(comparison, page);
    comparison_meaning(comparison, page);
    comparison_uses(comparison, page, &alike);
    comparison_keeping(comparison, page);
    comparison_cost(report, comparison, page);
    if (alike.length > 0) {
        page_add_paragraph(page, page_format(page, "The same in both: %s.", buffer_finish(&alike)));
    }
}

static struct text title_of(const struct comparison *comparison)
{
    struct text title = comparison->a != NULL ? comparison->a->title : comparison->b->title;
    return title.length > 0 ? title : TEXT("Untitled");
}

static void add_sides(const struct comparison_report *report, const struct comparison *one, struct page *page)
{
    struct text a = report->file_a;
    struct text b = report->file_b;
    bool titles_differ = one != NULL && one->a != NULL && one->b != NULL && !text_equal(one->a->title, one->b->title);
    if (titles_differ) {
        a = page_format(page, "\"%.*s\", %.*s", TEXT_ARGUMENTS(one->a->title), TEXT_ARGUMENTS(a));
        b = page_format(page, "\"%.*s\", %.*s", TEXT_ARGUMENTS(one->b->title), TEXT_ARGUMENTS(b));
    } else if (text_equal(a, b)) {
        a = page_format(page, "%.*s, the first version", TEXT_ARGUMENTS(a));
        b = page_format(page, "%.*s, the second version", TEXT_ARGUMENTS(b));
    }
    page_add_fact(page, TEXT("A"), a);
    page_add_fact(page, TEXT("B"), b);
}

bool report_comparison_same(const struct comparison_report *report)
{
    for (const struct comparison *comparison = report->comparisons; comparison != NULL; comparison = comparison->next) {
        if (!comparison->same) {
            return false;
        }
    }
    return true;
}

/* Whether both sides took in the same diary. */
static bool same_diary(const struct batch_list *a, const struct batch_list *b)
{
    return a != NULL && b != NULL && a->count == b->count && text_equal(a->first->id, b->first->id) &&
           text_equal(a->last->id, b->last->id);
}

/* What was tried on either side, so that the change has its reason. */
static void add_trials(const struct comparison_report *report, const struct comparison *comparison, struct page *page)
{
    const struct batch_list *a = comparison->a == NULL ? NULL : batches_of(report->batches_a, comparison->a);
    const struct batch_list *b = comparison->b == NULL ? NULL : batches_of(report->batches_b, comparison->b);
    bool same = same_diary(a, b);
    report_trials(a, same ? TEXT("Tried") : TEXT("Tried with A"), page);
    report_trials(same ? NULL : b, TEXT("Tried with B"), page);
}

void report_comparison(const struct comparison_report *report, struct page *page)
{
    const struct comparison *first = report->comparisons;
    bool several = first != NULL && first->next != NULL;
    const struct comparison *one = several ? NULL : first;
    bool one_title = one != NULL && (one->a == NULL || one->b == NULL || text_equal(one->a->title, one->b->title));
    page_set_title(page, one_title ? title_of(one) : several ? TEXT("Formulas side by side") : TEXT("Two formulas side by side"));
    page_set_subtitle(page, TEXT("Comparison"));
    add_sides(report, one, page);
    if (report->date != NULL) {
        page_set_date(page, text_from(report->date));
    }
    report_caution(page);
    for (const struct comparison *comparison = first; comparison != NULL; comparison = comparison->next) {
        if (several) {
            page_add_heading(page, 1, title_of(comparison));
        }
        add_comparison(report, comparison, page);
        add_trials(report, comparison, page);
    }
}
