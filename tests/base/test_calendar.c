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

/* Expected days: W3C XML Schema 1.0 part 2, appendix E, where it says so, else Python's dateutil 2.9, relativedelta. */
static void months_are_months_of_the_calendar(void **state)
{
    (void)state;
    struct arena arena;
    arena_start(&arena);
    jmp_buf failed;
    if (setjmp(failed) != 0) {
        fail_msg("out of memory");
    }
    arena.on_failure = &failed;
    static const struct {
        const char *from;
        int months, days;
        const char *to;
    } cases[] = {
        {"2000-03-30", 1, 1, "2000-05-01"}, /* appendix E: months first, then days */
        {"2000-01-12", 15, 5, "2001-04-17"}, /* appendix E: P1Y3M5D */
        {"2026-01-27", 1, 0, "2026-02-27"}, {"2026-01-28", 1, 0, "2026-02-28"},  {"2026-01-29", 1, 0, "2026-02-28"},
        {"2026-01-31", 1, 0, "2026-02-28"}, {"2026-02-01", 1, 0, "2026-03-01"},  {"2026-01-31", 1, 3, "2026-03-03"},
        {"2024-01-29", 1, 0, "2024-02-29"}, {"2024-01-31", 1, 0, "2024-02-29"},  {"2023-12-31", 2, 0, "2024-02-29"},
        {"2024-02-29", 12, 0, "2025-02-28"}, {"2024-02-29", 48, 0, "2028-02-29"}, {"2096-02-29", 48, 0, "2100-02-28"},
        {"1999-02-28", 12, 0, "2000-02-28"}, {"2026-03-31", 6, 0, "2026-09-30"}, {"2026-08-31", 6, 0, "2027-02-28"},
        {"2026-11-30", 1, 0, "2026-12-30"}, {"2026-12-15", 1, 0, "2027-01-15"},  {"2025-12-31", 14, 10, "2027-03-10"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double seconds = cases[i].months * CALENDAR_MEAN_MONTH + cases[i].days * 86400.0;
        long day = calendar_later(calendar_day(text_from(cases[i].from)), seconds, cases[i].months);
        assert_string_equal(calendar_print(&arena, day).at, cases[i].to);
    }
    long last = calendar_day(TEXT("9999-12-31"));
    assert_int_equal(calendar_later(last, 0, 0), last);
    assert_int_equal(calendar_later(last, 86399, 0), last); /* hours are no day */
    assert_int_equal(calendar_later(last, 86400, 0), CALENDAR_NO_DAY);
    assert_int_equal(calendar_later(last, CALENDAR_MEAN_MONTH, 1), CALENDAR_NO_DAY);
    assert_int_equal(calendar_later(CALENDAR_NO_DAY, 86400, 0), CALENDAR_NO_DAY);
    arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(days_agree_with_the_c_library), cmocka_unit_test(what_is_no_day),
                                       cmocka_unit_test(months_are_months_of_the_calendar)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
