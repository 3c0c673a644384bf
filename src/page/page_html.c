/* The HTML document around pages. */
#include "page/page_html.h"

#include "base/version.h"
#include "page/kept_text.h"

#include <stdint.h>

/* ---- what a page is known by ---- */

/* FNV-1a of 64 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv). */
static void mix(uint64_t *key, const void *bytes, size_t length)
{
    const unsigned char *at = bytes;
    for (size_t i = 0; i < length; i++) {
        *key = (*key ^ at[i]) * 0x100000001B3u;
    }
}

static void mix_text(uint64_t *key, struct text text, const struct page_figure *figures)
{
    size_t done = 0;
    for (const struct page_figure *figure = figures; figure != NULL; figure = figure->next) {
        mix(key, text.at + done, figure->at - done);
        mix(key, &figure->number, sizeof figure->number);
        done = figure->at + figure->length;
    }
    mix(key, text.length > done ? text.at + done : "", text.length - done);
    mix(key, "\n", 1);
}

static void mix_table(uint64_t *key, const struct page_table *table)
{
    for (const struct page_row *row = table->first_row; row != NULL; row = row->next) {
        mix_text(key, row->text, NULL);
        for (size_t i = 0; i < row->cell_count; i++) {
            mix_text(key, row->cells[i].text, row->cells[i].figures);
        }
    }
}

/* What ticks and notes are kept under: the same for every size of the batch and every day of printing, another as soon as the
 * formula changes. */
static uint64_t page_key(const struct page *page)
{
    uint64_t key = 0xCBF29CE484222325u;
    mix_text(&key, page->title, NULL);
    mix_text(&key, page->subtitle, NULL);
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        if (block->kind == PAGE_TABLE) {
            mix_table(&key, block->as.table);
        } else if (block->kind == PAGE_LIST) {
            for (const struct page_item *item = block->as.list->first; item != NULL; item = item->next) {
                mix_text(&key, item->text, item->figures);
            }
        } else if (block->kind == PAGE_TIMELINE) {
            for (const struct page_stage *stage = block->as.timeline->first; stage != NULL; stage = stage->next) {
                mix_text(&key, stage->name, NULL);
                mix(&key, &stage->duration, sizeof stage->duration);
            }
        }
    }
    return key;
}

/* ---- the document ---- */

static struct text page_name(const struct page *page)
{
    return page->title.length > 0 ? page->title : TEXT("Untitled");
}

static void put_document_head(const struct page_set *set, struct buffer *out)
{
    buffer_string(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    buffer_format(out,
                  "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src '%s'; style-src '%s'; "
                  "img-src data:; base-uri 'none'; form-action 'none'\">\n",
                  page_html_script_digest, page_html_styles_digest);
    buffer_string(out, "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                       "<meta name=\"color-scheme\" content=\"light dark\">\n"
                       "<meta name=\"generator\" content=\"Potash " POTASH_VERSION "\">\n<title>");
    html_text(out, set->title.length > 0 ? page_words(out->arena, page_plain(set->title)).text : set->first == NULL ? TEXT("Nothing") : page_name(set->first->page));
    if (set->count > 1 && set->title.length == 0) {
        buffer_format(out, " and %zu more", set->count - 1);
    }
    /* The script comes first and without a fetch, so that a page for under the safelight is never light, not for a moment. */
    buffer_string(out, "</title>\n<link rel=\"icon\" href=\"data:,\">\n<script>");
    buffer_string(out, page_html_script);
    buffer_string(out, "</script>\n<style>");
    buffer_string(out, page_html_styles);
    buffer_string(out, "</style>\n</head>\n");
}

static void put_controls(struct buffer *out)
{
    buffer_string(out, "<header class=\"live controls\" aria-label=\"For the bench\">\n"
                       "<p><button type=\"button\" id=\"red-view\" aria-pressed=\"false\">Red view</button>\n"
                       "<button type=\"button\" id=\"stay-awake\" aria-pressed=\"false\" hidden>Keep the screen on</button></p>\n"
                       "<p id=\"red-said\" hidden>A red screen is no tested safelight: try it with your paper, keep it dim and far "
                       "away. Panchromatic film needs the dark.</p>\n"
                       "<p id=\"store-said\" hidden>This browser keeps nothing: ticks and notes are lost when the page is loaded "
                       "anew.</p>\n</header>\n");
}

/* What links to the page lead to. */
static void put_anchor(const struct page *page, size_t number, struct buffer *out)
{
    if (page->anchor.length > 0) {
        html_text(out, page->anchor);
    } else {
        buffer_format(out, "p%zu", number);
    }
}

static bool lists_contents(const struct page *page)
{
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        if (block->kind == PAGE_CONTENTS) {
            return true;
        }
    }
    return false;
}

/* A set that brings a list of its own wants no other. */
static bool wants_contents(const struct page_set *set)
{
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        if (lists_contents(item->page)) {
            return false;
        }
    }
    return set->count > 1;
}

static void put_contents(const struct page_set *set, struct buffer *out)
{
    buffer_string(out, "<nav aria-labelledby=\"contents\">\n<h1 id=\"contents\">Contents</h1>\n<ol>\n");
    size_t number = 0;
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        buffer_string(out, "<li><a href=\"#");
        put_anchor(item->page, ++number, out);
        buffer_string(out, "\" dir=\"auto\">");
        html_text(out, page_name(item->page));
        buffer_string(out, "</a></li>\n");
    }
    buffer_string(out, "</ol>\n</nav>\n");
}

static void put_foot(const struct page *page, struct buffer *out)
{
    buffer_string(out, "<footer>\n");
    html_words(out, "p", "caution-line", page->caution, NULL);
    buffer_string(out, "<p class=\"origin\">");
    if (page->source.length > 0) {
        buffer_string(out, "from ");
        html_words(out, "span", NULL, page->source, NULL);
    }
    if (page->date.length > 0) {
        buffer_string(out, page->source.length > 0 ? ", printed " : "printed ");
        html_text(out, page->date);
    }
    buffer_string(out, "</p>\n</footer>\n");
}

static bool has_ticks(const struct page *page)
{
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        const struct page_column *first = block->kind == PAGE_TABLE ? block->as.table->first_column : NULL;
        if ((first != NULL && first->kind == PAGE_COLUMN_TICK) || block->kind == PAGE_BLANKS ||
            (block->kind == PAGE_LIST && block->as.list->marks == PAGE_TICKS)) {
            return true;
        }
    }
    return false;
}

static void put_page(const struct page_set *set, const struct page *page, size_t number, unsigned level, struct buffer *out)
{
    struct html html = {.out = out, .set = set, .page = page, .number = number, .level = level};
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        html.deep = html.deep || (block->kind == PAGE_HEADING && block->as.heading->level == 1);
    }
    buffer_string(out, "<article id=\"");
    put_anchor(page, number, out);
    buffer_format(out, "\" class=\"page\" aria-labelledby=\"p%zu-title\" data-key=\"%016llx\"", number,
                  (unsigned long long)page_key(page));
    if (page->batch.makes > 0) {
        const struct page_batch *batch = &page->batch;
        buffer_format(out, " data-makes=\"%.17g\" data-scale=\"%.17g\" data-balance=\"%.17g\" data-graduate=\"%.17g\" data-heavy=\"%.17g\""
                           " data-rough=\"%.17g\" data-steps=\"",
                      batch->makes, batch->scale, batch->balance, batch->graduate, batch->heavy, batch->rough);
        for (size_t i = 0; i < batch->volume_step_count; i++) {
            buffer_format(out, "%s%.17g:%.17g", i == 0 ? "" : " ", batch->volume_steps[i].up_to, batch->volume_steps[i].step);
        }
        buffer_string(out, batch->by_mass ? "\" data-mass=\"\"" : "\"");
    }
    buffer_format(out, ">\n<h%u id=\"p%zu-title\" dir=\"auto\">", html.level, number);
    html_text(out, page_name(page));
    buffer_format(out, "</h%u>\n", html.level);
    if (page->subtitle.length > 0) {
        html_words(out, "p", "subtitle", page->subtitle, NULL);
        buffer_character(out, '\n');
    }
    if (page->batch.makes > 0) {
        html_batch(&html);
    }
    html_facts(&html, &page->facts, "facts head");
    if (has_ticks(page)) {
        buffer_string(out, "<p class=\"live progress\"><span class=\"count\" role=\"status\"></span> "
                           "<button type=\"button\" class=\"clear\">Clear ticks and notes</button></p>\n");
    }
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        html_block(&html, block);
    }
    put_foot(page, out);
    buffer_string(out, "</article>\n");
}

void page_render_html(const struct page_set *set, struct buffer *out)
{
    bool contents = wants_contents(set);
    put_document_head(set, out);
    buffer_string(out, "<body>\n");
    if (contents) {
        buffer_string(out, "<a class=\"skip\" href=\"#sheets\">Past the contents</a>\n");
    }
    put_controls(out);
    if (contents) {
        put_contents(set, out);
    }
    buffer_string(out, "<main id=\"sheets\">\n");
    size_t number = 0;
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        put_page(set, item->page, ++number, contents ? 2 : 1, out);
    }
    buffer_string(out, "</main>\n</body>\n</html>\n");
}
