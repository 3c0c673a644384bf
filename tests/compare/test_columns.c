/* Formulas that a book prints in two columns, ounces and grams: the two are the same bath as far as the translated column is
 * rounded, but for the rows whose reason tests/published/columns.tsv names. */
#include "compare_help.h"

#include "support/program.h"

#include <stdio.h>

enum { MOST_ROWS = 200, COLUMNS = 10 };

struct row {
    char *fields[COLUMNS];
};

enum { OLD_FILE, METRIC_FILE, PART, INDEX, UNIT, OLD_PER_L, METRIC_PER_L, DIFFERENCE, ROUNDING, EXCEPTION };

static struct row rows[MOST_ROWS];
static size_t row_count;
static char *table;

static int read_table(void **state)
{
    (void)state;
    size_t length;
    table = file_bytes("tests/published/columns.tsv", &length);
    assert_non_null(table);
    char *next = table;
    strsep(&next, "\n"); /* the names of the columns */
    for (char *line; (line = strsep(&next, "\n")) != NULL && line[0] != '\0' && row_count < MOST_ROWS;) {
        for (int i = 0; i < COLUMNS; i++) {
            rows[row_count].fields[i] = strsep(&line, "\t");
            assert_non_null(rows[row_count].fields[i]);
        }
        row_count++;
    }
    return row_count > 20 ? 0 : -1;
}

static int free_table(void **state)
{
    (void)state;
    free(table);
    return 0;
}

static struct compared compare_row(const struct row *row, const char *within)
{
    char *text[2];
    for (int i = 0; i < 2; i++) {
        char path[300];
        size_t length;
        snprintf(path, sizeof path, "tests/published/%s", row->fields[i]);
        text[i] = file_bytes(path, &length);
        assert_non_null(text[i]);
    }
    struct compared compared = compare_within(text[0], text[1], within);
    free(text[0]);
    free(text[1]);
    return compared;
}

/* The material of the addition that the row is about, by the checked form. */
static const char *material_of(const struct row *row, struct compiled *compiled)
{
    const json_t *parts = json_object_get(compiled_formula(compiled, 0), "parts");
    for (size_t i = 0; i < json_array_size(parts); i++) {
        const json_t *part = json_array_get(parts, i);
        const char *name = json_string_value(json_object_get(part, "name"));
        if (strcmp(name == NULL ? "-" : name, row->fields[PART]) == 0) {
            const json_t *addition = json_array_get(json_object_get(part, "additions"), (size_t)atol(row->fields[INDEX]) - 1);
            return json_string_value(json_object_get(addition, "material"));
        }
    }
    return NULL;
}

static const json_t *change_of_row(const struct row *row, const struct compared *compared, const char *material)
{
    const json_t *changes = changes_of(compared);
    for (size_t i = 0; i < json_array_size(changes); i++) {
        const json_t *change = json_array_get(changes, i);
        const char *part = json_string_value(json_object_get(change, "part"));
        const char *name = json_string_value(json_object_get(change, "material"));
        if (strcmp(json_string_value(json_object_get(change, "what")), "amount") == 0 && name != NULL &&
            strcmp(name, material) == 0 && strcmp(part == NULL ? "-" : part, row->fields[PART]) == 0) {
            return change;
        }
    }
    return NULL;
}

/* Row by row: alike within its rounding, or excepted; and the percentage is the one of the printed figures. */
static void test_rows(void **state)
{
    (void)state;
    for (size_t i = 0; i < row_count; i++) {
        const struct row *row = &rows[i];
        char path[300];
        size_t length;
        snprintf(path, sizeof path, "tests/published/%s", row->fields[METRIC_FILE]);
        char *text = file_bytes(path, &length);
        struct compiled compiled = compile(text);
        const char *material = material_of(row, &compiled);
        assert_non_null(material);
        bool excepted = strcmp(row->fields[EXCEPTION], "-") != 0;

        struct compared compared = compare_row(row, row->fields[ROUNDING]);
        bool differs = change_of_row(row, &compared, material) != NULL;
        if (differs && !excepted) {
            fail_msg("%s, part %s, %s: differs by more than its rounding", row->fields[OLD_FILE], row->fields[PART], material);
        }
        if (!differs && excepted && fabs(atof(row->fields[DIFFERENCE])) > atof(row->fields[ROUNDING])) {
            fail_msg("%s, part %s, %s: excepted, yet found alike", row->fields[OLD_FILE], row->fields[PART], material);
        }
        compared_free(&compared);

        double old = atof(row->fields[OLD_PER_L]);
        double percent = (atof(row->fields[METRIC_PER_L]) - old) / old * 100;
        compared = compare_row(row, "0");
        const json_t *change = change_of_row(row, &compared, material);
        double found = change == NULL ? 0 : json_number_of(change, "percent");
        if (fabs(found - percent) > 0.05) {
            fail_msg("%s, part %s, %s: %.3f %% instead of %.3f %%", row->fields[OLD_FILE], row->fields[PART], material, found, percent);
        }
        compared_free(&compared);
        compiled_free(&compiled);
        free(text);
    }
}

/* Whole formulas: with the widest rounding of its rows, a pair differs in no more than its excepted rows. */
static void test_pairs(void **state)
{
    (void)state;
    size_t pairs = 0;
    for (size_t i = 0; i < row_count;) {
        const char *widest = "0.5"; /* % */
        size_t excepted = 0;
        size_t end = i;
        for (; end < row_count && strcmp(rows[end].fields[OLD_FILE], rows[i].fields[OLD_FILE]) == 0; end++) {
            bool exception = strcmp(rows[end].fields[EXCEPTION], "-") != 0;
            excepted += exception;
            if (!exception && atof(rows[end].fields[ROUNDING]) > atof(widest)) {
                widest = rows[end].fields[ROUNDING];
            }
        }
        struct compared compared = compare_row(&rows[i], widest);
        size_t differences = 0;
        const json_t *changes = changes_of(&compared);
        for (size_t k = 0; k < json_array_size(changes); k++) {
            const json_t *change = json_array_get(changes, k);
            if (!json_is_true(json_object_get(change, "remark"))) {
                assert_string_equal(json_text_of(change, "what"), "amount");
                differences++;
            }
        }
        if (differences > excepted || (excepted == 0 && !compared.same)) {
            fail_msg("%s: %zu differences, %zu excepted", rows[i].fields[OLD_FILE], differences, excepted);
        }
        compared_free(&compared);
        pairs++;
        i = end;
    }
    assert_int_equal(pairs, 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_rows), cmocka_unit_test(test_pairs)};
    return cmocka_run_group_tests(tests, read_table, free_table);
}
