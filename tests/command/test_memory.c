/* Memory that runs out: at whichever allocation it does, every call says so or succeeds, and nothing is lost. */
#define _GNU_SOURCE

#include "support/compiling.h"
#include "support/program.h"

#include <stdio.h>
#include <string.h>

static const char text[] = "stock phenidone 1 %\n"
                           "    in isopropyl alcohol\n"
                           "formula \"Saltmarsh print developer\"\n"
                           "    kind developer\n"
                           "    for paper\n"
                           "    water 750 mL at 45 °C\n"
                           "    metol 3 g\n"
                           "    sodium sulfite 30 g\n"
                           "    hydroquinone 5 to 7 g\n"
                           "    sodium carbonate (anhydrous) 45 g\n"
                           "    potasium bromyde 2 g\n"
                           "    water to make 1 L\n"
                           "    use for paper\n"
                           "        dilute 1+3\n"
                           "        temperature 20 °C\n"
                           "formula \"Saltmarsh stop bath\"\n"
                           "    kind stop bath\n"
                           "    acetic acid (28 %) 48 mL\n"
                           "    water to make 1 L\n";

static void assert_answer(const struct potash *potash, enum potash_status status, bool *out_of_memory)
{
    assert_true(status == POTASH_GOOD || status == POTASH_FAULTY || status == POTASH_UNUSABLE);
    if (status == POTASH_UNUSABLE) {
        assert_string_not_equal(potash_message(potash), "");
        *out_of_memory = true;
    }
}

/* One session through everything, failing at the given allocation; false when none failed any more. */
static bool run_once(long fail_after, const char *library, const char *bytes, size_t length, const char *title)
{
    static const char *const without[] = {"acetic acid", NULL};
    const struct potash_options options = {.fail_after = fail_after, .title = title, .make = "2 L", .library = library, .without = without};
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        return true;
    }
    bool out = false;
    struct potash_output output;
    assert_answer(potash, potash_read_text(potash, "test.bath", bytes, length), &out);
    assert_answer(potash, potash_check(potash), &out);
    static const enum potash_format formats[] = {POTASH_TEXT, POTASH_JSON, POTASH_SARIF};
    for (size_t i = 0; i < 3; i++) {
        assert_answer(potash, potash_diagnostics(potash, formats[i], false, &output), &out);
    }
    for (size_t i = 0; i < 2; i++) {
        assert_answer(potash, potash_show(potash, POTASH_JSON, &output), &out);
        assert_answer(potash, potash_sheet(potash, formats[i], &output), &out);
        assert_answer(potash, potash_materials(potash, "sodium sulfite", formats[i], &output), &out);
        assert_answer(potash, potash_materials(potash, NULL, formats[i], &output), &out);
        assert_answer(potash, potash_why(potash, "syntax", formats[i], &output), &out);
        assert_answer(potash, potash_safety(potash, formats[i], &output), &out);
        assert_answer(potash, potash_materials_like(potash, "citric acid", formats[i], &output), &out);
        bool held;
        assert_answer(potash, potash_without(potash, formats[i], &held, &output), &out);
    }
    potash_close(potash);
    return out;
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    long fail_after = 1;
    while (run_once(fail_after, NULL, text, sizeof text - 1, "Saltmarsh stop bath")) {
        fail_after++;
        assert_true(fail_after < 10000);
    }
    assert_true(fail_after > 3); /* several were taken from the system, and each has failed once */
}

/* Many formulas, so that memory runs out while reports are made of them, too. */
static void while_many_reports_are_made(void **state)
{
    (void)state;
    char *many = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&many, &length);
    assert_non_null(out);
    for (int i = 0; i < 150; i++) {
        fprintf(out, "formula \"Saltmarsh bath %d\"\nkind other\nsodium chloride %d g\nwater to make 1 L\n", i, i + 1);
    }
    fclose(out);
    long fail_after = 1;
    while (run_once(fail_after, NULL, many, length, NULL)) {
        fail_after++;
        assert_true(fail_after < 10000);
    }
    assert_true(fail_after > 5);
    free(many);
}

static const char shelf_text[] = "shelf \"Shelf\"\n currency GBP\n balance 0.1 g\n bottles 2 of 1 L\n counted 2026-01-31\n"
                                 " holds metol 100 g for 18.50 left 20 g best before 2026-05-31 lot \"M\"\n"
                                 " holds sodium carbonate (monohydrate) 1 kg for 5.80\n sold hydroquinone 250 g for 14.80\n"
                                 "formula \"Bath\"\n kind developer\n metol 2 g\n hydroquinone 5 g\n sodium carbonate (anhydrous) 45 g\n"
                                 " water to make 1 L\n use for paper\n dilute 1+3\n capacity 40 sheets 8x10 in per L\n"
                                 "batch \"B-1\" of \"Bath\"\n mixed 2026-02-01\nbatch \"B-2\" of \"Bath\"\n mixed 2026-02-03\n made 20 L\n";

/* One session through the shelf's reports, as run_once. */
static bool run_shelf_once(long fail_after)
{
    const struct potash_options options = {.fail_after = fail_after, .date = "2026-03-04", .using_shelf = true, .against = "4.80"};
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        return true;
    }
    bool out = false;
    struct potash_output output;
    assert_answer(potash, potash_read_text(potash, "test.bath", shelf_text, sizeof shelf_text - 1), &out);
    assert_answer(potash, potash_check(potash), &out);
    static const enum potash_format formats[] = {POTASH_TEXT, POTASH_CSV, POTASH_ICAL};
    for (size_t i = 0; i < 3; i++) {
        assert_answer(potash, potash_shelf(potash, formats[i], &output), &out);
    }
    assert_answer(potash, potash_cost(potash, POTASH_TEXT, &output), &out);
    assert_answer(potash, potash_sheet(potash, POTASH_TEXT, &output), &out);
    potash_close(potash);
    return out;
}

static void while_the_shelf_is_reported(void **state)
{
    (void)state;
    long fail_after = 1;
    while (run_shelf_once(fail_after)) {
        fail_after++;
        assert_true(fail_after < 10000);
    }
    assert_true(fail_after > 3);
}

/* Processes and batches, failing at the given allocation; false when none failed any more. */
static bool work_once(long fail_after, const char *bytes, size_t length)
{
    const struct potash_options options = {.fail_after = fail_after, .goods = "10 rolls", .date = "2026-03-04"};
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        return true;
    }
    bool out = false;
    struct potash_output output;
    assert_answer(potash, potash_read_text(potash, "test.bath", bytes, length), &out);
    assert_answer(potash, potash_check(potash), &out);
    assert_answer(potash, potash_process(potash, POTASH_TEXT, &output), &out);
    assert_answer(potash, potash_process(potash, POTASH_JSON, &output), &out);
    assert_answer(potash, potash_record(potash, bytes, length, &output), &out);
    potash_close(potash);
    return out;
}

static void while_processes_are_worked_out(void **state)
{
    (void)state;
    char *many = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&many, &length);
    assert_non_null(out);
    fputs("formula \"Stop\"\nkind other\nsodium chloride 10 g\nwater to make 1 L\nuse for film\ntime 30 s\ncapacity 12 rolls per L\n", out);
    for (int i = 0; i < 60; i++) {
        fprintf(out, "process \"Film %d\"\ntank 500 mL holds 2 rolls\nbath \"Stop\" for film\nwash 10 min, 2 L per min\n", i);
        fprintf(out, "batch \"S-%d\" of \"Stop\"\nmixed 2026-03-01\nused on 2026-03-02 for 2 rolls\ntrial 2026-03-02 film \"thin\"\n", i);
    }
    fclose(out);
    long fail_after = 1;
    while (work_once(fail_after, many, length)) {
        fail_after++;
        assert_true(fail_after < 10000);
    }
    assert_true(fail_after > 5);
    free(many);
}

static void while_a_library_is_read(void **state)
{
    (void)state;
    long fail_after = 1;
    while (run_once(fail_after, "stdlib", text, sizeof text - 1, "Saltmarsh stop bath")) {
        fail_after++;
        assert_true(fail_after < 10000);
    }
    assert_true(fail_after > 3);
}

/* What has once failed stays unusable, and says why; it can be closed. */
static void a_session_that_failed_stays_so(void **state)
{
    (void)state;
    const struct potash_options options = {.fail_after = 1};
    struct potash *potash = potash_open(&options);
    assert_non_null(potash);
    struct potash_output output;
    assert_int_equal(potash_read_text(potash, "x", text, sizeof text - 1), POTASH_UNUSABLE);
    assert_int_equal(potash_read(potash, "tests"), POTASH_UNUSABLE);
    assert_int_equal(potash_check(potash), POTASH_UNUSABLE);
    assert_int_equal(potash_show(potash, POTASH_JSON, &output), POTASH_UNUSABLE);
    assert_int_equal(potash_sheet(potash, POTASH_TEXT, &output), POTASH_UNUSABLE);
    assert_string_equal(potash_message(potash), "out of memory");
    potash_close(potash);
    potash_close(NULL);
}

/* The program itself under a limit of the system: it ends with status 2 and its own words. */
static void the_program_under_a_limit(void **state)
{
    (void)state;
    size_t length = 0;
    char *large = NULL;
    FILE *out = open_memstream(&large, &length);
    assert_non_null(out);
    fputs("formula \"x\"\nkind other\nwater to make 1 L\n", out);
    for (int i = 0; i < 200000; i++) {
        fprintf(out, "sodium chloride %d mg\n", i + 1);
    }
    fclose(out);
    const char *path = scratch_file("large.bath", large, length);
    free(large);
    bool ran_out = false;
    for (int kilobytes = 12000; kilobytes < 40000; kilobytes += 4000) {
        char command[500];
        snprintf(command, sizeof command, "ulimit -v %d; exec %s sheet %s", kilobytes, program_under_test(), path);
        const char *const words[] = {"-c", command, NULL};
        struct run run = run_program("sh", words, NULL, 0);
        bool could_not_start = run.status == 127 || run.status == 126;
        bool sanitizer = strstr(run.error, "Sanitizer") != NULL; /* it needs more than the limit for itself */
        if (!could_not_start && !sanitizer && run.status != 0) {
            if (run.status != 2) {
                fail_msg("%d kB: status %d: %.300s", kilobytes, run.status, run.error);
            }
            assert_says(&run, "out of memory");
            assert_int_equal(run.output_length, 0);
            ran_out = true;
        }
        run_free(&run);
    }
    scratch_remove();
    if (!ran_out) {
        skip(); /* the limit is not kept here (under a sanitizer, say) */
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_allocation_may_fail),      cmocka_unit_test(while_many_reports_are_made),
        cmocka_unit_test(while_the_shelf_is_reported),
        cmocka_unit_test(while_processes_are_worked_out),
        cmocka_unit_test(while_a_library_is_read),
        cmocka_unit_test(a_session_that_failed_stays_so), cmocka_unit_test(the_program_under_a_limit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
