/* The packs that are chosen cost the least: held against every other choice, on small cases. */
#include "support/compiling.h"

#include "store/shopping.h"

#include <string.h>

/* Tries every number of every pack. */
struct least {
    long long price;     /* -1: none */
    unsigned long packs;
};

static void try_all(const struct choice_pack *packs, size_t count, long long rest, long long price, unsigned long taken, struct least *least)
{
    if (rest <= 0) {
        bool better = least->price < 0 || price < least->price || (price == least->price && taken < least->packs);
        *least = better ? (struct least){price, taken} : *least;
        return;
    }
    if (count == 0) {
        return;
    }
    for (unsigned long number = 0;; number++) {
        long long left = rest - (long long)number * packs->content;
        try_all(packs + 1, count - 1, left, price + (long long)number * packs->price, taken + number, least);
        if (left <= 0) {
            return;
        }
    }
}

static void assert_least(const struct choice_pack *given, size_t count, long long wanted)
{
    struct choice_pack packs[8];
    memcpy(packs, given, count * sizeof *packs);
    struct least least = {-1, 0};
    try_all(packs, count, wanted, 0, 0, &least);
    assert_true(choose_packs(packs, count, wanted));
    long long price = 0;
    long long content = 0;
    unsigned long taken = 0;
    for (size_t i = 0; i < count; i++) {
        price += (long long)packs[i].count * packs[i].price;
        content += (long long)packs[i].count * packs[i].content;
        taken += packs[i].count;
    }
    assert_true(content >= wanted);
    assert_int_equal(price, least.price);
    assert_int_equal(taken, least.packs);
}

/* By hand: 1.1 kg is wanted of packs of 1 kg for 9.00, 500 g for 5.00 and 250 g for 2.80.
 * 2 x 1 kg 18.00; 1 kg + 250 g 11.80; 1 kg + 500 g 14.00; 2 x 500 g + 250 g 12.80; 5 x 250 g 14.00: the second is least. */
static void by_hand(void **state)
{
    (void)state;
    struct choice_pack packs[] = {{1000, 900, 0}, {500, 500, 0}, {250, 280, 0}};
    assert_true(choose_packs(packs, 3, 1100));
    for (size_t i = 0; i < 3; i++) {
        assert_int_equal(packs[i].count, packs[i].content == 500 ? 0 : 1);
    }
    /* The pack that is cheapest by the gram is not the answer: 100 g are wanted, of 1 kg for 9.00 or 100 g for 2.00. */
    struct choice_pack large[] = {{1000, 900, 0}, {100, 200, 0}};
    assert_true(choose_packs(large, 2, 100));
    assert_int_equal(large[large[0].content == 100 ? 0 : 1].count, 1);
    assert_int_equal(large[large[0].content == 100 ? 1 : 0].count, 0);
}

/* Small numbers from a generator of our own (xorshift, Marsaglia 2003), so that they are the same everywhere. */
static uint32_t next_number(uint32_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 17;
    *seed ^= *seed << 5;
    return *seed;
}

static void against_every_choice(void **state)
{
    (void)state;
    uint32_t seed = 20260304;
    for (int round = 0; round < 3000; round++) {
        struct choice_pack packs[8];
        size_t count = 1 + next_number(&seed) % 4;
        for (size_t i = 0; i < count; i++) {
            packs[i] = (struct choice_pack){5 + next_number(&seed) % 60, next_number(&seed) % 90, 0};
        }
        assert_least(packs, count, 1 + next_number(&seed) % 180);
    }
}

/* Many kinds that hardly differ, and a large amount: the search ends, and what it gives covers it. */
static void a_large_amount_ends(void **state)
{
    (void)state;
    struct choice_pack packs[40];
    for (size_t i = 0; i < 40; i++) {
        packs[i] = (struct choice_pack){1000000 + 7919 * (long long)i, 900 + 7 * (long long)i, 0};
    }
    choose_packs(packs, 40, 987654321);
    long long content = 0;
    for (size_t i = 0; i < 40; i++) {
        content += (long long)packs[i].count * packs[i].content;
    }
    assert_true(content >= 987654321);
    assert_true(choose_packs(packs, 0, 5)); /* of nothing, nothing is chosen */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(by_hand),
        cmocka_unit_test(against_every_choice),
        cmocka_unit_test(a_large_amount_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
