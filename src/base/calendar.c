/* Days of the calendar.  A year is taken to begin in March, so that the leap day is its last: the length of the months is
 * then a straight line, 153 days in five months from March on. */
#include "base/calendar.h"

#include <stdio.h>

enum { DAYS_IN_ERA = 146097 /* of 400 years */, DAYS_TO_1970 = 719468 /* from 0000-03-01 */ };

static int figures(const char *at, size_t count)
{
    int value = 0;
    for (size_t i = 0; i < count; i++) {
        if (at[i] < '0' || at[i] > '9') {
            return -1;
        }
        value = value * 10 + (at[i] - '0');
    }
    return value;
}

static int days_of_month(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return days[month - 1] + (month == 2 && leap);
}

long calendar_day(struct text date)
{
    bool shaped = date.length == 10 && date.at[4] == '-' && date.at[7] == '-';
    int year = shaped ? figures(date.at, 4) : -1;
    int month = shaped ? figures(date.at + 5, 2) : -1;
    int day = shaped ? figures(date.at + 8, 2) : -1;
    if (year < 0 || month < 1 || month > 12 || day < 1 || day > days_of_month(year, month)) {
        return CALENDAR_NO_DAY;
    }
    long march_year = month <= 2 ? year - 1 : year;
    long era = (march_year + 400) / 400 - 1; /* floor, the year -1 included */
    long year_of_era = march_year - era * 400;
    long day_of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
    long day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * DAYS_IN_ERA + day_of_era - DAYS_TO_1970;
}

struct text calendar_print(struct arena *arena, long day)
{
    long first = -DAYS_TO_1970 - 60; /* 0000-01-01 */
    long last = 2932896;             /* 9999-12-31 */
    if (day < first || day > last) {
        return (struct text){0};
    }
    long shifted = day + DAYS_TO_1970;
    long era = (shifted + DAYS_IN_ERA) / DAYS_IN_ERA - 1;
    long day_of_era = shifted - era * DAYS_IN_ERA;
    long year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    long day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    long month = (5 * day_of_year + 2) / 153; /* from March */
    long day_of_month = day_of_year - (153 * month + 2) / 5 + 1;
    long year = era * 400 + year_of_era + (month >= 10);
    return text_from(arena_format(arena, "%04ld-%02ld-%02ld", year, (month + 2) % 12 + 1, day_of_month));
}
