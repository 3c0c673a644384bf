/* What the README and the manual show as the program's output is its output, and the README's lists leave nothing out.
 *
 * A block that starts with ```console holds a command (`$ potash …`) and what it prints: the diagnostics first,
 * then the rest.  A last line "…" stands for the rest of a long output; as many lines as stand before it are held against
 * the program's.  POTASH_ACCEPT=1 writes the blocks anew. */
#define _GNU_SOURCE

#include "base/arena.h"
#include "base/buffer.h"
#include "support/accepted.h"
#include "support/program.h"

#include <glob.h>
#include <stdio.h>
#include <string.h>

static const char page_path[] = "README.md";
static const char *const pages_with_output[] = {"README.md", "docs/process.md", "docs/chemistry.md", "docs/shelf.md", "docs/safety.md"};
static const char opening[] = "```console\n";
static const char prompt[] = "$ potash ";
static const char closing[] = "```\n";
static const char and_so_on[] = "…\n";

enum { MOST_WORDS = 16 };

/* Cuts "verb argument…" into words at blanks, as a shell does; double quotes keep blanks within a word. */
static void cut_words(char *line, const char *arguments[MOST_WORDS + 1])
{
    size_t count = 0;
    for (char *at = line; *at != '\0';) {
        if (*at == ' ') {
            at++;
            continue;
        }
        assert_true(count < MOST_WORDS);
        char *to = at;
        arguments[count++] = at;
        bool quoted = false;
        for (; *at != '\0' && (quoted || *at != ' '); at++) {
            if (*at == '"') {
                quoted = !quoted;
            } else {
                *to++ = *at;
            }
        }
        assert_false(quoted);
        at += *at != '\0';
        *to = '\0';
    }
    arguments[count] = NULL;
}

/* The length of the first `lines` lines; there must be more than these. */
static size_t length_of_lines(const char *text, size_t lines)
{
    const char *end = text;
    for (size_t i = 0; i < lines; i++) {
        end = strchr(end, '\n');
        assert_non_null(end);
        end++;
    }
    assert_true(*end != '\0');
    return (size_t)(end - text);
}

/* Runs a command and adds what it prints, or so much of it as the block `shown` shows. */
static void add_output(struct buffer *out, struct arena *arena, const char *line, size_t length, struct text shown)
{
    const char *arguments[MOST_WORDS + 1];
    cut_words(arena_copy(arena, line, length), arguments);
    struct run run = run_program(program_under_test(), arguments, NULL, 0);
    assert_true(run.status == 0 || run.status == 1);
    struct buffer printed;
    buffer_start(&printed, arena);
    buffer_add(&printed, run.error, run.error_length);
    buffer_add(&printed, run.output, run.output_length);
    run_free(&run);
    const char *text = buffer_finish(&printed);
    size_t mark = strlen(and_so_on);
    if (shown.length < mark || memcmp(shown.at + shown.length - mark, and_so_on, mark) != 0) {
        buffer_string(out, text);
        return;
    }
    size_t lines = 0;
    for (size_t i = 0; i < shown.length - mark; i++) {
        lines += shown.at[i] == '\n';
    }
    buffer_add(out, text, length_of_lines(text, lines));
    buffer_string(out, and_so_on);
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
        struct text shown = {line_end + 1, (size_t)(end - line_end - 1)};
        add_output(out, arena, command, (size_t)(line_end - command), shown);
        at = end;
        blocks++;
    }
}

static void a_page_shows_real_output(const char *path)
{
    struct arena arena;
    arena_start(&arena);
    jmp_buf failed;
    if (setjmp(failed) != 0) {
        fail_msg("out of memory");
    }
    arena.on_failure = &failed;
    size_t length = 0;
    char *page = file_bytes(path, &length);
    assert_non_null(page);
    struct buffer renewed;
    buffer_start(&renewed, &arena);
    size_t blocks = renew(&renewed, &arena, page);
    free(page);
    assert_true(blocks > 0);
    assert_accepted(path, renewed.bytes, renewed.length);
    arena_release(&arena);
}

static void pages_show_real_output(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof pages_with_output / sizeof *pages_with_output; i++) {
        a_page_shows_real_output(pages_with_output[i]);
    }
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

/* Every sample is named. */
static void the_readme_lists_the_samples(void **state)
{
    (void)state;
    size_t length = 0;
    char *page = file_bytes(page_path, &length);
    assert_non_null(page);
    glob_t samples;
    assert_int_equal(glob("samples/*.bath", 0, NULL, &samples), 0);
    for (size_t i = 0; i < samples.gl_pathc; i++) {
        char *row = NULL;
        assert_true(asprintf(&row, "\n| `%s` |", strrchr(samples.gl_pathv[i], '/') + 1) > 0);
        if (strstr(page, row) == NULL) {
            fail_msg("%s does not list %s", page_path, samples.gl_pathv[i]);
        }
        free(row);
    }
    globfree(&samples);
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages_show_real_output),
        cmocka_unit_test(the_readme_shows_the_sample_itself),
        cmocka_unit_test(the_readme_lists_the_samples),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
