/* Whole numbers of 128 bits, for exact fractions: the compiler's own where it has them, and where it does not (most processors of
 * 32 bits) two halves and a sign. */
#ifndef POTASH_BASE_WIDE_H
#define POTASH_BASE_WIDE_H

#include <stdbool.h>
#include <stdint.h>

#if defined __SIZEOF_INT128__ && !defined WIDE_IN_HALVES

__extension__ typedef __int128 wide __attribute__((aligned(8))); /* as the arena gives memory out */

static inline wide wide_of(long long number)
{
    return number;
}

/* Both say whether the result fits. */
static inline bool wide_add(wide a, wide b, wide *sum)
{
    return !__builtin_add_overflow(a, b, sum);
}

static inline bool wide_multiply(wide a, wide b, wide *product)
{
    return !__builtin_mul_overflow(a, b, product);
}

/* Towards 0; `b` is not 0. */
static inline wide wide_divide(wide a, wide b, wide *rest)
{
    *rest = a % b;
    return a / b;
}

static inline wide wide_negate(wide a)
{
    return -a;
}

static inline int wide_sign(wide a)
{
    return (a > 0) - (a < 0);
}

static inline long double wide_value(wide a)
{
    return (long double)a;
}

/* The whole part of a number below 1e38. */
static inline wide wide_from(long double number)
{
    return (wide)number;
}

#else

typedef struct {
    uint64_t high, low; /* of its size, below 2^127 */
    bool negative;      /* never with a size of 0 */
} wide;

wide wide_of(long long number);
bool wide_add(wide a, wide b, wide *sum);
bool wide_multiply(wide a, wide b, wide *product);
wide wide_divide(wide a, wide b, wide *rest);
wide wide_negate(wide a);
int wide_sign(wide a);
long double wide_value(wide a);
wide wide_from(long double number);

#endif

#endif
