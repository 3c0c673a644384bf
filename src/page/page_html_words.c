/* Text in HTML: escaped, and with the figures that change with the batch. */
#include "page/page_html.h"

#include "base/number.h"
#include "base/shown.h"

#include <math.h>

void html_text(struct buffer *out, struct text text)
{
    text = shown_line(out->arena, text);
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

void html_number(struct buffer *out, double number)
{
    if (number == floor(number) && fabs(number) < 1e15) {
        buffer_format(out, "%lld", (long long)number);
        return;
    }
    const char *shorter = arena_format(out->arena, "%.8g", number); /* most amounts have few figures */
    bool plain = shorter[strspn(shorter, "0123456789.")] == '\0';
    if (plain && number_read(text_from(shorter)) == number) {
        buffer_string(out, shorter);
    } else {
        buffer_format(out, "%.17g", number); /* IEEE 754-2019, 5.12.2 */
    }
}

/* A string of JSON (RFC 8259, 7) within an attribute.  html_text leaves no control characters in it. */
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
        buffer_format(out, "[&quot;%s&quot;,", page_figure_ways[figure->way]);
        html_number(out, figure->number);
        if (figure->high > 0) {
            buffer_character(out, ',');
            html_number(out, figure->high);
        }
        buffer_character(out, ']');
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
    buffer_string(out, " data-from=\"");
    html_number(out, when.from);
    if (isfinite(when.below)) {
        buffer_string(out, "\" data-below=\"");
        html_number(out, when.below);
    }
    buffer_character(out, '"');
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
