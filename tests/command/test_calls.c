/* The command line as the contract has it: verbs, options, where output goes and with which exit status. */
#define _GNU_SOURCE

#include "support/program.h"

#include <jansson.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define BATH   "formula \"Saltmarsh bath\"\n    kind other\n    sodium chloride 5 g\n    water to make 1 L\n"
#define OTHER  "formula \"Saltmarsh brine\"\n    kind other\n    sodium chloride 50 g\n    water to make 1 L\n"
#define WARNED "formula \"Saltmarsh brine\"\n    kind other\n    sodium chloride 5 to 6 g\n    water to make 1 L\n"

static int clean_up(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

static void check_sums_up(void **state)
{
    (void)state;
    const char *good = scratch_text("good.bath", BATH);
    const char *other = scratch_text("other.bath", WARNED);
    struct run run = run_potash("check", good, NULL);
    assert_status(&run, 0);
    assert_string_equal(run.error, "");
    assert_string_equal(run.output, "1 formula: nothing to remark\n");
    run_free(&run);
    run = run_potash("check", good, other, NULL);
    assert_status(&run, 0);
    assert_string_equal(run.output, "2 formulas: 0 errors, 1 warning\n");
    assert_says(&run, "other.bath:3:21: warning: ");
    assert_says(&run, "[range-given]");
    run_free(&run);
    run = run_potash("check", "--strict", good, other, NULL);
    assert_status(&run, 1);
    run_free(&run);
    run = run_potash("check", scratch_folder(), NULL);
    assert_status(&run, 0);
    assert_prints(&run, "2 formulas:");
    run_free(&run);
}

static void diagnostics_for_programs_go_to_standard_output(void **state)
{
    (void)state;
    const char *path = scratch_text("warned.bath", WARNED);
    static const char *const formats[] = {"json", "sarif"};
    for (size_t i = 0; i < 2; i++) {
        struct run run = run_potash("check", path, "--as", formats[i], NULL);
        assert_status(&run, 0);
        assert_string_equal(run.error, "");
        json_t *root = json_loads(run.output, 0, NULL);
        assert_non_null(root);
        assert_non_null(json_object_get(root, i == 0 ? "diagnostics" : "runs"));
        json_decref(root);
        run_free(&run);
    }
}

static void one_formula_out_of_several(void **state)
{
    (void)state;
    const char *path = scratch_text("two.bath", BATH OTHER);
    struct run run = run_potash("sheet", path, NULL);
    assert_status(&run, 0);
    assert_prints(&run, "Saltmarsh bath");
    assert_prints(&run, "Saltmarsh brine");
    run_free(&run);
    run = run_potash("sheet", path, "--title", "Saltmarsh brine", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "Saltmarsh brine");
    assert_null(strstr(run.output, "Saltmarsh bath"));
    run_free(&run);
    run = run_potash("show", path, "--title=Saltmarsh brine", "--as=json", NULL);
    assert_status(&run, 0);
    json_t *root = json_loads(run.output, 0, NULL);
    assert_int_equal(json_array_size(json_object_get(root, "formulas")), 1);
    json_decref(root);
    run_free(&run);
}

/* A faulty formula does not keep a sound one from being printed when that one is asked for. */
static void a_sound_formula_beside_a_faulty_one(void **state)
{
    (void)state;
    const char *path =
        scratch_text("two.bath", BATH "formula \"Saltmarsh faulty\"\nkind other\ngarbage\nwater to make 1 L\n");
    struct run run = run_potash("sheet", path, NULL);
    assert_status(&run, 1);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
    run = run_potash("sheet", path, "--title", "Saltmarsh bath", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "Saltmarsh bath");
    run_free(&run);
    run = run_potash("sheet", path, "--title", "Saltmarsh faulty", NULL);
    assert_status(&run, 1);
    run_free(&run);
}

static void batch_sizes(void **state)
{
    (void)state;
    const char *path = scratch_text("bath.bath", BATH);
    static const char *const calls[][3] = {{"--make", "2 L", NULL},  {"--make", "2", "L"},
                                           {"--make", "2L", NULL},   {"--make=2 L", NULL, NULL},
                                           {"--make2L", NULL, NULL}, {"--make", "2000", "mL"}};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        const char *words[] = {"show", path, "--as", "json", calls[i][0], calls[i][1], calls[i][2], NULL};
        struct run run = run_program(program_under_test(), words, NULL, 0);
        assert_status(&run, 0);
        json_t *root = json_loads(run.output, 0, NULL);
        const json_t *formula = json_array_get(json_object_get(root, "formulas"), 0);
        assert_true(json_number_value(json_object_get(formula, "makes_mL")) == 2000);
        json_decref(root);
        run_free(&run);
    }
}

static void output_goes_to_a_file_in_one_step(void **state)
{
    (void)state;
    const char *path = scratch_text("bath.bath", BATH);
    const char *out = scratch_path("sheet.txt");
    struct run run = run_potash("sheet", path, NULL);
    char *printed = strdup(run.output);
    run_free(&run);
    run = run_potash("sheet", path, "-o", out, NULL);
    assert_status(&run, 0);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
    char *bytes = file_bytes(out, NULL);
    assert_string_equal(bytes, printed);
    free(bytes);
    assert_int_equal(scratch_count(), 2);
    /* Replaced, its mode kept. */
    assert_int_equal(chmod(out, 0640), 0);
    run = run_potash("sheet", path, "--make", "2 L", "--output", out, NULL);
    assert_status(&run, 0);
    run_free(&run);
    bytes = file_bytes(out, NULL);
    assert_string_not_equal(bytes, printed);
    free(bytes);
    struct stat status;
    assert_int_equal(stat(out, &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
    assert_int_equal(scratch_count(), 2);
    free(printed);
}

static void a_pipe_is_written_to_as_it_is(void **state)
{
    (void)state;
    const char *path = scratch_text("bath.bath", BATH);
    struct run run = run_potash("sheet", path, "-o", "-", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "Saltmarsh bath");
    run_free(&run);
    if (access("/dev/stdout", W_OK) == 0) { /* standard output is a pipe here */
        run = run_potash("sheet", path, "-o", "/dev/stdout", NULL);
        assert_status(&run, 0);
        assert_prints(&run, "Saltmarsh bath");
        run_free(&run);
    }
}

static void no_colour_off_a_terminal(void **state)
{
    (void)state;
    struct run run = run_potash("check", scratch_text("w.bath", WARNED), NULL);
    assert_null(strchr(run.error, '\033'));
    run_free(&run);
}

static void help_and_version(void **state)
{
    (void)state;
    struct run run = run_potash("--version", NULL);
    assert_status(&run, 0);
    assert_true(strncmp(run.output, "potash ", 7) == 0);
    run_free(&run);
    run = run_potash("--help", NULL);
    assert_status(&run, 0);
    assert_string_equal(run.error, "");
    static const char *const words[] = {"check", "sheet", "show",     "materials", "why",    "--title",  "--make",
                                        "--as",  "-o",    "--strict", "--library", "--help", "--version"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        assert_prints(&run, words[i]);
    }
    run_free(&run);
    run = run_potash("sheet", "--help", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "potash sheet");
    run_free(&run);
}

static void options_may_stand_anywhere(void **state)
{
    (void)state;
    const char *path = scratch_text("bath.bath", BATH);
    struct run run = run_potash("--as", "json", "show", path, NULL);
    assert_status(&run, 0);
    run_free(&run);
    /* Behind `--` everything is a path. */
    run = run_potash("check", "--", "--strict", NULL);
    assert_status(&run, 2);
    assert_says(&run, "there is no file \"--strict\"");
    run_free(&run);
}

static void materials_and_why_need_no_file(void **state)
{
    (void)state;
    struct run run = run_potash("materials", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "sodium sulfite");
    run_free(&run);
    run = run_potash("materials", "Sodium", "Sulphite", NULL); /* need not be quoted */
    assert_status(&run, 0);
    assert_prints(&run, "sodium sulfite");
    assert_prints(&run, "126.04");
    run_free(&run);
    run = run_potash("materials", "hypo", "--as", "json", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "\"sodium thiosulfate\"");
    run_free(&run);
    run = run_potash("materials", "metoll", NULL);
    assert_status(&run, 2);
    assert_says(&run, "metol");
    run_free(&run);
    run = run_potash("why", "form-unstated", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "form-unstated");
    run_free(&run);
    run = run_potash("why", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "syntax");
    assert_prints(&run, "range-given");
    run_free(&run);
}

/* The same input gives the same bytes, in every locale. */
static void output_does_not_depend_on_the_locale(void **state)
{
    (void)state;
    const char *path =
        scratch_text("bath.bath", "formula \"Saltmarsh bath\"\nkind other\nmetol 2.5 g\nwater to make 1.5 L\n");
    char *first = NULL;
    static const char *const locales[] = {"C", "C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8"};
    for (size_t i = 0; i < sizeof locales / sizeof *locales; i++) {
        char command[1000];
        snprintf(command, sizeof command, "LC_ALL=%s %s sheet --date 2026-03-04 --as json %s 2>&1", locales[i],
                 program_under_test(), path);
        const char *const words[] = {"-c", command, NULL};
        struct run run = run_program("sh", words, NULL, 0);
        assert_status(&run, 0);
        if (first == NULL) {
            first = strdup(run.output);
        }
        assert_string_equal(run.output, first);
        run_free(&run);
    }
    free(first);
}

#define WITH_SCRATCH(test) cmocka_unit_test_teardown(test, clean_up)

/* `--as json` says what the exit status says. */
static void strict_in_data_too(void **state)
{
    (void)state;
    struct run run = run_potash("check", "--strict", scratch_text("warned.bath", WARNED), "--as", "json", NULL);
    assert_status(&run, 1);
    json_t *root = json_loads(run.output, 0, NULL);
    assert_int_equal(json_integer_value(json_object_get(root, "errors")), 1);
    assert_int_equal(json_integer_value(json_object_get(root, "warnings")), 0);
    json_decref(root);
    run_free(&run);
}

/* A use that no formula has is a slip in the call, and no sheet without any dilution. */
static void a_use_is_known_or_refused(void **state)
{
    (void)state;
    const char *path = scratch_text("uses.bath", BATH "    use for film\n        dilute 1+9\n    use for paper\n        dilute 1+4\n");
    struct run run = run_potash("sheet", path, "--for", "flim", NULL);
    assert_status(&run, 2);
    assert_int_equal(run.output_length, 0);
    assert_says(&run, "no formula in these files has a use \"flim\"; there are: \"film\", \"paper\"");
    run_free(&run);
    run = run_potash("sheet", path, "--for", "Film", NULL);
    assert_status(&run, 0);
    assert_non_null(strstr(run.output, "dilute 1+9"));
    assert_null(strstr(run.output, "dilute 1+4"));
    run_free(&run);
    run = run_potash("cost", path, "--for", "flim", NULL);
    assert_status(&run, 2);
    run_free(&run);
}

/* Pints and their kin are the formulas' own where these say whose; else both are named. */
static void whose_quart_a_batch_is(void **state)
{
    (void)state;
    const char *metric = scratch_text("metric.bath", BATH);
    const char *us = scratch_text("us.bath", "formula \"US brine\"\n    kind other\n    measures US\n    sodium chloride 5 g\n"
                                             "    water to make 1 pint\nvariant \"Imperial brine\"\n    of \"US brine\"\n"
                                             "    measures imperial\n");
    struct run run = run_potash("sheet", metric, "--make", "1", "quart", NULL);
    assert_status(&run, 2);
    assert_says(&run, "a quart is 946.4 mL in US and 1137 mL in imperial measure; write \"1 US quart\" or \"1 imperial quart\"");
    run_free(&run);
    run = run_potash("sheet", metric, "--make", "20 oz", NULL);
    assert_status(&run, 2);
    assert_says(&run, "write \"20 US fl oz\" or \"20 imperial fl oz\"");
    run_free(&run);
    run = run_potash("sheet", metric, "--working", "1", "pint", NULL);
    assert_status(&run, 2);
    assert_says(&run, "--working: \"1 pint\": a pint is 473.2 mL in US");
    run_free(&run);
    run = run_potash("sheet", metric, "--make", "1", "imperial", "quart", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "1.135 L"); /* 4.54609 L / 4 is 1136.5 mL, shown within 5 mL */
    run_free(&run);
    run = run_potash("sheet", us, "--title", "US brine", "--make", "1", "quart", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "= 2 x the formula as written");
    run_free(&run);
    run = run_potash("sheet", us, "--title", "Imperial brine", "--make", "1", "quart", NULL);
    assert_status(&run, 0);
    assert_prints(&run, "= 2 x the formula as written");
    run_free(&run);
    run = run_potash("sheet", us, "--make", "1", "quart", NULL); /* the two differ */
    assert_status(&run, 2);
    run_free(&run);
}

/* Every value of an option is read as the notation reads it, and within bounds; tests/library/test_measure_text.c has the bounds
 * themselves. */
static void values_of_options_are_refused_in_words(void **state)
{
    (void)state;
    const char *bath = scratch_text("bath.bath", BATH);
    static const struct {
        const char *option;
        const char *value;
        const char *says;
    } refused[] = {
        {"--make", "99999999999999999999999 L", "it is too much; the most is 100000 L"},
        {"--make", "100001 L", "it is too much; the most is 100000 L"},
        {"--make", "0.0009 mL", "it is too little; the least is 0.001 mL"},
        {"--make", "1e9 L", "write the number out in decimal digits"},
        {"--make", "-2 L", "it is negative"},
        {"--make", "0 g", "it is zero"},
        {"--make", "2 litrs", "did you mean L?"},
        {"--make", "20 °C", "a volume or a weight is expected, and this is a temperature"},
        {"--working", "300 g", "a volume is expected, and this is a mass"},
        {"--working", "100001 L", "it is too much"},
        {"--balance", "0x1p-3", "write the number out in decimal digits"},
        {"--balance", "0", "it is zero"},
        {"--balance", "0.5 mL", "a mass is expected, and this is a volume"},
        {"--balance", "1001 kg", "it is too much; the most is 1000 kg"},
        {"--graduate", "0.0000009", "it is too little"},
        {"--graduate", "1 g", "a volume is expected, and this is a mass"},
        {"--temperature", "101 °C", "it is too much; the most is 100 °C"},
        {"--temperature", "31 °F", "it is too little; the least is 32 °F"},
        {"--temperature", "20", "a temperature is expected"},
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        struct run run = run_potash("sheet", bath, refused[i].option, refused[i].value, NULL);
        assert_status(&run, 2);
        assert_says(&run, refused[i].option);
        assert_says(&run, refused[i].says);
        run_free(&run);
    }
    static const char *const taken[][2] = {{"--make", "100000 L"},     {"--make", "0.001 mL"},     {"--balance", "1000 kg"},
                                           {"--balance", "0.000001"},  {"--graduate", "0.000001 mL"}, {"--temperature", "100 °C"},
                                           {"--temperature", "32 °F"}, {"--balance", "1 grain"},   {"--working", "100000 L"}};
    for (size_t i = 0; i < sizeof taken / sizeof *taken; i++) {
        struct run run = run_potash("sheet", bath, taken[i][0], taken[i][1], NULL);
        assert_status(&run, 0);
        run_free(&run);
    }
}

/* What a refused file would have declared is not told of as unknown. */
static void a_refused_read_is_one_mistake(void **state)
{
    (void)state;
    char text[1000];
    const char *outside = scratch_text("outside.bath", "material marsh soda\n    form Na2CO3\nunit scoop is 6 g also scoops\n");
    snprintf(text, sizeof text, "read \"%s\"\nformula \"x\"\nkind other\nmarsh soda 2 scoops\nsodium chloride 0 g\nwater to make 1 L\n",
             outside);
    struct run run = run_potash_input(text, strlen(text), "check", "-", NULL);
    assert_status(&run, 1);
    assert_says(&run, "lies outside the folder");
    assert_null(strstr(run.error, "unknown"));
    assert_prints(&run, "1 formula: 2 errors, 0 warnings");
    run_free(&run);
    run = run_potash_input(text, strlen(text), "check", "-", "--allow-reads", NULL);
    assert_status(&run, 1);
    assert_prints(&run, "1 formula: 1 error, 0 warnings");
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_SCRATCH(check_sums_up),
        WITH_SCRATCH(diagnostics_for_programs_go_to_standard_output),
        WITH_SCRATCH(one_formula_out_of_several),
        WITH_SCRATCH(a_sound_formula_beside_a_faulty_one),
        WITH_SCRATCH(batch_sizes),
        WITH_SCRATCH(output_goes_to_a_file_in_one_step),
        WITH_SCRATCH(a_pipe_is_written_to_as_it_is),
        WITH_SCRATCH(no_colour_off_a_terminal),
        WITH_SCRATCH(help_and_version),
        WITH_SCRATCH(options_may_stand_anywhere),
        WITH_SCRATCH(materials_and_why_need_no_file),
        WITH_SCRATCH(output_does_not_depend_on_the_locale),
        WITH_SCRATCH(strict_in_data_too),
        WITH_SCRATCH(a_use_is_known_or_refused),
        WITH_SCRATCH(whose_quart_a_batch_is),
        WITH_SCRATCH(values_of_options_are_refused_in_words),
        WITH_SCRATCH(a_refused_read_is_one_mistake),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
