/* Constant tables in C: what all of them are made of. */
#include "write_tables.h"

#include <math.h>
#include <stdio.h>

void write_string(struct text text)
{
    putchar('"');
    for (size_t i = 0; i < text.length; i++) {
        unsigned char c = (unsigned char)text.at[i];
        bool plain = c >= ' ' && c < 0x7F && c != '"' && c != '\\' && c != '?';
        printf(plain ? "%c" : "\\%03o", c);
    }
    putchar('"');
}

void write_text(struct text text)
{
    if (text.length == 0) {
        printf("{0},");
        return;
    }
    putchar('{');
    write_string(text);
    printf(", %zu},", text.length);
}

void write_number(double number)
{
    if (isnan(number)) {
        printf("NAN,");
    } else {
        printf("%a,", number);
    }
}

void write_bits(const uint64_t *bits, size_t count)
{
    putchar('{');
    for (size_t i = 0; i < count; i++) {
        printf("UINT64_C(0x%llx),", (unsigned long long)bits[i]);
    }
    printf("},");
}
