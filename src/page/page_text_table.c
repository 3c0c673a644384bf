/* Tables in plain text: heads, rows, what stands between and below them. */
#include "page/page_text.h"

#include "base/utf8.h"

/* The column of the medium where a line of a cell starts. */
static size_t start_of(const struct table_column *place, struct text line, bool whole)
{
    size_t width = utf8_width(line);
    size_t spare = place->width > width ? place->width - width : 0;
    size_t before;
    switch (place->column->alignment) {
    case PAGE_RIGHT:
        return place->left + spare;
    case PAGE_CENTRE:
        return place->left + spare / 2;
    case PAGE_DECIMAL:
        if (place->width < place->whole) {
            return place->left; /* no room to stand in line: broken as running text */
        }
        if (whole && table_figure(line, &before)) {
            return place->left + (place->width - place->figures) + (place->before - before);
        }
        return place->left + spare;
    case PAGE_LEFT:
        break;
    }
    return place->left;
}

/* Prints the next line of every cell; false when nothing was left.  `rest` is what is left of each. */
static bool print_line(struct setter *setter, const struct table_layout *layout, struct text *rest, bool title)
{
    bool any = false;
    for (size_t i = 0; i < layout->count; i++) {
        const struct table_column *place = &layout->columns[i];
        if (place->moved || rest[i].length == 0) {
            continue;
        }
        any = true;
        struct text line = text_take_line(&rest[i], place->width);
        setter_go(setter, start_of(place, line, !title));
        setter_print(setter, line);
    }
    return any;
}

static void print_cells(struct setter *setter, const struct table_layout *layout, const struct page_row *row)
{
    struct arena *arena = setter->out->arena;
    struct text *rest = ARENA_ARRAY(arena, struct text, layout->count);
    for (size_t i = 0; i < layout->count; i++) {
        const struct table_column *place = &layout->columns[i];
        rest[i] = table_cell_text(arena, row, place->column, place->width);
    }
    while (print_line(setter, layout, rest, false)) {
        setter_end_line(setter);
    }
}

/* Lines that a title takes in its column. */
static size_t title_lines(const struct table_column *place)
{
    size_t lines = 0;
    for (struct text rest = place->column->title; rest.length > 0;) {
        text_take_line(&rest, place->width);
        lines++;
    }
    return lines;
}

/* The titles stand on the rule: a short one starts lower. */
static void print_head(struct setter *setter, const struct table_layout *layout, size_t left)
{
    size_t height = 0;
    size_t right = left;
    for (size_t i = 0; i < layout->count; i++) {
        const struct table_column *place = &layout->columns[i];
        if (!place->moved) {
            size_t lines = title_lines(place);
            height = lines > height ? lines : height;
            right = place->left + place->width;
        }
    }
    if (height == 0) {
        return;
    }
    struct text *rest = ARENA_ARRAY(setter->out->arena, struct text, layout->count);
    for (size_t line = 0; line < height; line++) {
        for (size_t i = 0; i < layout->count; i++) {
            const struct table_column *place = &layout->columns[i];
            if (!place->moved && line + title_lines(place) == height) {
                rest[i] = place->column->title;
            }
        }
        print_line(setter, layout, rest, true);
        setter_end_line(setter);
    }
    setter_go(setter, left);
    setter_repeat(setter, TEXT("─"), right - left);
    setter_end_line(setter);
}

/* What has no place in the table, under the row: "role: preservative   lot: ________". */
static void print_moved(struct setter *setter, const struct table_layout *layout, const struct page_row *row)
{
    struct arena *arena = setter->out->arena;
    for (size_t i = 0; i < layout->count; i++) {
        const struct table_column *place = &layout->columns[i];
        if (!place->moved) {
            continue;
        }
        struct text text = table_cell_text(arena, row, place->column, place->natural);
        if (text.length == 0) {
            continue;
        }
        struct buffer item;
        buffer_start(&item, arena);
        if (place->column->title.length > 0) {
            buffer_text(&item, place->column->title);
            buffer_string(&item, ": ");
        }
        buffer_text(&item, text);
        setter_flow(setter, (struct text){item.bytes, item.length}, layout->lead, 0);
    }
    setter_end_line(setter);
}

/* Where text below or between the rows ends: a table may be wider than running text should be. */
static size_t end_of_text(const struct setter *setter, const struct table_layout *layout)
{
    size_t end = layout->lead + setter->measure;
    return end < setter->width ? end : setter->width;
}

static void print_notes(struct setter *setter, const struct table_layout *layout, const struct page_row *row)
{
    size_t end = end_of_text(setter, layout);
    for (const struct page_item *note = row->first_note; note != NULL; note = note->next) {
        setter_go(setter, layout->lead);
        setter_print(setter, note->aside ? TEXT("- ") : TEXT("! "));
        setter_wrap(setter, note->text, layout->lead + 2, end);
        setter_end_line(setter);
    }
}

static void print_between(struct setter *setter, const struct table_layout *layout, const struct page_row *row)
{
    const struct table_column *box = NULL;
    for (size_t i = 0; i < layout->count && box == NULL; i++) {
        box = page_row_has_box(row, layout->columns[i].column) ? &layout->columns[i] : NULL;
    }
    if (box != NULL && !box->moved && box->left < layout->lead) {
        setter_go(setter, box->left);
        setter_print(setter, TEXT("[ ]"));
        setter_go(setter, layout->lead);
    } else {
        setter_go(setter, layout->lead);
        setter_print(setter, box != NULL ? TEXT("[ ] ") : TEXT("- ")); /* nothing else tells it from a row */
    }
    setter_wrap(setter, row->text, setter->column, end_of_text(setter, layout));
    setter_end_line(setter);
}

/* Rows stand apart where a hand has to write or tick in them, or where they take several lines. */
static bool rows_stand_apart(const struct table_layout *layout, const struct page_table *table)
{
    if (layout->any_moved) {
        return true;
    }
    for (size_t i = 0; i < layout->count; i++) {
        const struct table_column *place = &layout->columns[i];
        if (place->column->kind == PAGE_COLUMN_TICK || place->column->kind == PAGE_COLUMN_BLANK ||
            place->width < place->natural) {
            return true;
        }
    }
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        if (row->first_note != NULL) {
            return true;
        }
    }
    return false;
}

void setter_table(struct setter *setter, const struct page_table *table, size_t left)
{
    struct table_layout layout = table_layout(setter->out->arena, table, left, setter->width);
    print_head(setter, &layout, left);
    bool apart = rows_stand_apart(&layout, table);
    const struct page_row *previous = NULL;
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        bool space =
            apart || row->kind != PAGE_ROW_ORDINARY || (previous != NULL && previous->kind != PAGE_ROW_ORDINARY);
        setter_space(setter, space && previous != NULL ? 1 : 0);
        if (row->kind == PAGE_ROW_BETWEEN) {
            print_between(setter, &layout, row);
        } else {
            print_cells(setter, &layout, row);
            print_moved(setter, &layout, row);
        }
        print_notes(setter, &layout, row);
        previous = row;
    }
}
