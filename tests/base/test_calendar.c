/* Days of the calendar, against the C library's. */
#include "support/compiling.h"

#include "base/calendar.h"

#include <stdio.h>
#include <time.h>

static void days_agree_with_the_c_library(void **state)
{
    (void)state;
    struct arena arena;
    arena_start(&arena);
    jmp_buf failed;
    if (setjmp(failed) != 0) {
        fail_msg("out of memory");
    }
    arena.on_failure = &failed;
    for (long day = -60000; day < 60000; day += 17) { /* 1805 to 2134 */
        time_t moment = (time_t)day * 86400;
        struct tm parts;
        assert_non_null(gmtime_r(&moment, &parts));
        char wanted[32];
        strftime(wanted, sizeof wanted, "%Y-%m-%d", &parts);
        assert_string_equal(calendar_print(&arena, day).at, wanted);
        assert_int_equal(calendar_day(text_from(wanted)), day);
    }
    arena_release(&arena);
}

static void what_is_no_day(void **state)
{
    (void)state;
    /* 2000 was a leap year and 1900 was none: the Gregorian rule of 400 years. */
    assert_int_equal(calendar_day(TEXT("2000-02-29")), 951782400 / 86400); /* date -u -d 2000-02-29 +%s */
    static const char *const none[] = {"1900-02-29", "2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-4-1", "", "20260401xx"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        assert_int_equal(calendar_day(text_from(none[i])), CALENDAR_NO_DAY);
    }
    assert_int_equal(calendar_print(NULL, CALENDAR_NO_DAY).length, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(days_agree_with_the_c_library), cmocka_unit_test(what_is_no_day)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
