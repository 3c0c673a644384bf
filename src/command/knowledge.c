/* potash materials, potash why: what the program knows, without any file. */
#include "command/command.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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

/* A name of several words need not be quoted on the command line. */
static char *join_words(const struct command_line *line)
{
    size_t length = 1;
    for (size_t i = 0; i < line->path_count; i++) {
        length += strlen(line->paths[i]) + 1;
    }
    char *name = calloc(length, 1);
    for (size_t i = 0; name != NULL && i < line->path_count; i++) {
        strcat(name, i == 0 ? "" : " ");
        strcat(name, line->paths[i]);
    }
    return name;
}

int command_materials(const struct command_line *line)
{
    if (line->like != NULL) {
        if (line->path_count > 0) {
            fputs("potash materials: give either a name or --like; see: potash --help\n", stderr);
            return POTASH_UNUSABLE;
        }
        return run(line, line->like, potash_materials_like);
    }
    char *name = join_words(line);
    if (name == NULL) {
        fputs("potash: out of memory\n", stderr);
        return POTASH_UNUSABLE;
    }
    int status = run(line, line->path_count == 0 ? NULL : name, potash_materials);
    free(name);
    return status;
}

int command_why(const struct command_line *line)
{
    return run(line, line->path_count == 0 ? NULL : line->paths[0], potash_why);
}
