/* What the texts of options come to: formats, counts, measures. */
#include "command/command.h"

#include "base/buffer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* ---- formats ---- */

static const struct {
    const char *ending;
    enum potash_format format;
} endings[] = {{".txt", POTASH_TEXT}, {".json", POTASH_JSON}, {".csv", POTASH_CSV}, {".ics", POTASH_ICAL}, {".html", POTASH_HTML},
               {".pdf", POTASH_PDF}, {".sarif", POTASH_SARIF}};

/* What a call can give: a verb's formats, less those that an option of it leaves no sense. */
static unsigned formats_of(const struct command_line *line)
{
    bool listing = line->without.count > 0;
    bool record = line->record || line->record_in != NULL;
    return record ? FORMAT_BIT(TEXT) : listing ? FORMAT_BIT(TEXT) | FORMAT_BIT(JSON) : line->verb->formats;
}

static const char *format_list(struct arena *arena, unsigned formats)
{
    struct buffer out;
    buffer_start(&out, arena);
    for (unsigned i = 0; i < FORMATS; i++) {
        if ((formats >> i & 1) != 0) {
            buffer_format(&out, "%s%s", out.length == 0 ? "" : formats >> i == 1 ? " or " : ", ", format_names[i]);
        }
    }
    return buffer_finish(&out);
}

static const char *what_comes(const struct command_line *line)
{
    return line->record || line->record_in != NULL ? "a batch for a diary"
           : line->without.count > 0               ? "what --without lists"
                                                   : line->verb->name;
}

static bool read_format(struct command_line *line)
{
    unsigned formats = formats_of(line);
    for (unsigned i = 0; line->as != NULL && i < FORMATS; i++) {
        if (strcmp(line->as, format_names[i]) == 0 && (formats >> i & 1) != 0) {
            line->format = (enum potash_format)i;
            return true;
        }
    }
    if (line->as != NULL) {
        return command_refuse(line->arena, "%s comes as %s, not as \"%.80s\"", what_comes(line), format_list(line->arena, formats), line->as);
    }
    const char *ending = line->output == NULL ? NULL : strrchr(line->output, '.');
    for (size_t i = 0; ending != NULL && i < sizeof endings / sizeof *endings; i++) {
        if (strcasecmp(ending, endings[i].ending) != 0) {
            continue;
        }
        line->format = endings[i].format;
        return (formats >> line->format & 1) != 0 ||
               command_refuse(line->arena, "%s comes as %s, not as %s; with --as text any name is right", what_comes(line),
                              format_list(line->arena, formats), endings[i].ending);
    }
    return true;
}

/* ---- numbers ---- */

/* A weight or volume that an instrument shows, in `unit`; 0 with a message when it is none. */
static bool read_resolution(struct command_line *line, const char *option, const char *amount, const char *unit, double *value)
{
    if (amount == NULL) {
        return true;
    }
    char *end;
    *value = strtod(amount, &end);
    while (*end == ' ') {
        end++;
    }
    bool good = *value > 0 && *value < 1e6 && (*end == '\0' || strcmp(end, unit) == 0);
    return good || command_refuse(line->arena, "%s takes an amount such as 0.1 %s, not \"%.80s\"", option, unit, amount);
}

/* "2%", "2 %", "0.5": per cent, as a share. */
static bool read_within(struct command_line *line)
{
    line->may_differ = -1;
    if (line->within == NULL) {
        return true;
    }
    const char *end = line->within + strspn(line->within, "0123456789.");
    char *read_to;
    double percent = strtod(line->within, &read_to);
    bool figure = end != line->within && read_to == end;
    end += strspn(end, " ");
    end += *end == '%';
    line->may_differ = percent / 100;
    return (figure && *end == '\0' && percent >= 0 && percent < 100) ||
           command_refuse(line->arena, "--within takes a percentage such as 2%%, not \"%.80s\"", line->within);
}

/* "99.1x67.7", "99.1 x 67.7 mm" */
static bool read_pair(struct command_line *line, const char *option, const char *value, double least, double most, double *first,
                      double *second)
{
    char *end = NULL;
    *first = strtod(value, &end);
    bool good = end != value;
    end += strspn(end, " ");
    good = good && (*end == 'x' || *end == 'X');
    const char *rest = good ? end + 1 : end;
    *second = good ? strtod(rest, &end) : 0;
    good = good && end != rest;
    end += strspn(end, " ");
    end += strncmp(end, "mm", 2) == 0 ? 2 : 0;
    good = good && *end == '\0' && *first >= least && *second >= least && *first <= most && *second <= most;
    return good || command_refuse(line->arena, "%s takes two numbers from %g to %g such as 99.1x67.7, not \"%.80s\"", option, least, most, value);
}

static bool read_count(struct command_line *line, const char *option, const char *value, size_t length, unsigned most, unsigned *count)
{
    unsigned number = 0;
    bool good = length > 0;
    for (size_t i = 0; i < length && good; i++) {
        good = text_is_digit(value[i]) && number <= most;
        number = good ? number * 10 + (unsigned)(value[i] - '0') : number;
    }
    *count = number;
    return (good && number >= 1 && number <= most) ||
           command_refuse(line->arena, "%s takes a whole number from 1 to %u, not \"%.80s\"", option, most, value);
}

static bool read_labels(struct command_line *line)
{
    struct potash_label_sheet *sheet = &line->options.label_sheet;
    double columns = 0;
    double rows = 0;
    bool good = line->label_size == NULL || read_pair(line, "--size", line->label_size, 10, 400, &sheet->width, &sheet->height);
    good = good && (line->label_grid == NULL || read_pair(line, "--grid", line->label_grid, 1, 50, &columns, &rows));
    good = good && (line->label_margins == NULL || read_pair(line, "--margins", line->label_margins, 0, 200, &sheet->left, &sheet->top));
    good = good && (line->label_pitch == NULL || read_pair(line, "--pitch", line->label_pitch, 10, 400, &sheet->across, &sheet->down));
    sheet->columns = (unsigned)columns;
    sheet->rows = (unsigned)rows;
    sheet->margins_given = line->label_margins != NULL;
    const char *start = line->label_start;
    const char *copies = line->label_copies;
    good = good && (start == NULL || read_count(line, "--start", start, strlen(start), 2500, &sheet->start));
    return good && (copies == NULL || read_count(line, "--copies", copies, strlen(copies), 999, &sheet->copies));
}

/* "10" rolls; "12 8x10", "12 18x24 cm", "12" sheets, which are 8x10 in. */
static bool read_goods(struct command_line *line)
{
    enum { MOST = 100000 };
    unsigned count;
    if (line->rolls != NULL) {
        line->options.goods = arena_format(line->arena, "%s rolls", line->rolls);
        return read_count(line, "--rolls", line->rolls, strlen(line->rolls), MOST, &count);
    }
    if (line->sheets != NULL) {
        size_t figures = strcspn(line->sheets, " ");
        const char *size = line->sheets[figures] == '\0' ? " 8x10 in" : line->sheets + figures;
        line->options.goods = arena_format(line->arena, "%.*s sheets%s", (int)figures, line->sheets, size);
        return read_count(line, "--sheets", line->sheets, figures, MOST, &count);
    }
    return true;
}

bool command_read_values(struct command_line *line)
{
    line->options.paper = line->paper != NULL && strcmp(line->paper, "Letter") == 0 ? POTASH_LETTER : POTASH_A4;
    return read_format(line) && read_resolution(line, "--balance", line->balance, "g", &line->options.balance) &&
           read_resolution(line, "--graduate", line->graduate, "mL", &line->options.graduate) && read_within(line) && read_labels(line) &&
           read_goods(line);
}
