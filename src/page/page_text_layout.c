/* Tables in plain text: how wide each column is, and which have to leave the table when the medium is narrow. */
#include "page/page_text.h"

#include "base/utf8.h"

#include <stdint.h>

enum {
    COMFORTABLE = 14, /* columns of the medium in which running text still reads well */
    BLANK_WIDTH = 8,  /* room for a weight or a lot number by hand */
    BLANK_LEAST = 6
};

static size_t larger(size_t a, size_t b)
{
    return a > b ? a : b;
}

static size_t smaller(size_t a, size_t b)
{
    return a < b ? a : b;
}

struct text table_cell_text(struct arena *arena, const struct page_row *row, const struct page_column *column,
                            size_t blank)
{
    if (page_row_has_box(row, column)) {
        return column->kind == PAGE_COLUMN_TICK ? TEXT("[ ]") : text_blank(arena, blank);
    }
    const struct page_cell *cell = page_cell_at(row, column->index);
    if (cell->emphasis && cell->text.length > 0) {
        struct buffer marked;
        buffer_start(&marked, arena);
        buffer_character(&marked, '*');
        buffer_text(&marked, cell->text);
        buffer_character(&marked, '*');
        return (struct text){marked.bytes, marked.length};
    }
    return cell->text;
}

bool table_figure(struct text text, size_t *before)
{
    size_t i = 0;
    while (i < text.length && !text_is_digit(text.at[i]) && text.at[i] != '.') {
        i++;
    }
    while (i < text.length && text.at[i] == '.' && (i + 1 == text.length || !text_is_digit(text.at[i + 1]))) {
        i++; /* a full stop */
        while (i < text.length && !text_is_digit(text.at[i]) && text.at[i] != '.') {
            i++;
        }
    }
    if (i == text.length) {
        return false;
    }
    /* Fractions (1/4) and grouped thousands (1,000) are whole figures. */
    while (i < text.length && (text_is_digit(text.at[i]) || ((text.at[i] == ',' || text.at[i] == '/') &&
                                                        i + 1 < text.length && text_is_digit(text.at[i + 1])))) {
        i++;
    }
    *before = utf8_width((struct text){text.at, i});
    return true;
}

/* What one cell asks of its column. */
static void measure_cell(struct arena *arena, struct table_column *place, const struct page_row *row, size_t *after)
{
    const struct page_column *column = place->column;
    struct text text = table_cell_text(arena, row, column, 0);
    size_t width = utf8_width(text);
    size_t before = 0;
    if (page_row_has_box(row, column)) {
        bool tick = column->kind == PAGE_COLUMN_TICK;
        place->natural = larger(place->natural, tick ? 3 : BLANK_WIDTH);
        place->least = larger(place->least, tick ? 3 : BLANK_LEAST);
        return;
    }
    place->natural = larger(place->natural, width);
    place->least = larger(place->least, text_longest_piece(text));
    if (column->alignment == PAGE_DECIMAL && table_figure(text, &before)) {
        place->before = larger(place->before, before);
        *after = larger(*after, width - before);
    }
    if (column->alignment == PAGE_DECIMAL || column->kind == PAGE_COLUMN_AMOUNT) {
        place->whole = larger(place->whole, width);
    }
}

static struct table_column measure(struct arena *arena, const struct page_table *table,
                                   const struct page_column *column, size_t room)
{
    struct table_column place = {.column = column};
    size_t after = 0;
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        if (row->kind != PAGE_ROW_BETWEEN) {
            measure_cell(arena, &place, row, &after);
        } else if (page_row_has_box(row, column)) {
            place.natural = place.least = larger(place.natural, 3);
        }
    }
    place.figures = place.before + after;
    place.whole = larger(place.whole, place.figures);
    size_t title = text_longest_piece(column->title);
    place.least = larger(place.least, title);
    place.natural = smaller(larger(larger(place.natural, place.whole), utf8_width(column->title)), room);
    place.least = smaller(larger(place.least, 1), place.natural);
    bool running = column->kind == PAGE_COLUMN_TEXT && column->alignment != PAGE_DECIMAL;
    size_t reads_well = larger(place.least, running ? COMFORTABLE : place.whole);
    place.comfortable = smaller(reads_well, place.natural);
    return place;
}

/* Columns that the table takes at the widths chosen so far. */
static size_t taken(const struct table_layout *layout)
{
    size_t total = 0;
    for (size_t i = 0; i < layout->count; i++) {
        if (!layout->columns[i].moved) {
            total += layout->columns[i].width + (total > 0 ? TABLE_GAP : 0);
        }
    }
    return total;
}

static size_t narrowest(const struct table_column *place, bool comfortably)
{
    return comfortably ? place->comfortable : place->least;
}

/* Narrows columns, those of the highest priority number first and the widest of them first, until all fit. */
static bool narrow_until_fit(struct table_layout *layout, size_t room, bool comfortably)
{
    size_t total = taken(layout);
    while (total > room) {
        struct table_column *give = NULL;
        for (size_t i = 0; i < layout->count; i++) {
            struct table_column *place = &layout->columns[i];
            if (place->moved || place->width <= narrowest(place, comfortably)) {
                continue;
            }
            if (give == NULL || place->column->priority > give->column->priority ||
                (place->column->priority == give->column->priority && place->width > give->width)) {
                give = place;
            }
        }
        if (give == NULL) {
            return false;
        }
        give->width--;
        total--;
    }
    return true;
}

/* The column that leaves next: the highest priority number, of those the rightmost; never the lead. */
static struct table_column *next_to_leave(const struct table_layout *layout, size_t lead)
{
    struct table_column *leave = NULL;
    for (size_t i = 0; i < layout->count; i++) {
        struct table_column *place = &layout->columns[i];
        if (!place->moved && i != lead && (leave == NULL || place->column->priority >= leave->column->priority)) {
            leave = place;
        }
    }
    return leave;
}

static void start_wide(struct table_layout *layout)
{
    for (size_t i = 0; i < layout->count; i++) {
        layout->columns[i].width = layout->columns[i].natural;
    }
}

static void fit(struct table_layout *layout, size_t lead, size_t room)
{
    for (;;) {
        start_wide(layout);
        if (narrow_until_fit(layout, room, true)) {
            return;
        }
        struct table_column *leave = next_to_leave(layout, lead);
        bool essential = leave == NULL || leave->column->priority == 1;
        if (essential && narrow_until_fit(layout, room, false)) {
            return;
        }
        if (leave == NULL) {
            layout->columns[lead].width = room;
            return;
        }
        leave->moved = true;
        layout->any_moved = true;
    }
}

struct table_layout table_layout(struct arena *arena, const struct page_table *table, size_t left, size_t end)
{
    struct table_layout layout = {.count = table->column_count, .lead = left};
    layout.columns = ARENA_ARRAY(arena, struct table_column, layout.count);
    size_t lead = SIZE_MAX;
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        struct table_column *place = &layout.columns[column->index];
        *place = measure(arena, table, column, end - left);
        place->moved = place->natural == 0; /* nothing stands in it, and nothing will under the rows */
        if (!place->moved && lead == SIZE_MAX &&
            (column->kind == PAGE_COLUMN_TEXT || column->kind == PAGE_COLUMN_AMOUNT)) {
            lead = column->index;
        }
    }
    if (layout.count == 0) {
        return layout;
    }
    fit(&layout, lead == SIZE_MAX ? 0 : lead, end - left);
    size_t at = left;
    for (size_t i = 0; i < layout.count; i++) {
        struct table_column *place = &layout.columns[i];
        if (place->moved) {
            continue;
        }
        place->left = at;
        at += place->width + TABLE_GAP;
        /* Behind boxes, but not so far right that what stands there has no room. */
        if (i == lead && place->left - left <= (end - left) / 3) {
            layout.lead = place->left;
        }
    }
    return layout;
}
