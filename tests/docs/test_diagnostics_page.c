/* docs/diagnostics.md is what the registry of diagnostics says, laid out to be read.  POTASH_ACCEPT=1 writes it anew. */
#include "base/arena.h"
#include "base/buffer.h"
#include "base/shown.h"
#include "source/diagnostics.h"
#include "support/accepted.h"
#include "support/program.h"

#include <string.h>

#define PAGE_PATH "docs/diagnostics.md"

static const char introduction[] =
    "# Diagnostics\n"
    "\n"
    "What `potash check` may say of a file. Each entry has an id, which stands in square brackets at the end of the\n"
    "message; `potash why ID` prints the same text. An error means that the formula is not used: no sheet is made of it.\n"
    "A warning leaves the decision to you. It can be turned off for one formula by a line `silence ID` in it, and for one\n"
    "run by `--silence ID`; `--strict` counts warnings as errors.\n"
    "\n"
    "This page is made from `src/source/registry.def` by `tests/docs/test_diagnostics_page.c`; edit the registry, not the\n"
    "page.\n";

static const char *severity_heading(enum severity severity)
{
    return severity == SEVERITY_ERROR ? "Errors" : "Warnings";
}

static void add_index(struct buffer *out, enum severity severity)
{
    buffer_format(out, "\n| %s | |\n| --- | --- |\n", severity == SEVERITY_ERROR ? "error" : "warning");
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        if (entry->severity == severity) {
            buffer_format(out, "| [`%s`](#%s) | %s |\n", entry->name, entry->name, entry->summary);
        }
    }
}

/* A paragraph in lines of at most 118 bytes. */
static void add_paragraph(struct buffer *out, const char *text)
{
    enum { LINE = 118 };
    size_t column = 0;
    for (const char *word = text; *word != '\0';) {
        size_t length = strcspn(word, " ");
        if (column > 0 && column + 1 + length > LINE) {
            buffer_character(out, '\n');
            column = 0;
        } else if (column > 0) {
            buffer_character(out, ' ');
            column++;
        }
        buffer_add(out, word, length);
        column += length;
        word += length + strspn(word + length, " ");
    }
    buffer_character(out, '\n');
}

/* The page itself has to be UTF-8, and to be seen: what some examples are about is named in them. */
static void add_example(struct buffer *out, const char *title, const char *text)
{
    buffer_format(out, "\n%s\n\n```\n", title);
    shown_add_named(out, text_from(text));
    buffer_string(out, "```\n");
}

static void add_entries(struct buffer *out, enum severity severity)
{
    buffer_format(out, "\n## %s\n", severity_heading(severity));
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        if (entry->severity != severity) {
            continue;
        }
        buffer_format(out, "\n### %s\n\n", entry->name);
        buffer_format(out, "*%s*\n\n", entry->summary);
        add_paragraph(out, entry->why);
        add_example(out, "This gives it:", entry->wrong);
        add_example(out, "And this mends it:", entry->right);
    }
}

static void make_page(struct buffer *out)
{
    buffer_string(out, introduction);
    add_index(out, SEVERITY_ERROR);
    add_index(out, SEVERITY_WARNING);
    add_entries(out, SEVERITY_ERROR);
    add_entries(out, SEVERITY_WARNING);
}

static void the_page_is_what_the_registry_says(void **state)
{
    (void)state;
    struct arena arena;
    arena_start(&arena);
    jmp_buf failed;
    if (setjmp(failed) != 0) {
        fail_msg("out of memory");
    }
    arena.on_failure = &failed;
    struct buffer page;
    buffer_start(&page, &arena);
    make_page(&page);
    assert_accepted(PAGE_PATH, page.bytes, page.length);
    arena_release(&arena);
}

/* Every entry is complete enough to be a page of its own. */
static void every_entry_explains_itself(void **state)
{
    (void)state;
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        assert_true(strlen(entry->name) > 0);
        assert_int_equal(strspn(entry->name, "abcdefghijklmnopqrstuvwxyz-"), strlen(entry->name));
        assert_true(strlen(entry->summary) > 0);
        assert_null(strchr(entry->summary, '\n'));
        assert_null(strchr(entry->summary, '|')); /* it stands in a table */
        assert_true(strlen(entry->why) > 100);
        assert_string_not_equal(entry->wrong, entry->right);
        assert_int_equal(entry->wrong[strlen(entry->wrong) - 1], '\n');
        assert_int_equal(entry->right[strlen(entry->right) - 1], '\n');
        assert_int_equal(diagnostic_find(text_from(entry->name)), id);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_page_is_what_the_registry_says),
        cmocka_unit_test(every_entry_explains_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
