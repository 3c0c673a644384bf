/* Labels on sheets of label stock: each in its place, nothing over its edge, and a code that a camera reads. */
#include "pdf/pdf_help.h"

#include <math.h>

static const char batch_text[] = "formula \"Saltmarsh stop\"\n kind stop bath\n water 900 mL\n citric acid (anhydrous) 15 g\n"
                                 " water to make 1 L\n use for paper\n dilute 1+1\n keeps 30 days in full bottle\n"
                                 "batch \"SS-007\" of \"Saltmarsh stop\"\n mixed 2026-03-04\n made 2 L\n";

/* All codes on a sheet, one a line, as a camera would see them at 200 dpi. */
static char *read_codes(const char *pdf)
{
    char root[512];
    snprintf(root, sizeof root, "%s", scratch_path("codes"));
    struct run run = run_tool("/usr/bin/pdftoppm", "-r", "200", "-png", pdf, root);
    assert_status(&run, 0);
    run_free(&run);
    char picture[600];
    snprintf(picture, sizeof picture, "%s-1.png", root);
    run = run_tool("/usr/bin/zbarimg", "--quiet", "--raw", picture, NULL, NULL);
    assert_status(&run, 0);
    char *codes = strdup(run.output);
    run_free(&run);
    return codes;
}

static void the_code_reads_back(void **state)
{
    (void)state;
    const char *source = scratch_text("batch.bath", batch_text);
    struct run text = run_potash("label", source, "--batch", "SS-007", NULL);
    assert_status(&text, 0);
    const char *said = strstr(text.output, "batch SS-007 formula ");
    assert_non_null(said);
    char wanted[64];
    assert_int_equal(sscanf(said, "%63[^\n]", wanted), 1);
    const char *words[] = {"label", source, "--batch", "SS-007", "--copies", "3", NULL};
    char *codes = read_codes(make_pdf("label.pdf", words));
    size_t seen = 0;
    for (char *line = strtok(codes, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        assert_string_equal(line, wanted);
        seen++;
    }
    assert_int_equal(seen, 3);
    free(codes);
    run_free(&text);
    scratch_remove();
}

static void days_and_volume_come_from_the_batch(void **state)
{
    (void)state;
    const char *source = scratch_text("batch.bath", batch_text);
    struct run run = run_potash("label", source, "--batch", "SS-007", NULL);
    assert_prints(&run, "2 L");
    assert_prints(&run, "2026-03-04");
    assert_prints(&run, "discard after  2026-04-03"); /* 27 days to the end of March, and 3 */
    assert_prints(&run, "dilute 1+1");
    assert_null(strstr(run.output, "mixed on _"));
    run_free(&run);
    run = run_potash("label", source, NULL);
    assert_prints(&run, "mixed on _");
    assert_prints(&run, "batch no. _");
    assert_prints(&run, "Stock solution");
    assert_prints(&run, "citric acid 1.5 %"); /* 15 g in a litre that weighs little more than a kilogram */
    run_free(&run);
    run = run_potash("label", "samples/stocks.bath", NULL); /* declared stocks stand in bottles as well */
    assert_status(&run, 0);
    assert_prints(&run, "phenidone 1");
    assert_prints(&run, "Stock solution\n");
    run_free(&run);
    run = run_potash("label", source, "--for", "paper", NULL);
    assert_prints(&run, "Working solution for paper: 1+1");
    run_free(&run);
    scratch_remove();
}

/* Where the title of each label stands: the page's words "Saltmarsh" in bold type. */
static size_t take_titles(const char *pdf, struct word_box *titles)
{
    size_t count;
    double width;
    double height;
    struct word_box *boxes = take_boxes(pdf, &count, &width, &height);
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(boxes[i].text, "Saltmarsh") == 0) {
            titles[found++] = boxes[i];
        }
    }
    free(boxes);
    return found;
}

static void labels_stand_where_they_are_told(void **state)
{
    (void)state;
    const char *source = scratch_text("batch.bath", batch_text);
    const double mm = 72 / 25.4;
    /* Two columns and three rows of 80 x 60 mm labels, 10 mm from the left, 20 mm from the top, 90 and 70 mm apart; the fourth place
     * is the second of the second row. */
    const char *words[] = {"label", source, "--size", "80x60", "--grid", "2x3", "--margins", "10x20", "--pitch", "90x70",
                           "--start", "4", "--copies", "4", NULL};
    struct word_box titles[16];
    const char *pdf = make_pdf("label.pdf", words);
    assert_int_equal(take_titles(pdf, titles), 4);
    assert_int_equal(count_pages(pdf), 2);
    static const int places[][3] = {{1, 1, 1}, {1, 0, 2}, {1, 1, 2}, {2, 0, 0}}; /* sheet, column, row */
    for (size_t i = 0; i < 4; i++) {
        double left = (10 + 90 * places[i][1]) * mm;
        double top = (20 + 70 * places[i][2]) * mm;
        assert_int_equal(titles[i].page, places[i][0]);
        assert_true(titles[i].left >= left && titles[i].left < left + 4 * mm);
        assert_true(titles[i].top >= top && titles[i].top < top + 5 * mm);
    }
    assert_readable(pdf, 0);
    assert_sound(pdf);
    scratch_remove();
}

/* Every word of a label stays on it, on stock of any size. */
static void nothing_stands_over_the_edge(void **state)
{
    (void)state;
    static const char *const sizes[] = {"99.1x67.7", "99.1x38.1", "105x74", "63.5x72", "120x120"};
    static const double across[] = {101.6, 101.6, 105, 66, 0};
    static const double left[] = {4.65, 4.65, 0, 7.2, 45};
    const double mm = 72 / 25.4;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        const char *words[] = {"label", "samples/film-developer.bath", "samples/acid-fixer.bath", "samples/two-part-developer.bath",
                               "--size", sizes[i], NULL};
        const char *pdf = make_pdf("label.pdf", words);
        assert_readable(pdf, 0);
        double size = strtod(sizes[i], NULL);
        size_t count;
        double width;
        double height;
        struct word_box *boxes = take_boxes(pdf, &count, &width, &height);
        for (size_t w = 0; w < count; w++) {
            double from = boxes[w].left / mm - left[i];
            double to = boxes[w].right / mm - left[i];
            double start = across[i] > 0 ? floor(from / across[i] + 1e-6) * across[i] : 0;
            if (from < start + 1 || to > start + size - 1) {
                fail_msg("%s: \"%s\" stands %g to %g mm on a label of %g", sizes[i], boxes[w].text, from - start, to - start, size);
            }
        }
        free(boxes);
    }
    scratch_remove();
}

static void what_is_left_out_is_said(void **state)
{
    (void)state;
    const char *words[] = {"label", "samples/film-developer.bath", "--size", "99.1x38.1", NULL};
    struct run run = run_tool("/usr/bin/pdftotext", make_pdf("label.pdf", words), "-", NULL, NULL, NULL);
    assert_prints(&run, "left out for want of room");
    assert_prints(&run, "contents");
    assert_prints(&run, "Danger");                  /* the signal word never goes */
    assert_prints(&run, "May damage fertility");    /* nor a hazard statement (H360FD, of more than 0.3 % of borates) */
    run_free(&run);
    run = run_potash("label", "samples/film-developer.bath", "--size", "30x15", "--as", "pdf", "-o", scratch_path("none.pdf"), NULL);
    assert_status(&run, 2);
    assert_says(&run, "does not go on 30 x 15 mm");
    assert_null(file_bytes(scratch_path("none.pdf"), &(size_t){0}));
    run_free(&run);
    scratch_remove();
}

static void calls_that_are_none(void **state)
{
    (void)state;
    static const struct {
        const char *words[8];
        const char *says;
    } cases[] = {
        {{"label", "samples/stop-bath.bath", "--as", "pdf", "--size", "big"}, "--size"},
        {{"label", "samples/stop-bath.bath", "--as", "pdf", "--size", "0x5"}, "--size"},
        {{"label", "samples/stop-bath.bath", "--as", "pdf", "--size", "300x300"}, "do not go on a sheet"},
        {{"label", "samples/stop-bath.bath", "--as", "pdf", "--start", "9"}, "the sheet has 8 labels"},
        {{"label", "samples/stop-bath.bath", "--as", "pdf", "--start", "none"}, "--start"},
        {{"label", "samples/stop-bath.bath", "--as", "pdf", "--copies", "0"}, "--copies"},
        {{"label", "samples/stop-bath.bath", "--of", "glass"}, "glass"},
        {{"label", "samples/stop-bath.bath", "--batch", "XX-1"}, "XX-1"},
        {{"label", "samples/stop-bath.bath", "--grid"}, "--grid"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct run run = run_program(program_under_test(), cases[i].words, NULL, 0);
        assert_status(&run, 2);
        assert_says(&run, cases[i].says);
        run_free(&run);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_code_reads_back),
        cmocka_unit_test(days_and_volume_come_from_the_batch),
        cmocka_unit_test(labels_stand_where_they_are_told),
        cmocka_unit_test(nothing_stands_over_the_edge),
        cmocka_unit_test(what_is_left_out_is_said),
        cmocka_unit_test(calls_that_are_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
