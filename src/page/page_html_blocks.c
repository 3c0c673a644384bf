/* The blocks of a page in HTML. */
#include "page/page_html.h"

#include "page/pictograms.h"
#include "page/square_code.h"

#include <math.h>

void html_heading(struct html *html, unsigned level, struct text text, const struct page_figure *figures)
{
    /* No level is left out between the page's title and what stands below it. */
    unsigned below = level == 1 || !html->deep ? 1 : 2;
    char tag[] = {'h', (char)('0' + html->level + below), '\0'};
    html_words(html->out, tag, NULL, text, figures);
    buffer_character(html->out, '\n');
}

size_t html_tick(struct html *html)
{
    return ++html->boxes;
}

static void put_list(struct html *html, const struct page_list *list)
{
    struct buffer *out = html->out;
    if (list->first == NULL) {
        return;
    }
    const char *tag = list->marks == PAGE_NUMBERS ? "ol" : "ul";
    buffer_format(out, list->marks == PAGE_TICKS ? "<%s class=\"ticks\">\n" : "<%s>\n", tag);
    for (const struct page_item *item = list->first; item != NULL; item = item->next) {
        if (list->marks == PAGE_TICKS) {
            size_t box = html_tick(html);
            buffer_format(out, "<li><input type=\"checkbox\" id=\"p%zu-t%zu\"><label for=\"p%zu-t%zu\" dir=\"auto\"", html->number, box,
                          html->number, box);
            html_pieces(out, item->text, item->figures);
            buffer_character(out, '>');
            html_text(out, item->text);
            buffer_string(out, "</label></li>\n");
        } else {
            html_words(out, "li", NULL, item->text, item->figures);
            buffer_character(out, '\n');
        }
    }
    buffer_format(out, "</%s>\n", tag);
}

void html_facts(struct html *html, const struct page_facts *facts, const char *class_name)
{
    struct buffer *out = html->out;
    if (facts->first_of_all == NULL) {
        return;
    }
    buffer_format(out, "<dl class=\"%s\">\n", class_name);
    for (const struct page_fact *fact = facts->first_of_all; fact != NULL; fact = fact->next_of_all) {
        buffer_string(out, "<div");
        html_when(html->page, out, fact->when);
        buffer_string(out, "><dt>");
        html_text(out, fact->label);
        buffer_string(out, "</dt>");
        html_words(out, "dd", NULL, fact->text, fact->figures);
        buffer_string(out, "</div>\n");
    }
    buffer_string(out, "</dl>\n");
}

static void put_warning(struct html *html, const struct page_warning *warning)
{
    struct buffer *out = html->out;
    bool caution = warning->severity == PAGE_CAUTION;
    buffer_format(out, "<div class=\"box %s\" role=\"note\"><p>", caution ? "caution" : "aside");
    if (caution) {
        buffer_string(out, "<span class=\"unseen\">Caution: </span>");
    }
    if (warning->title.length > 0) {
        html_words(out, "strong", NULL, warning->title, NULL);
        buffer_character(out, ' ');
    }
    html_words(out, "span", NULL, warning->text, NULL);
    buffer_string(out, "</p></div>\n");
}

static void put_blanks(struct html *html, const struct page_blanks *blanks)
{
    static const char *const rooms[] = {"figure", "name", "line"};
    struct buffer *out = html->out;
    buffer_string(out, "<div class=\"blanks\">\n");
    for (const struct page_blank *blank = blanks->first; blank != NULL; blank = blank->next) {
        size_t id = ++html->blanks;
        buffer_format(out, "<p class=\"%s\"><label for=\"p%zu-w%zu\">", rooms[blank->room], html->number, id);
        html_text(out, blank->label);
        if (blank->unit.length > 0) {
            buffer_string(out, "<span class=\"unseen\">, ");
            html_text(out, blank->unit);
            buffer_string(out, "</span>");
        }
        buffer_format(out, "</label> <input class=\"write\" id=\"p%zu-w%zu\" type=\"text\" maxlength=\"200\" autocomplete=\"off\">",
                      html->number, id);
        if (blank->unit.length > 0) {
            buffer_string(out, "<span aria-hidden=\"true\">");
            html_text(out, blank->unit);
            buffer_string(out, "</span>");
        }
        buffer_string(out, "</p>\n");
    }
    buffer_string(out, "</div>\n");
}

static void put_pictogram(struct buffer *out, const struct pictogram *drawing)
{
    /* The colours stand in the styles, since another view has others. */
    buffer_format(out, "<svg viewBox=\"0 0 100 100\" aria-hidden=\"true\"><path class=\"frame\" d=\"%s\"/><path class=\"field\" d=\"%s\"/>",
                  pictogram_frame_outside, pictogram_frame_inside);
    for (const struct pictogram_layer *layer = drawing->layers; layer->path != NULL; layer++) {
        buffer_format(out, "<path class=\"%s\" d=\"%s\"/>", layer->white ? "field" : "symbol", layer->path);
    }
    buffer_string(out, "</svg>");
}

static void put_pictograms(struct html *html, const struct page_pictograms *pictograms)
{
    struct buffer *out = html->out;
    buffer_string(out, "<ul class=\"pictograms\">\n");
    for (const struct page_pictogram *one = pictograms->first; one != NULL; one = one->next) {
        const struct pictogram *drawing = pictogram_find(one->code);
        buffer_string(out, "<li>");
        if (drawing != NULL) {
            put_pictogram(out, drawing);
        }
        html_words(out, "span", NULL, one->code, NULL);
        buffer_character(out, ' ');
        html_words(out, "span", NULL, one->name, NULL);
        buffer_string(out, "</li>\n");
    }
    buffer_string(out, "</ul>\n");
}

/* The dark modules, run by run, as one path (SVG 1.1, 8.3). */
static void put_square(struct buffer *out, const struct square_code *square)
{
    size_t whole = square->width + 2 * SQUARE_CODE_QUIET;
    buffer_format(out, "<svg class=\"square\" viewBox=\"0 0 %zu %zu\" aria-hidden=\"true\" shape-rendering=\"crispEdges\">"
                       "<path class=\"quiet\" d=\"M0 0h%zuv%zuH0z\"/><path class=\"dark\" d=\"",
                  whole, whole, whole, whole);
    for (size_t row = 0; row < square->width; row++) {
        const unsigned char *dark = square->dark + row * square->width;
        for (size_t column = 0; column < square->width;) {
            size_t run = 0;
            while (column + run < square->width && dark[column + run]) {
                run++;
            }
            if (run > 0) {
                buffer_format(out, "M%zu %zuh%zuv1h-%zuz", column + SQUARE_CODE_QUIET, row + SQUARE_CODE_QUIET, run, run);
            }
            column += run + 1;
        }
    }
    buffer_string(out, "\"/></svg>");
}

static void put_code(struct html *html, const struct page_code *code)
{
    struct buffer *out = html->out;
    const struct square_code *square = square_code_make(out->arena, code->content);
    buffer_string(out, "<p class=\"code\">");
    if (square != NULL) {
        put_square(out, square);
    }
    html_words(out, "span", NULL, code->label, NULL);
    buffer_character(out, ' ');
    html_words(out, "code", NULL, code->content, NULL);
    buffer_string(out, "</p>\n");
}

/* The page of the set that an anchor leads to; NULL when there is none. */
static const struct page *find_page(const struct page_set *set, struct text anchor)
{
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        if (text_equal(item->page->anchor, anchor)) {
            return item->page;
        }
    }
    return NULL;
}

static void put_link(struct buffer *out, struct text anchor, struct text text)
{
    buffer_string(out, "<a href=\"#");
    html_text(out, anchor);
    buffer_string(out, "\" dir=\"auto\">");
    html_text(out, text);
    buffer_string(out, "</a>");
}

static void put_entry(struct html *html, const struct page_entry *entry)
{
    struct buffer *out = html->out;
    const struct page_target *target = entry->first_target;
    bool one = target != NULL && target->next == NULL;
    buffer_format(out, "<li class=\"level-%u\">", entry->level < 1 ? 1 : entry->level > 3 ? 3 : entry->level);
    if (one) {
        put_link(out, target->anchor, entry->text);
    } else {
        html_words(out, "span", NULL, entry->text, NULL);
    }
    if (entry->detail.length > 0) {
        buffer_character(out, ' ');
        html_words(out, "span", "detail", entry->detail, NULL);
    }
    for (; target != NULL && !one; target = target->next) {
        const struct page *page = find_page(html->set, target->anchor);
        buffer_string(out, target == entry->first_target ? ": " : ", ");
        put_link(out, target->anchor, page == NULL ? target->anchor : page->title);
    }
    buffer_string(out, "</li>\n");
}

static void put_contents(struct html *html, const struct page_contents *contents)
{
    buffer_string(html->out, "<ul class=\"contents\">\n");
    for (const struct page_entry *entry = contents->first; entry != NULL; entry = entry->next) {
        put_entry(html, entry);
    }
    buffer_string(html->out, "</ul>\n");
}

void html_block(struct html *html, const struct page_block *block)
{
    struct buffer *out = html->out;
    switch (block->kind) {
    case PAGE_HEADING:
        html_heading(html, block->as.heading->level, block->as.heading->text, block->as.heading->figures);
        break;
    case PAGE_PARAGRAPH:
        html_words(out, "p", block->keep_with_next ? "kept" : NULL, block->as.paragraph, block->figures);
        buffer_character(out, '\n');
        break;
    case PAGE_LIST:
        put_list(html, block->as.list);
        break;
    case PAGE_FACTS:
        html_facts(html, block->as.facts, "facts");
        break;
    case PAGE_TABLE:
        html_table(html, block->as.table);
        break;
    case PAGE_WARNING:
        put_warning(html, block->as.warning);
        break;
    case PAGE_BLANKS:
        put_blanks(html, block->as.blanks);
        break;
    case PAGE_PICTOGRAMS:
        put_pictograms(html, block->as.pictograms);
        break;
    case PAGE_CODE:
        put_code(html, block->as.code);
        break;
    case PAGE_TIMELINE:
        html_timeline(html, block->as.timeline);
        break;
    case PAGE_CONTENTS:
        put_contents(html, block->as.contents);
        break;
    case PAGE_RULE:
        buffer_string(out, "<hr>\n");
        break;
    case PAGE_BREAK:
        buffer_string(out, "<div class=\"new-sheet\"></div>\n");
        break;
    }
}
