/* Measures how fast a large file is checked and how soon a small one is done, and prints each figure beside its limit.
 *
 *     bench POTASH FILE.bath FILE.json SMALL.bath SHELF.bath SHEET.bath FOLDER
 *
 * Times are of the wall clock.  Other work on the machine only ever adds to a time, so the best of several runs is the one
 * that says most about the program and is held against the limit; the median stands beside it.  The exit status is 1 when a
 * limit is missed. */
#include "bench/tokens.h"
#include "potash.h"

#include <fcntl.h>
#include <spawn.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

enum { CHECK_RUNS = 40, JSON_RUNS = 3, START_RUNS = 200, SHELF_RUNS = 20, PDF_RUNS = 20, BOOK_RUNS = 3 };

static _Noreturn void fail(const char *what)
{
    perror(what);
    exit(2);
}

/* ---- times ---- */

struct times {
    double seconds[START_RUNS];
    size_t count;
};

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

static void add_time(struct times *times, double seconds)
{
    times->seconds[times->count++] = seconds;
}

static int compare_doubles(const void *a, const void *b)
{
    double first = *(const double *)a;
    double second = *(const double *)b;
    return first < second ? -1 : first > second;
}

static void sort_times(struct times *times)
{
    qsort(times->seconds, times->count, sizeof *times->seconds, compare_doubles);
}

static double best(const struct times *times)
{
    return times->seconds[0];
}

static double median(const struct times *times)
{
    return times->seconds[times->count / 2];
}

/* ---- the text ---- */

struct content {
    char *bytes;      /* followed by NUL */
    size_t length;
};

static struct content read_content(const char *path)
{
    FILE *file = fopen(path, "rb");
    struct stat status;
    if (file == NULL || fstat(fileno(file), &status) != 0) {
        fail(path);
    }
    struct content content = {calloc(1, (size_t)status.st_size + 1), (size_t)status.st_size};
    if (content.bytes == NULL || fread(content.bytes, 1, content.length, file) != content.length) {
        fail(path);
    }
    fclose(file);
    return content;
}

/* ---- what is measured ---- */

/* Text in memory to a checked formulary, in a session that is open already. */
static double time_check(const struct content *content)
{
    struct potash *potash = potash_open(NULL);
    if (potash == NULL) {
        fail("potash_open");
    }
    double begin = now();
    enum potash_status read = potash_read_text(potash, "bench.bath", content->bytes, content->length);
    enum potash_status checked = potash_check(potash);
    double end = now();
    if (read != POTASH_GOOD || checked != POTASH_GOOD || potash_formulas(potash) == 0) {
        fprintf(stderr, "bench: the text is not as it should be: %zu errors\n", potash_errors(potash));
        exit(2);
    }
    potash_close(potash);
    return end - begin;
}

static double time_tokens(const struct content *content)
{
    size_t counts[TOKEN_KINDS] = {0};
    size_t bytes = 0;
    double begin = now();
    const char *cursor = content->bytes;
    struct text token;
    enum token_kind kind;
    do {
        kind = tokens_next(&cursor, &token);
        counts[kind]++;
        bytes += token.length;
    } while (kind != TOKEN_END);
    double end = now();
    if (counts[TOKEN_WORD] == 0 || counts[TOKEN_NUMBER] == 0 || counts[TOKEN_STRING] == 0 || bytes > content->length + 1) {
        fputs("bench: the text has no tokens\n", stderr);
        exit(2);
    }
    return end - begin;
}

static double time_notation(const struct content *content)
{
    double begin = now();
    size_t count = notation_count_tokens(content->bytes, content->length);
    double end = now();
    if (count < content->length / 100) {
        fputs("bench: the text has no tokens of the notation\n", stderr);
        exit(2);
    }
    return end - begin;
}

/* Runs a program with its output thrown away, from start to exit; *kilobytes gets its peak memory. */
static double time_program(char *const *arguments, long *kilobytes)
{
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t child;
    int status;
    struct rusage usage;
    double begin = now();
    if (posix_spawnp(&child, arguments[0], &actions, NULL, arguments, environ) != 0 ||
        wait4(child, &status, 0, &usage) != child) {
        fail(arguments[0]);
    }
    double end = now();
    posix_spawn_file_actions_destroy(&actions);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
        fprintf(stderr, "bench: %s %s did not end well\n", arguments[0], arguments[1] == NULL ? "" : arguments[1]);
        exit(2);
    }
    *kilobytes = usage.ru_maxrss;
    return end - begin;
}

/* ---- figures and limits ---- */

static bool all_within = true;

static void print_header(void)
{
    printf("%-44s %10s %10s   %s\n", "", "best", "median", "limit");
}

static void print_figure(const char *what, double best_figure, double median_figure, const char *unit)
{
    printf("%-44s %10.2f %10.2f   %s\n", what, best_figure, median_figure, unit);
}

static void print_limit(const char *what, double best_figure, double median_figure, const char *limit, bool within)
{
    all_within = all_within && within;
    printf("%-44s %10.2f %10.2f   %s: %s\n", what, best_figure, median_figure, limit, within ? "kept" : "MISSED");
}

/* The check, the token loop, and jq over the same content. */
static void measure_speed(const char *bath_path, char *json_path)
{
    struct content bath = read_content(bath_path);
    struct content json = read_content(json_path);
    struct times checks = {0};
    struct times loops = {0};
    struct times plainest = {0};
    struct times jq = {0};
    long kilobytes;
    char *const jq_arguments[] = {"jq", ".", json_path, NULL};
    for (int run = 0; run < CHECK_RUNS; run++) { /* turn by turn, so that other work on the machine meets both */
        add_time(&checks, time_check(&bath));
        add_time(&loops, time_notation(&bath));
        add_time(&plainest, time_tokens(&bath));
    }
    for (int run = 0; run < JSON_RUNS; run++) {
        add_time(&jq, time_program(jq_arguments, &kilobytes));
    }
    sort_times(&checks);
    sort_times(&loops);
    sort_times(&plainest);
    sort_times(&jq);
    double megabytes = (double)bath.length / 1e6;
    double json_megabytes = (double)json.length / 1e6;
    double check_best = megabytes / best(&checks);
    double check_median = megabytes / median(&checks);
    print_limit("full check, MB/s", check_best, check_median, "100 or more", check_best >= 100);
    print_figure("bare loop over the notation's tokens, MB/s", megabytes / best(&loops), megabytes / median(&loops), "");
    double part_best = best(&loops) / best(&checks);
    print_limit("check as a part of that", part_best, median(&loops) / median(&checks), "0.20 or more", part_best >= 0.2);
    /* A scanner that knows only words, numbers, strings and signs does a good deal less. */
    print_figure("loop over words and numbers only, MB/s", megabytes / best(&plainest), megabytes / median(&plainest), "");
    print_figure("check as a part of that", best(&plainest) / best(&checks), median(&plainest) / median(&checks), "");
    print_figure("jq . of the same content as JSON, MB/s", json_megabytes / best(&jq), json_megabytes / median(&jq), "");
    double factor = check_best / (json_megabytes / best(&jq));
    print_limit("check as a multiple of that", factor, check_median / (json_megabytes / median(&jq)), "4 or more", factor >= 4);
    free(bath.bytes);
    free(json.bytes);
}

static void measure_start(char *potash, char *small_path)
{
    struct times starts = {0};
    struct times nothing = {0};
    long kilobytes;
    char *const check_arguments[] = {potash, "check", small_path, NULL};
    char *const true_arguments[] = {"true", NULL};
    for (int run = 0; run < START_RUNS; run++) {
        add_time(&starts, time_program(check_arguments, &kilobytes));
        add_time(&nothing, time_program(true_arguments, &kilobytes));
    }
    sort_times(&starts);
    sort_times(&nothing);
    print_limit("one small file from start to exit, ms", best(&starts) * 1000, median(&starts) * 1000, "3 or less (median)",
                median(&starts) <= 0.003);
    print_figure("`true` from start to exit, ms", best(&nothing) * 1000, median(&nothing) * 1000, "");
}

/* A mixing sheet as a page, from start to exit; the limit in ms. */
static void measure_sheet(char *potash, char *small_path, char *format, double limit)
{
    struct times times = {0};
    long kilobytes;
    char *const arguments[] = {potash, "sheet", small_path, "--as", format, "--date", "2026-03-04", NULL};
    for (int run = 0; run < START_RUNS; run++) {
        add_time(&times, time_program(arguments, &kilobytes));
    }
    sort_times(&times);
    char what[80];
    char said[40];
    snprintf(what, sizeof what, "one sheet as %s from start to exit, ms", format);
    snprintf(said, sizeof said, "%g or less (median)", limit);
    print_limit(what, best(&times) * 1000, median(&times) * 1000, said, median(&times) * 1000 <= limit);
}

static void measure_memory(char *potash, char *bath_path)
{
    long kilobytes;
    char *const arguments[] = {potash, "check", bath_path, NULL};
    struct stat status;
    if (stat(bath_path, &status) != 0) {
        fail(bath_path);
    }
    time_program(arguments, &kilobytes);
    double times = (double)kilobytes * 1024 / (double)status.st_size;
    print_limit("peak memory over the size of the file", times, times, "4 or less", times <= 4);
}

/* A shelf of 2,000 packs, 1,000 formulas and 20,000 batches: what can be mixed, what to buy, what expires; `counted` is the day
 * since which the batches are taken off, or NULL. */
static void measure_shelf(char *potash, char *shelf_path, char *counted, const char *name)
{
    struct times times = {0};
    long kilobytes = 0;
    char *const arguments[] = {potash, "shelf", shelf_path, "--date", "2026-03-04", counted == NULL ? NULL : "--counted", counted, NULL};
    for (int run = 0; run < SHELF_RUNS; run++) {
        add_time(&times, time_program(arguments, &kilobytes));
    }
    sort_times(&times);
    print_limit(name, best(&times) * 1000, median(&times) * 1000, "300 or less", best(&times) <= 0.3);
    double megabytes = (double)kilobytes * 1024 / 1e6;
    print_limit("its peak memory, MB", megabytes, megabytes, "200 or less", megabytes <= 200);
}

/* Pages as PDF: one sheet, and a folder of 500 formulas as a book. */
static void measure_pdf(char *potash, char *sheet_path, char *folder_path)
{
    struct times sheets = {0};
    struct times books = {0};
    long kilobytes;
    long most = 0;
    char *const sheet_arguments[] = {potash, "sheet", sheet_path, "--as", "pdf", NULL};
    char *const book_arguments[] = {potash, "book", folder_path, "--as", "pdf", NULL};
    for (int run = 0; run < PDF_RUNS; run++) {
        add_time(&sheets, time_program(sheet_arguments, &kilobytes));
    }
    for (int run = 0; run < BOOK_RUNS; run++) {
        add_time(&books, time_program(book_arguments, &kilobytes));
        most = kilobytes > most ? kilobytes : most;
    }
    sort_times(&sheets);
    sort_times(&books);
    print_limit("one sheet as PDF, from start to exit, ms", best(&sheets) * 1000, median(&sheets) * 1000, "60 or less",
                best(&sheets) <= 0.060);
    print_limit("500 formulas as one book in PDF, s", best(&books), median(&books), "5 or less", best(&books) <= 5);
    double megabytes = (double)most * 1024 / 1e6;
    print_limit("its peak memory, MB", megabytes, megabytes, "less than 200", megabytes < 200);
}

int main(int count, char **arguments)
{
    if (count != 8) {
        fputs("usage: bench POTASH FILE.bath FILE.json SMALL.bath SHELF.bath SHEET.bath FOLDER\n", stderr);
        return 2;
    }
    print_header();
    /* Memory first: a child's peak is never below what this program itself held when it was started. */
    measure_shelf(arguments[1], arguments[5], NULL, "the shelf of a large darkroom, ms");
    static char before_all[] = "2024-12-31";
    measure_shelf(arguments[1], arguments[5], before_all, "the same, all its batches taken off, ms");
    measure_memory(arguments[1], arguments[2]);
    measure_start(arguments[1], arguments[4]);
    measure_sheet(arguments[1], arguments[4], "html", 5);
    measure_pdf(arguments[1], arguments[6], arguments[7]);
    measure_speed(arguments[2], arguments[3]);
    return all_within ? 0 : 1;
}
