/* potash tidy: files in canonical layout. */
#include "command/command.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct tidied {
    const char *path;
    struct potash_output before; /* as it was read */
    struct potash_output output;
    bool tidy;   /* it stood so already */
    bool faulty; /* it cannot be laid out */
};

static bool is_call(const struct command_line *line)
{
    if (line->paths.count == 0) {
        return command_refuse(line->arena, "name a file, a folder or - (standard input), as in: %s", line->verb->examples[0].call);
    }
    for (size_t i = 0; line->in_place && i < line->paths.count; i++) {
        if (strcmp(line->paths.at[i], "-") == 0) {
            return command_refuse(line->arena, "standard input cannot be changed in place; leave out --in-place");
        }
    }
    return true;
}

/* Whether an open file still holds what was read of it. */
static bool is_unchanged(int descriptor, const struct tidied *file)
{
    size_t length = 0;
    char *bytes = command_read_all(descriptor, &length);
    bool same = bytes != NULL && length == file->before.length && memcmp(bytes, file->before.bytes, length) == 0;
    free(bytes);
    return same;
}

/* Under the lock that those ask for who add to a diary, so that no line is lost that came in since the file was read. */
static int write_in_place(const struct tidied *file)
{
    int lock = command_lock_file(file->path, O_RDONLY);
    int status = POTASH_UNUSABLE;
    if (lock < 0) {
        command_say("potash: %s: %s", file->path, strerror(errno));
    } else if (!is_unchanged(lock, file)) {
        command_say("potash: %s: somebody has changed it meanwhile; run tidy again", file->path);
    } else {
        struct potash_output output = file->output;
        const struct command_writer writer = command_writer_of(&output);
        status = command_replace_file(file->path, &writer);
    }
    if (lock >= 0) {
        close(lock);
    }
    return status;
}

static void print_diagnostics(struct potash *potash)
{
    struct potash_output output;
    if (potash_diagnostics(potash, POTASH_TEXT, command_colour(), &output) == POTASH_GOOD) {
        fwrite(output.bytes, 1, output.length, stderr);
    }
}

/* Tidies all files before the first is written, so that a fault inside the program changes none. */
static enum potash_status tidy_all(struct potash *potash, struct tidied *files, size_t count, bool *faulty)
{
    for (size_t i = 0; i < count; i++) {
        files[i].path = potash_file_name(potash, i);
        files[i].before = potash_file_text(potash, i);
        enum potash_status done = potash_tidy(potash, i, &files[i].tidy, &files[i].output);
        if (done == POTASH_UNUSABLE) {
            return done;
        }
        files[i].faulty = done == POTASH_FAULTY;
        *faulty = *faulty || files[i].faulty;
    }
    return POTASH_GOOD;
}

/* Text is what is typed into the file, and never altered: a terminal that it could do something to is not given it. */
static int write_out(const struct command_line *line, const struct tidied *file)
{
    bool on_terminal = (line->output == NULL || strcmp(line->output, "-") == 0) && isatty(STDOUT_FILENO);
    if (on_terminal && !potash_is_plain(file->output.bytes, file->output.length)) {
        command_say("potash tidy: %s: signs in it control a terminal or are not seen; write to a file with -o, or see: potash why hidden-sign",
                    file->path);
        return POTASH_UNUSABLE;
    }
    return command_write(line, &file->output);
}

static int give_out(const struct command_line *line, const struct tidied *files, size_t count)
{
    int status = POTASH_GOOD;
    for (size_t i = 0; i < count; i++) {
        if (files[i].faulty) {
            continue;
        }
        int done = POTASH_GOOD;
        if (line->verify && !files[i].tidy) {
            command_print("%s", files[i].path);
            done = POTASH_FAULTY;
        } else if (line->in_place && !files[i].tidy) {
            done = write_in_place(&files[i]);
        } else if (!line->verify && !line->in_place) {
            done = write_out(line, &files[i]);
        }
        status = done > status ? done : status;
    }
    return status;
}

static int tidy_session(const struct command_line *line, struct potash *potash)
{
    bool all_read = true;
    for (size_t i = 0; i < line->paths.count; i++) {
        all_read = potash_read(potash, line->paths.at[i]) == POTASH_GOOD && all_read;
    }
    if (!all_read) { /* nothing is changed when not all of what was named is there */
        print_diagnostics(potash);
        return command_failed(potash, POTASH_UNUSABLE);
    }
    size_t count = 0;
    while (potash_file_name(potash, count) != NULL) {
        count++;
    }
    if (count > 1 && !line->in_place && !line->verify) {
        fprintf(stderr,
                "potash tidy: these are %zu files; use --in-place to change them, or --verify to list those that are "
                "not tidy\n",
                count);
        return POTASH_UNUSABLE;
    }
    struct tidied *files = calloc(count + 1, sizeof *files);
    if (files == NULL) {
        fputs("potash: out of memory\n", stderr);
        return POTASH_UNUSABLE;
    }
    bool faulty = potash_unread(potash) > 0;
    enum potash_status done = tidy_all(potash, files, count, &faulty);
    int status = done == POTASH_GOOD ? give_out(line, files, count) : command_failed(potash, done);
    free(files);
    if (faulty) {
        print_diagnostics(potash);
        status = status == POTASH_GOOD ? POTASH_FAULTY : status;
    }
    return status;
}

int command_tidy(const struct command_line *line)
{
    if (!is_call(line)) {
        return POTASH_UNUSABLE;
    }
    struct potash_options options = line->options;
    options.no_reads = true;
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        fputs("potash: out of memory\n", stderr);
        return POTASH_UNUSABLE;
    }
    int status = tidy_session(line, potash);
    potash_close(potash);
    return status;
}
