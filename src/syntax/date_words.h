/* Days as people write them, where the notation wants year, month and day. */
#ifndef POTASH_SYNTAX_DATE_WORDS_H
#define POTASH_SYNTAX_DATE_WORDS_H

#include "base/arena.h"
#include "base/text.h"

/* What "1 Feb 2026", "February 1, 2026", "1.2.2026", "2/1/2026" may mean. */
struct date_words {
    size_t length;           /* bytes that were read; 0: it is no day */
    const char *readings[2]; /* "2026-02-01"; NULL where there is none: two, where the day may be the month */
};

/* Reads from `at`, which ends with the line or with NUL. */
struct date_words date_words_read(struct arena *arena, const char *at);

/* The last day of what "June 2027", "06/2027", "2027-06" may mean; one reading. */
struct date_words date_words_read_month(struct arena *arena, const char *at);

#endif
