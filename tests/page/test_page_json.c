/* Pages as data. */
#include "page_help.h"

static void json_has_the_shape_described(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    page_set_title(page, TEXT("Tōner"));
    page_fact_value(page_add_fact(page, TEXT("batch"), TEXT("2 L")), 2000, TEXT("mL"));
    page_add_paragraph(page, TEXT("text"));
    page_keep_with_next(page);
    struct page_table *table = page_add_table(page);
    struct page_column *tick = page_table_column(table, TEXT(""), PAGE_COLUMN_TICK, PAGE_LEFT, 1);
    struct page_column *amount = page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 2);
    struct page_row *row = page_table_row(table);
    page_row_amount(row, amount, TEXT("1.5 g"), 1.5, TEXT("g"));
    page_row_emphasize(row, amount);
    page_row_note(row, TEXT("poison"));
    page_table_between(table, TEXT("filter"));
    row = page_table_row(table);
    page_row_without(row, tick);
    page_row_amount(row, amount, TEXT("?"), INFINITY, TEXT("g"));
    page_add_warning(page, PAGE_NOTE, TEXT("a"), TEXT("b"));
    page_entry_target(page_contents_entry(page_add_contents(page), 2, TEXT("c"), TEXT("d")), TEXT("e-1"));
    page_set_anchor(page, TEXT("f"));
    page_add_break(page);
    json_t *wanted =
        json_loads("{\"title\":\"Tōner\",\"subtitle\":\"\",\"source\":\"\",\"date\":\"\",\"caution\":\"\","
                   " \"facts\":[{\"label\":\"batch\",\"text\":\"2 L\",\"value\":2000.0,\"unit\":\"mL\"}],"
                   " \"blocks\":[{\"block\":\"paragraph\",\"text\":\"text\",\"keep_with_next\":true},"
                   "  {\"block\":\"table\",\"columns\":["
                   "    {\"title\":\"\",\"kind\":\"tick\",\"alignment\":\"left\",\"priority\":1},"
                   "    {\"title\":\"amount\",\"kind\":\"amount\",\"alignment\":\"decimal\",\"priority\":2}],"
                   "   \"rows\":[{\"row\":\"ordinary\",\"notes\":[\"poison\"],\"remarks\":[],\"cells\":[{\"text\":\"\"},"
                   "              {\"text\":\"1.5 g\",\"value\":1.5,\"unit\":\"g\",\"emphasis\":true}]},"
                   "            {\"row\":\"between\",\"text\":\"filter\",\"tick\":true,\"notes\":[],\"remarks\":[]},"
                   "            {\"row\":\"ordinary\",\"notes\":[],\"remarks\":[],\"cells\":[null,{\"text\":\"?\",\"unit\":\"g\"}]}]},"
                   "  {\"block\":\"warning\",\"severity\":\"note\",\"title\":\"a\",\"text\":\"b\"},"
                   "  {\"block\":\"contents\",\"entries\":["
                   "    {\"level\":2,\"text\":\"c\",\"detail\":\"d\",\"targets\":[\"e-1\"]}]},"
                   "  {\"block\":\"break\"}],\"anchor\":\"f\"}",
                   0, NULL);
    assert_non_null(wanted);
    json_t *json = page_render_json(page);
    assert_true(json_equal(json, wanted));
    json_decref(json);
    json_decref(wanted);
}

static long allocations_left;
static long allocations_open;

static void *failing_malloc(size_t size)
{
    if (allocations_left-- <= 0) {
        return NULL;
    }
    allocations_open++;
    return malloc(size);
}

static void counting_free(void *memory)
{
    allocations_open -= memory != NULL;
    free(memory);
}

static void json_without_memory_is_null_and_leaks_nothing(void **state)
{
    (void)state;
    struct sheet sheet = full_sheet();
    json_set_alloc_funcs(failing_malloc, counting_free);
    long needed = 0;
    for (; needed < 10000; needed++) {
        allocations_left = needed;
        json_t *json = page_render_json(sheet.page);
        if (json != NULL) {
            json_decref(json);
            assert_int_equal(allocations_open, 0);
            break;
        }
        assert_int_equal(allocations_open, 0);
    }
    json_set_alloc_funcs(malloc, free);
    assert_true(needed > 100 && needed < 10000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(json_has_the_shape_described),
        TEST(json_without_memory_is_null_and_leaks_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
