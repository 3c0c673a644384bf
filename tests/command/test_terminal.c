/* What a terminal shows: 20 of one id, and how many more there are; all of them with --all, and where it is no terminal.  The program
 * runs under a pseudo-terminal (POSIX.1, posix_openpt). */
#define _GNU_SOURCE

#include "support/program.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* All that the program writes to a terminal. */
static char *shown_on_terminal(const char *path, const char *option)
{
    int terminal = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(terminal >= 0 && grantpt(terminal) == 0 && unlockpt(terminal) == 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        setsid();
        int own = open(ptsname(terminal), O_RDWR);
        dup2(own, STDIN_FILENO);
        dup2(own, STDOUT_FILENO);
        dup2(own, STDERR_FILENO);
        execl(program_under_test(), "potash", "check", path, option, (char *)NULL);
        _exit(127);
    }
    size_t length = 0;
    size_t room = 1 << 18;
    char *shown = malloc(room);
    assert_non_null(shown);
    for (ssize_t got; length + 1 < room && (got = read(terminal, shown + length, room - length - 1)) > 0;) { /* EIO at the end */
        length += (size_t)got;
    }
    shown[length] = '\0';
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    close(terminal);
    return shown;
}

static size_t count_of(const char *text, const char *part)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, part)) != NULL; at++) {
        count++;
    }
    return count;
}

/* A file of `count` warnings of one id. */
static const char *warnings(int count)
{
    char *text = NULL;
    size_t length;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    for (int i = 0; i < count; i++) {
        fprintf(out, "formula \"bath %d\"\n    kind other\n    borax 5 g\n    water to make 1 L\n", i);
    }
    fclose(out);
    char name[40];
    snprintf(name, sizeof name, "warnings-%d.bath", count);
    const char *path = scratch_text(name, text);
    free(text);
    return path;
}

static void a_terminal_shows_twenty_of_a_kind(void **state)
{
    (void)state;
    static const struct {
        int warnings;
        const char *option;
        size_t shown, counted;
    } cases[] = {{20, NULL, 20, 0}, {21, NULL, 20, 1}, {21, "--all", 21, 0}, {25, NULL, 20, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *shown = shown_on_terminal(warnings(cases[i].warnings), cases[i].option);
        assert_int_equal(count_of(shown, "[form-unstated]"), cases[i].shown);
        assert_int_equal(count_of(shown, "more of this kind; --all shows them"), cases[i].counted);
        char more[40];
        snprintf(more, sizeof more, "%d more of this kind", cases[i].warnings - 20);
        assert_int_equal(count_of(shown, more), cases[i].counted);
        free(shown);
    }
    struct run run = run_potash("check", warnings(21), NULL);
    assert_status(&run, 0);
    assert_int_equal(count_of(run.error, "[form-unstated]"), 21);
    run_free(&run);
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_terminal_shows_twenty_of_a_kind)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
