/* Goods and days on the pages of batches and processes. */
#include "report/records.h"

#include "base/number.h"

#include <math.h>

/* One of them loses its s, more of them have one: "1 roll", "2 rolls". */
static struct text unit_for(struct page *page, const struct name *unit, bool one)
{
    struct text word = unit->spelling;
    bool plural = word.length > 1 && word.at[word.length - 1] == 's';
    bool letters = word.length > 0 && memchr(word.at, ' ', word.length) == NULL && memchr(word.at, '2', word.length) == NULL;
    if (one && plural) {
        word.length--;
    }
    return page_format(page, "%.*s%s", TEXT_ARGUMENTS(word), !one && !plural && letters ? "s" : "");
}

struct text print_goods_asked(struct page *page, const struct goods *goods)
{
    const char *number = number_print(page->arena, goods->count, 1);
    struct text unit = unit_for(page, goods->unit, goods->count <= 1);
    const struct sheet_size *size = goods->size;
    if (size == NULL) {
        return page_format(page, "%s\u00A0%.*s", number, TEXT_ARGUMENTS(unit));
    }
    return page_format(page, "%s\u00A0%.*s %sx%s\u00A0%.*s", number, TEXT_ARGUMENTS(unit), number_print(page->arena, size->width, 2),
                       number_print(page->arena, size->height, 2),
                       TEXT_ARGUMENTS(size->unit == NULL ? TEXT("in") : size->unit->spelling));
}

struct text print_goods(struct page *page, const struct goods *goods)
{
    struct goods whole = *goods;
    whole.count = floor(goods->count + 1e-9);
    return print_goods_asked(page, &whole);
}

long report_today(const struct report_context *context)
{
    return context->date == NULL ? CALENDAR_NO_DAY : calendar_day(text_from(context->date));
}
