/* Mixing sheets as PDF: they say what the sheet says, nothing is cut off or printed over, and the file is sound. */
#include "pdf/pdf_help.h"

#include <dirent.h>

/* Heads of columns come again or give way with their column, and pages are counted. */
static const char heads[] = " add in this order amount as written measure per litre error role taken lot parts take for page of 1 2 3 ";

/* The same words stand on the PDF as on the sheet in text: none is missing, none is added. */
static void compare_words(const char *source)
{
    const char *words[] = {"sheet", source, "--make", "0.7 L", "--date", "2026-03-04", NULL}; /* the amount in a litre is left out where it is the batch's */
    const char *pdf = make_pdf("sheet.pdf", words);
    struct run text = run_potash("sheet", source, "--make", "0.7 L", "--date", "2026-03-04", NULL);
    assert_status(&text, 0);
    struct run taken = run_tool("/usr/bin/pdftotext", pdf, "-", NULL, NULL, NULL);
    assert_status(&taken, 0);
    static struct words wanted;
    static struct words got;
    char *wanted_text = part_figures(text.output);
    char *got_text = part_figures(taken.output);
    take_words(&wanted, wanted_text, heads);
    take_words(&got, got_text, heads);
    size_t i = 0;
    for (; i < wanted.count && i < got.count; i++) {
        if (strcmp(wanted.at[i], got.at[i]) != 0) {
            fail_msg("%s: the sheet has \"%s\", the PDF \"%s\"", source, wanted.at[i], got.at[i]);
        }
    }
    assert_int_equal(wanted.count, got.count);
    assert_true(wanted.count > 60);
    free(wanted_text);
    free(got_text);
    run_free(&text);
    run_free(&taken);
}

static void it_says_what_the_sheet_says(void **state)
{
    (void)state;
    static const char *const sources[] = {"samples/film-developer.bath",      "samples/print-developer.bath",
                                          "samples/acid-fixer.bath",          "samples/old-print-developer.bath",
                                          "samples/two-part-developer.bath",  "samples/stop-bath.bath",
                                          "tests/published/29-pyro-ammonia-screen-plate.bath"};
    for (size_t i = 0; i < sizeof sources / sizeof *sources; i++) {
        compare_words(sources[i]);
    }
    scratch_remove();
}

/* Every formula that the repository has, on both papers. */
static void nothing_is_cut_off_or_printed_over(void **state)
{
    (void)state;
    size_t sheets = 0;
    static const char *const folders[] = {"samples", "tests/published"};
    for (size_t f = 0; f < 2; f++) {
        DIR *folder = opendir(folders[f]);
        assert_non_null(folder);
        for (const struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
            const char *dot = strrchr(entry->d_name, '.');
            if (dot == NULL || strcmp(dot, ".bath") != 0 || strcmp(entry->d_name, "faulty.bath") == 0) {
                continue;
            }
            char path[512];
            snprintf(path, sizeof path, "%s/%s", folders[f], entry->d_name);
            struct run has_formula = run_potash("sheet", path, NULL); /* shelves and batches have none */
            bool any = has_formula.status == 0;
            run_free(&has_formula);
            const char *words[] = {"sheet", path, "--paper", sheets % 2 == 0 ? "A4" : "Letter", NULL};
            if (any) {
                const char *pdf = make_pdf("sheet.pdf", words);
                assert_readable(pdf, 20);
                sheets++;
            }
        }
        closedir(folder);
    }
    assert_true(sheets > 60);
    scratch_remove();
}

static void the_file_is_sound(void **state)
{
    (void)state;
    const char *one[] = {"sheet", "samples/film-developer.bath", NULL};
    assert_sound(make_pdf("one.pdf", one));
    const char *many[] = {"sheet", "tests/published/22-bromoil-bleach-three-stocks-old.bath", "tests/published/01-metol-hydroquinone-developer-old.bath",
                          "samples/stocks.bath", NULL};
    const char *pdf = make_pdf("many.pdf", many);
    assert_sound(pdf);
    assert_true(count_pages(pdf) >= 3);
    scratch_remove();
}

static void an_ordinary_formula_takes_one_sheet(void **state)
{
    (void)state;
    static const char *const sources[] = {"samples/film-developer.bath", "samples/print-developer.bath", "samples/acid-fixer.bath",
                                          "samples/stop-bath.bath", "samples/two-part-developer.bath", "samples/old-print-developer.bath"};
    for (size_t i = 0; i < sizeof sources / sizeof *sources; i++) {
        for (size_t paper = 0; paper < 2; paper++) {
            const char *words[] = {"sheet", sources[i], "--paper", paper == 0 ? "A4" : "letter", NULL};
            const char *pdf = make_pdf("sheet.pdf", words);
            if (count_pages(pdf) != 1) {
                fail_msg("%s takes more than one sheet of %s", sources[i], words[3]);
            }
        }
    }
    scratch_remove();
}

static void the_paper_is_the_one_asked_for(void **state)
{
    (void)state;
    /* ISO 216: 210 x 297 mm; ANSI/ASME Y14.1: 8.5 x 11 in; 72 pt to the inch. */
    static const char *const sizes[][2] = {{"A4", "595.276 x 841.89 pts"}, {"Letter", "612 x 792 pts"}};
    for (size_t i = 0; i < 2; i++) {
        const char *words[] = {"sheet", "samples/stop-bath.bath", "--paper", sizes[i][0], "--date", "2026-03-04", NULL};
        struct run run = run_tool("/usr/bin/pdfinfo", make_pdf("sheet.pdf", words), NULL, NULL, NULL, NULL);
        assert_status(&run, 0);
        assert_prints(&run, sizes[i][1]);
        assert_prints(&run, "Title:           Plain citric stop");
        assert_prints(&run, "Subject:         Mixing sheet");
        assert_prints(&run, "Creator:         potash ");
        assert_prints(&run, "CreationDate:    Wed Mar  4 00:00:00 2026"); /* the date that is printed, no clock */
        run_free(&run);
    }
    const char *by_name = scratch_path("by-name.pdf"); /* the name asks for the format */
    struct run run = run_potash("sheet", "samples/stop-bath.bath", "-o", by_name, NULL);
    assert_status(&run, 0);
    run_free(&run);
    assert_sound(by_name);
    run = run_potash("sheet", "samples/stop-bath.bath", "--paper", "napkin", NULL);
    assert_status(&run, 2);
    assert_says(&run, "A4 or Letter");
    run_free(&run);
    scratch_remove();
}

/* The same bytes, whatever the day, the user and the surroundings. */
static void the_same_input_gives_the_same_bytes(void **state)
{
    (void)state;
    const char *words[] = {"sheet", "samples/film-developer.bath", "samples/print-developer.bath", "--date", "none", NULL};
    size_t length[2];
    char *first = file_bytes(make_pdf("first.pdf", words), &length[0]);
    setenv("HOME", "/nonexistent", 1);
    setenv("LC_ALL", "C", 1);
    setenv("TZ", "Pacific/Auckland", 1);
    setenv("PANGO_LANGUAGE", "ja", 1);
    char *second = file_bytes(make_pdf("second.pdf", words), &length[1]);
    assert_int_equal(length[0], length[1]);
    assert_memory_equal(first, second, length[0]);
    free(first);
    free(second);
    setenv("SOURCE_DATE_EPOCH", "1772582400", 1); /* 2026-03-04T00:00:00Z */
    const char *dated[] = {"sheet", "samples/film-developer.bath", NULL};
    struct run run = run_tool("/usr/bin/pdfinfo", make_pdf("dated.pdf", dated), NULL, NULL, NULL, NULL);
    assert_prints(&run, "2026");
    run_free(&run);
    unsetenv("SOURCE_DATE_EPOCH");
    scratch_remove();
}

/* Heads of a table come again where it runs over, and each sheet says which of how many it is. */
static void a_long_table_runs_over(void **state)
{
    (void)state;
    char text[20000] = "formula \"Long\"\n kind toner\n water 100 mL\n";
    for (int i = 0; i < 60; i++) {
        strcat(text, " sodium sulfate (anhydrous) 1 g note \"again\"\n");
    }
    strcat(text, " water to make 1 L\n");
    const char *source = scratch_text("long.bath", text);
    const char *words[] = {"sheet", source, "--date", "none", "--silence", "added-twice", NULL};
    const char *pdf = make_pdf("long.pdf", words);
    size_t pages = count_pages(pdf);
    assert_true(pages >= 2);
    struct run run = run_tool("/usr/bin/pdftotext", "-layout", pdf, "-", NULL, NULL);
    size_t heads_seen = 0;
    for (const char *at = run.output; (at = strstr(at, "add in this order")) != NULL; at++) {
        heads_seen++;
    }
    assert_true(heads_seen >= pages - 1); /* the last sheet may have no row of it */
    for (size_t page = 1; page <= pages; page++) {
        char wanted[64];
        snprintf(wanted, sizeof wanted, "page %zu of %zu", page, pages);
        assert_prints(&run, wanted);
    }
    run_free(&run);
    assert_readable(pdf, 20);
    assert_sound(pdf);
    scratch_remove();
}

/* Texts that try to do harm, in every direction of writing, and very long ones. */
static void hostile_texts_do_no_harm(void **state)
{
    (void)state;
    static char text[60000];
    strcpy(text, "formula \"<script>alert(1)</script> 'q' %PDF-1.7 endobj (\\\\) \u05E9\u05DC\u05D5\u05DD\"\n kind fixer\n note \"");
    for (int i = 0; i < 1000; i++) {
        strcat(text, "ten bytes ");
    }
    strcat(text, "\"\n note \"");
    for (int i = 0; i < 2000; i++) {
        strcat(text, "wordx");
    }
    strcat(text, "\"\n note \"\u0645\u0631\u062D\u0628\u0627 \u05E9\u05DC\u05D5\u05DD \u4E9C\u786B\u9178 \u0939\u093F\u0928\u094D\u0926\u0940 "
                 "\u0E44\u0E17\u0E22 \u10FFFF\"\n water 500 mL\n sodium thiosulfate (pentahydrate) 250 g note \"");
    for (int i = 0; i < 1000; i++) {
        strcat(text, "and more. ");
    }
    strcat(text, "\"\n water to make 1 L\n");
    const char *source = scratch_text("hostile.bath", text);
    const char *words[] = {"sheet", source, NULL};
    const char *pdf = make_pdf("hostile.pdf", words);
    assert_sound(pdf);
    assert_readable(pdf, 20);
    assert_true(count_pages(pdf) >= 3);
    struct run run = run_tool("/usr/bin/pdftotext", pdf, "-", NULL, NULL, NULL);
    assert_prints(&run, "<script>alert(1)</script>");
    assert_prints(&run, "250 g");
    run_free(&run);
    const char *labels[] = {"label", source, "--label", "200x280", NULL};
    pdf = make_pdf("label.pdf", labels);
    assert_sound(pdf);
    assert_readable(pdf, 0);
    scratch_remove();
}

/* The libraries of the renderer are not loaded for other work. */
static void other_verbs_start_without_the_libraries(void **state)
{
    (void)state;
    setenv("LD_DEBUG", "files", 1);
    struct run run = run_potash("sheet", "samples/stop-bath.bath", NULL);
    const char *words[] = {"sheet", "samples/stop-bath.bath", "--as", "pdf", NULL};
    struct run with = run_program(program_under_test(), words, NULL, 0);
    unsetenv("LD_DEBUG");
    assert_status(&run, 0);
    assert_says(&run, "libjansson");
    static const char *const late[] = {"libcairo", "libpango", "libfontconfig", "libqrencode", "libglib"};
    for (size_t i = 0; i < sizeof late / sizeof *late; i++) {
        assert_null(strstr(run.error, late[i]));
    }
    assert_says(&with, "libcairo");
    run_free(&run);
    run_free(&with);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_says_what_the_sheet_says),
        cmocka_unit_test(nothing_is_cut_off_or_printed_over),
        cmocka_unit_test(the_file_is_sound),
        cmocka_unit_test(an_ordinary_formula_takes_one_sheet),
        cmocka_unit_test(the_paper_is_the_one_asked_for),
        cmocka_unit_test(the_same_input_gives_the_same_bytes),
        cmocka_unit_test(a_long_table_runs_over),
        cmocka_unit_test(hostile_texts_do_no_harm),
        cmocka_unit_test(other_verbs_start_without_the_libraries),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
