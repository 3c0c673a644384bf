/* What a page in HTML has for the bench: the size of the batch, ticks, timers.  Without scripts none of it shows, and the tables
 * below stand for themselves. */
#include "page/page_html.h"

#include "base/number.h"

#include <math.h>

static bool unit_is_chosen(const struct page_batch *batch, const struct page_batch_unit *unit)
{
    return text_equal(unit->name, batch->unit);
}

/* The size at hand in the unit that it is best given in. */
static const char *size_figure(const struct html *html)
{
    const struct page_batch *batch = &html->page->batch;
    for (const struct page_batch_unit *unit = batch->first_unit; unit != NULL; unit = unit->next) {
        if (unit_is_chosen(batch, unit)) {
            return number_print_significant(html->out->arena, batch->makes * batch->scale / unit->factor, 6);
        }
    }
    return "";
}

void html_batch(struct html *html)
{
    struct buffer *out = html->out;
    const struct page_batch *batch = &html->page->batch;
    size_t n = html->number;
    buffer_format(out, "<div class=\"live size\" role=\"group\" aria-label=\"Size of the batch\">\n"
                       "<p><label for=\"p%zu-size\">Make", n);
    if (batch->of.length > 0) {
        buffer_string(out, " <span class=\"of\" dir=\"auto\">");
        html_text(out, batch->of);
        buffer_string(out, "</span>");
    }
    buffer_format(out, "</label>\n"
                       "<input id=\"p%zu-size\" class=\"amount\" type=\"text\" inputmode=\"decimal\" autocomplete=\"off\" value=\"%s\" "
                       "aria-describedby=\"p%zu-said\">\n"
                       "<label class=\"unseen\" for=\"p%zu-unit\">Unit</label>\n<select id=\"p%zu-unit\" class=\"unit\">",
                  n, size_figure(html), n, n, n);
    for (const struct page_batch_unit *unit = batch->first_unit; unit != NULL; unit = unit->next) {
        buffer_format(out, "<option value=\"%.17g\"%s>", unit->factor, unit_is_chosen(batch, unit) ? " selected" : "");
        html_text(out, unit->name);
        buffer_string(out, "</option>");
    }
    buffer_format(out, "</select>\n<button type=\"button\" class=\"as-written\">As written</button></p>\n"
                       "<p class=\"said\" id=\"p%zu-said\" role=\"status\"></p>\n</div>\n",
                  n);
}

void html_timeline(struct html *html, const struct page_timeline *timeline)
{
    struct buffer *out = html->out;
    size_t id = ++html->others;
    buffer_format(out, "<section class=\"course\" aria-labelledby=\"p%zu-c%zu\">\n", html->number, id);
    buffer_format(out, "<p class=\"course-name\" id=\"p%zu-c%zu\" dir=\"auto\">", html->number, id);
    html_text(out, timeline->label);
    buffer_string(out, "</p>\n<div class=\"live timer\"><p class=\"now\" role=\"status\"></p>"
                       "<p class=\"left\" role=\"timer\" aria-label=\"time left\"></p><p class=\"then\"></p>\n"
                       "<p class=\"keys\"><button type=\"button\" class=\"start\">Start</button> "
                       "<button type=\"button\" class=\"next\">Next</button> "
                       "<button type=\"button\" class=\"reset\">Back to the start</button></p></div>\n");
    buffer_string(out, "<table class=\"narrow stages\"><thead><tr><th scope=\"col\" class=\"text\">stage</th>"
                       "<th scope=\"col\" class=\"amount right\">from</th><th scope=\"col\" class=\"amount right\">for</th></tr></thead>\n");
    for (const struct page_stage *stage = timeline->first; stage != NULL; stage = stage->next) {
        buffer_format(out, "<tbody class=\"ordinary\"><tr data-start=\"%.17g\"", isfinite(stage->start) ? stage->start : 0);
        if (isfinite(stage->duration)) {
            buffer_format(out, " data-duration=\"%.17g\"", stage->duration);
        }
        buffer_string(out, "><th scope=\"row\" class=\"name\" dir=\"auto\">");
        html_words(out, "span", "stage", stage->name, NULL);
        if (stage->detail.length > 0) {
            buffer_character(out, ' ');
            html_words(out, "span", "detail", stage->detail, NULL);
        }
        buffer_string(out, "</th><td class=\"amount right\">");
        html_text(out, page_clock(out->arena, stage->start));
        buffer_string(out, "</td><td class=\"amount right\">");
        html_text(out, isfinite(stage->duration) ? page_clock(out->arena, stage->duration) : TEXT("until done"));
        buffer_string(out, "</td></tr></tbody>\n");
    }
    buffer_string(out, "</table>\n</section>\n");
}
