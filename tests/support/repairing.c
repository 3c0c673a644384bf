#include "repairing.h"

#include "compiling.h"

#include <stdio.h>
#include <string.h>

/* Where a line and a column are in the text; columns count characters. */
static char *place(char *text, int line, int column)
{
    char *at = text;
    for (int i = 1; i < line; i++) {
        at = strchr(at, '\n') + 1;
    }
    for (int i = 1; i < column; i++) {
        at++;
        while (((unsigned char)*at & 0xC0) == 0x80) {
            at++;
        }
    }
    return at;
}

static void apply(char *text, size_t size, const json_t *edit)
{
    int line = (int)json_number_of(edit, "line");
    char *begin = place(text, line, (int)json_number_of(edit, "column"));
    const char *end = place(text, line, (int)json_number_of(edit, "end_column"));
    const char *put = json_text_of(edit, "text");
    size_t rest = strlen(end) + 1;
    assert_true((size_t)(begin - text) + strlen(put) + rest <= size);
    memmove(begin + strlen(put), end, rest);
    memcpy(begin, put, strlen(put));
}

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
    const json_t *edits = json_object_get(fix, "edits");
    if (edits == NULL) {
        apply(text, size, fix);
    }
    for (size_t i = json_array_size(edits); i > 0; i--) { /* from the last on, so that the places of the others hold */
        apply(text, size, json_array_get(edits, i - 1));
    }
    compiled_free(&compiled);
}
