/* What the texts of options come to, where that is not for the session to say: formats, paper, goods. */
#include "command/command.h"

#include "base/buffer.h"

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
    bool text = line->record || line->record_in != NULL || line->depends != NULL;
    return text ? FORMAT_BIT(TEXT) : listing ? FORMAT_BIT(TEXT) | FORMAT_BIT(JSON) : line->verb->formats;
}

const char *command_format_list(struct arena *arena, unsigned formats)
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
           : line->depends != NULL                 ? "what --depends writes"
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
        return command_refuse(line->arena, "%s comes as %s, not as \"%.80s\"", what_comes(line), command_format_list(line->arena, formats), line->as);
    }
    const char *ending = line->output == NULL ? NULL : strrchr(line->output, '.');
    for (size_t i = 0; ending != NULL && i < sizeof endings / sizeof *endings; i++) {
        if (strcasecmp(ending, endings[i].ending) != 0) {
            continue;
        }
        line->format = endings[i].format;
        return (formats >> line->format & 1) != 0 ||
               command_refuse(line->arena, "%s comes as %s, not as %s; with --as text any name is right", what_comes(line),
                              command_format_list(line->arena, formats), endings[i].ending);
    }
    line->format = line->verb->usual;
    return true;
}

bool command_read_values(struct command_line *line)
{
    struct arena *arena = line->arena;
    line->options.paper = line->paper != NULL && strcmp(line->paper, "Letter") == 0 ? POTASH_LETTER : POTASH_A4;
    if (line->rolls != NULL) {
        line->options.goods = arena_format(arena, "%s rolls", line->rolls);
    } else if (line->sheets != NULL) { /* "12", which are 8x10 in, or "12 5x7", or "12 18x24 cm" */
        size_t count = strcspn(line->sheets, " ");
        const char *size = line->sheets[count] == '\0' ? " 8x10 in" : line->sheets + count;
        line->options.goods = arena_format(arena, "%.*s sheets%s", (int)count, line->sheets, size);
    }
    return read_format(line);
}
