/* A plain decimal in the text of an amount. */
#include "formula/figure.h"

#include <stdlib.h>
#include <string.h>

struct figure figure_find(const struct source_set *sources, struct span span, size_t from)
{
    struct text text = source_text(sources, span);
    struct figure figure = {0};
    size_t at = from;
    while (at < text.length && !text_is_digit(text.at[at])) {
        at++;
    }
    size_t begin = at;
    while (at < text.length && (text_is_digit(text.at[at]) || (text.at[at] == '.' && at + 1 < text.length && text_is_digit(text.at[at + 1])))) {
        at++;
    }
    char digits[40];
    /* "1 1/2" and "½" are left alone. */
    if (at == begin || at - begin >= sizeof digits || (at < text.length && (text.at[at] == '/' || (unsigned char)text.at[at] >= 0x80))) {
        return figure;
    }
    memcpy(digits, text.at + begin, at - begin);
    digits[at - begin] = '\0';
    figure.value = strtod(digits, NULL);
    figure.number = span_make(span.begin + (uint32_t)begin, span.begin + (uint32_t)at);
    while (at < text.length && text.at[at] == ' ') {
        at++;
    }
    size_t unit = at;
    while (at < text.length && text.at[at] != ' ') {
        at++;
    }
    figure.unit = span_make(span.begin + (uint32_t)unit, span.begin + (uint32_t)at);
    figure.unit_text = (struct text){text.at + unit, at - unit};
    figure.good = figure.value > 0 && !(figure.unit_text.length > 0 && text_is_digit(figure.unit_text.at[0]));
    return figure;
}
