/* Days of the calendar.  A year is taken to begin in March, so that the leap day is its last: the length of the months is
 * then a straight line, 153 days in five months from March on. */
#include "base/calendar.h"

#include <math.h>
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

enum { FIRST_DAY = -DAYS_TO_1970 - 60 /* 0000-01-01 */, LAST_DAY = 2932896 /* 9999-12-31 */ };

static long day_of(int year, int month, int day)
{
    long march_year = month <= 2 ? year - 1 : year;
    long era = (march_year + 400) / 400 - 1; /* floor, the year -1 included */
    long year_of_era = march_year - era * 400;
    long day_of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
    long day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * DAYS_IN_ERA + day_of_era - DAYS_TO_1970;
}

long calendar_day(struct text date)
{
    bool shaped = date.length == 10 && date.at[4] == '-' && date.at[7] == '-';
    int year = shaped ? figures(date.at, 4) : -1;
    int month = shaped ? figures(date.at + 5, 2) : -1;
    int day = shaped ? figures(date.at + 8, 2) : -1;
    bool known = year >= 0 && month >= 1 && month <= 12 && day >= 1 && day <= days_of_month(year, month);
    return known ? day_of(year, month, day) : CALENDAR_NO_DAY;
}

struct date {
    int year, month, day;
};

static struct date date_of(long day)
{
    long shifted = day + DAYS_TO_1970;
    long era = (shifted + DAYS_IN_ERA) / DAYS_IN_ERA - 1;
    long day_of_era = shifted - era * DAYS_IN_ERA;
    long year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    long day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    long month = (5 * day_of_year + 2) / 153; /* from March */
    return (struct date){.year = (int)(era * 400 + year_of_era + (month >= 10)),
                         .month = (int)((month + 2) % 12 + 1),
                         .day = (int)(day_of_year - (153 * month + 2) / 5 + 1)};
}

long calendar_later(long day, double seconds, double months)
{
    const double seconds_in_day = 86400;
    const double whole = 1e-6; /* s: the rounding of doubles is no day */
    months = floor(months + whole);
    double days = (fmax(seconds - months * CALENDAR_MEAN_MONTH, 0) + whole) / seconds_in_day;
    bool known = day >= FIRST_DAY && day <= LAST_DAY && months >= 0 && months <= 12e4 && days >= 0 && days <= LAST_DAY - FIRST_DAY;
    if (!known) {
        return CALENDAR_NO_DAY;
    }
    struct date date = date_of(day);
    int month = date.month - 1 + (int)months;
    int year = date.year + month / 12;
    month = month % 12 + 1;
    int last = days_of_month(year, month);
    long later = day_of(year, month, date.day < last ? date.day : last) + (long)days;
    return later > LAST_DAY ? CALENDAR_NO_DAY : later;
}

struct text calendar_print(struct arena *arena, long day)
{
    if (day < FIRST_DAY || day > LAST_DAY) {
        return (struct text){0};
    }
    struct date date = date_of(day);
    return text_from(arena_format(arena, "%04d-%02d-%02d", date.year, date.month, date.day));
}
