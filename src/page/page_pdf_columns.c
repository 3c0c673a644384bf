/* Choosing columns. */
#include "page/page_pdf_columns.h"

#include <math.h>

#define GAP 9 /* between columns, pt */

/* At 70 cm a figure of 17 pt, whose height is 0.71 of that, subtends 21 minutes of arc: in dim red light 20 are wanted (ISO
 * 9241-303:2011, 5.5.4, recommends 20 to 22 for ease of reading; from memory). */
#define BENCH_AMOUNT 17
#define BENCH_NAME 12.5
#define BENCH_HOW 10
#define UNIT_SHARE 0.65 /* of the size of the figures */
/* What they are at least where a sheet is set smaller so that it is one. */
#define LEAST_AMOUNT 16
#define LEAST_NAME 12
#define LEAST_HOW 9
#define RECORD 8.5
#define MOST_RECORD 200 /* pt: a column that is as wide for the record's sake */

struct pdf_font pdf_column_title_font(const struct pdf_setter *setter)
{
    return pdf_font(setter, PDF_REGULAR, 8);
}

struct pdf_font pdf_column_font(const struct pdf_setter *setter, const struct page_column *column, const struct page_row *row)
{
    const struct page_cell *cell = page_cell_at(row, column->index);
    bool first = column->priority == 1;
    bool bold = cell->emphasis || row->kind == PAGE_ROW_TOTAL || (first && column->kind == PAGE_COLUMN_AMOUNT);
    bool bench = row->table->bench && row->kind != PAGE_ROW_TOTAL;
    double size = first ? (column->kind == PAGE_COLUMN_AMOUNT ? 12.5 : 11.5) : column->priority <= 3 ? 9.5 : 8.5;
    if (bench) {
        size = first ? (column->kind == PAGE_COLUMN_AMOUNT ? BENCH_AMOUNT : BENCH_NAME) : BENCH_HOW;
        double least = first ? (column->kind == PAGE_COLUMN_AMOUNT ? LEAST_AMOUNT : LEAST_NAME) : LEAST_HOW;
        size = fmax(size, least / setter->scale);
    }
    return pdf_font(setter, bold ? PDF_BOLD : PDF_REGULAR, setter->label ? 8 : size);
}

/* Where the unit begins: behind the last blank; the end where there is none. */
static size_t start_of_unit(struct text text)
{
    size_t at = text.length;
    while (at > 0 && text.at[at - 1] != ' ' && (unsigned char)text.at[at - 1] != 0xA0) { /* the last byte of U+00A0 */
        at--;
    }
    return at == 0 || (text.at[at] >= '0' && text.at[at] <= '9') ? text.length : at;
}

struct pdf_cell_text pdf_set_cell(struct pdf_setter *setter, const struct page_column *column, const struct page_row *row, double width)
{
    struct text text = page_cell_at(row, column->index)->text;
    struct pdf_font font = pdf_column_font(setter, column, row);
    size_t unit = start_of_unit(text);
    if (row->table->bench && row->kind != PAGE_ROW_TOTAL && !setter->label && column->kind == PAGE_COLUMN_AMOUNT && column->priority == 1 && unit < text.length) {
        size_t length = unit - (text.at[unit - 1] == ' ' ? 1 : 2);
        struct pdf_font small = {font.face, font.size * UNIT_SHARE};
        struct pdf_cell_text cell = {.text = pdf_set(setter->type, font, 0, (struct text){text.at, length}),
                                     .unit = pdf_set(setter->type, small, 0, (struct text){text.at + unit, text.length - unit})};
        cell.unit_left = cell.text->width + small.size * 0.28;
        cell.width = cell.unit_left + cell.unit->width;
        if (width <= 0 || cell.width <= width + 0.01) {
            return cell;
        }
    }
    const struct pdf_text *whole = pdf_set(setter->type, font, width, text);
    return (struct pdf_cell_text){.text = whole, .width = whole->width};
}

/* A litre's amount of a batch of a litre. */
static bool says_the_amount(const struct page_row *row, const struct page_column *record)
{
    const struct page_column *column = row->table->first_column;
    while (column != NULL && !(column->kind == PAGE_COLUMN_AMOUNT && column->priority == 1)) {
        column = column->next;
    }
    return column != NULL && record->kind == PAGE_COLUMN_AMOUNT &&
           text_equal(page_cell_at(row, record->index)->text, page_cell_at(row, column->index)->text);
}

const struct pdf_text *pdf_set_record(struct pdf_setter *setter, const struct page_row *row, double width)
{
    struct buffer words;
    buffer_start(&words, setter->arena);
    for (const struct page_column *column = row->table->first_column; column != NULL; column = column->next) {
        struct text text = page_cell_at(row, column->index)->text;
        if (column->record && text.length > 0 && row->kind == PAGE_ROW_ORDINARY && !says_the_amount(row, column)) {
            buffer_string(&words, words.length > 0 ? ", " : "");
            buffer_text(&words, column->before);
            buffer_text(&words, text);
            buffer_text(&words, column->behind);
        }
    }
    struct pdf_font font = pdf_font(setter, PDF_REGULAR, RECORD);
    return words.length == 0 ? NULL : pdf_set(setter->type, font, width, (struct text){words.bytes, words.length});
}

static void measure_cell(struct pdf_setter *setter, struct pdf_column *one, const struct page_row *row, double *behind)
{
    const struct page_cell *cell = page_cell_at(row, one->column->index);
    if (row->kind == PAGE_ROW_BETWEEN) {
        return;
    }
    const struct pdf_text *record = one->carries_record ? pdf_set_record(setter, row, 0) : NULL;
    if (record != NULL) {
        double before = pdf_set_cell(setter, one->column, row, 0).width + pdf_scaled(setter, RECORD_GAP);
        one->wanted = fmax(one->wanted, fmin(before + record->width, pdf_scaled(setter, MOST_RECORD)));
    }
    if (cell->text.length == 0) {
        return;
    }
    struct pdf_cell_text set = pdf_set_cell(setter, one->column, row, 0);
    const struct pdf_text *text = set.text;
    bool whole = one->column->kind == PAGE_COLUMN_AMOUNT;
    one->least = fmax(one->least, whole ? fmin(set.width, setter->width / 3) : pdf_longest_word(text));
    one->wanted = fmax(one->wanted, set.width);
    if (one->column->alignment == PAGE_DECIMAL) {
        double point = pdf_decimal_point(text);
        one->before_point = fmax(one->before_point, point);
        *behind = fmax(*behind, set.width - point);
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
        struct pdf_column *one = &columns.at[columns.count];
        one->record = one->below = table->bench && column->record && !setter->label;
        one->carries_record = table->bench && !setter->label && column->kind == PAGE_COLUMN_TEXT && column->priority == 2;
        measure(setter, table, &columns.at[columns.count++]);
    }
    return columns;
}

bool pdf_table_fits(struct pdf_setter *setter, const struct page_table *table, double width)
{
    struct pdf_columns columns = measure_all(setter, table);
    return sum_of(&columns, pdf_scaled(setter, GAP), true) <= width;
}

/* Where no column says how something is measured, or it came out narrow, the record stands below the name. */
static void choose_carrier(struct pdf_columns *columns)
{
    struct pdf_column *name = NULL;
    struct pdf_column *how = NULL;
    for (size_t i = 0; i < columns->count; i++) {
        struct pdf_column *one = &columns->at[i];
        name = name == NULL && !one->below && one->column->kind == PAGE_COLUMN_TEXT ? one : name;
        how = one->carries_record ? one : how;
    }
    if (name != NULL && (how == NULL || how->below || how->width < name->width * 0.7)) {
        name->carries_record = true;
        if (how != NULL && how != name) {
            how->carries_record = false;
        }
    }
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
    if (table->bench && !setter->label) {
        choose_carrier(&columns);
    }
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
