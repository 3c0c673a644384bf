/* The warning hidden-sign: where it is given, that it is the only one, and what its repair leaves. */
#include "support/compiling.h"
#include "support/program.h"
#include "support/repairing.h"

#include <stdio.h>
#include <string.h>

#define STOP_BATH(title, note, line) \
    "formula \"" title "\"\n    kind stop bath\n    note \"" note "\"\n    " line "\n    water to make 1 L\n"

/* Once for a line, whatever stands on it; the rest of the line is read as though it were not there. */
static void one_for_a_line(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int line, column;
    } cases[] = {
        {STOP_BATH("Stop\033[2J\007 bath", "n", "citric acid (anhydrous) 15 g"), 1, 14},
        {STOP_BATH("Stop\x7F", "n", "citric acid (anhydrous) 15 g"), 1, 14},
        {STOP_BATH("Stop\xC2\x9B" "2J", "n", "citric acid (anhydrous) 15 g"), 1, 14},
        {STOP_BATH("Stop \u202Ehtab\033 a\u202C", "n", "citric acid (anhydrous) 15 g"), 1, 15},
        {STOP_BATH("S", "1+\u20669\u2069", "citric acid (anhydrous) 15 g"), 3, 13},
        {STOP_BATH("S", "1+\u2028" "9", "citric acid (anhydrous) 15 g"), 3, 13},
        {STOP_BATH("S", "n", "citric acid (anhydrous) 15 g # a\u200Bb"), 4, 37},
        {STOP_BATH("S", "n", "citric acid (anhydrous) 15 g # a\033b"), 4, 37},
        {STOP_BATH("S", "n", "cit\u00ADric ac\u200Did (an\u2060hydrous) \u200E15\u200B g\uFEFF note \"a\001b\""), 4, 8},
        {"# first\x1F\n" STOP_BATH("S", "n", "citric acid (anhydrous) 15 g"), 1, 8},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        expect_one(cases[i].text, "hidden-sign", cases[i].line, cases[i].column);
        char text[1000];
        snprintf(text, sizeof text, "%s", cases[i].text);
        repair(text, sizeof text, "hidden-sign", cases[i].line);
        expect_clean(text);
    }
    expect_list("material marsh flour\n    also x\033y, flour of\u200B the marsh\n    form powder NaCl usual\n    source \"club\"\n", "hidden-sign:2");
}

static void the_repair_takes_out_nothing_else(void **state)
{
    (void)state;
    char text[1000] = STOP_BATH("S", "9\u202E+1 °C\u2028½ \u2067x", "citric acid (anhydrous) 15 g");
    repair(text, sizeof text, "hidden-sign", 3);
    assert_string_equal(text, STOP_BATH("S", "9+1 °C ½ x", "citric acid (anhydrous) 15 g"));
}

static void names_are_read_without_them(void **state)
{
    (void)state;
    assert_near(mass_of("metric", "so\u00ADdium chlo\u200Bride\u200E 12\u2060 g"), 12);
    assert_near(mass_of("metric", "sodium chloride 12 gr\u00ADams"), 12);
}

/* Words of other scripts and pictures, as their writers type them. */
static void no_alarm_where_they_have_their_use(void **state)
{
    (void)state;
    static const char *const titles[] = {
        "20 °C, ½ L, 1–2 µg, 5 × 4 in, “soft”, naïve café",
        "מפתח לסרט 1+9", "محمض أفلام ١+٩", "ظهورِ نامه\u200Cای", "ප්\u200Dරතිචාර", "नि\u200Dक क्\u200D", "น้ำยา\u200Bล้าง",
        "👩\u200D🔬 ❤\uFE0F 1\uFE0F\u20E3", "現像液 葛\U000E0100", "проявитель", "εμφανιστής", "tab\there",
    };
    for (size_t i = 0; i < sizeof titles / sizeof *titles; i++) {
        char text[500];
        snprintf(text, sizeof text, STOP_BATH("%s", "%s", "citric acid (anhydrous) 15 g"), titles[i], titles[i]);
        expect_clean(text);
    }
    expect_clean("\xEF\xBB\xBF" STOP_BATH("S", "n", "citric acid (anhydrous) 15 g")); /* the mark at the start of a file */
}

static void no_alarm_in_what_is_there(void **state)
{
    (void)state;
    struct run run = run_potash("check", "samples", "tests/published", "stdlib", NULL);
    assert_true(run.error_length > 1000);
    assert_null(strstr(run.error, "hidden-sign"));
    run_free(&run);
}

/* 200,000 signs on one line, and on as many lines, with joiners that have their use: each is looked at a few times. */
static void many_take_no_longer(void **state)
{
    (void)state;
    enum { COUNT = 200000 };
    char *text = malloc(COUNT * 10 + 100);
    for (int lines = 0; lines < 2; lines++) {
        size_t length = 0;
        for (int i = 0; i < COUNT; i++) {
            length += (size_t)sprintf(text + length, "%s", lines ? "# \u202E\n" : i == 0 ? "# " : i % 2 ? "\u202E" : "م\u200Cم");
        }
        struct run run = run_potash_input(text, length, "check", "-", NULL);
        assert_true(run.status == 0);
        assert_true(run.seconds < 5);
        run_free(&run);
    }
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_for_a_line),
        cmocka_unit_test(the_repair_takes_out_nothing_else),
        cmocka_unit_test(names_are_read_without_them),
        cmocka_unit_test(no_alarm_where_they_have_their_use),
        cmocka_unit_test(no_alarm_in_what_is_there),
        cmocka_unit_test(many_take_no_longer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
