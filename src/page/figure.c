/* Marking figures that change with the batch, and reading the marks. */
#include "page/figure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

const char *const page_figure_ways[PAGE_FIGURE_WAYS] = {"mass",  "volume",     "count",
                                                        "times", "mass error", "volume error"};

#define OPENS "\xEF\xB7\x90"  /* U+FDD0 */
#define PARTS "\xEF\xB7\x91"  /* U+FDD1 */
#define CLOSES "\xEF\xB7\x92" /* U+FDD2 */
enum { MARK = 3, LONGEST = 80 /* bytes from mark to mark */ };

struct text page_figure(struct arena *arena, enum page_figure_way way, double number, double high, struct text printed)
{
    /* 17 digits give the same double back (IEEE 754-2019, 5.12.2). */
    return text_from(arena_format(arena, OPENS "%d;%.17g;%.17g" PARTS "%.*s" CLOSES, (int)way, number, high,
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
    bool good = sscanf(inside, "%d;%lf;%lf%n", &way, &figure->number, &figure->high, &end) == 3 && (size_t)end == length &&
                page_figure_mark(behind) == '|';
    good = good && way >= 0 && way < PAGE_FIGURE_WAYS && isfinite(figure->number) && isfinite(figure->high);
    if (!good) {
        return 0;
    }
    figure->way = (enum page_figure_way)way;
    return MARK + length + MARK;
}
