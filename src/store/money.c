/* Fractions of whole numbers that stand for money. */
#include "store/money.h"

#include <math.h>

static wide absolute(wide number)
{
    return wide_sign(number) < 0 ? wide_negate(number) : number;
}

/* Of a division that leaves no rest, or whose rest is not wanted. */
static wide quotient(wide a, wide b)
{
    wide rest;
    return wide_divide(a, b, &rest);
}

/* `b` is above 0. */
static wide common_divisor(wide a, wide b)
{
    a = absolute(a);
    while (wide_sign(b) != 0) {
        wide rest;
        wide_divide(a, b, &rest);
        a = b;
        b = rest;
    }
    return a;
}

static struct money reduced(wide numerator, wide denominator)
{
    wide divisor = common_divisor(numerator, denominator);
    return (struct money){quotient(numerator, divisor), quotient(denominator, divisor)};
}

/* What does not fit into 128 bits is taken to the nearest millionth of a millionth of a coin: no sum of a darkroom gets there. */
static struct money nearest(long double coins)
{
    const long double parts = 1e12L;
    const long double most = 1e25L;
    coins = coins > most ? most : coins < -most ? -most : coins;
    return reduced(wide_from(roundl(coins * parts)), wide_from(parts));
}

static long double in_coins(struct money money)
{
    return wide_value(money.numerator) / wide_value(money.denominator);
}

struct money money_of_coins(long long coins)
{
    return (struct money){wide_of(coins), wide_of(1)};
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
    wide divisor = common_divisor(a.denominator, b.denominator);
    wide times_a = quotient(b.denominator, divisor);
    wide left;
    wide right;
    wide sum;
    wide denominator;
    bool fits = wide_multiply(a.numerator, times_a, &left) && wide_multiply(b.numerator, quotient(a.denominator, divisor), &right) &&
                wide_add(left, right, &sum) && wide_multiply(a.denominator, times_a, &denominator);
    return fits ? reduced(sum, denominator) : nearest(in_coins(a) + in_coins(b));
}

struct money money_subtract(struct money a, struct money b)
{
    b.numerator = wide_negate(b.numerator);
    return money_add(a, b);
}

/* g or mL as whole units of 0.000001 mg or 0.000001 µL. */
static wide whole_parts(double amount)
{
    const double parts = 1e9;
    const double most = 1e18; /* of the parts: a million tons */
    double scaled = amount * parts;
    return wide_of(llround(scaled > most ? most : scaled < -most ? -most : scaled));
}

static struct money times(struct money money, wide numerator, wide denominator)
{
    /* Cancelling first keeps the products small. */
    struct money crossed = reduced(money.numerator, denominator);
    struct money other = reduced(numerator, money.denominator);
    wide above;
    wide below;
    bool fits = wide_multiply(crossed.numerator, other.numerator, &above) && wide_multiply(crossed.denominator, other.denominator, &below);
    return fits ? reduced(above, below) : nearest(in_coins(money) * wide_value(numerator) / wide_value(denominator));
}

struct money money_share(struct money price, double amount, double whole)
{
    wide parts = isnan(whole) ? wide_of(0) : whole_parts(whole);
    if (isnan(amount) || wide_sign(parts) <= 0) {
        return money_of_coins(0);
    }
    return times(price, whole_parts(amount), parts);
}

int money_compare(struct money a, struct money b)
{
    return wide_sign(money_subtract(a, b).numerator);
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
    wide size = absolute(money.numerator);
    wide above;
    wide below;
    bool fits = wide_add(size, size, &above) && wide_add(above, money.denominator, &above) &&
                wide_add(money.denominator, money.denominator, &below);
    long long coins = fits ? (long long)wide_value(quotient(above, below)) : llroundl(fabsl(in_coins(money)));
    return wide_sign(money.numerator) < 0 ? -coins : coins;
}

struct text money_print(struct arena *arena, struct money money, const struct unit *currency)
{
    struct text code = currency == NULL ? (struct text){0} : currency->name;
    int decimals = money_decimals(currency);
    long long coins = money_coins(money);
    bool under = coins == 0 && wide_sign(money.numerator) > 0;
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
