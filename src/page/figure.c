/* Marking figures that change with the batch, and reading the marks. */
#include "page/figure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

const char *const page_figure_ways[PAGE_FIGURE_WAYS] = {"mass",  "volume",     "count",
                                                        "times", "mass error", "volume error",
                                                        "addend", "sum"};

#define OPENS "\xEF\xB7\x90"  /* U+FDD0 */
#define PARTS "\xEF\xB7\x91"  /* U+FDD1 */
#define CLOSES "\xEF\xB7\x92" /* U+FDD2 */
enum { MARK = 3, LONGEST = 80 /* bytes from mark to mark */ };

/* A double goes through the text as its bits: nothing is lost, and little is to be done. */
static unsigned long long bits_of(double value)
{
    unsigned long long bits;
    _Static_assert(sizeof bits == sizeof value, "a double has 64 bits");
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

static double of_bits(unsigned long long bits)
{
    double value;
    memcpy(&value, &bits, sizeof value);
    return value;
}

struct text page_figure(struct arena *arena, enum page_figure_way way, double number, double high, struct text printed)
{
    return text_from(arena_format(arena, OPENS "%d;%llx;%llx" PARTS "%.*s" CLOSES, (int)way, bits_of(number), bits_of(high),
                                  TEXT_ARGUMENTS(printed)));
}

char page_figure_mark(struct text text)
{
    if (text.length < MARK || text.at[0] != OPENS[0] || text.at[1] != OPENS[1]) {
        return ' ';
    }
    switch ((unsigned char)text.at[2]) {
    case 0x90:
        return '(';
    case 0x91:
        return '|';
    case 0x92:
        return ')';
    default:
        return ' ';
    }
}

size_t page_figure_read(struct text text, struct page_figure *figure)
{
    char inside[LONGEST + 1];
    size_t length = 0;
    while (length < LONGEST && MARK + length < text.length && text.at[MARK + length] > ' ') { /* plain ASCII */
        inside[length] = text.at[MARK + length];
        length++;
    }
    inside[length] = '\0';
    int way;
    int end = 0;
    struct text behind = {text.at + MARK + length, text.length - MARK - length};
    unsigned long long number = 0;
    unsigned long long high = 0;
    bool good = sscanf(inside, "%d;%16llx;%16llx%n", &way, &number, &high, &end) == 3 && (size_t)end == length &&
                page_figure_mark(behind) == '|';
    figure->number = of_bits(number);
    figure->high = of_bits(high);
    good = good && way >= 0 && way < PAGE_FIGURE_WAYS && isfinite(figure->number) && isfinite(figure->high);
    if (!good) {
        return 0;
    }
    figure->way = (enum page_figure_way)way;
    return MARK + length + MARK;
}
