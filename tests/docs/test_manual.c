/* Every example in docs/notation.md is compiled.  What a block holds stands behind its fence:
 *
 *   bath [NAME.bath] [ID…]         a whole file; it is kept under that name for the `read` lines of later blocks
 *   bath-faulty [NAME.bath] ID…    a whole file with an error
 *   lines [ID…], lines-faulty ID…  some lines of a formula; what is missing around them is put there
 *   says                           what is said of the block before, among other things
 *   sheet NAME.bath [OPTION…]      what its mixing sheet has, among other things: words that follow each other on a line
 *
 * The ids are those of all that is remarked: a block without any has nothing to remark. */
#define _GNU_SOURCE

#include "support/program.h"

#include "potash.h"

#include <jansson.h>

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#define PAGE_PATH "docs/notation.md"

enum { LONGEST_SAID = 8192, MOST_WORDS = 20 };

struct block {
    size_t line;                /* of its fence */
    char *fence;                /* cut into words */
    char *words[MOST_WORDS + 1];
    size_t word_count;
    char *text;
};

static size_t blocks_compiled;
static size_t blocks_wrong; /* all are shown before the test fails */
static char said[LONGEST_SAID]; /* of the last block that was compiled, as a person sees it */

/* ---- blocks ---- */

/* Reads the block that begins at `*at`, a fence; `*at` and `*line` go behind it. */
static struct block read_block(const char **at, size_t *line)
{
    struct block block = {.line = *line};
    const char *end = strchr(*at, '\n');
    block.fence = strndup(*at + 3, (size_t)(end - *at) - 3);
    assert_non_null(block.fence);
    for (char *word = strtok(block.fence, " "); word != NULL; word = strtok(NULL, " ")) {
        assert_true(block.word_count < MOST_WORDS);
        block.words[block.word_count++] = word;
    }
    const char *begin = end + 1;
    const char *close = strncmp(begin, "```", 3) == 0 ? begin : strstr(begin, "\n```");
    if (close == NULL) {
        fail_msg("%s:%zu: the block has no end", PAGE_PATH, block.line);
    }
    close += *close == '\n';
    block.text = strndup(begin, (size_t)(close - begin));
    assert_non_null(block.text);
    for (const char *c = *at; c < close; c++) {
        *line += *c == '\n';
    }
    *at = close + strcspn(close, "\n");
    return block;
}

static bool ends_with(const char *word, const char *end)
{
    size_t length = strlen(word);
    return length >= strlen(end) && strcmp(word + length - strlen(end), end) == 0;
}

/* ---- compiling ---- */

/* Some lines of a formula with what they lack: a heading, the measures, a final volume. */
static char *with_formula(const char *lines)
{
    bool measures = strstr(lines, "measures ") != NULL;
    bool made_up = strstr(lines, "to make") != NULL || strstr(lines, "makes ") != NULL;
    bool ends_in_use = strstr(lines, "use for") != NULL;
    const char *water = "    water to make 1 L\n";
    char *text = NULL;
    assert_true(asprintf(&text, "formula \"Saltmarsh example\"\n    kind other\n%s%s%s%s", measures ? "" : "    measures imperial\n",
                         !made_up && ends_in_use ? water : "", lines, !made_up && !ends_in_use ? water : "") > 0);
    return text;
}

static bool is_named(const struct block *block, size_t first_id, const char *id)
{
    for (size_t i = first_id; i < block->word_count; i++) {
        if (strcmp(block->words[i], id) == 0) {
            return true;
        }
    }
    return false;
}

/* Every id in the fence is given, and no other. */
static void assert_ids(const struct block *block, size_t first_id, const json_t *diagnostics)
{
    size_t index;
    json_t *item;
    json_array_foreach(diagnostics, index, item) {
        const char *id = json_string_value(json_object_get(item, "id"));
        if (!is_named(block, first_id, id)) {
            blocks_wrong++;
            print_error("%s:%zu: the example gives %s:\n%s", PAGE_PATH, block->line, id, said);
        }
    }
    for (size_t i = first_id; i < block->word_count; i++) {
        bool given = false;
        json_array_foreach(diagnostics, index, item) {
            given = given || strcmp(json_string_value(json_object_get(item, "id")), block->words[i]) == 0;
        }
        if (!given) {
            blocks_wrong++;
            print_error("%s:%zu: the example does not give %s:\n%s", PAGE_PATH, block->line, block->words[i], said);
        }
    }
}

static void compile_block(const struct block *block, const char *path, size_t first_id, bool faulty)
{
    struct potash *potash = potash_open(NULL);
    assert_non_null(potash);
    enum potash_status status = potash_read(potash, path);
    status = status == POTASH_GOOD ? potash_check(potash) : status;
    if (status == POTASH_UNUSABLE) {
        fail_msg("%s:%zu: %s", PAGE_PATH, block->line, potash_message(potash));
    }
    struct potash_output output;
    assert_int_equal(potash_diagnostics(potash, POTASH_TEXT, false, &output), POTASH_GOOD);
    snprintf(said, sizeof said, "%.*s", (int)output.length, output.bytes);
    assert_int_equal(potash_diagnostics(potash, POTASH_JSON, false, &output), POTASH_GOOD);
    json_t *root = json_loadb(output.bytes, output.length, 0, NULL);
    assert_non_null(root);
    assert_ids(block, first_id, json_object_get(root, "diagnostics"));
    if (faulty != (potash_errors(potash) > 0)) {
        blocks_wrong++;
        print_error("%s:%zu: %zu errors:\n%s", PAGE_PATH, block->line, potash_errors(potash), said);
    }
    json_decref(root);
    potash_close(potash);
    blocks_compiled++;
}

static void check_bath(const struct block *block, bool faulty)
{
    bool named = block->word_count > 1 && ends_with(block->words[1], ".bath");
    const char *path = scratch_text(named ? block->words[1] : "example.bath", block->text);
    compile_block(block, path, named ? 2 : 1, faulty);
}

static void check_lines(const struct block *block, bool faulty)
{
    char *text = with_formula(block->text);
    compile_block(block, scratch_text("example.bath", text), 1, faulty);
    free(text);
}

/* ---- what is said, what is printed ---- */

/* The text with every run of blanks as one space. */
static char *with_single_blanks(const char *text)
{
    char *copy = malloc(strlen(text) + 1);
    assert_non_null(copy);
    size_t length = 0;
    for (const char *at = text; *at != '\0'; at++) {
        if (!isspace((unsigned char)*at)) {
            copy[length++] = *at;
        } else if (length > 0 && copy[length - 1] != ' ') {
            copy[length++] = ' ';
        }
    }
    copy[length] = '\0';
    return copy;
}

/* Each line of the block stands in `text`, blanks aside. */
static void assert_holds(const struct block *block, const char *text)
{
    char *whole = with_single_blanks(text);
    for (char *line = strtok(block->text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        char *wanted = with_single_blanks(line);
        size_t length = strlen(wanted);
        if (length > 0 && wanted[length - 1] == ' ') {
            wanted[length - 1] = '\0';
        }
        const char *trimmed = wanted + (*wanted == ' ');
        if (strstr(whole, trimmed) == NULL) {
            blocks_wrong++;
            print_error("%s:%zu: \"%s\" is not in:\n%s", PAGE_PATH, block->line, trimmed, text);
        }
        free(wanted);
    }
    free(whole);
}

/* Whether one line of `text` has the words of `wanted` in this order, among others. */
static bool has_line_with(const char *text, const char *wanted)
{
    for (const char *at = text; *at != '\0'; at += strcspn(at, "\n"), at += *at == '\n') {
        char *line = strndup(at, strcspn(at, "\n"));
        char *words = strdup(wanted);
        assert_non_null(line);
        assert_non_null(words);
        const char *from = line;
        bool found = true;
        char *rest = NULL;
        for (char *word = strtok_r(words, " ", &rest); found && word != NULL; word = strtok_r(NULL, " ", &rest)) {
            const char *here = strstr(from, word);
            found = here != NULL;
            from = found ? here + strlen(word) : from;
        }
        free(line);
        free(words);
        if (found) {
            return true;
        }
    }
    return false;
}

static void assert_has_lines(const struct block *block, const char *text)
{
    for (char *line = strtok(block->text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        if (!has_line_with(text, line)) {
            blocks_wrong++;
            print_error("%s:%zu: \"%s\" is not in:\n%s", PAGE_PATH, block->line, line, text);
        }
    }
}

static void check_sheet(const struct block *block)
{
    assert_true(block->word_count > 1);
    const char *arguments[MOST_WORDS + 2] = {"sheet", scratch_path(block->words[1])};
    for (size_t i = 2; i < block->word_count; i++) {
        arguments[i] = block->words[i];
    }
    struct run run = run_program(program_under_test(), arguments, NULL, 0);
    assert_status(&run, 0);
    assert_has_lines(block, run.output);
    run_free(&run);
}

static void check_block(const struct block *block)
{
    const char *kind = block->word_count > 0 ? block->words[0] : "";
    if (strcmp(kind, "bath") == 0 || strcmp(kind, "bath-faulty") == 0) {
        check_bath(block, ends_with(kind, "-faulty"));
    } else if (strcmp(kind, "lines") == 0 || strcmp(kind, "lines-faulty") == 0) {
        check_lines(block, ends_with(kind, "-faulty"));
    } else if (strcmp(kind, "says") == 0) {
        assert_holds(block, said);
    } else if (strcmp(kind, "sheet") == 0) {
        check_sheet(block);
    } else if (strcmp(kind, "sh") != 0 && strcmp(kind, "ebnf") != 0 && strcmp(kind, "text") != 0) {
        fail_msg("%s:%zu: a block of an unknown kind \"%s\"", PAGE_PATH, block->line, kind);
    }
}

static void every_example_compiles(void **state)
{
    (void)state;
    char *page = file_bytes(PAGE_PATH, NULL);
    assert_non_null(page);
    size_t line = 1;
    for (const char *at = page; *at != '\0'; at += *at == '\n') {
        if (strncmp(at, "```", 3) == 0) {
            struct block block = read_block(&at, &line);
            check_block(&block);
            free(block.text);
            free(block.fence);
        } else {
            at += strcspn(at, "\n");
        }
        line += *at == '\n';
    }
    assert_int_equal(blocks_wrong, 0);
    assert_true(blocks_compiled > 40);
    free(page);
}

static int remove_scratch(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(every_example_compiles, remove_scratch),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
