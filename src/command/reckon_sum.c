/* potash reckon "…": one bench sum. */
#include "command/command.h"

#include <stdio.h>

int command_reckon(const struct command_line *line)
{
    if (line->paths.count == 0) {
        command_refuse(line->arena, "give a sum, as in: potash reckon \"1+29 for 300 mL\"");
        return POTASH_UNUSABLE;
    }
    const char *sum = command_join_words(line);
    struct potash *potash = potash_open(&line->options);
    if (potash == NULL) {
        fputs("potash: out of memory\n", stderr);
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
    return status;
}
