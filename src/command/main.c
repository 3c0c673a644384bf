/* potash: finds the verb and runs it. */
#include "command/command.h"

#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <unistd.h>

static int run(struct arena *arena, int count, char **words)
{
    struct command_line line;
    struct progress progress = {false, 0};
    if (!command_read_line(arena, count, words, &line)) {
        return POTASH_UNUSABLE;
    }
    line.progress = &progress;
    if (line.version) {
        printf("potash %s\n", potash_version());
        return POTASH_GOOD;
    }
    if (line.help) {
        command_print_help(line.verb, command_columns());
        return POTASH_GOOD;
    }
    line.options.columns = line.output == NULL ? command_columns() : 0; /* a file is for any screen */
    return line.verb->run(&line);
}

/* A file that grows too large is an error like another; and a standard stream that is closed must not become the next file that is
 * opened, or what is printed would end up in it.  Opened for the wrong direction, it fails as a closed one does (EBADF). */
static void prepare_streams(void)
{
    signal(SIGXFSZ, SIG_IGN);
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++) {
        if (fcntl(stream, F_GETFD) == -1) {
            open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
        }
    }
}

int main(int count, char **words)
{
    struct arena arena;
    jmp_buf no_memory;
    prepare_streams();
    arena_start(&arena);
    arena.on_failure = &no_memory;
    if (setjmp(no_memory) != 0) {
        fputs("potash: out of memory\n", stderr);
        arena_release(&arena);
        return POTASH_UNUSABLE;
    }
    int status = run(&arena, count, words);
    arena_release(&arena);
    /* A full disk shows itself only when the last bytes are written. */
    if (fflush(stdout) != 0 || ferror(stdout)) {
        perror("potash: standard output");
        status = POTASH_UNUSABLE;
    }
    return status;
}
