/* Filling a page. */
#include "page/page.h"

#include "page/kept_text.h"

#include <math.h>

#include <stdarg.h>
#include <stdio.h>

/* Puts `item` behind the last of a chain. */
#define APPEND(first, last, next, item)                                                                                \
    do {                                                                                                               \
        if ((last) == NULL) {                                                                                          \
            (first) = (item);                                                                                          \
        } else {                                                                                                       \
            (last)->next = (item);                                                                                     \
        }                                                                                                              \
        (last) = (item);                                                                                               \
    } while (0)

/* A text in which no figure stands. */
static struct text clean(struct arena *arena, struct text text)
{
    return page_words(arena, page_plain(text)).text;
}

static void put_words(struct arena *arena, struct page_words words, struct text *text, const struct page_figure **figures)
{
    struct page_words clean = page_words(arena, words);
    *text = clean.text;
    *figures = clean.figures;
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
    page->batch.scale = 1;
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

/* ---- the batch ---- */

void page_set_batch(struct page *page, const struct page_batch *batch)
{
    struct text unit = clean(page->arena, batch->unit);
    struct text of = clean(page->arena, batch->of);
    page->batch = *batch;
    page->batch.unit = unit;
    page->batch.of = of;
}

void page_batch_unit(struct page *page, struct text name, double factor)
{
    struct page_batch_unit *unit = ARENA_NEW(page->arena, struct page_batch_unit);
    unit->name = clean(page->arena, name);
    unit->factor = factor;
    APPEND(page->batch.first_unit, page->batch.last_unit, next, unit);
}

void page_set_anchor(struct page *page, struct text anchor)
{
    page->anchor = clean(page->arena, anchor);
}

/* ---- facts ---- */

static bool holds(const struct page *page, struct page_when when)
{
    return page->batch.scale >= when.from && page->batch.scale < when.below;
}

static struct page_fact *add_fact(struct page_facts *facts, struct text label, struct page_words words, bool here)
{
    struct page_fact *fact = ARENA_NEW(facts->arena, struct page_fact);
    fact->arena = facts->arena;
    fact->label = clean(facts->arena, label);
    put_words(facts->arena, words, &fact->text, &fact->figures);
    APPEND(facts->first_of_all, facts->last_of_all, next_of_all, fact);
    if (here) {
        APPEND(facts->first, facts->last, next, fact);
    }
    return fact;
}

struct page_fact *page_facts_add_words(struct page_facts *facts, struct text label, struct page_words words)
{
    return add_fact(facts, label, words, true);
}

struct page_fact *page_add_fact(struct page *page, struct text label, struct text text)
{
    return page_facts_add(&page->facts, label, text);
}

struct page_fact *page_add_fact_words_when(struct page *page, double from, double below, struct text label, struct page_words words)
{
    struct page_when when = {true, from, below};
    struct page_fact *fact = add_fact(&page->facts, label, words, holds(page, when));
    fact->when = when;
    return fact;
}

void page_fact_strong(struct page_fact *fact)
{
    fact->value.given = true;
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
    APPEND(page->first, page->last, next, block);
    return block;
}

void page_add_heading_words(struct page *page, unsigned level, struct page_words words)
{
    struct page_heading *heading = ARENA_NEW(page->arena, struct page_heading);
    heading->level = level < 2 ? 1 : 2;
    put_words(page->arena, words, &heading->text, &heading->figures);
    add_block(page, PAGE_HEADING)->as.heading = heading;
}

void page_add_paragraph_words(struct page *page, struct page_words words)
{
    struct page_block *block = add_block(page, PAGE_PARAGRAPH);
    put_words(page->arena, words, &block->as.paragraph, &block->figures);
}

static struct page_item *make_item(struct arena *arena, struct page_words words)
{
    struct page_item *item = ARENA_NEW(arena, struct page_item);
    put_words(arena, words, &item->text, &item->figures);
    return item;
}

struct page_list *page_add_list(struct page *page, enum page_marks marks)
{
    struct page_list *list = ARENA_NEW(page->arena, struct page_list);
    list->arena = page->arena;
    list->marks = marks;
    add_block(page, PAGE_LIST)->as.list = list;
    return list;
}

void page_list_item_words(struct page_list *list, struct page_words words)
{
    struct page_item *item = make_item(list->arena, words);
    APPEND(list->first, list->last, next, item);
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
    APPEND(blanks->first, blanks->last, next, blank);
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
    APPEND(pictograms->first, pictograms->last, next, pictogram);
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
    APPEND(timeline->first, timeline->last, next, stage);
}

struct text page_clock(struct arena *arena, double seconds)
{
    long whole = isfinite(seconds) ? lround(seconds) : 0;
    long hours = whole / 3600;
    long minutes = whole / 60 % 60;
    return text_from(hours > 0 ? arena_format(arena, "%ld:%02ld:%02ld", hours, minutes, whole % 60)
                               : arena_format(arena, "%ld:%02ld", minutes, whole % 60));
}

struct page_contents *page_add_contents(struct page *page)
{
    struct page_contents *contents = ARENA_NEW(page->arena, struct page_contents);
    contents->arena = page->arena;
    add_block(page, PAGE_CONTENTS)->as.contents = contents;
    return contents;
}

struct page_entry *page_contents_entry(struct page_contents *contents, unsigned level, struct text text, struct text detail)
{
    struct page_entry *entry = ARENA_NEW(contents->arena, struct page_entry);
    entry->contents = contents;
    entry->level = level < 1 ? 1 : level;
    entry->text = clean(contents->arena, text);
    entry->detail = clean(contents->arena, detail);
    if (contents->last == NULL) {
        contents->first = entry;
    } else {
        contents->last->next = entry;
    }
    contents->last = entry;
    return entry;
}

void page_entry_target(struct page_entry *entry, struct text anchor)
{
    struct page_target *target = ARENA_NEW(entry->contents->arena, struct page_target);
    target->anchor = clean(entry->contents->arena, anchor);
    if (entry->last_target == NULL) {
        entry->first_target = target;
    } else {
        entry->last_target->next = target;
    }
    entry->last_target = target;
}

void page_add_rule(struct page *page)
{
    add_block(page, PAGE_RULE);
}

void page_add_break(struct page *page)
{
    add_block(page, PAGE_BREAK);
}

void page_gives_way(struct page *page, unsigned order, struct text name)
{
    if (page->last != NULL) {
        page->last->gives_way = order;
        page->last->gives_way_as = clean(page->arena, name);
    }
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

void page_table_at_bench(struct page_table *table)
{
    table->bench = true;
}

void page_column_for_record(struct page_column *column, struct text before, struct text behind)
{
    column->record = true;
    column->before = before;
    column->behind = behind;
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
    APPEND(table->first_column, table->last_column, next, column);
    return column;
}

static struct page_row *add_row(struct page_table *table, enum page_row_kind kind)
{
    struct page_row *row = ARENA_NEW(table->arena, struct page_row);
    row->table = table;
    row->kind = kind;
    APPEND(table->first_row, table->last_row, next, row);
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

struct page_cell *page_row_cell_words(struct page_row *row, const struct page_column *column, struct page_words words)
{
    struct page_cell *cell = cell_for(row, column);
    put_words(row->table->arena, words, &cell->text, &cell->figures);
    cell->value = (struct page_value){0};
    return cell;
}

struct page_cell *page_row_amount_words(struct page_row *row, const struct page_column *column, struct page_words words, double number,
                                        struct text unit)
{
    struct page_cell *cell = page_row_cell_words(row, column, words);
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

static struct page_item *add_note(struct page_row *row, struct page_words words, bool here)
{
    struct page_item *note = make_item(row->table->arena, words);
    APPEND(row->first_note_of_all, row->last_note_of_all, next_of_all, note);
    if (here) {
        APPEND(row->first_note, row->last_note, next, note);
    }
    return note;
}

void page_row_note_words(struct page_row *row, struct page_words words)
{
    add_note(row, words, true);
}

void page_row_note_words_when(const struct page *page, struct page_row *row, double from, double below, struct page_words words)
{
    struct page_when when = {true, from, below};
    add_note(row, words, holds(page, when))->when = when;
}

void page_row_remark_words(struct page_row *row, struct page_words words)
{
    add_note(row, words, true)->aside = true;
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
