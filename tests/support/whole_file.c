/* Files and outputs of programs as one piece of memory, for tests. */
#include "whole_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

static char *read_stream(FILE *stream, size_t *length)
{
    enum { STEP = 65536 };
    char *bytes = NULL;
    *length = 0;
    for (;;) {
        char *larger = realloc(bytes, *length + STEP + 1);
        if (larger == NULL) {
            free(bytes);
            return NULL;
        }
        bytes = larger;
        size_t got = fread(bytes + *length, 1, STEP, stream);
        *length += got;
        if (got == 0) {
            bytes[*length] = '\0';
            return bytes;
        }
    }
}

char *whole_file_read(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return NULL;
    }
    char *bytes = read_stream(file, length);
    fclose(file);
    return bytes;
}

int whole_file_write(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    if (file == NULL) {
        return -1;
    }
    size_t written = fwrite(bytes, 1, length, file);
    return fclose(file) == 0 && written == length ? 0 : -1;
}

char *whole_output(const char *command, size_t *length, int *status)
{
    FILE *pipe = popen(command, "r");
    if (pipe == NULL) {
        return NULL;
    }
    char *bytes = read_stream(pipe, length);
    int ended = pclose(pipe);
    *status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
    return bytes;
}

const char *program_under_test(void)
{
    const char *program = getenv("POTASH");
    return program != NULL && program[0] != '\0' ? program : "build/potash";
}
