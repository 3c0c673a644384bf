/* Reading and printing numbers. */
#include "base/number.h"

#include <langinfo.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* A program that uses the library may have set a locale with another decimal sign; then the plain one is put in its place for a moment,
 * in this thread only. */
struct locale_in_force {
    locale_t plain; /* 0 where the host's does */
    locale_t host;
};

static struct locale_in_force enter_plain_locale(void)
{
    struct locale_in_force in_force = {0};
    if (strcmp(nl_langinfo(RADIXCHAR), ".") != 0) {
        in_force.plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
        in_force.host = in_force.plain == (locale_t)0 ? (locale_t)0 : uselocale(in_force.plain);
    }
    return in_force;
}

static void leave_plain_locale(struct locale_in_force in_force)
{
    if (in_force.plain != (locale_t)0) {
        uselocale(in_force.host);
        freelocale(in_force.plain);
    }
}

int number_format_list(char *to, size_t room, const char *format, va_list arguments)
{
    struct locale_in_force in_force = enter_plain_locale();
    int printed = vsnprintf(to, room, format, arguments);
    leave_plain_locale(in_force);
    return printed;
}

static double read_long(const char *digits)
{
    struct locale_in_force in_force = enter_plain_locale();
    double value = strtod(digits, NULL);
    leave_plain_locale(in_force);
    return value;
}

static const double powers_of_ten[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                       1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

double number_read(struct text digits)
{
    /* Up to 15 digits and 22 places, integer and power of ten are both exact and their quotient is correctly rounded
     * (W. D. Clinger, How to read floating point numbers accurately, 1990); longer ones go to the C library. */
    uint64_t whole = 0;
    size_t places = 0;
    if (digits.length <= 15) { /* as nearly always */
        for (size_t i = 0; i < digits.length; i++) {
            char c = digits.at[i];
            if (c == '.') {
                places = digits.length - i - 1;
            } else {
                whole = whole * 10u + (uint64_t)(c - '0');
            }
        }
        return places == 0 ? (double)whole : (double)whole / powers_of_ten[places];
    }
    size_t count = 0;
    bool after_point = false;
    for (size_t i = 0; i < digits.length; i++) {
        char c = digits.at[i];
        if (c == '.') {
            after_point = true;
            continue;
        }
        whole = whole * 10u + (uint64_t)(c - '0');
        count += whole != 0;
        places += after_point;
        if (count > 15 || places > 22) {
            char copy[512];
            size_t length = digits.length < sizeof copy - 1 ? digits.length : sizeof copy - 1;
            memcpy(copy, digits.at, length);
            copy[length] = '\0';
            return read_long(copy);
        }
    }
    return (double)whole / powers_of_ten[places];
}

size_t number_scan(struct text text, double *value)
{
    size_t sign = text.length > 0 && text.at[0] == '-';
    size_t end = sign;
    size_t points = 0;
    while (end < text.length && (text_is_digit(text.at[end]) || (text.at[end] == '.' && points == 0))) {
        points += text.at[end] == '.';
        end++;
    }
    bool number = end > sign + points;
    *value = number ? number_read((struct text){text.at + sign, end - sign}) : 0;
    *value = sign > 0 ? -*value : *value;
    return number ? end : 0;
}

static void drop_zeros(char *text)
{
    if (strchr(text, '.') == NULL) {
        return;
    }
    size_t length = strlen(text);
    while (text[length - 1] == '0') {
        length--;
    }
    if (text[length - 1] == '.') {
        length--;
    }
    text[length] = '\0';
    if (strcmp(text, "-0") == 0) {
        strcpy(text, "0");
    }
}

const char *number_print(struct arena *arena, double value, int decimals)
{
    char *text = arena_format(arena, "%.*f", decimals, value);
    drop_zeros(text);
    return text;
}

const char *number_print_significant(struct arena *arena, double value, int digits)
{
    if (value == 0 || !isfinite(value)) {
        return value == 0 ? "0" : "?";
    }
    int exponent = (int)floor(log10(fabs(value)));
    int decimals = digits - 1 - exponent;
    return number_print(arena, value, decimals < 0 ? 0 : decimals);
}

/* The digits of "2.234e+02" without the zeros at their end; the power of ten of the first goes to *exponent. */
static size_t significant_digits(char *printed, int *exponent)
{
    size_t count = 0;
    const char *at = printed;
    for (; *at != 'e'; at++) {
        if (text_is_digit(*at)) { /* a host may have another point */
            printed[count++] = *at;
        }
    }
    *exponent = (int)strtol(at + 1, NULL, 10);
    while (count > 1 && printed[count - 1] == '0') {
        count--;
    }
    return count;
}

void number_add_significant(struct buffer *out, double value, int digits)
{
    if (!isfinite(value)) {
        buffer_character(out, '?');
        return;
    }
    digits = digits < 1 ? 1 : digits > 15 ? 15 : digits;
    buffer_string(out, value < 0 ? "-" : "");
    double size = fabs(value);
    if (size < powers_of_ten[digits] && size == floor(size)) { /* as most figures are */
        buffer_number(out, (uint64_t)size, 0);
        return;
    }
    char printed[32];
    snprintf(printed, sizeof printed, "%.*e", digits - 1, size);
    int exponent;
    size_t count = significant_digits(printed, &exponent);
    size_t whole = exponent < 0 ? 0 : (size_t)exponent + 1; /* digits before the point */
    if (whole == 0) {
        buffer_string(out, "0.");
        buffer_repeat(out, '0', (size_t)(-exponent) - 1);
    } else {
        buffer_add(out, printed, whole < count ? whole : count);
        buffer_repeat(out, '0', whole > count ? whole - count : 0);
        buffer_string(out, whole < count ? "." : "");
    }
    buffer_add(out, printed + whole, whole < count ? count - whole : 0);
}

int number_decimals_of_step(double step)
{
    int decimals = 0;
    while (decimals < 6 && fabs(step - round(step)) > 1e-9 * fabs(step)) {
        step *= 10;
        decimals++;
    }
    return decimals;
}

static int numeral(char c)
{
    switch (c | 0x20) {
    case 'i':
    case 'j':
        return 1;
    case 'v':
        return 5;
    case 'x':
        return 10;
    case 'l':
        return 50;
    case 'c':
        return 100;
    default:
        return 0;
    }
}

double number_read_roman(struct text word)
{
    double half = 0;
    bool letters = word.length >= 2 && strncasecmp(word.at + word.length - 2, "ss", 2) == 0;
    bool eszett = word.length >= 2 && memcmp(word.at + word.length - 2, "ß", 2) == 0;
    if (letters || eszett) {
        half = 0.5;
        word = text_trim((struct text){word.at, word.length - 2});
    }
    double sum = 0;
    for (size_t i = 0; i < word.length; i++) {
        int value = numeral(word.at[i]);
        int next = i + 1 < word.length ? numeral(word.at[i + 1]) : 0;
        bool subtracted = next > value && (next == 5 * value || next == 10 * value);
        if (value == 0 || (next > value && !subtracted)) {
            return NAN;
        }
        sum += subtracted ? -value : value;
    }
    return sum + half > 0 ? sum + half : NAN;
}
