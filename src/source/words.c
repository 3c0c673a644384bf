/* Words kept as format and arguments until somebody prints them. */
#include "source/words.h"

#include "base/number.h"

#include <math.h>
#include <stdint.h>

enum { MOST_ARGUMENTS = 12, LONG_TEXT = 255, SIGNIFICANT = 6 /* digits of a bare %g, as printf has it */ };

struct conversion {
    char kind;              /* s, c, d, u, g, f, %; 0 for what is not known here */
    char size;              /* l, z or 0 */
    bool plus;              /* a positive number has its sign */
    bool precision_given;   /* as an argument */
    int precision;          /* -1 where there is none */
    const char *end;        /* behind it */
};

/* The conversion whose sign stands at `at`. */
static struct conversion read_conversion(const char *at)
{
    struct conversion conversion = {.precision = -1};
    at++;
    if (*at == '+') {
        conversion.plus = true;
        at++;
    }
    if (*at == '.') {
        at++;
        conversion.precision = 0;
        if (*at == '*') {
            conversion.precision_given = true;
            at++;
        }
        for (; text_is_digit(*at); at++) {
            conversion.precision = conversion.precision * 10 + (*at - '0');
        }
    }
    if (*at == 'l' || *at == 'z') {
        conversion.size = *at++;
    }
    bool known = *at != '\0' && strchr("scdugf%", *at) != NULL && (*at == 's' || !conversion.precision_given);
    conversion.kind = known ? *at : '\0';
    conversion.end = at + 1;
    return conversion;
}

union argument {
    double number;
    int64_t whole;
    struct text text;
};

static struct text bounded(const char *string, size_t most)
{
    const char *end = memchr(string, '\0', most);
    return (struct text){string, end == NULL ? most : (size_t)(end - string)};
}

/* Takes the arguments of a format in; the bytes that they need go to *size.  False where one is of a kind that is not known here. */
static bool take_arguments(const char *format, va_list arguments, size_t longest, union argument taken[MOST_ARGUMENTS], size_t *size)
{
    size_t count = 0;
    *size = 0;
    for (const char *at = strchr(format, '%'); at != NULL; at = strchr(at, '%')) {
        struct conversion conversion = read_conversion(at);
        at = conversion.end;
        if (conversion.kind == '%') {
            continue;
        }
        if (conversion.kind == '\0' || count == MOST_ARGUMENTS) {
            return false;
        }
        union argument *argument = &taken[count++];
        size_t most = longest;
        switch (conversion.kind) {
        case 's':
            if (conversion.precision >= 0) {
                int given = conversion.precision_given ? va_arg(arguments, int) : conversion.precision;
                most = given >= 0 && (size_t)given < longest ? (size_t)given : longest;
            }
            argument->text = bounded(va_arg(arguments, const char *), most);
            *size += argument->text.length + (argument->text.length < LONG_TEXT ? 1 : 1 + sizeof(uint32_t));
            break;
        case 'g':
        case 'f':
            argument->number = va_arg(arguments, double);
            *size += sizeof(double);
            break;
        case 'u':
            argument->whole = conversion.size == 'z'   ? (int64_t)va_arg(arguments, size_t)
                              : conversion.size == 'l' ? (int64_t)va_arg(arguments, unsigned long)
                                                       : (int64_t)va_arg(arguments, unsigned);
            *size += sizeof(int64_t);
            break;
        default:
            argument->whole = conversion.size == 'l' ? va_arg(arguments, long) : va_arg(arguments, int);
            *size += sizeof(int64_t);
        }
    }
    return true;
}

static char *put_text(char *to, struct text text)
{
    *to++ = (char)(text.length < LONG_TEXT ? text.length : LONG_TEXT);
    if (text.length >= LONG_TEXT) {
        uint32_t length = (uint32_t)text.length;
        memcpy(to, &length, sizeof length);
        to += sizeof length;
    }
    memcpy(to, text.at, text.length);
    return to + text.length;
}

static struct text next_text(const char **at)
{
    uint32_t length = (unsigned char)*(*at)++;
    if (length == LONG_TEXT) {
        memcpy(&length, *at, sizeof length);
        *at += sizeof length;
    }
    struct text text = {*at, length};
    *at += length;
    return text;
}

static struct kept_words *new_words(struct arena *arena, const char *format, size_t size)
{
    struct kept_words *words = arena_allocate(arena, sizeof *words + size);
    words->format = format;
    return words;
}

const struct kept_words *words_keep(struct arena *arena, size_t longest, const char *format, va_list arguments)
{
    union argument taken[MOST_ARGUMENTS];
    size_t size;
    va_list again;
    va_copy(again, arguments);
    bool known = take_arguments(format, again, longest, taken, &size);
    va_end(again);
    if (!known) {
        struct text whole = bounded(arena_format_list(arena, format, arguments), longest);
        struct kept_words *words = new_words(arena, "%s", 1 + sizeof(uint32_t) + whole.length);
        put_text(words->arguments, whole);
        return words;
    }
    struct kept_words *words = new_words(arena, format, size);
    char *to = words->arguments;
    const union argument *argument = taken;
    for (const char *at = size == 0 ? NULL : strchr(format, '%'); at != NULL; at = strchr(at, '%')) {
        struct conversion conversion = read_conversion(at);
        at = conversion.end;
        if (conversion.kind == 's') {
            to = put_text(to, argument++->text);
        } else if (conversion.kind != '%') {
            memcpy(to, argument++, sizeof(int64_t));
            to += sizeof(int64_t);
        }
    }
    return words;
}

static void print_number(struct buffer *out, const struct conversion *conversion, const char *at)
{
    double number;
    int64_t whole;
    memcpy(&number, at, sizeof number);
    memcpy(&whole, at, sizeof whole);
    bool fraction = conversion->kind == 'g' || conversion->kind == 'f';
    if (conversion->plus && (fraction ? number >= 0 : whole >= 0)) {
        buffer_character(out, '+');
    }
    if (conversion->kind == 'g') {
        number_add_significant(out, number, conversion->precision < 0 ? SIGNIFICANT : conversion->precision);
    } else if (conversion->kind == 'f') {
        buffer_format(out, "%.*f", conversion->precision < 0 ? SIGNIFICANT : conversion->precision, number);
    } else if (conversion->kind == 'c') {
        buffer_character(out, (char)whole);
    } else {
        bool negative = conversion->kind == 'd' && whole < 0;
        buffer_string(out, negative ? "-" : "");
        buffer_number(out, negative ? 0 - (uint64_t)whole : (uint64_t)whole, 0);
    }
}

void words_print(struct buffer *out, const struct kept_words *words)
{
    const char *argument = words->arguments;
    const char *plain = words->format;
    for (const char *at = strchr(plain, '%'); at != NULL; at = strchr(plain, '%')) {
        buffer_add(out, plain, (size_t)(at - plain));
        struct conversion conversion = read_conversion(at);
        plain = conversion.end;
        if (conversion.kind == 's') {
            buffer_text(out, next_text(&argument));
        } else if (conversion.kind == '%') {
            buffer_character(out, '%');
        } else {
            print_number(out, &conversion, argument);
            argument += sizeof(int64_t);
        }
    }
    buffer_string(out, plain);
}

static void cut_short(struct buffer *out, size_t begin)
{
    if (out->length - begin > WORDS_SHOWN) {
        size_t end = begin + WORDS_SHOWN;
        while (((unsigned char)out->bytes[end] & 0xC0) == 0x80) {
            end--;
        }
        out->length = end;
        buffer_string(out, "…");
    }
}

void words_print_short(struct buffer *out, const struct kept_words *words)
{
    size_t begin = out->length;
    words_print(out, words);
    cut_short(out, begin);
}

void words_add_short(struct buffer *out, struct text text)
{
    size_t begin = out->length;
    buffer_text(out, text);
    cut_short(out, begin);
}

const char *words_string(struct arena *arena, const struct kept_words *words)
{
    struct buffer out;
    buffer_start(&out, arena);
    words_print_short(&out, words);
    return buffer_finish(&out);
}

bool words_equal(const struct kept_words *a, const struct kept_words *b)
{
    if (strcmp(a->format, b->format) != 0) {
        return false;
    }
    const char *one = a->arguments;
    const char *other = b->arguments;
    for (const char *at = strchr(a->format, '%'); at != NULL; at = strchr(at, '%')) {
        struct conversion conversion = read_conversion(at);
        at = conversion.end;
        if (conversion.kind == 's') {
            if (!text_equal(next_text(&one), next_text(&other))) {
                return false;
            }
        } else if (conversion.kind != '%') {
            if (memcmp(one, other, sizeof(int64_t)) != 0) {
                return false;
            }
            one += sizeof(int64_t);
            other += sizeof(int64_t);
        }
    }
    return true;
}
