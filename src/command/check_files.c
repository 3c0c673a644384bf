/* potash check: the diagnostics, and a line that sums them up. */
#include "command/command.h"

#include <stdio.h>

static void sum_up(const struct potash *potash)
{
    size_t errors = potash_errors(potash);
    size_t warnings = potash_warnings(potash);
    size_t formulas = potash_formulas(potash);
    printf("%zu formula%s: ", formulas, formulas == 1 ? "" : "s");
    if (errors == 0 && warnings == 0) {
        puts("nothing to remark");
    } else {
        printf("%zu error%s, %zu warning%s\n", errors, errors == 1 ? "" : "s", warnings, warnings == 1 ? "" : "s");
    }
}

/* Which formulas hold what somebody must not touch; the exit status so far, or 1 when one does. */
static int list_without(const struct command_line *line, struct potash *potash, int status)
{
    struct potash_output output;
    bool held = false;
    enum potash_status done = potash_without(potash, line->format, &held, &output);
    int written = done == POTASH_GOOD ? command_write(line, &output) : command_failed(potash, done);
    return written != POTASH_GOOD ? written : held && status == POTASH_GOOD ? POTASH_FAULTY : status;
}

/* Faults in the files are no reason to forget which they are. */
static int write_depends(const struct command_line *line, struct potash *potash, int status)
{
    struct potash_output output;
    enum potash_status done = potash_depends(potash, line->depends, &output);
    int written = done == POTASH_GOOD ? command_write(line, &output) : command_failed(potash, done);
    return written != POTASH_GOOD ? written : status;
}

struct checked {
    struct potash *potash;
    enum potash_format format;
};

static int write_diagnostics(void *context, const struct potash_sink *sink)
{
    const struct checked *checked = context;
    return command_failed(checked->potash, potash_write_diagnostics(checked->potash, checked->format, false, 0, sink));
}

int command_check(const struct command_line *line)
{
    int status;
    struct command_line checked = *line;
    checked.options.diagnostics_only = line->without.count == 0;
    checked.options.diagnostics_as_text = line->format == POTASH_TEXT;
    if (!line->today && line->options.date == NULL) {
        checked.options.date = "none";
    }
    struct potash *potash = command_open(&checked, &status);
    if (potash == NULL) {
        return status;
    }
    if (line->without.count > 0) {
        status = list_without(line, potash, status);
        potash_close(potash);
        return status;
    }
    if (line->depends != NULL) {
        status = write_depends(line, potash, status);
        potash_close(potash);
        return status;
    }
    if (line->format == POTASH_TEXT) {
        sum_up(potash);
    }
    if (line->format != POTASH_TEXT || line->output != NULL) { /* as text they have gone to standard error already */
        int written = command_write_by(line, &(struct command_writer){write_diagnostics, &(struct checked){potash, line->format}});
        status = written != POTASH_GOOD ? written : status;
    }
    potash_close(potash);
    return status;
}
