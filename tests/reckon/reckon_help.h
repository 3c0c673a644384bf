/* Reckoning sums in memory, and asking what came of them. */
#ifndef POTASH_TESTS_RECKON_HELP_H
#define POTASH_TESTS_RECKON_HELP_H

#include "support/compiling.h"

#include <math.h>
#include <string.h>

/* The JSON of a sum, which has to be reckoned; to be released. */
static inline json_t *reckoned(const char *sum)
{
    struct potash *potash = potash_open(NULL);
    struct potash_output output = {0};
    if (potash_reckon(potash, sum, POTASH_JSON, &output) != POTASH_GOOD) {
        potash_diagnostics(potash, POTASH_TEXT, false, &output);
        fail_msg("%s: %.*s%s", sum, (int)output.length, output.bytes == NULL ? "" : output.bytes,
                 potash_message(potash));
    }
    json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
    assert_non_null(json);
    potash_close(potash);
    return json;
}

/* Figure number `index` (from 0) of its answer. */
static inline double figure(const char *sum, size_t index)
{
    json_t *json = reckoned(sum);
    const json_t *item = json_array_get(json_object_get(json, "answers"), index);
    if (item == NULL) {
        fail_msg("%s: there is no figure %zu", sum, index);
    }
    double value = json_number_of(item, "value");
    json_decref(json);
    return value;
}

/* Its first figure lies within `relative` of an outside one. */
static inline void expect_figure(const char *sum, double wanted, double relative)
{
    double got = figure(sum, 0);
    if (!(fabs(got - wanted) <= relative * fabs(wanted))) {
        fail_msg("%s: %.12g instead of %.12g", sum, got, wanted);
    }
}

/* The answer in words, followed by the working, is that. */
static inline void expect_line(const char *sum, const char *wanted)
{
    struct potash *potash = potash_open(NULL);
    struct potash_output output = {0};
    assert_int_equal(potash_reckon(potash, sum, POTASH_TEXT, &output), POTASH_GOOD);
    const char *end = strchr(output.bytes, '\n');
    assert_non_null(end);
    size_t length = (size_t)(end - output.bytes);
    if (length != strlen(wanted) || memcmp(output.bytes, wanted, length) != 0) {
        fail_msg("%s gives \"%.*s\" instead of \"%s\"", sum, (int)length, output.bytes, wanted);
    }
    potash_close(potash);
}

/* Something is said beside the answer that holds these words. */
static inline void expect_note(const char *sum, const char *words)
{
    json_t *json = reckoned(sum);
    bool found = false;
    size_t index;
    json_t *note;
    json_array_foreach(json_object_get(json, "notes"), index, note)
    {
        found = found || strstr(json_string_value(note), words) != NULL;
    }
    if (!found) {
        fail_msg("%s: nothing says \"%s\"", sum, words);
    }
    json_decref(json);
}

/* The sum is refused with that diagnostic alone, which stands at that column (of characters) and holds those words. */
static inline void expect_refused(const char *sum, const char *id, int column, const char *words)
{
    struct potash *potash = potash_open(NULL);
    struct potash_output output = {0};
    if (potash_reckon(potash, sum, POTASH_TEXT, &output) != POTASH_UNUSABLE) {
        fail_msg("%s: it was reckoned", sum);
    }
    assert_true(strlen(potash_message(potash)) > 0);
    assert_int_equal(potash_diagnostics(potash, POTASH_JSON, false, &output), POTASH_GOOD);
    json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
    const json_t *list = json_object_get(json, "diagnostics");
    if (json_array_size(list) != 1) {
        fail_msg("%s: %zu diagnostics", sum, json_array_size(list));
    }
    const json_t *item = json_array_get(list, 0);
    if (strcmp(json_text_of(item, "id"), id) != 0 || (int)json_number_of(item, "column") != column) {
        fail_msg("%s: %s at column %d: %s", sum, json_text_of(item, "id"), (int)json_number_of(item, "column"),
                 json_text_of(item, "message"));
    }
    const char *help = json_string_value(json_object_get(item, "help"));
    if (strstr(json_text_of(item, "message"), words) == NULL && (help == NULL || strstr(help, words) == NULL)) {
        fail_msg("%s: \"%s\" does not hold \"%s\"", sum, json_text_of(item, "message"), words);
    }
    json_decref(json);
    potash_close(potash);
}

#endif
