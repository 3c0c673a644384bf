/* What leaves the program, by whatever verb and in whatever format, does nothing to a terminal, a spreadsheet or the order of figures,
 * whatever stands in titles, notes, names, options and the names of files.  The verbs and options are those of the tables. */
#define _GNU_SOURCE

#include "support/program.h"

#include "base/shown.h"
#include "command/command.h"

#include <ctype.h>
#include <fcntl.h>
#include <jansson.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* The commands of a terminal are those of ECMA-48: ESC with ] (a title) or [ (clear, colour), and CSI as one sign, U+009B. */
#define HOSTILE "x\033]0;own\007 \033[2J\xC2\x9B" "31m \u202E9+1\u2066 \u200F\uFEFF\u00AD\x7F\x01\u2028\U000E0041" "z"
#define UNSEEN "w\u202Eor\u00ADd" /* in bare words, where a control sign is an error */
#define SHOWN "x\uFFFD]0;own\uFFFD \uFFFD[2J\uFFFD31m \uFFFD9+1\uFFFD"

static const char text[] =
    "# a comment " HOSTILE "\n"
    "material flour " UNSEEN "\n    also x " HOSTILE "\n    form powder NaCl usual\n    source \"" HOSTILE "\"\n"
    "rule " UNSEEN "\n    in developer\n    when metol over 1 g/L\n    warn \"" HOSTILE "\"\n    source \"" HOSTILE "\"\n"
    "formula \"" HOSTILE "\"\n    kind developer\n    after \"" HOSTILE "\"\n    note \"" HOSTILE "\"\n"
    "    water 750 mL\n    metol 3 g note \"" HOSTILE "\"\n    sodium sulfite (anhydrous) 45 g\n    sodium carbonate (anhydrous) 60 g\n"
    "    do \"" HOSTILE "\"\n    water to make 1 L\n"
    "    use for \"" HOSTILE "\"\n        dilute 1+2\n        time 90 s\n        temperature 20 °C\n        agitate \"" HOSTILE "\"\n"
    "    keeps 6 months in " UNSEEN "\n"
    "shelf \"" HOSTILE "\"\n    currency GBP\n"
    "    holds metol 100 g for 18.50 left 64 g opened 2026-06-14 best before 2026-06-30 lot \"=1+1\" from \"" HOSTILE "\"\n"
    "    holds sodium sulfite (anhydrous) 100 g for 18.50 left 64 g best before 2026-06-30 lot \"-12.5\" from \"@SUM(A1)\"\n"
    "    holds sodium carbonate (anhydrous) 100 g for 8 left 6 g best before 2026-06-30 lot \"\t+1-1\" from \" \xEF\xBC\x9D" "1+1\"\n"
    "    holds hydroquinone 100 g for 8 left 6 g best before 2026-06-30 lot \"" HOSTILE "\" from \"'quoted'\"\n"
    "batch \"" HOSTILE "\" of \"" HOSTILE "\"\n    mixed 2026-06-01\n    made 1 L\n    note \"" HOSTILE "\"\n"
    "process \"" HOSTILE "\"\n    note \"" HOSTILE "\"\n    tank 500 mL\n    bath \"" HOSTILE "\" for \"" HOSTILE "\" 90 s\n";

static const char file_name[] = "ev\nil\033[31m\u202E.bath";

/* ---- what may leave ---- */

/* A form feed on a line of its own begins a sheet of text; CR LF ends the lines of CSV and iCalendar. */
static void assert_safe(const char *where, const char *bytes, size_t length)
{
    if (!shown_is_plain((struct text){bytes, length}) || memchr(bytes, '\t', length) != NULL) {
        for (size_t at = 0; at < length; at++) {
            if (bytes[at] == '\t' || !shown_is_plain((struct text){bytes + at, 1 + strspn(bytes + at + 1, "\x80\xBF")})) {
                print_error("%s: byte 0x%02X at %zu\n", where, (unsigned)(unsigned char)bytes[at], at);
            }
        }
        fail_msg("%s: signs that are not seen left the program", where);
    }
}

static bool holds_string(json_t *json, const char *wanted)
{
    if (json_is_string(json)) {
        return strstr(json_string_value(json), wanted) != NULL;
    }
    const char *key;
    json_t *member;
    size_t index;
    json_object_foreach(json, key, member)
    {
        if (holds_string(member, wanted)) {
            return true;
        }
    }
    json_array_foreach(json, index, member)
    {
        if (holds_string(member, wanted)) {
            return true;
        }
    }
    return false;
}

/* Where the text shows the title, the JSON has it whole. */
static void assert_json_is_whole(const char *where, const struct run *run, bool shows_title)
{
    json_error_t error;
    json_t *json = json_loadb(run->output, run->output_length, 0, &error);
    if (json == NULL) {
        fail_msg("%s: %s", where, error.text);
    }
    if (shows_title && !holds_string(json, HOSTILE)) {
        fail_msg("%s: the title is not in the JSON", where);
    }
    json_decref(json);
}

/* RFC 4180; and no field that a spreadsheet works out, but numbers stay numbers. */
static void assert_csv_is_defused(const char *csv)
{
    bool begins = true;
    bool quoted = false;
    for (const char *at = csv; *at != '\0'; at++) {
        if (begins) {
            quoted = *at == '"';
            const char *field = at + strspn(at, "\" ");
            bool number = isdigit((unsigned char)field[field[0] == '-']) && field[1 + strspn(field + 1, "0123456789.")] == ',';
            assert_true(strchr("=+-@\t\r", *field) == NULL || *field == '\r' || number);
            assert_false(strncmp(field, "＝", 3) == 0);
        } else if (*at == '"') {
            quoted = !quoted;
        }
        begins = !quoted && !(begins && *at == '"') && (*at == ',' || *at == '\n');
    }
    assert_non_null(strstr(csv, ",'=1+1,"));
    assert_non_null(strstr(csv, ",-12.5,"));
    assert_non_null(strstr(csv, ",'@SUM(A1),"));
    assert_non_null(strstr(csv, "' +1-1,"));
    assert_non_null(strstr(csv, ",' ＝1+1,"));
    assert_non_null(strstr(csv, ",''quoted',"));
}

/* RFC 5545, 3.1: lines end with CR LF and have at most 75 octets; those that go on begin with a blank, and no character is cut. */
static void assert_calendar_is_folded(const char *calendar)
{
    for (const char *at = calendar; *at != '\0';) {
        const char *end = strstr(at, "\r\n");
        assert_non_null(end);
        assert_true(end - at <= 75);
        assert_null(memchr(at, '\n', (size_t)(end - at)));
        assert_true(((unsigned char)*(at + (*at == ' ')) & 0xC0) != 0x80);
        at = end + 2;
    }
}

/* ---- the runs ---- */

static void check_run(const struct verb *verb, const char *format, const char *file, const char *more, bool *shows_title)
{
    char where[200];
    snprintf(where, sizeof where, "%s --as %s%s", verb->name, format, more == NULL ? "" : ", two");
    struct run run = run_potash(verb->name, "--as", format, file, more, NULL);
    bool tidied = verb->id == VERB_TIDY && run.status == 0; /* its output is the file itself */
    assert_true(run.status == 0 || run.status == 1 || run.status == 2);
    assert_safe(where, run.error, run.error_length);
    if (strcmp(format, "pdf") == 0 && run.output_length > 0) {
        const char *pdf = scratch_file("out.pdf", run.output, run.output_length);
        struct run words = run_program("pdftotext", (const char *[]){"-enc", "UTF-8", pdf, "-", NULL}, NULL, 0);
        assert_status(&words, 0);
        for (size_t i = 0; i < words.output_length; i++) { /* its own ends of pages and columns */
            words.output[i] = words.output[i] == '\f' ? '\n' : words.output[i];
        }
        assert_safe(where, words.output, words.output_length);
        run_free(&words);
    } else if (!tidied) {
        assert_safe(where, run.output, run.output_length);
    }
    bool good = run.status < 2 && run.output_length > 0;
    if (strcmp(format, "text") == 0) {
        *shows_title = !tidied && strstr(run.output, SHOWN) != NULL;
    } else if (strcmp(format, "json") == 0 && good) {
        assert_json_is_whole(where, &run, *shows_title);
    } else if (strcmp(format, "csv") == 0 && good) {
        assert_csv_is_defused(run.output);
    } else if (strcmp(format, "ical") == 0 && good) {
        assert_calendar_is_folded(run.output);
    }
    run_free(&run);
}

static void every_verb_in_every_format(void **state)
{
    (void)state;
    static const char *const formats[] = {"text", "json", "sarif", "html", "pdf", "csv", "ical"};
    const char *file = scratch_text(file_name, text);
    setenv("SOURCE_DATE_EPOCH", "1781913600", 1); /* 2026-06-20 */
    size_t titles = 0;
    for (size_t v = 0; v < VERBS; v++) {
        bool shows_title = false;
        for (size_t f = 0; f < sizeof formats / sizeof *formats; f++) {
            check_run(&verbs[v], formats[f], file, NULL, &shows_title);
            titles += f == 0 && shows_title;
        }
        check_run(&verbs[v], "text", HOSTILE, file, &shows_title);
        check_run(&verbs[v], "json", file, file, &(bool){false});
    }
    unsetenv("SOURCE_DATE_EPOCH");
    assert_true(titles >= 6); /* the file says something by most verbs */
    scratch_remove();
}

/* What was typed is repeated in messages. */
static void options_and_words(void **state)
{
    (void)state;
    const char *file = scratch_text(file_name, text);
    for (size_t i = 0; i < option_count; i++) {
        const struct option *option = &option_table[i];
        const char *verb = verbs[__builtin_ctz(option->verbs)].name;
        char given[200];
        snprintf(given, sizeof given, "%s=a\nb" HOSTILE, option->name);
        if (strcmp(option->name, "-o") != 0 && strncmp(option->name, "--record", 8) != 0) {
            struct run run = run_potash(verb, file, given, NULL);
            assert_safe(option->name, run.error, run.error_length);
            assert_safe(option->name, run.output, run.output_length);
            run_free(&run);
        }
    }
    const char *const calls[][3] = {{HOSTILE, NULL, NULL},
                                    {"--" HOSTILE, NULL, NULL},
                                    {"reckon", "1+29 for " HOSTILE " 300 mL", NULL},
                                    {"reckon", "30 g sodium carbonate (anhydrous) as " HOSTILE, NULL},
                                    {"why", HOSTILE, NULL},
                                    {"materials", HOSTILE, NULL},
                                    {"materials", "--like", HOSTILE},
                                    {"check", "none\nx\033", NULL},
                                    {"check", "none\xFF\xC2", NULL},
                                    {"sheet", file, "--record-in=/none\n\033[2J"},
                                    {"sheet", file, "-o/none\n\033[2J"},
                                    {"sheet", file, "--record"}};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        struct run run = run_potash(calls[i][0], calls[i][1], calls[i][2], NULL);
        assert_true(run.status != 0);
        assert_safe(calls[i][0], run.error, run.error_length);
        assert_safe(calls[i][0], run.output, run.output_length);
        assert_non_null(strchr(run.error, '\n'));
        run_free(&run);
    }
    scratch_remove();
}

/* A name that is no UTF-8 and holds the end of a line. */
static void names_of_files_are_bytes(void **state)
{
    (void)state;
    const char *file = scratch_text("ev\nil\033[31m\xFF.bath", "formula \"x\"\nkind other\nsodium chlorid 10 g\nwater to make 1 L\n");
    struct run run = run_potash("check", file, NULL);
    assert_status(&run, 1);
    assert_says(&run, "/ev\uFFFDil\uFFFD[31m\uFFFD.bath:3:1: error:");
    assert_safe("check", run.error, run.error_length);
    run_free(&run);
    run = run_potash("tidy", "--verify", file, NULL);
    assert_prints(&run, "/ev\uFFFDil\uFFFD[31m\uFFFD.bath\n");
    run_free(&run);
    scratch_remove();
}

/* The exit status of a call whose standard output is a terminal; *shown is what reached it. */
static int run_on_terminal(const char *file, char *shown, size_t size)
{
    int terminal = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(terminal >= 0 && grantpt(terminal) == 0 && unlockpt(terminal) == 0);
    int screen = open(ptsname(terminal), O_RDWR | O_NOCTTY);
    assert_true(screen >= 0);
    pid_t child = fork();
    if (child == 0) {
        dup2(screen, STDOUT_FILENO);
        execl(program_under_test(), program_under_test(), "tidy", file, (char *)NULL);
        _exit(127);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    fcntl(terminal, F_SETFL, O_NONBLOCK);
    ssize_t length = read(terminal, shown, size - 1);
    shown[length < 0 ? 0 : length] = '\0';
    close(screen);
    close(terminal);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* Tidied text is a file, and not altered; a terminal that it could do something to does not get it. */
static void tidied_text_is_whole_or_not_given(void **state)
{
    (void)state;
    char shown[4000];
    const char *hostile = scratch_text("hostile.bath", "formula \"a\033[2J\"\n    kind other\n    sodium chloride 10 g\n    water to make 1 L\n");
    assert_int_equal(run_on_terminal(hostile, shown, sizeof shown), 2);
    assert_string_equal(shown, "");
    struct run run = run_potash("tidy", hostile, NULL);
    assert_status(&run, 0);
    assert_prints(&run, "formula \"a\033[2J\"\n");
    run_free(&run);
    const char *plain = scratch_text("plain.bath", "formula \"ab\tc\"\n    kind other\n    sodium chloride 10 g\n    water to make 1 L\n");
    assert_int_equal(run_on_terminal(plain, shown, sizeof shown), 0);
    assert_non_null(strstr(shown, "formula \"ab"));
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_verb_in_every_format),
        cmocka_unit_test(options_and_words),
        cmocka_unit_test(names_of_files_are_bytes),
        cmocka_unit_test(tidied_text_is_whole_or_not_given),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
