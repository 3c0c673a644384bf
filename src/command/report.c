/* Verbs that make one report of the files they are given. */
#include "command/command.h"

typedef enum potash_status report_function(struct potash *potash, enum potash_format format,
                                           struct potash_output *output);

static int run_report(const struct command_line *line, report_function *report)
{
    int status;
    struct potash *potash = command_open(line, &status);
    if (potash == NULL) {
        return status;
    }
    struct potash_output output;
    enum potash_status done = report(potash, line->format, &output);
    status = done == POTASH_GOOD ? command_write(line, &output) : command_failed(potash, done);
    potash_close(potash);
    return status;
}

int command_show(const struct command_line *line)
{
    return run_report(line, potash_show);
}

int command_label(const struct command_line *line)
{
    return run_report(line, potash_label);
}

int command_sheet(const struct command_line *line)
{
    return run_report(line, potash_sheet);
}

int command_process(const struct command_line *line)
{
    return run_report(line, potash_process);
}

int command_safety(const struct command_line *line)
{
    return run_report(line, potash_safety);
}
