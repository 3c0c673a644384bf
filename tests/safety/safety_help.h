/* The safety notes of a text in memory. */
#ifndef POTASH_TESTS_SAFETY_HELP_H
#define POTASH_TESTS_SAFETY_HELP_H

#include "support/compiling.h"

#include <stdio.h>
#include <string.h>

/* `safety --as json` of a formula of these lines that is made up to 1 L, or of a whole text that starts with a heading. */
static inline json_t *safety_of(const char *lines)
{
    static const char *const headings[] = {"formula ", "material ", "stock "};
    bool whole = false;
    for (size_t i = 0; i < 3; i++) {
        whole = whole || strncmp(lines, headings[i], strlen(headings[i])) == 0;
    }
    char text[4000];
    snprintf(text, sizeof text, whole ? "%s" : "formula \"Test bath\"\n    kind other\n%s\n    water to make 1 L\n", lines);
    struct compiled compiled = compile(text);
    struct potash_output output;
    if (compiled.potash == NULL || potash_safety(compiled.potash, POTASH_JSON, &output) != POTASH_GOOD) {
        struct potash_output said = {0};
        potash_diagnostics(compiled.potash, POTASH_TEXT, false, &said);
        fail_msg("no safety notes: %s\n%.*s", potash_message(compiled.potash), (int)said.length, said.bytes);
    }
    json_t *json = json_loadb(output.bytes, output.length, 0, NULL);
    compiled_free(&compiled);
    assert_non_null(json);
    return json;
}

static inline const json_t *formula_at(const json_t *json, size_t index)
{
    const json_t *formula = json_array_get(json_object_get(json, "formulas"), index);
    assert_non_null(formula);
    return formula;
}

static inline const json_t *stock_of(const json_t *json)
{
    return json_object_get(formula_at(json, 0), "stock");
}

static inline const json_t *use_of(const json_t *json, size_t index)
{
    const json_t *use = json_array_get(json_object_get(formula_at(json, 0), "uses"), index);
    assert_non_null(use);
    return use;
}

static inline double percent_of(const json_t *solution, const char *material)
{
    size_t index;
    json_t *item;
    json_array_foreach(json_object_get(solution, "contents"), index, item)
    {
        if (strcmp(json_text_of(item, "material"), material) == 0) {
            return json_number_of(item, "percent");
        }
    }
    return 0;
}

/* "A; B" of a list of strings, or of a member of each of its objects. */
static inline void join(const json_t *list, const char *member, char *out, size_t size)
{
    out[0] = '\0';
    size_t index;
    json_t *item;
    json_array_foreach(list, index, item)
    {
        size_t length = strlen(out);
        snprintf(out + length, size - length, "%s%s", length == 0 ? "" : "; ",
                 member == NULL ? json_string_value(item) : json_text_of(item, member));
    }
}

static inline void assert_list(const json_t *solution, const char *key, const char *member, const char *wanted)
{
    char got[1000];
    join(json_object_get(solution, key), member, got, sizeof got);
    assert_string_equal(got, wanted);
}

static inline void assert_classes(const json_t *solution, const char *wanted)
{
    assert_list(solution, "classes", "hazard", wanted);
}

static inline void assert_statements(const json_t *solution, const char *wanted)
{
    assert_list(solution, "statements", NULL, wanted);
}

#endif
