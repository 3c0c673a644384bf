/* What the README shows as the program's output is its output.
 *
 * A block of the README that starts with ```console holds a command (`$ potash …`) and what it prints: the diagnostics first,
 * then the rest.  POTASH_ACCEPT=1 writes the blocks anew. */
#include "base/arena.h"
#include "base/buffer.h"
#include "support/accepted.h"
#include "support/program.h"

#include <string.h>

static const char page_path[] = "README.md";
static const char opening[] = "```console\n";
static const char prompt[] = "$ potash ";
static const char closing[] = "```\n";

enum { MOST_WORDS = 16 };

/* Runs "verb argument…" (words parted by blanks, without quotes) and adds what it prints. */
static void add_output(struct buffer *out, struct arena *arena, const char *line, size_t length)
{
    char *words = arena_copy(arena, line, length);
    const char *arguments[MOST_WORDS + 1] = {NULL};
    size_t count = 0;
    for (char *word = strtok(words, " "); word != NULL; word = strtok(NULL, " ")) {
        assert_true(count < MOST_WORDS);
        arguments[count++] = word;
    }
    struct run run = run_program(program_under_test(), arguments, NULL, 0);
    assert_true(run.status == 0 || run.status == 1);
    buffer_add(out, run.error, run.error_length);
    buffer_add(out, run.output, run.output_length);
    run_free(&run);
}

/* The page with the blocks' outputs as they are now; how many there are. */
static size_t renew(struct buffer *out, struct arena *arena, const char *page)
{
    size_t blocks = 0;
    for (const char *at = page;;) {
        const char *block = strstr(at, opening);
        if (block == NULL) {
            buffer_string(out, at);
            return blocks;
        }
        const char *command = block + strlen(opening);
        assert_int_equal(strncmp(command, prompt, strlen(prompt)), 0);
        const char *line_end = strchr(command, '\n');
        assert_non_null(line_end);
        const char *end = strstr(line_end, closing);
        assert_non_null(end);
        buffer_add(out, at, (size_t)(line_end + 1 - at));
        command += strlen(prompt);
        add_output(out, arena, command, (size_t)(line_end - command));
        at = end;
        blocks++;
    }
}

static void the_readme_shows_real_output(void **state)
{
    (void)state;
    struct arena arena;
    arena_start(&arena);
    jmp_buf failed;
    assert_int_equal(setjmp(failed), 0);
    arena.on_failure = &failed;
    size_t length = 0;
    char *page = file_bytes(page_path, &length);
    assert_non_null(page);
    struct buffer renewed;
    buffer_start(&renewed, &arena);
    size_t blocks = renew(&renewed, &arena, page);
    free(page);
    assert_true(blocks > 0);
    assert_accepted(page_path, renewed.bytes, renewed.length);
    arena_release(&arena);
}

/* The formula that the README shows is the file that its commands read. */
static void the_readme_shows_the_sample_itself(void **state)
{
    (void)state;
    size_t length = 0;
    char *page = file_bytes(page_path, &length);
    char *sample = file_bytes("samples/print-developer.bath", &length);
    assert_non_null(page);
    assert_non_null(sample);
    assert_non_null(strstr(page, sample));
    free(sample);
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_readme_shows_real_output),
        cmocka_unit_test(the_readme_shows_the_sample_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
