/* Reports of a text in memory. */
#include "reports.h"

#include <string.h>

char *report_text_of(report_of *report, const struct potash_options *options, const char *text, enum potash_format format)
{
    struct compiled compiled = compile_with(options, text, strlen(text));
    struct potash_output output = {0};
    enum potash_status status = report(compiled.potash, format, &output);
    if (status == POTASH_UNUSABLE || output.length == 0) {
        fail_msg("no report: %s\n%s", potash_message(compiled.potash), text);
    }
    char *copy = strndup(output.bytes, output.length);
    compiled_free(&compiled);
    return copy;
}

json_t *report_json_of(report_of *report, const struct potash_options *options, const char *text)
{
    char *bytes = report_text_of(report, options, text, POTASH_JSON);
    json_t *root = json_loads(bytes, 0, NULL);
    free(bytes);
    assert_non_null(root);
    return root;
}

const json_t *json_with(const json_t *array, const char *key, const char *value)
{
    size_t index;
    json_t *item;
    json_array_foreach(array, index, item) {
        const char *text = json_string_value(json_object_get(item, key));
        if (text != NULL && strcmp(text, value) == 0) {
            return item;
        }
    }
    fail_msg("there is no item with %s \"%s\"", key, value);
    return NULL;
}
