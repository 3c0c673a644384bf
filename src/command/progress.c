/* How far long work has come, on one line of the terminal. */
#include "command/command.h"

#include <stdio.h>
#include <time.h>

enum { FIRST = 400, EVERY = 100 }; /* ms: what is done sooner is not worth a line */

static long long milliseconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (long long)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

void command_tell_progress(void *context, size_t done, size_t of)
{
    struct progress *progress = context;
    long long now = milliseconds();
    if (progress->next == 0) {
        progress->next = now + FIRST;
    }
    if (now < progress->next || of == 0) {
        return;
    }
    progress->next = now + EVERY;
    progress->shown = true;
    fprintf(stderr, "\rpotash: %zu %% ", done * 100 / of);
    fflush(stderr);
}

void command_clear_progress(struct progress *progress)
{
    if (progress != NULL && progress->shown) {
        fputs("\r               \r", stderr);
        progress->shown = false;
    }
}
