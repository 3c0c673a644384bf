/* What the command itself prints: messages, and lines about files.  Names of files and what was typed go through the filter. */
#define _GNU_SOURCE

#include "command/command.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void print_line(FILE *out, const char *format, va_list arguments)
{
    char *line = NULL;
    char *shown = NULL;
    if (vasprintf(&line, format, arguments) >= 0) {
        shown = potash_shown(line, strlen(line));
        free(line);
    }
    fprintf(out, "%s\n", shown == NULL ? "potash: out of memory" : shown);
    free(shown);
}

void command_say(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    print_line(stderr, format, arguments);
    va_end(arguments);
}

void command_print(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    print_line(stdout, format, arguments);
    va_end(arguments);
}
