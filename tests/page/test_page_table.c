/* Tables as plain text. */
#include "page_help.h"

static void decimal_points_stand_in_line(void **state)
{
    (void)state;
    struct sheet sheet = {.page = page_start(&arena)};
    start_table(&sheet);
    static const struct {
        const char *material, *amount, *whole; /* `whole`: the figure up to where its point is or would be */
    } rows[] = {{"a", "750 mL", "750"},   {"b", "1.5 g", "1"},   {"c", "0.125 g", "0"}, {"d", "to 1000 mL", "to 1000"},
                {"e", "-12.75 g", "-12"}, {"f", "3 drops", "3"}, {"g", "1/4 oz", "1/4"}};
    enum { ROWS = sizeof rows / sizeof *rows };
    for (size_t i = 0; i < ROWS; i++) {
        add(&sheet, rows[i].material, rows[i].amount, 0, "", "");
    }
    for (size_t width = 40; width <= 200; width += 10) {
        const struct lines *lines = lines_of(rendered(sheet.page, width));
        size_t point = 0;
        for (size_t i = 0; i < ROWS; i++) {
            size_t line;
            size_t here = column_of(lines, 0, rows[i].amount, &line) + strlen(rows[i].whole);
            point = i == 0 ? here : point;
            assert_int_equal(here, point);
        }
    }
}

static void a_small_table_is_set_as_drawn(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    struct page_table *table = page_add_table(page);
    struct page_column *use = page_table_column(table, TEXT("use"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *stock = page_table_column(table, TEXT("stock"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    struct page_column *rolls = page_table_column(table, TEXT("rolls"), PAGE_COLUMN_AMOUNT, PAGE_RIGHT, 1);
    struct page_column *seen = page_table_column(table, TEXT("looked up"), PAGE_COLUMN_TEXT, PAGE_CENTRE, 1);
    struct page_row *row = page_table_row(table);
    page_row_cell(row, use, TEXT("tank"));
    page_row_cell(row, stock, TEXT("12.5 mL"));
    page_row_cell(row, rolls, TEXT("1"));
    page_row_cell(row, seen, TEXT("yes"));
    row = page_table_row(table);
    page_row_cell(row, use, TEXT("tray"));
    page_row_cell(row, stock, TEXT("250 mL"));
    page_row_emphasize(row, stock);
    page_row_cell(row, rolls, TEXT("16"));
    page_row_cell(row, seen, TEXT("no"));
    row = page_table_total(table);
    page_row_cell(row, use, TEXT("in all"));
    page_row_cell(row, rolls, TEXT("17"));
    /* Columns of 6, 9 (4 up to the point, 5 from there), 5 and 9, with gaps of 2: they start at 2, 10, 21 and 28. */
    assert_string_equal(rendered(page, 80), "  use         stock  rolls  looked up\n"
                                            "  ───────────────────────────────────\n"
                                            "  tank      12.5 mL      1     yes\n"
                                            "  tray    *250 mL*      16     no\n"
                                            "\n"
                                            "  in all                17\n");
}

static void notes_stand_under_their_row(void **state)
{
    (void)state;
    struct sheet sheet = full_sheet();
    for (size_t width = 30; width <= 200; width += 5) {
        const struct lines *lines = lines_of(rendered(sheet.page, width));
        size_t row = 0, note = 0, next = 0;
        size_t material = column_of(lines, 0, "sodium", &row);
        size_t mark = column_of(lines, 0, "! Loses", &note);
        column_of(lines, 0, "φωτογραφικό", &next);
        assert_true(row < note && note < next);
        assert_int_equal(mark, material); /* indented behind the box */
        /* It hangs: every line of it starts behind the mark, and an empty line parts it from the next row. */
        for (size_t i = note + 1; i < next - 1; i++) {
            assert_true(lines->at[i].length > mark + 2);
            assert_memory_equal(lines->at[i].at, "                    ", mark + 2);
            assert_true(lines->at[i].at[mark + 2] != ' ');
        }
        assert_int_equal(lines->at[next - 1].length, 0);
    }
}

static void steps_stand_between_the_rows_across_the_table(void **state)
{
    (void)state;
    struct sheet sheet = {.page = page_start(&arena)};
    start_table(&sheet);
    add(&sheet, "metol", "3 g", 3, "weighed", "");
    page_table_between(sheet.table, TEXT("stand for ten minutes with the lid on, in the dark"));
    struct page_row *step = page_table_between(sheet.table, TEXT("dissolve each before the next"));
    page_row_without(step, sheet.tick);
    add(&sheet, "borax", "4 g", 4, "weighed", "");
    const struct lines *lines = lines_of(rendered(sheet.page, 80));
    size_t stand = line_with(lines, "  [ ]  stand for ten minutes with the lid on, in the dark");
    size_t dissolve = line_with(lines, "       - dissolve each before the next");
    assert_true(line_with(lines, "metol") < stand && stand < dissolve && dissolve < line_with(lines, "borax"));
    assert_int_equal(lines->at[stand - 1].length, 0);
    assert_int_equal(lines->at[stand + 1].length, 0);
    assert_null(memmem(lines->at[stand].at, lines->at[stand].length, "__", 2));
    assert_null(memmem(lines->at[dissolve].at, lines->at[dissolve].length, "[ ]", 3));
}

static void columns_of_low_priority_give_way_first(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    struct page_table *table = page_add_table(page);
    struct page_column *first = page_table_column(table, TEXT("first"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *second = page_table_column(table, TEXT("second"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    struct page_column *third = page_table_column(table, TEXT("third"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    struct page_row *row = page_table_row(table);
    page_row_cell(row, first, TEXT("one two three four five"));   /* 23 columns */
    page_row_cell(row, second, TEXT("six seven eight nine ten")); /* 24 */
    page_row_cell(row, third, TEXT("red green blue black grey")); /* 25 */
    /* 2 + 23 + 2 + 24 + 2 + 25 = 78: all fit on one line. */
    assert_non_null(
        strstr(rendered(page, 78), "one two three four five  six seven eight nine ten  red green blue black grey\n"));
    /* One less: the second breaks, alone. */
    const char *text = rendered(page, 77);
    assert_non_null(strstr(text, "one two three four five  six seven eight nine     red green blue black grey\n"));
    assert_non_null(strstr(text, "\n                           ten\n"));
    /* At 14 columns each with gaps it is still in the table (48), below that it stands under the row. */
    assert_null(strstr(rendered(page, 48), "second: "));
    text = rendered(page, 47);
    assert_non_null(strstr(text, "  second: six seven eight nine ten\n"));
    assert_null(strstr(text, "third: "));
    text = rendered(page, 30);
    assert_non_null(strstr(text, "third: "));
    assert_null(strstr(text, "first: ")); /* the lead stays */
}

static void boxes_and_blanks_stand_where_they_belong(void **state)
{
    (void)state;
    struct sheet sheet = {.page = page_start(&arena)};
    start_table(&sheet);
    struct page_row *row = add(&sheet, "metol", "3 g", 3, "weighed", "");
    row = add(&sheet, "water", "1 L", 1000, "graduate", "");
    page_row_without(row, sheet.weighed);
    page_row_cell(row, sheet.lot, TEXT("tap"));
    row = page_table_total(sheet.table);
    page_row_cell(row, sheet.material, TEXT("sum"));
    const struct lines *lines = lines_of(rendered(sheet.page, 100));
    struct text metol = lines->at[line_with(lines, "metol")];
    struct text water = lines->at[line_with(lines, "water")];
    struct text sum = lines->at[line_with(lines, "sum")];
    assert_memory_equal(metol.at, "  [ ]  metol", 12);
    assert_non_null(memmem(metol.at, metol.length, "________  ________", 18));
    assert_memory_equal(water.at, "  [ ]  water", 12);
    assert_null(memmem(water.at, water.length, "_", 1));
    assert_non_null(memmem(water.at, water.length, "tap", 3));
    assert_true(text_equal(sum, TEXT("       sum")));
}

static void an_empty_page_and_an_empty_table_are_no_trouble(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    assert_string_equal(rendered(page, 80), "");
    struct page_table *table = page_add_table(page);
    assert_string_equal(rendered(page, 80), "");
    page_table_between(table, TEXT("filter"));
    assert_string_equal(rendered(page, 80), "  - filter\n");
    page_add_list(page, PAGE_NUMBERS);
    page_add_facts(page);
    page_add_blanks(page);
    page_add_pictograms(page);
    page_add_paragraph(page, ((struct text){NULL, 0}));
    page_table_row(table);
    size_t blocks = 0;
    for (const struct page_block *block = page->first; block != NULL; block = block->next) {
        blocks++;
    }
    assert_int_equal(blocks, 6);
}

static void a_column_without_anything_takes_no_room(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    struct page_table *table = page_add_table(page);
    page_table_column(table, TEXT(""), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *use = page_table_column(table, TEXT("use"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    page_table_column(table, TEXT(""), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    page_row_cell(page_table_row(table), use, TEXT("nineteen columns .."));
    page_row_cell(page_table_row(table), use, TEXT("tray"));
    assert_string_equal(rendered(page, 21), "  use\n  ───────────────────\n  nineteen columns ..\n  tray\n");
}

static void a_column_may_come_after_a_row(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    struct page_table *table = page_add_table(page);
    struct page_column *first = page_table_column(table, TEXT("a"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_row *row = page_table_row(table);
    page_row_cell(row, first, TEXT("one"));
    struct page_column *second = page_table_column(table, TEXT("b"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    assert_int_equal(page_cell_at(row, second->index)->text.length, 0);
    page_row_cell(row, second, TEXT("two"));
    assert_non_null(strstr(rendered(page, 80), "  one  two\n"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(decimal_points_stand_in_line),
        TEST(a_small_table_is_set_as_drawn),
        TEST(notes_stand_under_their_row),
        TEST(steps_stand_between_the_rows_across_the_table),
        TEST(columns_of_low_priority_give_way_first),
        TEST(boxes_and_blanks_stand_where_they_belong),
        TEST(an_empty_page_and_an_empty_table_are_no_trouble),
        TEST(a_column_without_anything_takes_no_room),
        TEST(a_column_may_come_after_a_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
