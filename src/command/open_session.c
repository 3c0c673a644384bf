/* What the verbs share: opening a session, writing a report. */
#include "command/command.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

bool command_colour(void)
{
    const char *no_colour = getenv("NO_COLOR");
    const char *terminal = getenv("TERM");
    bool plain = terminal != NULL && strcmp(terminal, "dumb") == 0;
    return isatty(STDERR_FILENO) && !plain && (no_colour == NULL || no_colour[0] == '\0');
}

int command_failed(const struct potash *potash, enum potash_status status)
{
    if (status == POTASH_UNUSABLE) {
        fprintf(stderr, "potash: %s\n", potash_message(potash));
    }
    return (int)status;
}

/* Today's date, or that of SOURCE_DATE_EPOCH (reproducible-builds.org), which makes the same output of the same input. */
const char *command_date(const struct command_line *line, char date[static 16])
{
    if (line->options.date != NULL) {
        return strcmp(line->options.date, "none") == 0 ? NULL : line->options.date;
    }
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    time_t now = epoch != NULL && epoch[0] != '\0' ? (time_t)strtoll(epoch, NULL, 10) : time(NULL);
    struct tm parts;
    bool known = epoch != NULL && epoch[0] != '\0' ? gmtime_r(&now, &parts) != NULL : localtime_r(&now, &parts) != NULL;
    return known && strftime(date, 16, "%Y-%m-%d", &parts) > 0 ? date : NULL;
}

static bool print_to_errors(void *context, const char *bytes, size_t length)
{
    (void)context;
    return fwrite(bytes, 1, length, stderr) == length;
}

enum { SHOWN_OF_A_KIND = 20 /* diagnostics of one id on a terminal, where more than a screen or two is read by nobody */ };

static enum potash_status print_diagnostics(const struct command_line *line, struct potash *potash)
{
    const struct potash_sink sink = {print_to_errors, NULL};
    size_t most = line->all || !isatty(STDERR_FILENO) ? 0 : SHOWN_OF_A_KIND;
    return potash_write_diagnostics(potash, POTASH_TEXT, command_colour(), most, &sink);
}

struct potash *command_open(const struct command_line *line, int *status)
{
    *status = POTASH_UNUSABLE;
    if (line->paths.count == 0) {
        command_refuse(line->arena, "name a file, a folder or - (standard input), as in: %s", line->verb->examples[0].call);
        return NULL;
    }
    struct potash_options options = line->options;
    char date[16];
    options.date = command_date(line, date);
    if (line->progress != NULL && isatty(STDERR_FILENO)) {
        options.progress = command_tell_progress;
        options.progress_context = line->progress;
    }
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        fputs("potash: out of memory\n", stderr);
        return NULL;
    }
    bool all_read = true; /* a path that cannot be read is among the diagnostics, beside those of the others */
    for (size_t i = 0; i < line->paths.count; i++) {
        all_read = potash_read(potash, line->paths.at[i]) == POTASH_GOOD && all_read;
    }
    if (line->shelf != NULL) {
        all_read = potash_read_shelf(potash, line->shelf) == POTASH_GOOD && all_read;
    }
    enum potash_status done = potash_check(potash);
    /* `check --as json` gives the diagnostics on standard output instead. */
    bool for_programs = line->verb->id == VERB_CHECK && line->format != POTASH_TEXT;
    if (done != POTASH_UNUSABLE && !for_programs && print_diagnostics(line, potash) == POTASH_UNUSABLE) {
        done = POTASH_UNUSABLE;
    }
    *status = (int)done;
    if (done == POTASH_UNUSABLE) {
        command_failed(potash, done);
        potash_close(potash);
        return NULL;
    }
    if (!all_read) {
        *status = POTASH_UNUSABLE;
        if (line->verb->id != VERB_CHECK) { /* no report is made of a part of what was asked for */
            potash_close(potash);
            return NULL;
        }
    }
    return potash;
}

static int write_output(void *context, const struct potash_sink *sink)
{
    const struct potash_output *output = context;
    return sink->take(sink->context, output->bytes, output->length) ? POTASH_GOOD : POTASH_FAULTY;
}

struct command_writer command_writer_of(struct potash_output *output)
{
    return (struct command_writer){write_output, output};
}

static bool print_to_output(void *context, const char *bytes, size_t length)
{
    (void)context;
    return fwrite(bytes, 1, length, stdout) == length;
}

int command_write_by(const struct command_line *line, const struct command_writer *writer)
{
    if (line->output != NULL && strcmp(line->output, "-") != 0) {
        return command_replace_file(line->output, writer);
    }
    int status = writer->write(writer->context, &(struct potash_sink){print_to_output, NULL});
    if (status == POTASH_FAULTY) {
        command_say("potash: standard output: %s", strerror(errno));
        status = POTASH_UNUSABLE;
    }
    return status;
}

int command_write(const struct command_line *line, const struct potash_output *output)
{
    struct potash_output written = *output;
    const struct command_writer writer = command_writer_of(&written);
    return command_write_by(line, &writer);
}
