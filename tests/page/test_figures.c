/* Figures that change with the batch: words with figures in them, and what holds for some sizes only. */
#include "page_help.h"

#include "page/figure.h"

static const struct page_item *first_note(struct page_row *row)
{
    return row->first_note_of_all;
}

static struct page_row *some_row(struct page **page)
{
    *page = page_start(&arena);
    struct page_table *table = page_add_table(*page);
    page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    return page_table_row(table);
}

static void figures_stand_in_words(void **state)
{
    (void)state;
    struct page *page;
    struct page_row *row = some_row(&page);
    struct page_words taken = page_figure(&arena, PAGE_FIGURE_VOLUME, 12.5, 0, TEXT("25\u00A0mL"));
    struct page_words held = page_figure(&arena, PAGE_FIGURE_MASS, 0.125, 0.25, TEXT("0.25 to 0.5\u00A0g"));
    page_row_note(row, page_compose(page, "  take  {}: {} {}", taken, page_plain(TEXT("it holds")), held));
    const struct page_item *note = first_note(row);
    assert_true(text_is(note->text, "take 25\u00A0mL: it holds 0.25 to 0.5\u00A0g"));
    const struct page_figure *first = note->figures;
    assert_int_equal(first->way, PAGE_FIGURE_VOLUME);
    assert_true(first->number == 12.5 && first->high == 0);
    assert_int_equal(first->at, strlen("take "));
    assert_int_equal(first->length, strlen("25\u00A0mL"));
    const struct page_figure *second = first->next;
    assert_int_equal(second->way, PAGE_FIGURE_MASS);
    assert_true(second->number == 0.125 && second->high == 0.25);
    assert_memory_equal(note->text.at + second->at, "0.25 to 0.5\u00A0g", second->length);
    assert_null(second->next);
}

static void a_figure_keeps_every_digit(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    double number = 1000.0 / 3;
    page_add_paragraph(page, page_figure(&arena, PAGE_FIGURE_TIMES, number, 0, TEXT("333.3")));
    assert_true(page->first->figures->number == number);
    assert_true(text_is(page->first->as.paragraph, "333.3"));
}

/* Blanks that fall away and bytes that are no UTF-8 move what follows; nothing that a text holds is taken for a figure. */
static void figures_move_with_their_words(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    struct page_words one = page_figure(&arena, PAGE_FIGURE_MASS, 1, 0, TEXT("1\u2007g"));
    struct page_words addend = page_figure(&arena, PAGE_FIGURE_ADDEND, 2, 0, TEXT(""));
    page_add_paragraph(page, page_compose(page, " {} {}{}{}\t", page_plain(TEXT("a \xFF  {}\t\tb")), addend, addend, one));
    const struct page_figure *figure = page->first->figures;
    assert_true(text_is(page->first->as.paragraph, "a \uFFFD {} b 1\u00A0g"));
    for (int i = 0; i < 2; i++, figure = figure->next) {
        assert_int_equal(figure->way, PAGE_FIGURE_ADDEND);
        assert_int_equal(figure->at, strlen("a \uFFFD {} b "));
        assert_int_equal(figure->length, 0);
    }
    assert_int_equal(figure->at, strlen("a \uFFFD {} b "));
    assert_int_equal(figure->length, strlen("1\u00A0g"));
    assert_null(figure->next);
}

static void what_does_not_hold_is_kept_aside(void **state)
{
    (void)state;
    struct page *page;
    struct page_row *row = some_row(&page);
    struct page_batch batch = {.makes = 1000, .scale = 2, .unit = TEXT("L"), .balance = 0.1, .graduate = 1, .heavy = 10000};
    page_set_batch(page, &batch);
    page_row_note_when(page, row, 0, 2, TEXT("below two"));
    page_row_note_when(page, row, 2, 3, TEXT("from two"));
    page_row_note(row, TEXT("always"));
    page_add_fact_when(page, 0, 1, TEXT("batch"), TEXT("small"));
    page_add_fact_when(page, 1, INFINITY, TEXT("batch"), TEXT("large"));
    assert_true(text_is(row->first_note->text, "from two"));
    assert_true(text_is(row->first_note->next->text, "always"));
    assert_null(row->first_note->next->next);
    assert_true(text_is(row->first_note_of_all->text, "below two"));
    assert_true(text_is(row->first_note_of_all->next_of_all->text, "from two"));
    assert_true(text_is(page->facts.first->text, "large"));
    assert_null(page->facts.first->next);
    assert_null(strstr(rendered(page, 80), "below two"));
    assert_non_null(strstr(rendered(page, 80), "large"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(figures_stand_in_words, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_figure_keeps_every_digit, set_up, tear_down),
        cmocka_unit_test_setup_teardown(figures_move_with_their_words, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_does_not_hold_is_kept_aside, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
