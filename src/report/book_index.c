/* Indexes of a book: which sheets speak of a material, a stock, a source. */
#include "report/book.h"

#include "base/chemical.h"
#include "base/number.h"
#include "base/table.h"

#include <math.h>
#include <stdlib.h>

/* A word of an index with the sheets that it leads to. */
struct subject {
    struct text name;
    struct text detail;
    struct page_target *first, *last;
    UT_hash_handle hh;
};

struct subjects {
    struct arena *arena;
    struct subject *table;
};

static void note(struct subjects *subjects, struct text name, struct text detail, struct text anchor)
{
    struct arena *table_arena = subjects->arena;
    struct subject *subject = NULL;
    HASH_FIND(hh, subjects->table, name.at, name.length, subject);
    if (subject == NULL) {
        subject = ARENA_NEW(subjects->arena, struct subject);
        subject->name = name;
        subject->detail = detail;
        HASH_ADD_KEYPTR(hh, subjects->table, subject->name.at, subject->name.length, subject);
    }
    if (anchor.length == 0 || (subject->last != NULL && text_equal(subject->last->anchor, anchor))) {
        return; /* a formula that names it twice */
    }
    struct page_target *target = ARENA_NEW(subjects->arena, struct page_target);
    target->anchor = anchor;
    if (subject->last == NULL) {
        subject->first = target;
    } else {
        subject->last->next = target;
    }
    subject->last = target;
}

static int by_name(const struct subject *a, const struct subject *b)
{
    size_t length = a->name.length < b->name.length ? a->name.length : b->name.length;
    int order = length == 0 ? 0 : memcmp(a->name.at, b->name.at, length);
    return order != 0 ? order : (a->name.length > b->name.length) - (a->name.length < b->name.length);
}

static void put(struct subjects *subjects, struct page *page)
{
    if (subjects->table == NULL) {
        page_add_paragraph(page, TEXT("There are none in this book."));
        return;
    }
    HASH_SORT(subjects->table, by_name);
    struct page_contents *contents = page_add_contents(page);
    for (const struct subject *subject = subjects->table; subject != NULL; subject = subject->hh.next) {
        struct page_entry *entry = page_contents_entry(contents, 2, subject->name, subject->detail);
        for (const struct page_target *target = subject->first; target != NULL; target = target->next) {
            page_entry_target(entry, target->anchor);
        }
    }
}

/* ---- stocks ---- */

static struct text name_of_stock(const struct book *book, const struct step *step)
{
    const struct stock *stock = formulary_stock(book->context->formulary, step);
    if (stock != NULL) {
        return stock_title(book->arena, stock);
    }
    return text_from(arena_format(book->arena, "%.*s %s\u00A0%% stock", TEXT_ARGUMENTS(step->material->name),
                                  number_print_significant(book->arena, step->stock_percent, 3)));
}

void book_add_stock_index(const struct book *book)
{
    struct subjects subjects = {book->arena, NULL};
    for (size_t i = 0; i < book->stock_count; i++) {
        note(&subjects, stock_title(book->arena, book->stocks[i]), (struct text){0}, book->stock_anchors[i]);
    }
    for (size_t i = 0; i < book->count; i++) {
        for (const struct part *part = book->chapters[i].formula->parts; part != NULL; part = part->next) {
            for (const struct step *step = part->steps; step != NULL; step = step->next) {
                if (step_is_addition(step) && step->how == ADD_STOCK) {
                    note(&subjects, name_of_stock(book, step), (struct text){0}, book->chapters[i].anchor);
                }
            }
        }
    }
    struct page *page = book_add_page(book, TEXT("stocks"), TEXT("Stocks and who draws on them"));
    put(&subjects, page);
}

/* ---- materials ---- */

/* "Na2CO3, Na2CO3.H2O": the forms that the library knows, so that a jar's label can be held against it. */
static struct text formulas_of(const struct book *book, const struct material *material)
{
    struct buffer words;
    buffer_start(&words, book->arena);
    for (size_t i = 0; i < material->form_count; i++) {
        struct text chemical = material->forms[i].chemical;
        bool again = i > 0 && text_equal(chemical, material->forms[i - 1].chemical);
        if (chemical.length > 0 && !again) {
            buffer_string(&words, words.length > 0 ? ", " : "");
            buffer_text(&words, chemical_print(book->arena, chemical));
        }
    }
    return (struct text){words.bytes, words.length};
}

void book_add_material_index(const struct book *book)
{
    struct subjects subjects = {book->arena, NULL};
    for (size_t i = 0; i < book->count; i++) {
        for (const struct part *part = book->chapters[i].formula->parts; part != NULL; part = part->next) {
            for (const struct step *step = part->steps; step != NULL; step = step->next) {
                bool counts = step_is_addition(step) && step->material != NULL && step->how != ADD_WATER &&
                              !(step->how == ADD_TO_MAKE && text_is(step->material->name, "water"));
                if (counts) {
                    note(&subjects, step->material->name, formulas_of(book, step->material), book->chapters[i].anchor);
                }
            }
        }
    }
    struct page *page = book_add_page(book, TEXT("materials"), TEXT("Materials"));
    page_set_subtitle(page, TEXT("and the sheets that use them"));
    put(&subjects, page);
}

/* ---- sources ---- */

bool book_has_sources(const struct book *book)
{
    for (size_t i = 0; i < book->count; i++) {
        if (book->chapters[i].formula->source.length > 0) {
            return true;
        }
    }
    return false;
}

void book_add_sources(const struct book *book)
{
    if (!book_has_sources(book)) {
        return;
    }
    struct subjects subjects = {book->arena, NULL};
    for (size_t i = 0; i < book->count; i++) {
        if (book->chapters[i].formula->source.length > 0) {
            note(&subjects, book->chapters[i].formula->source, (struct text){0}, book->chapters[i].anchor);
        }
    }
    put(&subjects, book_add_page(book, TEXT("sources"), TEXT("Sources")));
}
