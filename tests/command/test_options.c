/* Every verb with every option, as the tables say and as the contract does; wrong calls, each refused in one line; help and its examples. */
#define _GNU_SOURCE

#include "base/arena.h"
#include "base/utf8.h"
#include "command/command.h"
#include "support/program.h"

#include <stdio.h>
#include <string.h>

static int clean_up(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

/* A call in words of a shell: blanks part them, and single quotes keep them together. */
static struct run run_call(const char *call)
{
    char *line = NULL;
    assert_true(asprintf(&line, "%s %s", program_under_test(), call) > 0);
    const char *const words[] = {"-c", line, NULL};
    struct run run = run_program("sh", words, NULL, 0);
    free(line);
    return run;
}

/* Refused with status 2, nothing on standard output and one line on standard error that holds `says`. */
static void assert_refused(const char *call, const char *says)
{
    struct run run = run_call(call);
    const char *end = strchr(run.error, '\n');
    if (run.status != 2 || run.output_length > 0 || end == NULL || end[1] != '\0' || strstr(run.error, says) == NULL) {
        fail_msg("potash %s: status %d, %zu bytes of output, says: %s(wanted: %s)", call, run.status, run.output_length, run.error, says);
    }
    run_free(&run);
}

static void assert_alike(const char *one, const char *other)
{
    struct run a = run_call(one);
    struct run b = run_call(other);
    assert_status(&a, b.status);
    assert_true(a.status < 2 && a.output_length > 0);
    assert_string_equal(a.output, b.output);
    assert_string_equal(a.error, b.error);
    run_free(&a);
    run_free(&b);
}

/* ---- the tables ---- */

static const char *arguments_of(enum verb_id verb)
{
    static const char *const arguments[VERBS] = {
        [VERB_SHEET] = "samples/film-developer.bath samples/shelf.bath", [VERB_PROCESS] = "samples/processes.bath", [VERB_LABEL] = "samples/film-developer.bath samples/batches.bath",
        [VERB_RECKON] = "1+29 for 300 mL", [VERB_CHECK] = "samples/film-developer.bath",
        [VERB_COMPARE] = "samples/plain-fixer.bath samples/plain-fixer.bath", [VERB_TIDY] = "samples/stop-bath.bath",
        [VERB_SHOW] = "samples/film-developer.bath", [VERB_BOOK] = "samples/film-developer.bath", [VERB_SHELF] = "samples/darkroom.bath",
        [VERB_COST] = "samples/film-developer.bath samples/shelf.bath", [VERB_SAFETY] = "samples/film-developer.bath", [VERB_MATERIALS] = "metol",
        [VERB_WHY] = "range-given", [VERB_EDITOR] = ""};
    return arguments[verb];
}

/* A value that holds for the samples, where the table's example would not. */
static const char *value_for(const struct verb *verb, const struct option *option)
{
    static const struct {
        const char *option, *verb, *value;
    } values[] = {
        {"--title", "process", "'Roll film'"}, {"--title", "compare", "'Sea lavender plain fixer'"}, {"--title", NULL, "'Tern film developer'"},
        {"--for", NULL, "film"}, {"--batch", NULL, "TFD-001"}, {"--called", NULL, "Club"}, {"--mix", NULL, "'5 L of Glasswort fixer'"},
        {"--shelf", NULL, "samples/shelf.bath"}, {"--silence", NULL, "range-given"}, {"--library", NULL, "stdlib"}, {"--as", NULL, "text"},
        {"--known-as", NULL, "samples/fixer.bath"}, {"-o", NULL, "SCRATCH/out"}, {"--record-in", NULL, "SCRATCH/diary"},
        {"--temperature", NULL, "'22 °C'"}, {"--within", NULL, "2%"},
    };
    for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
        if (strcmp(values[i].option, option->name) == 0 && (values[i].verb == NULL || strcmp(values[i].verb, verb->name) == 0)) {
            return values[i].value;
        }
    }
    return option->value == NULL ? "" : option->value;
}

/* Whether what the table says is so: the option is taken and the call good, or it is refused with the verbs that have it. */
static void try_option(const struct verb *verb, const struct option *option)
{
    const char *value = value_for(verb, option);
    bool scratch = strncmp(value, "SCRATCH/", 8) == 0;
    bool in_place = strcmp(option->name, "--in-place") == 0;
    bool like = strcmp(option->name, "--like") == 0;
    char *call = NULL;
    char record[300];
    snprintf(record, sizeof record, "--record-in %s", scratch_path("diary"));
    const char *with = option->formats != 0 ? "--as pdf" : ""; /* what it has an effect with */
    for (size_t i = 0; i < option_need_count; i++) {
        bool needs = option_needs[i].verb == verb->id && strcmp(option_needs[i].option, option->name) == 0;
        const char *wanted = verb->id == VERB_SHELF   ? "--mix 'Roll film'"
                             : verb->id == VERB_SHEET ? record
                             : verb->id == VERB_TIDY  ? "--in-place"
                                                      : "--of working";
        with = needs ? wanted : with;
        in_place = in_place || (needs && verb->id == VERB_TIDY);
    }
    const char *arguments = in_place ? scratch_text("tidy.bath", "formula \"x\"\n") : like ? "" : arguments_of(verb->id);
    assert_true(asprintf(&call, "%s %s %s %s %s", verb->name, arguments, option->name, scratch ? scratch_path(value + 8) : value, with) > 0);
    struct run run = run_call(call);
    if ((option->verbs >> verb->id & 1) != 0) {
        if (run.status > 1) {
            fail_msg("potash %s: status %d, says: %s", call, run.status, run.error);
        }
    } else {
        char refusal[80];
        snprintf(refusal, sizeof refusal, "potash: %s does not take %s; ", verb->name, option->name);
        /* of the option's old spelling another may be known here */
        bool old_here = strstr(run.error, "does not take") == NULL && verb->id == VERB_SHELF;
        if (!old_here && (run.status != 2 || run.output_length > 0 || strncmp(run.error, refusal, strlen(refusal)) != 0)) {
            fail_msg("potash %s: status %d, says: %s", call, run.status, run.error);
        }
    }
    run_free(&run);
    free(call);
    scratch_remove();
}

static void each_verb_takes_what_the_table_says(void **state)
{
    (void)state;
    for (size_t v = 0; v < VERBS; v++) {
        for (size_t i = 0; i < option_count; i++) {
            try_option(&verbs[v], &option_table[i]);
        }
    }
}

/* The contract's options (docs: the notation's contract, its sections on the command and on the ledger), written out by hand. */
static void the_contracts_options_are_taken(void **state)
{
    (void)state;
    static const char formulas[] = "check sheet label cost safety show book shelf";
    static const char readers[] = "check sheet label cost safety show book shelf compare process";
    static const char all[] = "check sheet label cost safety compare show tidy shelf process book materials reckon why"; /* that print */
    static const char every[] = "check sheet label cost safety compare show tidy shelf process book materials reckon why editor";
    static const char checkers[] = "check sheet label cost safety show book shelf compare process editor";
    static const struct {
        const char *option, *verbs;
    } rows[] = {
        {"--title", readers}, {"--make", formulas}, {"--as", all}, {"-o", all}, {"--strict", readers}, {"--library", every},
        {"--help", every}, {"--version", every}, {"--in-place", "tidy"}, {"--verify", "tidy"}, {"--record", "sheet"}, {"--record-in", "sheet"},
        {"--using-shelf", "sheet"}, {"--temperature", "sheet"}, {"--date", readers}, {"--shelf", readers}, {"--silence", checkers},
    };
    for (size_t r = 0; r < sizeof rows / sizeof *rows; r++) {
        for (size_t v = 0; v < VERBS; v++) {
            bool wanted = false;
            for (const char *at = rows[r].verbs; (at = strstr(at, verbs[v].name)) != NULL; at++) {
                size_t length = strlen(verbs[v].name);
                wanted = wanted || ((at == rows[r].verbs || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0'));
            }
            bool found = false;
            for (size_t i = 0; i < option_count; i++) {
                found = found || (strcmp(option_table[i].name, rows[r].option) == 0 && (option_table[i].verbs >> v & 1) != 0);
            }
            if (found != wanted) {
                fail_msg("%s %s", verbs[v].name, rows[r].option);
            }
        }
    }
}

/* ---- calls ---- */

static void wrong_calls_say_what_to_write(void **state)
{
    (void)state;
    static const char *const calls[][2] = {
        {"", "write potash VERB PATH…, as in: potash sheet formulas.bath"},
        {"chekc x", "there is no verb \"chekc\"; did you mean check?"},
        {"sheets x", "did you mean sheet?"},
        {"xyzzy x", "there is no verb \"xyzzy\"; the verbs: potash --help"},
        {"sheet", "name a file, a folder or -"},
        {"tidy", "name a file, a folder or -"},
        {"compare samples/stop-bath.bath", "name two formulas, each as FILE or FILE#\"Title\""},
        {"reckon", "give a sum, as in: potash reckon"},
        {"materials metol --like metol", "give either a name or --like"},
        {"check x --grid 2x4", "check does not take --grid; label does"},
        {"check x --record", "check does not take --record; sheet does"},
        {"sheet x --rolls 4", "sheet does not take --rolls; process, shelf and cost do"},
        {"why x --in-place", "why does not take --in-place; tidy does"},
        {"--grid 2x4 check x", "check does not take --grid; label does"},
        {"check x --silense range-given", "there is no option --silense; did you mean --silence?"},
        {"sheet x --temp 22", "there is no option --temp; did you mean --temperature?"},
        {"sheet x --colour", "there is no option --colour; the options: potash sheet --help"},
        {"sheet x -x", "there is no option -x"},
        {"--colour", "there is no option --colour; the options: potash --help"},
        {"sheet x --title", "--title wants a value; write it as --title"},
        {"sheet x --title=", "--title wants a value"},
        {"sheet x --title ''", "--title wants a value"},
        {"sheet --title --strict x", "--title wants a value, and --strict is an option"},
        {"sheet x -o", "-o wants a value; write it as -o FILE"},
        {"sheet x --strict=yes", "--strict takes no value; write it as --strict alone"},
        {"sheet x --title a --title b", "--title is given twice; give it once"},
        {"sheet x --title a --title=a", "--title is given twice"},
        {"sheet x --strict --strict", "--strict is given twice"},
        {"sheet x -o a --output b", "-o is given twice"},
        {"label x --size 99x67 --label 99x67", "--size is given twice"},
        {"sheet x --as smoke", "sheet comes as text, json, html or pdf, not as \"smoke\""},
        {"sheet x --as csv", "sheet comes as text, json, html or pdf, not as \"csv\""},
        {"check x --as html", "check comes as text, json or sarif, not as \"html\""},
        {"shelf x --as sarif", "shelf comes as text, json, html, pdf, csv or ical, not as \"sarif\""},
        {"tidy x --as json", "tidy comes as text, not as \"json\""},
        {"sheet x --record --as json", "a batch for a diary comes as text, not as \"json\""},
        {"check x --depends y --as json", "what --depends writes comes as text, not as \"json\""},
        {"check x --depends y --without metol", "--depends"},
        {"check x --today --date 2026-03-04", "--today"},
        {"check x --without metol --as sarif", "what --without lists comes as text or json, not as \"sarif\""},
        {"sheet x -o y.csv", "sheet comes as text, json, html or pdf, not as .csv; with --as text any name is right"},
        {"check x -o y.pdf", "check comes as text, json or sarif, not as .pdf"},
        {"reckon 1+1 -o y.ics", "reckon comes as text or json, not as .ics"},
        {"sheet x --paper napkin", "--paper takes A4 or Letter, not \"napkin\""},
        {"cost x --price-by best", "--price-by takes cheapest, oldest or average, not \"best\""},
        {"sheet x --date 2026-02-29", "--date takes a day such as 2026-03-04, or none, not \"2026-02-29\""},
        {"sheet x --date today", "--date takes a day"},
        {"shelf x --counted none", "--counted takes a day such as 2026-03-04, not \"none\""},
        {"cost x --rolls 3 --sheets 4", "--rolls does not go with --sheets"},
        {"tidy x --in-place --verify", "--in-place does not go with --verify"},
        {"tidy x --verify -o y", "--verify does not go with -o"},
        {"tidy --in-place -", "standard input cannot be changed in place"},
        {"sheet x --record-in d -o y", "--record-in does not go with -o"},
        {"label x --of working --for film", "--of does not go with --for"},
        {"sheet x --record --for film", "--record does not go with --for: a batch is the formula as it is written"},
        {"sheet x --record-in d --temperature 22 C", "--record-in does not go with --temperature"},
        {"sheet x --paper Letter", "--paper has no effect on text; add --as pdf"},
        {"sheet x -o y.html --paper A4", "--paper has no effect on html; add --as pdf"},
        {"label x --copies 2", "--copies has no effect on text; add --as pdf"},
        {"label x --size 99x67 --as json", "--size has no effect on json; add --as pdf"},
        {"label x --working 2 L", "--working has no effect on this label without --of or --for"},
        {"shelf x --rolls 2", "--rolls has no effect on this shelf without --mix"},
        {"shelf x --working 2 L", "--working has no effect on this shelf without --mix"},
        {"safety x --graduate 1 mL", "safety does not take --graduate; sheet and book do"},
        {"check samples/stop-bath.bath --title 'No such bath'", "there is no formula \"No such bath\" in these files"},
        {"check samples/stop-bath.bath --title 'No such bath' --without metol", "there is no formula \"No such bath\" in these files"},
    };
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        assert_refused(calls[i][0], calls[i][1]);
    }
}

/* A value from the command line does nothing to a terminal. */
static void messages_are_plain(void **state)
{
    (void)state;
    static const char *const calls[] = {"\"$(printf '\\033[2J')\" x", "sheet x --as \"$(printf '\\033[2J')\"", "sheet x \"$(printf -- '--a\\033[2J')\""};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        struct run run = run_call(calls[i]);
        assert_status(&run, 2);
        assert_null(strchr(run.error, '\033'));
        run_free(&run);
    }
}

/* Leap years of the Gregorian calendar: 2024 and 2000 are, 1900 and 2026 are not. */
static void days_of_the_calendar(void **state)
{
    (void)state;
    static const char *const good[] = {"2024-02-29", "2000-02-29", "2026-12-31", "none"};
    static const char *const bad[] = {"1900-02-29", "2026-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-01-00", "2026-1-1", "2026-01-01x",
                                      "0000-01-01"};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        struct run run = run_potash("sheet", "samples/stop-bath.bath", "--date", good[i], NULL);
        assert_status(&run, 0);
        run_free(&run);
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        char call[100];
        snprintf(call, sizeof call, "sheet samples/stop-bath.bath --date %s", bad[i]);
        assert_refused(call, "--date takes a day");
    }
}

/* Numbers have bounds, which are good themselves; the next beyond them is refused, in one line that says what they are. */
static void numbers_have_bounds(void **state)
{
    (void)state;
    static const struct {
        const char *call, *option;
        const char *good[3];
        const char *bad[8];
    } rows[] = {
        {"process samples/processes.bath", "--rolls", {"1", "100000"}, {"0", "100001", "99999999999", "-1", "1.5", "0x4", "1e3", "many"}},
        {"process samples/processes.bath", "--sheets", {"1", "100000 5x7", "3 '1x1 cm'"}, {"0", "0 5x7", "100001 5x7", "3 0x5", "3 '1x0.99 cm'", "3 '10001x10 cm'"}},
        {"label samples/stop-bath.bath --as pdf", "--copies", {"1", "999"}, {"0", "1000", "-1", "2.5", "0x2"}},
        {"label samples/stop-bath.bath --as pdf", "--start", {"1", "8"}, {"0", "9", "-1", "2501", "1.5"}},
        {"label samples/stop-bath.bath --as pdf --size 10x10", "--grid", {"1x1", "20x28"}, {"0x4", "4x0", "51x1", "1x51", "2.5x4", "4", "ax4"}},
        {"label samples/stop-bath.bath --as pdf --grid 1x1", "--size", {"10x10", "'210x297 mm'", "'4 x 3 in'"}, {"9.99x10", "10x9.99", "400.1x10", "10x400.1", "10", "10x10x10", "'10x10 g'"}},
        {"label samples/stop-bath.bath --as pdf --size 10x10 --grid 1x1", "--margins", {"0x0", "200x200"}, {"200.1x0", "0x200.1", "-1x0", "5"}},
        {"label samples/stop-bath.bath --as pdf --size 10x10 --grid 1x1", "--pitch", {"10x10", "400x400"}, {"9.9x10", "400.1x10", "10x400.1"}},
        {"compare samples/stop-bath.bath samples/stop-bath.bath", "--within", {"0", "99%", "99 %"}, {"99.1%", "100 %", "-1%", "nan%", "0x2", "1e1", "2%%", "2 g"}},
        {"shelf samples/darkroom.bath --date 2026-03-04", "--ahead", {"0 days", "100 years", "30 days"}, {"-1 days", "101 years", "30", "'30 g'", "'0x1e days'"}},
        {"cost samples/stop-bath.bath samples/shelf.bath", "--against", {"0", "4.80", "4.80 GBP"}, {"-1", "0x4", "1e3", "4,80", "'4 g'"}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char call[200];
        for (size_t g = 0; g < 3 && rows[i].good[g] != NULL; g++) {
            snprintf(call, sizeof call, "%s %s %s", rows[i].call, rows[i].option, rows[i].good[g]);
            struct run run = run_call(call);
            bool too_small = strstr(run.error, "does not go on") != NULL; /* a label that holds no text, which is found out later */
            if (run.status > 1 && !too_small) {
                fail_msg("potash %s: status %d, says: %s", call, run.status, run.error);
            }
            run_free(&run);
        }
        for (size_t b = 0; b < 8 && rows[i].bad[b] != NULL; b++) {
            snprintf(call, sizeof call, "%s %s %s", rows[i].call, rows[i].option, rows[i].bad[b]);
            assert_refused(call, rows[i].option);
        }
    }
}

/* One formula of several, and what it is a variant of: nothing is said of the others, in the exit status neither. */
static void check_is_of_one_title(void **state)
{
    (void)state;
    const char *path = scratch_text("titles.bath", "formula \"good\"\n kind other\n borax (decahydrate) 5 g\n water to make 1 L\n"
                                                   "formula \"bad\"\n kind other\n boraks 5 g\n water to make 1 L\n"
                                                   "variant \"cold\"\n of \"bad\"\n change water to 2 L\n");
    static const struct {
        const char *title;
        int status;
        const char *says;
    } cases[] = {{"good", 0, "1 formula: "}, {"bad", 1, "1 formula: 1 error,"}, {"cold", 1, "1 formula: "}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct run run = run_potash("check", path, "--title", cases[i].title, NULL);
        assert_status(&run, cases[i].status);
        assert_prints(&run, cases[i].says);
        assert_int_equal(strstr(run.error, "boraks") != NULL, cases[i].status != 0);
        run_free(&run);
    }
}

/* The day stands on a comparison as on every page: the one that is given, else today; none is none. */
static void compare_prints_the_day(void **state)
{
    (void)state;
    static const char *const cases[][2] = {{"--date 2026-03-04", "2026-03-04"}, {"", "2026-03-15"}, {"--date none", NULL}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char call[200]; /* 1773532800 is 2026-03-15 (GNU date) */
        snprintf(call, sizeof call, "SOURCE_DATE_EPOCH=1773532800 %s compare samples/plain-fixer.bath samples/plain-fixer.bath %s",
                 program_under_test(), cases[i][0]);
        const char *const words[] = {"-c", call, NULL};
        struct run run = run_program("sh", words, NULL, 0);
        assert_status(&run, 0);
        assert_null(strstr(run.output, "none"));
        assert_int_equal(strstr(run.output, "2026-03-") != NULL, cases[i][1] != NULL);
        if (cases[i][1] != NULL) {
            assert_prints(&run, cases[i][1]);
        }
        run_free(&run);
    }
}

static void old_spellings_go_on_working(void **state)
{
    (void)state;
    assert_alike("shelf samples/darkroom.bath --date 2026-03-04 --for 'Glasswort fixer' --make 5 L --for 'Plain citric stop'",
                 "shelf samples/darkroom.bath --date 2026-03-04 --mix '5 L of Glasswort fixer' --mix 'Plain citric stop'");
    assert_alike("shelf samples/darkroom.bath --date 2026-03-04 --within '6 months'", "shelf samples/darkroom.bath --date 2026-03-04 --ahead 6 months");
    assert_alike("label samples/stop-bath.bath --date none --as pdf --label 99.1x38.1 mm",
                 "label samples/stop-bath.bath --date none --as pdf --size 99.1x38.1");
    assert_alike("label samples/film-developer.bath --date none --of film", "label samples/film-developer.bath --date none --for Film");
    assert_alike("sheet samples/stop-bath.bath --date none --make2L", "sheet samples/stop-bath.bath --date none --make 2 L");
    assert_alike("sheet samples/stop-bath.bath --date none --make 1 1/2 L", "sheet samples/stop-bath.bath --date none --make '1.5 L'");
    assert_alike("sheet samples/film-developer.bath --date none --temperature 22 °C",
                 "sheet --date=none --temperature='22 °C' samples/film-developer.bath");
    assert_alike("process samples/processes.bath --date none --title 'Prints in trays' --sheets 12",
                 "process samples/processes.bath --date none --title 'Prints in trays' --sheets 12 '8x10 in'");
}

/* One --make is for all that --mix names without an amount, as everywhere: the size of a batch. */
static void make_is_the_size_of_a_batch(void **state)
{
    (void)state;
    assert_alike("shelf samples/darkroom.bath --date 2026-03-04 --make 5 L --mix 'Glasswort fixer' --mix 'Plain citric stop'",
                 "shelf samples/darkroom.bath --date 2026-03-04 --make 5 L --mix '5 L of Glasswort fixer' --mix '5 L of Plain citric stop'");
    const char *path = scratch_text("titles.bath", "shelf \"x\"\n currency GBP\n sold borax (decahydrate) 1 kg for 2.00\n"
                                                   "formula \"5 g of borax\"\n kind other\n borax (decahydrate) 5 g\n water to make 1 L\n");
    struct run run = run_potash("shelf", path, "--date", "none", "--mix", "5 g of borax", NULL); /* a title goes before an amount of one */
    assert_status(&run, 0);
    assert_prints(&run, "one batch of 5 g of borax");
    run_free(&run);
    run = run_potash("shelf", path, "--date", "none", "--mix", "2 L of 5 g of borax", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "2 L of 5 g of borax");
    run_free(&run);
}

/* The name of a file asks for a format; --as goes before it. */
static void names_ask_for_formats(void **state)
{
    (void)state;
    static const struct {
        const char *call, *name, *begins;
    } cases[] = {
        {"sheet samples/stop-bath.bath", "a.json", "{"},
        {"sheet samples/stop-bath.bath", "a.html", "<!DOCTYPE html>"},
        {"sheet samples/stop-bath.bath", "a.PDF", "%PDF-"},
        {"sheet samples/stop-bath.bath", "a.txt", "Plain citric stop"},
        {"sheet samples/stop-bath.bath", "a.list", "Plain citric stop"},
        {"sheet samples/stop-bath.bath --as text", "b.json", "Plain citric stop"},
        {"sheet samples/stop-bath.bath --as json", "b.csv", "{"},
        {"shelf samples/darkroom.bath", "a.csv", "list,"},
        {"shelf samples/darkroom.bath --date 2026-03-04", "a.ics", "BEGIN:VCALENDAR"},
        {"check samples/stop-bath.bath", "a.sarif", "{"},
        {"tidy samples/stop-bath.bath", "a.bath", "formula \"Plain citric stop\""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char call[1000];
        const char *path = scratch_path(cases[i].name);
        snprintf(call, sizeof call, "%s -o %s", cases[i].call, path);
        struct run run = run_call(call);
        assert_status(&run, 0);
        run_free(&run);
        size_t length;
        char *bytes = file_bytes(path, &length);
        assert_non_null(bytes);
        if (strncmp(bytes, cases[i].begins, strlen(cases[i].begins)) != 0) {
            fail_msg("%s begins: %.40s", call, bytes);
        }
        free(bytes);
    }
}

/* ---- help ---- */

static void assert_no_line_is_wider(const char *text, size_t width)
{
    for (const char *line = text; *line != '\0';) {
        size_t length = strcspn(line, "\n");
        if (utf8_width((struct text){line, length}) > width) {
            fail_msg("wider than %zu: %.*s", width, (int)length, line);
        }
        line += length + (line[length] == '\n');
    }
}

/* The verb's own options are told and no others. */
static void assert_options_of(const struct verb *verb, const char *help)
{
    for (size_t i = 0; i < option_count; i++) {
        char entry[60];
        const struct option *option = &option_table[i];
        snprintf(entry, sizeof entry, "\n  %s%s%s", strcmp(option->name, "--help") == 0 ? "-h, " : "", option->name, option->value == NULL ? "" : " ");
        const char *found = strstr(help, entry);
        bool told = found != NULL && strchr(" \n", found[strlen(entry) - (option->value != NULL)]) != NULL;
        if (told != ((option->verbs >> verb->id & 1) != 0)) {
            fail_msg("potash %s --help and %s", verb->name, option->name);
        }
    }
}

/* The examples as they stand in the help, lines that go on joined, are run on the samples. */
static size_t run_examples(const char *help)
{
    size_t count = 0;
    for (const char *at = strstr(help, "\nExamples\n"); (at = strstr(at, "\n  potash ")) != NULL; at++) {
        const char *end = at + 1;
        while ((end = strchr(end, '\n')) != NULL && end[-1] == '\\') {
            end++;
        }
        char *script = NULL;
        assert_true(asprintf(&script, "set -e; here=$PWD; case $POTASH in /*) ;; *) POTASH=$here/$POTASH ;; esac; cd %s; "
                                      "[ -d samples ] || cp -r \"$here/samples\" .; potash() { \"$POTASH\" \"$@\"; }; %.*s",
                             scratch_folder(), (int)(end - at - 1), at + 1) > 0);
        const char *const words[] = {"-c", script, NULL};
        struct run run = run_program("sh", words, NULL, 0);
        bool differs = run.status == 1 && strstr(script, "potash compare") != NULL; /* which is what its example shows */
        if (run.status != 0 && !differs) {
            fail_msg("%s: status %d, says: %s", script, run.status, run.error);
        }
        run_free(&run);
        free(script);
        count++;
    }
    return count;
}

static void help_of_each_verb(void **state)
{
    (void)state;
    static const size_t widths[] = {60, 80};
    for (size_t v = 0; v <= VERBS; v++) {
        for (size_t w = 0; w < 2; w++) {
            char call[100];
            snprintf(call, sizeof call, "COLUMNS=%zu %s %s --help", widths[w], program_under_test(), v < VERBS ? verbs[v].name : "");
            const char *const words[] = {"-c", call, NULL};
            struct run run = run_program("sh", words, NULL, 0);
            assert_status(&run, 0);
            assert_string_equal(run.error, "");
            assert_no_line_is_wider(run.output, widths[w]);
            if (v < VERBS) {
                assert_options_of(&verbs[v], run.output);
                assert_int_equal(run_examples(run.output), 2);
                scratch_remove();
            }
            run_free(&run);
        }
    }
}

/* What is shown is as wide as the terminal; what goes into a file is for any. */
static void pages_fit_the_terminal(void **state)
{
    (void)state;
    static const size_t widths[] = {50, 60, 80, 100};
    static const char *const calls[] = {"sheet samples/old-print-developer.bath", "safety samples/film-developer.bath", "show samples/film-developer.bath --as text",
                                        "compare samples/film-developer.bath samples/film-developer-soft.bath", "materials metol"};
    for (size_t c = 0; c < sizeof calls / sizeof *calls; c++) {
        for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
            char call[200];
            snprintf(call, sizeof call, "COLUMNS=%zu %s %s", widths[w], program_under_test(), calls[c]);
            const char *const words[] = {"-c", call, NULL};
            struct run run = run_program("sh", words, NULL, 0);
            assert_true(run.output_length > 300);
            assert_no_line_is_wider(run.output, widths[w]);
            run_free(&run);
        }
    }
    char call[300];
    snprintf(call, sizeof call, "COLUMNS=50 %s sheet samples/stop-bath.bath --date none -o %s && %s sheet samples/stop-bath.bath --date none | cmp - %s", program_under_test(),
             scratch_path("a.txt"), program_under_test(), scratch_path("a.txt"));
    const char *const words[] = {"-c", call, NULL};
    struct run run = run_program("sh", words, NULL, 0);
    assert_status(&run, 0);
    run_free(&run);
    scratch_remove();
}

/* Help is given whatever else is wrong with the call. */
static void help_goes_first(void **state)
{
    (void)state;
    static const char *const calls[] = {"sheet --help", "sheet --make --help", "sheet x --grid 2x4 -h", "--help sheet"};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        struct run run = run_call(calls[i]);
        assert_status(&run, 0);
        assert_true(strncmp(run.output, "potash sheet PATH", 17) == 0);
        run_free(&run);
    }
    struct run run = run_call("sheet -- --help");
    assert_status(&run, 2);
    assert_says(&run, "--help");
    run_free(&run);
}

#define WITH_SCRATCH(test) cmocka_unit_test_teardown(test, clean_up)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_SCRATCH(each_verb_takes_what_the_table_says),
        WITH_SCRATCH(the_contracts_options_are_taken),
        WITH_SCRATCH(wrong_calls_say_what_to_write),
        WITH_SCRATCH(messages_are_plain),
        WITH_SCRATCH(days_of_the_calendar),
        WITH_SCRATCH(numbers_have_bounds),
        WITH_SCRATCH(check_is_of_one_title),
        WITH_SCRATCH(compare_prints_the_day),
        WITH_SCRATCH(old_spellings_go_on_working),
        WITH_SCRATCH(make_is_the_size_of_a_batch),
        WITH_SCRATCH(names_ask_for_formats),
        WITH_SCRATCH(help_of_each_verb),
        WITH_SCRATCH(pages_fit_the_terminal), WITH_SCRATCH(help_goes_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
