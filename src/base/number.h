/* Reading and printing numbers, the same in every locale. */
#ifndef POTASH_BASE_NUMBER_H
#define POTASH_BASE_NUMBER_H

#include "base/buffer.h"

#include <stdarg.h>

/* The value of decimal digits with at most one point ("12", "0.25", ".5"), correctly rounded. */
double number_read(struct text digits);

/* The same for the number at the start of `text`, which may have a minus; how many bytes it takes, 0 when there is none. */
size_t number_scan(struct text text, double *value);

/* vsnprintf with the decimal point, whatever sign the locale of the program around us has for it. */
int number_format_list(char *to, size_t room, const char *format, va_list arguments) __attribute__((format(printf, 3, 0)));

/* `value` with at most `decimals` places, zeros at the end dropped: 12.50 -> "12.5". */
const char *number_print(struct arena *arena, double value, int decimals);

/* `value` to `digits` significant figures without an exponent, zeros at the end dropped: 0.064799 -> "0.0648". */
const char *number_print_significant(struct arena *arena, double value, int digits);

/* The same at the end of a buffer, also rounded before the point: 223.4 to two figures -> "220". */
void number_add_significant(struct buffer *out, double value, int digits);

/* How many decimal places it takes to show multiples of `step`: 0.05 -> 2, 1 -> 0, 10 -> 0. */
int number_decimals_of_step(double step);

/* A Roman figure; i and j are one, and "ss" or ß, for a half, stands behind it or alone.  NAN where it is none. */
double number_read_roman(struct text word);

#endif
