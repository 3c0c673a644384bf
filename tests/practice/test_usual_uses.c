/* How baths are used: what stdlib/uses.bath takes for usual, tried just on each side of its bounds (common practice, no source), and the
 * figures that read as something else. */
#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

#define FILM                                                                                                           \
    "formula \"x\"\nkind developer\nfor film\nwater 750 mL at 50 °C\nmetol 2 g\nsodium sulfite (anhydrous) 100 g\n"      \
    "hydroquinone 5 g\nborax (decahydrate) 2 g\nwater to make 1 L\nuse for film\n"
#define PAPER                                                                                                          \
    "formula \"x\"\nkind developer\nfor paper\nwater 750 mL at 45 °C\nmetol 1.5 g\nsodium sulfite (anhydrous) 30 g\n"   \
    "hydroquinone 7 g\nsodium carbonate (anhydrous) 45 g\npotassium bromide 1.5 g\nwater to make 1 L\nuse for paper\n"
#define STOP "formula \"x\"\nkind stop bath\nwater 750 mL\ncitric acid (monohydrate) 16 g\nwater to make 1 L\nuse for film\n"
#define FIXER "formula \"x\"\nkind fixer\nwater 700 mL\nsodium thiosulfate (pentahydrate) 250 g\nsodium sulfite (anhydrous) 15 g\nwater to make 1 L\nuse for film\n"

static int last_line(const char *text)
{
    int lines = 0;
    for (const char *at = text; *at != '\0'; at++) {
        lines += *at == '\n';
    }
    return lines;
}

static void bounds_on_each_side(void **state)
{
    (void)state;
    static const struct {
        const char *head, *within, *beyond;
    } cases[] = {
        {FILM, "time 20 s", "time 19 s"},
        {FILM, "time 240 min", "time 241 min"},
        {FILM, "dilute 5+1", "dilute 5.1+1"},
        {FILM, "capacity 80 rolls per L", "capacity 81 rolls per L"},
        {FILM, "capacity 0.4 rolls per L", "capacity 0.3 rolls per L"},
        {PAPER, "time 8 s", "time 7 s"},
        {PAPER, "time 60 min", "time 61 min"},
        {PAPER, "capacity 400 sheets 8x10 in per L", "capacity 401 sheets 8x10 in per L"},
        {PAPER, "capacity 40 sheets 8x10 in per L", "capacity 40 rolls per L"},
        {STOP, "time 2 s", "time 1 s"},
        {STOP, "time 15 min", "time 16 min"},
        {STOP, "capacity 300 rolls per L", "capacity 301 rolls per L"},
        {FIXER, "time 15 s", "time 14 s"},
        {FIXER, "time 60 min", "time 61 min"},
        {FIXER, "capacity 150 rolls per L", "capacity 151 rolls per L"},
        {FIXER, "keeps 12 years in full bottle", "keeps 13 years in full bottle"},
        {FIXER, "keeps 60 days in tray", "keeps 61 days in tray"},
        {FILM, "time 9.3 min", "time 9.30 min"},
        {FILM, "time 9.75 min", "time 9.59 min"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[600];
        snprintf(text, sizeof text, "%s%s\n", cases[i].head, cases[i].within);
        expect_clean(text);
        snprintf(text, sizeof text, "%s%s\n", cases[i].head, cases[i].beyond);
        expect_one(text, "amount-unusual", last_line(text), 0);
    }
}

static bool offers(const char *text, const char *id, const char *fix)
{
    struct compiled compiled = compile(text);
    const json_t *fixes = json_object_get(compiled_find(&compiled, id, 0), "fixes");
    bool found = false;
    for (size_t i = 0; i < json_array_size(fixes); i++) {
        found = found || strcmp(json_text_of(json_array_get(fixes, i), "text"), fix) == 0;
    }
    compiled_free(&compiled);
    return found;
}

static void repairs_are_offered(void **state)
{
    (void)state;
    assert_true(offers(PAPER "time 90 h\n", "amount-unusual", "s"));
    assert_true(offers(FILM "time 9 s\n", "amount-unusual", "min"));
    assert_true(offers(FILM "time 9.30 min\n", "amount-unusual", "9 min 30 s"));
    assert_true(offers(FILM "dilute 29+1\n", "amount-unusual", "1+29"));
    assert_true(offers(FILM "time 9 min\nuse for film\ntime 7 min\n", "declared-twice", "\"film, another way\""));
    assert_true(offers("formula \"x\"\nkind fixer\nfor papre\nwater 700 mL\nsodium thiosulfate (pentahydrate) 250 g\nwater to make 1 L\n",
                       "look-alike", "paper"));
}

static void what_is_not_asked_about(void **state)
{
    (void)state;
    expect_clean(FILM "time 1 h\n");             /* standing development */
    expect_clean(FILM "dilute undiluted\n");
    expect_clean(FIXER "time 5 min\nuse for plates\ntime 10 min\n");
    expect_clean(FILM "silence times-of-developers-for-negatives\ntime 9 s\n"); /* turned off by its name */
    expect_one(FIXER "time 5 min\nuse for film\ntime 10 min\n", "declared-twice", 9, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bounds_on_each_side),
        cmocka_unit_test(repairs_are_offered),
        cmocka_unit_test(what_is_not_asked_about),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
