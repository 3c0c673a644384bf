/* Words with figures that change with the batch. */
#include "page/figure.h"

#include "base/buffer.h"

#include <math.h>

const char *const page_figure_ways[PAGE_FIGURE_WAYS] = {"mass",  "volume",     "count",
                                                        "times", "mass error", "volume error",
                                                        "addend", "sum"};

struct page_words page_figure(struct arena *arena, enum page_figure_way way, double number, double high, struct text printed)
{
    if (!isfinite(number) || !isfinite(high)) {
        return page_plain(printed);
    }
    struct page_figure *figure = ARENA_NEW(arena, struct page_figure);
    *figure = (struct page_figure){.way = way, .number = number, .high = high, .length = printed.length};
    return (struct page_words){printed, figure};
}

struct page_words page_join(struct arena *arena, const char *pattern, const struct page_words *words, size_t count)
{
    struct buffer out;
    buffer_start(&out, arena);
    const struct page_figure *first = NULL;
    const struct page_figure **end = &first;
    for (size_t i = 0; *pattern != '\0';) {
        size_t plain = strcspn(pattern, "{");
        buffer_add(&out, pattern, plain);
        pattern += plain;
        if (*pattern == '\0') {
            break;
        }
        pattern += strlen("{}");
        for (const struct page_figure *figure = i < count ? words[i].figures : NULL; figure != NULL; figure = figure->next) {
            struct page_figure *copy = ARENA_NEW(arena, struct page_figure);
            *copy = *figure;
            copy->at += out.length;
            copy->next = NULL;
            *end = copy;
            end = &copy->next;
        }
        buffer_text(&out, i < count ? words[i].text : (struct text){0});
        i++;
    }
    return (struct page_words){text_from(buffer_finish(&out)), first};
}
