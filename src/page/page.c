/* Filling a page. */
#include "page/page.h"

#include <math.h>

#include "base/utf8.h"

#include <stdarg.h>
#include <stdio.h>

/* ---- texts ---- */

/* What a character of a text that came from outside turns into. */
enum treatment { KEEP, MAKE_BLANK, MAKE_NO_BREAK_SPACE, MAKE_QUESTION };

/* `c` is one character of valid UTF-8. */
static enum treatment treatment_of(struct text c)
{
    unsigned char first = (unsigned char)c.at[0];
    if (c.length == 1) {
        if (first == ' ' || (first >= '\t' && first <= '\r')) {
            return MAKE_BLANK;
        }
        return first < 0x20 || first == 0x7F ? MAKE_QUESTION : KEEP;
    }
    unsigned char second = (unsigned char)c.at[1];
    if (first == 0xC2) {
        return second < 0xA0 ? MAKE_QUESTION : KEEP; /* U+0080 to U+009F: some terminals obey them */
    }
    if (first == 0xD8 && second == 0x9C) {
        return MAKE_QUESTION; /* U+061C, a mark of direction */
    }
    if (first == 0xE3 && second == 0x80 && (unsigned char)c.at[2] == 0x80) {
        return MAKE_BLANK; /* U+3000, the wide blank */
    }
    if (first == 0xE2) {
        unsigned char third = (unsigned char)c.at[2];
        if (second == 0x80) {
            if (third == 0x87 || third == 0xAF) {
                return MAKE_NO_BREAK_SPACE; /* U+2007, U+202F: as wide as a figure, narrow */
            }
            if (third <= 0x8A || third == 0xA8 || third == 0xA9) {
                return MAKE_BLANK; /* U+2000 to U+200A, and U+2028, U+2029: ends of lines and paragraphs */
            }
            /* U+200E, U+200F, U+202A to U+202E: could show the figures of an amount in another order. */
            return third == 0x8E || third == 0x8F || (third >= 0xAA && third <= 0xAE) ? MAKE_QUESTION : KEEP;
        }
        if (second == 0x81 && third >= 0xA6 && third <= 0xA9) {
            return MAKE_QUESTION; /* U+2066 to U+2069, likewise */
        }
    }
    return KEEP;
}

/* The copy that the page keeps: see the head of page.h. */
static struct text clean(struct arena *arena, struct text text)
{
    char *out = arena_allocate(arena, text.length + 1);
    size_t length = 0;
    size_t fault = 0;
    for (size_t i = 0; i < text.length;) {
        if (fault <= i) {
            fault = utf8_first_fault(text.at, text.length, i);
        }
        if (fault == i) {
            out[length++] = '?'; /* NUL, or a byte that is no UTF-8 */
            i++;
            fault = 0;
            continue;
        }
        struct text rest = {text.at + i, text.length - i};
        size_t size = utf8_character_length(rest);
        switch (treatment_of((struct text){rest.at, size})) {
        case MAKE_BLANK:
            if (length > 0 && out[length - 1] != ' ') {
                out[length++] = ' ';
            }
            break;
        case MAKE_QUESTION:
            out[length++] = '?';
            break;
        case MAKE_NO_BREAK_SPACE: /* 2 bytes for 3 */
            out[length++] = '\xC2';
            out[length++] = '\xA0';
            break;
        case KEEP:
            memcpy(out + length, rest.at, size);
            length += size;
            break;
        }
        i += size;
    }
    while (length > 0 && out[length - 1] == ' ') {
        length--;
    }
    out[length] = '\0';
    return (struct text){out, length};
}

struct text page_format(struct page *page, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_format_list(page->arena, format, arguments);
    va_end(arguments);
    return text_from(text);
}

/* ---- the page itself ---- */

struct page *page_start(struct arena *arena)
{
    struct page *page = ARENA_NEW(arena, struct page);
    page->arena = arena;
    page->facts.arena = arena;
    return page;
}

void page_set_title(struct page *page, struct text title)
{
    page->title = clean(page->arena, title);
}

void page_set_subtitle(struct page *page, struct text subtitle)
{
    page->subtitle = clean(page->arena, subtitle);
}

void page_set_source(struct page *page, struct text source)
{
    page->source = clean(page->arena, source);
}

void page_set_date(struct page *page, struct text date)
{
    page->date = clean(page->arena, date);
}

void page_set_caution(struct page *page, struct text caution)
{
    page->caution = clean(page->arena, caution);
}

/* ---- facts ---- */

struct page_fact *page_facts_add(struct page_facts *facts, struct text label, struct text text)
{
    struct page_fact *fact = ARENA_NEW(facts->arena, struct page_fact);
    fact->arena = facts->arena;
    fact->label = clean(facts->arena, label);
    fact->text = clean(facts->arena, text);
    if (facts->last == NULL) {
        facts->first = fact;
    } else {
        facts->last->next = fact;
    }
    facts->last = fact;
    return fact;
}

struct page_fact *page_add_fact(struct page *page, struct text label, struct text text)
{
    return page_facts_add(&page->facts, label, text);
}

void page_fact_value(struct page_fact *fact, double number, struct text unit)
{
    fact->value = (struct page_value){true, number, clean(fact->arena, unit)};
}

/* ---- blocks ---- */

static struct page_block *add_block(struct page *page, enum page_block_kind kind)
{
    struct page_block *block = ARENA_NEW(page->arena, struct page_block);
    block->kind = kind;
    block->keep_with_next = kind == PAGE_HEADING;
    if (page->last == NULL) {
        page->first = block;
    } else {
        page->last->next = block;
    }
    page->last = block;
    return block;
}

void page_add_heading(struct page *page, unsigned level, struct text text)
{
    struct page_heading *heading = ARENA_NEW(page->arena, struct page_heading);
    heading->level = level < 2 ? 1 : 2;
    heading->text = clean(page->arena, text);
    add_block(page, PAGE_HEADING)->as.heading = heading;
}

void page_add_paragraph(struct page *page, struct text text)
{
    struct text paragraph = clean(page->arena, text);
    add_block(page, PAGE_PARAGRAPH)->as.paragraph = paragraph;
}

static void add_item(struct arena *arena, struct page_item **first, struct page_item **last, struct text text)
{
    struct page_item *item = ARENA_NEW(arena, struct page_item);
    item->text = clean(arena, text);
    if (*last == NULL) {
        *first = item;
    } else {
        (*last)->next = item;
    }
    *last = item;
}

struct page_list *page_add_list(struct page *page, enum page_marks marks)
{
    struct page_list *list = ARENA_NEW(page->arena, struct page_list);
    list->arena = page->arena;
    list->marks = marks;
    add_block(page, PAGE_LIST)->as.list = list;
    return list;
}

void page_list_item(struct page_list *list, struct text text)
{
    add_item(list->arena, &list->first, &list->last, text);
}

struct page_facts *page_add_facts(struct page *page)
{
    struct page_facts *facts = ARENA_NEW(page->arena, struct page_facts);
    facts->arena = page->arena;
    add_block(page, PAGE_FACTS)->as.facts = facts;
    return facts;
}

void page_add_warning(struct page *page, enum page_severity severity, struct text title, struct text text)
{
    struct page_warning *warning = ARENA_NEW(page->arena, struct page_warning);
    warning->severity = severity;
    warning->title = clean(page->arena, title);
    warning->text = clean(page->arena, text);
    add_block(page, PAGE_WARNING)->as.warning = warning;
}

struct page_blanks *page_add_blanks(struct page *page)
{
    struct page_blanks *blanks = ARENA_NEW(page->arena, struct page_blanks);
    blanks->arena = page->arena;
    add_block(page, PAGE_BLANKS)->as.blanks = blanks;
    return blanks;
}

void page_blank(struct page_blanks *blanks, struct text label, enum page_room room, struct text unit)
{
    struct page_blank *blank = ARENA_NEW(blanks->arena, struct page_blank);
    blank->label = clean(blanks->arena, label);
    blank->unit = clean(blanks->arena, unit);
    blank->room = room;
    if (blanks->last == NULL) {
        blanks->first = blank;
    } else {
        blanks->last->next = blank;
    }
    blanks->last = blank;
}

struct page_pictograms *page_add_pictograms(struct page *page)
{
    struct page_pictograms *pictograms = ARENA_NEW(page->arena, struct page_pictograms);
    pictograms->arena = page->arena;
    add_block(page, PAGE_PICTOGRAMS)->as.pictograms = pictograms;
    return pictograms;
}

void page_pictogram(struct page_pictograms *pictograms, struct text code, struct text name)
{
    struct page_pictogram *pictogram = ARENA_NEW(pictograms->arena, struct page_pictogram);
    pictogram->code = clean(pictograms->arena, code);
    pictogram->name = clean(pictograms->arena, name);
    if (pictograms->last == NULL) {
        pictograms->first = pictogram;
    } else {
        pictograms->last->next = pictogram;
    }
    pictograms->last = pictogram;
}

void page_add_code(struct page *page, struct text content, struct text label)
{
    struct page_code *code = ARENA_NEW(page->arena, struct page_code);
    code->content = clean(page->arena, content);
    code->label = clean(page->arena, label);
    add_block(page, PAGE_CODE)->as.code = code;
}

struct page_timeline *page_add_timeline(struct page *page, struct text label)
{
    struct page_timeline *timeline = ARENA_NEW(page->arena, struct page_timeline);
    timeline->arena = page->arena;
    timeline->label = clean(page->arena, label);
    add_block(page, PAGE_TIMELINE)->as.timeline = timeline;
    return timeline;
}

void page_stage(struct page_timeline *timeline, struct text name, struct text detail, double start, double duration)
{
    struct page_stage *stage = ARENA_NEW(timeline->arena, struct page_stage);
    stage->name = clean(timeline->arena, name);
    stage->detail = clean(timeline->arena, detail);
    stage->start = start;
    stage->duration = duration;
    if (timeline->last == NULL) {
        timeline->first = stage;
    } else {
        timeline->last->next = stage;
    }
    timeline->last = stage;
}

struct text page_clock(struct arena *arena, double seconds)
{
    long whole = isfinite(seconds) ? lround(seconds) : 0;
    long hours = whole / 3600;
    long minutes = whole / 60 % 60;
    return text_from(hours > 0 ? arena_format(arena, "%ld:%02ld:%02ld", hours, minutes, whole % 60)
                               : arena_format(arena, "%ld:%02ld", minutes, whole % 60));
}

void page_add_rule(struct page *page)
{
    add_block(page, PAGE_RULE);
}

void page_add_break(struct page *page)
{
    add_block(page, PAGE_BREAK);
}

void page_keep_with_next(struct page *page)
{
    if (page->last != NULL) {
        page->last->keep_with_next = true;
    }
}

/* ---- tables ---- */

struct page_table *page_add_table(struct page *page)
{
    struct page_table *table = ARENA_NEW(page->arena, struct page_table);
    table->arena = page->arena;
    add_block(page, PAGE_TABLE)->as.table = table;
    return table;
}

struct page_column *page_table_column(struct page_table *table, struct text title, enum page_column_kind kind,
                                      enum page_alignment alignment, unsigned priority)
{
    struct page_column *column = ARENA_NEW(table->arena, struct page_column);
    column->title = clean(table->arena, title);
    column->kind = kind;
    column->alignment = alignment;
    column->priority = priority < 1 ? 1 : priority;
    column->index = table->column_count++;
    if (table->last_column == NULL) {
        table->first_column = column;
    } else {
        table->last_column->next = column;
    }
    table->last_column = column;
    return column;
}

static struct page_row *add_row(struct page_table *table, enum page_row_kind kind)
{
    struct page_row *row = ARENA_NEW(table->arena, struct page_row);
    row->table = table;
    row->kind = kind;
    if (table->last_row == NULL) {
        table->first_row = row;
    } else {
        table->last_row->next = row;
    }
    table->last_row = row;
    return row;
}

/* The cell to write to; a column may have come after the row. */
static struct page_cell *cell_for(struct page_row *row, const struct page_column *column)
{
    if (column->index >= row->cell_count) {
        size_t count = row->table->column_count;
        struct page_cell *cells = ARENA_ARRAY(row->table->arena, struct page_cell, count);
        if (row->cell_count > 0) {
            memcpy(cells, row->cells, row->cell_count * sizeof *cells);
        }
        row->cells = cells;
        row->cell_count = count;
    }
    return &row->cells[column->index];
}

struct page_row *page_table_row(struct page_table *table)
{
    return add_row(table, PAGE_ROW_ORDINARY);
}

struct page_row *page_table_between(struct page_table *table, struct text text)
{
    struct page_row *row = add_row(table, PAGE_ROW_BETWEEN);
    row->text = clean(table->arena, text);
    return row;
}

struct page_row *page_table_total(struct page_table *table)
{
    return add_row(table, PAGE_ROW_TOTAL);
}

struct page_cell *page_row_cell(struct page_row *row, const struct page_column *column, struct text text)
{
    struct page_cell *cell = cell_for(row, column);
    cell->text = clean(row->table->arena, text);
    cell->value = (struct page_value){0};
    return cell;
}

struct page_cell *page_row_amount(struct page_row *row, const struct page_column *column, struct text text,
                                  double number, struct text unit)
{
    struct page_cell *cell = page_row_cell(row, column, text);
    cell->value = (struct page_value){true, number, clean(row->table->arena, unit)};
    return cell;
}

void page_row_emphasize(struct page_row *row, const struct page_column *column)
{
    cell_for(row, column)->emphasis = true;
}

void page_row_without(struct page_row *row, const struct page_column *column)
{
    cell_for(row, column)->nothing = true;
}

void page_row_note(struct page_row *row, struct text text)
{
    add_item(row->table->arena, &row->first_note, &row->last_note, text);
}

void page_row_remark(struct page_row *row, struct text text)
{
    add_item(row->table->arena, &row->first_note, &row->last_note, text);
    row->last_note->aside = true;
}

const struct page_cell *page_cell_at(const struct page_row *row, size_t index)
{
    static const struct page_cell empty = {0};
    return index < row->cell_count ? &row->cells[index] : &empty;
}

bool page_row_has_box(const struct page_row *row, const struct page_column *column)
{
    bool box = column->kind == PAGE_COLUMN_TICK || (column->kind == PAGE_COLUMN_BLANK && row->kind != PAGE_ROW_BETWEEN);
    const struct page_cell *cell = page_cell_at(row, column->index);
    return box && row->kind != PAGE_ROW_TOTAL && !cell->nothing && cell->text.length == 0;
}
