/* Square codes and courses of work by the clock: as text, and as data. */
#include "page/page_help.h"

static struct page *course(void)
{
    struct page *page = page_start(&arena);
    page_set_title(page, TEXT("Course"));
    page_add_code(page, TEXT("PD-014"), TEXT("batch"));
    struct page_timeline *timeline = page_add_timeline(page, TEXT("One reel"));
    page_stage(timeline, TEXT("developer"), TEXT("20 °C"), 0, 570);
    page_stage(timeline, TEXT("wash"), TEXT(""), 570, NAN);
    return page;
}

static void test_text_shows_clock_and_code(void **state)
{
    (void)state;
    const char *text = rendered(course(), 80);
    assert_non_null(strstr(text, "PD-014"));
    assert_non_null(strstr(text, "0:00"));
    assert_non_null(strstr(text, "developer, 9:30; 20 °C"));
    assert_non_null(strstr(text, "9:30     wash\n"));
}

static void test_text_shows_contents_by_level(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    struct page_contents *contents = page_add_contents(page);
    page_contents_entry(contents, 1, TEXT("Fixers"), TEXT(""));
    page_entry_target(page_contents_entry(contents, 2, TEXT("Glasswort fixer"), TEXT("for film")), TEXT("f1"));
    page_contents_entry(contents, 1, TEXT("Toners"), TEXT(""));
    const char *text = rendered(page, 80);
    assert_non_null(strstr(text, "  Fixers\n    Glasswort fixer, for film\n\n  Toners\n"));
}

static void test_clock(void **state)
{
    (void)state;
    assert_true(text_is(page_clock(&arena, 30), "0:30"));
    assert_true(text_is(page_clock(&arena, 720), "12:00"));
    assert_true(text_is(page_clock(&arena, 3750), "1:02:30"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_text_shows_clock_and_code, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_text_shows_contents_by_level, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_clock, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
