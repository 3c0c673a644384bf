/* Options of label stock: sizes and places in mm. */
#include "command/command.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* "99.1x67.7", "99.1 x 67.7 mm"; false when it is no such pair. */
static bool read_pair(const char *value, double *first, double *second)
{
    char *end;
    *first = strtod(value, &end);
    if (end == value) {
        return false;
    }
    end += strspn(end, " ");
    if (*end != 'x' && *end != 'X') {
        return false;
    }
    const char *rest = end + 1;
    *second = strtod(rest, &end);
    if (end == rest) {
        return false;
    }
    end += strspn(end, " ");
    end += strncmp(end, "mm", 2) == 0 ? 2 : 0;
    return *end == '\0';
}

static bool take_pair(const char *option, const char *value, double least, double most, double *first, double *second)
{
    bool good = read_pair(value, first, second) && *first >= least && *second >= least && *first <= most && *second <= most;
    if (!good) {
        command_say("potash: %s takes two figures such as 99.1x67.7, not \"%s\"", option, value);
    }
    return good;
}

static bool take_count(const char *option, const char *value, unsigned most, unsigned *count)
{
    char *end;
    long number = strtol(value, &end, 10);
    if (end == value || *end != '\0' || number < 1 || number > (long)most) {
        command_say("potash: %s takes a number from 1 to %u, not \"%s\"", option, most, value);
        return false;
    }
    *count = (unsigned)number;
    return true;
}

bool command_is_label_option(const char *option)
{
    static const char *const options[] = {"--label", "--grid", "--margins", "--pitch", "--start", "--copies", "--of", "--batch"};
    for (size_t i = 0; i < sizeof options / sizeof *options; i++) {
        if (strcmp(option, options[i]) == 0) {
            return true;
        }
    }
    return false;
}

bool command_take_label_option(struct command_line *line, const char *option, const char *value)
{
    struct potash_label_sheet *sheet = &line->options.label_sheet;
    if (strcmp(option, "--label") == 0) {
        return take_pair(option, value, 10, 400, &sheet->width, &sheet->height);
    }
    if (strcmp(option, "--grid") == 0) {
        double columns;
        double rows;
        if (!take_pair(option, value, 1, 50, &columns, &rows)) {
            return false;
        }
        sheet->columns = (unsigned)columns;
        sheet->rows = (unsigned)rows;
        return true;
    }
    if (strcmp(option, "--margins") == 0) {
        return sheet->margins_given = take_pair(option, value, 0, 200, &sheet->left, &sheet->top);
    }
    if (strcmp(option, "--pitch") == 0) {
        return take_pair(option, value, 10, 400, &sheet->across, &sheet->down);
    }
    if (strcmp(option, "--start") == 0) {
        return take_count(option, value, 2500, &sheet->start);
    }
    if (strcmp(option, "--copies") == 0) {
        return take_count(option, value, 999, &sheet->copies);
    }
    if (strcmp(option, "--of") == 0) {
        line->options.label_of = value;
    } else {
        line->options.batch = value;
    }
    return true;
}
