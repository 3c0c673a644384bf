/* The whole numbers in two halves against the compiler's own, which stand in for them where there are any. */
#define WIDE_IN_HALVES
#include "base/wide.c"

#include "support/arena_help.h"

#ifdef __SIZEOF_INT128__

__extension__ typedef __int128 whole;
__extension__ typedef unsigned __int128 whole_size;

static uint64_t seed = 20261201;

/* Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003. */
static uint64_t next(void)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return seed;
}

/* Of any length, and now and then next to a power of two. */
static whole any(void)
{
    whole_size size = ((whole_size)next() << 64 | next()) >> (1 + next() % 127);
    size = next() % 8 == 0 ? ((whole_size)1 << next() % 127) - next() % 2 : size;
    return next() % 2 == 0 ? (whole)size : -(whole)size;
}

static wide halves(whole number)
{
    whole_size size = number < 0 ? -(whole_size)number : (whole_size)number;
    return (wide){(uint64_t)(size >> 64), (uint64_t)size, number < 0};
}

static void assert_same(wide got, whole wanted)
{
    wide other = halves(wanted);
    if (got.high != other.high || got.low != other.low || got.negative != other.negative) {
        fail_msg("%s%016llx%016llx instead of %s%016llx%016llx", got.negative ? "-" : "", (unsigned long long)got.high,
                 (unsigned long long)got.low, other.negative ? "-" : "", (unsigned long long)other.high, (unsigned long long)other.low);
    }
}

/* -2^127 has no size below 2^127. */
static bool fits(bool over, whole result)
{
    return !over && (whole_size)result != (whole_size)1 << 127;
}

static void sums_are_the_compilers(void **state)
{
    (void)state;
    size_t overflows = 0;
    for (int i = 0; i < 300000; i++) {
        whole a = any();
        whole b = any();
        whole wanted;
        wide got;
        bool over = __builtin_add_overflow(a, b, &wanted);
        bool good = fits(over, wanted);
        assert_int_equal(wide_add(halves(a), halves(b), &got), good);
        if (good) {
            assert_same(got, wanted);
        }
        over = __builtin_mul_overflow(a, b, &wanted);
        good = fits(over, wanted);
        overflows += !good;
        assert_int_equal(wide_multiply(halves(a), halves(b), &got), good);
        if (good) {
            assert_same(got, wanted);
        }
        if (b != 0) {
            wide rest;
            assert_same(wide_divide(halves(a), halves(b), &rest), a / b);
            assert_same(rest, a % b);
        }
        assert_same(wide_negate(halves(a)), -a);
        assert_int_equal(wide_sign(halves(a)), (a > 0) - (a < 0));
        assert_same(wide_of((long long)a), (long long)a);
        /* Both halves are rounded to what a long double holds, and then their sum: never more than two units away. */
        assert_true(fabsl(wide_value(halves(a)) - (long double)a) <= fabsl((long double)a) * 0x1p-62L);
        long double near = (long double)(a / 4);
        assert_same(wide_from(near), (whole)near);
    }
    assert_true(overflows > 10000 && overflows < 290000);
}

#else

static void sums_are_the_compilers(void **state)
{
    (void)state;
    skip();
}

#endif

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(sums_are_the_compilers)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
