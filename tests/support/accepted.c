/* Files of the repository that are made by a test. */
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
