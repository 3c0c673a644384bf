/* How far two words are apart, in slips of a hand at a keyboard. */
#include "base/slips.h"

#include <stdbool.h>

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

int text_slips(struct text a, struct text b, int limit)
{
    int rows[3][SLIPS_LONGEST + 1];
    int *two = rows[0];
    int *previous = rows[1];
    int *current = rows[2];
    for (size_t j = 0; j <= b.length; j++) {
        previous[j] = 2 * (int)j;
    }
    for (size_t i = 1; i <= a.length; i++) {
        current[0] = 2 * (int)i;
        int least = current[0];
        for (size_t j = 1; j <= b.length; j++) {
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
