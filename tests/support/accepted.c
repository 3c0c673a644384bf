/* Files of the repository that are made by a test. */
#define _GNU_SOURCE

#include "accepted.h"

#include "program.h"

#include <stdio.h>
#include <string.h>

static void write_file(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

static size_t line_of_difference(const char *a, const char *b)
{
    size_t line = 1;
    for (; *a != '\0' && *a == *b; a++, b++) {
        line += *a == '\n';
    }
    return line;
}

void assert_accepted(const char *path, const char *bytes, size_t length)
{
    const char *accept = getenv("POTASH_ACCEPT");
    if (accept != NULL && accept[0] != '\0') {
        write_file(path, bytes, length);
        return;
    }
    size_t there_length = 0;
    char *there = file_bytes(path, &there_length);
    bool same = there != NULL && there_length == length && memcmp(there, bytes, length) == 0;
    if (!same) {
        print_error("%s differs from line %zu on; after a look at why, POTASH_ACCEPT=1 writes it anew\n", path,
                    there == NULL ? (size_t)1 : line_of_difference(there, bytes));
    }
    free(there);
    assert_true(same);
}

char *file_with_part(const char *path, const char *opening, const char *closing, const char *text)
{
    size_t length = 0;
    char *page = file_bytes(path, &length);
    assert_non_null(page);
    char *begin = strstr(page, opening);
    begin = begin == NULL ? NULL : strchr(begin, '\n');
    char *end = begin == NULL ? NULL : strstr(begin, closing);
    if (end == NULL) {
        fail_msg("%s has no lines with \"%s\" and \"%s\"", path, opening, closing);
        return NULL;
    }
    char *renewed = NULL;
    assert_true(asprintf(&renewed, "%.*s\n%s%s", (int)(begin - page), page, text, end) > 0);
    free(page);
    return renewed;
}
