/* Courses of work by the clock, and tables of contents, as pieces. */
#include "page/page_pdf_layout.h"

#include <math.h>
#include <stdlib.h>

/* ---- courses ---- */

#define BAR 11 /* height of the bar that shows the course, pt */

static double end_of(const struct page_timeline *timeline)
{
    double end = 0;
    for (const struct page_stage *stage = timeline->first; stage != NULL; stage = stage->next) {
        end = fmax(end, stage->start + (isfinite(stage->duration) ? stage->duration : 0));
    }
    return end;
}

/* The course as a bar in proportion, stage by stage black and white; a stage without an end gets a tenth. */
static void set_bar(struct pdf_setter *setter, const struct page_timeline *timeline, double before)
{
    double end = end_of(timeline);
    if (!(end > 0)) {
        return;
    }
    bool open = timeline->last != NULL && !isfinite(timeline->last->duration);
    double scale = setter->width * (open ? 0.9 : 1) / end;
    double high = pdf_scaled(setter, BAR);
    struct pdf_font font = pdf_font(setter, PDF_REGULAR, 7.5);
    struct pdf_piece *piece = pdf_add_piece(setter, before, high);
    piece->keep_with_next = true;
    double free_from = 0;
    bool black = true;
    for (const struct page_stage *stage = timeline->first; stage != NULL; stage = stage->next, black = !black) {
        double x = stage->start * scale;
        double width = isfinite(stage->duration) ? stage->duration * scale : setter->width - x;
        if (black) {
            pdf_add_mark(setter, piece, PDF_FILL, x, 0, fmax(width, 0.6), high);
        } else {
            pdf_add_mark(setter, piece, PDF_BOX, x, 0.3, fmax(width, 0.6), high - 0.6)->weight = 0.6;
        }
        const struct pdf_text *clock = pdf_set(setter->type, font, 0, page_clock(setter->arena, stage->start));
        if (x >= free_from && x + clock->width <= setter->width) {
            double low = high + pdf_put_text(setter, piece, clock, x, high + 1) + 1;
            piece->height = fmax(piece->height, low);
            free_from = x + clock->width + 4;
        }
    }
}

static void set_stage(struct pdf_setter *setter, const struct page_stage *stage, double clock_width)
{
    struct pdf_font large = pdf_font(setter, PDF_BOLD, 12.5);
    struct pdf_font name_font = pdf_font(setter, PDF_BOLD, 11.5);
    double padding = pdf_scaled(setter, 3.2);
    double box = pdf_scaled(setter, 10);
    double gap = pdf_scaled(setter, 9);
    struct pdf_piece *piece = pdf_add_piece(setter, 0, 0);
    pdf_add_mark(setter, piece, PDF_RULE, 0, 0, setter->width, 0)->weight = 0.35;
    const struct pdf_text *clock = pdf_set(setter->type, large, 0, page_clock(setter->arena, stage->start));
    double base = padding + clock->first->ascent;
    pdf_add_mark(setter, piece, PDF_BOX, 0.5, base - box + pdf_scaled(setter, 1), box, box)->weight = 0.9;
    double x = box + gap;
    pdf_put_text(setter, piece, clock, x + clock_width - clock->width, padding);
    x += clock_width + gap;
    double lasts_width = pdf_scaled(setter, 62);
    double room = fmax(setter->width - x - lasts_width - gap, setter->width / 4);
    const struct pdf_text *name = pdf_set(setter->type, name_font, room, stage->name);
    double y = base - name->first->ascent;
    y += pdf_put_text(setter, piece, name, x, y);
    if (stage->detail.length > 0) {
        const struct pdf_text *detail = pdf_set(setter->type, pdf_font(setter, PDF_REGULAR, 9.5), room, stage->detail);
        y += pdf_put_text(setter, piece, detail, x, y);
    }
    struct text lasts = isfinite(stage->duration) ? page_clock(setter->arena, stage->duration) : TEXT("until done");
    struct pdf_font lasts_font = pdf_font(setter, PDF_REGULAR, isfinite(stage->duration) ? 11.5 : 9.5);
    const struct pdf_text *lasting = pdf_set(setter->type, lasts_font, 0, lasts);
    pdf_put_text(setter, piece, lasting, setter->width - lasting->width, base - lasting->first->ascent);
    piece->height = fmax(y + padding, pdf_scaled(setter, 22));
}

void pdf_set_timeline(struct pdf_setter *setter, const struct page_timeline *timeline)
{
    if (timeline->label.length > 0) {
        pdf_add_text(setter, pdf_font(setter, PDF_BOLD, 11), 0, 0, timeline->label)->keep_with_next = true;
        setter->out->last->keep_with_next = true;
    }
    set_bar(setter, timeline, pdf_scaled(setter, 3));
    struct pdf_piece *head = pdf_add_piece(setter, pdf_scaled(setter, 3), 0);
    struct pdf_font small = pdf_font(setter, PDF_REGULAR, 8);
    double clock_width = pdf_set(setter->type, pdf_font(setter, PDF_BOLD, 12.5), 0, TEXT("0:00"))->width;
    for (const struct page_stage *stage = timeline->first; stage != NULL; stage = stage->next) {
        struct text clock = page_clock(setter->arena, stage->start);
        clock_width = fmax(clock_width, pdf_set(setter->type, pdf_font(setter, PDF_BOLD, 12.5), 0, clock)->width);
    }
    const struct pdf_text *at = pdf_set(setter->type, small, 0, TEXT("at"));
    const struct pdf_text *lasts = pdf_set(setter->type, small, 0, TEXT("lasts"));
    pdf_put_text(setter, head, at, pdf_scaled(setter, 19) + clock_width - at->width, 0);
    head->height = pdf_put_text(setter, head, lasts, setter->width - lasts->width, 0) + pdf_scaled(setter, 2);
    head->keep_with_next = true;
    for (const struct page_stage *stage = timeline->first; stage != NULL; stage = stage->next) {
        set_stage(setter, stage, clock_width);
        setter->out->last->repeat = head;
    }
    struct pdf_piece *last = setter->out->last;
    pdf_add_mark(setter, last, PDF_RULE, 0, last->height, setter->width, 0)->weight = 0.9;
    last->height += 1;
}

/* ---- contents and indexes ---- */

static struct pdf_font entry_font(const struct pdf_setter *setter, unsigned level)
{
    return level == 1 ? pdf_font(setter, PDF_BOLD, 11) : pdf_font(setter, PDF_REGULAR, level == 2 ? 10 : 9.5);
}

static int by_number(const void *first, const void *second)
{
    size_t a = *(const size_t *)first;
    size_t b = *(const size_t *)second;
    return (a > b) - (a < b);
}

/* Page numbers that are known, in order, those that follow one another as a range: "12, 15–17". */
static struct text numbers_of(struct pdf_setter *setter, const struct page_entry *entry)
{
    size_t count = 0;
    for (const struct page_target *target = entry->first_target; target != NULL; target = target->next) {
        count++;
    }
    size_t *sorted = ARENA_ARRAY(setter->arena, size_t, count + 1);
    count = 0;
    for (const struct page_target *target = entry->first_target; target != NULL; target = target->next) {
        size_t number = pdf_page_number(setter->places, target->anchor);
        sorted[count] = number;
        count += number > 0;
    }
    qsort(sorted, count, sizeof *sorted, by_number);
    struct buffer numbers;
    buffer_start(&numbers, setter->arena);
    for (size_t i = 0; i < count; i++) {
        size_t from = sorted[i];
        while (i + 1 < count && sorted[i + 1] <= sorted[i] + 1) {
            i++;
        }
        buffer_string(&numbers, numbers.length > 0 ? ", " : "");
        buffer_format(&numbers, sorted[i] > from + 1 ? "%zu\u2013%zu" : sorted[i] > from ? "%zu, %zu" : "%zu", from, sorted[i]);
    }
    return (struct text){numbers.bytes, numbers.length};
}

static void put_dots(struct pdf_setter *setter, struct pdf_piece *piece, double left, double right, double base)
{
    if (left < right) {
        struct pdf_mark *dots = pdf_add_mark(setter, piece, PDF_RULE, left, base - 0.5, right - left, 0);
        dots->dotted = true;
        dots->weight = 0.6;
    }
}

/* An entry that leads to one page: the number at the end of a dotted line, the whole line a link. */
static void set_entry_line(struct pdf_setter *setter, struct pdf_piece *piece, const struct page_entry *entry, double words,
                           double base)
{
    struct pdf_mark *number = pdf_add_mark(setter, piece, PDF_NUMBER, setter->width, base, 0, 0);
    number->as.anchor = entry->first_target->anchor;
    number->font = pdf_font(setter, PDF_REGULAR, 10);
    put_dots(setter, piece, words + 5, setter->width - pdf_scaled(setter, 24), base);
    pdf_add_mark(setter, piece, PDF_LINK, 0, 0, setter->width, piece->height)->as.anchor = entry->first_target->anchor;
}

static void set_entry(struct pdf_setter *setter, const struct page_entry *entry, bool first)
{
    struct pdf_font font = entry_font(setter, entry->level);
    double indent = pdf_scaled(setter, entry->level < 2 ? 0 : 10.0 * (entry->level - 1));
    bool many = entry->first_target != entry->last_target;
    double room = many ? setter->width * 0.62 : setter->width - pdf_scaled(setter, 30);
    struct pdf_piece *piece = pdf_add_piece(setter, first ? 0 : pdf_scaled(setter, entry->level == 1 ? 9 : 1.5), 0);
    const struct pdf_text *text = pdf_set(setter->type, font, room - indent, entry->text);
    double y = pdf_put_text(setter, piece, text, indent, 0);
    const struct pdf_line *last = text->first;
    double base = last->ascent;
    for (; last->next != NULL; last = last->next) {
        base += last->descent + last->next->ascent;
    }
    double words = indent + last->left + last->width;
    if (entry->detail.length > 0) {
        struct pdf_font small = pdf_font(setter, PDF_REGULAR, 8.5);
        const struct pdf_text *detail = pdf_set(setter->type, small, 0, entry->detail);
        if (words + 6 + detail->width <= room) { /* behind the words, else below them */
            pdf_put_text(setter, piece, detail, words + 6, base - detail->first->ascent);
            words += 6 + detail->width;
        } else {
            detail = pdf_set(setter->type, small, room - indent, entry->detail);
            y += pdf_put_text(setter, piece, detail, indent, y);
        }
    }
    piece->height = y;
    if (many) {
        const struct pdf_text *numbers = pdf_set(setter->type, pdf_font(setter, PDF_REGULAR, 9.5), setter->width * 0.36,
                                                 numbers_of(setter, entry));
        double top = 0;
        put_dots(setter, piece, words + 5, setter->width - numbers->first->width - 5, base);
        for (const struct pdf_line *line = numbers->first; line != NULL; line = line->next) {
            if (line->runs != NULL) {
                pdf_add_mark(setter, piece, PDF_LINE, setter->width - line->width, top + line->ascent, line->width, 0)->as.line = line;
            }
            top += line->ascent + line->descent;
        }
        piece->height = fmax(y, top);
    } else if (entry->first_target != NULL) {
        set_entry_line(setter, piece, entry, words, base);
    }
    piece->keep_with_next = entry->next != NULL && entry->next->level > entry->level;
}

void pdf_set_contents(struct pdf_setter *setter, const struct page_contents *contents)
{
    for (const struct page_entry *entry = contents->first; entry != NULL; entry = entry->next) {
        set_entry(setter, entry, entry == contents->first);
    }
}
