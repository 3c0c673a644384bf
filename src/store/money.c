/* Fractions of whole numbers that stand for money. */
#include "store/money.h"

#include <math.h>

static money_integer absolute(money_integer number)
{
    return number < 0 ? -number : number;
}

static money_integer common_divisor(money_integer a, money_integer b)
{
    a = absolute(a);
    b = absolute(b);
    while (b != 0) {
        money_integer rest = a % b;
        a = b;
        b = rest;
    }
    return a == 0 ? 1 : a;
}

static struct money reduced(money_integer numerator, money_integer denominator)
{
    money_integer divisor = common_divisor(numerator, denominator);
    return (struct money){numerator / divisor, denominator / divisor};
}

/* What does not fit into 128 bits is taken to the nearest millionth of a millionth of a coin: no sum of a darkroom gets there. */
static struct money nearest(long double coins)
{
    const long double parts = 1e12L;
    const long double most = 1e25L;
    coins = coins > most ? most : coins < -most ? -most : coins;
    return reduced((money_integer)roundl(coins * parts), (money_integer)parts);
}

static long double in_coins(struct money money)
{
    return (long double)money.numerator / (long double)money.denominator;
}

struct money money_of_coins(long long coins)
{
    return (struct money){coins, 1};
}

bool money_read(const struct unit *currency, double value, long long *coins)
{
    double smallest = currency->smallest > 0 ? currency->smallest : 0.01;
    double count = value / smallest;
    if (!(fabs(count) < 1e12)) {
        return false;
    }
    *coins = llround(count);
    return fabs(count - (double)*coins) < 1e-6 * fmax(1, fabs(count) * 1e-6);
}

struct money money_add(struct money a, struct money b)
{
    money_integer divisor = common_divisor(a.denominator, b.denominator);
    money_integer left;
    money_integer right;
    money_integer sum;
    money_integer denominator;
    bool over = __builtin_mul_overflow(a.numerator, b.denominator / divisor, &left);
    over = __builtin_mul_overflow(b.numerator, a.denominator / divisor, &right) || over;
    over = __builtin_add_overflow(left, right, &sum) || over;
    over = __builtin_mul_overflow(a.denominator, b.denominator / divisor, &denominator) || over;
    return over ? nearest(in_coins(a) + in_coins(b)) : reduced(sum, denominator);
}

struct money money_subtract(struct money a, struct money b)
{
    b.numerator = -b.numerator;
    return money_add(a, b);
}

/* g or mL as whole units of 0.000001 mg or 0.000001 µL. */
static money_integer whole_parts(double amount)
{
    const double parts = 1e9;
    const double most = 1e18; /* of the parts: a million tons */
    double scaled = amount * parts;
    return (money_integer)llround(scaled > most ? most : scaled < -most ? -most : scaled);
}

static struct money times(struct money money, money_integer numerator, money_integer denominator)
{
    /* Cancelling first keeps the products small. */
    struct money crossed = reduced(money.numerator, denominator);
    struct money other = reduced(numerator, money.denominator);
    money_integer above;
    money_integer below;
    bool over = __builtin_mul_overflow(crossed.numerator, other.numerator, &above);
    over = __builtin_mul_overflow(crossed.denominator, other.denominator, &below) || over;
    return over ? nearest(in_coins(money) * (long double)numerator / (long double)denominator) : reduced(above, below);
}

struct money money_share(struct money price, double amount, double whole)
{
    money_integer parts = whole_parts(whole);
    if (isnan(amount) || isnan(whole) || parts <= 0) {
        return money_of_coins(0);
    }
    return times(price, whole_parts(amount), parts);
}

int money_compare(struct money a, struct money b)
{
    money_integer difference = money_subtract(a, b).numerator;
    return (difference > 0) - (difference < 0);
}

double money_value(struct money money, const struct unit *currency)
{
    return (double)(in_coins(money) / powl(10, money_decimals(currency)));
}

int money_decimals(const struct unit *currency)
{
    double smallest = currency != NULL && currency->smallest > 0 ? currency->smallest : 0.01;
    int decimals = 0;
    while (decimals < 6 && smallest < 0.99) {
        smallest *= 10;
        decimals++;
    }
    return decimals;
}

long long money_coins(struct money money)
{
    /* half a coin away from nothing */
    money_integer doubled = 2 * absolute(money.numerator) + money.denominator;
    money_integer coins = doubled / (2 * money.denominator);
    return (long long)(money.numerator < 0 ? -coins : coins);
}

struct text money_print(struct arena *arena, struct money money, const struct unit *currency)
{
    struct text code = currency == NULL ? (struct text){0} : currency->name;
    int decimals = money_decimals(currency);
    long long coins = money_coins(money);
    bool under = coins == 0 && money.numerator > 0;
    coins = under ? 1 : coins;
    long long unit = 1;
    for (int i = 0; i < decimals; i++) {
        unit *= 10;
    }
    unsigned long long size = coins < 0 ? 0ull - (unsigned long long)coins : (unsigned long long)coins;
    const char *fraction = decimals == 0 ? "" : arena_format(arena, ".%0*llu", decimals, size % (unsigned long long)unit);
    return text_from(arena_format(arena, "%s%s%llu%s%s%.*s", under ? "under " : "", coins < 0 ? "-" : "",
                                  size / (unsigned long long)unit, fraction, code.length > 0 ? "\u00A0" : "",
                                  TEXT_ARGUMENTS(code)));
}
