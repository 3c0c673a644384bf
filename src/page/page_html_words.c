/* Text in HTML: escaped, and with the figures that change with the batch. */
#include "page/page_html.h"

#include <math.h>

void html_text(struct buffer *out, struct text text)
{
    size_t done = 0;
    for (size_t i = 0; i < text.length; i++) {
        const char *instead = NULL;
        switch (text.at[i]) {
        case '&':
            instead = "&amp;";
            break;
        case '<':
            instead = "&lt;";
            break;
        case '>':
            instead = "&gt;";
            break;
        case '"':
            instead = "&quot;";
            break;
        case '\'':
            instead = "&#39;";
            break;
        default:
            continue;
        }
        buffer_add(out, text.at + done, i - done);
        buffer_string(out, instead);
        done = i + 1;
    }
    if (text.length > done) {
        buffer_add(out, text.at + done, text.length - done);
    }
}

/* A string of JSON (RFC 8259, 7) within an attribute.  Texts of a page hold no control characters. */
static void json_string_text(struct buffer *out, struct text text)
{
    buffer_string(out, "&quot;");
    size_t done = 0;
    for (size_t i = 0; i < text.length; i++) {
        if (text.at[i] == '"' || text.at[i] == '\\') {
            html_text(out, (struct text){text.at + done, i - done});
            buffer_character(out, '\\');
            done = i;
        }
    }
    html_text(out, (struct text){text.at + done, text.length - done});
    buffer_string(out, "&quot;");
}

void html_pieces(struct buffer *out, struct text text, const struct page_figure *figures)
{
    if (figures == NULL) {
        return;
    }
    buffer_string(out, " data-pieces=\"[");
    size_t done = 0;
    for (const struct page_figure *figure = figures; figure != NULL; figure = figure->next) {
        if (figure->at > done) {
            json_string_text(out, (struct text){text.at + done, figure->at - done});
            buffer_character(out, ',');
        }
        buffer_format(out, "[&quot;%s&quot;,%.17g", page_figure_ways[figure->way], figure->number);
        buffer_format(out, figure->high > 0 ? ",%.17g]" : "]", figure->high);
        done = figure->at + figure->length;
        if (figure->next != NULL || text.length > done) {
            buffer_character(out, ',');
        }
    }
    if (text.length > done) {
        json_string_text(out, (struct text){text.at + done, text.length - done});
    }
    buffer_string(out, "]\"");
}

void html_when(const struct page *page, struct buffer *out, struct page_when when)
{
    if (!when.bounded) {
        return;
    }
    buffer_format(out, " data-from=\"%.17g\"", when.from);
    if (isfinite(when.below)) {
        buffer_format(out, " data-below=\"%.17g\"", when.below);
    }
    if (page->batch.scale < when.from || page->batch.scale >= when.below) {
        buffer_string(out, " hidden");
    }
}

void html_words(struct buffer *out, const char *tag, const char *class_name, struct text text, const struct page_figure *figures)
{
    buffer_format(out, "<%s", tag);
    if (class_name != NULL) {
        buffer_format(out, " class=\"%s\"", class_name);
    }
    html_pieces(out, text, figures);
    buffer_string(out, " dir=\"auto\">");
    html_text(out, text);
    buffer_format(out, "</%s>", tag);
}
