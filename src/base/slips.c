/* How far two words are apart, in slips of a hand at a keyboard. */
#include "base/slips.h"

#include <stdbool.h>
#include <stdint.h>

/* Where a letter stands on the rows of a typewriter (qwerty…, asdf…, zxcv…), the rows 20 apart; a slip to a neighbour on the
 * row is half a mistake. */
static bool neighbours(char a, char b)
{
    static const signed char places[26] = {20, 44, 42, 22, 2,  23, 24, 25, 7, 26, 27, 28, 46,
                                           45, 8,  9,  0,  3,  21, 4,  6,  43, 1, 41, 5,  40};
    if (a < 'a' || a > 'z' || b < 'a' || b > 'z') {
        return false;
    }
    int apart = places[a - 'a'] - places[b - 'a'];
    return apart == 1 || apart == -1;
}

/* Letters that one text has and the other lacks cost a slip or half of one each, whatever else is done. */
static uint32_t letters_of(struct text text)
{
    uint32_t letters = 0;
    for (size_t i = 0; i < text.length; i++) {
        letters |= UINT32_C(1) << (text.at[i] & 31);
    }
    return letters;
}

static bool has_more(uint32_t letters, int most)
{
    for (; letters != 0 && most >= 0; most--) {
        letters &= letters - 1;
    }
    return most < 0;
}

static bool cannot_be_near(struct text a, struct text b, int limit)
{
    size_t longer = a.length > b.length ? a.length - b.length : b.length - a.length;
    if (2 * (int)longer > limit || limit == 0) {
        return limit != 0 || !text_equal(a, b);
    }
    uint32_t of_a = letters_of(a);
    uint32_t of_b = letters_of(b);
    return has_more(of_a & ~of_b, limit) || has_more(of_b & ~of_a, limit);
}

/* Only places of the table are filled that a way of so few slips may lead through: those near its diagonal. */
int text_slips(struct text a, struct text b, int limit)
{
    enum { FAR = 1000 };
    if (cannot_be_near(a, b, limit)) {
        return limit + 1;
    }
    const size_t aside = (size_t)limit / 2;
    int rows[3][SLIPS_LONGEST + 2];
    int *two = rows[0];
    int *previous = rows[1];
    int *current = rows[2];
    for (size_t j = 0; j <= b.length + 1; j++) {
        previous[j] = j <= aside && j <= b.length ? 2 * (int)j : FAR;
        two[j] = FAR;
    }
    for (size_t i = 1; i <= a.length; i++) {
        size_t from = i > aside + 1 ? i - aside : 1;
        size_t upto = i + aside < b.length ? i + aside : b.length;
        current[from - 1] = from == 1 ? 2 * (int)i : FAR;
        int least = current[from - 1];
        for (size_t j = from; j <= upto; j++) {
            char x = a.at[i - 1];
            char y = b.at[j - 1];
            int cost = x == y ? 0 : neighbours(x, y) ? 1 : 2;
            int best = previous[j - 1] + cost;
            best = previous[j] + 2 < best ? previous[j] + 2 : best;
            best = current[j - 1] + 2 < best ? current[j - 1] + 2 : best;
            bool swapped = i > 1 && j > 1 && x == b.at[j - 2] && a.at[i - 2] == y;
            if (swapped && two[j - 2] + 2 < best) {
                best = two[j - 2] + 2;
            }
            current[j] = best;
            least = best < least ? best : least;
        }
        current[upto + 1] = FAR;
        if (least > limit) {
            return least;
        }
        int *oldest = two;
        two = previous;
        previous = current;
        current = oldest;
    }
    return previous[b.length];
}
