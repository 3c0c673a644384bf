/* "weighed in all" on the mixing sheet is the sum of what stands above it, as a person would add it up on paper. */
#define _GNU_SOURCE

#include "support/compiling.h"

#include <inttypes.h>
#include <jansson.h>
#include <stdio.h>
#include <string.h>

static uint64_t seed = 20261201; /* kept, so that a failure comes again */

/* Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003. */
static uint64_t below(uint64_t limit)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return seed % limit;
}

static const char *const salts[] = {"metol", "sodium sulfite (anhydrous)", "hydroquinone", "sodium carbonate (anhydrous)",
                                    "potassium bromide", "borax (decahydrate)", "citric acid (anhydrous)", "sodium chloride"};
enum { SALTS = sizeof salts / sizeof *salts };

/* Weights of all sizes, some with digits that no scale shows, some as a range. */
static void write_formula(FILE *out)
{
    static const double sizes[] = {0.0001, 0.001, 0.01, 0.1, 1, 10, 100};
    fputs("formula \"Sum\"\n kind other\n", out);
    for (size_t i = 0; i < 2 + below(SALTS - 1); i++) {
        double amount = (double)(1 + below(999)) * sizes[below(sizeof sizes / sizeof *sizes)];
        if (below(5) == 0) {
            fprintf(out, " %s %.5f to %.5f g\n", salts[i], amount, amount * 1.4);
        } else {
            fprintf(out, " %s %.5f g\n", salts[i], amount);
        }
    }
    fputs(" water to make 1 L\n", out);
}

/* ---- adding up by hand: 10^-12 g in whole numbers ---- */

/* A printed figure in its unit, from where `at` stands. */
static int64_t read_figure(const char **at, int places)
{
    int64_t value = 0;
    bool behind = false;
    for (; (**at >= '0' && **at <= '9') || **at == '.'; ++*at) {
        if (**at == '.') {
            behind = true;
        } else if (places > 0 || !behind) {
            value = value * 10 + (**at - '0');
            places -= behind;
        } else {
            fail_msg("too many places");
        }
    }
    while (places-- > 0) {
        value *= 10;
    }
    return value;
}

/* "12.3 g", "1.25 kg", "5 to 7 g", "9.5 g to 10.1 kg"; both ends of it, which may be one. */
static void read_weight(const char *text, int64_t ends[2])
{
    const char *at = text;
    const char *to = strstr(text, " to ");
    const char *last = strrchr(text, '\xA0') + 1; /* behind the blank that does not break */
    bool heavy = strcmp(last, "kg") == 0;
    bool first_heavy = to != NULL && memchr(text, 'g', (size_t)(to - text)) != NULL ? memmem(text, (size_t)(to - text), "kg", 2) != NULL : heavy;
    ends[0] = read_figure(&at, first_heavy ? 12 : 9);
    at = to == NULL ? text : to + 4;
    ends[1] = read_figure(&at, heavy ? 12 : 9);
}

/* Whether the part had a sum. */
static bool check_part(const json_t *part, const char *formula)
{
    int64_t sum[2] = {0, 0};
    int64_t ends[2];
    size_t i;
    const json_t *line;
    json_array_foreach(json_object_get(part, "lines"), i, line)
    {
        const char *how = json_string_value(json_object_get(line, "measure"));
        if (how != NULL && strcmp(how, "weigh") == 0) {
            read_weight(json_string_value(json_object_get(line, "amount")), ends);
            sum[0] += ends[0];
            sum[1] += ends[1];
        }
    }
    const char *all = json_string_value(json_object_get(json_object_get(part, "weighed_in_all"), "amount"));
    if (all == NULL) {
        return false;
    }
    read_weight(all, ends);
    if (ends[0] != sum[0] || ends[1] != sum[1]) {
        fail_msg("%s is no sum of its lines (%" PRId64 " to %" PRId64 " x 10^-9 g):\n%s", all, sum[0], sum[1], formula);
    }
    return true;
}

static void lines_add_up(void **state)
{
    (void)state;
    static const char *const balances[] = {"0.001 g", "0.01 g", "0.1 g", "1 g", "0.05 g"};
    static const char *const sizes[] = {NULL, "333 mL", "1.7 L", "25 L", "73 mL"};
    size_t sums = 0;
    for (int i = 0; i < 600; i++) {
        char *text = NULL;
        size_t length;
        FILE *out = open_memstream(&text, &length);
        write_formula(out);
        fclose(out);
        const struct potash_options options = {.balance = balances[below(5)], .make = sizes[below(5)]};
        struct potash *potash = potash_open(&options);
        struct potash_output output;
        assert_int_equal(potash_read_text(potash, "sum.bath", text, length), POTASH_GOOD);
        assert_int_not_equal(potash_check(potash), POTASH_UNUSABLE);
        if (potash_sheet(potash, POTASH_JSON, &output) == POTASH_GOOD) {
            json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
            assert_non_null(json);
            const json_t *parts = json_object_get(json_array_get(json_object_get(json, "sheets"), 0), "parts");
            sums += check_part(json_array_get(parts, 0), text);
            json_decref(json);
        }
        potash_close(potash);
        free(text);
    }
    assert_true(sums > 300);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(lines_add_up)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
