/* The ledger: what batches say they took, what is calculated, bottles as accounts, names of batches.  Expected figures are sums done by
 * hand beside each. */
#include "support/compiling.h"
#include "support/program.h"
#include "support/repairing.h"

#include <stdio.h>
#include <string.h>

#define SHELF "shelf \"S\"\n counted 2026-01-01\n holds sodium chloride 1 kg left 500 g lot \"A\"\n holds sodium chloride 1 kg lot \"B\"\n" \
              " holds phenidone 25 g left 20 g lot \"P\"\n"
#define STOCK "stock phenidone 1 %\n in isopropyl alcohol\n keeps 1 month in dark bottle\n"
#define BRINE "formula \"Brine\"\n kind other\n water 700 mL\n sodium chloride 30 g\n water to make 1 L\n"
#define BATH "formula \"Bath\"\n kind other\n water 700 mL\n sodium sulfite (anhydrous) 30 g\n phenidone 0.2 g from 1 % stock\n water to make 1 L\n"
#define BATCH(id, of, day, lines) "batch \"" id "\" of \"" of "\"\n mixed " day "\n" lines
#define BOTTLE(id, day, lines) BATCH(id, "phenidone 1 % stock", day, " made 100 mL\n" lines)

static json_t *shelf_of(const char *text, const char *date)
{
    const struct potash_options options = {.date = date};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    struct potash_output output = {0};
    if (potash_shelf(compiled.potash, POTASH_JSON, &output) == POTASH_UNUSABLE) {
        fail_msg("%s\n%s", potash_message(compiled.potash), text);
    }
    json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
    assert_non_null(json);
    compiled_free(&compiled);
    return json;
}

/* What is left of the pack at `index`, and of the batch. */
static double pack_left(const char *text, size_t index)
{
    json_t *json = shelf_of(text, "2026-12-31");
    double amount = json_number_of(json_array_get(json_object_get(json, "left"), index), "amount");
    json_decref(json);
    return amount;
}

static double bottle_left(const char *text, const char *id)
{
    json_t *json = shelf_of(text, "2026-12-31");
    const json_t *batches = json_object_get(json, "batches");
    double left = -1;
    for (size_t i = 0; i < json_array_size(batches); i++) {
        const json_t *batch = json_array_get(batches, i);
        left = strcmp(json_text_of(batch, "batch"), id) == 0 ? json_number_of(batch, "left_mL") : left;
    }
    json_decref(json);
    return left;
}

/* 31.5 g were weighed of B, where the formula says 30 g and A would have been first: 1000 - 31.5 g.  A changed formula changes nothing. */
static void what_is_written_counts(void **state)
{
    (void)state;
    const char text[] = SHELF BRINE BATCH("x", "Brine", "2026-03-04", " took sodium chloride 31.5 g of lot \"B\"\n");
    assert_near(pack_left(text, 0), 500);
    assert_near(pack_left(text, 1), 968.5);
    char changed[sizeof text];
    memcpy(changed, text, sizeof text);
    memcpy(strstr(changed, "30 g"), "90 g", 4);
    assert_near(pack_left(changed, 1), 968.5);
    /* Without a line it is calculated: 500 - 30 g; without a lot it comes off what would be taken: 500 - 31.5 g. */
    assert_near(pack_left(SHELF BRINE BATCH("x", "Brine", "2026-03-04", ""), 0), 470);
    assert_near(pack_left(SHELF BRINE BATCH("x", "Brine", "2026-03-04", " took sodium chloride 31.5 g\n"), 0), 468.5);
    /* What was taken before the count is in its figure. */
    assert_near(pack_left(SHELF BRINE BATCH("x", "Brine", "2026-01-01", " took sodium chloride 31.5 g of lot \"B\"\n"), 1), 1000);
}

static void what_is_calculated_is_marked(void **state)
{
    (void)state;
    json_t *json = shelf_of(SHELF BRINE BATCH("x", "Brine", "2026-03-04", " took sodium chloride 31.5 g of lot \"A\"\n")
                                BATCH("y", "Brine", "2026-03-05", "") BATCH("z", "Brine", "2026-03-06", ""),
                            "2026-12-31");
    const json_t *counted = json_object_get(json_array_get(json_object_get(json, "left"), 0), "counted");
    assert_near(json_number_of(counted, "batches"), 3);
    assert_near(json_number_of(counted, "calculated"), 2);
    json_decref(json);
}

/* A bottle of 100 mL gives 20 mL to each litre.  Five litres empty it; the sixth takes its 0.2 g from the jar: 20 - 1 - 0.2 g. */
static void a_bottle_runs_down(void **state)
{
    (void)state;
    char text[4000] = SHELF STOCK BATH BOTTLE("p", "2026-03-01", "");
    for (int i = 0; i < 5; i++) {
        snprintf(text + strlen(text), sizeof text - strlen(text), BATCH("b%d", "Bath", "2026-03-0%d", ""), i, i + 2);
    }
    assert_near(bottle_left(text, "p"), 0);
    assert_near(pack_left(text, 2), 19);
    snprintf(text + strlen(text), sizeof text - strlen(text), BATCH("b5", "Bath", "2026-03-08", ""));
    assert_near(bottle_left(text, "p"), 0);
    assert_near(pack_left(text, 2), 18.8);
}

/* One that is discarded, expired (1 March and a month: good on 1 April), not mixed yet or too small gives nothing. */
static void which_bottle_serves(void **state)
{
    (void)state;
    static const struct {
        const char *bottle, *day;
        double left;
    } cases[] = {
        {BOTTLE("p", "2026-03-01", " discarded 2026-03-10\n"), "2026-03-09", 80},
        {BOTTLE("p", "2026-03-01", " discarded 2026-03-10\n"), "2026-03-10", 100},
        {BOTTLE("p", "2026-03-01", ""), "2026-04-01", 80},
        {BOTTLE("p", "2026-03-01", ""), "2026-04-02", 100},
        {BOTTLE("p", "2026-03-01", ""), "2026-03-01", 80},
        {BOTTLE("p", "2026-03-02", ""), "2026-03-01", 100},
        {BOTTLE("p", "2026-03-01", " used 80 mL on 2026-03-01\n"), "2026-03-02", 0},
        {BOTTLE("p", "2026-03-01", " used 80.1 mL on 2026-03-01\n"), "2026-03-02", 19.9},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[2000];
        snprintf(text, sizeof text, "%s%s" BATCH("b", "Bath", "%s", ""), SHELF STOCK BATH, cases[i].bottle, cases[i].day);
        if (bottle_left(text, "p") - cases[i].left > 1e-6 || bottle_left(text, "p") - cases[i].left < -1e-6) {
            fail_msg("%g mL are left, not %g, of:\n%s", bottle_left(text, "p"), cases[i].left, text);
        }
        assert_near(pack_left(text, 2), cases[i].left < 100 && cases[i].left != 19.9 ? 19 : 18.8);
    }
    /* Of two the one that keeps the shorter, though it stands behind. */
    const char two[] = SHELF STOCK BATH BOTTLE("young", "2026-03-05", "") BOTTLE("old", "2026-03-01", "") BATCH("b", "Bath", "2026-03-06", "");
    assert_near(bottle_left(two, "old"), 80);
    assert_near(bottle_left(two, "young"), 100);
    const char written[] = SHELF STOCK BATH BOTTLE("young", "2026-03-05", "") BOTTLE("old", "2026-03-01", "")
        BATCH("b", "Bath", "2026-03-06", " took phenidone 18 mL of batch \"young\"\n");
    assert_near(bottle_left(written, "old"), 100);
    assert_near(bottle_left(written, "young"), 82);
    assert_near(pack_left(written, 2), 18); /* both bottles of 1 g each */
}

#define FIXER "formula \"Fixer\"\n kind other\n water 700 mL\n sodium chloride 30 g\n water to make 1 L\n use for film\n capacity 10 rolls per L\n" \
              " replenish 50 mL of \"Refill\" per roll\nformula \"Refill\"\n kind other\n water 700 mL\n sodium chloride 60 g\n water to make 1 L\n"

/* 1 L does 10 rolls; 6 were done; 100 mL at 50 mL a roll make up for two: 6 are still to go, and 100 mL less are left to refill from. */
static void topping_up_restores(void **state)
{
    (void)state;
    json_t *json = shelf_of(SHELF FIXER BATCH("f", "Fixer", "2026-03-01", " made 1 L\n used on 2026-03-02 for 6 rolls\n used 100 mL on 2026-03-03\n"
                                                                          " topped up 100 mL of batch \"r\" on 2026-03-03\n")
                                BATCH("r", "Refill", "2026-03-01", " made 1 L\n"),
                            "2026-03-04");
    const json_t *batches = json_object_get(json, "batches");
    assert_near(json_number_of(json_array_get(batches, 0), "left_mL"), 1000);
    assert_near(json_number_of(json_array_get(batches, 0), "still_does"), 6);
    assert_near(json_number_of(json_array_get(batches, 1), "left_mL"), 900);
    json_decref(json);
}

static void mistakes_have_their_lines(void **state)
{
    (void)state;
#define HEAD STOCK BATH "batch \"p\" of \"phenidone 1 % stock\"\n mixed 2026-03-02\n made 100 mL\n discarded 2026-03-10\n"
    static const struct {
        const char *lines, *wanted;
    } cases[] = {
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n took phenidone 100 mL of batch \"p\"\n", ""},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n took phenidone 101 mL of batch \"p\"\n", "amount-out-of-range:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n took phenidone 10 mL of batch \"q\"\n", "formula-unknown:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-01\n took phenidone 10 mL of batch \"p\"\n", "amount-out-of-range:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-11\n took phenidone 10 mL of batch \"p\"\n", "amount-out-of-range:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n took phenidone 10 mL\n", "unit-mismatch:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n took phenidon 1 g\n", "material-unknown:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n took phenidone 0 g\n", "amount-out-of-range:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n mixed as 56ff1cf6a0bb4440\n", ""},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n mixed as 56ff1cf6a0bb444\n", "syntax:16"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03\n mixed as 56ff1cf6a0bb4440\n mixed as 56ff1cf6a0bb4440\n", "declared-twice:17"},
        {"batch \"b\" of \"Bath\"\n mixed 2026-03-03 by \"R. K.\"\n topped up 60 mL of batch \"p\" on 2026-03-01\n", "amount-out-of-range:16"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[2000];
        snprintf(text, sizeof text, "%s%s", HEAD, cases[i].lines);
        expect_list(text, cases[i].wanted);
    }
}

/* A second batch of a name is offered the next one that nobody has. */
static void two_of_one_name(void **state)
{
    (void)state;
    static const char *const cases[][3] = {{"2026-03-04 a", "2026-03-04 b", "2026-03-04 c"},  {"2026-03-04 z RK", "none", "2026-03-04 aa RK"},
                                           {"WA-002", "none", "WA-003"},                      {"WA-009", "WA-010", "WA-011"},
                                           {"the red bottle", "none", "the red bottle b"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[1000];
        snprintf(text, sizeof text, BRINE "batch \"%s\" of \"Brine\"\n mixed 2026-03-04\nbatch \"%s\" of \"Brine\"\n mixed 2026-03-04\nbatch \"%s\" of \"Brine\"\n mixed 2026-03-04\n",
                 cases[i][0], cases[i][0], cases[i][1]);
        expect_one(text, "declared-twice", 8, 0);
        repair(text, sizeof text, "declared-twice", 8);
        char wanted[100];
        snprintf(wanted, sizeof wanted, "batch \"%s\" of", cases[i][2]);
        assert_non_null(strstr(text, wanted));
        expect_clean(text);
    }
}

/* ---- what --record writes ---- */

static char *recorded(const char *text, const char *option, const char *value)
{
    const char *file = scratch_text("club.bath", text);
    struct run run = run_potash("sheet", file, "--title=Bath", "--record", "--date=2026-03-06", option, value, NULL);
    assert_status(&run, 0);
    char *output = strdup(run.output);
    run_free(&run);
    scratch_remove();
    return output;
}

static void a_record_names_lots_and_bottles(void **state)
{
    (void)state;
    static const char text[] = SHELF " holds sodium sulfite (heptahydrate) 1 kg lot \"H\"\n" STOCK BATH BOTTLE("p", "2026-03-01", "");
    char *output = recorded(text, "--by", "Rosa Kern");
    assert_non_null(strstr(output, "batch \"2026-03-06 a RK\" of \"Bath\"\n    mixed 2026-03-06 by \"Rosa Kern\"\n    made  1 L\n    mixed as "));
    assert_non_null(strstr(output, "    took  sodium sulfite (anhydrous) 30 g\n    took  phenidone 20 mL of batch \"p\"\n"));
    free(output);
    /* 30 g of the anhydrous salt are 60.02 g of the heptahydrate: 126.04 and 252.15 g/mol (IUPAC 2021 abridged atomic weights). */
    output = recorded(text, "--using-shelf", NULL);
    assert_non_null(strstr(output, "    took  sodium sulfite (heptahydrate) 60.02 g of lot \"H\"\n"));
    /* And what is written comes off that pack: 1000 - 60.02 g. */
    char diary[4000];
    snprintf(diary, sizeof diary, "%s%s", text, output);
    assert_near(pack_left(diary, 3), 1000 - 60.02);
    assert_near(bottle_left(diary, "p"), 80);
    free(output);
}

static void names_by_day_and_letter(void **state)
{
    (void)state;
    char *output = recorded(BATH STOCK BATCH("2026-03-06 a", "Bath", "2026-03-06", "") BATCH("2026-03-06 c RK", "Bath", "2026-03-06", "")
                                BATCH("2026-03-07 k", "Bath", "2026-03-07", ""),
                            NULL, NULL);
    assert_non_null(strstr(output, "batch \"2026-03-06 d\" of"));
    free(output);
    const char *file = scratch_text("club.bath", BATH STOCK);
    struct run run = run_potash("sheet", file, "--title=Bath", "--record", "--date=2026-03-06", "--by", "R \" K", NULL);
    assert_status(&run, 2);
    run_free(&run);
    run = run_potash("sheet", file, "--by", "RK", NULL);
    assert_status(&run, 2);
    assert_says(&run, "--record");
    run_free(&run);
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_written_counts),  cmocka_unit_test(what_is_calculated_is_marked), cmocka_unit_test(a_bottle_runs_down),
        cmocka_unit_test(which_bottle_serves),     cmocka_unit_test(topping_up_restores),          cmocka_unit_test(mistakes_have_their_lines),
        cmocka_unit_test(two_of_one_name),         cmocka_unit_test(a_record_names_lots_and_bottles), cmocka_unit_test(names_by_day_and_letter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
