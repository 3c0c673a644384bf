/* The day on which a shelf was counted, and what batches took since: the lines that say so, and what is wrong about them. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#define BATH                                                                                                                \
    "formula \"Bath\"\n kind developer\n metol 2 g\n sodium sulfite (anhydrous) 75 g\n"                                      \
    " sodium carbonate (anhydrous) 30 g\n water to make 1 L\n"
#define SULFITE " holds sodium sulfite (anhydrous) 1 kg for 9.40 left 620 g opened 2026-01-02"
#define DIARY                                                                                                               \
    "batch \"A\" of \"Bath\"\n mixed 2026-01-31\n made 1 L\n"                                                                \
    "batch \"B\" of \"Bath\"\n mixed 2026-02-03\n made 1 L\n"                                                                \
    "batch \"C\" of \"Bath\"\n mixed 2026-02-10\n made 2 L\n"

struct seen {
    struct compiled compiled;
    json_t *json;
};

static struct seen look(const char *text, const char *counted)
{
    const struct potash_options options = {.date = "2026-03-01", .counted = counted};
    struct seen seen = {.compiled = compile_with(&options, text, strlen(text))};
    struct potash_output output;
    if (potash_shelf(seen.compiled.potash, POTASH_JSON, &output) == POTASH_UNUSABLE) {
        fail_msg("no shelf: %s", potash_message(seen.compiled.potash));
    }
    seen.json = json_loadb(output.bytes, output.length, 0, NULL);
    assert_non_null(seen.json);
    return seen;
}

static void seen_free(struct seen *seen)
{
    json_decref(seen->json);
    compiled_free(&seen->compiled);
}

static const json_t *pack_of(const struct seen *seen, size_t index)
{
    return json_array_get(json_object_get(seen->json, "left"), index);
}

static double left(const char *text, const char *counted, size_t index)
{
    struct seen seen = look(text, counted);
    double amount = json_number_of(pack_of(&seen, index), "amount");
    seen_free(&seen);
    return amount;
}

/* 75 g of sulfite a litre, and 3 L since 1 February: 620 - 225 = 395 g.  The call's day goes before the file's. */
static void the_file_alone_says_it(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n" SULFITE "\n counted 2026-02-01\n" BATH DIARY;
    struct seen seen = look(text, NULL);
    const json_t *pack = pack_of(&seen, 0);
    assert_near(json_number_of(pack, "amount"), 395);
    const json_t *counted = json_object_get(pack, "counted");
    assert_near(json_number_of(counted, "amount"), 620);
    assert_string_equal(json_text_of(counted, "left"), "620 g");
    assert_near(json_number_of(counted, "batches"), 2);
    assert_string_equal(json_text_of(counted, "day"), "2026-02-01");
    const json_t *shelf = json_array_get(json_object_get(seen.json, "counted"), 0);
    assert_string_equal(json_text_of(shelf, "day"), "2026-02-01");
    assert_near(json_number_of(shelf, "batches"), 2);
    seen_free(&seen);
    assert_near(left(text, "2026-02-03", 0), 620 - 2 * 75);
}

static void nothing_is_taken_off_without_a_day(void **state)
{
    (void)state;
    struct seen seen = look("shelf \"S\"\n currency GBP\n" SULFITE "\n" BATH DIARY, NULL);
    assert_near(json_number_of(pack_of(&seen, 0), "amount"), 620);
    assert_true(json_is_null(json_object_get(pack_of(&seen, 0), "counted")));
    assert_int_equal(json_array_size(json_object_get(seen.json, "counted")), 0);
    seen_free(&seen);
}

/* The day on a pack's line is that of its own figure: only the 2 L of 10 February were mixed after the 5th, and 620 - 150 = 470 g.
 * What the batch of the 3rd took is in the figure, and is not sought in the full bottle beside it. */
static void a_pack_has_a_day_of_its_own(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n" SULFITE " counted 2026-02-05\n"
                       " holds sodium sulfite (anhydrous) 1 kg for 9.40\n" BATH DIARY;
    assert_near(left(text, NULL, 0), 470);
    assert_near(left(text, NULL, 1), 1000);
    assert_near(left(text, "2026-01-01", 0), 470); /* the call's day is that of the shelf */
}

/* A pack that was opened on the 9th gave nothing to the batch of the 3rd: the full one did, 75 g; the opened one gave the 150 g of
 * the 10th. */
static void a_closed_pack_gives_nothing(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n"
                       " holds sodium sulfite (anhydrous) 1 kg for 9.40 opened 2026-02-09\n"
                       " holds sodium sulfite (anhydrous) 500 g for 9.40\n" BATH DIARY;
    assert_near(left(text, NULL, 0), 850);
    assert_near(left(text, NULL, 1), 425);
}

/* One shelf was counted and the other is kept by hand: what is opened on the latter is what is used, and in its figure already. */
static void a_shelf_that_is_kept_by_hand(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds sodium sulfite (anhydrous) 1 kg for 9.40\n"
                       "shelf \"T\"\n currency GBP\n" SULFITE "\n" BATH DIARY;
    assert_near(left(text, NULL, 0), 1000);
    assert_near(left(text, NULL, 1), 620);
    const char *empty = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds sodium sulfite (anhydrous) 1 kg for 9.40\n"
                        "shelf \"T\"\n currency GBP\n holds sodium sulfite (anhydrous) 1 kg left 0 g\n" BATH DIARY;
    assert_near(left(empty, NULL, 0), 1000 - 3 * 75);
}

/* 2 g for each litre: of 98 % metol 5 g hold 4.9 g, and the 6 g of the two batches take 1.1 g of the pure one. */
static void packs_of_two_purities(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n"
                       " holds metol 100 g for 18.50 left 5 g purity 98 % opened 2026-01-02\n holds metol 100 g for 18.50\n" BATH DIARY;
    assert_near(left(text, NULL, 0), 0);
    assert_near(left(text, NULL, 1), 98.9);
}

/* A pack that is not full has been opened, be the day known or not, and is used before a full one that keeps less long: 50 - 6 g. */
static void what_is_begun_goes_first(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds metol 100 g for 18.50 best before 2027-01-31\n"
                       " holds metol 100 g for 18.50 left 50 g\n" BATH DIARY;
    assert_near(left(text, NULL, 0), 100);
    assert_near(left(text, NULL, 1), 44);
}

/* The sheet takes what is left now: 5 g of lot A are used up by the 6 g that were mixed, and a litre takes its 2 g from lot B; by the
 * oldest price they cost 2/100 of 20.00 and no more 2/100 of 10.00. */
static void sheets_and_costs_go_by_what_is_left(void **state)
{
    (void)state;
    static const char text[] = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds metol 100 g for 10.00 left 5 g lot \"A\"\n"
                               " holds metol 100 g for 20.00 lot \"B\"\n holds sodium sulfite (anhydrous) 1 kg for 9.40\n"
                               " holds sodium carbonate (anhydrous) 1 kg for 5.80\n" BATH DIARY;
    static const struct {
        const char *counted;
        const char *lot;
        double cost;
    } cases[] = {{NULL, "lot: B", 0.40}, {"2026-02-20", "lot: A", 0.20}};
    for (size_t i = 0; i < 2; i++) {
        const struct potash_options options = {.date = "2026-03-01", .counted = cases[i].counted, .using_shelf = true, .price_by = "oldest"};
        struct compiled compiled = compile_with(&options, text, sizeof text - 1);
        struct potash_output output;
        assert_int_equal(potash_cost(compiled.potash, POTASH_JSON, &output), POTASH_GOOD);
        json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
        const json_t *formula = json_array_get(json_object_get(json, "formulas"), 0);
        assert_near(json_number_of(json_array_get(json_object_get(formula, "lines"), 0), "cost"), cases[i].cost);
        json_decref(json);
        assert_int_equal(potash_sheet(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
        assert_non_null(strstr(output.bytes, cases[i].lot));
        compiled_free(&compiled);
    }
}

/* 20 mL of a liquid out of a bottle that counts millilitres, and their weight out of one that counts grams: 20 mL at the density
 * that the library has. */
static void a_liquid_by_volume_and_by_weight(void **state)
{
    (void)state;
    const char *bath = "formula \"Bath\"\n kind other\n water 500 mL\n acetic acid (glacial) 20 mL\n water to make 1 L\n"
                       "batch \"A\" of \"Bath\"\n mixed 2026-02-03\n made 1 L\n";
    char text[1000];
    snprintf(text, sizeof text, "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds acetic acid (glacial) 500 mL left 300 mL\n%s", bath);
    assert_near(left(text, NULL, 0), 280);
    struct seen seen = look(text, NULL);
    double grams = json_number_of(compiled_addition(&seen.compiled, 0, 1), "mass_g");
    seen_free(&seen);
    assert_within(grams, 20 * 1.049, 0.01); /* CRC Handbook of Chemistry and Physics: 1.0446 g/mL at 25 °C, 1.0492 at 20 °C */
    snprintf(text, sizeof text, "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds acetic acid (glacial) 500 g left 300 g\n%s", bath);
    assert_near(left(text, NULL, 0), 300 - grams);
}

/* 100 mL of a stock take 100 mL of its solvent, be they poured in two portions: 700 - 100 = 600 mL. */
static void the_solvent_of_a_stock_is_taken_once(void **state)
{
    (void)state;
    assert_near(left("shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds isopropyl alcohol (99 %) 1 L left 700 mL\n"
                     "stock phenidone 1 %\n in isopropyl alcohol\n"
                     "batch \"P\" of \"phenidone 1 % stock\"\n mixed 2026-02-03\n made 100 mL\n",
                     NULL, 0),
                600);
}

/* What was past its day is used where there is nothing else: the diary has that the bath was mixed. */
static void what_is_old_comes_last(void **state)
{
    (void)state;
    const char *old = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds metol 100 g for 18.50 left 50 g best before 2026-01-31\n" BATH DIARY;
    assert_near(left(old, NULL, 0), 44);
    const char *both = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n holds metol 100 g for 18.50 left 50 g best before 2026-01-31\n"
                       " holds metol 100 g for 18.50 left 5 g\n" BATH DIARY;
    assert_near(left(both, NULL, 0), 49);
    assert_near(left(both, NULL, 1), 0);
}

/* What is mixed after the day that is printed is still to come. */
static void what_is_still_to_come_stays(void **state)
{
    (void)state;
    assert_near(left("shelf \"S\"\n currency GBP\n counted 2026-02-01\n" SULFITE "\n" BATH DIARY
                     "batch \"D\" of \"Bath\"\n mixed 2026-03-02\n made 1 L\n",
                     NULL, 0),
                395);
}

/* Of 5 g of metol 2 g and 4 g were mixed: 1 g was not there, and the batch of the 10th is told so.  Nothing is said of what stands
 * nowhere (the carbonate), nor of what was empty by the day of the count. */
static void what_was_not_there_is_said(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n counted 2026-02-01\n" SULFITE
                       "\n holds metol 100 g for 18.50 left 5 g\n holds sodium carbonate (anhydrous) 1 kg left 0 g\n" BATH DIARY;
    struct seen seen = look(text, NULL);
    const json_t *overdrawn = json_object_get(seen.json, "overdrawn");
    assert_int_equal(json_array_size(overdrawn), 1);
    const json_t *metol = json_array_get(overdrawn, 0);
    assert_string_equal(json_text_of(metol, "material"), "metol");
    assert_near(json_number_of(metol, "mass_g"), 1);
    assert_near(json_number_of(metol, "batches"), 1);
    assert_string_equal(json_text_of(metol, "first"), "C");
    assert_non_null(compiled_find(&seen.compiled, "not-on-shelf", 19)); /* the heading of C */
    struct potash_output output;
    assert_int_equal(potash_shelf(seen.compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    assert_non_null(strstr(output.bytes, "Count anew"));
    seen_free(&seen);
}

/* What all reports have is the reckoned figure: the 4 g of metol were used up, and the formula is warned of it. */
static void what_is_used_up_is_missing(void **state)
{
    (void)state;
    const char *text = "shelf \"S\"\n currency GBP\n counted 2026-02-05\n" SULFITE
                       "\n holds metol 100 g for 18.50 left 4 g\n holds sodium carbonate (anhydrous) 1 kg\n" BATH DIARY;
    struct seen seen = look(text, NULL);
    assert_non_null(compiled_find(&seen.compiled, "not-on-shelf", 9));
    assert_int_equal(compiled_count(&seen.compiled, "not-on-shelf"), 1);
    assert_string_equal(json_text_of(json_array_get(json_object_get(seen.json, "can_mix"), 0), "how"), "no");
    seen_free(&seen);
}

static void expect_dated(const char *lines, const char *wanted)
{
    char text[1000];
    snprintf(text, sizeof text, "shelf \"S\"\n currency GBP\n%s", lines);
    const struct potash_options options = {.date = "2026-03-01"};
    struct compiled compiled = compile_with(&options, text, strlen(text));
    char said[200] = "";
    for (size_t i = 0; i < json_array_size(compiled.diagnostics); i++) {
        const json_t *diagnostic = json_array_get(compiled.diagnostics, i);
        size_t at = strlen(said);
        snprintf(said + at, sizeof said - at, "%s%s:%g", at == 0 ? "" : " ", json_text_of(diagnostic, "id"),
                 json_number_of(diagnostic, "line"));
    }
    assert_string_equal(said, wanted);
    compiled_free(&compiled);
}

static void mistakes_stand_at_their_line(void **state)
{
    (void)state;
    expect_dated(" counted 2026-02-01\n" SULFITE "\n", "");
    expect_dated(" counted 2026-02-01\n counted 2026-02-08\n", "declared-twice:4");
    expect_dated(" counted 2026-02-30\n", "amount-out-of-range:3");
    expect_dated(" counted 2026-03-02\n", "amount-unusual:3");
    expect_dated(" counted yesterday\n", "syntax:3");
    expect_dated(SULFITE " counted 2027-02-01\n", "amount-unusual:3");
    /* 620 g cannot be what was left of a bottle that was closed; with the day of that figure they can, and a full one is full */
    expect_dated(" counted 2026-01-01\n" SULFITE "\n", "amount-unusual:4");
    expect_dated(" counted 2026-01-01\n" SULFITE " counted 2026-01-09\n", "");
    expect_dated(" counted 2026-01-01\n holds metol 100 g opened 2026-01-02\n", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_file_alone_says_it),
        cmocka_unit_test(nothing_is_taken_off_without_a_day),
        cmocka_unit_test(a_pack_has_a_day_of_its_own),
        cmocka_unit_test(a_closed_pack_gives_nothing),
        cmocka_unit_test(a_shelf_that_is_kept_by_hand),
        cmocka_unit_test(packs_of_two_purities),
        cmocka_unit_test(what_is_begun_goes_first),
        cmocka_unit_test(sheets_and_costs_go_by_what_is_left),
        cmocka_unit_test(a_liquid_by_volume_and_by_weight),
        cmocka_unit_test(the_solvent_of_a_stock_is_taken_once),
        cmocka_unit_test(what_is_old_comes_last),
        cmocka_unit_test(what_is_still_to_come_stays),
        cmocka_unit_test(what_was_not_there_is_said),
        cmocka_unit_test(what_is_used_up_is_missing),
        cmocka_unit_test(mistakes_stand_at_their_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
