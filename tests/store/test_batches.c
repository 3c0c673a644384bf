/* Batches: what their diary says, and what is wrong about it. */
#include "session/session.h"
#include "support/compiling.h"

#include <math.h>
#include <stdio.h>

/* A fixer that is used as it is mixed and poured back, a developer that is diluted, and one that asks for stock by the roll. */
#define FORMULAS                                                                                                       \
    "formula \"Fixer\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\n"                                         \
    "use for film\ncapacity 10 rolls per L\nuse for paper\ncapacity 20 sheets 8x10 in per L\n"                         \
    "keeps 6 months in full bottle\nkeeps 2 months in half full bottle\nkeeps 1 day in tray\n"                         \
    "formula \"Developer\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\n"                                     \
    "use for paper\ndilute 1+3\ncapacity 40 sheets 8x10 in per L\n"                                                    \
    "formula \"Drops\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\nuse for film\ndilute 1+29\nneeds 10 mL per roll\n"
enum { FIRST = 26 }; /* the line behind them */

static struct compiled diary(const char *lines)
{
    char text[4000];
    assert_true(snprintf(text, sizeof text, FORMULAS "%s", lines) < (int)sizeof text);
    return compile(text);
}

static const struct mixing *batch_of(const struct compiled *compiled, const char *id)
{
    const struct mixing *batch = batches_find(&compiled->potash->batches, text_from(id));
    assert_non_null(batch);
    return batch;
}

static void what_is_poured_back_counts_against_the_capacity(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"F-1\" of \"Fixer\"\nmixed 2026-03-01\nmade 1 L\n"
                                     "used on 2026-03-02 for 3 rolls\nused 250 mL on 2026-03-03 for 2 rolls\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    struct mixing_standing standing = mixing_standing(batch_of(&compiled, "F-1"), calendar_day(TEXT("2026-03-04")), NULL);
    assert_int_equal(standing.state, BATCH_IN_USE);
    assert_near(standing.left, 750);
    /* 10 rolls a litre: 750 mL do 7.5, and 3 went through it; the 250 mL took their 2 rolls with them. */
    assert_near(standing.still.count, 4.5);
    compiled_free(&compiled);
}

static void other_goods_are_counted_by_their_area(void **state)
{
    (void)state;
    /* 8 sheets of 4x5 in are 160 square inches, as 2 rolls of 80 (common practice). */
    struct compiled compiled = diary("batch \"F-1\" of \"Fixer\"\nmixed 2026-03-01\nmade 1 L\nused on 2026-03-02 for 3 rolls\n"
                                     "used on 2026-03-03 for 8 sheets 4x5 in\n");
    struct mixing_standing standing = mixing_standing(batch_of(&compiled, "F-1"), CALENDAR_NO_DAY, NULL);
    assert_near(standing.still.count, 10 - 3 - 2);
    compiled_free(&compiled);
}

static void a_dilution_makes_the_stock_go_further(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"D-1\" of \"Developer\"\nmade 1 L\nused 500 mL on 2026-03-02 for 60 sheets 8x10 in\n"
                                     "batch \"S-1\" of \"Drops\"\nmade 500 mL\n");
    /* 500 mL at 1+3 are 2 L of working solution, 40 sheets each. */
    assert_near(mixing_standing(batch_of(&compiled, "D-1"), CALENDAR_NO_DAY, NULL).still.count, 80);
    /* 10 mL a roll: 500 mL of stock do 50 (common practice, no source). */
    assert_near(mixing_standing(batch_of(&compiled, "S-1"), CALENDAR_NO_DAY, NULL).still.count, 50);
    compiled_free(&compiled);
}

static void how_long_a_batch_keeps(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"F-1\" of \"Fixer\"\nmixed 2026-03-01\nmade 1 L\n"
                                     "batch \"F-2\" of \"Fixer\"\nmixed 2026-03-01\nmade 1 L\nused 200 mL on 2026-03-20\nused 300 mL on 2026-04-01\n"
                                     "batch \"D-1\" of \"Developer\"\nmixed 2026-03-01\n");
    /* Months of the calendar: 1 March and six of them. */
    long full = mixing_standing(batch_of(&compiled, "F-1"), CALENDAR_NO_DAY, NULL).discard;
    assert_int_equal(full, calendar_day(TEXT("2026-09-01")));
    /* Half of it was gone on 1 April; two months more are 1 June. */
    long half = mixing_standing(batch_of(&compiled, "F-2"), CALENDAR_NO_DAY, NULL).discard;
    assert_int_equal(half, calendar_day(TEXT("2026-06-01")));
    assert_int_equal(mixing_standing(batch_of(&compiled, "D-1"), CALENDAR_NO_DAY, NULL).discard, CALENDAR_NO_DAY);
    assert_int_equal(mixing_standing(batch_of(&compiled, "F-1"), full, NULL).state, BATCH_IN_USE);
    assert_int_equal(mixing_standing(batch_of(&compiled, "F-1"), full + 1, NULL).state, BATCH_TOO_OLD);
    compiled_free(&compiled);
}

static void what_ends_a_batch(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"A\" of \"Fixer\"\nmade 1 L\nused 1 L on 2026-03-02\n"
                                     "batch \"B\" of \"Fixer\"\nmade 1 L\nused on 2026-03-02 for 10 rolls\n"
                                     "batch \"C\" of \"Fixer\"\nmade 1 L\ndiscarded 2026-03-02\n"
                                     "batch \"D\" of \"Fixer\"\nmade 2 L\nused 1 L on 2026-03-02\n");
    assert_int_equal(mixing_standing(batch_of(&compiled, "A"), CALENDAR_NO_DAY, NULL).state, BATCH_EMPTY);
    assert_int_equal(mixing_standing(batch_of(&compiled, "B"), CALENDAR_NO_DAY, NULL).state, BATCH_EXHAUSTED);
    assert_int_equal(mixing_standing(batch_of(&compiled, "C"), CALENDAR_NO_DAY, NULL).state, BATCH_DISCARDED);
    const struct mixing *last = batch_of(&compiled, "D");
    struct batch_supply supply = batch_supply(batches_of(&compiled.potash->batches, last->formula), CALENDAR_NO_DAY, NULL, NULL);
    assert_int_equal(supply.in_use, 1);
    assert_near(supply.left, 1000);
    assert_ptr_equal(supply.next, last);
    compiled_free(&compiled);
}

static void expect_in_diary(const char *lines, const char *id, int line, int column)
{
    char text[4000];
    snprintf(text, sizeof text, FORMULAS "batch \"F-1\" of \"Fixer\"\nmixed 2026-03-01\nmade 1 L\n%s", lines);
    expect_one(text, id, FIRST + line, column);
}

static void mistakes_stand_at_their_line(void **state)
{
    (void)state;
    expect_in_diary("used 1.2 L on 2026-03-02\n", "amount-out-of-range", 3, 6);
    expect_in_diary("used 600 mL on 2026-03-02\nused 600 mL on 2026-03-03\n", "amount-out-of-range", 4, 6);
    expect_in_diary("used 100 mL on 2026-02-28\n", "amount-out-of-range", 3, 16);
    expect_in_diary("discarded 2026-02-28\n", "amount-out-of-range", 3, 11);
    expect_in_diary("discarded 2026-03-05\nused 100 mL on 2026-03-06\n", "amount-out-of-range", 4, 16);
    expect_in_diary("used 100 mL on 2026-02-30\n", "amount-out-of-range", 3, 16);
    expect_in_diary("used 100 mL on 2026-03-02 for 10 sheets\n", "unit-mismatch", 3, 31);
    expect_in_diary("used 100 mL on 2026-03-02 for 10 rols\n", "unit-unknown", 3, 34);
    expect_in_diary("used 100 g on 2026-03-02\n", "unit-mismatch", 3, 6);
    expect_in_diary("used -5 mL on 2026-03-02\n", "amount-out-of-range", 3, 6);
    expect_in_diary("trial 2026-02-02 film \"thin\"\n", "amount-out-of-range", 3, 7);
    expect_in_diary("trial 2026-03-02 film -9 min \"thin\"\n", "amount-out-of-range", 3, 0);
    expect_in_diary("trial 2026-03-02 film at 9 min \"thin\"\n", "unit-mismatch", 3, 0);
    expect_in_diary("trial 2026-03-02 film grade 12\n", "amount-out-of-range", 3, 29);
    expect_in_diary("batch \"F-1\" of \"Fixer\"\n", "declared-twice", 3, 7);
    expect_in_diary("batch \"F-2\" of \"Fixxer\"\n", "formula-unknown", 3, 16);
}

static void a_misspelt_formula_is_offered_right(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"F-1\" of \"Fixxer\"\n");
    const json_t *fixes = json_object_get(compiled_find(&compiled, "formula-unknown", FIRST), "fixes");
    assert_int_equal(json_array_size(fixes), 1);
    assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), "\"Fixer\"");
    compiled_free(&compiled);
}

/* The faulty batch says nothing; the others and the formulas go on. */
static void the_rest_goes_on(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"A\" of \"Fixer\"\nmade 1 L\nused 2 L on 2026-03-02\nbatch \"B\" of \"Fixer\"\nmade 2 L\n");
    assert_int_equal(compiled.status, POTASH_FAULTY);
    assert_true(isnan(mixing_standing(batch_of(&compiled, "A"), CALENDAR_NO_DAY, NULL).left));
    assert_near(mixing_standing(batch_of(&compiled, "B"), CALENDAR_NO_DAY, NULL).left, 2000);
    struct potash_output output;
    assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    compiled_free(&compiled);
}

static void trials_in_all_orders(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"F-1\" of \"Fixer\"\n"
                                     "trial 2026-03-06 film at 68 °F 9 min 30 s speed 200 grade 2 \"shadows thin\"\n"
                                     "trial 2026-03-07 grade 2 1/2, speed 12.5, of \"pull processing\", for 90 s\n"
                                     "trial 2026-03-08 \"only a verdict\"\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const struct trial *trial = batch_of(&compiled, "F-1")->trials;
    assert_true(text_is(trial->use, "film"));
    assert_near(trial->of.temperature, 20);
    assert_near(trial->of.time[0], 570);
    assert_near(trial->of.speed, 200);
    assert_near(trial->of.grade, 2);
    assert_true(text_is(trial->verdict, "shadows thin"));
    trial = trial->next;
    assert_true(text_is(trial->use, "pull processing"));
    assert_near(trial->of.time[0], 90);
    assert_near(trial->of.speed, 12.5);
    assert_near(trial->of.grade, 2.5);
    trial = trial->next;
    assert_true(isnan(trial->of.time[0]) && isnan(trial->of.speed));
    assert_true(text_is(trial->verdict, "only a verdict"));
    compiled_free(&compiled);
}

static void new_ids_go_on_counting(void **state)
{
    (void)state;
    struct compiled compiled = diary("batch \"2026-03-04 a\" of \"Fixer\"\nbatch \"2026-03-04 z RK\" of \"Fixer\"\nbatch \"2026-03-05 b\" of \"Fixer\"\n"
                                     "batch \"2026-03-05-x\" of \"Fixer\"\nbatch \"2026-03-06 Z\" of \"Fixer\"\n");
    struct potash *potash = compiled.potash;
    jmp_buf failed;
    if (setjmp(failed) != 0) {
        fail_msg("out of memory");
    }
    potash->arena.on_failure = &failed;
    static const struct {
        const char *day, *by, *wanted;
    } cases[] = {
        {"2026-03-04", "", "2026-03-04 aa"},
        {"2026-03-05", "R. K.", "2026-03-05 c RK"},
        {"2026-03-05", "rosa kern-miller", "2026-03-05 c RKM"},
        {"2026-03-06", "Éva", "2026-03-06 a É"},
        {"2026-03-07", "", "2026-03-07 a"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct text id = batches_new_id(&potash->batches, &potash->arena, text_from(cases[i].day), text_from(cases[i].by), NULL);
        assert_true(text_is(id, cases[i].wanted));
    }
    compiled_free(&compiled);
}

#define PARTS                                                                                                          \
    "formula \"Two\"\nkind other\npart A\nsodium chloride 10 g\nwater to make 500 mL\nkeeps 12 months in full bottle\n" \
    "part B\nborax (decahydrate) 20 g\nwater to make 1 L\nkeeps 6 months in full bottle\n"                           \
    "use for film\nmix A 1 + B 2 + water 7\ncapacity 10 rolls per L\n"                                               \
    "shelf \"S\"\ncounted 2026-02-28\nholds sodium chloride 100 g\nholds borax (decahydrate) 100 g\n"

static struct compiled diary_of_parts(const char *lines)
{
    char text[4000];
    assert_true(snprintf(text, sizeof text, PARTS "%s", lines) < (int)sizeof text);
    return compile(text);
}

/* 250 mL of A are half of its 500 mL and take 5 g of salt; 2 L of B are twice its litre and take 40 g of borax.  A is a tenth of the
 * working solution: 250 mL make 2.5 L, which do 25 rolls; B is a fifth: 2 L make 10 L for 100.  Of the whole formula, counted by the
 * 500 mL of A, there are 250 mL by A and 1 L by B.  A keeps for 365 days, B for half a mean year, 182. */
static void a_part_has_a_bottle_of_its_own(void **state)
{
    (void)state;
    struct compiled compiled = diary_of_parts("batch \"A-1\" of \"Two\"\nmixed 2026-03-01\nmade 250 mL of A\n"
                                              "batch \"B-1\" of \"Two\"\nmixed 2026-03-01\nmade 2 L of part B\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const struct mixing *a = batch_of(&compiled, "A-1");
    const struct mixing *b = batch_of(&compiled, "B-1");
    assert_near(store_packs(&compiled.potash->store, a->formula->parts->steps->material)->left, 95);
    assert_near(store_packs(&compiled.potash->store, a->formula->parts->next->steps->material)->left, 60);
    assert_near(mixing_standing(a, CALENDAR_NO_DAY, NULL).still.count, 25);
    assert_near(mixing_standing(b, CALENDAR_NO_DAY, NULL).still.count, 100);
    assert_int_equal(mixing_standing(a, CALENDAR_NO_DAY, NULL).discard, calendar_day(TEXT("2027-03-01")));
    assert_int_equal(mixing_standing(b, CALENDAR_NO_DAY, NULL).discard, calendar_day(TEXT("2026-09-01")));
    struct batch_supply supply = batch_supply(batches_of(&compiled.potash->batches, a->formula), CALENDAR_NO_DAY, NULL, NULL);
    assert_near(supply.left, 250);
    assert_near(supply.still.count, 25);
    assert_ptr_equal(supply.scarcest, a->part);
    assert_ptr_equal(supply.last, a);
    compiled_free(&compiled);
}

/* Both parts from one batch: 250 mL of A and the 500 mL of B that go with it; the part that spoils first ends it. */
static void a_batch_of_all_parts(void **state)
{
    (void)state;
    struct compiled compiled = diary_of_parts("batch \"T-1\" of \"Two\"\nmixed 2026-03-01\nmade 250 mL\n");
    const struct mixing *batch = batch_of(&compiled, "T-1");
    assert_null(batch->part);
    assert_near(store_packs(&compiled.potash->store, batch->formula->parts->steps->material)->left, 95);
    assert_near(store_packs(&compiled.potash->store, batch->formula->parts->next->steps->material)->left, 90);
    assert_int_equal(mixing_standing(batch, CALENDAR_NO_DAY, NULL).discard, calendar_day(TEXT("2026-09-01")));
    compiled_free(&compiled);
}

/* Without B nothing can be mixed of A. */
static void a_part_that_nobody_mixed(void **state)
{
    (void)state;
    struct compiled compiled = diary_of_parts("batch \"A-1\" of \"Two\"\nmixed 2026-03-01\nmade 250 mL of A\n");
    const struct mixing *a = batch_of(&compiled, "A-1");
    struct batch_supply supply = batch_supply(batches_of(&compiled.potash->batches, a->formula), CALENDAR_NO_DAY, NULL, NULL);
    assert_near(supply.left, 0);
    assert_ptr_equal(supply.scarcest, a->formula->parts->next);
    compiled_free(&compiled);
    compiled = diary_of_parts("batch \"A-1\" of \"Two\"\nmixed 2026-03-01\nmade 250 mL of C\n");
    assert_non_null(compiled_find(&compiled, "part-unknown", 20));
    compiled_free(&compiled);
    compiled = diary_of_parts("batch \"A-1\" of \"Two\"\nmixed 2026-03-01\nmade 250 mL of A\nmade 1 L of B\nmixed 2026-03-02\n");
    assert_non_null(compiled_find(&compiled, "declared-twice", 21));
    assert_non_null(compiled_find(&compiled, "declared-twice", 22));
    assert_int_equal(compiled_count(&compiled, NULL), 2);
    compiled_free(&compiled);
}

/* 154 g are twice the 77 g that the mix makes, of which 2 g are salt: 100 - 4 - 2 = 94 g are left of that; 20 g were used of the first. */
static void a_dry_mix_is_weighed(void **state)
{
    (void)state;
    static const char text[] = "shelf \"S\"\ncounted 2026-01-31\nholds sodium chloride 100 g\n"
                               "formula \"Mix\"\nkind other\nmakes 77 g\nsodium chloride 2 g\nborax (decahydrate) 75 g\n"
                               "batch \"M-1\" of \"Mix\"\nmixed 2026-02-01\nmade 154 g\nused 20 g on 2026-02-02\n"
                               "batch \"M-2\" of \"Mix\"\nmixed 2026-02-01\n"
                               "batch \"M-3\" of \"Mix\"\nmixed 2026-02-01\nmade 1 L\n"
                               "batch \"M-4\" of \"Mix\"\nmixed 2026-02-01\nused 80 g on 2026-02-02\n";
    struct compiled compiled = compile(text);
    assert_near(mixing_standing(batch_of(&compiled, "M-1"), CALENDAR_NO_DAY, NULL).left, 134);
    assert_near(batch_of(&compiled, "M-2")->made, 77);
    assert_near(store_packs(&compiled.potash->store, batch_of(&compiled, "M-1")->formula->parts->steps->material)->left, 94);
    assert_non_null(compiled_find(&compiled, "unit-mismatch", 17));
    assert_non_null(compiled_find(&compiled, "amount-out-of-range", 20));
    assert_int_equal(compiled.potash->drawn_down.left_out, 2);
    compiled_free(&compiled);
}

/* The first day of a batch that is still to come is told; the others are wrong in the same way. */
static void a_day_still_to_come(void **state)
{
    (void)state;
    static const char text[] = FORMULAS "batch \"F-1\" of \"Fixer\"\nmixed 2027-03-01\nused on 2027-03-02 for 3 rolls\n"
                                        "batch \"F-2\" of \"Fixer\"\nmixed 2026-03-01\nused on 2027-03-02 for 3 rolls\n";
    struct compiled compiled = compile_with(&(struct potash_options){.date = "2026-03-04"}, text, sizeof text - 1);
    assert_int_equal(compiled_count(&compiled, NULL), 2);
    assert_non_null(compiled_find(&compiled, "amount-unusual", FIRST + 1));
    assert_non_null(compiled_find(&compiled, "amount-unusual", FIRST + 5));
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_poured_back_counts_against_the_capacity),
        cmocka_unit_test(other_goods_are_counted_by_their_area),
        cmocka_unit_test(a_dilution_makes_the_stock_go_further),
        cmocka_unit_test(how_long_a_batch_keeps),
        cmocka_unit_test(what_ends_a_batch),
        cmocka_unit_test(mistakes_stand_at_their_line),
        cmocka_unit_test(a_misspelt_formula_is_offered_right),
        cmocka_unit_test(the_rest_goes_on),
        cmocka_unit_test(trials_in_all_orders),
        cmocka_unit_test(a_part_has_a_bottle_of_its_own),
        cmocka_unit_test(a_batch_of_all_parts),
        cmocka_unit_test(a_part_that_nobody_mixed),
        cmocka_unit_test(a_dry_mix_is_weighed),
        cmocka_unit_test(a_day_still_to_come),
        cmocka_unit_test(new_ids_go_on_counting),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
