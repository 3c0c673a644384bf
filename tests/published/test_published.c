/* Formulas printed between the 1850s and about 1940, as they stand in the books, against the amounts that the books
 * (and GNU units) give.  tests/published/README.md describes the files. */
#define _GNU_SOURCE

#include "support/compiling.h"
#include "support/program.h"

#include <glob.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define FOLDER "tests/published/"

/* ---- tables ---- */

enum { MOST_COLUMNS = 12 };

struct row {
    char *at[MOST_COLUMNS];
    size_t count;
    int line;
};

typedef void visit_row(void *context, const struct row *row);

/* Calls `visit` for each row below the heading; returns how many. */
static size_t each_row(const char *path, visit_row *visit, void *context)
{
    char *text = file_bytes(path, NULL);
    assert_non_null(text);
    size_t rows = 0;
    int line = 0;
    char *rest = text;
    for (char *next; (next = strsep(&rest, "\n")) != NULL;) {
        line++;
        if (line == 1 || next[0] == '\0') {
            continue;
        }
        struct row row = {.line = line};
        for (char *cell; row.count < MOST_COLUMNS && (cell = strsep(&next, "\t")) != NULL;) {
            row.at[row.count++] = cell;
        }
        visit(context, &row);
        rows++;
    }
    free(text);
    return rows;
}

/* ---- files, each compiled once ---- */

struct file {
    char *name;
    struct compiled compiled;
    char *text;
};

static struct file files[200];
static size_t file_count;

static struct compiled *compiled_file(const char *name)
{
    for (size_t i = 0; i < file_count; i++) {
        if (strcmp(files[i].name, name) == 0) {
            return &files[i].compiled;
        }
    }
    assert_true(file_count < sizeof files / sizeof *files);
    struct file *file = &files[file_count++];
    char path[300];
    snprintf(path, sizeof path, FOLDER "%s", name);
    size_t length = 0;
    file->name = strdup(name);
    file->text = file_bytes(path, &length);
    if (file->text == NULL) {
        fail_msg("%s is not there", path);
    }
    file->compiled = compile_with(NULL, file->text, length);
    return &file->compiled;
}

static int release_files(void **state)
{
    (void)state;
    for (size_t i = 0; i < file_count; i++) {
        compiled_free(&files[i].compiled);
        free(files[i].name);
        free(files[i].text);
    }
    file_count = 0;
    return 0;
}

/* The part of the file's formula with that name, or its only one for "-". */
static const json_t *part_called(struct compiled *compiled, const char *name)
{
    const json_t *parts = json_object_get(compiled_formula(compiled, 0), "parts");
    for (size_t i = 0; i < json_array_size(parts); i++) {
        const char *got = json_string_value(json_object_get(json_array_get(parts, i), "name"));
        if (strcmp(name, got == NULL ? "-" : got) == 0) {
            return json_array_get(parts, i);
        }
    }
    return NULL;
}

/* ---- what is held against the books ---- */

static int faults;

static void compare(const struct row *row, const json_t *got, const char *wanted, double relative)
{
    double value = strtod(wanted, NULL);
    if (!json_is_number(got) || !(fabs(json_number_value(got) - value) <= relative * value)) {
        print_error("line %d: %s %s: %.8g instead of %s\n", row->line, row->at[0], row->at[1],
                    json_is_number(got) ? json_number_value(got) : NAN, wanted);
        faults++;
    }
}

static void check_amount(void *context, const struct row *row)
{
    (void)context;
    assert_int_equal(row->count, 6);
    const json_t *part = part_called(compiled_file(row->at[0]), row->at[1]);
    size_t index = (size_t)strtoul(row->at[2], NULL, 10);
    const json_t *addition = json_array_get(json_object_get(part, "additions"), index - 1);
    if (addition == NULL) {
        print_error("line %d: %s has no addition %zu in part %s\n", row->line, row->at[0], index, row->at[1]);
        faults++;
        return;
    }
    /* The values have seven figures. */
    compare(row, json_object_get(addition, row->at[3]), row->at[4], 2e-6);
}

static void amounts_are_those_of_the_books(void **state)
{
    (void)state;
    faults = 0;
    size_t rows = each_row(FOLDER "expected.tsv", check_amount, NULL);
    assert_int_equal(faults, 0);
    assert_true(rows >= 230);
}

static void check_final_volume(void *context, const struct row *row)
{
    (void)context;
    assert_int_equal(row->count, 4);
    const json_t *part = part_called(compiled_file(row->at[0]), row->at[1]);
    compare(row, json_object_get(part, "makes_mL"), row->at[2], 2e-6);
}

static void final_volumes_are_those_of_the_books(void **state)
{
    (void)state;
    faults = 0;
    assert_true(each_row(FOLDER "makes.tsv", check_final_volume, NULL) >= 8);
    assert_int_equal(faults, 0);
}

/* The old and the metric column of one book agree within the rounding of print, by our reckoning as by hand. */
static double per_litre(const char *file, const char *part_name, const char *index, const char *unit)
{
    const json_t *part = part_called(compiled_file(file), part_name);
    const json_t *additions = json_object_get(part, "additions");
    const json_t *addition = json_array_get(additions, (size_t)strtoul(index, NULL, 10) - 1);
    double amount = json_number_of(addition, strncmp(unit, "mL", 2) == 0 ? "volume_mL" : "mass_g");
    /* Per litre of the final volume where it is printed, otherwise of the water, or of the solutions where there is
     * none. */
    double water = 0;
    double solutions = 0;
    bool made_up = false;
    for (size_t i = 0; i < json_array_size(additions); i++) {
        const json_t *other = json_array_get(additions, i);
        const json_t *volume = json_object_get(other, "volume_mL");
        double litres = json_is_number(volume) ? json_number_value(volume) / 1000 : 0;
        const char *material = json_string_value(json_object_get(other, "material"));
        if (material != NULL && strcmp(material, "water") == 0) {
            water += litres;
            made_up = made_up || strstr(json_text_of(other, "as_written"), "to make") != NULL;
        } else if (json_object_get(other, "solution") != NULL ||
                   json_is_number(json_object_get(other, "stock_percent"))) {
            solutions += litres;
        }
    }
    double litres = water > 0 ? water : solutions;
    return made_up ? amount / (json_number_of(part, "makes_mL") / 1000) : amount / litres;
}

static void check_columns(void *context, const struct row *row)
{
    (void)context;
    assert_int_equal(row->count, 10);
    static const int column_of_figure[] = {5, 6};
    for (int side = 0; side < 2; side++) {
        double got = per_litre(row->at[side], row->at[2], row->at[3], row->at[4]);
        double wanted = strtod(row->at[column_of_figure[side]], NULL);
        if (!(fabs(got - wanted) <= 2e-4 * wanted)) {
            print_error("line %d: %s: %.6g per litre instead of %s\n", row->line, row->at[side], got,
                        row->at[column_of_figure[side]]);
            faults++;
        }
    }
    double old = strtod(row->at[5], NULL);
    double metric = strtod(row->at[6], NULL);
    double difference = 100 * (old - metric) / metric;
    if (fabs(difference) > strtod(row->at[8], NULL) + 0.01 && strcmp(row->at[9], "-") == 0) {
        print_error("line %d: the columns differ by %.2f %% without a reason\n", row->line, difference);
        faults++;
    }
}

static void the_columns_of_one_book_agree(void **state)
{
    (void)state;
    faults = 0;
    assert_true(each_row(FOLDER "columns.tsv", check_columns, NULL) > 20);
    assert_int_equal(faults, 0);
}

/* Untouched print compiles: warnings there may be, errors none. */
static void every_file_compiles_without_errors(void **state)
{
    (void)state;
    glob_t found;
    assert_int_equal(glob(FOLDER "*.bath", 0, NULL, &found), 0);
    assert_true(found.gl_pathc >= 47);
    int faulty = 0;
    for (size_t i = 0; i < found.gl_pathc; i++) {
        const struct compiled *compiled = compiled_file(strrchr(found.gl_pathv[i], '/') + 1);
        if (compiled->status != POTASH_GOOD) {
            struct potash_output output = {"", 0};
            potash_diagnostics(compiled->potash, POTASH_TEXT, false, &output);
            print_error("%s\n%.*s\n", found.gl_pathv[i], (int)output.length, output.bytes);
            faulty++;
        }
        assert_int_equal(potash_formulas(compiled->potash), 1);
        static const char *const never[] = {"syntax", "material-unknown", "unit-unknown", "form-unknown",
                                            "text-encoding"};
        for (size_t n = 0; n < sizeof never / sizeof *never; n++) {
            assert_int_equal(compiled_count(compiled, never[n]), 0);
        }
        assert_non_null(json_string_value(json_object_get(compiled_formula((struct compiled *)compiled, 0), "source")));
    }
    globfree(&found);
    assert_int_equal(faulty, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_file_compiles_without_errors),
        cmocka_unit_test(amounts_are_those_of_the_books),
        cmocka_unit_test(final_volumes_are_those_of_the_books),
        cmocka_unit_test(the_columns_of_one_book_agree),
    };
    return cmocka_run_group_tests(tests, NULL, release_files);
}
