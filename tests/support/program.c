/* Running the program under test, and a folder to do it in. */
#define _GNU_SOURCE

#include "program.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <limits.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

const char *program_under_test(void)
{
    const char *program = getenv("POTASH");
    return program != NULL && program[0] != '\0' ? program : "build/potash";
}

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

static double seconds_of(struct timeval time)
{
    return (double)time.tv_sec + (double)time.tv_usec / 1e6;
}

struct stream {
    char *bytes;
    size_t length;
    size_t capacity;
};

/* Takes what has come; false at the end. */
static bool take(int descriptor, struct stream *stream)
{
    if (stream->capacity - stream->length < 65536) {
        stream->capacity = stream->capacity * 2 + 131072;
        stream->bytes = realloc(stream->bytes, stream->capacity + 1);
        assert_non_null(stream->bytes);
    }
    ssize_t got = read(descriptor, stream->bytes + stream->length, stream->capacity - stream->length);
    if (got < 0) {
        return errno == EINTR || errno == EAGAIN;
    }
    stream->length += (size_t)got;
    return got > 0;
}

static void start_child(const char *program, const char *const *arguments, int input, int output, int error)
{
    dup2(input, STDIN_FILENO);
    dup2(output, STDOUT_FILENO);
    dup2(error, STDERR_FILENO);
    size_t count = 0;
    while (arguments[count] != NULL) {
        count++;
    }
    char **words = calloc(count + 2, sizeof *words);
    if (words != NULL) {
        words[0] = (char *)program;
        memcpy(words + 1, arguments, count * sizeof *words);
        signal(SIGPIPE, SIG_DFL);
        setenv("SOURCE_DATE_EPOCH", "1772582400", 0); /* pages are dated 2026-03-04 */
        execvp(program, words);
    }
    _exit(127);
}

struct run run_program(const char *program, const char *const *arguments, const char *input, size_t input_length)
{
    int to_child[2];
    int from_child[2];
    int errors[2];
    assert_int_equal(pipe2(to_child, O_CLOEXEC), 0);
    assert_int_equal(pipe2(from_child, O_CLOEXEC), 0);
    assert_int_equal(pipe2(errors, O_CLOEXEC), 0);
    signal(SIGPIPE, SIG_IGN);
    double start = now();
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        start_child(program, arguments, to_child[0], from_child[1], errors[1]);
    }
    close(to_child[0]);
    close(from_child[1]);
    close(errors[1]);
    fcntl(to_child[1], F_SETFL, O_NONBLOCK);
    struct stream streams[2] = {0};
    int open_streams = 2;
    size_t sent = 0;
    struct pollfd waits[3] = {{from_child[0], POLLIN, 0}, {errors[0], POLLIN, 0}, {to_child[1], POLLOUT, 0}};
    bool late = false;
    while (open_streams > 0 && !late) {
        if (waits[2].fd >= 0 && sent >= input_length) {
            close(waits[2].fd);
            waits[2].fd = -1;
        }
        poll(waits, 3, 500);
        for (int i = 0; i < 2; i++) {
            if (waits[i].fd >= 0 && waits[i].revents != 0 && !take(waits[i].fd, &streams[i])) {
                close(waits[i].fd);
                waits[i].fd = -1;
                open_streams--;
            }
        }
        if (waits[2].fd >= 0 && waits[2].revents != 0) {
            ssize_t wrote = write(waits[2].fd, input + sent, input_length - sent);
            sent = wrote > 0 ? sent + (size_t)wrote : wrote < 0 && errno != EAGAIN ? input_length : sent;
        }
        late = now() - start > RUN_LIMIT;
    }
    for (int i = 0; i < 3; i++) {
        if (waits[i].fd >= 0) {
            close(waits[i].fd);
        }
    }
    if (late) {
        kill(child, SIGKILL);
    }
    int status = 0;
    struct rusage used = {0};
    while (wait4(child, &status, 0, &used) < 0 && errno == EINTR) {
    }
    struct run run = {.seconds = seconds_of(used.ru_utime) + seconds_of(used.ru_stime)};
    run.status = late ? -1 : WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
    for (int i = 0; i < 2; i++) {
        if (streams[i].bytes == NULL) {
            streams[i].bytes = calloc(1, 1);
            assert_non_null(streams[i].bytes);
        }
        streams[i].bytes[streams[i].length] = '\0';
    }
    run.output = streams[0].bytes;
    run.output_length = streams[0].length;
    run.error = streams[1].bytes;
    run.error_length = streams[1].length;
    return run;
}

enum { MOST_ARGUMENTS = 30 };

static struct run run_list(const char *input, size_t length, const char *first, va_list more)
{
    const char *arguments[MOST_ARGUMENTS + 1] = {first};
    size_t count = 0;
    while (arguments[count] != NULL) {
        assert_true(count + 1 < MOST_ARGUMENTS);
        arguments[++count] = va_arg(more, const char *);
    }
    return run_program(program_under_test(), arguments, input, length);
}

struct run run_potash(const char *first, ...)
{
    va_list more;
    va_start(more, first);
    struct run run = run_list(NULL, 0, first, more);
    va_end(more);
    return run;
}

struct run run_potash_input(const char *input, size_t length, const char *first, ...)
{
    va_list more;
    va_start(more, first);
    struct run run = run_list(input, length, first, more);
    va_end(more);
    return run;
}

void run_free(struct run *run)
{
    free(run->output);
    free(run->error);
    *run = (struct run){0};
}

void assert_status(const struct run *run, int status)
{
    if (run->status != status) {
        fail_msg("status %d instead of %d after %.1f s; standard error: %.600s", run->status, status, run->seconds,
                 run->error);
    }
}

void assert_says(const struct run *run, const char *error)
{
    if (strstr(run->error, error) == NULL) {
        fail_msg("\"%s\" is not on standard error: %.600s", error, run->error);
    }
}

void assert_prints(const struct run *run, const char *output)
{
    if (strstr(run->output, output) == NULL) {
        fail_msg("\"%s\" is not on standard output: %.600s", output, run->output);
    }
}

/* ---- a folder for a test ---- */

enum { MOST_PATHS = 200 };

static char folder[PATH_MAX];
static char *paths[MOST_PATHS];
static size_t path_count;

const char *scratch_folder(void)
{
    if (folder[0] == '\0') {
        const char *temporary = getenv("TMPDIR");
        snprintf(folder, sizeof folder, "%s/potash-test-XXXXXX", temporary != NULL ? temporary : "/tmp");
        assert_non_null(mkdtemp(folder));
    }
    return folder;
}

const char *scratch_path(const char *name)
{
    assert_true(path_count < MOST_PATHS);
    char *path = NULL;
    assert_true(asprintf(&path, "%s/%s", scratch_folder(), name) > 0);
    paths[path_count++] = path;
    return path;
}

const char *scratch_file(const char *name, const char *bytes, size_t length)
{
    const char *path = scratch_path(name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
    return path;
}

const char *scratch_text(const char *name, const char *text)
{
    return scratch_file(name, text, strlen(text));
}

size_t scratch_count(void)
{
    DIR *directory = opendir(scratch_folder());
    assert_non_null(directory);
    size_t count = 0;
    for (const struct dirent *entry; (entry = readdir(directory)) != NULL;) {
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    }
    closedir(directory);
    return count;
}

static int remove_entry(const char *path, const struct stat *status, int type, struct FTW *walk)
{
    (void)status;
    (void)type;
    (void)walk;
    return remove(path);
}

void scratch_remove(void)
{
    if (folder[0] != '\0') {
        nftw(folder, remove_entry, 16, FTW_DEPTH | FTW_PHYS);
        folder[0] = '\0';
    }
    while (path_count > 0) {
        free(paths[--path_count]);
    }
}

char *file_bytes(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return NULL;
    }
    struct stream stream = {0};
    while (take(fileno(file), &stream)) {
    }
    fclose(file);
    stream.bytes[stream.length] = '\0';
    if (length != NULL) {
        *length = stream.length;
    }
    return stream.bytes;
}
