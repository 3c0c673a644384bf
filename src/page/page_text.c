/* The page as plain text: calm, with air between the parts, to be read by a dim lamp. */
#include "page/page_text.h"

#include "base/utf8.h"

#include <math.h>

enum {
    USUAL_WIDTH = 80,
    LEAST_WIDTH = 20,
    MEASURE = 88,    /* running text is not set wider: the eye loses the line */
    INDENT = 2,      /* of all but the titles */
    FIGURE_ROOM = 8, /* for a hand to write in: a number */
    NAME_ROOM = 14   /* a date, a name */
};

static void print_running(struct setter *setter, struct text text, size_t left)
{
    setter_go(setter, left);
    setter_wrap(setter, text, left, setter->measure);
    setter_end_line(setter);
}

static void print_rule(struct setter *setter)
{
    setter_repeat(setter, TEXT("─"), setter->measure);
    setter_end_line(setter);
}

/* Labels in a column of their own; one that is too long has its text on the next line. */
static void print_facts(struct setter *setter, const struct page_facts *facts, size_t left)
{
    size_t widest = 0;
    size_t limit = (setter->measure - left) * 2 / 5;
    for (const struct page_fact *fact = facts->first; fact != NULL; fact = fact->next) {
        size_t width = utf8_width(fact->label);
        widest = width > widest && width <= limit ? width : widest;
    }
    size_t hang = left + widest + 2;
    for (const struct page_fact *fact = facts->first; fact != NULL; fact = fact->next) {
        setter_go(setter, left);
        setter_wrap(setter, fact->label, left, setter->measure);
        if (setter->column + 2 > hang) {
            setter_end_line(setter);
        }
        setter_go(setter, hang);
        setter_wrap(setter, fact->text, hang, setter->measure);
        setter_end_line(setter);
    }
}

static void print_list(struct setter *setter, const struct page_list *list, size_t left)
{
    struct arena *arena = setter->out->arena;
    size_t number = 0;
    size_t numbers_width = 0;
    for (const struct page_item *item = list->first; item != NULL; item = item->next) {
        number++;
    }
    numbers_width = strlen(arena_format(arena, "%zu.", number));
    number = 0;
    for (const struct page_item *item = list->first; item != NULL; item = item->next) {
        number++;
        const char *mark = list->marks == PAGE_TICKS    ? "[ ]"
                           : list->marks == PAGE_POINTS ? "-"
                                                        : arena_format(arena, "%*zu.", (int)numbers_width - 1, number);
        size_t hang = left + strlen(mark) + (list->marks == PAGE_TICKS ? 2 : 1);
        setter_go(setter, left);
        setter_print(setter, text_from(mark));
        setter_go(setter, hang);
        setter_wrap(setter, item->text, hang, setter->measure);
        setter_end_line(setter);
    }
}

static void print_warning(struct setter *setter, const struct page_warning *warning, size_t left)
{
    struct buffer head;
    buffer_start(&head, setter->out->arena);
    buffer_string(&head, warning->severity == PAGE_CAUTION ? "CAUTION" : "Note");
    if (warning->title.length > 0) {
        buffer_string(&head, ": ");
        buffer_text(&head, warning->title);
    }
    setter_go(setter, left);
    setter_print(setter, warning->severity == PAGE_CAUTION ? TEXT("! ") : TEXT(""));
    size_t hang = setter->column > left ? setter->column : left;
    setter_wrap(setter, (struct text){head.bytes, head.length}, hang, setter->measure);
    setter_end_line(setter);
    print_running(setter, warning->text, hang);
}

static void print_blanks(struct setter *setter, const struct page_blanks *blanks, size_t left)
{
    struct arena *arena = setter->out->arena;
    size_t line = setter->measure - left;
    for (const struct page_blank *blank = blanks->first; blank != NULL; blank = blank->next) {
        size_t around =
            utf8_width(blank->label) + (blank->label.length > 0) + utf8_width(blank->unit) + (blank->unit.length > 0);
        size_t room = blank->room == PAGE_ROOM_FIGURE ? FIGURE_ROOM : NAME_ROOM;
        if (blank->room == PAGE_ROOM_LINE && line > around + NAME_ROOM) {
            room = line - around;
        }
        struct buffer item;
        buffer_start(&item, arena);
        buffer_text(&item, blank->label);
        buffer_string(&item, blank->label.length > 0 ? " " : "");
        buffer_text(&item, text_blank(arena, room));
        buffer_string(&item, blank->unit.length > 0 ? " " : "");
        buffer_text(&item, blank->unit);
        setter_flow(setter, (struct text){item.bytes, item.length}, left, 1);
    }
    setter_end_line(setter);
}

static void print_pictograms(struct setter *setter, const struct page_pictograms *pictograms, size_t left)
{
    for (const struct page_pictogram *item = pictograms->first; item != NULL; item = item->next) {
        struct buffer shown;
        buffer_start(&shown, setter->out->arena);
        buffer_character(&shown, '[');
        buffer_text(&shown, item->code);
        buffer_character(&shown, ']');
        buffer_string(&shown, item->name.length > 0 ? " " : "");
        buffer_text(&shown, item->name);
        setter_flow(setter, (struct text){shown.bytes, shown.length}, left, 0);
    }
    setter_end_line(setter);
}

static void print_code(struct setter *setter, const struct page_code *code, size_t left)
{
    setter_flow(setter, code->label, left, 0);
    setter_flow(setter, code->content, left, 0);
    setter_end_line(setter);
}

/* When each stage starts, what it is, how long it takes. */
static void print_timeline(struct setter *setter, const struct page_timeline *timeline, size_t left)
{
    enum { CLOCK = 9 };
    print_running(setter, timeline->label, left);
    for (const struct page_stage *stage = timeline->first; stage != NULL; stage = stage->next) {
        setter_go(setter, left);
        setter_print(setter, page_clock(setter->out->arena, stage->start));
        setter_go(setter, left + CLOCK);
        struct buffer line;
        buffer_start(&line, setter->out->arena);
        buffer_text(&line, stage->name);
        if (isfinite(stage->duration)) {
            buffer_string(&line, ", ");
            buffer_text(&line, page_clock(setter->out->arena, stage->duration));
        }
        buffer_string(&line, stage->detail.length > 0 ? "; " : "");
        buffer_text(&line, stage->detail);
        setter_wrap(setter, (struct text){line.bytes, line.length}, left + CLOCK, setter->measure);
        setter_end_line(setter);
    }
}

static void print_contents(struct setter *setter, const struct page_contents *contents, size_t left)
{
    for (const struct page_entry *entry = contents->first; entry != NULL; entry = entry->next) {
        if (entry->level == 1 && entry != contents->first) {
            setter_space(setter, 1);
        }
        struct buffer line;
        buffer_start(&line, setter->out->arena);
        buffer_text(&line, entry->text);
        buffer_string(&line, entry->detail.length > 0 ? ", " : "");
        buffer_text(&line, entry->detail);
        print_running(setter, (struct text){line.bytes, line.length}, left + INDENT * (entry->level - 1));
    }
}

static void print_block(struct setter *setter, const struct page_block *block, size_t left)
{
    switch (block->kind) {
    case PAGE_HEADING:
        print_running(setter, block->as.heading->text, block->as.heading->level == 1 ? 0 : left);
        break;
    case PAGE_PARAGRAPH:
        print_running(setter, block->as.paragraph, left);
        break;
    case PAGE_LIST:
        print_list(setter, block->as.list, left);
        break;
    case PAGE_FACTS:
        print_facts(setter, block->as.facts, left);
        break;
    case PAGE_TABLE:
        setter_table(setter, block->as.table, left);
        break;
    case PAGE_WARNING:
        print_warning(setter, block->as.warning, left);
        break;
    case PAGE_BLANKS:
        print_blanks(setter, block->as.blanks, left);
        break;
    case PAGE_PICTOGRAMS:
        print_pictograms(setter, block->as.pictograms, left);
        break;
    case PAGE_CODE:
        print_code(setter, block->as.code, left);
        break;
    case PAGE_TIMELINE:
        print_timeline(setter, block->as.timeline, left);
        break;
    case PAGE_CONTENTS:
        print_contents(setter, block->as.contents, left);
        break;
    case PAGE_RULE:
        print_rule(setter);
        break;
    case PAGE_BREAK:
        break; /* no sheets here: the space before the next block has to do */
    }
}

/* Empty lines before a block. */
static size_t space_before(const struct page_block *previous, const struct page_block *block)
{
    if (block->kind == PAGE_HEADING && block->as.heading->level == 1) {
        return 2;
    }
    if (previous != NULL && previous->kind == PAGE_BREAK) {
        return 3;
    }
    if (previous != NULL && previous->kind == PAGE_HEADING && previous->as.heading->level == 2) {
        return 0;
    }
    return 1;
}

static void print_foot(struct setter *setter, const struct page *page)
{
    if (page->caution.length + page->source.length + page->date.length == 0) {
        return;
    }
    setter_space(setter, 2);
    print_rule(setter);
    print_running(setter, page->caution, 0);
    struct buffer made;
    buffer_start(&made, setter->out->arena);
    buffer_text(&made, page->source);
    buffer_string(&made, page->source.length > 0 && page->date.length > 0 ? ", " : "");
    buffer_text(&made, page->date);
    if (made.length > 0) {
        print_running(setter, (struct text){made.bytes, made.length}, 0);
    }
}

void page_render_text(const struct page *page, struct buffer *out, size_t width)
{
    struct setter setter = {.out = out, .line_start = out->length};
    setter.width = width == 0 ? USUAL_WIDTH : width < LEAST_WIDTH ? LEAST_WIDTH : width;
    setter.measure = setter.width < MEASURE ? setter.width : MEASURE;
    print_running(&setter, page->title, 0);
    print_running(&setter, page->subtitle, 0);
    if (page->facts.first != NULL) {
        setter_space(&setter, 1);
        print_facts(&setter, &page->facts, INDENT);
    }
    const struct page_block *previous = NULL;
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        setter_space(&setter, space_before(previous, block));
        print_block(&setter, block, INDENT);
        previous = block;
    }
    print_foot(&setter, page);
}
