/* Figures below and above the line. */
#include "base/chemical.h"

#include "base/buffer.h"

static void put_below(struct buffer *out, char digit)
{
    char sign[] = "\342\202\200"; /* U+2080, subscript zero; the others follow it */
    sign[2] = (char)(sign[2] + (digit - '0'));
    buffer_string(out, sign);
}

static void put_above(struct buffer *out, size_t number)
{
    static const char *const digits[] = {"\u2070", "\u00B9", "\u00B2", "\u00B3", "\u2074", "\u2075", "\u2076", "\u2077", "\u2078", "\u2079"};
    if (number >= 10) {
        put_above(out, number / 10);
    }
    buffer_string(out, digits[number % 10]);
}

struct text chemical_print(struct arena *arena, struct text formula)
{
    struct buffer out;
    buffer_start(&out, arena);
    bool after_atom = false; /* a number that follows one counts it; any other counts what comes behind */
    for (size_t i = 0; i < formula.length; i++) {
        char c = formula.at[i];
        if (c >= '0' && c <= '9') {
            if (after_atom) {
                put_below(&out, c);
            } else {
                buffer_character(&out, c);
            }
            continue;
        }
        size_t signs = i;
        while (signs < formula.length && formula.at[signs] == c) {
            signs++;
        }
        if ((c == '+' || c == '-') && signs == formula.length && i > 0) { /* the charge, at the end */
            if (signs - i > 1) {
                put_above(&out, signs - i);
            }
            buffer_string(&out, c == '+' ? "\u207A" : "\u207B");
            break;
        }
        if (c == '.') {
            buffer_string(&out, "\u00B7");
        } else {
            buffer_character(&out, c);
        }
        after_atom = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == ')' || c == ']';
    }
    return (struct text){buffer_finish(&out), out.length};
}
