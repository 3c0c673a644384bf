#define _GNU_SOURCE /* open_memstream */
/* Memory that runs out while any of the reports is made, as text, JSON and HTML: the call says so or succeeds, and the values of
 * JSON are given back (the sanitizers see those that are not). */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

static const char one_formula[] = "formula \"Saltmarsh print developer %d\"\n kind developer\n for paper\n"
                                  " note \"of the club\"\n water 750 mL at 45 °C\n metol 3 g\n"
                                  " sodium sulfite (anhydrous) 30 g\n hydroquinone 7 g\n"
                                  " sodium carbonate (anhydrous) 45 g\n water to make 1 L\n"
                                  " use for paper\n dilute 1+3\n temperature 20 °C\n time 90 s\n"
                                  " capacity 40 sheets 8x10 in per L\n keeps 6 months in full bottle\n";

static const char the_rest[] = "shelf \"Saltmarsh shelf\"\n currency GBP\n counted 2026-03-01\n holds metol 100 g for 18.50 left 20 g\n"
                               " sold hydroquinone 250 g for 14.80\n"
                               "batch \"PD-1\" of \"Saltmarsh print developer 0\"\n mixed 2026-03-04\n made 1 L\n"
                               " used 250 mL on 2026-03-06 for 10 sheets 8x10 in\n"
                               "process \"Prints\"\n tray 1 L\n bath \"Saltmarsh print developer 0\" for paper at 20 °C 90 s\n"
                               " wash 10 min\n";

/* Enough of them that memory is taken from the system while reports are made. */
static char *make_text(size_t *length)
{
    char *text = NULL;
    FILE *out = open_memstream(&text, length);
    assert_non_null(out);
    for (int i = 0; i < 12; i++) {
        fprintf(out, one_formula, i);
    }
    fputs(the_rest, out);
    fclose(out);
    return text;
}

static enum potash_status without(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    bool held;
    return potash_without(potash, format, &held, output);
}

static enum potash_status like(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return potash_materials_like(potash, "metol", format, output);
}

typedef enum potash_status report_function(struct potash *potash, enum potash_format format, struct potash_output *output);
static report_function *const reports[] = {potash_show, potash_sheet, potash_label,  potash_safety, potash_book,
                                           potash_cost, potash_shelf, potash_process, without,      like};

/* False when no allocation failed any more. */
static bool run_once(const char *text, size_t length, report_function *report, enum potash_format format, long fail_after)
{
    static const char *const allergy[] = {"metol", NULL};
    const struct potash_options options = {.fail_after = fail_after, .date = "2026-03-10", .without = allergy};
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        return true;
    }
    struct potash_output output = {NULL, 0};
    bool read = potash_read_text(potash, "test.bath", text, length) == POTASH_GOOD;
    enum potash_status checked = read ? potash_check(potash) : POTASH_UNUSABLE;
    enum potash_status status = checked == POTASH_UNUSABLE ? checked : report(potash, format, &output);
    if (status == POTASH_UNUSABLE) {
        assert_string_not_equal(potash_message(potash), "");
    }
    bool out_of_memory = status == POTASH_UNUSABLE && strcmp(potash_message(potash), "out of memory") == 0;
    potash_close(potash);
    return out_of_memory;
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    static const enum potash_format formats[] = {POTASH_TEXT, POTASH_JSON, POTASH_HTML};
    size_t length;
    char *text = make_text(&length);
    for (size_t i = 0; i < sizeof reports / sizeof *reports; i++) {
        for (size_t f = 0; f < sizeof formats / sizeof *formats; f++) {
            long fail_after = 1;
            while (run_once(text, length, reports[i], formats[f], fail_after)) {
                fail_after++;
                assert_true(fail_after < 2000);
            }
            assert_true(fail_after > 3);
        }
    }
    free(text);
}

/* ---- two sessions at once ---- */

static bool compare_once(const char *text, size_t length, long fail_after, bool first_fails)
{
    const struct potash_options failing = {.fail_after = fail_after, .title = "Saltmarsh print developer 0"};
    const struct potash_options other = {.title = "Saltmarsh print developer 1"};
    struct potash *a = potash_open(first_fails ? &failing : &other);
    struct potash *b = potash_open(first_fails ? &other : &failing);
    assert_non_null(a);
    assert_non_null(b);
    bool same;
    struct potash_output output;
    bool ready = potash_read_text(a, "a.bath", text, length) == POTASH_GOOD && potash_check(a) != POTASH_UNUSABLE &&
                 potash_read_text(b, "b.bath", text, length) == POTASH_GOOD && potash_check(b) != POTASH_UNUSABLE;
    enum potash_status status = ready ? potash_compare(a, b, POTASH_JSON, &output, &same) : POTASH_UNUSABLE;
    potash_close(b);
    potash_close(a);
    return status == POTASH_UNUSABLE;
}

static void while_two_are_compared(void **state)
{
    (void)state;
    size_t length;
    char *text = make_text(&length);
    for (int first = 0; first < 2; first++) {
        long fail_after = 1;
        while (compare_once(text, length, fail_after, first != 0)) {
            fail_after++;
            assert_true(fail_after < 2000);
        }
        assert_true(fail_after > 2);
    }
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_allocation_may_fail),
        cmocka_unit_test(while_two_are_compared),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
