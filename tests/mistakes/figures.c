/* Mistakes in figures and units. */
#define _GNU_SOURCE

#include "mistakes/places.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* ---- amounts ---- */

size_t mistake_point_moved(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        const char *line = sample->lines.lines[addition->line];
        struct anatomy anatomy = look_at(line);
        if (addition->water || !anatomy.plain) {
            continue;
        }
        char figure[40];
        snprintf(figure, sizeof figure, "%.10g", number_in(line, anatomy.number) * (draw(seed, 2) == 0 ? 10 : 0.1));
        add_mistake(mistakes, &count, with_piece(sample, addition->line, anatomy.number, figure), addition->line);
    }
    return count;
}

static size_t unit_exchanged(const struct sample *sample, struct mistake *mistakes, const char *const *from, const char *to,
                             bool water)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        const char *line = sample->lines.lines[addition->line];
        struct anatomy anatomy = look_at(line);
        if (anatomy.plain && (water || !addition->water) && piece_is(line, anatomy.unit, from)) {
            add_mistake(mistakes, &count, with_piece(sample, addition->line, anatomy.unit, to), addition->line);
        }
    }
    return count;
}

static const char *const grams[] = {"g", "gram", "grams", "gm", "gms", NULL};
static const char *const milligrams[] = {"mg", NULL};
static const char *const millilitres[] = {"mL", "c.c.", "cc", "ccm", NULL};
static const char *const litres[] = {"L", "liter", "litre", NULL};
static const char *const grains[] = {"grain", "grains", NULL};
static const char *const ounces[] = {"oz", "oz.", "ounce", "ounces", NULL};

size_t mistake_grams_milligrams(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = unit_exchanged(sample, mistakes, grams, "mg", false);
    return count + unit_exchanged(sample, mistakes + count, milligrams, "g", false);
}

size_t mistake_grams_millilitres(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    return unit_exchanged(sample, mistakes, grams, "mL", false);
}

size_t mistake_millilitres_litres(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = unit_exchanged(sample, mistakes, millilitres, "L", true);
    return count + unit_exchanged(sample, mistakes + count, litres, "mL", true);
}

size_t mistake_grains_grams(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = unit_exchanged(sample, mistakes, grams, "gr", false);
    count += unit_exchanged(sample, mistakes + count, grains, "gr", false);
    return count + unit_exchanged(sample, mistakes + count, grains, "g", false);
}

size_t mistake_ounces_fluid(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        const char *line = sample->lines.lines[addition->line];
        struct anatomy anatomy = look_at(line);
        bool apothecaries = anatomy.plain && strncmp(line + anatomy.unit.end, " ap", 3) == 0;
        /* The ounce of a liquid is the fluid one anyway. */
        if (anatomy.plain && !addition->liquid && !apothecaries && piece_is(line, anatomy.unit, ounces) &&
            strstr(line, "stock") == NULL && strstr(line, "solution") == NULL) {
            add_mistake(mistakes, &count, with_piece(sample, addition->line, anatomy.unit, "fl oz"), addition->line);
        }
    }
    return count;
}

size_t mistake_stock_percent(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        size_t number = sample->additions[i].line;
        const char *line = sample->lines.lines[number];
        const char *percent = strstr(line, "% stock");
        if (percent == NULL || strncmp(line, "stock ", 6) == 0) {
            continue;
        }
        size_t end = (size_t)(percent - line);
        while (end > 0 && line[end - 1] == ' ') {
            end--;
        }
        size_t begin = end;
        while (begin > 0 && (isdigit((unsigned char)line[begin - 1]) || line[begin - 1] == '.')) {
            begin--;
        }
        struct piece piece = {begin, end};
        double was = number_in(line, piece);
        char figure[40];
        snprintf(figure, sizeof figure, "%.10g", was * (was <= 10 && draw(seed, 2) == 0 ? 10 : 0.1));
        add_mistake(mistakes, &count, with_piece(sample, number, piece, figure), number);
    }
    return count;
}

size_t mistake_final_volume(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    static const double factors[] = {0.1, 0.5, 2, 5, 10};
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        const char *line = sample->lines.lines[i];
        const char *make = strstr(line, "to make");
        if (make == NULL || strchr(line, '#') != NULL) {
            continue;
        }
        struct anatomy anatomy = look_at(line);
        if (anatomy.plain) {
            char figure[40];
            snprintf(figure, sizeof figure, "%.10g", number_in(line, anatomy.number) * factors[draw(seed, COUNT(factors))]);
            add_mistake(mistakes, &count, with_piece(sample, i, anatomy.number, figure), i);
        }
    }
    return count;
}

/* ---- ratios and temperatures ---- */

static const char *ratio_in(const char *line, struct piece *water)
{
    const char *at = line + strspn(line, " ");
    if (strncmp(at, "dilute", 6) != 0) {
        return NULL;
    }
    const char *plus = strchr(at, '+');
    if (plus != NULL) {
        water->begin = (size_t)(plus + 1 - line);
        water->end = water->begin + strspn(plus + 1, "0123456789");
    }
    return plus;
}

size_t mistake_colon_ratio(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        struct piece water;
        const char *plus = ratio_in(sample->lines.lines[i], &water);
        if (plus != NULL) {
            struct piece piece = {water.begin - 1, water.begin};
            add_mistake(mistakes, &count, with_piece(sample, i, piece, ":"), i);
        }
    }
    return count;
}

size_t mistake_dilution_digit(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        struct piece water;
        if (ratio_in(sample->lines.lines[i], &water) != NULL) {
            char digit[2] = {(char)('0' + draw(seed, 10)), '\0'};
            size_t place = water.begin + 1 + draw(seed, water.end - water.begin);
            add_mistake(mistakes, &count, with_piece(sample, i, (struct piece){place, place}, digit), i);
        }
    }
    return count;
}

size_t mistake_fahrenheit(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        const char *line = sample->lines.lines[i];
        const char *degree = strstr(line, "°");
        const char *quote = strchr(line, '"');
        if (degree == NULL || (quote != NULL && quote < degree) || strchr(line, '#') != NULL || strstr(line, "per 10") != NULL) {
            continue;
        }
        size_t sign = (size_t)(degree - line) + strlen("°");
        while (line[sign] == ' ') {
            sign++;
        }
        struct piece letter = {sign, sign + 1};
        if (line[sign] == 'F') {
            add_mistake(mistakes, &count, with_piece(sample, i, letter, "C"), i);
            continue;
        }
        /* The right text is the same temperature in °F; the mistake is the letter. */
        size_t begin = (size_t)(degree - line);
        while (begin > 0 && strchr("0123456789. ", line[begin - 1]) != NULL) {
            begin--;
        }
        begin += strspn(line + begin, " ");
        struct piece all = {begin, sign + 1};
        char figures[60];
        /* "18 to 22 °C": both ends. */
        double high = number_in(line, all);
        const char *to = strstr(line, " to ");
        if (to != NULL && to < degree && isdigit((unsigned char)to[-1])) {
            size_t first = (size_t)(to - line);
            while (first > 0 && isdigit((unsigned char)line[first - 1])) {
                first--;
            }
            all.begin = first;
            snprintf(figures, sizeof figures, "%.0f to %.0f °", number_in(line, (struct piece){first, (size_t)(to - line)}) * 1.8 + 32,
                     high * 1.8 + 32);
        } else {
            snprintf(figures, sizeof figures, "%.0f °", high * 1.8 + 32);
        }
        char written[80];
        snprintf(written, sizeof written, "%sC", figures);
        add_mistake(mistakes, &count, with_piece(sample, i, all, written), i);
        snprintf(written, sizeof written, "%sF", figures);
        mistakes[count - 1].right = with_piece(sample, i, all, written);
    }
    return count;
}
