/* Other readings of a figure. */
#include "practice/repairs.h"

#include "formula/figure.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void add_text(struct repair *repairs, size_t *count, struct span span, const char *text, double factor, const char *title)
{
    if (*count < MOST_REPAIRS) {
        repairs[(*count)++] = (struct repair){span, text, NAN, factor, title, false};
    }
}

static void add_figure(struct repair *repairs, size_t *count, const struct figure *figure, double factor, const char *title)
{
    double value = figure->value * factor;
    if (*count < MOST_REPAIRS && value > 0.99e-4 && value < 1e9) { /* what nobody would type was not meant */
        repairs[(*count)++] = (struct repair){figure->number, NULL, value, factor, title, false};
    }
}

void repair_offer(const struct practice *practice, struct diagnostic *diagnostic, const struct repair *repair)
{
    struct diagnostics *diagnostics = practice->formulary->diagnostics;
    if (repair->text == NULL) {
        const char *figure = arena_format(practice->formulary->arena, "%.10g", repair->figure);
        diagnostics_fix(diagnostics, diagnostic, repair->span, figure, "%s: %s", repair->title, figure);
    } else if (repair->title == NULL) {
        diagnostics_fix(diagnostics, diagnostic, repair->span, repair->text, "%s is meant", repair->text);
    } else {
        diagnostics_fix(diagnostics, diagnostic, repair->span, repair->text, "%s", repair->title);
    }
}

/* Units that are taken for one another, and how much more the second is. */
static const struct {
    const char *written;
    const char *meant;
    double factor;
} exchanged[] = {
    {"g", "mg", 0.001},      {"mg", "g", 1000},          {"g", "grains", 0.06479891}, {"grains", "g", 1 / 0.06479891},
    {"mL", "L", 1000},       {"L", "mL", 0.001},         {"kg", "g", 0.001},          {"g", "kg", 1000},
    {"oz", "grains", 1 / 437.5}, {"grains", "oz", 437.5}, {"lb", "oz", 1.0 / 16},     {"oz", "lb", 16},
    {"oz", "g", 1 / 28.349523125}, {"g", "oz", 28.349523125},
};

size_t repairs_of_amount(const struct practice *practice, const struct step *step, struct repair *repairs)
{
    size_t count = 0;
    struct figure figure = figure_find(practice->formulary->sources, step->amount_span, 0);
    if (!figure.good) {
        return 0;
    }
    if (step->how == ADD_STOCK) {
        size_t behind = figure.unit.end - step->amount_span.begin;
        struct figure percent = figure_find(practice->formulary->sources, step->amount_span, behind);
        if (percent.good && percent.unit_text.length > 0 && percent.unit_text.at[0] == '%') {
            add_figure(repairs, &count, &percent, 0.1, "the stock is weaker");
            add_figure(repairs, &count, &percent, 10, "the stock is stronger");
            for (size_t i = 0; i < count; i++) {
                repairs[i].of_stock = true;
            }
        }
    }
    add_figure(repairs, &count, &figure, 0.1, "the point is one place to the left");
    add_figure(repairs, &count, &figure, 10, "the point is one place to the right");
    for (size_t i = 0; i < sizeof exchanged / sizeof *exchanged; i++) {
        if (text_is(figure.unit_text, exchanged[i].written)) {
            add_text(repairs, &count, figure.unit, exchanged[i].meant, exchanged[i].factor, NULL);
        }
    }
    add_figure(repairs, &count, &figure, 0.01, "the point is two places to the left");
    add_figure(repairs, &count, &figure, 100, "the point is two places to the right");
    return count;
}

size_t repairs_of_volume(const struct practice *practice, const struct step *make, struct repair *repairs)
{
    /* Batches are doubled, halved, made for a tank or for a gallon. */
    static const double factors[] = {0.1, 10, 0.5, 2, 0.2, 5, 0.25, 4, 0.4, 2.5};
    size_t count = 0;
    struct figure figure = figure_find(practice->formulary->sources, make->amount_span, 0);
    if (!figure.good) {
        return 0;
    }
    for (size_t i = 0; i < sizeof exchanged / sizeof *exchanged; i++) {
        if (text_is(figure.unit_text, exchanged[i].written)) {
            add_text(repairs, &count, figure.unit, exchanged[i].meant, exchanged[i].factor, NULL);
        }
    }
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        add_figure(repairs, &count, &figure, factors[i], "another final volume");
    }
    return count;
}

/* The figure of the water without one of its digits, or with a nought more. */
size_t repairs_of_ratio(const struct practice *practice, const struct use *use, struct repair *repairs)
{
    struct text text = source_text(practice->formulary->sources, use->ratio_span);
    size_t count = 0;
    size_t plus = 0;
    while (plus < text.length && text.at[plus] != '+') {
        plus++;
    }
    size_t begin = plus + 1;
    while (begin < text.length && text.at[begin] == ' ') {
        begin++;
    }
    size_t length = 0;
    while (begin + length < text.length && text_is_digit(text.at[begin + length])) {
        length++;
    }
    if (plus >= text.length || length == 0 || length > 6 || begin + length != text.length || use->stock_parts <= 0) {
        return 0;
    }
    struct span span = span_make(use->ratio_span.begin + (uint32_t)begin, use->ratio_span.begin + (uint32_t)(begin + length));
    for (size_t out = length; length > 1 && out > 0; out--) {
        char digits[8];
        size_t kept = 0;
        for (size_t i = 0; i < length; i++) {
            if (i != out - 1) {
                digits[kept++] = text.at[begin + i];
            }
        }
        digits[kept] = '\0';
        bool again = out < length && text.at[begin + out] == text.at[begin + out - 1]; /* 1+33: either 3 */
        if (!again && digits[0] != '0') {
            add_text(repairs, &count, span, arena_format(practice->formulary->arena, "%s", digits),
                       strtod(digits, NULL) / use->stock_parts,
                       arena_format(practice->formulary->arena, "a figure too many: %g+%s", use->stock_parts, digits));
        }
    }
    const char *more = arena_format(practice->formulary->arena, "%.*s0", (int)length, text.at + begin);
    add_text(repairs, &count, span, more, strtod(more, NULL) / use->stock_parts,
               arena_format(practice->formulary->arena, "a figure too few: %g+%s", use->stock_parts, more));
    return count;
}
