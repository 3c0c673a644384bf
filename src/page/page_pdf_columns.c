/* Choosing columns. */
#include "page/page_pdf_columns.h"

#include <math.h>

#define GAP 9 /* between columns, pt */

struct pdf_font pdf_column_title_font(const struct pdf_setter *setter)
{
    return pdf_font(setter, PDF_REGULAR, 8);
}

struct pdf_font pdf_column_font(const struct pdf_setter *setter, const struct page_column *column, const struct page_row *row)
{
    const struct page_cell *cell = page_cell_at(row, column->index);
    bool first = column->priority == 1;
    bool bold = cell->emphasis || row->kind == PAGE_ROW_TOTAL || (first && column->kind == PAGE_COLUMN_AMOUNT);
    double size = first ? (column->kind == PAGE_COLUMN_AMOUNT ? 12.5 : 11.5) : column->priority <= 3 ? 9.5 : 8.5;
    return pdf_font(setter, bold ? PDF_BOLD : PDF_REGULAR, setter->label ? 8 : size);
}

static void measure_cell(struct pdf_setter *setter, struct pdf_column *one, const struct page_row *row, double *behind)
{
    const struct page_cell *cell = page_cell_at(row, one->column->index);
    if (cell->text.length == 0 || row->kind == PAGE_ROW_BETWEEN) {
        return;
    }
    const struct pdf_text *text = pdf_set(setter->type, pdf_column_font(setter, one->column, row), 0, cell->text);
    bool whole = one->column->kind == PAGE_COLUMN_AMOUNT;
    one->least = fmax(one->least, whole ? fmin(text->width, setter->width / 3) : pdf_longest_word(text));
    one->wanted = fmax(one->wanted, text->width);
    if (one->column->alignment == PAGE_DECIMAL) {
        double point = pdf_decimal_point(text);
        one->before_point = fmax(one->before_point, point);
        *behind = fmax(*behind, text->width - point);
    }
}

static void measure(struct pdf_setter *setter, const struct page_table *table, struct pdf_column *one)
{
    const struct page_column *column = one->column;
    double behind = 0;
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        measure_cell(setter, one, row, &behind);
    }
    bool holds = column->kind == PAGE_COLUMN_TICK || column->kind == PAGE_COLUMN_BLANK;
    if (one->wanted <= 0 && !holds) {
        one->hidden = one->below = true;
        return;
    }
    if (column->alignment == PAGE_DECIMAL) {
        double both = fmin(one->before_point + behind, setter->width / 3);
        one->least = fmax(one->least, both);
        one->wanted = fmax(one->wanted, both);
    }
    if (column->title.length > 0) {
        const struct pdf_text *title = pdf_set(setter->type, pdf_column_title_font(setter), 0, column->title);
        one->least = fmax(one->least, fmin(pdf_longest_word(title), setter->width / 4));
        one->wanted = fmax(one->wanted, title->width);
    }
    if (column->kind == PAGE_COLUMN_TICK) {
        one->least = one->wanted = pdf_scaled(setter, 11);
    } else if (column->kind == PAGE_COLUMN_BLANK) {
        one->least = fmax(one->least, pdf_scaled(setter, 44));
        one->wanted = fmax(one->wanted, pdf_scaled(setter, 58));
    } else if (column->kind == PAGE_COLUMN_TEXT && column->priority == 1) {
        /* The name of what is taken should not stand word below word. */
        one->least = fmax(one->least, fmin(one->wanted, pdf_scaled(setter, 128)));
    } else if (column->kind == PAGE_COLUMN_TEXT) {
        one->least = fmax(one->least, fmin(one->wanted, pdf_scaled(setter, column->priority <= 3 ? 84 : 46)));
    }
    one->least = fmin(one->least, setter->width / 2);
    one->wanted = fmax(one->wanted, one->least);
}

static double sum_of(const struct pdf_columns *columns, double gap, bool wanted)
{
    double sum = -gap;
    for (size_t i = 0; i < columns->count; i++) {
        const struct pdf_column *one = &columns->at[i];
        sum += one->below ? 0 : gap + (wanted ? one->wanted : one->least);
    }
    return sum;
}

/* The next column to stand below the rows; NULL when all that are left have to stay. */
static struct pdf_column *next_to_go(const struct pdf_columns *columns)
{
    struct pdf_column *found = NULL;
    for (size_t i = 0; i < columns->count; i++) {
        struct pdf_column *one = &columns->at[i];
        bool may = !one->below && one->column->priority > 1 && one->column->kind != PAGE_COLUMN_TICK;
        if (may && (found == NULL || one->column->priority >= found->column->priority)) {
            found = one;
        }
    }
    return found;
}

/* Shares what is left over: first so that texts need not break, the most important before the others; then for writing and for
 * the names. */
static void share_out(struct pdf_setter *setter, struct pdf_columns *columns, double gap)
{
    double rest = setter->width - sum_of(columns, gap, false);
    double squeeze = rest < 0 ? setter->width / (setter->width - rest) : 1; /* one word wider than all the paper */
    unsigned last = 0;
    for (size_t i = 0; i < columns->count; i++) {
        columns->at[i].width = columns->at[i].least * squeeze;
        last = columns->at[i].column->priority > last ? columns->at[i].column->priority : last;
    }
    for (unsigned priority = 1; priority <= last && priority < 100; priority++) {
        for (size_t i = 0; i < columns->count; i++) {
            struct pdf_column *one = &columns->at[i];
            if (!one->below && one->column->priority == priority && rest > 0) {
                double more = fmin(rest, one->wanted - one->least);
                one->width += more;
                rest -= more;
            }
        }
    }
    if (rest <= 0) {
        return;
    }
    struct pdf_column *name = NULL;
    for (size_t i = 0; i < columns->count; i++) {
        struct pdf_column *one = &columns->at[i];
        if (!one->below && one->column->kind == PAGE_COLUMN_BLANK) {
            double more = fmin(rest, pdf_scaled(setter, 24));
            one->width += more;
            rest -= more;
        }
        name = name == NULL && one->column->kind == PAGE_COLUMN_TEXT ? one : name;
    }
    if (name != NULL) { /* not so far that the eye loses the line on its way to the amount */
        name->width += fmin(rest, pdf_scaled(setter, 60));
    }
}

static struct pdf_columns measure_all(struct pdf_setter *setter, const struct page_table *table)
{
    struct pdf_columns columns = {ARENA_ARRAY(setter->arena, struct pdf_column, table->column_count + 1), 0, 0, 0};
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        columns.at[columns.count].column = column;
        measure(setter, table, &columns.at[columns.count++]);
    }
    return columns;
}

bool pdf_table_fits(struct pdf_setter *setter, const struct page_table *table, double width)
{
    struct pdf_columns columns = measure_all(setter, table);
    return sum_of(&columns, pdf_scaled(setter, GAP), true) <= width;
}

struct pdf_columns pdf_columns_choose(struct pdf_setter *setter, const struct page_table *table)
{
    struct pdf_columns columns = measure_all(setter, table);
    double gap = pdf_scaled(setter, GAP);
    while (sum_of(&columns, gap, false) > setter->width) {
        struct pdf_column *one = next_to_go(&columns);
        if (one == NULL) {
            break;
        }
        one->below = true;
    }
    share_out(setter, &columns, gap);
    double x = 0;
    columns.text_left = -1;
    for (size_t i = 0; i < columns.count; i++) {
        struct pdf_column *one = &columns.at[i];
        if (one->below) {
            continue;
        }
        one->left = x;
        if (columns.text_left < 0 && one->column->kind != PAGE_COLUMN_TICK) {
            columns.text_left = x;
        }
        x += one->width + gap;
    }
    columns.width = fmin(setter->width, fmax(x - gap, setter->width / 2));
    columns.text_left = fmax(columns.text_left, 0);
    return columns;
}
