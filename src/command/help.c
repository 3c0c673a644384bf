/* Help: how a verb is called, as the tables say it. */
#include "command/command.h"

#include "base/utf8.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum { NARROWEST = 40, WIDEST = 100, USUAL = 80, OPTION_COLUMN = 22 };

size_t command_columns(void)
{
    const char *said = getenv("COLUMNS");
    size_t columns = 0;
    for (size_t i = 0; said != NULL && i < 4 && text_is_digit(said[i]); i++) {
        columns = columns * 10 + (size_t)(said[i] - '0');
    }
    struct winsize window;
    if (columns == 0 && ioctl(STDOUT_FILENO, TIOCGWINSZ, &window) == 0) {
        columns = window.ws_col;
    }
    columns = columns == 0 ? USUAL : columns;
    return columns < NARROWEST ? NARROWEST : columns > WIDEST ? WIDEST : columns;
}

/* A text in lines that fit, the first begun at column `at`, the others indented; `broken` stands where a line goes on.  What is in
 * quotes stays together. */
static void put_line(const char *text, size_t length, size_t at, size_t indent, size_t columns, const char *broken)
{
    size_t column = at;
    for (size_t next = 0; next < length;) {
        size_t end = next;
        for (bool quoted = false; end < length && (text[end] != ' ' || quoted); end++) {
            quoted = quoted != (text[end] == '"');
        }
        size_t width = utf8_width((struct text){text + next, end - next});
        if (next > 0 && column + 1 + width + (end < length ? strlen(broken) : 0) > columns) {
            printf("%s\n%*s", broken, (int)indent, "");
            column = indent;
        } else if (next > 0) {
            putchar(' ');
            column++;
        }
        printf("%.*s", (int)(end - next), text + next);
        column += width;
        next = end + (end < length);
    }
    putchar('\n');
}

/* Paragraphs, of which those that start with blanks stand as they are. */
static void put_wrapped(const char *text, size_t columns)
{
    for (const char *line = text; *line != '\0';) {
        size_t length = strcspn(line, "\n");
        if (*line == ' ') {
            printf("%.*s\n", (int)length, line);
        } else {
            put_line(line, length, 0, 0, columns, "");
        }
        line += length + (line[length] == '\n');
    }
}

const char *command_first_format(unsigned formats)
{
    unsigned i = 0;
    while (i + 1 < FORMATS && (formats >> i & 1) == 0) {
        i++;
    }
    return format_names[i];
}

static void put_option(const struct option *option, size_t columns)
{
    char name[64];
    snprintf(name, sizeof name, "%s%s%s%s%s", option->also != NULL && strlen(option->also) == 2 ? option->also : "",
             option->also != NULL && strlen(option->also) == 2 ? ", " : "", option->name, option->value != NULL ? " " : "",
             option->value != NULL ? option->value : "");
    size_t width = 2 + utf8_width(text_from(name));
    printf("  %s", name);
    if (width + 1 >= OPTION_COLUMN) {
        putchar('\n');
        width = 0;
    }
    printf("%*s", (int)(OPTION_COLUMN - width), "");
    char help[400];
    snprintf(help, sizeof help, "%s%s%s%s%s%s%s%s", option->help, option->bounds != NULL ? "; " : "", option->bounds != NULL ? option->bounds : "",
             option->formats != 0 ? "; only for " : "", option->formats != 0 ? command_first_format(option->formats) : "",
             option->repeats ? " (may repeat)" : "", option->old != NULL ? "; old: " : "", option->old != NULL ? option->old : "");
    put_line(help, strlen(help), OPTION_COLUMN, OPTION_COLUMN, columns, "");
}

/* What the verb has for itself stands first, what it shares with most others below. */
static bool is_shared(const struct option *option)
{
    unsigned takers = 0;
    for (unsigned i = 0; i < VERBS; i++) {
        takers += option->verbs >> i & 1;
    }
    return takers > 6;
}

static void put_options(unsigned takers, bool shared, const char *heading, size_t columns)
{
    for (size_t i = 0; i < option_count; i++) {
        if ((option_table[i].verbs & takers) != 0 && is_shared(&option_table[i]) == shared) {
            if (heading != NULL) {
                printf("\n%s\n", heading);
                heading = NULL;
            }
            put_option(&option_table[i], columns);
        }
    }
}

static void put_verb(const struct verb *verb, size_t columns)
{
    printf("potash %s %s%s[options]\n", verb->name, verb->arguments, verb->arguments[0] == '\0' ? "" : " ");
    put_wrapped(verb->manual, columns);
    if (strstr(verb->arguments, "PATH") != NULL) {
        put_wrapped("PATH is a .bath file, a folder (all .bath files below it), or - for standard input.", columns);
    }
    fputs(verb->formats == 0 ? "" : "It comes as", stdout);
    for (unsigned i = 0; i < FORMATS; i++) {
        if ((verb->formats >> i & 1) != 0) {
            printf("%s%s", (verb->formats & ((1u << i) - 1)) == 0 ? " " : verb->formats >> i == 1 ? " or " : ", ", format_names[i]);
        }
    }
    fputs(verb->formats == 0 ? "" : ".\n", stdout);
    put_options(1u << verb->id, false, "Options of this verb", columns);
    put_options(1u << verb->id, true, "Options that other verbs have too", columns);
    puts("\nExamples");
    for (size_t i = 0; i < 2; i++) {
        printf("  # %s\n  ", verb->examples[i].does);
        put_line(verb->examples[i].call, strlen(verb->examples[i].call), 2, 6, columns, " \\");
    }
}

static void put_all(size_t columns)
{
    puts("potash VERB PATH… [options]");
    put_wrapped("Compiles photographic formulas kept as text files (.bath) into sheets to mix from.", columns);
    for (size_t i = 0; i < VERBS; i++) {
        const struct verb *verb = &verbs[i];
        if (verb->heading != NULL) {
            printf("\n%s\n", verb->heading);
        }
        printf("  %-10s ", verb->name);
        put_line(verb->summary, strlen(verb->summary), 13, 13, columns, "");
    }
    puts("\nOptions of most verbs");
    static const char *const common[] = {"--title", "--make", "--as", "-o", "--strict", "--shelf", "--library", "--help", "--version"};
    for (size_t i = 0; i < sizeof common / sizeof *common; i++) {
        for (size_t o = 0; o < option_count; o++) {
            if (strcmp(option_table[o].name, common[i]) == 0) {
                put_option(&option_table[o], columns);
            }
        }
    }
    putchar('\n');
    put_wrapped("potash VERB --help tells the options of a verb, with examples.", columns);
    put_wrapped("Exit status: 0 good, 1 the formulas have errors (compare: they differ), 2 the call or the files could not be used.",
                columns);
}

void command_print_help(const struct verb *verb, size_t columns)
{
    if (verb != NULL) {
        put_verb(verb, columns);
    } else {
        put_all(columns);
    }
}
