/* What a process, a shelf and a comparison say of things that must not meet. */
#define _GNU_SOURCE

#include "support/compiling.h"
#include "support/program.h"

#include <stdio.h>
#include <string.h>

enum { MOST_ROWS = 200, COLUMNS = 4 };

static char *rows[MOST_ROWS][COLUMNS];
static size_t row_count;

static void assert_not_printed(const struct run *run, const char *words)
{
    if (strstr(run->output, words) != NULL) {
        fail_msg("\"%s\" is on standard output: %s", words, run->output);
    }
}

static void read_rows(void)
{
    size_t length;
    char *at = file_bytes("tests/safety/sequences.tsv", &length);
    for (char *line; (line = strsep(&at, "\n")) != NULL && row_count < MOST_ROWS;) {
        for (size_t i = 0; line[0] != '#' && line[0] != '\0' && i < COLUMNS; i++) {
            rows[row_count][i] = line == NULL ? NULL : strsep(&line, "\t");
            if (line == NULL) {
                break;
            }
        }
        row_count += rows[row_count][0] != NULL;
    }
}

static void put_bath(FILE *out, const char *name)
{
    for (size_t i = 0; i < row_count; i++) {
        if (strcmp(rows[i][0], "bath") != 0 || strcmp(rows[i][1], name) != 0) {
            continue;
        }
        fprintf(out, "formula \"%s\"\n    kind %s\n    water 500 mL\n", name, rows[i][2]);
        char lines[500];
        snprintf(lines, sizeof lines, "%s", rows[i][3]);
        for (char *line = strtok(lines, ";"); line != NULL; line = strtok(NULL, ";")) {
            fprintf(out, "    %s\n", line);
        }
        fprintf(out, "    water to make 1 L\n    use for paper\n        time 2 min\n");
        return;
    }
    fail_msg("there is no bath \"%s\"", name);
}

static struct run run_sequence(const char *first, const char *second, const char *between)
{
    char *text = NULL;
    size_t length;
    FILE *out = open_memstream(&text, &length);
    put_bath(out, first);
    put_bath(out, second);
    fprintf(out, "process \"One after the other\"\n    trays 1 L holds 1 sheet 8x10 in\n    bath \"%s\" for paper 2 min\n%s    bath \"%s\" for paper 2 min\n",
            first, between, second);
    fclose(out);
    struct run run = run_potash("process", scratch_text("sequence.bath", text), "--date", "none", NULL);
    free(text);
    return run;
}

static bool is_answered(const struct run *run)
{
    return strstr(run->output, "Instead:") != NULL;
}

static void sequences_without_a_wash(void **state)
{
    (void)state;
    read_rows();
    int faults = 0;
    for (size_t i = 0; i < row_count; i++) {
        bool answered = strcmp(rows[i][0], "answered") == 0;
        if (!answered && strcmp(rows[i][0], "harmless") != 0) {
            continue;
        }
        struct run run = run_sequence(rows[i][1], rows[i][2], "");
        assert_status(&run, 0);
        if (is_answered(&run) != answered) {
            print_error("%s, then %s: %s\n", rows[i][1], rows[i][2], answered ? "no word" : "a warning");
            faults++;
        }
        run_free(&run);
    }
    assert_int_equal(faults, 0);
    struct run run = run_sequence("stop", "sulfide", "    wash 10 min\n");
    assert_false(is_answered(&run));
    assert_prints(&run, "Pour these away apart");
    assert_prints(&run, "deadly: hydrogen sulfide");
    run_free(&run);
    scratch_remove();
}

/* Of a formula in parts that nobody says how to mix each part counts. */
static void a_bath_in_parts(void **state)
{
    (void)state;
    struct run run = run_potash("process", scratch_text("parts.bath",
        "formula \"Toner\"\n    kind toner\n    part A\n    sodium sulfide (nonahydrate) 20 g\n    water to make 1 L\n    part B\n"
        "    sodium carbonate (anhydrous) 5 g\n    water to make 1 L\n"
        "formula \"Stop\"\n    kind stop bath\n    acetic acid (glacial) 20 mL\n    water to make 1 L\n"
        "process \"Toning\"\n    trays 1 L holds 1 sheet 8x10 in\n    bath \"Stop\" 1 min\n    bath \"Toner\" 1 min\n"),
        "--date", "none", NULL);
    assert_prints(&run, "hydrogen sulfide");
    run_free(&run);
    scratch_remove();
}

static struct run run_shelf(const char *lines, const char *date)
{
    char text[800];
    snprintf(text, sizeof text, "shelf \"Club shelf\"\n    currency GBP\n%s", lines);
    return run_potash("shelf", scratch_text("shelf.bath", text), "--date", date, NULL);
}

/* Prudent Practices in the Laboratory (1995): what stands in one cupboard, and peroxide formers a year after they were opened. */
static void what_stands_on_a_shelf(void **state)
{
    (void)state;
    struct run run = run_shelf("    holds nitric acid (70 %) 1 L left 500 mL\n    holds ethanol (96 %) 1 L left 500 mL\n", "2026-03-01");
    assert_status(&run, 0);
    assert_prints(&run, "Keep apart");
    assert_prints(&run, "deadly: fire");
    run_free(&run);
    run = run_shelf("    holds nitric acid (70 %) 1 L left 0 mL\n    holds ethanol (96 %) 1 L left 500 mL\n", "2026-03-01");
    assert_not_printed(&run, "Keep apart");
    run_free(&run);
    run = run_shelf("    holds sodium sulfite (anhydrous) 1 kg left 500 g\n    holds acetic acid (glacial) 1 L left 500 mL\n"
                    "    holds ethanol (96 %) 1 L left 500 mL\n    holds potassium bromide 100 g left 50 g\n", "2026-03-01");
    assert_not_printed(&run, "Keep apart");
    run_free(&run);
    run = run_shelf("    holds ether 500 mL left 100 mL opened 2015-03-01\n", "2026-03-01");
    assert_prints(&run, "explode when the bottle is");
    run_free(&run);
    run = run_shelf("    holds ether 500 mL left 100 mL opened 2026-01-01\n", "2026-03-01");
    assert_not_printed(&run, "explode when the bottle is");
    run_free(&run);
    run = run_shelf("    holds ether 500 mL left 100 mL\n", "2026-03-01");
    assert_prints(&run, "no day of opening is written down");
    run_free(&run);
    scratch_remove();
}

static void what_a_change_brings(void **state)
{
    (void)state;
    static const char a[] = "formula \"Toner\"\n    kind toner\n    sodium sulfide (nonahydrate) 10 g\n    water to make 1 L\n";
    static const char b[] = "formula \"Toner\"\n    kind toner\n    sodium sulfide (nonahydrate) 10 g\n    citric acid (anhydrous) 5 g\n    water to make 1 L\n";
    char one[500];
    snprintf(one, sizeof one, "%s", scratch_text("a.bath", a));
    const char *other = scratch_text("b.bath", b);
    struct run run = run_potash("compare", one, other, NULL);
    assert_prints(&run, "Only in B: deadly");
    run_free(&run);
    run = run_potash("compare", other, one, NULL);
    assert_not_printed(&run, "deadly");
    run_free(&run);
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sequences_without_a_wash),
        cmocka_unit_test(a_bath_in_parts),
        cmocka_unit_test(what_stands_on_a_shelf),
        cmocka_unit_test(what_a_change_brings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
