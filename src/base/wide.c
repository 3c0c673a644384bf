/* Whole numbers of 128 bits in two halves; nothing where the compiler has them itself. */
#include "base/wide.h"

#if !defined __SIZEOF_INT128__ || defined WIDE_IN_HALVES

#include <math.h>

static int compare_sizes(wide a, wide b)
{
    return a.high != b.high ? (a.high > b.high) - (a.high < b.high) : (a.low > b.low) - (a.low < b.low);
}

static wide with_sign(wide size, bool negative)
{
    size.negative = negative && (size.high | size.low) != 0;
    return size;
}

/* `a` is no less than `b`. */
static wide take_size(wide a, wide b)
{
    return (wide){a.high - b.high - (a.low < b.low), a.low - b.low, false};
}

static wide doubled_size(wide a)
{
    return (wide){a.high << 1 | a.low >> 63, a.low << 1, false};
}

static wide halved_size(wide a)
{
    return (wide){a.high >> 1, a.low >> 1 | a.high << 63, false};
}

wide wide_of(long long number)
{
    return (wide){0, number < 0 ? 0u - (uint64_t)number : (uint64_t)number, number < 0};
}

bool wide_add(wide a, wide b, wide *sum)
{
    if (a.negative != b.negative) {
        bool first = compare_sizes(a, b) >= 0;
        *sum = with_sign(first ? take_size(a, b) : take_size(b, a), first ? a.negative : b.negative);
        return true;
    }
    uint64_t low = a.low + b.low;
    *sum = with_sign((wide){a.high + b.high + (low < a.low), low, false}, a.negative);
    return sum->high >> 63 == 0; /* two sizes below 2^127 make one below 2^128 */
}

bool wide_multiply(wide a, wide b, wide *product)
{
    uint64_t a_low = (uint32_t)a.low;
    uint64_t a_high = a.low >> 32;
    uint64_t b_low = (uint32_t)b.low;
    uint64_t b_high = b.low >> 32;
    /* The product of the lower halves has all 128 bits. */
    uint64_t middle = a_high * b_low + (a_low * b_low >> 32);
    uint64_t other = a_low * b_high + (uint32_t)middle;
    uint64_t low = other << 32 | (uint32_t)(a_low * b_low);
    uint64_t high = a_high * b_high + (middle >> 32) + (other >> 32);
    uint64_t cross;
    bool fits = a.high == 0 || b.high == 0;
    fits = !__builtin_mul_overflow(a.high != 0 ? a.high : b.high, a.high != 0 ? b.low : a.low, &cross) && fits;
    fits = !__builtin_add_overflow(high, cross, &high) && high >> 63 == 0 && fits;
    *product = with_sign((wide){high, low, false}, a.negative != b.negative);
    return fits;
}

wide wide_divide(wide a, wide b, wide *rest)
{
    wide left = with_sign(a, false);
    wide part = with_sign(b, false);
    wide quotient = {0, 0, false};
    int steps = 0;
    for (; part.high >> 62 == 0 && compare_sizes(part, left) < 0; steps++) {
        part = doubled_size(part);
    }
    for (; steps >= 0; steps--) {
        quotient = doubled_size(quotient);
        if (compare_sizes(left, part) >= 0) {
            left = take_size(left, part);
            quotient.low |= 1;
        }
        part = halved_size(part);
    }
    *rest = with_sign(left, a.negative);
    return with_sign(quotient, a.negative != b.negative);
}

wide wide_negate(wide a)
{
    return with_sign(a, !a.negative);
}

int wide_sign(wide a)
{
    return a.negative ? -1 : (a.high | a.low) != 0;
}

long double wide_value(wide a)
{
    long double size = ldexpl((long double)a.high, 64) + (long double)a.low;
    return a.negative ? -size : size;
}

wide wide_from(long double number)
{
    long double size = truncl(fabsl(number));
    uint64_t high = (uint64_t)ldexpl(size, -64);
    return with_sign((wide){high, (uint64_t)(size - ldexpl((long double)high, 64)), false}, number < 0);
}

#endif
