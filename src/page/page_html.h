/* Pages as one HTML document that stands by itself: styles and script inside, nothing fetched (the HTML Standard, WHATWG).
 *
 * It prints, it reads as a plain sheet where scripts are off, and with them it ticks off steps, reckons other sizes of the
 * batch and runs timers (src/page/html/).  Every text that comes from outside goes through html_text or html_attribute, and
 * nothing else writes such text; a Content Security Policy that names the script and the styles by their digests stands
 * behind that. */
#ifndef POTASH_PAGE_PAGE_HTML_H
#define POTASH_PAGE_PAGE_HTML_H

#include "page/page_set.h"

/* The whole set as one document, with a list of its pages where there are several.  Memory that runs out jumps to the place
 * that arena_guard marked. */
void page_render_html(const struct page_set *set, struct buffer *out);

/* ---- pieces ---- */

/* Made by the build from src/page/html/: the bytes, and their digests for the Content Security Policy. */
extern const char page_html_script[];
extern const char page_html_styles[];
extern const char page_html_script_digest[];
extern const char page_html_styles_digest[];

struct html {
    struct buffer *out;
    const struct page_set *set;
    const struct page *page;
    size_t number;      /* of the page in the set, from 1 */
    unsigned level;     /* of the page's title: 1, or 2 below a list of pages */
    size_t boxes;       /* ids given out so far: ticks */
    size_t blanks;      /* blanks */
    size_t others;      /* notes, timelines, figures of a table's columns */
    bool deep;          /* the page has headings of level 1, below which those of level 2 stand */
};

/* Text between tags, and within the quotes of an attribute. */
void html_text(struct buffer *out, struct text text);

/* A number for the script, which reads the same double again. */
void html_number(struct buffer *out, double number);

/* ` data-pieces="…"` for a text with figures, which the script puts together anew for another batch; nothing without figures. */
void html_pieces(struct buffer *out, struct text text, const struct page_figure *figures);

/* ` hidden data-from="…" data-below="…"` for what holds for some sizes only. */
void html_when(const struct page *page, struct buffer *out, struct page_when when);

/* <TAG …>text</TAG>, with the figures that change. */
void html_words(struct buffer *out, const char *tag, const char *class_name, struct text text, const struct page_figure *figures);

void html_heading(struct html *html, unsigned level, struct text text, const struct page_figure *figures);
void html_block(struct html *html, const struct page_block *block);
void html_facts(struct html *html, const struct page_facts *facts, const char *class_name);
void html_table(struct html *html, const struct page_table *table);
void html_timeline(struct html *html, const struct page_timeline *timeline);

/* A box to tick, named by the element `label`, or by a text. */
size_t html_tick(struct html *html);

/* The size of the batch, to be changed. */
void html_batch(struct html *html);

#endif
