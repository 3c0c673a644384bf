/* The classes of baths: a formula in the middle of each is left in peace, and a figure that is ten times off is answered. */
#define _GNU_SOURCE

#include "support/compiling.h"
#include "support/library_help.h"

#include "practice/rules/rules.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MOST_LINES = 16, MOST_TEXT = 4096 };

struct one_class {
    char name[80];
    char kind[40];
    char purpose[40];
    struct {
        char material[200];
        double low, high;
        char unit[8];
        bool optional;
    } lines[MOST_LINES];
    size_t count;
};

/* Reads stdlib/classes.bath as a person would: its lines, not the compiler's tables. */
static bool next_class(FILE *file, struct one_class *class)
{
    char line[600];
    memset(class, 0, sizeof *class);
    while (fgets(line, sizeof line, file) != NULL) {
        if (sscanf(line, "rule %79[^\n]", class->name) == 1) {
            break;
        }
    }
    while (class->name[0] != '\0' && fgets(line, sizeof line, file) != NULL && strstr(line, "source") == NULL) {
        char *holds = strstr(line, "holds   ");
        sscanf(line, " in %39[^,\n]", class->kind);
        sscanf(line, " for %39[^,\n]", class->purpose);
        if (holds != NULL) {
            char *figure = strpbrk(holds, "0123456789");
            while (figure != NULL && (figure[-1] != ' ' || figure[strspn(figure, "0123456789.")] != ' ')) { /* not "4-methyl" */
                figure = strpbrk(figure + 1, "0123456789");
            }
            assert_non_null(figure);
            assert_true(class->count < MOST_LINES);
            size_t length = (size_t)(figure - (holds + 8)) - 1;
            char *or_other = strstr(holds, " or ");
            if (or_other != NULL && or_other < figure) {
                length = (size_t)(or_other - (holds + 8));
            }
            snprintf(class->lines[class->count].material, 200, "%.*s", (int)length, holds + 8);
            assert_int_equal(sscanf(figure, "%lf to %lf %7s", &class->lines[class->count].low, &class->lines[class->count].high,
                                    class->lines[class->count].unit), 3);
            class->lines[class->count].optional = strstr(figure, "optional") != NULL;
            class->count++;
        }
    }
    return class->name[0] != '\0';
}

/* In the middle of every range; `wrong` is so many times off.  The line of `wrong` in the text is returned. */
static int write_formula(const struct one_class *class, size_t wrong, double factor, char *text)
{
    int line = 2;
    int found = 0;
    text += sprintf(text, "formula \"x\"\nkind %s\n", class->kind);
    if (class->purpose[0] != '\0') {
        line++;
        text += sprintf(text, "for %s\n", class->purpose);
    }
    for (size_t i = 0; i < class->count; i++) {
        if (class->lines[i].optional && i != wrong) {
            continue;
        }
        line++;
        found = i == wrong ? line : found;
        double middle = sqrt(class->lines[i].low * class->lines[i].high) * (i == wrong ? factor : 1);
        text += sprintf(text, "%s %.4g %s\n", class->lines[i].material, middle, strstr(class->lines[i].unit, "mL") != NULL ? "mL" : "g");
    }
    sprintf(text, "water to make 1 L\nuse for work\ntemperature 20 °C\n");
    return found;
}

static bool is_of_amounts(const char *id)
{
    return strcmp(id, "amount-unusual") == 0 || strcmp(id, "role-missing") == 0 || strcmp(id, "look-alike") == 0 ||
           strcmp(id, "stock-too-strong") == 0 || strcmp(id, "over-volume") == 0;
}

static void the_middle_of_each_class_is_left_in_peace(void **state)
{
    (void)state;
    FILE *file = fopen("stdlib/classes.bath", "r");
    assert_non_null(file);
    struct one_class class;
    char text[MOST_TEXT];
    size_t classes = 0;
    size_t faults = 0;
    while (next_class(file, &class)) {
        classes++;
        write_formula(&class, SIZE_MAX, 1, text);
        struct compiled compiled = compile(text);
        size_t i;
        json_t *item;
        json_array_foreach(compiled.diagnostics, i, item) {
            if (is_of_amounts(json_text_of(item, "id"))) {
                print_error("%s: %s [%s]\n", class.name, json_text_of(item, "message"), json_text_of(item, "id"));
                faults++;
            }
        }
        if (compiled.status != POTASH_GOOD) {
            print_error("%s: does not compile\n%s", class.name, text);
            faults++;
        }
        compiled_free(&compiled);
    }
    fclose(file);
    assert_true(classes > 60);
    assert_int_equal(faults, 0);
}

static void a_figure_ten_times_off_is_answered_on_its_line(void **state)
{
    (void)state;
    FILE *file = fopen("stdlib/classes.bath", "r");
    assert_non_null(file);
    struct one_class class;
    char text[MOST_TEXT];
    size_t faults = 0;
    while (next_class(file, &class)) {
        for (size_t wrong = 0; wrong < class.count; wrong++) {
            for (int way = 0; way < 2 && !class.lines[wrong].optional; way++) {
                int line = write_formula(&class, wrong, way == 0 ? 10 : 0.1, text);
                struct compiled compiled = compile(text);
                bool answered = false;
                size_t i;
                json_t *item;
                json_array_foreach(compiled.diagnostics, i, item) {
                    answered = answered || (is_of_amounts(json_text_of(item, "id")) && (int)json_number_of(item, "line") == line);
                }
                if (!answered) {
                    print_error("%s: %s %s is not answered\n", class.name, class.lines[wrong].material, way == 0 ? "x 10" : "/ 10");
                    faults++;
                }
                compiled_free(&compiled);
            }
        }
    }
    fclose(file);
    assert_int_equal(faults, 0);
}

#define MQ_HEAD "formula \"x\"\nkind developer\nfor paper\nwater 750 mL\n"

static void a_missing_line_is_asked_about_and_put_in(void **state)
{
    (void)state;
    /* Phenidone is never the only agent beside a carbonate and a bromide. */
    struct compiled compiled = compile(MQ_HEAD "    sodium sulfite (anhydrous)   30 g\n    sodium carbonate (anhydrous) 35 g\n"
                                               "    phenidone                    0.2 g\n    potassium bromide            1 g\n"
                                               "    water                        to make 1 L\n");
    const json_t *item = compiled_find(&compiled, "role-missing", 0);
    assert_non_null(item);
    assert_non_null(strstr(json_text_of(item, "message"), "hydroquinone"));
    const json_t *fix = json_array_get(json_object_get(item, "fixes"), 0);
    assert_non_null(fix);
    const char *put_in = json_text_of(fix, "text");
    assert_int_equal((int)json_number_of(fix, "line"), 5); /* behind the sulfite */
    assert_int_equal(strncmp(put_in, "\n    hydroquinone ", strlen("\n    hydroquinone ")), 0);
    double grams = strtod(put_in + strcspn(put_in, "0123456789"), NULL);
    assert_true(grams > 2 && grams < 20); /* ten to a hundred times the phenidone, as print developers have it */
    compiled_free(&compiled);
}

static void two_additions_of_a_material_count_together(void **state)
{
    (void)state;
    /* 0.2 g and 1.8 g of metol are 2 g; the first alone would be little. */
    struct compiled compiled = compile(MQ_HEAD "metol 0.2 g\nsodium sulfite (anhydrous) 30 g\nhydroquinone 6 g\nmetol 1.8 g\n"
                                               "sodium carbonate (anhydrous) 35 g\npotassium bromide 1 g\nwater to make 1 L\n");
    assert_int_equal((int)compiled_count(&compiled, "amount-unusual"), 0);
    compiled_free(&compiled);
}

static void lines_in_the_wrong_order_are_exchanged(void **state)
{
    (void)state;
    struct compiled compiled = compile(MQ_HEAD "sodium sulfite (anhydrous) 40 g\nmetol 2 g\nhydroquinone 5 g\n"
                                               "sodium carbonate (anhydrous) 30 g\npotassium bromide 1 g\nwater to make 1 L\n");
    const json_t *item = compiled_find(&compiled, "order", 0);
    assert_non_null(item);
    json_t *edits = json_object_get(json_array_get(json_object_get(item, "fixes"), 0), "edits");
    assert_int_equal((int)json_array_size(edits), 2);
    assert_int_equal((int)json_number_of(json_array_get(edits, 0), "line"), 5);
    assert_string_equal(json_text_of(json_array_get(edits, 0), "text"), "metol 2 g");
    assert_int_equal((int)json_number_of(json_array_get(edits, 1), "line"), 6);
    assert_string_equal(json_text_of(json_array_get(edits, 1), "text"), "sodium sulfite (anhydrous) 40 g");
    compiled_free(&compiled);
}

/* More lines than a class can hold are said at their place, and the rest is taken. */
static void too_many_lines_are_said(void **state)
{
    (void)state;
    char text[4000] = "rule endless-class\n in developer\n";
    size_t length = strlen(text);
    for (int i = 0; i < 66; i++) {
        length += (size_t)snprintf(text + length, sizeof text - length, " holds metol 1 to 4 g/L\n");
    }
    snprintf(text + length, sizeof text - length, " advise \"less\"\n source \"common practice\"\n");
    struct compiled compiled = compile(text);
    assert_int_equal(compiled_count(&compiled, "syntax"), 2);
    assert_non_null(compiled_find(&compiled, "syntax", 67));
    assert_non_null(compiled_find(&compiled, "syntax", 68));
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_middle_of_each_class_is_left_in_peace),
        cmocka_unit_test(a_figure_ten_times_off_is_answered_on_its_line),
        cmocka_unit_test(a_missing_line_is_asked_about_and_put_in),
        cmocka_unit_test(two_additions_of_a_material_count_together),
        cmocka_unit_test(lines_in_the_wrong_order_are_exchanged),
        cmocka_unit_test(too_many_lines_are_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
