/* Tables in HTML: a group of rows for each row of the page, with its notes; narrow screens set each as a card. */
#include "page/page_html.h"

#include "base/utf8.h"

enum {
    MOST_INDENT = 14, /* figures' widths that the styles know */
    PHONE = 38        /* characters that a line of a table has on a phone */
};

/* What stands before the decimal point of the first figure, in widths of a figure: letters are narrower (about seven tenths in
 * the usual typefaces).  page/html/sheets.js reckons it in the same way. */
static size_t whole_width(struct text text)
{
    size_t begin = 0;
    while (begin < text.length && (text.at[begin] < '0' || text.at[begin] > '9')) {
        begin++;
    }
    size_t end = begin;
    while (end < text.length && text.at[end] >= '0' && text.at[end] <= '9') {
        end++;
    }
    return begin == text.length ? 0 : (utf8_count((struct text){text.at, begin}) * 7 + 5) / 10 + (end - begin);
}

static size_t widest_whole(const struct page_table *table, const struct page_column *column)
{
    size_t most = 0;
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        size_t width = whole_width(page_cell_at(row, column->index)->text);
        most = width > most ? width : most;
    }
    return most;
}

static bool has_boxes(const struct page_table *table)
{
    return table->first_column != NULL && table->first_column->kind == PAGE_COLUMN_TICK;
}

/* The column that names the row: the first of text. */
static const struct page_column *naming_column(const struct page_table *table)
{
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        if (column->kind == PAGE_COLUMN_TEXT) {
            return column;
        }
    }
    return NULL;
}

/* The figure that the eye looks for first where there are steps to take, beside the name. */
static const struct page_column *leading_amount(const struct page_table *table)
{
    if (!has_boxes(table)) {
        return NULL;
    }
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        if (column->kind == PAGE_COLUMN_AMOUNT) {
            return column;
        }
    }
    return NULL;
}

static void put_head(struct html *html, const struct page_table *table)
{
    struct buffer *out = html->out;
    buffer_string(out, "<thead><tr>");
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        static const char *const alignments[] = {"left", "right", "decimal", "centre"};
        static const char *const kinds[] = {"text", "amount", "tick", "blank"};
        buffer_format(out, "<th scope=\"col\" class=\"%s %s\">", kinds[column->kind], alignments[column->alignment]);
        if (column->title.length > 0) {
            html_text(out, column->title);
        } else {
            buffer_format(out, "<span class=\"unseen\">%s</span>", column->kind == PAGE_COLUMN_TICK ? "done" : "what");
        }
        buffer_string(out, "</th>");
    }
    buffer_string(out, "</tr></thead>\n");
}

/* The longest word, in bytes; what cannot be parted counts as one. */
static size_t longest_word(struct text text)
{
    size_t most = 0;
    size_t length = 0;
    for (size_t i = 0; i < text.length; i++) {
        length = text.at[i] == ' ' ? 0 : length + 1;
        most = length > most ? length : most;
    }
    return most;
}

/* What a column could not hold: a word that has to be parted somewhere, or figures that are none. */
static bool is_long(struct text text, enum page_column_kind kind)
{
    enum { LONGEST = 28 };
    return kind == PAGE_COLUMN_AMOUNT ? text.length > LONGEST : longest_word(text) > LONGEST;
}

/* Whether the table cannot be made narrow enough for a phone; each row is then set as a card there. */
static bool is_wide(const struct page_table *table)
{
    size_t width = 0;
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        size_t most = longest_word(column->title);
        for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
            size_t word = longest_word(page_cell_at(row, column->index)->text);
            most = word > most ? word : most;
        }
        width += most + 2;
    }
    return has_boxes(table) || width > PHONE;
}

static bool tells_error(const struct page_figure *figure)
{
    return figure != NULL && (figure->way == PAGE_FIGURE_MASS_ERROR || figure->way == PAGE_FIGURE_VOLUME_ERROR);
}

static void put_label_attribute(struct buffer *out, const struct page_column *column)
{
    if (column->title.length > 0) {
        buffer_string(out, " data-label=\"");
        html_text(out, column->title);
        buffer_character(out, '"');
    }
}

static void put_blank(struct html *html, const struct page_column *column, struct text name)
{
    struct buffer *out = html->out;
    buffer_format(out, "<input class=\"write\" id=\"p%zu-w%zu\" type=\"text\" maxlength=\"60\" autocomplete=\"off\" aria-label=\"",
                  html->number, ++html->blanks);
    html_text(out, column->title);
    if (name.length > 0) {
        buffer_string(out, ": ");
        html_text(out, name);
    }
    buffer_string(out, "\">");
}

struct row_names {
    const struct page_column *naming, *leading;
    const size_t *widths; /* before the decimal point, by column */
    size_t box;  /* of the row's tick; 0: it has none */
    size_t note; /* of its notes; 0: it has none */
};

static void put_cell(struct html *html, const struct page_row *row, const struct page_column *column,
                     const struct row_names *names)
{
    struct buffer *out = html->out;
    const struct page_cell *cell = page_cell_at(row, column->index);
    bool box = page_row_has_box(row, column);
    if (box && column->kind == PAGE_COLUMN_TICK) {
        buffer_format(out, "<td class=\"tick\"><input type=\"checkbox\" id=\"p%zu-t%zu\"", html->number, names->box);
        if (names->naming != NULL) {
            buffer_format(out, " aria-labelledby=\"p%zu-l%zu", html->number, names->box);
            if (names->leading != NULL) {
                buffer_format(out, " p%zu-a%zu", html->number, names->box);
            }
            buffer_character(out, '"');
        } else {
            buffer_string(out, " aria-label=\"done\"");
        }
        if (names->note > 0) {
            buffer_format(out, " aria-describedby=\"p%zu-n%zu\"", html->number, names->note);
        }
        buffer_string(out, "></td>");
        return;
    }
    bool naming = column == names->naming;
    static const char *const kinds[] = {"text", "amount", "tick", "blank"};
    buffer_format(out, naming ? "<th scope=\"row\" class=\"%s" : "<td class=\"%s", naming ? "name" : kinds[column->kind]);
    if (column->alignment == PAGE_DECIMAL) {
        size_t indent = names->widths[column->index] - whole_width(cell->text);
        buffer_format(out, " decimal i%zu", indent > MOST_INDENT ? MOST_INDENT : indent);
    } else if (column->alignment == PAGE_RIGHT) {
        buffer_string(out, " right");
    } else if (column->alignment == PAGE_CENTRE) {
        buffer_string(out, " centre");
    }
    buffer_format(out, "%s%s%s", column == names->leading ? " leading" : "", cell->emphasis ? " strong" : "",
                  tells_error(cell->figures) ? " error" : "");
    if (!box && cell->text.length == 0) {
        buffer_string(out, " nothing");
    }
    if (is_long(cell->text, column->kind)) {
        buffer_string(out, " long");
    }
    buffer_character(out, '"');
    if (column == names->leading && names->box > 0) {
        buffer_format(out, " id=\"p%zu-a%zu\"", html->number, names->box);
    }
    put_label_attribute(out, column);
    bool labelled = naming && names->box > 0;
    if (!labelled) {
        html_pieces(out, cell->text, cell->figures);
    }
    buffer_string(out, column->kind == PAGE_COLUMN_TEXT ? " dir=\"auto\">" : ">");
    if (box) {
        put_blank(html, column, names->naming == NULL ? (struct text){0} : page_cell_at(row, names->naming->index)->text);
    } else if (labelled) {
        buffer_format(out, "<label for=\"p%zu-t%zu\" id=\"p%zu-l%zu\"", html->number, names->box, html->number, names->box);
        html_pieces(out, cell->text, cell->figures);
        buffer_character(out, '>');
        html_text(out, cell->text);
        buffer_string(out, "</label>");
    } else {
        html_text(out, cell->text);
    }
    buffer_string(out, naming ? "</th>" : "</td>");
}

/* A working step between the rows. */
static void put_between(struct html *html, const struct page_row *row, const struct row_names *names)
{
    struct buffer *out = html->out;
    size_t columns = row->table->column_count;
    if (has_boxes(row->table)) {
        buffer_string(out, "<td class=\"tick\">");
        if (names->box > 0) {
            buffer_format(out, "<input type=\"checkbox\" id=\"p%zu-t%zu\">", html->number, names->box);
        }
        buffer_string(out, "</td>");
        columns--;
    }
    buffer_format(out, "<td class=\"name%s\" colspan=\"%zu\" dir=\"auto\">", is_long(row->text, PAGE_COLUMN_TEXT) ? " long" : "",
                  columns == 0 ? 1 : columns);
    buffer_format(out, names->box > 0 ? "<label for=\"p%zu-t%zu\"" : "<span", html->number, names->box);
    buffer_character(out, '>');
    html_text(out, row->text);
    buffer_string(out, names->box > 0 ? "</label></td>" : "</span></td>");
}

static void put_notes(struct html *html, const struct page_row *row, const struct row_names *names)
{
    struct buffer *out = html->out;
    size_t columns = row->table->column_count;
    bool box = has_boxes(row->table) && columns > 1;
    buffer_format(out, "<tr class=\"notes\">%s<td colspan=\"%zu\" id=\"p%zu-n%zu\">", box ? "<td class=\"tick\"></td>" : "",
                  box ? columns - 1 : columns, html->number, names->note);
    for (const struct page_item *note = row->first_note_of_all; note != NULL; note = note->next_of_all) {
        buffer_format(out, "<p class=\"%s%s\" dir=\"auto\"", note->aside ? "remark" : "warning", is_long(note->text, PAGE_COLUMN_TEXT) ? " long" : "");
        html_when(html->page, out, note->when);
        buffer_string(out, note->aside ? "><span" : "><span class=\"unseen\">Warning: </span><span");
        html_pieces(out, note->text, note->figures);
        buffer_character(out, '>');
        html_text(out, note->text);
        buffer_string(out, "</span></p>");
    }
    buffer_string(out, "</td></tr>");
}

static void put_row(struct html *html, const struct page_row *row, struct row_names names)
{
    static const char *const kinds[] = {"ordinary", "between", "total"};
    struct buffer *out = html->out;
    for (const struct page_column *column = row->table->first_column; column != NULL && names.box == 0; column = column->next) {
        if (column->kind == PAGE_COLUMN_TICK && page_row_has_box(row, column)) {
            names.box = html_tick(html);
        }
    }
    names.note = row->first_note_of_all != NULL ? ++html->others : 0;
    buffer_format(out, "<tbody class=\"%s\"><tr>", kinds[row->kind]);
    if (row->kind == PAGE_ROW_BETWEEN) {
        put_between(html, row, &names);
    } else {
        for (const struct page_column *column = row->table->first_column; column != NULL; column = column->next) {
            put_cell(html, row, column, &names);
        }
    }
    buffer_string(out, "</tr>");
    if (names.note > 0) {
        put_notes(html, row, &names);
    }
    buffer_string(out, "</tbody>\n");
}

void html_table(struct html *html, const struct page_table *table)
{
    struct buffer *out = html->out;
    if (table->first_column == NULL) {
        return;
    }
    buffer_string(out, "<div class=\"table\">");
    buffer_format(out, "<table class=\"%s%s\">", is_wide(table) ? "wide" : "narrow", has_boxes(table) ? " steps" : "");
    put_head(html, table);
    size_t *widths = ARENA_ARRAY(out->arena, size_t, table->column_count);
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        widths[column->index] = column->alignment == PAGE_DECIMAL ? widest_whole(table, column) : 0;
    }
    struct row_names names = {naming_column(table), leading_amount(table), widths, 0, 0};
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        put_row(html, row, names);
    }
    buffer_string(out, "</table></div>\n");
}
