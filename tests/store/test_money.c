/* Money is exact: sums of shares come out whole, to the coin, however they are cut. */
#include "support/compiling.h"

#include "store/money.h"

#include <stdio.h>
#include <string.h>

static const struct unit pound = {.name = {"GBP", 3}, .dimension = DIMENSION_MONEY, .factor = 1, .smallest = 0.01};
static const struct unit yen = {.name = {"JPY", 3}, .dimension = DIMENSION_MONEY, .factor = 1, .smallest = 1};
static const struct unit dinar = {.name = {"KWD", 3}, .dimension = DIMENSION_MONEY, .factor = 1, .smallest = 0.001};

static void assert_printed(struct money money, const struct unit *currency, const char *wanted)
{
    struct arena arena;
    jmp_buf failure;
    arena_start(&arena);
    if (setjmp(failure) != 0) {
        fail_msg("out of memory");
    }
    arena.on_failure = &failure;
    struct text text = money_print(&arena, money, currency);
    char *printed = strndup(text.at, text.length);
    arena_release(&arena);
    assert_string_equal(printed, wanted);
    free(printed);
}

/* A decimal of the text is a binary fraction in memory; the coin is found again. */
static void prices_are_whole_coins(void **state)
{
    (void)state;
    long long coins;
    assert_true(money_read(&pound, 9.40, &coins));
    assert_int_equal(coins, 940);
    assert_true(money_read(&pound, 0.29, &coins)); /* 0.29 * 100 is 28.999999999999996 in binary */
    assert_int_equal(coins, 29);
    assert_true(money_read(&pound, 99999999.99, &coins));
    assert_int_equal(coins, 9999999999LL);
    assert_false(money_read(&pound, 9.405, &coins));
    assert_true(money_read(&yen, 1200, &coins));
    assert_int_equal(coins, 1200);
    assert_false(money_read(&yen, 0.5, &coins));
    assert_true(money_read(&dinar, 1.234, &coins));
    assert_int_equal(coins, 1234);
    assert_false(money_read(&pound, 1e300, &coins));
}

/* Ten times a tenth of 9.99 is 9.99, and three thirds of a penny are a penny: doubles would drift. */
static void shares_add_up(void **state)
{
    (void)state;
    struct money sum = money_of_coins(0);
    for (int i = 0; i < 10; i++) {
        sum = money_add(sum, money_share(money_of_coins(999), 0.1, 1));
    }
    assert_int_equal(money_compare(sum, money_of_coins(999)), 0);
    sum = money_of_coins(0);
    for (int i = 0; i < 3; i++) {
        sum = money_add(sum, money_share(money_of_coins(1), 1, 3));
    }
    assert_int_equal(money_compare(sum, money_of_coins(1)), 0);
    /* 7/13 + 11/17 + 2/19 of a coin: (7*17*19 + 11*13*19 + 2*13*17) / 4199 = (2261 + 2717 + 442) / 4199 = 5420/4199 */
    sum = money_add(money_share(money_of_coins(7), 1, 13), money_share(money_of_coins(11), 1, 17));
    sum = money_add(sum, money_share(money_of_coins(2), 1, 19));
    assert_true(wide_value(sum.numerator) == 5420 && wide_value(sum.denominator) == 4199);
}

/* Half a coin goes up; what is less than half, and not nothing, is said to be under a coin. */
static void coins_are_rounded_once(void **state)
{
    (void)state;
    assert_int_equal(money_coins(money_share(money_of_coins(1), 1, 2)), 1);
    assert_int_equal(money_coins(money_share(money_of_coins(5), 3, 10)), 2); /* 1.5 */
    assert_int_equal(money_coins(money_subtract(money_of_coins(0), money_share(money_of_coins(5), 3, 10))), -2);
    assert_printed(money_of_coins(940), &pound, "9.40\u00A0GBP");
    assert_printed(money_of_coins(5), &pound, "0.05\u00A0GBP");
    assert_printed(money_of_coins(1200), &yen, "1200\u00A0JPY");
    assert_printed(money_of_coins(1234), &dinar, "1.234\u00A0KWD");
    assert_printed(money_share(money_of_coins(1), 1, 3), &pound, "under 0.01\u00A0GBP");
    assert_printed(money_of_coins(0), &pound, "0.00\u00A0GBP");
    assert_printed(money_of_coins(-250), &pound, "-2.50\u00A0GBP");
}

/* Denominators that no 128 bits hold are taken to the nearest; nothing wraps round. */
static void nothing_overflows(void **state)
{
    (void)state;
    struct money sum = money_of_coins(0);
    static const double primes[] = {999.999999937, 999.99999987, 777.777777719, 888.888888863, 123.456789091, 987.654320987};
    double wanted = 0;
    for (size_t i = 0; i < sizeof primes / sizeof *primes; i++) {
        sum = money_add(sum, money_share(money_of_coins(1000000007), 1.000000007, primes[i]));
        wanted += 1000000007 * (1.000000007 / primes[i]);
    }
    assert_within((double)(wide_value(sum.numerator) / wide_value(sum.denominator)), wanted, 1e-12);
    assert_true(wide_sign(sum.denominator) > 0);
}

/* The library knows the currencies by their codes, and the coins of ISO 4217. */
static void currencies_have_their_coins(void **state)
{
    (void)state;
    static const struct {
        const char *code;
        const char *price;
        const char *wrong;
    } cases[] = {{"GBP", "9.40", "9.405"}, {"EUR", "9.40", "9.405"}, {"JPY", "940", "9.5"}, {"KWD", "1.234", "1.2345"}, {"ISK", "940", "0.5"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200];
        snprintf(text, sizeof text, "shelf \"Shelf\"\n currency %s\n holds borax (decahydrate) 1 kg for %s\n", cases[i].code, cases[i].price);
        expect_clean(text);
        snprintf(text, sizeof text, "shelf \"Shelf\"\n currency %s\n holds borax (decahydrate) 1 kg for %s\n", cases[i].code, cases[i].wrong);
        expect_one(text, "amount-out-of-range", 3, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(prices_are_whole_coins),  cmocka_unit_test(shares_add_up),
        cmocka_unit_test(coins_are_rounded_once),  cmocka_unit_test(nothing_overflows),
        cmocka_unit_test(currencies_have_their_coins),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
