/* Memory of JSON values that runs out: JSON that lacks a member would be worse than none, so the output is whole or the call fails.
 * And jansson stays the caller's: a program that uses it as well finds its allocation functions where it left them. */
#define _GNU_SOURCE

#include "support/compiling.h"

#include <jansson.h>

#include <string.h>

static const char text[] = "formula \"Saltmarsh print developer\"\n kind developer\n for paper\n metol 3 g\n"
                           " sodium sulfite 30 g\n hydroquinone 5 to 7 g\n sodium carbonate (anhydrous) 45 g\n water to make 1 L\n"
                           " use for paper\n dilute 1+3\n temperature 20 °C\n time 90 s\n capacity 40 sheets 8x10 in per L\n"
                           "formula \"Saltmarsh stop bath\"\n kind stop bath\n acetic acid (28 %) 48 mL\n water to make 1 L\n"
                           "shelf \"Saltmarsh shelf\"\n currency GBP\n counted 2026-03-01\n holds metol 100 g for 18.50 left 20 g\n"
                           " sold hydroquinone 250 g for 14.80\n"
                           "batch \"PD-1\" of \"Saltmarsh print developer\"\n mixed 2026-03-04\n made 1 L\n"
                           " used 250 mL on 2026-03-06 for 10 sheets 8x10 in\n"
                           "process \"Prints\"\n tray 1 L\n bath \"Saltmarsh print developer\" for paper at 20 °C 90 s\n wash 10 min\n";

/* ---- a caller's allocation functions ---- */

static long allocations_left = -1; /* negative: none fails */
static long open_allocations;

static void *allocate(size_t size)
{
    if (allocations_left >= 0 && allocations_left-- == 0) {
        return NULL;
    }
    void *memory = malloc(size);
    open_allocations += memory != NULL;
    return memory;
}

static void release(void *memory)
{
    open_allocations -= memory != NULL;
    free(memory);
}

static int set_functions(void **state)
{
    (void)state;
    json_set_alloc_funcs(allocate, release);
    return 0;
}

static int set_back(void **state)
{
    (void)state;
    json_set_alloc_funcs(malloc, free);
    return 0;
}

/* ---- what is asked for as JSON ---- */

static enum potash_status diagnostics(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return potash_diagnostics(potash, format, false, output);
}

static enum potash_status sarif(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    (void)format;
    return potash_diagnostics(potash, POTASH_SARIF, false, output);
}

static enum potash_status without(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    bool held;
    return potash_without(potash, format, &held, output);
}

static enum potash_status material(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return potash_materials(potash, "acetic acid", format, output);
}

static enum potash_status materials(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return potash_materials(potash, NULL, format, output);
}

static enum potash_status like(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return potash_materials_like(potash, "metol", format, output);
}

static enum potash_status why(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return potash_why(potash, "order", format, output);
}

static enum potash_status reckon(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return potash_reckon(potash, "A 1 + B 1 + water 8 for 1 L", format, output);
}

static enum potash_status compare(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    static const struct potash_options options = {.title = "Saltmarsh stop bath"};
    long left = allocations_left;
    allocations_left = -1; /* the other session is no part of this */
    struct potash *other = potash_open(&options);
    assert_int_equal(potash_read_text(other, "other.bath", text, sizeof text - 1), POTASH_GOOD);
    assert_int_equal(potash_check(other), POTASH_GOOD);
    allocations_left = left;
    bool same;
    enum potash_status status = potash_compare(potash, other, format, output, &same);
    potash_close(other);
    return status;
}

typedef enum potash_status report_function(struct potash *potash, enum potash_format format, struct potash_output *output);
static report_function *const reports[] = {diagnostics, sarif,   potash_show, potash_sheet, potash_label, potash_safety,
                                           potash_book, potash_cost, potash_shelf, potash_process, without, material,
                                           materials,   like,    why,         reckon,       compare};

/* The n-th allocation of JSON fails (none, where n is negative); true when it was reached. */
static bool run_once(report_function *report, long n, char **whole)
{
    static const char *const allergy[] = {"metol", NULL};
    const struct potash_options options = {.date = "2026-03-10", .without = allergy};
    struct potash *potash = potash_open(&options);
    assert_int_equal(potash_read_text(potash, "test.bath", text, sizeof text - 1), POTASH_GOOD);
    assert_int_equal(potash_check(potash), POTASH_GOOD);
    struct potash_output output = {"", 0};
    allocations_left = n;
    enum potash_status status = report(potash, POTASH_JSON, &output);
    bool reached = n >= 0 && allocations_left < 0;
    allocations_left = -1;
    if (n < 0) {
        assert_int_equal(status, POTASH_GOOD);
        *whole = strndup(output.bytes, output.length);
        assert_non_null(*whole);
    } else if (status == POTASH_GOOD) {
        assert_int_equal(output.length, strlen(*whole));
        assert_memory_equal(output.bytes, *whole, output.length);
    } else {
        assert_int_equal(status, POTASH_UNUSABLE);
        assert_string_equal(potash_message(potash), "out of memory");
    }
    potash_close(potash);
    assert_int_equal(open_allocations, 0); /* what was built is given back */
    return reached;
}

static void json_is_whole_or_none(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof reports / sizeof *reports; i++) {
        char *whole = NULL;
        run_once(reports[i], -1, &whole);
        /* Each of the first sixty, then fewer and fewer of the rest: a list's thousandth member is built as its tenth was. */
        for (long n = 0; run_once(reports[i], n, &whole); n += n < 60 ? 1 : n / 8) {
        }
        free(whole);
    }
}

static void jansson_stays_the_callers(void **state)
{
    (void)state;
    char *whole = NULL;
    run_once(potash_show, -1, &whole);
    free(whole);
    json_malloc_t now_allocates;
    json_free_t now_releases;
    json_get_alloc_funcs(&now_allocates, &now_releases);
    assert_ptr_equal(now_allocates, allocate);
    assert_ptr_equal(now_releases, release);
    /* A failure of the caller's own is nothing to do with a session that is open meanwhile. */
    struct potash *potash = potash_open(NULL);
    assert_int_equal(potash_read_text(potash, "test.bath", text, sizeof text - 1), POTASH_GOOD);
    assert_int_equal(potash_check(potash), POTASH_GOOD);
    allocations_left = 0;
    assert_null(json_object());
    struct potash_output output;
    assert_int_equal(potash_show(potash, POTASH_JSON, &output), POTASH_GOOD);
    potash_close(potash);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(json_is_whole_or_none, set_functions, set_back),
        cmocka_unit_test_setup_teardown(jansson_stays_the_callers, set_functions, set_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
