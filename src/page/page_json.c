/* The page as data: the shape is described in page.h. */
#include "page/page.h"

#include <math.h>

/* Builds a value; memory that runs out is remembered and everything built is dropped at the end. */
struct build {
    bool failed;
};

static json_t *checked(struct build *build, json_t *value)
{
    build->failed = build->failed || value == NULL;
    return value;
}

static void set(struct build *build, json_t *object, const char *key, json_t *value)
{
    if (json_object_set_new(object, key, value) != 0) {
        build->failed = true;
    }
}

static void append(struct build *build, json_t *array, json_t *value)
{
    if (json_array_append_new(array, value) != 0) {
        build->failed = true;
    }
}

static json_t *string(struct build *build, struct text text)
{
    return checked(build, json_stringn(text.length == 0 ? "" : text.at, text.length));
}

static json_t *word(struct build *build, const char *text)
{
    return checked(build, json_string(text));
}

static json_t *object(struct build *build)
{
    return checked(build, json_object());
}

static json_t *array(struct build *build)
{
    return checked(build, json_array());
}

static void set_value(struct build *build, json_t *to, const struct page_value *value)
{
    if (!value->given) {
        return;
    }
    if (isfinite(value->number)) {
        set(build, to, "value", json_real(value->number));
    }
    set(build, to, "unit", string(build, value->unit));
}

/* The text in pieces: those that stay for every batch, and the figures that change. */
static json_t *pieces_json(struct build *build, struct text text, const struct page_figure *figures)
{
    json_t *list = array(build);
    size_t done = 0;
    for (const struct page_figure *figure = figures; figure != NULL; figure = figure->next) {
        if (figure->at > done) {
            append(build, list, string(build, (struct text){text.at + done, figure->at - done}));
        }
        json_t *item = object(build);
        set(build, item, "as", word(build, page_figure_ways[figure->way]));
        set(build, item, "number", json_real(figure->number));
        if (figure->high > 0) {
            set(build, item, "high", json_real(figure->high));
        }
        set(build, item, "text", string(build, (struct text){text.at + figure->at, figure->length}));
        append(build, list, item);
        done = figure->at + figure->length;
    }
    if (text.length > done) {
        append(build, list, string(build, (struct text){text.at + done, text.length - done}));
    }
    return list;
}

static void set_pieces(struct build *build, json_t *to, struct text text, const struct page_figure *figures)
{
    if (figures != NULL) {
        set(build, to, "pieces", pieces_json(build, text, figures));
    }
}

static void set_when(struct build *build, json_t *to, struct page_when when)
{
    if (when.bounded) {
        set(build, to, "from_scale", json_real(when.from));
        if (isfinite(when.below)) {
            set(build, to, "below_scale", json_real(when.below));
        }
    }
}

static json_t *fact_json(struct build *build, const struct page_fact *fact)
{
    json_t *item = object(build);
    set(build, item, "label", string(build, fact->label));
    set(build, item, "text", string(build, fact->text));
    set_pieces(build, item, fact->text, fact->figures);
    set_value(build, item, &fact->value);
    return item;
}

static json_t *facts_json(struct build *build, const struct page_facts *facts)
{
    json_t *list = array(build);
    for (const struct page_fact *fact = facts->first; fact != NULL; fact = fact->next) {
        append(build, list, fact_json(build, fact));
    }
    return list;
}

static json_t *batch_json(struct build *build, const struct page *page)
{
    const struct page_batch *batch = &page->batch;
    json_t *steps = array(build);
    for (size_t i = 0; i < batch->volume_step_count; i++) {
        json_t *step = object(build);
        if (isfinite(batch->volume_steps[i].up_to)) {
            set(build, step, "up_to", json_real(batch->volume_steps[i].up_to));
        }
        set(build, step, "step", json_real(batch->volume_steps[i].step));
        append(build, steps, step);
    }
    json_t *units = array(build);
    for (const struct page_batch_unit *unit = batch->first_unit; unit != NULL; unit = unit->next) {
        json_t *item = object(build);
        set(build, item, "name", string(build, unit->name));
        set(build, item, "factor", json_real(unit->factor));
        append(build, units, item);
    }
    json_t *facts = array(build);
    for (const struct page_fact *fact = page->facts.first_of_all; fact != NULL; fact = fact->next_of_all) {
        if (fact->when.bounded) {
            json_t *item = fact_json(build, fact);
            set_when(build, item, fact->when);
            append(build, facts, item);
        }
    }
    json_t *item = object(build);
    set(build, item, "makes", json_real(batch->makes));
    set(build, item, "unit", word(build, batch->by_mass ? "g" : "mL"));
    set(build, item, "of", string(build, batch->of));
    set(build, item, "scale", json_real(batch->scale));
    set(build, item, "balance_g", json_real(batch->balance));
    set(build, item, "graduate_mL", json_real(batch->graduate));
    set(build, item, "rough_share", json_real(batch->rough));
    set(build, item, "kg_from_g", json_real(batch->heavy));
    set(build, item, "volume_steps_mL", steps);
    set(build, item, "units", units);
    set(build, item, "facts", facts);
    return item;
}

static json_t *items_json(struct build *build, const struct page_item *first)
{
    json_t *list = array(build);
    for (const struct page_item *item = first; item != NULL; item = item->next) {
        append(build, list, string(build, item->text));
    }
    return list;
}

/* The pieces of a list's items, one list for each, where a figure stands in any. */
static void set_item_pieces(struct build *build, json_t *to, const struct page_item *first)
{
    bool any = false;
    json_t *list = array(build);
    for (const struct page_item *item = first; item != NULL; item = item->next) {
        any = any || item->figures != NULL;
        append(build, list, pieces_json(build, item->text, item->figures));
    }
    if (any) {
        set(build, to, "item_pieces", list);
    } else {
        json_decref(list);
    }
}

/* The warnings that depend on the batch, whether or not they hold for this one. */
static void set_notes_when(struct build *build, json_t *to, const struct page_row *row)
{
    json_t *list = NULL;
    for (const struct page_item *note = row->first_note_of_all; note != NULL; note = note->next_of_all) {
        if (note->when.bounded) {
            list = list == NULL ? array(build) : list;
            json_t *item = object(build);
            set(build, item, "text", string(build, note->text));
            set_pieces(build, item, note->text, note->figures);
            set_when(build, item, note->when);
            append(build, list, item);
        }
    }
    if (list != NULL) {
        set(build, to, "notes_when", list);
    }
}

/* The warnings of a row, or what is only remarked. */
static json_t *notes_json(struct build *build, const struct page_row *row, bool aside)
{
    json_t *list = array(build);
    for (const struct page_item *item = row->first_note; item != NULL; item = item->next) {
        if (item->aside == aside) {
            append(build, list, string(build, item->text));
        }
    }
    return list;
}

static json_t *column_json(struct build *build, const struct page_column *column)
{
    static const char *const kinds[] = {"text", "amount", "tick", "blank"};
    static const char *const alignments[] = {"left", "right", "decimal", "centre"};
    json_t *item = object(build);
    set(build, item, "title", string(build, column->title));
    set(build, item, "kind", word(build, kinds[column->kind]));
    set(build, item, "alignment", word(build, alignments[column->alignment]));
    set(build, item, "priority", json_integer((json_int_t)column->priority));
    return item;
}

static json_t *cell_json(struct build *build, const struct page_row *row, const struct page_column *column)
{
    const struct page_cell *cell = page_cell_at(row, column->index);
    bool boxes = column->kind == PAGE_COLUMN_TICK || column->kind == PAGE_COLUMN_BLANK;
    if (boxes && cell->text.length == 0 && !page_row_has_box(row, column)) {
        return json_null();
    }
    json_t *item = object(build);
    set(build, item, "text", string(build, cell->text));
    set_pieces(build, item, cell->text, cell->figures);
    set_value(build, item, &cell->value);
    if (cell->emphasis) {
        set(build, item, "emphasis", json_true());
    }
    return item;
}

static json_t *row_json(struct build *build, const struct page_table *table, const struct page_row *row)
{
    static const char *const kinds[] = {"ordinary", "between", "total"};
    json_t *item = object(build);
    set(build, item, "row", word(build, kinds[row->kind]));
    if (row->kind == PAGE_ROW_BETWEEN) {
        bool tick = false;
        for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
            tick = tick || page_row_has_box(row, column);
        }
        set(build, item, "text", string(build, row->text));
        set(build, item, "tick", json_boolean(tick));
    } else {
        json_t *cells = array(build);
        for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
            append(build, cells, cell_json(build, row, column));
        }
        set(build, item, "cells", cells);
    }
    set(build, item, "notes", notes_json(build, row, false));
    set(build, item, "remarks", notes_json(build, row, true));
    set_notes_when(build, item, row);
    return item;
}

static void set_table(struct build *build, json_t *item, const struct page_table *table)
{
    json_t *columns = array(build);
    for (const struct page_column *column = table->first_column; column != NULL; column = column->next) {
        append(build, columns, column_json(build, column));
    }
    set(build, item, "columns", columns);
    json_t *rows = array(build);
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        append(build, rows, row_json(build, table, row));
    }
    set(build, item, "rows", rows);
}

static void set_blanks(struct build *build, json_t *item, const struct page_blanks *blanks)
{
    static const char *const rooms[] = {"figure", "name", "line"};
    json_t *list = array(build);
    for (const struct page_blank *blank = blanks->first; blank != NULL; blank = blank->next) {
        json_t *one = object(build);
        set(build, one, "label", string(build, blank->label));
        set(build, one, "room", word(build, rooms[blank->room]));
        set(build, one, "unit", string(build, blank->unit));
        append(build, list, one);
    }
    set(build, item, "blanks", list);
}

static void set_pictograms(struct build *build, json_t *item, const struct page_pictograms *pictograms)
{
    json_t *list = array(build);
    for (const struct page_pictogram *pictogram = pictograms->first; pictogram != NULL; pictogram = pictogram->next) {
        json_t *one = object(build);
        set(build, one, "code", string(build, pictogram->code));
        set(build, one, "name", string(build, pictogram->name));
        append(build, list, one);
    }
    set(build, item, "pictograms", list);
}

static void set_timeline(struct build *build, json_t *item, const struct page_timeline *timeline)
{
    json_t *list = array(build);
    for (const struct page_stage *stage = timeline->first; stage != NULL; stage = stage->next) {
        json_t *one = object(build);
        set(build, one, "name", string(build, stage->name));
        set(build, one, "detail", string(build, stage->detail));
        set(build, one, "start_s", json_real(stage->start));
        if (isfinite(stage->duration)) {
            set(build, one, "duration_s", json_real(stage->duration));
        }
        append(build, list, one);
    }
    set(build, item, "label", string(build, timeline->label));
    set(build, item, "stages", list);
}

static void set_contents(struct build *build, json_t *item, const struct page_contents *contents)
{
    json_t *list = array(build);
    for (const struct page_entry *entry = contents->first; entry != NULL; entry = entry->next) {
        json_t *targets = array(build);
        for (const struct page_target *target = entry->first_target; target != NULL; target = target->next) {
            append(build, targets, string(build, target->anchor));
        }
        json_t *one = object(build);
        set(build, one, "level", json_integer((json_int_t)entry->level));
        set(build, one, "text", string(build, entry->text));
        set(build, one, "detail", string(build, entry->detail));
        set(build, one, "targets", targets);
        append(build, list, one);
    }
    set(build, item, "entries", list);
}

static json_t *block_json(struct build *build, const struct page_block *block)
{
    static const char *const kinds[] = {"heading", "paragraph", "list",       "facts", "table",
                                        "warning", "blanks",    "pictograms", "code",  "timeline",
                                        "contents", "rule",   "break"};
    static const char *const marks[] = {"points", "numbers", "ticks"};
    json_t *item = object(build);
    set(build, item, "block", word(build, kinds[block->kind]));
    switch (block->kind) {
    case PAGE_HEADING:
        set(build, item, "level", json_integer((json_int_t)block->as.heading->level));
        set(build, item, "text", string(build, block->as.heading->text));
        set_pieces(build, item, block->as.heading->text, block->as.heading->figures);
        break;
    case PAGE_PARAGRAPH:
        set(build, item, "text", string(build, block->as.paragraph));
        set_pieces(build, item, block->as.paragraph, block->figures);
        break;
    case PAGE_LIST:
        set(build, item, "marks", word(build, marks[block->as.list->marks]));
        set(build, item, "items", items_json(build, block->as.list->first));
        set_item_pieces(build, item, block->as.list->first);
        break;
    case PAGE_FACTS:
        set(build, item, "facts", facts_json(build, block->as.facts));
        break;
    case PAGE_TABLE:
        set_table(build, item, block->as.table);
        break;
    case PAGE_WARNING:
        set(build, item, "severity", word(build, block->as.warning->severity == PAGE_CAUTION ? "caution" : "note"));
        set(build, item, "title", string(build, block->as.warning->title));
        set(build, item, "text", string(build, block->as.warning->text));
        break;
    case PAGE_BLANKS:
        set_blanks(build, item, block->as.blanks);
        break;
    case PAGE_PICTOGRAMS:
        set_pictograms(build, item, block->as.pictograms);
        break;
    case PAGE_CODE:
        set(build, item, "content", string(build, block->as.code->content));
        set(build, item, "label", string(build, block->as.code->label));
        break;
    case PAGE_TIMELINE:
        set_timeline(build, item, block->as.timeline);
        break;
    case PAGE_CONTENTS:
        set_contents(build, item, block->as.contents);
        break;
    case PAGE_RULE:
    case PAGE_BREAK:
        break;
    }
    if (block->keep_with_next && block->kind != PAGE_HEADING) {
        set(build, item, "keep_with_next", json_true());
    }
    return item;
}

json_t *page_render_json(const struct page *page)
{
    struct build build = {false};
    json_t *blocks = array(&build);
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        append(&build, blocks, block_json(&build, block));
    }
    json_t *whole = object(&build);
    set(&build, whole, "title", string(&build, page->title));
    set(&build, whole, "subtitle", string(&build, page->subtitle));
    set(&build, whole, "facts", facts_json(&build, &page->facts));
    set(&build, whole, "source", string(&build, page->source));
    set(&build, whole, "date", string(&build, page->date));
    set(&build, whole, "caution", string(&build, page->caution));
    if (page->batch.makes > 0) {
        set(&build, whole, "batch", batch_json(&build, page));
    }
    if (page->anchor.length > 0) {
        set(&build, whole, "anchor", string(&build, page->anchor));
    }
    set(&build, whole, "blocks", blocks);
    if (build.failed) {
        json_decref(whole);
        return NULL;
    }
    return whole;
}
