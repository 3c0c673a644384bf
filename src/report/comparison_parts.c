/* The materials of two parts side by side, by the litre, and how they are mixed. */
#include "report/comparison.h"

#include "base/number.h"

#include <math.h>

/* The form that a line is shown in: the one that both have, or else the usual one, to which both are reduced. */
static const struct form *shown_form(const struct compared_line *line)
{
    const struct form *a = line->a == NULL ? NULL : line->a->form;
    const struct form *b = line->b == NULL ? NULL : line->b->form;
    bool one_form = a == NULL || b == NULL || text_equal(a->label, b->label);
    bool summed = line->portions_a > 1 || line->portions_b > 1;
    return one_form && !summed && (a != NULL || b != NULL) ? (a != NULL ? a : b) : line->form;
}

static double shown_amount(const struct compared_line *line, const struct ingredient *ingredient, double reduced)
{
    return shown_form(line) == line->form || ingredient == NULL ? reduced : ingredient->amount;
}

/* Liquids are measured, so their grams are shown as mL. */
static struct text amount_words(struct page *page, const struct compared_line *line, const struct ingredient *ingredient,
                                double amount)
{
    if (ingredient == NULL) {
        return (struct text){0};
    }
    if (isnan(amount)) {
        return TEXT("as needed");
    }
    const struct form *form = shown_form(line);
    bool liquid = !line->by_volume && form != NULL && !isnan(form->density);
    double figure = liquid ? amount / form->density : amount;
    const char *unit = liquid || line->by_volume ? "mL" : "g";
    const char *low = number_print_significant(page->arena, figure, 4);
    if (ingredient->step->high > 1) {
        return page_format(page, "%s to %s\u00A0%s", low,
                           number_print_significant(page->arena, figure * ingredient->step->high, 4), unit);
    }
    return page_format(page, "%s\u00A0%s", low, unit);
}

static struct text line_name(struct page *page, const struct compared_line *line)
{
    const struct ingredient *ingredient = line->a != NULL ? line->a : line->b;
    return ingredient->material == NULL ? ingredient->name : print_material(page, ingredient->material, shown_form(line));
}

static struct text change_words(struct page *page, const struct compared_line *line)
{
    if (line->a == NULL) {
        return TEXT("only in B");
    }
    if (line->b == NULL) {
        return TEXT("only in A");
    }
    double percent = line->differs && line->from > 0 ? (line->to - line->from) / line->from * 100 : NAN;
    if (!isnan(percent) && fabs(percent) >= 0.05) {
        return comparison_percent(page, percent);
    }
    return line->differs ? TEXT("differs") : (struct text){0};
}

/* "monohydrate, 35.1 g": what one side says, where the column shows it reduced to another form. */
static struct text side_words(struct page *page, const struct ingredient *ingredient)
{
    const struct step *step = ingredient->step;
    struct buffer words;
    buffer_start(&words, page->arena);
    if (step->stock_percent > 0) {
        buffer_text(&words, comparison_stock(page, step->stock_percent));
    }
    struct text label = ingredient->form == NULL ? (struct text){0} : ingredient->form->label;
    if (label.length > 0) {
        buffer_format(&words, "%s%.*s", words.length > 0 ? ", " : "", TEXT_ARGUMENTS(label));
    }
    if (step->form_assumed) {
        buffer_string(&words, " (assumed)");
    }
    bool liquid = ingredient->form != NULL && !isnan(ingredient->form->density) && !ingredient->by_volume;
    if (!isnan(ingredient->amount)) {
        double figure = liquid ? ingredient->amount / ingredient->form->density : ingredient->amount;
        buffer_format(&words, "%s%s\u00A0%s", words.length > 0 ? ", " : "", number_print_significant(page->arena, figure, 4),
                      liquid || ingredient->by_volume ? "mL" : "g");
    }
    return (struct text){words.bytes, words.length};
}

static bool is_optional(const struct ingredient *ingredient)
{
    return ingredient->step->tails != NULL && ingredient->step->tails->optional;
}

/* What lies behind two figures that look alike, or do not. */
static struct text detail_words(struct page *page, const struct compared_line *line)
{
    if (line->a == NULL || line->b == NULL) {
        return (struct text){0};
    }
    struct buffer words;
    buffer_start(&words, page->arena);
    bool stock = isnan(line->a->step->stock_percent) != isnan(line->b->step->stock_percent) ||
                 line->a->step->stock_percent < line->b->step->stock_percent ||
                 line->a->step->stock_percent > line->b->step->stock_percent;
    bool assumed = line->a->step->form_assumed != line->b->step->form_assumed;
    if (line->portions_a == line->portions_b && (line->form_differs || stock || (assumed && line->differs))) {
        buffer_format(&words, "A %.*s; B %.*s", TEXT_ARGUMENTS(side_words(page, line->a)),
                      TEXT_ARGUMENTS(side_words(page, line->b)));
    }
    if (line->portions_a != line->portions_b) {
        buffer_format(&words, "A in %zu portion%s, B in %zu", line->portions_a, line->portions_a == 1 ? "" : "s",
                      line->portions_b);
    }
    if (is_optional(line->a) != is_optional(line->b)) {
        buffer_format(&words, "%soptional in %s only", words.length > 0 ? "; " : "", is_optional(line->a) ? "A" : "B");
    }
    return (struct text){words.bytes, words.length};
}

static void add_line(struct page *page, const struct comparison_table *table, const struct compared_line *line)
{
    struct page_row *row = page_table_row(table->table);
    double from = shown_amount(line, line->a, line->from);
    double to = shown_amount(line, line->b, line->to);
    struct text a = amount_words(page, line, line->a, from);
    struct text b = amount_words(page, line, line->b, to);
    const char *unit = line->by_volume ? "mL" : "g";
    page_row_cell(row, table->name, line_name(page, line));
    page_row_amount(row, table->a, a.length > 0 ? a : TEXT("–"), from, text_from(unit));
    page_row_amount(row, table->b, b.length > 0 ? b : TEXT("–"), to, text_from(unit));
    page_row_cell(row, table->change, change_words(page, line));
    struct text detail = detail_words(page, line);
    if (detail.length > 0) {
        page_table_between(table->table, detail);
    }
}

static bool any_differs(const struct compared_part *part)
{
    for (const struct compared_line *line = part->lines; line != NULL; line = line->next) {
        if (line->differs || line->form_differs) {
            return true;
        }
    }
    return part->a == NULL || part->b == NULL;
}

void comparison_part(const struct compared_part *part, struct page *page, struct buffer *alike)
{
    if (!any_differs(part)) {
        buffer_format(alike, "%smaterials and amounts", alike->length == 0 ? "" : ", ");
        if (part->name.length > 0) {
            buffer_format(alike, " of part %.*s", TEXT_ARGUMENTS(part->name));
        }
        return;
    }
    const char *basis = part->basis == BY_LITRE ? "in a litre" : "in a kilogram of all that is weighed";
    if (part->name.length > 0) {
        page_add_heading(page, 2, page_format(page, "Part %.*s, %s", TEXT_ARGUMENTS(part->name), basis));
    } else {
        page_add_heading(page, 2, part->basis == BY_LITRE ? TEXT("In a litre") : TEXT("In a kilogram of all that is weighed"));
    }
    if (part->lines == NULL) {
        page_add_paragraph(page, TEXT("Nothing but water."));
        return;
    }
    struct comparison_table table = comparison_table(page, "material", PAGE_COLUMN_AMOUNT);
    for (const struct compared_line *line = part->lines; line != NULL; line = line->next) {
        add_line(page, &table, line);
    }
}

/* ---- mixing ---- */

static struct text warmth(struct page *page, double degrees)
{
    return isnan(degrees) ? TEXT("not stated") : print_temperature(page, degrees, NAN);
}

static struct text mixing_words(struct page *page, const struct change *change)
{
    struct text a = change->from_text;
    struct text b = change->to_text;
    switch (change->what) {
    case CHANGE_WATER:
        return page_format(page, "%.*s: %.*s in A, %.*s in B", TEXT_ARGUMENTS(change->material),
                           TEXT_ARGUMENTS(warmth(page, change->from)), TEXT_ARGUMENTS(warmth(page, change->to)));
    case CHANGE_SOLVENT:
        return page_format(page, "made up with %.*s in A, with %.*s in B", TEXT_ARGUMENTS(a), TEXT_ARGUMENTS(b));
    case CHANGE_STEP:
        if (a.length == 0 || b.length == 0) {
            return page_format(page, "only in %s: %.*s", a.length == 0 ? "B" : "A", TEXT_ARGUMENTS(a.length == 0 ? b : a));
        }
        return page_format(page, "%.*s in A, %.*s in B", TEXT_ARGUMENTS(a), TEXT_ARGUMENTS(b));
    case CHANGE_MAKES:
        return page_format(page, "A is a %.*s, B a %.*s", TEXT_ARGUMENTS(a), TEXT_ARGUMENTS(b));
    case CHANGE_ORDER:
        return page_format(page, "%.*s: %.*s in A, %.*s in B", TEXT_ARGUMENTS(change->material), TEXT_ARGUMENTS(a),
                           TEXT_ARGUMENTS(b));
    case CHANGE_START_WATER:
        return page_format(page, "%.*s to begin with: %s\u00A0mL for the litre in A, %s\u00A0mL in B; the final volume is the same",
                           TEXT_ARGUMENTS(change->material), number_print_significant(page->arena, change->from, 3),
                           number_print_significant(page->arena, change->to, 3));
    case CHANGE_PART:
        if (change->part.length == 0) {
            return page_format(page, "%s is mixed as one solution", a.length == 0 ? "B" : "A");
        }
        if (a.length == 0 || b.length == 0) {
            return page_format(page, "only %s has part %.*s", a.length == 0 ? "B" : "A", TEXT_ARGUMENTS(a.length == 0 ? b : a));
        }
        return page_format(page, "part %.*s in A is part %.*s in B", TEXT_ARGUMENTS(a), TEXT_ARGUMENTS(b));
    default:
        return (struct text){0};
    }
}

void comparison_mixing(const struct comparison *comparison, struct page *page)
{
    struct page_list *list = NULL;
    bool several = comparison->parts != NULL && comparison->parts->next != NULL;
    for (const struct change *change = comparison->changes; change != NULL; change = change->next) {
        struct text words = mixing_words(page, change);
        if (words.length == 0) {
            continue;
        }
        if (list == NULL) {
            page_add_heading(page, 2, TEXT("Mixing"));
            list = page_add_list(page, PAGE_POINTS);
        }
        bool name_part = several && change->part.length > 0 && change->what != CHANGE_PART;
        page_list_item(list, name_part ? page_format(page, "part %.*s: %.*s", TEXT_ARGUMENTS(change->part), TEXT_ARGUMENTS(words))
                                       : words);
    }
}
