/* Sheets and labels as they look: rendered small and held against kept pictures.
 *
 * Pictures are grey, a point of a picture for 4 points of the sheet (18 to the inch): small enough to keep, fine enough that a line
 * of type that moves, a column that jumps or a box that is gone changes them.  Versions of the reader smooth edges in ways that
 * differ by a few of 255 levels; so the mean over the picture may differ by 1.5 levels, and the mean over any square of 8 x 8
 * points, a little more than a word, by 20, while a word that is not there changes its square by 40 and more.  After a change
 * on purpose: POTASH_ACCEPT=1, and look at the sheet before you keep it. */
#include "pdf/pdf_help.h"

#include <math.h>

struct picture {
    unsigned width, height;
    unsigned char *points; /* from malloc */
};

static struct picture read_picture(const char *path)
{
    struct picture picture = {0, 0, NULL};
    size_t length;
    char *bytes = file_bytes(path, &length);
    if (bytes == NULL) {
        return picture;
    }
    int head = 0;
    if (sscanf(bytes, "P5 %u %u 255%n", &picture.width, &picture.height, &head) == 2 && head > 0 &&
        length == (size_t)head + 1 + (size_t)picture.width * picture.height) {
        picture.points = malloc((size_t)picture.width * picture.height);
        memcpy(picture.points, bytes + head + 1, (size_t)picture.width * picture.height);
    }
    free(bytes);
    return picture;
}

static double mean_difference(const struct picture *a, const struct picture *b, unsigned left, unsigned top, unsigned width, unsigned height)
{
    double sum = 0;
    double absolute = 0;
    for (unsigned y = top; y < top + height; y++) {
        for (unsigned x = left; x < left + width; x++) {
            double apart = (double)a->points[y * a->width + x] - b->points[y * a->width + x];
            sum += apart;
            absolute += fabs(apart);
        }
    }
    bool square = width == 8; /* smoothing moves grey within a square, and changes its mean little */
    return (square ? fabs(sum) : absolute) / width / height;
}

static void compare_pictures(const char *name, const struct picture *got, const struct picture *kept)
{
    assert_int_equal(got->width, kept->width);
    assert_int_equal(got->height, kept->height);
    double whole = mean_difference(got, kept, 0, 0, got->width, got->height);
    if (whole > 1.5) {
        fail_msg("%s: differs from the kept picture by %g levels on the whole", name, whole);
    }
    for (unsigned y = 0; y + 8 <= got->height; y += 4) {
        for (unsigned x = 0; x + 8 <= got->width; x += 4) {
            double here = mean_difference(got, kept, x, y, 8, 8);
            if (here > 20) {
                fail_msg("%s: differs from the kept picture by %g levels around %u, %u pt", name, here, x * 4, y * 4);
            }
        }
    }
}

static void check_picture(const char *name, const char *const *words, const char *pages)
{
    const char *pdf = make_pdf("page.pdf", words);
    char root[512];
    snprintf(root, sizeof root, "%s", scratch_path("picture"));
    const char *arguments[] = {"-gray", "-r", "18", "-singlefile", "-f", pages, pdf, root, NULL};
    struct run run = run_program("/usr/bin/pdftoppm", arguments, NULL, 0);
    assert_status(&run, 0);
    run_free(&run);
    char made[600];
    snprintf(made, sizeof made, "%s.pgm", root);
    char kept_path[256];
    snprintf(kept_path, sizeof kept_path, "tests/pdf/kept/%s.pgm", name);
    struct picture got = read_picture(made);
    assert_non_null(got.points);
    if (getenv("POTASH_ACCEPT") != NULL) {
        size_t length;
        char *bytes = file_bytes(made, &length);
        FILE *file = fopen(kept_path, "wb");
        assert_non_null(file);
        assert_int_equal(fwrite(bytes, 1, length, file), length);
        fclose(file);
        free(bytes);
    }
    struct picture kept = read_picture(kept_path);
    if (kept.points == NULL) {
        fail_msg("%s is not there or no picture", kept_path);
    }
    compare_pictures(name, &got, &kept);
    free(got.points);
    free(kept.points);
    scratch_remove();
}

/* Everything that these pages say stands in the tests, so that they change only when their look does. */
#define SOURCE "tests/pdf/kept/pages.bath"

static void a_sheet_on_a4(void **state)
{
    (void)state;
    const char *words[] = {"sheet", SOURCE, "--title", "Saltmarsh kept developer", "--date", "2026-03-04", NULL};
    check_picture("sheet-a4", words, "1");
}

static void a_sheet_in_parts_on_letter(void **state)
{
    (void)state;
    const char *words[] = {"sheet", SOURCE, "--title", "Saltmarsh kept toner", "--paper", "Letter", "--date", "2026-03-04", NULL};
    check_picture("sheet-letter", words, "1");
}

static void labels(void **state)
{
    (void)state;
    const char *words[] = {"label", SOURCE, "--date", "2026-03-04", NULL};
    check_picture("labels", words, "1");
}

/* A picture of another page is refused: the comparison sees what it should. */
static void another_page_is_told_apart(void **state)
{
    (void)state;
    struct picture a = read_picture("tests/pdf/kept/sheet-a4.pgm");
    struct picture b = read_picture("tests/pdf/kept/labels.pgm");
    assert_non_null(a.points);
    assert_non_null(b.points);
    assert_true(mean_difference(&a, &b, 0, 0, a.width, a.height) > 5);
    /* Squares with a word in them, held against white. */
    struct picture wiped = a;
    wiped.points = malloc((size_t)a.width * a.height);
    memset(wiped.points, 255, (size_t)a.width * a.height);
    double most = 0;
    for (unsigned y = 0; y + 8 <= a.height; y += 4) {
        for (unsigned x = 0; x + 8 <= a.width; x += 4) {
            double here = mean_difference(&a, &wiped, x, y, 8, 8);
            most = here > most ? here : most;
        }
    }
    assert_true(most > 40);
    free(a.points);
    free(b.points);
    free(wiped.points);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sheet_on_a4),
        cmocka_unit_test(a_sheet_in_parts_on_letter),
        cmocka_unit_test(labels),
        cmocka_unit_test(another_page_is_told_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
