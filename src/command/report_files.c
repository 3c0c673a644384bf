/* Verbs that make one report of the files they are given. */
#include "command/command.h"

#include <stdio.h>
#include <string.h>

typedef enum potash_status report_function(struct potash *potash, enum potash_format format,
                                           struct potash_output *output);

static int run_report(const struct command_line *line, report_function *report)
{
    int status;
    struct potash *potash = command_open(line, &status);
    if (potash == NULL) {
        return status;
    }
    struct potash_output output = {0};
    enum potash_status done = report(potash, line->format, &output);
    command_clear_progress(line->progress);
    status = done == POTASH_GOOD ? command_write(line, &output) : command_failed(potash, done);
    if (done == POTASH_FAULTY && output.length > 0 && line->output == NULL) {
        /* what is sound is shown, and never put in place of a file */
        int wrote = command_write(line, &output);
        status = wrote == POTASH_GOOD ? status : wrote;
    }
    potash_close(potash);
    return status;
}

/* What a folder or file is called: the last of its path, without the ending. */
static void take_name(const char *path, char *name, size_t size)
{
    size_t end = strlen(path);
    while (end > 1 && path[end - 1] == '/') {
        end--;
    }
    size_t start = end;
    while (start > 0 && path[start - 1] != '/') {
        start--;
    }
    size_t length = end - start;
    if (length > 5 && memcmp(path + end - 5, ".bath", 5) == 0) {
        length -= 5;
    }
    bool is_name = !(length == 1 && (path[start] == '.' || path[start] == '-')) && !(length == 2 && memcmp(path + start, "..", 2) == 0);
    snprintf(name, size, "%.*s", is_name ? (int)length : 0, path + start);
}

int command_show(const struct command_line *line)
{
    return run_report(line, potash_show);
}

int command_book(const struct command_line *line)
{
    struct command_line book = *line;
    char title[256];
    if (book.options.book_title == NULL && line->paths.count > 0) {
        take_name(line->paths.at[0], title, sizeof title);
        book.options.book_title = title;
    }
    return run_report(&book, potash_book);
}

int command_label(const struct command_line *line)
{
    return run_report(line, potash_label);
}

int command_sheet(const struct command_line *line)
{
    return line->record || line->record_in != NULL ? command_record(line) : run_report(line, potash_sheet);
}

int command_process(const struct command_line *line)
{
    return run_report(line, potash_process);
}

int command_safety(const struct command_line *line)
{
    return run_report(line, potash_safety);
}

int command_cost(const struct command_line *line)
{
    return run_report(line, potash_cost);
}

int command_shelf(const struct command_line *line)
{
    struct command_line shelf = *line;
    shelf.options.lists_missing = true;
    return run_report(&shelf, potash_shelf);
}
