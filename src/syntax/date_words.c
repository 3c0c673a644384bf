/* Days in words and in the order of other habits. */
#include "syntax/date_words.h"

#include "base/calendar.h"

#include <string.h>
#include <strings.h>

/* A number or the name of a month. */
struct piece {
    long number;      /* -1: none */
    bool is_month;    /* it was a name */
    size_t digits;
};

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* The month of a name or its first three letters and more: 1 to 12, or 0. */
static long month_of(const char *at, size_t length)
{
    static const char *const months[] = {"january", "february", "march",     "april",   "may",      "june",
                                         "july",    "august",   "september", "october", "november", "december"};
    for (size_t i = 0; i < sizeof months / sizeof *months && length >= 3; i++) {
        if (length <= strlen(months[i]) && strncasecmp(at, months[i], length) == 0) {
            return (long)i + 1;
        }
    }
    return 0;
}

static struct piece read_piece(const char **cursor)
{
    const char *at = *cursor;
    struct piece piece = {.number = -1};
    if (text_is_digit(*at)) {
        piece.number = 0;
        for (; text_is_digit(*at) && piece.digits < 5; at++, piece.digits++) {
            piece.number = piece.number * 10 + (*at - '0');
        }
        static const char *const endings[] = {"st", "nd", "rd", "th"};
        for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) {
            bool ends = strncasecmp(at, endings[i], 2) == 0 && !is_letter(at[2]);
            at += ends ? 2 : 0;
        }
    } else {
        size_t length = 0;
        while (is_letter(at[length])) {
            length++;
        }
        long month = month_of(at, length);
        piece.number = month > 0 ? month : -1;
        piece.is_month = month > 0;
        at += length;
    }
    *cursor = at;
    return piece;
}

/* Blanks and one sign between the pieces of a day. */
static const char *over_gap(const char *at)
{
    at += strspn(at, " \t");
    at += *at != '\0' && strchr("./-,", *at) != NULL;
    return at + strspn(at, " \t");
}

static void add_reading(struct arena *arena, struct date_words *words, long year, long month, long day)
{
    const char *date = arena_format(arena, "%04ld-%02ld-%02ld", year, month, day);
    bool known = month >= 1 && month <= 12 && calendar_day(text_from(date)) != CALENDAR_NO_DAY;
    size_t place = words->readings[0] == NULL ? 0 : 1;
    if (known && (place == 0 || strcmp(words->readings[0], date) != 0)) {
        words->readings[place] = date;
    }
}

struct date_words date_words_read(struct arena *arena, const char *at)
{
    struct date_words words = {0};
    struct piece pieces[3];
    const char *cursor = at;
    size_t names = 0;
    for (int i = 0; i < 3; i++) {
        cursor = i == 0 ? cursor : over_gap(cursor);
        pieces[i] = read_piece(&cursor);
        names += pieces[i].is_month;
        if (pieces[i].number < 0) {
            return words;
        }
    }
    if (is_letter(*cursor) || text_is_digit(*cursor) || names > 1) {
        return words;
    }
    long first = pieces[0].number;
    long second = pieces[1].number;
    long third = pieces[2].number;
    if (pieces[0].digits == 4) { /* year, month, day in another dress */
        add_reading(arena, &words, first, second, third);
    } else if (pieces[2].digits == 4 && pieces[0].is_month) {
        add_reading(arena, &words, third, first, second);
    } else if (pieces[2].digits == 4 && pieces[1].is_month) {
        add_reading(arena, &words, third, second, first);
    } else if (pieces[2].digits == 4) { /* the day first, as in most of the world, or the month */
        add_reading(arena, &words, third, second, first);
        add_reading(arena, &words, third, first, second);
    }
    words.length = words.readings[0] == NULL ? 0 : (size_t)(cursor - at);
    return words;
}

struct date_words date_words_read_month(struct arena *arena, const char *at)
{
    struct date_words words = {0};
    const char *cursor = at;
    struct piece first = read_piece(&cursor);
    cursor = over_gap(cursor);
    struct piece second = read_piece(&cursor);
    bool year_first = first.digits == 4 && second.number >= 0;
    bool year_last = second.digits == 4 && first.number >= 0;
    if (year_first == year_last || is_letter(*cursor) || text_is_digit(*cursor) || *cursor == '-' || *cursor == '/') {
        return words;
    }
    long year = year_first ? first.number : second.number;
    long month = year_first ? second.number : first.number;
    for (long day = 31; day >= 28 && words.readings[0] == NULL; day--) {
        add_reading(arena, &words, year, month, day);
    }
    words.length = words.readings[0] == NULL ? 0 : (size_t)(cursor - at);
    return words;
}
