/* potash reckon "…": one bench sum. */
#include "command/command.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The words of a sum need not be quoted on the command line. */
static char *join_sum(const struct command_line *line)
{
    size_t length = 1;
    for (size_t i = 0; i < line->path_count; i++) {
        length += strlen(line->paths[i]) + 1;
    }
    char *sum = malloc(length);
    size_t at = 0;
    for (size_t i = 0; sum != NULL && i < line->path_count; i++) {
        at += (size_t)snprintf(sum + at, length - at, "%s%s", i == 0 ? "" : " ", line->paths[i]);
    }
    return sum;
}

int command_reckon(const struct command_line *line)
{
    if (line->path_count == 0) {
        fputs("potash reckon: give a sum, such as: potash reckon \"1+29 for 300 mL\"\n", stderr);
        return POTASH_UNUSABLE;
    }
    char *sum = join_sum(line);
    struct potash *potash = sum == NULL ? NULL : potash_open(&line->options);
    if (potash == NULL) {
        fputs("potash: out of memory\n", stderr);
        free(sum);
        return POTASH_UNUSABLE;
    }
    struct potash_output output = {0};
    enum potash_status done = potash_reckon(potash, sum, line->format, &output);
    int status = (int)done;
    if (done == POTASH_GOOD) {
        status = command_write(line, &output);
    } else {
        struct potash_output reasons = {0};
        if (potash_diagnostics(potash, POTASH_TEXT, command_colour(), &reasons) == POTASH_GOOD) {
            fwrite(reasons.bytes, 1, reasons.length, stderr);
        }
        command_failed(potash, done);
    }
    potash_close(potash);
    free(sum);
    return status;
}
