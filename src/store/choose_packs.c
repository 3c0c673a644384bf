/* The least cost at which whole packs cover an amount: an integer programme, solved by branch and bound.
 *
 * Packs are gone through in the order of their price by content.  However many are taken of the packs so far, the rest of the
 * amount costs at least as much as the best of the following packs would if it could be cut; a branch that cannot get below the
 * best sum found is left. */
#include "store/shopping.h"

#include <stdlib.h>

enum { MOST_STEPS = 2000000 };

struct search {
    struct choice_pack *packs;
    size_t count;
    unsigned long *taken;
    unsigned long *best;
    long long best_price;            /* -1: nothing found yet */
    unsigned long best_packs;
    unsigned long steps;
};

static int compare_packs(const void *left, const void *right)
{
    const struct choice_pack *a = left;
    const struct choice_pack *b = right;
    wide by_a; /* price by content, without dividing; twice 63 bits and a sum of them fit */
    wide by_b;
    wide_multiply(wide_of(a->price), wide_of(b->content), &by_a);
    wide_multiply(wide_of(b->price), wide_of(a->content), &by_b);
    wide_add(by_a, wide_negate(by_b), &by_a);
    if (wide_sign(by_a) != 0) {
        return wide_sign(by_a);
    }
    return (a->content < b->content) - (a->content > b->content); /* of equal ones the larger first */
}

/* The least that the rest can cost, in whole coins. */
static long long bound(const struct choice_pack *pack, long long rest)
{
    wide cost;
    wide left;
    wide_multiply(wide_of(rest), wide_of(pack->price), &cost);
    cost = wide_divide(cost, wide_of(pack->content), &left);
    return (long long)wide_value(cost) + (wide_sign(left) > 0);
}

static bool is_better(const struct search *search, long long price, unsigned long packs)
{
    return search->best_price < 0 || price < search->best_price || (price == search->best_price && packs < search->best_packs);
}

static void keep(struct search *search, long long price, unsigned long packs)
{
    search->best_price = price;
    search->best_packs = packs;
    for (size_t i = 0; i < search->count; i++) {
        search->best[i] = search->taken[i];
    }
}

static void branch(struct search *search, size_t at, long long rest, long long price, unsigned long packs)
{
    const struct choice_pack *pack = &search->packs[at];
    unsigned long most = (unsigned long)((rest + pack->content - 1) / pack->content);
    for (unsigned long count = most + 1; count-- > 0 && search->steps < MOST_STEPS;) {
        search->steps++;
        search->taken[at] = count;
        long long left = rest - (long long)count * pack->content;
        long long so_far = price + (long long)count * pack->price;
        if (left <= 0) {
            if (is_better(search, so_far, packs + count)) {
                keep(search, so_far, packs + count);
            }
            continue;
        }
        if (at + 1 == search->count) {
            break; /* fewer of the last kind do not cover it either */
        }
        long long least = so_far + bound(pack + 1, left);
        if (search->best_price >= 0 && least > search->best_price) {
            break; /* and fewer of these leave more to packs that cost more by content */
        }
        if (is_better(search, least, packs + count + 1)) { /* it takes another pack at the least */
            branch(search, at + 1, left, so_far, packs + count);
        }
    }
    search->taken[at] = 0;
}

bool choose_packs(struct choice_pack *packs, size_t count, long long wanted)
{
    enum { MOST_PACKS = 64 };
    unsigned long taken[MOST_PACKS] = {0};
    unsigned long best[MOST_PACKS] = {0};
    qsort(packs, count, sizeof *packs, compare_packs);
    bool whole = count <= MOST_PACKS;
    struct search search = {packs, whole ? count : MOST_PACKS, taken, best, -1, 0, 0};
    if (count > 0 && wanted > 0) {
        branch(&search, 0, wanted, 0, 0);
    }
    for (size_t i = 0; i < count; i++) {
        packs[i].count = i < search.count ? best[i] : 0;
    }
    return whole && search.steps < MOST_STEPS;
}
