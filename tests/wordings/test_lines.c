/* Lines as print and habit have them (the two tables beside this file) come to the same checked form as the lines that they mean, are
 * offered as those, or are refused: none is read as something else. */
#include "support/compiling.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST = 2000 };

static bool begins(const char *text, const char *beginning)
{
    return strncmp(text, beginning, strlen(beginning)) == 0;
}

/* A formula with the lines in their place, which `expected` says more of: whether it has parts, and whether a use is opened. */
static void frame(char text[LONGEST], const char *where, const char *lines, const char *expected, bool plain)
{
    bool parts = strstr(expected, "mix ") != NULL || strstr(expected, "bath ") != NULL;
    bool of_use = begins(expected, "dilute") || begins(expected, "time") || begins(expected, "temperature") || begins(expected, "mix") ||
                  begins(expected, "agitate") || begins(expected, "bath");
    bool in_use = strcmp(where, "use") == 0;
    bool made_up = strstr(expected, "to make") != NULL && !of_use;
    snprintf(text, LONGEST, "formula \"x\"\nkind other\nfor film\nmeasures imperial\n%ssodium chloride 1 g\n%s%s%s%s\n", parts ? "part A\n" : "",
             made_up ? "" : "water to make 9 L\n", parts ? "part B\nborax (decahydrate) 1 g\nwater to make 1 L\n" : "",
             in_use || (plain && of_use) ? "use for film\n" : "", lines);
}

/* A film is a roll, and a print is a sheet. */
static void forget_name_of_goods(json_t *json, const char *key)
{
    static const char *const same[][2] = {{"films", "roll"}, {"film", "roll"}, {"rolls", "roll"}, {"prints", "sheet"}, {"print", "sheet"}, {"sheets", "sheet"}};
    const char *goods = json_string_value(json_object_get(json, key));
    for (size_t i = 0; goods != NULL && i < sizeof same / sizeof *same; i++) {
        size_t length = strlen(same[i][0]);
        if (strncmp(goods, same[i][0], length) == 0 && (goods[length] == ' ' || goods[length] == '\0')) {
            json_object_set_new(json, key, json_sprintf("%s%s", same[i][1], goods + length));
            return;
        }
    }
}

/* Where things stand and how they were written may differ, and parts of stock and water may have a common factor. */
static void forget_places(json_t *json)
{
    const char *key;
    json_t *member;
    size_t index;
    if (json_is_object(json)) {
        json_object_del(json, "line");
        json_object_del(json, "as_written");
        forget_name_of_goods(json, "goods");
        forget_name_of_goods(json, "per");
        double stock = json_number_value(json_object_get(json, "stock_parts"));
        if (stock > 0) {
            double water = json_number_value(json_object_get(json, "water_parts")) / stock;
            json_object_del(json, "total_parts");
            json_object_set_new(json, "stock_parts", json_real(1));
            json_object_set_new(json, "water_parts", json_real((double)(long)(water * 1e6 + 0.5) / 1e6));
        }
        json_object_foreach(json, key, member)
        {
            forget_places(member);
        }
    }
    json_array_foreach(json, index, member)
    {
        forget_places(member);
    }
}

/* The checked form; NULL where the text has errors. */
static json_t *meaning(const char *text)
{
    struct compiled compiled = compile(text);
    json_t *json = NULL;
    if (compiled.status == POTASH_GOOD) {
        json = json_deep_copy(compiled_formula(&compiled, 0));
        forget_places(json);
    }
    compiled_free(&compiled);
    return json;
}

static void divide(char *lines, const char *sign)
{
    for (char *at; (at = strstr(lines, sign)) != NULL;) {
        *at = '\n';
        memmove(at + 1, at + strlen(sign), strlen(at + strlen(sign)) + 1);
    }
}

struct tally {
    int read, offered, refused, wrong;
};

static void expect_meaning(struct tally *tally, const char *where, const char *line, char *expected)
{
    char text[LONGEST];
    divide(expected, " ; ");
    frame(text, where, line, expected, false);
    json_t *got = meaning(text);
    frame(text, where, expected, expected, true);
    json_t *wanted = meaning(text);
    if (wanted == NULL || got == NULL || !json_equal(got, wanted)) {
        print_error("%s: %s\n    does not mean %s\n", wanted == NULL ? "the expected lines do not compile" : got == NULL ? "refused" : "READ OTHERWISE", line, expected);
        tally->wrong++;
    }
    json_decref(got);
    json_decref(wanted);
    tally->read++;
}

/* Bytes before a column, which counts characters. */
static size_t bytes_before(const char *line, int column)
{
    size_t at = 0;
    for (int i = 1; i < column && line[at] != '\0'; i++) {
        at++;
        while ((line[at] & 0xC0) == 0x80) {
            at++;
        }
    }
    return at;
}

/* The line with a repair in its place. */
static void mend(char *mended, const char *line, const json_t *fix)
{
    size_t begin = bytes_before(line, (int)json_number_of(fix, "column"));
    size_t end = bytes_before(line, (int)json_number_of(fix, "end_column"));
    snprintf(mended, LONGEST, "%.*s%s%s", (int)begin, line, json_text_of(fix, "text"), line + end);
}

static void expect_offer(struct tally *tally, const char *where, const char *line, char *expected)
{
    char text[LONGEST];
    for (char *reading = strtok(expected, "|"); reading != NULL; reading = strtok(NULL, "|")) {
        reading += strspn(reading, " ");
        while (strlen(reading) > 0 && reading[strlen(reading) - 1] == ' ') {
            reading[strlen(reading) - 1] = '\0';
        }
        divide(reading, " ; ");
        frame(text, where, reading, reading, true);
        json_t *wanted = meaning(text);
        assert_non_null(wanted);
        frame(text, where, line, reading, false);
        struct compiled compiled = compile(text);
        bool error = compiled.status == POTASH_FAULTY;
        bool found = false;
        size_t i, j;
        json_t *diagnostic, *fix;
        json_array_foreach(compiled.diagnostics, i, diagnostic)
        {
            bool here = strcmp(json_text_of(diagnostic, "severity"), "error") == 0; /* the only one stands on the line */
            json_array_foreach(json_object_get(diagnostic, "fixes"), j, fix)
            {
                if (!here) {
                    continue;
                }
                char mended[LONGEST];
                char whole[LONGEST];
                mend(mended, line, fix);
                frame(whole, where, mended, reading, true);
                json_t *got = meaning(whole);
                found = found || (got != NULL && json_equal(got, wanted));
                json_decref(got);
            }
        }
        if (!error || !found) {
            print_error("%s: %s\n    %s\n", error ? "not offered" : "READ WITHOUT ASKING", line, reading);
            tally->wrong++;
        }
        compiled_free(&compiled);
        json_decref(wanted);
    }
    tally->offered++;
}

static void expect_refusal(struct tally *tally, const char *where, const char *line)
{
    char text[LONGEST];
    frame(text, where, line, "", false);
    struct compiled compiled = compile(text);
    if (compiled.status == POTASH_GOOD) {
        print_error("READ, and should not be: %s\n", line);
        tally->wrong++;
    }
    compiled_free(&compiled);
    tally->refused++;
}

static struct tally try_table(const char *path)
{
    struct tally tally = {0};
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    char row[LONGEST];
    while (fgets(row, sizeof row, file) != NULL) {
        row[strcspn(row, "\n")] = '\0';
        char *where = strtok(row, "\t");
        if (where == NULL || where[0] == '#') {
            continue;
        }
        strtok(NULL, "\t");
        char *line = strtok(NULL, "\t");
        char *expected = strtok(NULL, "\t");
        assert_non_null(expected);
        if (begins(expected, "ask ")) {
            expect_offer(&tally, where, line, expected + 4);
        } else if (begins(expected, "open ") || strcmp(expected, "refuse") == 0) {
            expect_refusal(&tally, where, line);
        } else {
            expect_meaning(&tally, where, line, expected);
        }
    }
    fclose(file);
    assert_int_equal(tally.wrong, 0);
    return tally;
}

static void lines_that_were_given(void **state)
{
    (void)state;
    struct tally tally = try_table("tests/wordings/lines-as-written.tsv");
    assert_int_equal(tally.read + tally.offered + tally.refused, 97);
}

static void lines_of_our_own(void **state)
{
    (void)state;
    struct tally tally = try_table("tests/wordings/lines-of-our-own.tsv");
    assert_true(tally.read >= 100);
}

static void lines_of_books(void **state)
{
    (void)state;
    struct tally tally = try_table("tests/wordings/lines-of-books.tsv");
    assert_true(tally.read >= 30);
}

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

#define HOUSE "wording \"marsh soak {time} [warm at {temperature}]\"\nmeans temperature {temperature}\nmeans time {time}\n"
#define BATH  "formula \"x\"\nkind other\nsodium chloride 1 g\nwater to make 1 L\nuse for film\n"

/* A house adds its own, wherever in its files they stand, and what was typed keeps its place. */
static void wordings_of_a_house(void **state)
{
    (void)state;
    struct compiled compiled = compile(BATH "marsh soak 3 min, warm at 30 C\n" HOUSE);
    assert_int_equal(compiled_count(&compiled, NULL), 0);
    assert_near(json_number_of(compiled_use(&compiled, 0), "temperature_C"), 30);
    compiled_free(&compiled);
    expect_one(BATH "marsh soak 0 min\n" HOUSE, "amount-out-of-range", 6, 12);
    expect_one(BATH "marsh soak 1,5 min\n" HOUSE, "decimal-comma", 6, 12);
    /* One that says the same in another way makes it doubtful. */
    compiled = compile(BATH "marsh soak 3 min\n" HOUSE "wording \"marsh soak {time}\"\nmeans note \"soak {time}\"\n");
    const json_t *diagnostic = compiled_find(&compiled, "syntax", 6);
    assert_non_null(diagnostic);
    assert_int_equal(json_array_size(json_object_get(diagnostic, "fixes")), 2);
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_that_were_given),
        cmocka_unit_test(lines_of_our_own),
        cmocka_unit_test(lines_of_books),
        cmocka_unit_test(faulty_wordings),
        cmocka_unit_test(wordings_of_a_house),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
