/* Molar masses from chemical formulas and the elements' standard atomic weights. */
#include "library/entries.h"

#include "base/number.h"

#include <math.h>

struct reader {
    struct library *library;
    struct text formula;
    size_t at;
    bool failed;
};

static char peek(const struct reader *reader)
{
    return reader->at < reader->formula.length ? reader->formula.at[reader->at] : '\0';
}

/* A count behind an element or bracket, or before a hydrate; 1 when there is none. */
static double read_count(struct reader *reader, bool decimals)
{
    size_t begin = reader->at;
    while (text_is_digit(peek(reader)) || (decimals && peek(reader) == '.' && reader->at + 1 < reader->formula.length &&
                                      text_is_digit(reader->formula.at[reader->at + 1]))) {
        reader->at++;
    }
    return reader->at == begin ? 1 : number_read((struct text){reader->formula.at + begin, reader->at - begin});
}

static double atomic_weight(struct reader *reader)
{
    size_t length = reader->at + 1 < reader->formula.length && reader->formula.at[reader->at + 1] >= 'a' &&
                            reader->formula.at[reader->at + 1] <= 'z'
                        ? 2
                        : 1;
    struct text symbol = {reader->formula.at + reader->at, length};
    struct library_entry *entry = library_find(reader->library, DECLARE_ELEMENT, symbol);
    const struct declaration *element = entry == NULL ? NULL : library_declaration(reader->library, entry);
    if (element == NULL || isnan(element->number)) {
        reader->failed = true;
        return 0;
    }
    reader->at += length;
    return element->number;
}

/* Elements and brackets up to the end, a dot, or the closing bracket of `depth`. */
static double read_group(struct reader *reader, int depth)
{
    double mass = 0;
    while (!reader->failed) {
        char c = peek(reader);
        if (c == '(' && depth < 8) {
            reader->at++;
            double inner = read_group(reader, depth + 1);
            if (peek(reader) != ')') {
                reader->failed = true;
                break;
            }
            reader->at++;
            mass += inner * read_count(reader, false);
        } else if (c >= 'A' && c <= 'Z') {
            double weight = atomic_weight(reader);
            mass += weight * read_count(reader, false);
        } else {
            break;
        }
    }
    return mass;
}

double library_molar_mass(struct library *library, struct text chemical, double *waters, size_t *fault)
{
    struct reader reader = {.library = library, .formula = chemical};
    double mass = 0;
    *waters = 0;
    do {
        double count = read_count(&reader, true);
        size_t begin = reader.at;
        double piece = read_group(&reader, 0);
        if (reader.at == begin) {
            reader.failed = true;
        }
        struct text group = {chemical.at + begin, reader.at - begin};
        if (mass > 0 && text_is(group, "H2O")) {
            *waters += count;
        }
        mass += count * piece;
        /* "." or the middle dot, which takes two bytes */
        if (peek(&reader) == '.') {
            reader.at++;
        } else if ((unsigned char)peek(&reader) == 0xC2 && reader.at + 1 < chemical.length) {
            reader.at += 2;
        } else {
            break;
        }
    } while (!reader.failed);
    while (!reader.failed && (peek(&reader) == '+' || peek(&reader) == '-')) { /* charges weigh nothing here */
        reader.at++;
    }
    if (reader.failed || reader.at != chemical.length) {
        *fault = reader.at;
        return NAN;
    }
    return mass;
}
