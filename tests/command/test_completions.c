/* Completions for bash, zsh and fish, made from the tables of verbs and options: docs/completions/.  POTASH_ACCEPT=1 writes them anew.
 * bash's are asked for words as a person at a prompt would ask; the others are run through their shell's parser where it is there. */
#define _GNU_SOURCE

#include "base/buffer.h"
#include "command/command.h"
#include "support/accepted.h"
#include "support/arena_help.h"
#include "support/program.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char bash_path[] = "docs/completions/potash.bash";
static const char zsh_path[] = "docs/completions/_potash";
static const char fish_path[] = "docs/completions/potash.fish";

static bool takes(const struct verb *verb, const struct option *option)
{
    return (option->verbs >> verb->id & 1) != 0;
}

/* The words that may stand behind an option: its choices, or for --as the verb's formats. */
static const char *values_of(const struct verb *verb, const struct option *option)
{
    struct buffer out;
    buffer_start(&out, &arena);
    if (strcmp(option->name, "--as") == 0) {
        for (unsigned i = 0; i < FORMATS; i++) {
            if ((verb->formats >> i & 1) != 0) {
                buffer_format(&out, "%s%s", out.length == 0 ? "" : " ", format_names[i]);
            }
        }
    }
    for (size_t i = 0; option->choices[i] != NULL; i++) {
        buffer_format(&out, "%s%s", out.length == 0 ? "" : " ", option->choices[i]);
    }
    return out.length == 0 ? "" : buffer_finish(&out);
}

static const char *options_of(const struct verb *verb)
{
    struct buffer out;
    buffer_start(&out, &arena);
    for (size_t i = 0; i < option_count; i++) {
        if (takes(verb, &option_table[i])) {
            buffer_format(&out, "%s%s", out.length == 0 ? "" : " ", option_table[i].name);
        }
    }
    return buffer_finish(&out);
}

/* For text between single quotes of a shell. */
static const char *quoted(const char *text, const char *escaped)
{
    struct buffer out;
    buffer_start(&out, &arena);
    for (; *text != '\0'; text++) {
        if (*text == '\'') {
            buffer_string(&out, "'\\''");
        } else {
            buffer_format(&out, "%s%c", strchr(escaped, *text) != NULL ? "\\" : "", *text);
        }
    }
    return buffer_finish(&out);
}

static bool reads_files(const struct verb *verb)
{
    return strstr(verb->arguments, "PATH") != NULL || strcmp(verb->arguments, "A B") == 0;
}

/* ---- what is made ---- */

static void make_bash(struct buffer *out)
{
    buffer_string(out, "# bash: source this file, or put it into a folder of completions.  Made from the tables of src/command/.\n"
                       "_potash()\n{\n    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} verb= i\n"
                       "    for ((i = 1; i < COMP_CWORD; i++)); do\n        case ${COMP_WORDS[i]} in\n            ");
    for (size_t i = 0; i < VERBS; i++) {
        buffer_format(out, "%s%s", i == 0 ? "" : "|", verbs[i].name);
    }
    buffer_string(out, ") verb=${COMP_WORDS[i]}; break ;;\n        esac\n    done\n    COMPREPLY=()\n    case $verb:$before in\n");
    for (size_t i = 0; i < option_count; i++) {
        bool by_verb = strcmp(option_table[i].name, "--as") == 0;
        for (size_t v = 0; v < (by_verb ? VERBS : 1); v++) {
            const char *values = values_of(&verbs[v], &option_table[i]);
            if (values[0] != '\0') {
                buffer_format(out, "        %s:%s) COMPREPLY=($(compgen -W '%s' -- \"$word\")); return ;;\n", by_verb ? verbs[v].name : "*",
                              option_table[i].name, values);
            }
        }
    }
    for (size_t i = 0; i < option_count; i++) {
        if (option_table[i].kind == VALUE_PATH) {
            buffer_format(out, "        *:%s%s%s) COMPREPLY=($(compgen -f -- \"$word\")); return ;;\n", option_table[i].name,
                          option_table[i].also != NULL ? "|*:" : "", option_table[i].also != NULL ? option_table[i].also : "");
        }
    }
    bool first = true;
    for (size_t i = 0; i < option_count; i++) {
        bool free_text = option_table[i].kind != VALUE_NONE && option_table[i].kind != VALUE_PATH && option_table[i].choices[0] == NULL &&
                         strcmp(option_table[i].name, "--as") != 0;
        if (free_text) {
            buffer_format(out, "%s*:%s", first ? "        " : "|", option_table[i].name);
            first = false;
        }
    }
    buffer_string(out, ") return ;;\n    esac\n    case $verb:$word in\n        :*) COMPREPLY=($(compgen -W '");
    for (size_t i = 0; i < VERBS; i++) {
        buffer_format(out, "%s ", verbs[i].name);
    }
    buffer_string(out, "--help --version' -- \"$word\")) ;;\n");
    for (size_t v = 0; v < VERBS; v++) {
        buffer_format(out, "        %s:-*) COMPREPLY=($(compgen -W '%s' -- \"$word\")) ;;\n", verbs[v].name, options_of(&verbs[v]));
    }
    first = true;
    for (size_t v = 0; v < VERBS; v++) {
        if (reads_files(&verbs[v])) {
            buffer_format(out, "%s%s:*", first ? "        " : "|", verbs[v].name);
            first = false;
        }
    }
    buffer_string(out, ") COMPREPLY=($(compgen -d -S / -- \"$word\") $(compgen -f -X '!*.bath' -- \"$word\")) ;;\n    esac\n}\n"
                       "complete -o filenames -F _potash potash\n");
}

static void make_zsh(struct buffer *out)
{
    buffer_string(out, "#compdef potash\n# zsh: put this file into a folder of $fpath.  Made from the tables of src/command/.\n"
                       "local -a verbs\nverbs=(\n");
    for (size_t v = 0; v < VERBS; v++) {
        buffer_format(out, "    '%s:%s'\n", verbs[v].name, quoted(verbs[v].summary, ":"));
    }
    buffer_string(out, ")\nif (( CURRENT == 2 )); then\n    _describe verb verbs\n    return\nfi\nlocal verb=$words[2]\n"
                       "shift words\n(( CURRENT-- ))\ncase $verb in\n");
    for (size_t v = 0; v < VERBS; v++) {
        buffer_format(out, "    %s) _arguments", verbs[v].name);
        for (size_t i = 0; i < option_count; i++) {
            const struct option *option = &option_table[i];
            if (!takes(&verbs[v], option)) {
                continue;
            }
            const char *values = values_of(&verbs[v], option);
            buffer_format(out, " \\\n        '%s%s[%s]", option->repeats ? "*" : "", option->name, quoted(option->help, "[]:"));
            if (option->kind != VALUE_NONE) {
                buffer_format(out, ":%s:", quoted(option->value, ":"));
                buffer_format(out, values[0] != '\0' ? "(%s)" : "%s", option->kind == VALUE_PATH ? "_files" : values);
            }
            buffer_string(out, "'");
        }
        buffer_string(out, reads_files(&verbs[v]) ? " \\\n        '*:file:_files -g \"*.bath(-.) *(-/)\"' ;;\n" : " ;;\n");
    }
    buffer_string(out, "esac\n");
}

static void make_fish(struct buffer *out)
{
    buffer_string(out, "# fish: put this file into a folder of completions.  Made from the tables of src/command/.\ncomplete -c potash -f\n");
    for (size_t v = 0; v < VERBS; v++) {
        buffer_format(out, "complete -c potash -n __fish_use_subcommand -a %s -d '%s'\n", verbs[v].name, quoted(verbs[v].summary, ""));
    }
    for (size_t v = 0; v < VERBS; v++) {
        const char *when = arena_format(&arena, "complete -c potash -n '__fish_seen_subcommand_from %s'", verbs[v].name);
        if (reads_files(&verbs[v])) {
            buffer_format(out, "%s -k -a '(__fish_complete_suffix .bath)'\n", when);
        }
        for (size_t i = 0; i < option_count; i++) {
            const struct option *option = &option_table[i];
            if (!takes(&verbs[v], option)) {
                continue;
            }
            const char *values = values_of(&verbs[v], option);
            bool is_long = option->name[1] == '-';
            buffer_format(out, "%s %s %s -d '%s'", when, is_long ? "-l" : "-s", option->name + (is_long ? 2 : 1), quoted(option->help, ""));
            buffer_string(out, option->kind == VALUE_NONE ? "" : option->kind == VALUE_PATH ? " -r -F" : " -x");
            if (values[0] != '\0') {
                buffer_format(out, " -a '%s'", values);
            }
            buffer_string(out, "\n");
        }
    }
}

static void completions_are_those_of_the_tables(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        void (*make)(struct buffer *out);
    } shells[] = {{bash_path, make_bash}, {zsh_path, make_zsh}, {fish_path, make_fish}};
    for (size_t i = 0; i < sizeof shells / sizeof *shells; i++) {
        struct buffer out;
        buffer_start(&out, &arena);
        shells[i].make(&out);
        assert_accepted(shells[i].path, out.bytes, out.length);
    }
}

/* ---- what a shell makes of them ---- */

/* What bash offers for the last of these words, a word on each line, sorted. */
static char *offered(const char *words, int last)
{
    const char *script = arena_format(&arena, ". %s; COMP_WORDS=(%s); COMP_CWORD=%d; _potash; printf '%%s\\n' \"${COMPREPLY[@]}\" | LC_ALL=C sort",
                                      bash_path, words, last);
    const char *const arguments[] = {"--norc", "-c", script, NULL};
    struct run run = run_program("bash", arguments, NULL, 0);
    assert_status(&run, 0);
    assert_string_equal(run.error, "");
    char *copy = arena_copy(&arena, run.output, run.output_length);
    run_free(&run);
    return copy;
}

static void bash_offers_what_fits(void **state)
{
    (void)state;
    assert_string_equal(offered("potash sh", 1), "sheet\nshelf\nshow\n");
    assert_string_equal(offered("potash label --s", 2), "--shelf\n--silence\n--size\n--start\n--strict\n");
    assert_string_equal(offered("potash check --g", 2), "\n"); /* a grid is the labels' */
    assert_string_equal(offered("potash check --as ''", 3), "json\nsarif\ntext\n");
    assert_string_equal(offered("potash tidy --as ''", 3), "text\n");
    assert_string_equal(offered("potash sheet x.bath --paper L", 4), "Letter\n");
    assert_string_equal(offered("potash cost --price-by ''", 3), "average\ncheapest\noldest\n");
    assert_string_equal(offered("potash sheet --title ''", 3), "\n");
    assert_string_equal(offered("potash sheet samples/film", 2),
                        "samples/film-developer-soft.bath\nsamples/film-developer.bath\n");
    assert_string_equal(offered("potash sheet -o Make", 3), "Makefile\n");
    assert_string_equal(offered("potash sheet docs/schema/s", 2), "\n"); /* no file of formulas */
}

/* The shell's own parser; without the shell, quotes that pair and no bracket left open. */
static void others_are_well_formed(void **state)
{
    (void)state;
    static const char *const shells[][2] = {{"zsh", zsh_path}, {"fish", fish_path}, {"bash", bash_path}};
    for (size_t i = 0; i < sizeof shells / sizeof *shells; i++) {
        bool there = access(arena_format(&arena, "/usr/bin/%s", shells[i][0]), X_OK) == 0 ||
                     access(arena_format(&arena, "/bin/%s", shells[i][0]), X_OK) == 0;
        if (!there) {
            printf("skipped: %s is not here to parse %s\n", shells[i][0], shells[i][1]);
        }
        /* A POSIX shell reads words and quotes as they do; the heads of zsh's and fish's own statements are left out. */
        const char *filter = "grep -E \"^(complete| *'|    [a-z]+\\) _arguments)\" %s | sed -e 's/ \\\\\\\\$//' -e 's/^ *[a-z]*) //' -e 's/ ;;$//'"
                             " | while IFS= read -r line; do eval \"set -- $line\" || exit 1; done";
        const char *const words[] = {there ? "-n" : "-c", there ? shells[i][1] : arena_format(&arena, filter, shells[i][1]), NULL};
        struct run run = run_program(there ? shells[i][0] : "sh", words, NULL, 0);
        assert_status(&run, 0);
        assert_string_equal(run.error, "");
        run_free(&run);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(completions_are_those_of_the_tables),
        WITH_ARENA(bash_offers_what_fits),
        WITH_ARENA(others_are_well_formed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
