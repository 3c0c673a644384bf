/* Compiling a text in memory, and asking what came of it. */
#define _GNU_SOURCE

#include "compiling.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct compiled compile_with(const struct potash_options *options, const char *text, size_t length)
{
    struct compiled compiled = {.text = text};
    compiled.potash = potash_open(options);
    assert_non_null(compiled.potash);
    compiled.status = potash_read_text(compiled.potash, "test.bath", text, length);
    if (compiled.status == POTASH_GOOD) {
        compiled.status = potash_check(compiled.potash);
    }
    struct potash_output output;
    if (compiled.status != POTASH_UNUSABLE &&
        potash_diagnostics(compiled.potash, POTASH_JSON, false, &output) == POTASH_GOOD) {
        json_error_t error;
        json_t *root = json_loadb(output.bytes, output.length, 0, &error);
        if (root == NULL) {
            fail_msg("the diagnostics are no JSON: %s", error.text);
        }
        compiled.diagnostics = json_incref(json_object_get(root, "diagnostics"));
        size_t errors = (size_t)json_integer_value(json_object_get(root, "errors"));
        size_t warnings = (size_t)json_integer_value(json_object_get(root, "warnings"));
        assert_int_equal(errors + warnings, json_array_size(compiled.diagnostics));
        assert_int_equal(errors, potash_errors(compiled.potash));
        assert_int_equal(warnings, potash_warnings(compiled.potash));
        json_decref(root);
    }
    return compiled;
}

struct compiled compile(const char *text)
{
    return compile_with(NULL, text, strlen(text));
}

void compiled_free(struct compiled *compiled)
{
    json_decref(compiled->diagnostics);
    json_decref(compiled->shown);
    potash_close(compiled->potash);
}

size_t compiled_count(const struct compiled *compiled, const char *id)
{
    size_t count = 0;
    size_t index;
    json_t *item;
    json_array_foreach(compiled->diagnostics, index, item)
    {
        count += id == NULL || strcmp(json_text_of(item, "id"), id) == 0;
    }
    return count;
}

const json_t *compiled_find(const struct compiled *compiled, const char *id, int line)
{
    size_t index;
    json_t *item;
    json_array_foreach(compiled->diagnostics, index, item)
    {
        bool here = line == 0 || json_integer_value(json_object_get(item, "line")) == line;
        if (here && strcmp(json_text_of(item, "id"), id) == 0) {
            return item;
        }
    }
    return NULL;
}

/* What was said, for the message of a failing test. */
static void print_said(const struct compiled *compiled)
{
    struct potash_output output;
    print_error("the text:\n%s\n", compiled->text);
    if (compiled->status == POTASH_UNUSABLE) {
        print_error("unusable: %s\n", potash_message(compiled->potash));
    } else if (potash_diagnostics(compiled->potash, POTASH_TEXT, false, &output) == POTASH_GOOD) {
        print_error("the diagnostics:\n%.*s\n", (int)output.length, output.bytes);
    }
}

const json_t *compiled_formula(struct compiled *compiled, size_t index)
{
    if (compiled->shown == NULL) {
        struct potash_output output;
        if (potash_show(compiled->potash, POTASH_JSON, &output) != POTASH_GOOD) {
            print_said(compiled);
            fail_msg("the formula cannot be shown");
        }
        compiled->shown = json_loadb(output.bytes, output.length, 0, NULL);
        assert_non_null(compiled->shown);
    }
    const json_t *formula = json_array_get(json_object_get(compiled->shown, "formulas"), index);
    assert_non_null(formula);
    return formula;
}

const json_t *compiled_addition(struct compiled *compiled, size_t part, size_t index)
{
    const json_t *parts = json_object_get(compiled_formula(compiled, 0), "parts");
    const json_t *addition = json_array_get(json_object_get(json_array_get(parts, part), "additions"), index);
    assert_non_null(addition);
    return addition;
}

const json_t *compiled_use(struct compiled *compiled, size_t index)
{
    const json_t *use = json_array_get(json_object_get(compiled_formula(compiled, 0), "uses"), index);
    assert_non_null(use);
    return use;
}

double json_number_of(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (!json_is_number(value)) {
        fail_msg("\"%s\" is no number", key);
    }
    return json_number_value(value);
}

const char *json_text_of(const json_t *object, const char *key)
{
    const char *value = json_string_value(json_object_get(object, key));
    if (value == NULL) {
        fail_msg("\"%s\" is no text", key);
    }
    return value;
}

void assert_within(double got, double wanted, double relative)
{
    if (!(fabs(got - wanted) <= relative * fabs(wanted))) {
        fail_msg("%.12g instead of %.12g", got, wanted);
    }
}

void assert_near(double got, double wanted)
{
    assert_within(got, wanted, 1e-9);
}

void expect_list(const char *text, const char *wanted)
{
    struct compiled compiled = compile(text);
    char got[4096] = "";
    size_t length = 0;
    size_t index;
    json_t *item;
    json_array_foreach(compiled.diagnostics, index, item)
    {
        length += (size_t)snprintf(got + length, sizeof got - length, "%s%s:%d", index == 0 ? "" : " ",
                                   json_text_of(item, "id"), (int)json_number_of(item, "line"));
        assert_true(length < sizeof got);
    }
    if (compiled.status == POTASH_UNUSABLE || strcmp(got, wanted) != 0) {
        print_said(&compiled);
        fail_msg("diagnostics [%s] instead of [%s]", got, wanted);
    }
    compiled_free(&compiled);
}

void expect_clean(const char *text)
{
    expect_list(text, "");
}

void expect_one(const char *text, const char *id, int line, int column)
{
    char wanted[128];
    snprintf(wanted, sizeof wanted, "%s:%d", id, line);
    expect_list(text, wanted);
    if (column > 0) {
        struct compiled compiled = compile(text);
        int got = (int)json_number_of(json_array_get(compiled.diagnostics, 0), "column");
        if (got != column) {
            print_said(&compiled);
            fail_msg("column %d instead of %d", got, column);
        }
        compiled_free(&compiled);
    }
}

char *formula_with(const char *lines)
{
    char *text = NULL;
    int length = asprintf(&text,
                          "formula \"Saltmarsh test bath\"\n"
                          "    kind other\n"
                          "%s\n"
                          "    water to make 1 L\n",
                          lines);
    assert_true(length > 0);
    return text;
}

static double figure_of(const char *measures, const char *addition, const char *key)
{
    char *text = NULL;
    /* A large final volume, so that any liquid fits. */
    assert_true(asprintf(&text, "formula \"Saltmarsh test bath\"\nkind other\nmeasures %s\n%s\nwater to make 100 L\n",
                         measures, addition) > 0);
    struct compiled compiled = compile(text);
    if (compiled.status != POTASH_GOOD) {
        print_said(&compiled);
        fail_msg("%s: cannot be used", addition);
    }
    const json_t *value = json_object_get(compiled_addition(&compiled, 0, 0), key);
    double figure = json_is_number(value) ? json_number_value(value) : NAN;
    compiled_free(&compiled);
    free(text);
    return figure;
}

double mass_of(const char *measures, const char *addition)
{
    return figure_of(measures, addition, "mass_g");
}

double volume_of(const char *measures, const char *addition)
{
    return figure_of(measures, addition, "volume_mL");
}
