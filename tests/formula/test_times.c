/* Times of a use as a table, parts that follow each other, and what is picked or worked out from them. */
#include "support/compiling.h"
#include "support/program.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SALT "sodium chloride 10 g\nwater to make 1 L\n"
#define HEAD "formula \"x\"\nkind other\n" SALT "use for film\ndilute 1+29\ntemperature 20 °C\n"
#define TWO_PARTS "formula \"x\"\nkind other\npart A\n" SALT "part B\npotassium bromide 10 g\nwater to make 1 L\nuse for film\n"
#define TABLE                                                                                                          \
    HEAD "time 9 min\ntime 7 min at 24 °C\ntime 11 min at 20 °C for speed 200 contrast 0.62\n"                          \
         "time 8 min at 24 °C for speed 200 contrast 0.62\ntime 14 min for speed 400 contrast 0.74\ntime 13 min at 20 °C dilute 1+49\n"

static struct run run_call(const char *call)
{
    char line[600];
    snprintf(line, sizeof line, "%s %s", program_under_test(), call);
    const char *const words[] = {"-c", line, NULL};
    return run_program("sh", words, NULL, 0);
}

/* The page's words in one line: line ends, runs of blanks and no-break spaces become one blank. */
static void plain(char *text)
{
    char *to = text;
    for (const char *at = text; *at != '\0'; at++) {
        bool blank = *at == ' ' || *at == '\n' || (unsigned char)*at == 0xA0;
        if ((unsigned char)*at != 0xC2 && !(blank && to > text && to[-1] == ' ')) {
            *to++ = blank ? ' ' : *at;
        }
    }
    *to = '\0';
}

static const json_t *row_of(struct compiled *compiled, size_t i)
{
    return json_array_get(json_object_get(compiled_use(compiled, 0), "times"), i);
}

static void assert_row(const json_t *row, double seconds, double celsius, double speed, double contrast, double water)
{
    const struct {
        const char *key;
        double value;
    } figures[] = {{"temperature_C", celsius}, {"speed", speed}, {"contrast", contrast}, {"water_parts", water}};
    assert_near(json_real_value(json_array_get(json_object_get(row, "time_s"), 0)), seconds);
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        if (isnan(figures[i].value)) {
            assert_true(json_is_null(json_object_get(row, figures[i].key)));
        } else {
            assert_near(json_number_of(row, figures[i].key), figures[i].value);
        }
    }
}

static void times_make_a_table(void **state)
{
    (void)state;
    struct compiled compiled = compile(TABLE);
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const json_t *use = compiled_use(&compiled, 0);
    assert_int_equal(json_array_size(json_object_get(use, "times")), 6);
    assert_row(row_of(&compiled, 0), 540, 20, NAN, NAN, 29);
    assert_row(row_of(&compiled, 1), 420, 24, NAN, NAN, 29);
    assert_row(row_of(&compiled, 2), 660, 20, 200, 0.62, 29);
    assert_row(row_of(&compiled, 5), 780, 20, NAN, NAN, 49);
    assert_near(json_real_value(json_array_get(json_object_get(use, "time_s"), 0)), 540); /* the first row's */
    assert_near(json_number_of(use, "temperature_C"), 20);
    compiled_free(&compiled);
    compiled = compile("formula \"x\"\nkind other\n" SALT "use for paper\ntime 90 s for grade 2\ntime 75 s grade 3\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_near(json_number_of(row_of(&compiled, 1), "grade"), 3);
    compiled_free(&compiled);
    /* Without a line of its own the use has the first row's temperature and dilution. */
    compiled = compile("formula \"x\"\nkind other\n" SALT "use for film\ntime 7 min at 24 °C dilute 1+3\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_near(json_number_of(compiled_use(&compiled, 0), "temperature_C"), 24);
    assert_near(json_number_of(compiled_use(&compiled, 0), "water_parts"), 3);
    compiled_free(&compiled);
}

static void times_that_are_none(void **state)
{
    (void)state;
    expect_one(HEAD "time 9 min\ntime 7 min\n", "declared-twice", 9, 1);
    expect_one(HEAD "time 9 min\ntime 7 min at 20 °C\n", "declared-twice", 9, 1);
    expect_one(HEAD "time 9 min speed 200\ntime 7 min for speed 200\n", "declared-twice", 9, 1);
    expect_one(HEAD "time 9 min at 20 °C at 24 °C\n", "syntax", 8, 0);
    expect_one(HEAD "time 9 min speed 0 contrast 6\n", "amount-out-of-range", 8, 0);
    expect_one(HEAD "time 9 min dilute 1:49\n", "ratio-with-colon", 8, 0);
    expect_one(HEAD "time 9 min dilute 1+1+9\n", "syntax", 8, 0);
    expect_one(HEAD "time 9 min at 20 g\n", "unit-mismatch", 8, 0);
    /* A second time is not offered to be dropped: only the person knows what it holds for. */
    struct compiled compiled = compile(HEAD "time 9 min\ntime 7 min\n");
    const json_t *fixes = json_object_get(compiled_find(&compiled, "declared-twice", 9), "fixes");
    assert_int_equal(json_array_size(fixes), 0);
    compiled_free(&compiled);
}

static void parts_follow_each_other(void **state)
{
    (void)state;
    struct compiled compiled = compile(TWO_PARTS "bath A 4 min at 20 °C\nbath B 3 to 4 min\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const json_t *baths = json_object_get(compiled_use(&compiled, 0), "baths");
    assert_int_equal(json_array_size(baths), 2);
    assert_string_equal(json_text_of(json_array_get(baths, 1), "part"), "B");
    assert_near(json_real_value(json_array_get(json_object_get(json_array_get(baths, 1), "time_s"), 1)), 240);
    assert_near(json_number_of(json_array_get(baths, 0), "temperature_C"), 20);
    compiled_free(&compiled);
    expect_one(TWO_PARTS "bath A 4 min\nbath B 3 min\nbath C 1 min\n", "part-unknown", 12, 0);
    expect_one(TWO_PARTS "mix A 1 + B 1\nbath A 4 min\n", "declared-twice", 11, 0);
    expect_one(TWO_PARTS "bath A 4 min\n", "part-unused", 6, 0);
}

static void volumes_and_ratios(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        double stock, water;
    } cases[] = {{"dilute 150 mL to make 1 L", 3, 17}, {"dilute 50 mL to make 1 L", 1, 19}, {"dilute 1 L to make 1 L", 1, 0},
                 {"dilute 25 mL to make 300 mL", 1, 11}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        snprintf(text, sizeof text, "formula \"x\"\nkind other\n" SALT "use for film\n%s\n", cases[i].line);
        struct compiled compiled = compile(text);
        assert_int_equal(compiled_count(&compiled, NULL), 0);
        assert_near(json_number_of(compiled_use(&compiled, 0), "stock_parts"), cases[i].stock);
        assert_near(json_number_of(compiled_use(&compiled, 0), "water_parts"), cases[i].water);
        compiled_free(&compiled);
    }
    expect_one("formula \"x\"\nkind other\n" SALT "use for film\ndilute 2 L to make 1 L\n", "amount-out-of-range", 6, 0);
    expect_one("formula \"x\"\nkind other\n" SALT "use for film\ndilute 2 g to make 1 L\n", "unit-mismatch", 6, 0);
    /* Shares of both, or a part and water? */
    expect_one(TWO_PARTS "mix 2+1\n", "syntax", 10, 5);
    static const struct {
        const char *line;
        double parts[3];
        size_t count;
    } mixed[] = {{"mix 1+1+100", {1, 1, 100}, 3}, {"mix each 2 + water 5", {2, 2, 5}, 3},
                 {"mix A 10 mL + B 10 mL + water to make 1 L", {10, 10, 980}, 3}};
    for (size_t i = 0; i < sizeof mixed / sizeof *mixed; i++) {
        char text[400];
        snprintf(text, sizeof text, TWO_PARTS "%s\n", mixed[i].line);
        struct compiled compiled = compile(text);
        assert_int_equal(compiled_count(&compiled, NULL), 0);
        const json_t *mix = json_object_get(compiled_use(&compiled, 0), "mix");
        assert_int_equal(json_array_size(mix), mixed[i].count);
        for (size_t j = 0; j < mixed[i].count; j++) {
            assert_near(json_number_of(json_array_get(mix, j), "parts"), mixed[i].parts[j]);
        }
        compiled_free(&compiled);
    }
    expect_one(TWO_PARTS "mix 1+1+1+1\n", "syntax", 10, 0);
    expect_one(TWO_PARTS "mix A 600 mL + B 600 mL + water to make 1 L\n", "over-volume", 10, 0);
    expect_one(TWO_PARTS "mix A 1 + B 1 + water to make 1 L\n", "unit-mismatch", 10, 0);
}

static void what_is_replenished(void **state)
{
    (void)state;
    struct compiled compiled = compile(HEAD "replenish 30 mL of \"x\" per roll\ncapacity 40 sheets 8x10 in per L\nneeds 10 mL per roll\nagitate \"little\"\n");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    const json_t *use = compiled_use(&compiled, 0);
    assert_near(json_number_of(json_object_get(use, "replenish"), "mL"), 30);
    assert_string_equal(json_text_of(json_object_get(use, "replenish"), "of"), "x");
    assert_near(json_number_of(json_object_get(use, "capacity"), "count"), 40);
    assert_string_equal(json_text_of(json_object_get(use, "capacity"), "goods"), "sheets 8x10 in");
    assert_near(json_number_of(json_object_get(use, "capacity"), "per_mL"), 1000);
    assert_near(json_number_of(json_object_get(use, "needs"), "mL"), 10);
    assert_string_equal(json_text_of(use, "agitation"), "little");
    compiled_free(&compiled);
    expect_one(HEAD "replenish 30 mL of \"y\" per roll\n", "formula-unknown", 8, 0);
    expect_one(HEAD "replenish 30 g per roll\n", "unit-mismatch", 8, 0);
    expect_one(HEAD "replenish 30 mL per L\n", "unit-mismatch", 8, 0);
}

/* Expected by hand: at the middle of two temperatures the time is the geometric mean of theirs, sqrt(11 x 8) = 9 min 23 s; a quarter of the
 * way it is 9 x (7/9)^(1/4) = 8 min 27 s; at contrast 0.68, the middle of 0.62 and 0.74, sqrt(11 x 14) = 12 min 25 s; sheets give 5 s. */
static void the_sheet_picks_or_interpolates(void **state)
{
    (void)state;
    static const struct {
        const char *options;
        const char *says;
    } cases[] = {
        {"--temperature '24 °C' --speed 200", "contrast 0.62, diluted 1+29: 8 min"},
        {"--temperature '22 °C' --speed 200 --contrast 0.62", "9 min 25 s (estimate, between rows of the table)"},
        {"--temperature '21 °C'", "diluted 1+29: 8 min 25 s (estimate, between rows of the table)"},
        {"--contrast 0.68", "12 min 25 s (estimate, between rows of the table)"},
        {"--contrast 0.75", "not given: the table does not reach to contrast 0.75"},
        {"--contrast 0.61", "not given: the table does not reach to contrast 0.61"},
        {"--temperature '25 °C' --speed 200", "an extrapolation: the temperature lies outside the table; make a test"},
        {"--temperature '22 °C' --speed 400", "not known: the formula declares no temperature coefficient"},
    };
    const char *path = scratch_text("table.bath", TABLE);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char call[400];
        snprintf(call, sizeof call, "sheet %s --date none %s", path, cases[i].options);
        struct run run = run_call(call);
        assert_int_equal(run.status, 0);
        plain(run.output);
        if (strstr(run.output, cases[i].says) == NULL) {
            fail_msg("%s: \"%s\" is not in\n%s", cases[i].options, cases[i].says, run.output);
        }
        run_free(&run);
    }
    scratch_remove();
}

static void the_sheet_shows_what_was_tried(void **state)
{
    (void)state;
    const char *path = scratch_text("tried.bath", TABLE "batch \"x-1\" of \"x\"\nmixed 2026-03-01\nmade 1 L\n"
                                                        "trial 2026-03-06 film speed 200 contrast 0.62 time 11 min at 20 °C \"shadows thin\"\n"
                                                        "trial 2026-03-07 film speed 125 contrast 0.62 time 11 min at 20 °C \"flat\"\n");
    char call[400];
    snprintf(call, sizeof call, "sheet %s --date none", path);
    struct run run = run_call(call);
    assert_int_equal(run.status, 0);
    const char *tried = strstr(run.output, "2026-03-06: shadows thin");
    assert_non_null(tried);
    assert_null(strstr(tried + 1, "2026-03-06: shadows thin")); /* of one row only */
    assert_null(strstr(run.output, "2026-03-07: flat"));        /* of none: another speed */
    run_free(&run);
    scratch_remove();
}

/* 1+29 of 300 mL holds 10 mL of stock; 12 rolls per L are one in 83.3 mL. */
static void a_tank_that_is_too_small_is_told(void **state)
{
    (void)state;
    const char *path = scratch_text("tank.bath", HEAD "needs 10 mL per roll\ncapacity 12 rolls per L\n");
    static const struct {
        const char *working;
        bool stock, bath;
    } cases[] = {{"300 mL", false, false}, {"299 mL", true, false}, {"84 mL", true, false}, {"83 mL", true, true}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char call[400];
        snprintf(call, sizeof call, "sheet %s --date none --working '%s'", path, cases[i].working);
        struct run run = run_call(call);
        assert_int_equal(run.status, 0);
        plain(run.output);
        assert_true((strstr(run.output, "and one roll needs 10 mL") != NULL) == cases[i].stock);
        assert_true((strstr(run.output, "are less than one of the rolls takes") != NULL) == cases[i].bath);
        run_free(&run);
    }
    scratch_remove();
}

static void a_process_pours_the_parts_in_turn(void **state)
{
    (void)state;
    const char *path = scratch_text("course.bath", TWO_PARTS "bath A 4 min at 20 °C\nbath B 3 min\n" /* two baths of one line */
                                                             "process \"P\"\ntank 500 mL\nbath \"x\" for film\nagitate \"gently\"\n");
    char call[400];
    snprintf(call, sizeof call, "process %s --date none --as json", path);
    struct run run = run_call(call);
    assert_int_equal(run.status, 0);
    json_t *json = json_loads(run.output, 0, NULL);
    const json_t *stages = json_object_get(json_array_get(json_object_get(json, "processes"), 0), "stages");
    assert_int_equal(json_array_size(stages), 2);
    assert_string_equal(json_text_of(json_array_get(stages, 1), "title"), "x, part B");
    assert_near(json_number_of(json_array_get(stages, 1), "start_s"), 240);
    assert_string_equal(json_text_of(json_array_get(stages, 1), "agitation"), "gently");
    json_decref(json);
    run_free(&run);
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(times_make_a_table),
        cmocka_unit_test(times_that_are_none),
        cmocka_unit_test(parts_follow_each_other),
        cmocka_unit_test(volumes_and_ratios),
        cmocka_unit_test(what_is_replenished),
        cmocka_unit_test(the_sheet_picks_or_interpolates),
        cmocka_unit_test(the_sheet_shows_what_was_tried),
        cmocka_unit_test(a_tank_that_is_too_small_is_told),
        cmocka_unit_test(a_process_pours_the_parts_in_turn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
