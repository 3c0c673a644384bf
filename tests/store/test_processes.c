/* Processes worked out for rolls and sheets: fillings, the clock, water; and what is wrong about them. */
#include "support/compiling.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define FORMULAS                                                                                                       \
    "formula \"Drops\"\nkind other\nsodium chloride 10 g\nwater to make 500 mL\nuse for film\ndilute 1+29\n"           \
    "temperature 20 °C\ntime 8 to 9 min\nneeds 10 mL per roll\ncoefficient 2 per 10 °C\n"                              \
    "formula \"Stop\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\nuse for film\ntime 30 s\ncapacity 12 rolls per L\n" \
    "formula \"Two parts\"\nkind other\npart A\nsodium chloride 10 g\nwater to make 500 mL\n"                          \
    "part B\nsodium chloride 10 g\nwater to make 1 L\nuse for film\nmix A 1 + B 2 + water 22\ntime 10 min\n"           \
    "formula \"Twice\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\nuse for film\nuse for paper\n"
enum { FIRST = 35 }; /* the line behind them */

struct worked {
    struct compiled compiled;
    json_t *json;
    const json_t *process;
};

static struct worked work(const char *goods, const char *lines)
{
    char text[4000];
    assert_true(snprintf(text, sizeof text, FORMULAS "process \"P\"\n%s", lines) < (int)sizeof text);
    struct worked worked = {0};
    worked.compiled = compile_with(&(struct potash_options){.goods = goods, .date = "2026-03-04"}, text, strlen(text));
    struct potash_output output;
    if (potash_process(worked.compiled.potash, POTASH_JSON, &output) != POTASH_GOOD) {
        fail_msg("no process: %s", potash_message(worked.compiled.potash));
    }
    worked.json = json_loadb(output.bytes, output.length, 0, NULL);
    assert_non_null(worked.json);
    worked.process = json_array_get(json_object_get(worked.json, "processes"), 0);
    assert_non_null(worked.process);
    return worked;
}

static void worked_free(struct worked *worked)
{
    json_decref(worked->json);
    compiled_free(&worked->compiled);
}

static const json_t *stage(const struct worked *worked, size_t index)
{
    const json_t *found = json_array_get(json_object_get(worked->process, "stages"), index);
    assert_non_null(found);
    return found;
}

static double share(const json_t *bath, size_t index)
{
    return json_number_of(json_array_get(json_object_get(bath, "shares"), index), "volume_mL");
}

/* The fact of small darkrooms (common practice, no source): 10 mL of stock make a tank of 300 mL at 1+29, so that 500 mL of stock
 * do 50 tanks. */
static void fifty_tanks_from_half_a_litre(void **state)
{
    (void)state;
    struct worked worked = work("50 rolls", "tank 300 mL holds 1 roll\nbath \"Drops\" for film\n");
    const json_t *bath = stage(&worked, 0);
    assert_near(share(bath, 0), 10);
    assert_near(share(bath, 1), 290);
    assert_true(json_is_true(json_object_get(bath, "once"))); /* it needs stock by the roll, and knows no capacity */
    assert_near(json_number_of(worked.process, "loads"), 50);
    assert_near(json_number_of(bath, "stock_in_all_mL"), 500);
    assert_near(json_number_of(bath, "lacking_mL"), 0);
    const json_t *need = json_array_get(json_object_get(worked.process, "needs"), 0);
    assert_near(json_number_of(need, "volume_mL"), 500);
    worked_free(&worked);
}

/* 12 rolls a litre: 500 mL do 6 rolls, three loads of two; 10 rolls are five loads, for which two fillings are made up. */
static void a_bath_is_changed_when_its_capacity_is_spent(void **state)
{
    (void)state;
    struct worked worked = work("10 rolls", "tank 500 mL holds 2 rolls\nbath \"Stop\" for film\n");
    const json_t *bath = stage(&worked, 0);
    assert_near(json_number_of(worked.process, "loads"), 5);
    assert_near(json_number_of(bath, "does"), 6);
    assert_near(json_number_of(bath, "fillings"), 2);
    assert_near(json_number_of(bath, "stock_in_all_mL"), 1000);
    worked_free(&worked);
    /* `replace after` goes before the capacity: after 4 rolls, two loads; three fillings for five loads. */
    worked = work("10 rolls", "tank 500 mL holds 2 rolls\nbath \"Stop\" for film\nreplace after 4 rolls\n");
    assert_near(json_number_of(stage(&worked, 0), "fillings"), 3);
    worked_free(&worked);
    /* Replenished, one filling goes on: 20 mL for each of ten rolls. */
    worked = work("10 rolls", "tank 500 mL holds 2 rolls\nbath \"Stop\" for film\nreplenish 20 mL per roll from \"Drops\"\n");
    assert_near(json_number_of(stage(&worked, 0), "fillings"), 1);
    assert_near(json_number_of(stage(&worked, 0), "replenisher_mL"), 200);
    const json_t *second = json_array_get(json_object_get(worked.process, "needs"), 1);
    assert_string_equal(json_text_of(second, "title"), "Drops");
    assert_near(json_number_of(second, "volume_mL"), 200);
    worked_free(&worked);
}

static void sheets_in_a_tank_are_counted_by_area(void **state)
{
    (void)state;
    /* A sheet of 4x5 in is 20 square inches, a roll 80: two rolls make room for eight sheets; 12 sheets are two loads. */
    struct worked worked = work("12 sheets 4x5 in", "tank 500 mL holds 2 rolls\nbath \"Stop\" for film\n");
    assert_near(json_number_of(worked.process, "at_a_time"), 8);
    assert_near(json_number_of(worked.process, "loads"), 2);
    assert_near(json_number_of(stage(&worked, 0), "does"), 24);
    worked_free(&worked);
}

static void the_clock(void **state)
{
    (void)state;
    struct worked worked = work(NULL, "tank 500 mL holds 1 roll\ndrain 15 s\nbath \"Drops\" for film at 20 °C 9 min\n"
                                      "bath \"Stop\" for film\ndo \"look\"\ndo \"turn the reel under a lamp\" 2 min\n"
                                      "wash 10 min, 3 L per min\nwash 5 changes of 500 mL\n");
    /* 540; 30; 0; 120; 600; 5 x 60 assumed: starts 0, 540, 570, 570, 690, 1290, and 1590 in all. */
    static const double starts[] = {0, 540, 570, 570, 690, 1290};
    for (size_t i = 0; i < 6; i++) {
        assert_near(json_number_of(stage(&worked, i), "start_s"), starts[i]);
    }
    assert_near(json_number_of(worked.process, "length_s"), 1590);
    assert_near(json_number_of(stage(&worked, 0), "pour_out_s"), 525);
    assert_near(json_number_of(stage(&worked, 1), "pour_out_s"), 560); /* 15 s of 30 are too much: a third */
    /* 10 min of 3 L, and 5 of half a litre; with 1+29 of 500 mL, 483.3 mL of water in the first bath. */
    assert_near(json_number_of(stage(&worked, 4), "water_mL"), 30000);
    assert_near(json_number_of(stage(&worked, 5), "water_mL"), 2500);
    assert_within(json_number_of(worked.process, "water_mL"), 32500 + 500 * 29 / 30.0, 1e-9);
    assert_true(json_is_true(json_object_get(worked.process, "water_complete")));
    worked_free(&worked);
}

static void time_at_another_temperature(void **state)
{
    (void)state;
    /* 8 min at 20 °C, a factor of 2 for 10 °C: at 24 °C 480 / 2^0.4 = 363.8 s, to 5 s 365. */
    struct worked worked = work(NULL, "tank 500 mL holds 1 roll\nbath \"Drops\" for film at 24 °C\n");
    assert_near(json_number_of(stage(&worked, 0), "time_s"), 365);
    assert_true(json_is_true(json_object_get(stage(&worked, 0), "time_adjusted")));
    worked_free(&worked);
    /* The process's own time stands. */
    worked = work(NULL, "tank 500 mL holds 1 roll\nbath \"Drops\" for film at 24 °C 7 min\n");
    assert_near(json_number_of(stage(&worked, 0), "time_s"), 420);
    worked_free(&worked);
}

static void parts_are_shared_out(void **state)
{
    (void)state;
    /* A 1 + B 2 + water 22 in 500 mL: 20 + 40 + 440.  The formula makes 500 mL of A with a litre of B, of which 20 mL of A take as
     * much as 40 mL of B. */
    struct worked worked = work(NULL, "tank 500 mL\nbath \"Two parts\" for film\nuse once\n");
    const json_t *bath = stage(&worked, 0);
    assert_near(share(bath, 0), 20);
    assert_near(share(bath, 1), 40);
    assert_near(share(bath, 2), 440);
    assert_near(json_number_of(bath, "stock_mL"), 20);
    worked_free(&worked);
    /* The process's own dilution goes before the use's. */
    worked = work(NULL, "tank 600 mL\nbath \"Drops\" for film\ndilute 1+59\n");
    assert_near(share(stage(&worked, 0), 0), 10);
    worked_free(&worked);
}

static void batches_supply_what_is_needed(void **state)
{
    (void)state;
    struct worked worked = work("2 rolls", "tank 500 mL holds 2 rolls\nbath \"Stop\" for film\n"
                                           "batch \"S-1\" of \"Stop\"\nmixed 2026-03-01\nmade 1 L\nused 600 mL on 2026-03-02\n");
    const json_t *need = json_array_get(json_object_get(worked.process, "needs"), 0);
    assert_near(json_number_of(need, "volume_mL"), 500);
    assert_near(json_number_of(need, "left_mL"), 400);
    assert_string_equal(json_text_of(need, "batch"), "S-1");
    worked_free(&worked);
}

/* The need of one bottle: what is to be mixed first, and the batch that is offered (NULL: none). */
static void expect_provision(const char *goods, const char *lines, double mix, const char *batch)
{
    struct worked worked = work(goods, lines);
    const json_t *need = json_array_get(json_object_get(worked.process, "needs"), 0);
    assert_near(json_number_of(need, "mix_mL"), mix);
    if (batch == NULL) {
        assert_true(json_is_null(json_object_get(need, "batch")));
    } else {
        assert_string_equal(json_text_of(need, "batch"), batch);
    }
    worked_free(&worked);
}

/* 12 rolls a litre (the formula's own words): a litre that did 11 does one more, and no load of two; what is short is made up fresh, a
 * filling of 500 mL for each six rolls. */
static void capacity_decides_before_volume(void **state)
{
    (void)state;
#define OF_TWO "tank 500 mL holds 2 rolls\nbath \"Stop\" for film\n"
#define OF_ONE "tank 1 L holds 1 roll\nbath \"Stop\" for film\n"
#define DID(id, rolls) "batch \"" id "\" of \"Stop\"\nmixed 2026-03-01\nmade 1 L\nused on 2026-03-02 for " rolls "\n"
    expect_provision("6 rolls", OF_TWO DID("S-1", "11 rolls"), 500, NULL);
    expect_provision("6 rolls", OF_TWO DID("S-1", "6 rolls"), 0, "S-1");  /* six are left for six */
    expect_provision("6 rolls", OF_TWO DID("S-1", "7 rolls"), 500, "S-1"); /* five are two loads and a half */
    expect_provision("5 rolls", OF_TWO DID("S-1", "7 rolls"), 0, "S-1");   /* the last load is of one */
    expect_provision("2 rolls", OF_TWO DID("S-1", "10 rolls"), 0, "S-1");
    expect_provision("1 roll", OF_ONE DID("S-1", "11 rolls"), 0, "S-1");
    expect_provision("2 rolls", OF_ONE DID("S-1", "11 rolls"), 1000, "S-1");
    expect_provision("2 rolls", OF_ONE DID("S-1", "11 rolls") DID("S-2", "11 rolls"), 0, "S-1");
    /* half of the litre is gone, and took its half of the capacity along */
    expect_provision("6 rolls", OF_TWO "batch \"S-1\" of \"Stop\"\nmixed 2026-03-01\nmade 1 L\nused 500 mL on 2026-03-02\n", 0, "S-1");
    expect_provision("8 rolls", OF_TWO "batch \"S-1\" of \"Stop\"\nmixed 2026-03-01\nmade 1 L\nused 500 mL on 2026-03-02\n", 500, "S-1");
    /* of a bath that is poured away after each load the volume decides */
    expect_provision("6 rolls", "tank 500 mL holds 2 rolls\nbath \"Stop\" for film\nuse once\n" DID("S-1", "11 rolls"), 500, "S-1");
    struct worked worked = work("6 rolls", OF_TWO DID("S-1", "11 rolls"));
    struct potash_output output;
    assert_int_equal(potash_process(worked.compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    assert_non_null(strstr(output.bytes, "S-1 does only 1 roll more"));
    worked_free(&worked);
}

static void expect_in_process(const char *lines, const char *id, int line, int column)
{
    char text[4000];
    snprintf(text, sizeof text, FORMULAS "process \"P\"\n%s", lines);
    expect_one(text, id, FIRST + line, column);
}

static void mistakes_stand_at_their_line(void **state)
{
    (void)state;
    expect_in_process("tank 0 mL\nbath \"Stop\" for film\n", "amount-out-of-range", 1, 6);
    expect_in_process("tank 500 g\nbath \"Stop\" for film\n", "unit-mismatch", 1, 6);
    expect_in_process("tank 500 mL holds 2 sheets\nbath \"Stop\" for film\n", "unit-mismatch", 1, 19);
    expect_in_process("tank 500 mL\nbath \"Stopp\" for film\n", "formula-unknown", 2, 6);
    expect_in_process("tank 500 mL\nbath \"Stop\" for filme\n", "part-unknown", 2, 17);
    expect_in_process("tank 500 mL\nbath \"Twice\"\n", "part-unknown", 2, 6);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film -30 s\n", "amount-out-of-range", 2, 0);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film at 20 mL\n", "unit-mismatch", 2, 0);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film at 120 °C\n", "amount-out-of-range", 2, 0);
    expect_in_process("tank 500 mL\ndilute 1+3\nbath \"Stop\" for film\n", "syntax", 2, 1);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film\ndilute 1:3\n", "ratio-with-colon", 3, 8);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film\nreplace after 3 L\n", "unit-mismatch", 3, 0);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film\nreplenish 3 g per roll\n", "unit-mismatch", 3, 0);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film\nwash 3 L\n", "unit-mismatch", 3, 6);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film\nwash 2.5 changes of 1 L\n", "amount-out-of-range", 3, 6);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film\nwash 5 rolls of 1 L\n", "unit-mismatch", 3, 6);
    expect_in_process("tank 500 mL\nbath \"Stop\" for film\nprocess \"P\"\nbath \"Stop\" for film\n", "declared-twice", 3, 9);
}

/* 10 mL a roll at 1+29 want 300 mL for each: 300 mL are too little for two. */
static void a_tank_too_small_for_its_rolls(void **state)
{
    (void)state;
    const char *lines = "tank 300 mL holds 2 rolls\nbath \"Drops\" for film\n";
    expect_in_process(lines, "amount-out-of-range", 1, 6);
    expect_clean(FORMULAS "process \"P\"\ntank 600 mL holds 2 rolls\nbath \"Drops\" for film\n");
    char text[4000];
    snprintf(text, sizeof text, FORMULAS "process \"P\"\n%s", lines);
    struct compiled compiled = compile(text);
    const json_t *fixes = json_object_get(compiled_find(&compiled, "amount-out-of-range", FIRST + 1), "fixes");
    assert_int_equal(json_array_size(fixes), 2);
    assert_string_equal(json_text_of(json_array_get(fixes, 0), "text"), "1");
    assert_string_equal(json_text_of(json_array_get(fixes, 1), "text"), "600 mL");
    compiled_free(&compiled);
}

/* What is asked for on the command line may be too much for the tank as well: the sheet says so. */
/* 300 mL of stop take 3 g of salt.  Of 500 g for 2.00 they cost 0.012, of 100 g for 2.00 five times that; by the average of 600 g
 * for 4.00 they cost 0.02; the opened one is used first. */
static void a_process_is_priced_as_asked(void **state)
{
    (void)state;
    static const char text[] = FORMULAS "shelf \"S\"\ncurrency GBP\nholds sodium chloride 500 g for 2.00\n"
                                        "holds sodium chloride 100 g for 2.00 opened 2026-01-02\n"
                                        "process \"P\"\ntank 300 mL holds 1 roll\nbath \"Stop\" 30 s\n";
    static const struct {
        const char *by;
        double cost;
    } cases[] = {{NULL, 0.012}, {"cheapest", 0.012}, {"oldest", 0.06}, {"average", 0.02}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct compiled compiled = compile_with(&(struct potash_options){.price_by = cases[i].by, .date = "2026-03-04"}, text, strlen(text));
        struct potash_output output;
        assert_int_equal(potash_process(compiled.potash, POTASH_JSON, &output), POTASH_GOOD);
        json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
        const json_t *process = json_array_get(json_object_get(json, "processes"), 0);
        assert_near(json_number_of(json_object_get(process, "cost"), "in_all"), cases[i].cost);
        json_decref(json);
        assert_int_equal(potash_process(compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
        assert_non_null(strstr(output.bytes, i == 2 ? "in the order in which they are used up" : i == 3 ? "the average of all packs" : "gives most for the money"));
        compiled_free(&compiled);
    }
    struct compiled wrong = compile_with(&(struct potash_options){.price_by = "dearest"}, text, strlen(text));
    assert_int_equal(wrong.status, POTASH_UNUSABLE);
    compiled_free(&wrong);
}

static void a_load_that_lacks_stock_is_said(void **state)
{
    (void)state;
    struct worked worked = work("4 rolls", "tank 300 mL\nbath \"Drops\" for film\n");
    assert_near(json_number_of(stage(&worked, 0), "lacking_mL"), 30);
    struct potash_output output;
    assert_int_equal(potash_process(worked.compiled.potash, POTASH_TEXT, &output), POTASH_GOOD);
    assert_non_null(strstr(output.bytes, "too little stock"));
    worked_free(&worked);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fifty_tanks_from_half_a_litre),
        cmocka_unit_test(a_bath_is_changed_when_its_capacity_is_spent),
        cmocka_unit_test(sheets_in_a_tank_are_counted_by_area),
        cmocka_unit_test(the_clock),
        cmocka_unit_test(time_at_another_temperature),
        cmocka_unit_test(parts_are_shared_out),
        cmocka_unit_test(batches_supply_what_is_needed),
        cmocka_unit_test(capacity_decides_before_volume),
        cmocka_unit_test(mistakes_stand_at_their_line),
        cmocka_unit_test(a_tank_too_small_for_its_rolls),
        cmocka_unit_test(a_process_is_priced_as_asked), cmocka_unit_test(a_load_that_lacks_stock_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
