/* The book: its order, title page, contents and sheets. */
#include "report/book.h"

#include "report/sheet/model.h"

#include "page/page.h"

#include <stdlib.h>

/* ---- order ---- */

/* The place of a formula's kind among those of the library, which declares them as a bench uses them one after the other; what says no
 * kind stands with the last. */
static size_t kind_of(const struct book *book, const struct formula *formula)
{
    size_t kind = 0;
    while (kind + 1 < book->kind_count && book->kinds[kind]->name.at != formula->kind.at) {
        kind++;
    }
    return kind;
}

static int compare_text(struct text a, struct text b)
{
    size_t length = a.length < b.length ? a.length : b.length;
    int order = length == 0 ? 0 : memcmp(a.at, b.at, length);
    return order != 0 ? order : (a.length > b.length) - (a.length < b.length);
}

/* By kind, then by title; formulas of one title stay in the order of the files. */
static int in_order(const void *first, const void *second)
{
    const struct book_chapter *a = first;
    const struct book_chapter *b = second;
    if (a->kind != b->kind) {
        return a->kind < b->kind ? -1 : 1;
    }
    int order = compare_text(a->formula->title, b->formula->title);
    return order != 0 ? order : (a->formula->declaration->span.begin > b->formula->declaration->span.begin) -
                                    (a->formula->declaration->span.begin < b->formula->declaration->span.begin);
}

static bool in_book(const struct book *book, const struct formula *formula)
{
    for (size_t i = 0; i < book->count; i++) {
        if (book->chapters[i].formula == formula) {
            return true;
        }
    }
    return false;
}

struct placing {
    const struct book *book;
    struct book_chapter *to;
    size_t placed;
    const struct book_chapter **variants;
    size_t variant_count;
};

/* A formula, and below it its variants and theirs. */
static void place(struct placing *placing, const struct book_chapter *chapter, unsigned level)
{
    struct book_chapter *to = &placing->to[placing->placed++];
    *to = *chapter;
    to->level = level;
    to->anchor = text_from(arena_format(placing->book->arena, "f%zu", placing->placed));
    for (size_t i = 0; i < placing->variant_count; i++) {
        if (placing->variants[i]->formula->variant_of == chapter->formula) {
            place(placing, placing->variants[i], level + 1);
        }
    }
}

static void put_in_order(struct book *book)
{
    struct library *library = book->context->formulary->library;
    book->kinds = ARENA_ARRAY(book->arena, const struct bath_kind *, library_bath_kinds(library, NULL) + 1);
    book->kind_count = library_bath_kinds(library, book->kinds);
    for (size_t i = 0; i < book->count; i++) {
        book->chapters[i].kind = kind_of(book, book->chapters[i].formula);
    }
    qsort(book->chapters, book->count, sizeof *book->chapters, in_order);
    struct placing placing = {book, ARENA_ARRAY(book->arena, struct book_chapter, book->count + 1), 0,
                              ARENA_ARRAY(book->arena, const struct book_chapter *, book->count + 1), 0};
    for (size_t i = 0; i < book->count; i++) {
        if (book->chapters[i].formula->variant_of != NULL) {
            placing.variants[placing.variant_count++] = &book->chapters[i];
        }
    }
    for (size_t i = 0; i < book->count; i++) {
        const struct formula *parent = book->chapters[i].formula->variant_of;
        if (parent == NULL || !in_book(book, parent)) {
            place(&placing, &book->chapters[i], 2);
        }
    }
    book->chapters = placing.to;
    book->count = placing.placed; /* the same */
}

/* ---- title page and contents ---- */

struct page *book_add_page(const struct book *book, struct text anchor, struct text title)
{
    struct page *page = page_set_add(book->set);
    page_set_anchor(page, anchor);
    page_set_title(page, title);
    page_set_source(page, book->title);
    if (book->context->date != NULL) {
        page_set_date(page, text_from(book->context->date));
    }
    page_set_caution(page, TEXT("Check the supplier's safety data sheet before you open a bottle. Local rules and licensed "
                                "professionals come first. Figures marked estimate are estimates."));
    return page;
}

static struct text chapter_title(const struct formula *formula)
{
    return formula->title.length > 0 ? formula->title : TEXT("Untitled");
}

static void fill_title_page(const struct book *book, struct page *page)
{
    size_t variants = 0;
    for (size_t i = 0; i < book->count; i++) {
        variants += book->chapters[i].level > 2;
    }
    page_set_subtitle(page, TEXT("A formulary for the darkroom"));
    page_add_fact(page, TEXT("formulas"), page_format(page, "%zu", book->count - variants));
    if (variants > 0) {
        page_add_fact(page, TEXT("variants"), page_format(page, "%zu", variants));
    }
    if (book->stock_count > 0) {
        page_add_fact(page, TEXT("stocks"), page_format(page, "%zu", book->stock_count));
    }
    if (book->context->date != NULL) {
        page_add_fact(page, TEXT("printed"), text_from(book->context->date));
    }
    page_add_heading(page, 2, TEXT("How to mix from this book"));
    struct page_list *list = page_add_list(page, PAGE_NUMBERS);
    page_list_item(list, TEXT("Read the sheet to its end, and \"Take care\" twice. Lay out what it names; make the stocks that it asks for "
                              "first."));
    page_list_item(list, TEXT("Start with the water and go down the table. Tick each line when it is done, and dissolve each completely "
                              "before you add the next."));
    page_list_item(list, TEXT("A line with a black triangle wants a second look before you weigh."));
    page_list_item(list, TEXT("Write down what you took, by whom and when; label the bottle before you leave it."));
    page_list_item(list, TEXT("Keep food, children and animals out, and this book away from splashes."));
}

static void add_entry(struct page_contents *contents, unsigned level, struct text text, struct text detail, struct text anchor)
{
    struct page_entry *entry = page_contents_entry(contents, level, text, detail);
    if (anchor.length > 0) {
        page_entry_target(entry, anchor);
    }
}

static struct text purposes(struct page *page, const struct formula *formula)
{
    struct buffer words;
    buffer_start(&words, page->arena);
    for (const struct word *word = formula->purposes; word != NULL; word = word->next) {
        buffer_string(&words, word == formula->purposes ? "for " : word->next == NULL ? " and " : ", ");
        buffer_text(&words, word->name->spelling);
    }
    return (struct text){words.bytes, words.length};
}

static void fill_contents(const struct book *book, struct page *page)
{
    struct page_contents *contents = page_add_contents(page);
    size_t kind = SIZE_MAX;
    for (size_t i = 0; i < book->count; i++) {
        const struct book_chapter *chapter = &book->chapters[i];
        if (chapter->level == 2 && chapter->kind != kind) {
            kind = chapter->kind;
            add_entry(contents, 1, kind < book->kind_count ? book->kinds[kind]->chapter : TEXT("Baths"), (struct text){0}, (struct text){0});
        }
        add_entry(contents, chapter->level, chapter_title(chapter->formula), purposes(page, chapter->formula), chapter->anchor);
    }
    if (book->stock_count > 0) {
        add_entry(contents, 1, TEXT("Stocks"), (struct text){0}, (struct text){0});
        for (size_t i = 0; i < book->stock_count; i++) {
            add_entry(contents, 2, stock_title(page->arena, book->stocks[i]), (struct text){0}, book->stock_anchors[i]);
        }
    }
    add_entry(contents, 1, TEXT("Where to look"), (struct text){0}, (struct text){0});
    add_entry(contents, 2, TEXT("Stocks and who draws on them"), (struct text){0}, TEXT("stocks"));
    add_entry(contents, 2, TEXT("Materials"), (struct text){0}, TEXT("materials"));
    add_entry(contents, 2, TEXT("Safety"), (struct text){0}, TEXT("safety"));
    if (book_has_sources(book)) {
        add_entry(contents, 2, TEXT("Sources"), (struct text){0}, TEXT("sources"));
    }
}

/* ---- the whole ---- */

static void add_sheet(const struct book *book, const struct formula *formula, struct page *page)
{
    const struct sheet sheet = sheet_model(book->context, report_batch(book->context, formula), page);
    sheet_page(&sheet);
}

static void add_sheets(const struct book *book)
{
    for (size_t i = 0; i < book->count; i++) {
        struct page *page = page_set_add(book->set);
        add_sheet(book, book->chapters[i].formula, page);
        page_set_anchor(page, book->chapters[i].anchor);
        if (book->with_safety) {
            report_safety(book->context, book->chapters[i].formula, page_set_add(book->set));
        }
        if (book->progress != NULL) {
            book->progress(book->progress_context, i + 1, 3 * book->count); /* setting them takes longer */
        }
    }
    for (size_t i = 0; i < book->stock_count; i++) {
        const struct formula *formula = stock_formula(book->context->formulary, book->stocks[i]);
        if (formula != NULL) {
            struct page *page = page_set_add(book->set);
            add_sheet(book, formula, page);
            page_set_anchor(page, book->stock_anchors[i]);
        }
    }
}

void report_book(struct book *book)
{
    book->set->book = true;
    book->set->title = book->title;
    put_in_order(book);
    fill_title_page(book, book_add_page(book, TEXT("title"), book->title));
    fill_contents(book, book_add_page(book, TEXT("contents"), TEXT("Contents")));
    add_sheets(book);
    book_add_stock_index(book);
    book_add_material_index(book);
    book_add_safety(book);
    book_add_sources(book);
}
