/* potash sheet --record: a batch for the diary, printed to paste or added to the diary itself.
 *
 * Nothing that somebody else writes into the diary meanwhile is lost: the file is locked (flock), what is added goes to its end as
 * it is at that moment (O_APPEND), and what stands in it is never written again.  A file that was put in the diary's place while the
 * lock was waited for, as `tidy --in-place` does, is noticed and locked anew. */
#define _GNU_SOURCE

#include "command/command.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

int command_lock_file(const char *path, int flags)
{
    enum { MOST_TRIES = 100 };
    for (int tries = 0; tries < MOST_TRIES; tries++) {
        int descriptor = open(path, flags | O_CLOEXEC, 0666);
        if (descriptor < 0) {
            return -1;
        }
        int locked;
        while ((locked = flock(descriptor, LOCK_EX)) != 0 && errno == EINTR) {
        }
        struct stat ours;
        struct stat named;
        bool good = locked == 0 && fstat(descriptor, &ours) == 0;
        if (good && stat(path, &named) == 0 && ours.st_dev == named.st_dev && ours.st_ino == named.st_ino) {
            return descriptor;
        }
        int reason = errno;
        close(descriptor);
        errno = reason;
        if (!good) {
            return -1;
        }
    }
    errno = EAGAIN;
    return -1;
}

char *command_read_all(int descriptor, size_t *length)
{
    struct stat status;
    if (fstat(descriptor, &status) != 0) {
        return NULL;
    }
    size_t size = (size_t)status.st_size;
    char *bytes = malloc(size + 1);
    *length = 0;
    while (bytes != NULL && *length < size) {
        ssize_t got = pread(descriptor, bytes + *length, size - *length, (off_t)*length);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            free(bytes);
            return NULL;
        }
        if (got == 0) {
            break;
        }
        *length += (size_t)got;
    }
    return bytes;
}

static int cannot(const char *path)
{
    command_say("potash: %s: %s", path, strerror(errno));
    return POTASH_UNUSABLE;
}

/* Adds to the end of the file, or leaves it as it was.  `before` is its length under the lock. */
static int append(int descriptor, const char *path, const char *bytes, size_t length, off_t before)
{
    size_t done = 0;
    while (done < length) {
        ssize_t wrote = write(descriptor, bytes + done, length - done);
        if (wrote < 0 && errno == EINTR) {
            continue;
        }
        if (wrote <= 0) {
            break;
        }
        done += (size_t)wrote;
    }
    if (done == length && fsync(descriptor) == 0) {
        return POTASH_GOOD;
    }
    int status = cannot(path);
    /* What got in is taken out again, unless somebody who does not ask for the lock has written behind it. */
    struct stat now;
    bool last = fstat(descriptor, &now) == 0 && now.st_size == before + (off_t)done;
    if (done > 0 && !(last && ftruncate(descriptor, before) == 0 && fsync(descriptor) == 0)) {
        command_say("potash: %s: %zu bytes of the batch stand in it from byte %lld on; take them out", path, done, (long long)before + 1);
    }
    return status;
}

/* "read "print-developer.bath"" for a diary that begins, when the one file that was named lies in its folder or below. */
static char *first_line(const struct command_line *line)
{
    char *formulas = line->paths.count == 1 ? realpath(line->paths.at[0], NULL) : NULL;
    char *diary = realpath(line->record_in, NULL);
    char *words = NULL;
    struct stat status;
    if (formulas != NULL && diary != NULL && stat(formulas, &status) == 0 && S_ISREG(status.st_mode)) {
        size_t folder = (size_t)(strrchr(diary, '/') + 1 - diary);
        bool below = strncmp(diary, formulas, folder) == 0 && strchr(formulas, '"') == NULL && strchr(formulas, '\n') == NULL &&
                     potash_is_plain(formulas, strlen(formulas));
        if (below && asprintf(&words, "read \"%s\"\n", formulas + folder) < 0) {
            words = NULL;
        }
    }
    free(formulas);
    free(diary);
    return words;
}

/* The batch is recorded whether or not anybody hears of it, so that the exit status stays good: who tries again on a bad one would
 * have the batch twice. */
static void tell_recorded(const char *path, const struct potash_output *record)
{
    const char *end = memchr(record->bytes, '\n', record->length);
    char *line = NULL;
    char *shown = NULL;
    if (asprintf(&line, "%s: %.*s", path, (int)(end - record->bytes), record->bytes) >= 0) {
        shown = potash_shown(line, strlen(line));
        free(line);
    }
    signal(SIGPIPE, SIG_IGN);
    if (shown == NULL || dprintf(STDOUT_FILENO, "%s\n", shown) < 0) {
        command_say("potash: standard output: %s; but it is recorded in %s", strerror(shown == NULL ? ENOMEM : errno), shown == NULL ? path : shown);
    }
    free(shown);
}

/* Under the lock: what the diary holds decides on the number, then the batch goes to its end. */
static int record_locked(const struct command_line *line, struct potash *potash, int descriptor)
{
    struct stat status;
    if (fstat(descriptor, &status) == 0 && !S_ISREG(status.st_mode)) {
        command_say("potash: %s: a batch can only be added to a file", line->record_in);
        return POTASH_UNUSABLE;
    }
    size_t length = 0;
    char *diary = command_read_all(descriptor, &length);
    if (diary == NULL) {
        return cannot(line->record_in);
    }
    struct potash_output record;
    enum potash_status done = potash_record(potash, diary, length, &record);
    int result = (int)done;
    char *head = length == 0 ? first_line(line) : NULL;
    char *text = NULL;
    if (done != POTASH_GOOD) {
        result = command_failed(potash, done);
    } else if (asprintf(&text, "%s%s%s%.*s", length > 0 && diary[length - 1] != '\n' ? "\n" : "", head != NULL ? head : "",
                        length > 0 || head != NULL ? "\n" : "", (int)record.length, record.bytes) < 0) {
        text = NULL;
        fputs("potash: out of memory\n", stderr);
        result = POTASH_UNUSABLE;
    } else if (length == 0 && !command_sync_folder(line->record_in)) { /* it may be new */
        result = cannot(line->record_in);
    } else {
        result = append(descriptor, line->record_in, text, strlen(text), (off_t)length);
    }
    if (result == POTASH_GOOD) {
        tell_recorded(line->record_in, &record);
    }
    free(text);
    free(head);
    free(diary);
    return result;
}

int command_record(const struct command_line *line)
{
    int status;
    struct potash *potash = command_open(line, &status);
    if (potash == NULL) {
        return status;
    }
    if (line->record_in == NULL) {
        struct potash_output output;
        enum potash_status done = potash_record(potash, NULL, 0, &output);
        status = done == POTASH_GOOD ? command_write(line, &output) : command_failed(potash, done);
    } else {
        /* Nothing is made and nothing locked for a formula that cannot be recorded. */
        struct potash_output trial;
        enum potash_status done = potash_record(potash, NULL, 0, &trial);
        int descriptor = done == POTASH_GOOD ? command_lock_file(line->record_in, O_RDWR | O_APPEND | O_CREAT) : -1;
        status = done != POTASH_GOOD ? command_failed(potash, done)
                 : descriptor < 0    ? cannot(line->record_in)
                                     : record_locked(line, potash, descriptor);
        if (descriptor >= 0 && close(descriptor) != 0 && status == POTASH_GOOD) {
            status = cannot(line->record_in);
        }
    }
    potash_close(potash);
    return status;
}
