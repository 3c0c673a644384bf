/* Wordings of a house: lines in other words come to what they mean, in the place where they were typed, or are offered, or refused. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

/* What is wrong with a wording fails with its place. */
static void faulty_wordings(void **state)
{
    (void)state;
    static const char *const cases[] = {
        "wording \"soak {time} at {temperature}\"\nmeans time {time}\n",  /* the temperature would be lost */
        "wording \"soak {time}\"\nmeans time {tim}\n",                    /* no such capture */
        "wording \"soak {time}\"\nmeans time {time low}\n",               /* not captured */
        "wording \"soak {time}\"\nmeans tame {time}\n",                   /* no line of the notation */
        "wording \"soak {time}\"\n",                                      /* no meaning */
        "wording \"[soak]\"\nmeans filter\n",                             /* fits every line */
        "wording \"soak {hours}\"\nmeans time 5 min\n",                   /* no such kind */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct compiled compiled = compile(cases[i]);
        if (compiled_count(&compiled, "syntax") != 1) {
            fail_msg("%zu diagnostics of:\n%s", compiled_count(&compiled, NULL), cases[i]);
        }
        compiled_free(&compiled);
    }
}

#define BATH "formula \"x\"\nkind other\nfor film\nsodium chloride 1 g\nwater to make 1 L\n"
#define OPEN "formula \"x\"\nkind other\nfor film\nsodium chloride 1 g\n"
#define USE  BATH "use for film\n"
#define SOAK "wording \"marsh soak {time} [warm at {temperature}]\"\nmeans temperature {temperature}\nmeans time {time}\n"

static const char house[] =
    SOAK
    "wording \"one|an|single\"\nin number\nmeans 1\n"
    "wording \"three\"\nin number\nmeans 3\n"
    "wording \"(undiluted|neat)|(as it is)\"\nin dilution\nmeans undiluted\n"
    "wording \"[with] [an] equal volume|volumes [of] water\"\nin dilution\nmeans 1+1\n"
    "wording \"{number stock} part|parts [of] stock [and] {number water} part|parts [of] water\"\nin dilution\nmeans {number stock}+{number water}\n"
    "wording \"thin [it] {dilution}\"\nmeans use for {purpose}\nmeans dilute {dilution}\n"
    "wording \"{number} {size} print|prints\"\nin goods\nmeans {number} sheets {size}\n"
    "wording \"{volume} does {goods}\"\nin use\nmeans capacity {goods} per {volume}\n"
    "wording \"{amount} of {material} [{form}]\"\nmeans {material}[ ({form})] {amount}\n"
    "wording \"gr {roman}\"\nin amount\nmeans {roman} grains\n"
    "wording \"thin {number one} to {number other}\"\nmeans dilute {number one}+{number other}\n"
    "wording \"thin {number one} to {number other}\"\nmeans dilute {number other}+{number one}\n"
    "wording \"stir {text}\"\noffers do \"{line}\"\n"
    "wording \"[mix] {part one} and {part other} alike\"\nmeans mix {part one} 1 + {part other} 1\n";

static struct compiled compile_line(const char *bath, const char *line)
{
    static char text[6000]; /* the diagnostics of a failing test show it */
    snprintf(text, sizeof text, "%s%s\n%s", bath, line, house);
    return compile(text);
}

static json_t *use_of(const char *bath, const char *line)
{
    struct compiled compiled = compile_line(bath, line);
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    json_t *use = json_deep_copy(compiled_use(&compiled, 0));
    compiled_free(&compiled);
    return use;
}

static void expect_use(const char *bath, const char *line, const char *key, double wanted)
{
    json_t *use = use_of(bath, line);
    assert_near(json_number_of(use, key), wanted);
    json_decref(use);
}

static void lines_of_a_use(void **state)
{
    (void)state;
    expect_use(USE, "Marsh soak 3 min, warm at 30 C.", "temperature_C", 30);
    expect_use(USE, "Thin it: neat", "water_parts", 0);
    expect_use(USE, "thin with an equal volume of water", "water_parts", 1);
    expect_use(USE, "Thin it: one part stock, three parts water.", "water_parts", 3);
    expect_use(BATH, "thin one part of stock and 3 parts of water", "water_parts", 3); /* for the formula's own purpose */
    json_t *use = use_of(USE, "1 L does 20 8x10 prints");
    json_decref(use);
    use = use_of("formula \"x\"\nkind other\npart A\nsodium chloride 1 g\nwater to make 1 L\npart B\npotassium bromide 1 g\nwater to make 1 L\n"
                 "use for film\n", "Mix B and A alike");
    assert_int_equal(json_array_size(json_object_get(use, "mix")), 2);
    json_decref(use);
}

static void additions(void **state)
{
    (void)state;
    struct compiled compiled = compile_line(OPEN, "30 g of sodium sulfite (anhydrous)\nwater to make 1 L");
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_near(json_number_of(compiled_addition(&compiled, 0, 1), "mass_g"), 30);
    assert_string_equal(json_text_of(compiled_addition(&compiled, 0, 1), "form"), "anhydrous");
    assert_int_equal(json_number_of(compiled_addition(&compiled, 0, 1), "line"), 5);
    compiled_free(&compiled);
    compiled = compile_line(OPEN, "gr. xvj of potassium bromide; gr. xss of citric acid (monohydrate)\nwater to make 1 L"); /* a line of two clauses */
    /* 64.79891 mg to the grain: NIST Handbook 44, Appendix C */
    assert_within(json_number_of(compiled_addition(&compiled, 0, 1), "mass_g"), 16 * 0.06479891, 1e-9);
    assert_within(json_number_of(compiled_addition(&compiled, 0, 2), "mass_g"), 10.5 * 0.06479891, 1e-9);
    compiled_free(&compiled);
    compiled = compile_line(OPEN, "30 g of unobtainium\nwater to make 1 L"); /* read, and told of in its place */
    const json_t *unknown = compiled_find(&compiled, "material-unknown", 5);
    assert_non_null(unknown);
    assert_near(json_number_of(unknown, "column"), 9);
    compiled_free(&compiled);
}

static void what_is_doubtful_is_offered(void **state)
{
    (void)state;
    struct compiled compiled = compile_line(USE, "thin 1 to 4");
    const json_t *diagnostic = compiled_find(&compiled, "syntax", 7);
    assert_non_null(diagnostic);
    const json_t *fixes = json_object_get(diagnostic, "fixes");
    assert_int_equal(json_array_size(fixes), 2);
    compiled_free(&compiled);
    compiled = compile_line(BATH, "stir \"well\" until clear");
    diagnostic = compiled_find(&compiled, "syntax", 6);
    assert_non_null(diagnostic);
    assert_string_equal(json_text_of(json_array_get(json_object_get(diagnostic, "fixes"), 0), "text"), "do \"stir 'well' until clear\"");
    compiled_free(&compiled);
    compiled = compile_line(USE, "soak it somehow");
    assert_non_null(compiled_find(&compiled, "syntax", 7));
    compiled_free(&compiled);
}

/* What is wrong is told where it was typed. */
static void places_are_those_that_were_typed(void **state)
{
    (void)state;
    expect_one(USE "marsh soak 0 min\n" SOAK, "amount-out-of-range", 7, 12);
    expect_one(USE "marsh soak 1,5 min\n" SOAK, "decimal-comma", 7, 12);
}

/* Of a hostile line no more is looked at than a line has. */
static void a_line_without_end(void **state)
{
    (void)state;
    static char line[3000];
    for (size_t i = 0; i + 3 < sizeof line; i += 2) {
        memcpy(line + i, "1 ", 3);
    }
    for (size_t length = 900; length < sizeof line; length += 1000) {
        char cut[3000];
        snprintf(cut, sizeof cut, "thin it %.*s", (int)length, line);
        struct compiled compiled = compile_line(USE, cut);
        assert_int_equal(compiled.status, POTASH_FAULTY);
        compiled_free(&compiled);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(faulty_wordings),
        cmocka_unit_test(lines_of_a_use),
        cmocka_unit_test(additions),
        cmocka_unit_test(what_is_doubtful_is_offered),
        cmocka_unit_test(places_are_those_that_were_typed),
        cmocka_unit_test(a_line_without_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
