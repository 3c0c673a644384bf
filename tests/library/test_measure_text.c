/* Measures outside of any file: what an option of a call may give, and why it is refused. */
#include "support/compiling.h"

#include "library/measure.h"

#include <string.h>

struct bench {
    jmp_buf failure;
    struct arena arena;
    struct names names;
    struct source_set sources;
    struct diagnostics diagnostics;
    struct library library;
};

static int start(void **state)
{
    struct bench *bench = calloc(1, sizeof *bench);
    assert_non_null(bench);
    arena_start(&bench->arena);
    if (setjmp(bench->failure) != 0) {
        fail_msg("out of memory");
    }
    bench->arena.on_failure = &bench->failure;
    names_start(&bench->names, &bench->arena);
    source_start(&bench->sources, &bench->arena);
    diagnostics_start(&bench->diagnostics, &bench->arena, &bench->sources);
    library_start(&bench->library, &bench->arena, &bench->names, &bench->sources, &bench->diagnostics);
    *state = bench;
    return 0;
}

static int stop(void **state)
{
    struct bench *bench = *state;
    arena_release(&bench->arena);
    free(bench);
    return 0;
}

static const struct measure_wanted volume = {
    .dimensions = DIMENSION_BIT(DIMENSION_VOLUME), .least = 1, .most = 5000, .liquid = true, .example = "2 L"};
static const struct measure_wanted mass = {.dimensions = DIMENSION_BIT(DIMENSION_MASS), .most = 100, .above_least = true, .example = "0.1 g"};
static const struct measure_wanted span_of_time = {.dimensions = DIMENSION_BIT(DIMENSION_TIME), .most = 1e9, .example = "30 days"};
static const struct measure_wanted warmth = {
    .dimensions = DIMENSION_BIT(DIMENSION_TEMPERATURE), .least = 0, .most = 100, .example = "22 °C"};
static const struct measure_wanted percent = {.dimensions = DIMENSION_BIT(DIMENSION_NONE), .most = 99, .percent = true, .example = "2%"};
static const struct measure_wanted count = {
    .dimensions = DIMENSION_BIT(DIMENSION_NONE), .least = 1, .most = 50, .whole = true, .example = "3"};
static const struct measure_wanted sizes = {
    .dimensions = DIMENSION_BIT(DIMENSION_LENGTH), .least = 10, .most = 400, .example = "99.1x67.7 mm"};

static void good(struct library *library, const struct measure_wanted *wanted, const char *text, double value)
{
    struct measure_given given = measure_read_text(library, text, wanted);
    if (given.reason != NULL) {
        fail_msg("\"%s\" was refused: %s", text, given.reason);
    }
    assert_near(given.value, value);
}

static void refused(struct library *library, const struct measure_wanted *wanted, const char *text, const char *words)
{
    struct measure_given given = measure_read_text(library, text, wanted);
    if (given.reason == NULL || strstr(given.reason, words) == NULL) {
        fail_msg("\"%s\": \"%s\" does not say \"%s\"", text, given.reason == NULL ? "taken" : given.reason, words);
    }
}

/* SI Brochure, 9th ed.; NIST Handbook 44, Appendix C (US fluid ounce 29.5735295625 mL); Weights and Measures Act 1985, UK (imperial
 * pint 568.26125 mL); the other scale of temperature: NIST Special Publication 811, Appendix B. */
static void what_is_read(void **state)
{
    struct library *library = &((struct bench *)*state)->library;
    good(library, &volume, "2 L", 2000);
    good(library, &volume, "2L", 2000);
    good(library, &volume, "  2   litres ", 2000);
    good(library, &volume, "1/2 L", 500);
    good(library, &volume, "1½ L", 1500);
    good(library, &volume, "20 imperial fl oz", 568.26125);
    good(library, &volume, "16 US oz", 16 * 29.5735295625);
    good(library, &volume, "1 imperial pint 4 imperial fl oz", 1.2 * 568.26125);
    good(library, &mass, "0.1 g", 0.1);
    good(library, &mass, "1 grain", 0.06479891);
    good(library, &mass, "1 oz", 28.349523125); /* not for a liquid: the ounce of weight */
    good(library, &span_of_time, "30 days", 30 * 86400.0);
    good(library, &span_of_time, "0 min", 0);
    good(library, &warmth, "22 °C", 22);
    good(library, &warmth, "72 °F", 200 / 9.0);
    good(library, &warmth, "32 F", 0);
    good(library, &percent, "2%", 2);
    good(library, &percent, "2 %", 2);
    good(library, &percent, "0.5", 0.5);
    good(library, &count, "3", 3);
}

static void what_is_refused(void **state)
{
    struct library *library = &((struct bench *)*state)->library;
    refused(library, &volume, "", "a volume is expected, as in 2 L");
    refused(library, &volume, "two L", "a volume is expected, as in 2 L");
    refused(library, &volume, "2", "a volume is expected, as in 2 L");
    refused(library, &volume, "2 L for", "a volume is expected");
    refused(library, &volume, "2 to 3 L", "a volume is expected");
    refused(library, &volume, "2 L\n3 L", "a volume is expected");
    refused(library, &volume, "2 litres cold", "a volume is expected");
    refused(library, &volume, "2 L 3 L", "a volume is expected"); /* no sum, but two columns */
    refused(library, &volume, "2 L 500 g", "cannot be added up");
    refused(library, &volume, "2 kg", "a volume is expected, and this is a mass; write it as in 2 L");
    refused(library, &volume, "2 litrs", "\"litrs\" is not a known unit; did you mean L?");
    refused(library, &volume, "2 qqqqqqqq", "\"qqqqqqqq\" is not a known unit; write it as in 2 L");
    refused(library, &volume, "1 pint", "473.2 mL in US and 568.3 mL in imperial measure");
    refused(library, &mass, "2 gr", "write grain or g");
    refused(library, &volume, "2,5 L", "with a decimal point");
    refused(library, &volume, "2.500,00 L", "with a decimal point");
    refused(library, &volume, "0x1p-3", "decimal digits");
    refused(library, &volume, "0X10 L", "decimal digits");
    refused(library, &volume, "1e3 mL", "decimal digits");
    refused(library, &volume, "1E+3 mL", "decimal digits");
    refused(library, &volume, "inf L", "a volume is expected");
    refused(library, &volume, "nan", "a volume is expected");
    refused(library, &volume, "-2 L", "negative");
    refused(library, &volume, "0 L", "zero");
    refused(library, &mass, "0 g", "zero");
    refused(library, &mass, "2%", "a mass is expected");
    refused(library, &percent, "2 % w/v", "a percentage is expected");
    refused(library, &percent, "2 g", "a percentage is expected");
    refused(library, &count, "2.5", "a whole number is expected");
    char many[400] = "1";
    memset(many + 1, '0', sizeof many - 5);
    strcat(many, " L");
    refused(library, &volume, many, "too much"); /* more than any double */
}

/* Each bound is allowed itself, and nothing beyond it. */
static void bounds(void **state)
{
    struct library *library = &((struct bench *)*state)->library;
    good(library, &volume, "1 mL", 1);
    refused(library, &volume, "0.999999 mL", "it is too little; the least is 1 mL");
    good(library, &volume, "5 L", 5000);
    refused(library, &volume, "5.00001 L", "it is too much; the most is 5 L");
    good(library, &mass, "0.000001 g", 0.000001);
    good(library, &mass, "100 g", 100);
    refused(library, &mass, "100.001 g", "the most is 100 g");
    refused(library, &mass, "4 oz", "the most is 3.5274 oz"); /* 100 / 28.349523125 */
    good(library, &warmth, "0 °C", 0);
    refused(library, &warmth, "-0.1 °C", "the least is 0 °C");
    good(library, &warmth, "212 °F", 100);
    refused(library, &warmth, "213 °F", "the most is 212 °F");
    good(library, &percent, "99 %", 99);
    refused(library, &percent, "99.01 %", "the most is 99");
    good(library, &count, "50", 50);
    refused(library, &count, "51", "the most is 50");
    refused(library, &count, "0", "zero");
}

static void pairs(void **state)
{
    struct library *library = &((struct bench *)*state)->library;
    double first = 0;
    double second = 0;
    assert_null(measure_read_pair(library, "99.1x67.7", &sizes, &first, &second));
    assert_near(first, 99.1);
    assert_near(second, 67.7);
    assert_null(measure_read_pair(library, "99.1 × 67.7 mm", &sizes, &first, &second));
    assert_near(second, 67.7);
    assert_null(measure_read_pair(library, "4x5 in", &sizes, &first, &second)); /* an inch is 25.4 mm: NIST Handbook 44 */
    assert_near(first, 101.6);
    assert_near(second, 127);
    assert_null(measure_read_pair(library, "10x400", &sizes, &first, &second));
    static const struct {
        const char *text;
        const char *words;
    } refusals[] = {
        {"", "two numbers are expected"},      {"99.1", "two numbers are expected"},       {"99.1x67.7 mm 3", "two numbers are expected"},
        {"9.9x400", "the least is 10"},        {"10x400.1", "the most is 400"},            {"99,1x67,7", "decimal point"},
        {"99.1x67.7 g", "two numbers"},        {"1e2x40", "two numbers are expected"},     {"16x5 in", "the most is 15.748 in"},
    };
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        const char *reason = measure_read_pair(library, refusals[i].text, &sizes, &first, &second);
        if (reason == NULL || strstr(reason, refusals[i].words) == NULL) {
            fail_msg("\"%s\": \"%s\" does not say \"%s\"", refusals[i].text, reason == NULL ? "taken" : reason, refusals[i].words);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_is_read, start, stop),
        cmocka_unit_test_setup_teardown(what_is_refused, start, stop),
        cmocka_unit_test_setup_teardown(bounds, start, stop),
        cmocka_unit_test_setup_teardown(pairs, start, stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
