/* potash compare: what differs between two formulas, or between two versions of a file. */
#include "command/command.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* FILE, FILE#"Title" or FILE#Title, taken apart. */
struct side {
    char *file;
    const char *title; /* NULL for none */
};

static bool is_there(const char *path)
{
    struct stat status;
    return strcmp(path, "-") == 0 || stat(path, &status) == 0;
}

/* A '#' may stand in a title, and in the name of a file: the file ends at the first '#' before which there is one. */
static bool take_apart(const char *word, struct side *side)
{
    *side = (struct side){strdup(word), NULL};
    if (side->file == NULL) {
        fputs("potash: out of memory\n", stderr);
        return false;
    }
    if (is_there(word)) {
        return true;
    }
    char *mark = strchr(side->file, '#');
    for (char *at = mark; at != NULL; at = strchr(at + 1, '#')) {
        *at = '\0';
        bool there = is_there(side->file);
        *at = '#';
        if (there) {
            mark = at;
            break;
        }
    }
    if (mark == NULL) {
        return true;
    }
    *mark = '\0';
    char *title = mark + 1;
    size_t length = strlen(title);
    if (length >= 2 && title[0] == '"' && title[length - 1] == '"') {
        title[length - 1] = '\0';
        title++;
    }
    side->title = title;
    return true;
}

static struct potash *open_side(const struct command_line *line, const struct side *side, enum potash_status *status)
{
    struct potash_options options = line->options;
    char date[16];
    options.date = command_date(line, date);
    options.title = side->title != NULL ? side->title : line->options.title;
    struct potash *potash = potash_open(&options);
    *status = POTASH_UNUSABLE;
    if (potash == NULL) {
        fputs("potash: out of memory\n", stderr);
        return NULL;
    }
    if (line->known_as == NULL) {
        potash_read(potash, side->file);
    } else {
        potash_read_as(potash, side->file, line->known_as);
    }
    if (line->shelf != NULL) {
        potash_read_shelf(potash, line->shelf);
    }
    *status = potash_check(potash); /* a file that cannot be read is among the diagnostics */
    return potash;
}

/* Faults of a side that stand in the way. */
static void show_faults(struct potash *potash)
{
    struct potash_output output;
    bool faulty = potash_errors(potash) > 0 || potash_warnings(potash) > 0;
    if (faulty && potash_diagnostics(potash, POTASH_TEXT, command_colour(), &output) == POTASH_GOOD) {
        fwrite(output.bytes, 1, output.length, stderr);
    }
}

static int compare(const struct command_line *line, struct potash *a, struct potash *b)
{
    bool same;
    struct potash_output output;
    enum potash_status done = potash_compare(a, b, line->format, &output, &same);
    if (done == POTASH_FAULTY) { /* 1 is for what differs */
        show_faults(a);
        show_faults(b);
        fputs("potash: formulas with errors cannot be compared\n", stderr);
        return POTASH_UNUSABLE;
    }
    if (done != POTASH_GOOD) {
        return command_failed(a, done);
    }
    int written = command_write(line, &output);
    return written != POTASH_GOOD ? written : same ? 0 : 1;
}

int command_compare(const struct command_line *line)
{
    if (line->paths.count != 2) {
        command_refuse(line->arena, "name two formulas, each as FILE or FILE#\"Title\", as in: %s", line->verb->examples[0].call);
        return POTASH_UNUSABLE;
    }
    struct side sides[2] = {{0}};
    struct potash *sessions[2] = {NULL};
    int status = POTASH_UNUSABLE;
    bool good = take_apart(line->paths.at[0], &sides[0]) && take_apart(line->paths.at[1], &sides[1]);
    if (good && strcmp(sides[0].file, "-") == 0 && strcmp(sides[1].file, "-") == 0) {
        fputs("potash compare: only one of the two can be standard input\n", stderr);
        good = false;
    }
    for (int i = 0; i < 2 && good; i++) {
        enum potash_status done;
        sessions[i] = open_side(line, &sides[i], &done);
        good = done != POTASH_UNUSABLE;
        if (!good && sessions[i] != NULL) {
            command_failed(sessions[i], done);
        }
    }
    if (good) {
        status = compare(line, sessions[0], sessions[1]);
    }
    for (int i = 0; i < 2; i++) {
        potash_close(sessions[i]);
        free(sides[i].file);
    }
    return status;
}
