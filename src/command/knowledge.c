/* potash materials, potash why: what the program knows, without any file. */
#include "command/command.h"

#include "base/buffer.h"

#include <stdio.h>

typedef enum potash_status knowledge_function(struct potash *potash, const char *name, enum potash_format format,
                                              struct potash_output *output);

static int run(const struct command_line *line, const char *name, knowledge_function *report)
{
    struct potash *potash = potash_open(&line->options);
    if (potash == NULL) {
        fputs("potash: out of memory\n", stderr);
        return POTASH_UNUSABLE;
    }
    struct potash_output output;
    enum potash_status done = report(potash, name, line->format, &output);
    int status = done == POTASH_GOOD ? command_write(line, &output) : command_failed(potash, done);
    potash_close(potash);
    return status;
}

/* The words of a name or a sum need not be quoted on the command line. */
const char *command_join_words(const struct command_line *line)
{
    struct buffer words;
    buffer_start(&words, line->arena);
    for (size_t i = 0; i < line->paths.count; i++) {
        buffer_format(&words, "%s%s", i == 0 ? "" : " ", line->paths.at[i]);
    }
    return buffer_finish(&words);
}

int command_materials(const struct command_line *line)
{
    if (line->like != NULL) {
        if (line->paths.count > 0) {
            command_refuse(line->arena, "give either a name or --like, as in: potash materials --like metol");
            return POTASH_UNUSABLE;
        }
        return run(line, line->like, potash_materials_like);
    }
    return run(line, line->paths.count == 0 ? NULL : command_join_words(line), potash_materials);
}

int command_why(const struct command_line *line)
{
    return run(line, line->paths.count == 0 ? NULL : line->paths.at[0], potash_why);
}
