/* Tables on paper: a head that comes again on every sheet, a row for each addition, what belongs to it below it. */
#include "page/page_pdf_columns.h"

#include <math.h>

#define NOTE_SIZE 9
#define HAIRLINE 0.35
#define KEPT_WHOLE 200  /* pt: a lower table does not part */
#define SPLIT_ABOVE 260 /* pt: a higher row parts between its lines */

struct table_setter {
    struct pdf_setter *setter;
    const struct page_table *table;
    struct pdf_columns columns;
    struct pdf_piece *head;
    bool writes; /* a hand writes in its rows: they are high enough for that */
};

static double aligned(const struct pdf_column *one, const struct pdf_cell_text *set)
{
    switch (one->column->alignment) {
    case PAGE_RIGHT:
        return one->width - set->width;
    case PAGE_CENTRE:
        return (one->width - set->width) / 2;
    case PAGE_DECIMAL:
        return set->text->count == 1 ? fmin(one->before_point - pdf_decimal_point(set->text), fmax(0, one->width - set->width)) : 0;
    case PAGE_LEFT:
    default:
        return 0;
    }
}

/* ---- the head ---- */

static void set_head(struct table_setter *table)
{
    struct pdf_setter *setter = table->setter;
    struct pdf_font font = pdf_column_title_font(setter);
    double height = 0;
    for (size_t i = 0; i < table->columns.count; i++) {
        const struct pdf_column *one = &table->columns.at[i];
        if (!one->below && one->column->title.length > 0) {
            height = fmax(height, pdf_set(setter->type, font, one->width, one->column->title)->height);
        }
    }
    if (height <= 0) {
        return;
    }
    struct pdf_piece *head = pdf_add_piece(setter, 0, height + pdf_scaled(setter, 3));
    for (size_t i = 0; i < table->columns.count; i++) {
        const struct pdf_column *one = &table->columns.at[i];
        if (one->below || one->column->title.length == 0) {
            continue;
        }
        const struct pdf_text *title = pdf_set(setter->type, font, one->width, one->column->title);
        bool right = one->column->alignment == PAGE_RIGHT;
        /* A head over figures starts where the widest of them starts. */
        double x = right ? one->width - title->width : one->column->alignment == PAGE_CENTRE ? (one->width - title->width) / 2 : 0;
        pdf_put_text(setter, head, title, one->left + x, height - title->height);
    }
    pdf_add_mark(setter, head, PDF_RULE, 0, head->height - 0.5, table->columns.width, 0)->weight = 0.9;
    head->keep_with_next = true;
    table->head = head;
}

/* ---- a row ---- */

/* Cells of columns that had no room: "role: preservative   lot: ______", in as many lines as it takes.  The height. */
static double put_below(struct table_setter *table, struct pdf_piece *piece, const struct page_row *row, double y)
{
    struct pdf_setter *setter = table->setter;
    struct pdf_font font = pdf_font(setter, PDF_REGULAR, NOTE_SIZE);
    double left = table->columns.text_left;
    double x = left;
    double line = 0;
    for (size_t i = 0; i < table->columns.count; i++) {
        const struct pdf_column *one = &table->columns.at[i];
        const struct page_cell *cell = page_cell_at(row, one->column->index);
        bool box = page_row_has_box(row, one->column) && cell->text.length == 0;
        if (!one->below || one->record || one->hidden || (cell->text.length == 0 && !box)) {
            continue;
        }
        struct buffer words;
        buffer_start(&words, setter->arena);
        buffer_text(&words, one->column->title);
        buffer_string(&words, one->column->title.length > 0 ? ": " : "");
        buffer_text(&words, cell->text);
        struct text said = {words.bytes, words.length};
        struct pdf_font face = cell->emphasis ? pdf_font(setter, PDF_BOLD, NOTE_SIZE) : font;
        const struct pdf_text *text = pdf_set(setter->type, face, 0, said);
        double room = box ? pdf_scaled(setter, 52) : 0;
        if (x > left && x + text->width + room > setter->width) {
            x = left;
            y += line;
            line = 0;
        }
        if (text->width > setter->width - left) {
            text = pdf_set(setter->type, face, setter->width - left, said);
        }
        double high = pdf_put_text(setter, piece, text, x, y);
        if (box) {
            pdf_add_mark(setter, piece, PDF_RULE, x + text->width + 2, y + text->first->ascent + 1, room, 0)->weight = 0.5;
        }
        line = fmax(line, high);
        x += text->width + room + pdf_scaled(setter, 12);
    }
    return line > 0 ? y + line : y;
}

/* What is for the record, small behind the text of its column or, where that leaves no room, below it.  Where that ends. */
static double put_record(struct table_setter *table, struct pdf_piece *piece, const struct page_row *row, const struct pdf_column *one,
                         double base)
{
    struct pdf_setter *setter = table->setter;
    struct pdf_cell_text set = pdf_set_cell(setter, one->column, row, one->width);
    double behind = set.width > 0 ? set.width + pdf_scaled(setter, RECORD_GAP) : 0;
    double end = base + (set.width > 0 ? set.text->height - set.text->first->ascent : 0);
    const struct pdf_text *record = pdf_set_record(setter, row, 0);
    if (record != NULL && one->column->priority > 1 && behind + record->width <= one->width + 0.01) {
        pdf_put_text(setter, piece, record, one->left + behind, base - record->first->ascent);
    } else if (record != NULL) {
        end += pdf_put_text(setter, piece, pdf_set_record(setter, row, one->width), one->left, end);
    }
    return end;
}

static double row_ascent(struct table_setter *table, const struct page_row *row)
{
    double ascent = 0;
    for (size_t i = 0; i < table->columns.count; i++) {
        const struct pdf_column *one = &table->columns.at[i];
        const struct page_cell *cell = page_cell_at(row, one->column->index);
        if (!one->below && cell->text.length > 0) {
            ascent = fmax(ascent, pdf_set_cell(table->setter, one->column, row, one->width).text->first->ascent);
        }
    }
    return ascent > 0 ? ascent : pdf_scaled(table->setter, 11);
}

/* A box to tick or a line to write on; `base` is the base line of the row. */
static void put_box(struct table_setter *table, struct pdf_piece *piece, const struct pdf_column *one, double base)
{
    struct pdf_setter *setter = table->setter;
    if (one->column->kind == PAGE_COLUMN_TICK) {
        double size = pdf_scaled(setter, 10);
        pdf_add_mark(setter, piece, PDF_BOX, one->left + 0.5, base - size + pdf_scaled(setter, 1), size, size)->weight = 0.9;
    } else {
        pdf_add_mark(setter, piece, PDF_RULE, one->left, base + (table->table->bench ? 0.5 : 2), one->width, 0)->weight = 0.5;
    }
}

/* The cells, all first lines on one base line.  The height. */
static double put_cells(struct table_setter *table, struct pdf_piece *piece, const struct page_row *row, double y)
{
    struct pdf_setter *setter = table->setter;
    double base = y + row_ascent(table, row);
    double bottom = base + pdf_scaled(setter, 3);
    for (size_t i = 0; i < table->columns.count; i++) {
        const struct pdf_column *one = &table->columns.at[i];
        const struct page_cell *cell = page_cell_at(row, one->column->index);
        if (one->below) {
            continue;
        }
        if (cell->text.length > 0) {
            struct pdf_cell_text set = pdf_set_cell(setter, one->column, row, one->width);
            double x = one->left + aligned(one, &set);
            double top = base - set.text->first->ascent;
            double end = top + pdf_put_text(setter, piece, set.text, x, top);
            if (set.unit != NULL) {
                pdf_put_text(setter, piece, set.unit, x + set.unit_left, base - set.unit->first->ascent);
            }
            bottom = fmax(bottom, end);
            if (cell->emphasis) {
                pdf_add_mark(setter, piece, PDF_RULE, x, base + 2, set.width, 0)->weight = 0.7;
            }
        } else if (page_row_has_box(row, one->column)) {
            put_box(table, piece, one, base);
        }
        if (one->carries_record) {
            bottom = fmax(bottom, put_record(table, piece, row, one, base));
        }
    }
    return bottom;
}

/* The rule above a row, which parts it from the one before. */
static void put_rule(struct table_setter *table, struct pdf_piece *piece, const struct page_row *row)
{
    if (row != table->table->first_row) {
        double weight = row->kind == PAGE_ROW_TOTAL ? 0.9 : HAIRLINE;
        pdf_add_mark(table->setter, piece, PDF_RULE, 0, 0, table->columns.width, 0)->weight = weight;
    }
}

/* A row so high that it must part: its marks line by line into pieces of their own. */
static void split_piece(struct table_setter *table, struct pdf_piece *piece)
{
    struct pdf_setter *setter = table->setter;
    double step = pdf_scaled(setter, 100);
    struct pdf_mark *mark = piece->first;
    double height = piece->height;
    piece->first = piece->last = NULL;
    size_t count = (size_t)ceil(height / step);
    struct pdf_piece **parts = ARENA_ARRAY(setter->arena, struct pdf_piece *, count + 1);
    for (size_t i = 0; i < count; i++) {
        parts[i] = i == 0 ? piece : pdf_add_piece(setter, 0, 0);
        parts[i]->height = i + 1 < count ? step : height - step * (double)i;
        parts[i]->repeat = table->head;
    }
    while (mark != NULL) {
        struct pdf_mark *next = mark->next;
        /* A line of text goes where its top is, and hangs over into what is kept with it. */
        double top = mark->kind == PDF_LINE ? mark->y - mark->as.line->ascent : mark->y;
        size_t part = top <= 0 ? 0 : (size_t)(top / step);
        part = part < count ? part : count - 1;
        mark->next = NULL;
        mark->y -= step * (double)part;
        struct pdf_piece *to = parts[part];
        double bottom = mark->kind == PDF_LINE ? mark->y + mark->as.line->descent : mark->y + mark->height;
        to->height = fmax(to->height, bottom);
        if (to->last == NULL) {
            to->first = mark;
        } else {
            to->last->next = mark;
        }
        to->last = mark;
        mark = next;
    }
}

static void set_row(struct table_setter *table, const struct page_row *row)
{
    struct pdf_setter *setter = table->setter;
    double padding = pdf_scaled(setter, setter->label ? 0.5 : table->writes && !table->table->bench ? 3.2 : 2);
    struct pdf_piece *piece = pdf_add_piece(setter, 0, 0);
    piece->repeat = table->head;
    put_rule(table, piece, row);
    double y = padding;
    if (row->kind == PAGE_ROW_BETWEEN) {
        struct pdf_font font = pdf_font(setter, PDF_ITALIC, setter->label ? 8 : 10.5);
        double left = table->columns.text_left;
        const struct pdf_text *text = pdf_set(setter->type, font, setter->width - left, row->text);
        for (size_t i = 0; i < table->columns.count; i++) {
            const struct pdf_column *one = &table->columns.at[i];
            if (one->column->kind == PAGE_COLUMN_TICK && page_row_has_box(row, one->column)) {
                put_box(table, piece, one, y + text->first->ascent);
            }
        }
        y += pdf_put_text(setter, piece, text, left, y);
    } else {
        y = put_cells(table, piece, row, y);
        y = put_below(table, piece, row, y);
    }
    piece->height = fmax(y + padding, table->writes && row->kind != PAGE_ROW_BETWEEN ? pdf_scaled(setter, 20) : 0);
    piece->keep_with_next = row->first_note != NULL || (row->next != NULL && row->next->kind == PAGE_ROW_TOTAL);
    if (piece->height > SPLIT_ABOVE) {
        split_piece(table, piece);
    }
}

/* Warnings carry the sign that stops the eye, remarks are said in passing. */
static void set_note(struct table_setter *table, const struct page_row *row, const struct page_item *note)
{
    struct pdf_setter *setter = table->setter;
    double sign = pdf_scaled(setter, 9.5);
    double left = table->columns.text_left;
    struct pdf_font font = pdf_font(setter, note->aside ? PDF_ITALIC : PDF_BOLD, NOTE_SIZE);
    struct pdf_piece *piece = pdf_add_text(setter, font, left + (note->aside ? 0 : sign + 4), 0, note->text);
    if (!note->aside) {
        pdf_add_mark(setter, piece, PDF_SIGN, left, pdf_scaled(setter, 0.4), sign, sign);
    }
    for (struct pdf_piece *one = piece; one != NULL; one = one->next) {
        one->repeat = table->head;
    }
    struct pdf_piece *last = setter->out->last;
    last->height += note->next == NULL ? pdf_scaled(setter, 3) : 0;
    last->keep_with_next = note->next == NULL && row->next != NULL && row->next->kind == PAGE_ROW_TOTAL;
}

/* A short table does not part. */
static void keep_short(struct pdf_setter *setter, struct pdf_piece *first)
{
    double height = 0;
    for (const struct pdf_piece *piece = first; piece != NULL; piece = piece->next) {
        height += piece->height;
    }
    for (struct pdf_piece *piece = first; piece != NULL && piece->next != NULL && height < pdf_scaled(setter, KEPT_WHOLE);
         piece = piece->next) {
        piece->keep_with_next = true;
    }
}

void pdf_set_table(struct pdf_setter *setter, const struct page_table *table)
{
    struct pdf_piece *last_before = setter->out->last;
    struct table_setter all = {setter, table, pdf_columns_choose(setter, table), NULL, false};
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        all.writes = all.writes || column->kind == PAGE_COLUMN_BLANK || column->kind == PAGE_COLUMN_TICK;
    }
    set_head(&all);
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        set_row(&all, row);
        for (const struct page_item *note = row->first_note; note != NULL; note = note->next) {
            set_note(&all, row, note);
        }
    }
    if (setter->out->last != NULL && table->first_row != NULL) {
        struct pdf_piece *last = setter->out->last;
        pdf_add_mark(setter, last, PDF_RULE, 0, last->height, all.columns.width, 0)->weight = 0.9;
        last->height += 1;
        keep_short(setter, last_before == NULL ? setter->out->first : last_before->next);
    }
}
