/* What the tests of PDF share: Debian's tools that look into a document, words, boxes of words. */
#ifndef POTASH_TESTS_PDF_HELP_H
#define POTASH_TESTS_PDF_HELP_H

#include "support/program.h"

#include <stdio.h>
#include <string.h>

/* ---- tools ---- */

static inline struct run run_tool(const char *tool, const char *a, const char *b, const char *c, const char *d, const char *e)
{
    const char *arguments[] = {a, b, c, d, e, NULL};
    return run_program(tool, arguments, NULL, 0);
}

/* Makes a PDF by the program: `words` behind its name up to NULL; where it stands. */
static inline const char *make_pdf(const char *name, const char *const *words)
{
    const char *path = scratch_path(name);
    const char *all[24];
    size_t count = 0;
    while (words[count] != NULL) {
        assert_true(count < 18);
        all[count] = words[count];
        count++;
    }
    const char *more[] = {"--as", "pdf", "-o", path, NULL};
    memcpy(all + count, more, sizeof more);
    struct run run = run_program(program_under_test(), all, NULL, 0);
    assert_status(&run, 0);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
    return path;
}

/* A sound file, by two readers' account, all its fonts in it. */
static inline void assert_sound(const char *path)
{
    struct run run = run_tool("/usr/bin/qpdf", "--check", path, NULL, NULL, NULL);
    assert_status(&run, 0);
    assert_null(strstr(run.output, "WARNING"));
    assert_string_equal(run.error, "");
    run_free(&run);
    run = run_tool("/usr/bin/pdffonts", path, NULL, NULL, NULL, NULL);
    assert_status(&run, 0);
    assert_string_equal(run.error, "");
    size_t fonts = 0;
    for (const char *line = strchr(run.output, '\n'); line != NULL; line = strchr(line + 1, '\n')) {
        char words[8][64];
        if (line[1] == '-' || line[1] == '\0') {
            continue;
        }
        /* name, type (of one or two words), encoding, emb, sub, uni, object, generation: the flags stand fifth to third from the end */
        int count = sscanf(line + 1, "%63s %63s %63s %63s %63s %63s %63s %63s", words[0], words[1], words[2], words[3], words[4],
                           words[5], words[6], words[7]);
        assert_true(count >= 8);
        bool two = strcmp(words[1], "CID") == 0 || strcmp(words[2], "1C") == 0;
        assert_string_equal(words[two ? 4 : 3], "yes"); /* embedded */
        assert_string_equal(words[two ? 6 : 5], "yes"); /* and told in Unicode, so that its text can be taken out */
        fonts++;
    }
    assert_true(fonts > 0);
    run_free(&run);
}

static inline size_t count_pages(const char *path)
{
    struct run run = run_tool("/usr/bin/pdfinfo", path, NULL, NULL, NULL, NULL);
    assert_status(&run, 0);
    const char *pages = strstr(run.output, "Pages:");
    assert_non_null(pages);
    size_t count = strtoul(pages + 6, NULL, 10);
    run_free(&run);
    return count;
}

/* ---- boxes of words ---- */

struct word_box {
    double left, top, right, bottom;
    int page;
    char text[64];
};

enum { MOST_BOXES = 20000 };

/* Every word with its place, pt; the size of the pages goes to *width and *height.  The caller frees it. */
static inline struct word_box *take_boxes(const char *path, size_t *count, double *width, double *height)
{
    struct run run = run_tool("/usr/bin/pdftotext", "-bbox", path, "-", NULL, NULL);
    assert_status(&run, 0);
    struct word_box *boxes = calloc(MOST_BOXES, sizeof *boxes);
    assert_non_null(boxes);
    *count = 0;
    int page = 0;
    for (char *line = strtok(run.output, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        struct word_box *box = &boxes[*count];
        if (sscanf(line, " <page width=\"%lf\" height=\"%lf\"", width, height) == 2) {
            page++;
        } else if (sscanf(line, " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%63[^<]", &box->left, &box->top, &box->right,
                          &box->bottom, box->text) == 5) {
            box->page = page;
            (*count)++;
            assert_true(*count < MOST_BOXES);
        }
    }
    run_free(&run);
    return boxes;
}

static inline double least_of(double a, double b)
{
    return a < b ? a : b;
}

static inline double most_of(double a, double b)
{
    return a > b ? a : b;
}

/* No word leaves the sheet, less `margin`, and none lies on another: words of two lines may touch with their unused room above and
 * below, but not by half of their height. */
static inline void assert_readable(const char *path, double margin)
{
    size_t count;
    double width = 0;
    double height = 0;
    struct word_box *boxes = take_boxes(path, &count, &width, &height);
    assert_true(count > 0);
    for (size_t i = 0; i < count; i++) {
        const struct word_box *a = &boxes[i];
        if (a->left < margin || a->right > width - margin || a->top < margin || a->bottom > height - margin) {
            fail_msg("%s: page %d: \"%s\" leaves the sheet: %g to %g, %g to %g", path, a->page, a->text, a->left, a->right, a->top,
                     a->bottom);
        }
        for (size_t j = i + 1; j < count && boxes[j].page == a->page; j++) {
            const struct word_box *b = &boxes[j];
            double across = least_of(a->right, b->right) - most_of(a->left, b->left);
            double down = least_of(a->bottom, b->bottom) - most_of(a->top, b->top);
            double low = least_of(a->bottom - a->top, b->bottom - b->top);
            if (across > 1 && down > low / 2) {
                fail_msg("%s: page %d: \"%s\" lies on \"%s\"", path, a->page, a->text, b->text);
            }
        }
    }
    free(boxes);
}

/* ---- words ---- */

struct words {
    char *at[8000];
    size_t count;
};

static inline int in_order(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* A text with figures and letters parted: the reader joins "4 g" where nothing on the line has two characters. */
static inline char *part_figures(const char *text)
{
    char *parted = malloc(2 * strlen(text) + 1);
    assert_non_null(parted);
    char *to = parted;
    for (const char *at = text; *at != '\0'; at++) {
        bool digit = *at >= '0' && *at <= '9';
        bool next_digit = at[1] >= '0' && at[1] <= '9';
        bool letter = (*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z');
        bool next_letter = (at[1] >= 'a' && at[1] <= 'z') || (at[1] >= 'A' && at[1] <= 'Z');
        *to++ = *at;
        if ((digit && next_letter) || (letter && next_digit)) {
            *to++ = ' ';
        }
    }
    *to = '\0';
    return parted;
}

/* Words of a text without the signs around them, sorted; what has neither letter nor figure is left out, and so is what stands
 * in `without`, " word word ".  It cuts `text` up. */
static inline void take_words(struct words *words, char *text, const char *without)
{
    words->count = 0;
    for (char *at = text; *at != '\0'; at++) {
        if ((unsigned char)at[0] == 0xC2 && (unsigned char)at[1] == 0xA0) { /* a no-break space is a space */
            at[0] = at[1] = ' ';
        }
    }
    static const char around[] = "()[],;:.!\"'-_*\342\200\224\200\342\226\252";
    for (char *word = strtok(text, " \n\f"); word != NULL; word = strtok(NULL, " \n\f")) {
        word += strspn(word, around);
        size_t length = strlen(word);
        while (length > 0 && strchr("()[],;:.!\"'-_", word[length - 1]) != NULL) {
            length--;
        }
        word[length] = '\0';
        char wanted[256];
        snprintf(wanted, sizeof wanted, " %.200s ", word);
        bool counts = strpbrk(word, "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") != NULL;
        if (counts && strstr(without, wanted) == NULL) {
            assert_true(words->count < sizeof words->at / sizeof *words->at);
            words->at[words->count++] = word;
        }
    }
    qsort(words->at, words->count, sizeof *words->at, in_order);
}

#endif
