/* Memory that runs out while PDF is made: at whichever allocation it does, the call says so or succeeds, and the libraries' own
 * objects are given back (the sanitizers see those that are not). */
#include "pdf/pdf_help.h"
#include "potash.h"

static const char text[] = "stock phenidone 1 %\n in isopropyl alcohol\n"
                           "formula \"Saltmarsh print developer\"\n kind developer\n for paper\n note \"a note\"\n"
                           " water 750 mL at 45 °C\n metol 3 g\n sodium sulfite (anhydrous) 30 g\n hydroquinone 5 to 7 g\n"
                           " sodium carbonate (anhydrous) 45 g\n water to make 1 L\n use for paper\n dilute 1+3\n temperature 20 °C\n"
                           "formula \"Saltmarsh stop bath\"\n kind stop bath\n acetic acid (28 %) 48 mL\n water to make 1 L\n";

typedef enum potash_status report_function(struct potash *potash, enum potash_format format, struct potash_output *output);

/* False when no allocation failed any more: then the output is a PDF. */
static bool run_once(report_function *report, long fail_after)
{
    const struct potash_options options = {.fail_after = fail_after, .date = "2026-03-04"};
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        return true;
    }
    struct potash_output output = {NULL, 0};
    bool read = potash_read_text(potash, "test.bath", text, sizeof text - 1) == POTASH_GOOD && potash_check(potash) == POTASH_GOOD;
    enum potash_status status = read ? report(potash, POTASH_PDF, &output) : POTASH_UNUSABLE;
    if (status == POTASH_GOOD) {
        assert_true(output.length > 1000);
        assert_memory_equal(output.bytes, "%PDF-", 5);
    } else {
        assert_int_equal(status, POTASH_UNUSABLE);
        assert_string_not_equal(potash_message(potash), "");
    }
    potash_close(potash);
    return status != POTASH_GOOD;
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    static report_function *const reports[] = {potash_sheet, potash_label, potash_book};
    for (size_t i = 0; i < sizeof reports / sizeof *reports; i++) {
        long fail_after = 1;
        while (run_once(reports[i], fail_after)) {
            fail_after++;
            assert_true(fail_after < 1000);
        }
        assert_true(fail_after > 3);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
