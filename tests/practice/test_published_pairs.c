/* What must not meet, as it was published: pairs of reactive groups, in a bath, concentrated, dry, and side by side on a shelf.
 * tests/practice/incompatible.tsv names the source of each, and what the trade does without harm. */
#define _GNU_SOURCE

#include "support/program.h"
#include "trials.h"

#include "chemistry/reactions.h"

enum { MOST_MEMBERS = 80 };

static struct row rows[MOST_ROWS];
static size_t row_count;

static int read_rows(void **state)
{
    set_up_library(state);
    row_count = read_table("tests/practice/incompatible.tsv", rows);
    return 0;
}

static bool among(const char *list, const char *name)
{
    size_t length = strlen(name);
    for (const char *at = list; (at = strstr(at, name)) != NULL; at += length) {
        if ((at == list || at[-1] == '|') && (at[length] == '\0' || at[length] == '|')) {
            return true;
        }
    }
    return false;
}

/* Those of a group that the library has. */
static size_t members_of(const char *group, const char *members[MOST_MEMBERS])
{
    size_t count = 0;
    for (size_t i = 0; i < row_count; i++) {
        bool is = strcmp(rows[i].cells[0], "member") == 0 && among(rows[i].cells[2], group) &&
                  library_material_entry(&library, text_from(rows[i].cells[1])) != NULL;
        if (is && count < MOST_MEMBERS) {
            members[count++] = rows[i].cells[1];
        }
    }
    return count;
}

static bool is_spared(const char *a, const char *b, const char *one, const char *other)
{
    bool spared = false;
    for (size_t i = 0; i < row_count; i++) {
        const struct row *row = &rows[i];
        spared = spared || (strcmp(row->cells[0], "spared") == 0 && strcmp(row->cells[1], a) == 0 && strcmp(row->cells[2], b) == 0 &&
                            (among(row->cells[3], one) || among(row->cells[3], other)));
    }
    return spared;
}

/* 100 g of a solid or 200 mL of a liquid, in a litre (in water), in little or no water (concentrated), or dry. */
static const char *bath_of_pair(const char *state, const char *a, const char *b, const char *third)
{
    struct buffer text;
    bool warm = strcmp(third, "warm") == 0;
    bool liquid = material_called(a)->liquid || material_called(b)->liquid;
    buffer_start(&text, &arena);
    buffer_string(&text, "    kind other\n");
    if (strcmp(state, "in water") == 0 || (strcmp(state, "concentrated") == 0 && (warm || !liquid))) {
        buffer_format(&text, "    water %d mL%s\n", strcmp(state, "in water") == 0 ? 400 : 200, warm ? " at 60 °C" : "");
    }
    for (int i = 0; i < 2; i++) {
        const char *name = i == 0 ? a : b;
        if (strcmp(name, "water") != 0) {
            add_line(&text, name, material_called(name)->liquid ? 200 : 100);
        }
    }
    if (strcmp(third, "-") != 0 && !warm) {
        buffer_format(&text, "    %s\n", third);
    }
    buffer_string(&text, strcmp(state, "in water") == 0 ? "    water to make 1 L\n" : strcmp(state, "dry") == 0 ? "    makes 200 g\n" : "");
    return buffer_finish(&text);
}

/* Adds a bath for every two members of the pair's groups. */
static void add_pair(struct trials *trials, const struct row *pair, const char *state)
{
    const char *ones[MOST_MEMBERS];
    const char *others[MOST_MEMBERS];
    size_t one_count = members_of(pair->cells[1], ones);
    size_t other_count = members_of(pair->cells[2], others);
    for (size_t i = 0; i < one_count * other_count; i++) {
        const char *a = ones[i / other_count];
        const char *b = others[i % other_count];
        bool powders = !material_called(a)->liquid && !material_called(b)->liquid;
        if (strcmp(a, b) != 0 && !is_spared(pair->cells[1], pair->cells[2], a, b) && (strcmp(state, "dry") != 0 || powders)) {
            trials_add(trials, bath_of_pair(state, a, b, pair->cells[4]), pair->cells[5], NULL);
        }
    }
}

static void published_pairs_are_answered(void **state)
{
    (void)state;
    static const char *const states[] = {"in water", "concentrated", "dry"};
    struct trials trials = {0};
    for (size_t i = 0; i < row_count; i++) {
        for (size_t s = 0; strcmp(rows[i].cells[0], "pair") == 0 && s < COUNT(states); s++) {
            if (strstr(rows[i].cells[3], states[s]) != NULL) {
                add_pair(&trials, &rows[i], states[s]);
            }
        }
    }
    trials_run(&trials);
    assert_true(trials.count > 3000);
    assert_int_equal(trials_faults(&trials, true), 0);
}

/* The lists that say what must not stand side by side: one of these signs is among the pair's sources.  What takes a third thing, or is
 * only said of powders that are mixed, is no matter of two closed jars. */
static bool is_of_a_store(const struct row *pair)
{
    static const char *const lists[] = {"ACS", "PP-3.9", "PP-classes", "AS2243"};
    bool listed = strstr(pair->cells[3], "storage") != NULL;
    for (size_t i = 0; i < COUNT(lists); i++) {
        listed = listed || strstr(pair->cells[7], lists[i]) != NULL;
    }
    return listed && strcmp(pair->cells[0], "pair") == 0 && strcmp(pair->cells[4], "-") == 0 && strcmp(pair->cells[3], "dry") != 0;
}

enum { AS_STRONG = 1000 }; /* g/L */

/* Side by side on a shelf: the relation says so of any two members, whatever their strength. */
static void stored_pairs_are_answered(void **state)
{
    (void)state;
    int tried = 0;
    int faults = 0;
    for (size_t i = 0; i < row_count; i++) {
        bool stored = is_of_a_store(&rows[i]);
        const char *ones[MOST_MEMBERS];
        const char *others[MOST_MEMBERS];
        size_t one_count = stored ? members_of(rows[i].cells[1], ones) : 0;
        size_t other_count = stored ? members_of(rows[i].cells[2], others) : 0;
        for (size_t k = 0; k < one_count * other_count; k++) {
            const char *a = ones[k / other_count];
            const char *b = others[k % other_count];
            bool spills = material_called(a)->liquid || material_called(b)->liquid; /* of two powders neither runs to the other */
            if (strcmp(a, b) == 0 || !spills || is_spared(rows[i].cells[1], rows[i].cells[2], a, b)) {
                continue;
            }
            struct reactants shelf = {0};
            reactants_add(&arena, &shelf, material_called(a), AS_STRONG);
            reactants_add(&arena, &shelf, material_called(b), AS_STRONG);
            if (meetings_between(&arena, &library, &shelf, &shelf, MEET_STORED) == NULL) {
                print_error("%s beside %s: no word of %s\n", a, b, rows[i].cells[5]);
                faults++;
            }
            tried++;
        }
    }
    assert_true(tried > 50);
    assert_int_equal(faults, 0);
}

#define WITH_PAIRS(test) cmocka_unit_test_setup_teardown(test, read_rows, tear_down_arena)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_PAIRS(published_pairs_are_answered),
        WITH_PAIRS(stored_pairs_are_answered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
