#include "repairing.h"

#include "compiling.h"

#include <stdio.h>
#include <string.h>

void repair(char *text, size_t size, const char *id, int line)
{
    struct compiled compiled = compile(text);
    const json_t *found = compiled_find(&compiled, id, line);
    if (found == NULL) {
        fail_msg("no %s in line %d of:\n%s", id, line, text);
    }
    const json_t *fix = json_array_get(json_object_get(found, "fixes"), 0);
    assert_non_null(fix);
    assert_int_equal((int)json_number_of(fix, "line"), line);
    const char *at = text;
    for (int i = 1; i < line; i++) {
        at = strchr(at, '\n') + 1;
    }
    size_t columns[2] = {(size_t)json_number_of(fix, "column"), (size_t)json_number_of(fix, "end_column")};
    const char *ends[2];
    for (int i = 0; i < 2; i++) { /* columns count characters */
        ends[i] = at;
        for (size_t column = 1; column < columns[i]; column++) {
            ends[i]++;
            while (((unsigned char)*ends[i] & 0xC0) == 0x80) {
                ends[i]++;
            }
        }
    }
    char *mended = malloc(size);
    assert_non_null(mended);
    int length = snprintf(mended, size, "%.*s%s%s", (int)(ends[0] - text), text, json_text_of(fix, "text"), ends[1]);
    assert_true(length > 0 && (size_t)length < size);
    memcpy(text, mended, (size_t)length + 1);
    free(mended);
    compiled_free(&compiled);
}
