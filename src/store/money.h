/* Money, exact: a fraction of whole numbers of the currency's smallest coin (ISO 4217's minor unit).
 *
 * Nothing is rounded before it is printed.  Weights and volumes come in as doubles and are taken to the nearest 0.000001 mg or
 * 0.000001 µL, so that 30 g of a pack of 1 kg is 3/100 of its price and not something near it. */
#ifndef POTASH_STORE_MONEY_H
#define POTASH_STORE_MONEY_H

#include "base/wide.h"
#include "library/library.h"

struct money {
    wide numerator;   /* smallest coins */
    wide denominator; /* above 0 */
};

struct money money_of_coins(long long coins);

/* Whole coins of `value` of a currency's own unit (9.40); false when it is finer than the smallest coin, or too much. */
bool money_read(const struct unit *currency, double value, long long *coins);

struct money money_add(struct money a, struct money b);
struct money money_subtract(struct money a, struct money b);

/* `price` x `amount` / `whole`, both in one unit (g, mL); `whole` is above 0. */
struct money money_share(struct money price, double amount, double whole);

/* Below 0, 0 or above 0 as `a` is less than, the same as or more than `b`. */
int money_compare(struct money a, struct money b);

/* In the currency's own unit, not rounded. */
double money_value(struct money money, const struct unit *currency);

/* Whole coins, half a coin rounded up. */
long long money_coins(struct money money);

/* "9.40 GBP"; "under 0.01 GBP" for what is more than nothing and less than half a coin. */
struct text money_print(struct arena *arena, struct money money, const struct unit *currency);

/* How many decimal places the currency has: 2 for GBP, 0 for JPY. */
int money_decimals(const struct unit *currency);

#endif
