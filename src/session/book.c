/* A folder as one book. */
#include "session/session.h"

#include "report/book.h"

static void take_formulas(struct potash *potash, struct book *book)
{
    size_t formulas = 0;
    size_t stocks = 0;
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        formulas++;
    }
    for (const struct stock *stock = session_next_stock(potash, NULL); stock != NULL; stock = session_next_stock(potash, stock)) {
        stocks++;
    }
    book->chapters = ARENA_ARRAY(book->arena, struct book_chapter, formulas + 1);
    book->stocks = ARENA_ARRAY(book->arena, const struct stock *, stocks + 1);
    book->stock_anchors = ARENA_ARRAY(book->arena, struct text, stocks + 1);
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        book->chapters[book->count++].formula = formula;
    }
    for (const struct stock *stock = session_next_stock(potash, NULL); stock != NULL; stock = session_next_stock(potash, stock)) {
        book->stocks[book->stock_count++] = stock;
        book->stock_anchors[book->stock_count - 1] = text_from(arena_format(book->arena, "s%zu", book->stock_count));
    }
}

enum potash_status potash_book(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    enum potash_status status = session_ready(potash);
    if (status != POTASH_GOOD) {
        return status;
    }
    struct page_set *set = ARENA_NEW(&potash->arena, struct page_set);
    page_set_start(set, &potash->arena);
    const char *title = potash->options.book_title;
    struct book book = {.context = &potash->context,
                        .set = set,
                        .arena = &potash->arena,
                        .title = text_from(title != NULL && title[0] != '\0' ? title : "Formulary"),
                        .with_safety = potash->options.book_with_safety,
                        .progress = potash->options.progress,
                        .progress_context = potash->options.progress_context};
    take_formulas(potash, &book);
    report_book(&book);
    return session_put_pages(potash, set, "pages", format, output);
}
