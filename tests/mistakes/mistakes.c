/* `make mistakes`: puts mistakes into correct formulas, one at a time, and counts what the compiler answers.
 *
 * A mistake is answered when a diagnostic that the untouched formula does not give stands on its line.  It is repaired when
 * one of the repairs that are offered gives the text back, or a text with the same checked form.  A form that is not stated,
 * a final volume that is added up, ranges and drops are true of old pages and are no answer to another mistake.
 *
 * Usage: mistakes [-v] FILE…; with -v what is missed is listed. */
#define _GNU_SOURCE

#include "mistakes/mistakes.h"
#include "potash.h"

#include <jansson.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_PER_KIND = 4 /* of one kind in one file, so that long formulas do not weigh more than short ones */ };
static const uint64_t SEED = 20260304;

struct answer {
    json_t *diagnostics;
    json_t *shown;      /* NULL when it cannot be shown */
};

static json_t *parsed(const struct potash_output *output)
{
    return json_loadb(output->bytes, output->length, 0, NULL);
}

/* Takes out what tells of the text and not of the formula. */
static void strip(json_t *value)
{
    const char *key;
    json_t *member;
    size_t index;
    void *next;
    if (json_is_object(value)) {
        json_object_del(value, "as_written");
        json_object_del(value, "line");
        json_object_foreach_safe(value, next, key, member) {
            strip(member);
        }
    } else if (json_is_array(value)) {
        json_array_foreach(value, index, member) {
            strip(member);
        }
    }
}

static struct answer ask(const char *path, const char *text, bool show, bool stripped)
{
    struct answer answer = {NULL, NULL};
    struct potash_options options = {0};
    struct potash *potash = potash_open(&options);
    struct potash_output output;
    if (potash == NULL || potash_read_text(potash, path, text, strlen(text)) == POTASH_UNUSABLE) {
        fprintf(stderr, "%s: %s\n", path, potash == NULL ? "no memory" : potash_message(potash));
        exit(2);
    }
    if (potash_check(potash) == POTASH_UNUSABLE) {
        fprintf(stderr, "%s: %s\n", path, potash_message(potash));
        exit(2);
    }
    potash_diagnostics(potash, POTASH_JSON, false, &output);
    json_t *all = parsed(&output);
    answer.diagnostics = json_incref(json_object_get(all, "diagnostics"));
    json_decref(all);
    if (show && potash_show(potash, POTASH_JSON, &output) == POTASH_GOOD) {
        answer.shown = parsed(&output);
        if (stripped) {
            strip(answer.shown);
        }
    }
    potash_close(potash);
    return answer;
}

static void forget(struct answer *answer)
{
    json_decref(answer->diagnostics);
    json_decref(answer->shown);
}

static const char *id_of(const json_t *diagnostic)
{
    return json_string_value(json_object_get(diagnostic, "id"));
}

static size_t line_of(const json_t *diagnostic)
{
    return (size_t)json_integer_value(json_object_get(diagnostic, "line")) - 1;
}

static bool is_true_of_text(const char *id, bool form_counts)
{
    return (strcmp(id, "form-unstated") == 0 && !form_counts) || strcmp(id, "final-volume-assumed") == 0 ||
           strcmp(id, "range-given") == 0 || strcmp(id, "drop-approximate") == 0;
}

/* ---- samples ---- */

static char *read_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        perror(path);
        exit(2);
    }
    char *text = calloc(1, 1 << 16);
    size_t length = fread(text, 1, (1 << 16) - 1, file);
    text[length] = '\0';
    fclose(file);
    return text;
}

static double number_or_nan(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    return json_is_number(value) ? json_number_value(value) : NAN;
}

static void take_additions(struct sample *sample, const json_t *formulas)
{
    size_t f;
    size_t p;
    size_t a;
    json_t *formula;
    json_t *part;
    json_t *addition;
    size_t parts = 0;
    json_array_foreach(formulas, f, formula) {
        const char *kind = json_string_value(json_object_get(formula, "kind"));
        snprintf(sample->kind, sizeof sample->kind, "%s", kind == NULL ? "" : kind);
        json_array_foreach(json_object_get(formula, "parts"), p, part) {
            json_array_foreach(json_object_get(part, "additions"), a, addition) {
                const char *material = json_string_value(json_object_get(addition, "material"));
                size_t line = (size_t)json_integer_value(json_object_get(addition, "line"));
                if (material == NULL || line == 0 || sample->addition_count == MOST_ADDITIONS) {
                    continue;
                }
                struct addition *taken = &sample->additions[sample->addition_count++];
                taken->line = line - 1;
                taken->part = parts;
                snprintf(taken->material, sizeof taken->material, "%s", material);
                taken->mass = number_or_nan(addition, "mass_g");
                taken->g_per_L = number_or_nan(addition, "g_per_L");
                taken->liquid = !isnan(number_or_nan(addition, "volume_mL"));
                taken->water = strcmp(material, "water") == 0;
            }
            parts++;
        }
    }
}

static bool open_sample(struct sample *sample, const char *path, struct answer *untouched)
{
    *sample = (struct sample){.path = path, .text = read_file(path)};
    sample->lines = cut_lines(sample->text);
    *untouched = ask(path, sample->text, true, false);
    if (untouched->shown == NULL) {
        return false;
    }
    const json_t *formulas = json_object_get(untouched->shown, "formulas");
    take_additions(sample, formulas);
    bool variant = false; /* its lines stand in the file of its parent */
    for (size_t i = 0; i < sample->lines.count; i++) {
        const char *line = sample->lines.lines[i];
        if (strncmp(line, "formula", 7) == 0) {
            sample->heading = i;
        }
        variant = variant || strncmp(line, "variant", 7) == 0;
        if (strncmp(line + strspn(line, " "), "kind", 4) == 0) {
            sample->kind_line = i;
        }
    }
    return json_array_size(formulas) == 1 && !variant;
}

/* ---- answers ---- */

/* How many diagnostics have that id on a line that reads so. */
static size_t times(const json_t *diagnostics, const struct text_lines *lines, const char *id, const char *line)
{
    size_t i;
    size_t count = 0;
    json_t *item;
    json_array_foreach(diagnostics, i, item) {
        count += strcmp(id_of(item), id) == 0 && line_of(item) < lines->count && strcmp(lines->lines[line_of(item)], line) == 0;
    }
    return count;
}

static bool on_line(const json_t *diagnostics, const char *id, size_t line)
{
    size_t i;
    json_t *item;
    json_array_foreach(diagnostics, i, item) {
        if (strcmp(id_of(item), id) == 0 && line_of(item) == line) {
            return true;
        }
    }
    return false;
}

/* Whether the untouched formula does not give that diagnostic: where lines have moved, lines are told apart by what they say. */
static bool is_new(const struct sample *sample, const struct answer *answer, const struct answer *untouched,
                   const struct text_lines *lines, const struct mistake *mistake, const json_t *item)
{
    const char *id = id_of(item);
    if (is_true_of_text(id, mistake->form_counts) || line_of(item) >= lines->count) {
        return false;
    }
    if (lines->count == sample->lines.count) {
        return !on_line(untouched->diagnostics, id, line_of(item));
    }
    const char *line = lines->lines[line_of(item)];
    return times(answer->diagnostics, lines, id, line) > times(untouched->diagnostics, &sample->lines, id, line);
}

static size_t bytes_of_column(const char *line, size_t column)
{
    size_t at = 0;
    for (size_t i = 1; i < column && line[at] != '\0'; i++) {
        do {
            at++;
        } while (((unsigned char)line[at] & 0xC0) == 0x80);
    }
    return at;
}

/* Makes one edit in a text; the caller frees what comes of it. */
static char *edited(const char *text, const json_t *edit)
{
    struct text_lines lines = cut_lines(text);
    size_t number = (size_t)json_integer_value(json_object_get(edit, "line")) - 1;
    char *changed = NULL;
    char *whole = NULL;
    if (number < lines.count) {
        char *line = lines.lines[number];
        size_t begin = bytes_of_column(line, (size_t)json_integer_value(json_object_get(edit, "column")));
        size_t end = bytes_of_column(line, (size_t)json_integer_value(json_object_get(edit, "end_column")));
        if (asprintf(&changed, "%.*s%s%s", (int)begin, line, json_string_value(json_object_get(edit, "text")), line + end) >= 0) {
            free(line);
            lines.lines[number] = changed;
            whole = join_lines(&lines);
        }
    }
    free_lines(&lines);
    return whole;
}

/* The edits of a repair stand in the order of the text: the last is made first, so that the others keep their places. */
static char *repaired(const char *text, const json_t *fix)
{
    const json_t *edits = json_object_get(fix, "edits");
    if (edits == NULL) {
        return edited(text, fix);
    }
    char *whole = strdup(text);
    for (size_t i = json_array_size(edits); i > 0 && whole != NULL; i--) {
        char *next = edited(whole, json_array_get(edits, i - 1));
        free(whole);
        whole = next;
    }
    return whole;
}

/* The same but for blank lines and blanks at their ends. */
static bool same_text(const char *a, const char *b)
{
    struct text_lines first = cut_lines(a);
    struct text_lines second = cut_lines(b);
    size_t i = 0;
    size_t k = 0;
    bool same = true;
    for (;;) {
        while (i < first.count && first.lines[i][strspn(first.lines[i], " ")] == '\0') {
            i++;
        }
        while (k < second.count && second.lines[k][strspn(second.lines[k], " ")] == '\0') {
            k++;
        }
        if (i == first.count || k == second.count) {
            same = i == first.count && k == second.count;
            break;
        }
        if (strcmp(first.lines[i++], second.lines[k++]) != 0) {
            same = false;
            break;
        }
    }
    free_lines(&first);
    free_lines(&second);
    return same;
}

static bool restores(const struct sample *sample, const struct mistake *mistake, const json_t *diagnostic)
{
    const char *right = mistake->right != NULL ? mistake->right : sample->text;
    size_t i;
    json_t *fix;
    json_array_foreach(json_object_get(diagnostic, "fixes"), i, fix) {
        char *text = repaired(mistake->wrong, fix);
        bool good = text != NULL && same_text(text, right);
        if (text != NULL && !good) {
            struct answer was = ask(sample->path, right, true, true);
            struct answer is = ask(sample->path, text, true, true);
            good = was.shown != NULL && is.shown != NULL && json_equal(was.shown, is.shown);
            forget(&was);
            forget(&is);
        }
        free(text);
        if (good) {
            return true;
        }
    }
    return false;
}

struct score {
    size_t made;
    size_t answered;   /* on the right line */
    size_t elsewhere;  /* on another line only */
    size_t repaired;
};

static void try_mistake(const struct sample *sample, const struct answer *untouched, const struct mistake *mistake,
                        struct score *score, const char *name, bool verbose)
{
    struct answer answer = ask(sample->path, mistake->wrong, false, false);
    struct text_lines lines = cut_lines(mistake->wrong);
    bool found = false;
    bool somewhere = false;
    bool mended = false;
    size_t i;
    json_t *item;
    json_array_foreach(answer.diagnostics, i, item) {
        if (!is_new(sample, &answer, untouched, &lines, mistake, item)) {
            continue;
        }
        somewhere = true;
        bool here = false;
        for (size_t l = 0; l < mistake->line_count; l++) {
            here = here || line_of(item) == mistake->lines[l];
        }
        found = found || here;
        mended = mended || (here && restores(sample, mistake, item));
    }
    score->made++;
    score->answered += found;
    score->elsewhere += somewhere && !found;
    score->repaired += mended;
    if (verbose && (!found || !mended)) {
        printf("  %s: %s %s:%zu:%s\n", found ? "no repair" : somewhere ? "ELSEWHERE" : "MISSED", name, sample->path,
               mistake->lines[mistake->line_count - 1] + 1, lines.lines[mistake->lines[mistake->line_count - 1]]);
    }
    free_lines(&lines);
    forget(&answer);
}

static void try_kind(const struct sample *sample, const struct answer *untouched, size_t kind, struct score *score, bool verbose)
{
    static struct mistake mistakes[MOST_SITES];
    memset(mistakes, 0, sizeof mistakes);
    uint64_t seed = SEED + kind * 1000003;
    for (const char *at = sample->path; *at != '\0'; at++) { /* each file its own draw, whatever the others hold */
        seed = seed * 31 + (unsigned char)*at;
    }
    size_t count = mistake_kinds[kind].make(sample, &seed, mistakes);
    for (size_t i = 0; i < count; i++) { /* a sample of the places, drawn without putting back */
        size_t other = i + draw(&seed, count - i);
        struct mistake swap = mistakes[i];
        mistakes[i] = mistakes[other];
        mistakes[other] = swap;
    }
    for (size_t i = 0; i < count; i++) {
        if (i < MOST_PER_KIND) {
            try_mistake(sample, untouched, &mistakes[i], score, mistake_kinds[kind].name, verbose);
        }
        free(mistakes[i].wrong);
        free(mistakes[i].right);
    }
}

struct alarms {
    size_t formulas;
    size_t warnings;
    size_t formulas_with;
    size_t small_weights;
};

static void count_alarms(const struct answer *untouched, const char *path, struct alarms *alarms, bool verbose)
{
    size_t i;
    size_t said = 0;
    json_t *item;
    json_array_foreach(untouched->diagnostics, i, item) {
        const char *id = id_of(item);
        if (is_true_of_text(id, false)) {
            continue;
        }
        alarms->small_weights += strcmp(id, "too-small-to-weigh") == 0;
        said++;
        if (verbose) {
            printf("  alarm: %s:%zu: %s [%s]\n", path, line_of(item) + 1,
                   json_string_value(json_object_get(item, "message")), id);
        }
    }
    alarms->formulas++;
    alarms->warnings += said;
    alarms->formulas_with += said > 0;
}

static double percent(size_t part, size_t whole)
{
    return whole == 0 ? 100 : 100.0 * (double)part / (double)whole;
}

/* ---- the table ---- */

/* Where the formulas come from: the first set takes every file that stands in no folder of another. */
static const struct {
    const char *title;
    const char *path;
    const char *untouched; /* what those outside of samples/ are called */
} sets[] = {{"samples and published formulas", "", "published formulas"},
            {"held-out formulas", "mistakes/held-out/", "held-out formulas"},
            {"unseen formulas", "mistakes/unseen/", "unseen formulas"},
            {"blind formulas", "mistakes/blind/", "blind formulas"}};

static size_t set_of(const char *path)
{
    for (size_t set = 1; set < sizeof sets / sizeof *sets; set++) {
        if (strstr(path, sets[set].path) != NULL) {
            return set;
        }
    }
    return 0;
}

static void print_row(const char *name, const struct score *score)
{
    int width = 40 + (strstr(name, "°F") != NULL ? 2 : 0); /* two signs of two bytes */
    printf("%-*s %6zu %7.1f %% %8.1f %% %7.1f %%\n", width, name, score->made, percent(score->answered, score->made),
           percent(score->elsewhere, score->made), percent(score->repaired, score->made));
}

static void print_scores(const struct score *scores)
{
    struct score all = {0};
    double mean = 0;
    double mean_repaired = 0;
    size_t kinds = 0;
    printf("%-40s %6s %9s %10s %9s\n", "mistake", "made", "answered", "elsewhere", "repaired");
    for (size_t kind = 0; kind < mistake_kind_count; kind++) {
        const struct score *score = &scores[kind];
        print_row(mistake_kinds[kind].name, score);
        all.made += score->made;
        all.answered += score->answered;
        all.elsewhere += score->elsewhere;
        all.repaired += score->repaired;
        if (score->made > 0) {
            mean += percent(score->answered, score->made);
            mean_repaired += percent(score->repaired, score->made);
            kinds++;
        }
    }
    print_row("all", &all);
    printf("%-40s %6s %7.1f %% %10s %7.1f %%\n", "mean of the kinds", "", mean / (double)kinds, "", mean_repaired / (double)kinds);
}

static void measure_set(size_t set, int count, char **paths, bool verbose)
{
    struct score scores[64] = {{0}};
    struct alarms alarms[2] = {{0}};
    for (int i = 0; i < count; i++) {
        struct sample sample;
        struct answer untouched;
        if (set_of(paths[i]) != set) {
            continue;
        }
        bool good = open_sample(&sample, paths[i], &untouched);
        if (good) {
            count_alarms(&untouched, paths[i], &alarms[strstr(paths[i], "samples/") == NULL], verbose);
            for (size_t kind = 0; kind < mistake_kind_count; kind++) {
                try_kind(&sample, &untouched, kind, &scores[kind], verbose);
            }
        } else if (untouched.shown == NULL) {
            printf("%s has no formula that can be shown, and is left out\n", paths[i]);
        }
        forget(&untouched);
        free_lines(&sample.lines);
        free(sample.text);
    }
    printf("%s\n", sets[set].title);
    print_scores(scores);
    for (size_t i = 0; i < 2; i++) {
        if (alarms[i].formulas > 0) {
            printf("untouched %s: %zu; warnings on them: %zu (%zu of them too-small-to-weigh), in %zu formulas\n",
                   i == 0 ? "samples" : sets[set].untouched, alarms[i].formulas,
                   alarms[i].warnings, alarms[i].small_weights, alarms[i].formulas_with);
        }
    }
    printf("\n");
}

int main(int count, char **words)
{
    bool verbose = count > 1 && strcmp(words[1], "-v") == 0;
    for (size_t set = 0; set < sizeof sets / sizeof *sets; set++) {
        measure_set(set, count - 1 - verbose, words + 1 + verbose, verbose);
    }
    return 0;
}
