/* The manual pages are made from the tables of verbs and options: docs/man/potash-VERB.1 as a whole, and in docs/man/potash.1 the lists
 * of verbs and of options.  POTASH_ACCEPT=1 writes them anew.  Each is set without a warning. */
#define _GNU_SOURCE

#include "base/buffer.h"
#include "command/command.h"
#include "support/accepted.h"
#include "support/arena_help.h"
#include "support/program.h"

#include <stdio.h>
#include <string.h>

/* ---- troff ---- */

static bool is_option_sign(char sign)
{
    return (sign >= 'a' && sign <= 'z') || sign == '-';
}

/* Text with the signs of troff's own escaped; options in it are bold. */
static void put(struct buffer *out, const char *text, size_t length)
{
    static const char *const signs[][2] = {{"°", "\\(de"}, {"…", "..."}, {"\\", "\\e"}, {"\"", "\\(dq"}, {"-", "\\-"}};
    for (size_t at = 0; at < length;) {
        bool option = text[at] == '-' && at + 2 < length && text[at + 1] == '-' && text[at + 2] >= 'a' && text[at + 2] <= 'z';
        if (option && (at == 0 || !is_option_sign(text[at - 1]))) {
            size_t end = at;
            while (end < length && is_option_sign(text[end])) {
                end++;
            }
            buffer_string(out, "\\fB");
            for (; at < end; at++) {
                buffer_format(out, "%s%c", text[at] == '-' ? "\\" : "", text[at]);
            }
            buffer_string(out, "\\fR");
            continue;
        }
        size_t found = 0;
        for (; found < sizeof signs / sizeof *signs; found++) {
            size_t size = strlen(signs[found][0]);
            if (size <= length - at && memcmp(text + at, signs[found][0], size) == 0) {
                buffer_string(out, signs[found][1]);
                at += size;
                break;
            }
        }
        if (found == sizeof signs / sizeof *signs) {
            if ((at == 0 || text[at - 1] == '\n') && (text[at] == '.' || text[at] == '\'')) {
                buffer_string(out, "\\&");
            }
            buffer_character(out, text[at++]);
        }
    }
}

static void put_text(struct buffer *out, const char *text)
{
    put(out, text, strlen(text));
}

/* A sentence on each line, as sources of manual pages have it. */
static void put_sentences(struct buffer *out, const char *text)
{
    for (const char *line = text; *line != '\0';) {
        const char *end = strstr(line, ". ");
        const char *stop = strchr(line, '\n');
        size_t length = stop != NULL && (end == NULL || stop < end) ? (size_t)(stop - line) : end == NULL ? strlen(line) : (size_t)(end + 1 - line);
        put(out, line, length);
        buffer_character(out, '\n');
        line += length + (line[length] != '\0');
    }
}

/* Paragraphs; lines that start with blanks are examples. */
static void put_manual(struct buffer *out, const char *text)
{
    bool example = false;
    for (const char *line = text; *line != '\0';) {
        size_t length = strcspn(line, "\n");
        bool indented = *line == ' ';
        if (indented != example) {
            buffer_string(out, indented ? ".PP\n.RS\n.EX\n" : ".EE\n.RE\n");
        }
        if (indented) {
            put(out, line + strspn(line, " "), length - strspn(line, " "));
            buffer_character(out, '\n');
        } else {
            buffer_string(out, line == text ? "" : ".PP\n");
            put_sentences(out, arena_copy(&arena, line, length));
        }
        example = indented;
        line += length + (line[length] == '\n');
    }
    buffer_string(out, example ? ".EE\n.RE\n" : "");
}

/* A capital and a full stop make a sentence of the help's phrase. */
static void put_option(struct buffer *out, const struct option *option)
{
    buffer_string(out, ".TP\n.BI \"");
    put_text(out, option->name);
    if (option->value != NULL) {
        buffer_string(out, "\" \" ");
        put_text(out, option->value);
    }
    buffer_string(out, "\"\n");
    char *help = arena_copy(&arena, option->help, strlen(option->help));
    help[0] = (char)(help[0] >= 'a' && help[0] <= 'z' ? help[0] - 'a' + 'A' : help[0]);
    put_text(out, help);
    buffer_string(out, ".\n");
    if (option->bounds != NULL) {
        put_text(out, arena_format(&arena, "From %s.\n", option->bounds));
    }
    if (option->formats != 0) {
        put_text(out, arena_format(&arena, "Only for %s.\n", command_first_format(option->formats)));
    }
    buffer_string(out, option->repeats ? "May be repeated.\n" : "");
    put_sentences(out, option->manual == NULL ? "" : option->manual);
    if (option->also != NULL) {
        put_text(out, arena_format(&arena, "Also %s.\n", option->also));
    }
    if (option->old != NULL) {
        put_text(out, arena_format(&arena, "Old: %s.\n", option->old));
    }
}

static void put_formats(struct buffer *out, unsigned formats)
{
    for (unsigned i = 0; i < FORMATS; i++) {
        if ((formats >> i & 1) != 0) {
            buffer_format(out, "%s%s", (formats & ((1u << i) - 1)) == 0 ? "" : formats >> i == 1 ? " or " : ", ", format_names[i]);
        }
    }
}

/* ---- pages ---- */

static const char *page_of_verb(const struct verb *verb, size_t *length)
{
    struct buffer out;
    buffer_start(&out, &arena);
    buffer_string(&out, ".\\\" Made from src/command/verbs.c and options.c by tests/docs/test_man_pages.c.\n.TH ");
    for (const char *at = verb->name; *at != '\0'; at++) {
        buffer_format(&out, "%s%c", at == verb->name ? "POTASH\\-" : "", *at - 'a' + 'A');
    }
    buffer_format(&out, " 1 2026-03-04 \"Potash %s\" \"User Commands\"\n.SH NAME\npotash\\-%s \\- ", potash_version(), verb->name);
    put_text(&out, verb->summary);
    buffer_format(&out, "\n.SH SYNOPSIS\n.B potash %s\n", verb->name);
    if (verb->arguments[0] != '\0') {
        buffer_string(&out, ".I \"");
        put_text(&out, verb->arguments);
        buffer_string(&out, "\"\n");
    }
    buffer_string(&out, ".RI [ options ]\n.SH DESCRIPTION\n");
    put_manual(&out, verb->manual);
    if (verb->formats != 0) {
        buffer_string(&out, ".PP\nIt comes as ");
        put_formats(&out, verb->formats);
        buffer_string(&out, ".\n");
    }
    buffer_string(&out, ".SH OPTIONS\n");
    for (size_t i = 0; i < option_count; i++) {
        if ((option_table[i].verbs >> verb->id & 1) != 0) {
            put_option(&out, &option_table[i]);
        }
    }
    buffer_string(&out, ".SH EXAMPLES\n");
    for (size_t i = 0; i < 2; i++) {
        buffer_string(&out, i == 0 ? "" : ".PP\n");
        put_text(&out, verb->examples[i].does);
        buffer_string(&out, ":\n.PP\n.RS\n.EX\n");
        put_text(&out, verb->examples[i].call);
        buffer_string(&out, "\n.EE\n.RE\n");
    }
    buffer_string(&out, ".SH SEE ALSO\n.BR potash (1)\n");
    *length = out.length;
    return buffer_finish(&out);
}

static const char *lists_of_all(void)
{
    struct buffer out;
    buffer_start(&out, &arena);
    buffer_string(&out, ".SH VERBS\nEach has a manual page of its own, such as\n.BR potash\\-sheet (1).\n");
    for (size_t i = 0; i < VERBS; i++) {
        buffer_format(&out, ".TP\n.BI \"%s \" \"", verbs[i].name);
        put_text(&out, verbs[i].arguments);
        buffer_string(&out, "\"\n");
        put_text(&out, verbs[i].summary);
        if (verbs[i].formats != 0) {
            buffer_string(&out, " (");
            put_formats(&out, verbs[i].formats);
            buffer_string(&out, ")");
        }
        buffer_string(&out, "\n");
    }
    buffer_string(&out, ".SH OPTIONS\n");
    for (size_t i = 0; i < option_count; i++) {
        put_option(&out, &option_table[i]);
        size_t verbs_in = 0;
        for (unsigned v = 0; v < VERBS; v++) {
            verbs_in += option_table[i].verbs >> v & 1;
        }
        if (verbs_in == VERBS) {
            continue;
        }
        size_t named = 0;
        buffer_string(&out, "(");
        for (unsigned v = 0; v < VERBS; v++) {
            if ((option_table[i].verbs >> v & 1) != 0) {
                buffer_format(&out, "%s%s", named++ == 0 ? "" : ", ", verbs[v].name);
            }
        }
        buffer_string(&out, ")\n");
    }
    return buffer_finish(&out);
}

static const char *path_of(const struct verb *verb)
{
    return arena_format(&arena, "docs/man/potash-%s.1", verb->name);
}

static void pages_are_those_of_the_tables(void **state)
{
    (void)state;
    for (size_t i = 0; i < VERBS; i++) {
        size_t length;
        const char *page = page_of_verb(&verbs[i], &length);
        assert_accepted(path_of(&verbs[i]), page, length);
    }
    char *page = file_with_part("docs/man/potash.1", ".\\\" verbs:", ".\\\" end of verbs", lists_of_all());
    assert_accepted("docs/man/potash.1", page, strlen(page));
    free(page);
}

/* The README's table of verbs: what each gives, and the options that are not every verb's. */
static void the_readme_has_the_table(void **state)
{
    (void)state;
    struct buffer out;
    buffer_start(&out, &arena);
    buffer_string(&out, "| verb | it gives | options of its own |\n| --- | --- | --- |\n");
    for (unsigned v = 0; v < VERBS; v++) {
        buffer_format(&out, "| `%s%s%s` | %s |", verbs[v].name, verbs[v].arguments[0] == '\0' ? "" : " ", verbs[v].arguments, verbs[v].summary);
        for (size_t i = 0; i < option_count; i++) {
            unsigned takers = 0;
            for (unsigned other = 0; other < VERBS; other++) {
                takers += option_table[i].verbs >> other & 1;
            }
            if ((option_table[i].verbs >> v & 1) != 0 && takers < 5) {
                buffer_format(&out, " `%s`", option_table[i].name);
            }
        }
        buffer_string(&out, " |\n");
    }
    char *page = file_with_part("README.md", "<!-- verbs:", "<!-- end of verbs", buffer_finish(&out));
    assert_accepted("README.md", page, strlen(page));
    free(page);
}

/* groff's own judgement, with all its warnings, in the widths of a narrow and a usual terminal. */
static void pages_are_set_without_a_warning(void **state)
{
    (void)state;
    static const char *const widths[] = {"60", "80"};
    for (size_t i = 0; i <= VERBS; i++) {
        const char *path = i < VERBS ? path_of(&verbs[i]) : "docs/man/potash.1";
        for (size_t w = 0; w < 2; w++) {
            const char *command = arena_format(&arena, "MANWIDTH=%s MANPAGER=cat man --warnings -l %s", widths[w], path);
            const char *const words[] = {"-c", command, NULL};
            struct run run = run_program("sh", words, NULL, 0);
            assert_status(&run, 0);
            assert_string_equal(run.error, "");
            assert_prints(&run, "NAME");
            assert_prints(&run, "potash");
            run_free(&run);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(pages_are_those_of_the_tables),
        WITH_ARENA(the_readme_has_the_table),
        WITH_ARENA(pages_are_set_without_a_warning),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
