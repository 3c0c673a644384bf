/* A folder as one book: order, page numbers that are right, marks and links, and silence in a pipe. */
#include "pdf/pdf_help.h"

#include <sys/stat.h>

static const char developer[] = "formula \"Zostera developer\"\n kind developer\n for film\n after \"A published source, 1901\"\n water 700 mL\n"
                                " metol 2 g\n sodium sulfite (anhydrous) 50 g\n potassium bromide 0.5 g from 10 % stock\n water to make 1 L\n"
                                "formula \"Alder developer\"\n kind developer\n water 700 mL\n hydroquinone 5 g\n"
                                " sodium sulfite (anhydrous) 50 g\n sodium carbonate (anhydrous) 30 g\n water to make 1 L\n"
                                "variant \"A soft one\"\n of \"Zostera developer\"\n change metol to 3 g\n"
                                "stock potassium bromide 10 %\n";
static const char fixer[] = "formula \"Marsh fixer\"\n kind fixer\n water 700 mL\n sodium thiosulfate (pentahydrate) 250 g\n"
                            " sodium sulfite (anhydrous) 10 g\n water to make 1 L\n";

static const char *make_book(void)
{
    mkdir(scratch_path("formulary"), 0777);
    scratch_text("formulary/b-fixer.bath", fixer);
    scratch_text("formulary/c-developer.bath", developer);
    const char *words[] = {"book", scratch_path("formulary"), "--called", "Saltmarsh formulary", "--date", "2026-03-04", NULL};
    return make_pdf("book.pdf", words);
}

/* The words of one page. */
static char *page_text(const char *pdf, size_t page)
{
    char number[16];
    snprintf(number, sizeof number, "%zu", page);
    const char *arguments[] = {"-layout", "-f", number, "-l", number, pdf, "-", NULL};
    struct run run = run_program("/usr/bin/pdftotext", arguments, NULL, 0);
    assert_status(&run, 0);
    char *text = strdup(run.output);
    run_free(&run);
    return text;
}

static void pages_stand_where_the_contents_say(void **state)
{
    (void)state;
    const char *pdf = make_book();
    char *contents = page_text(pdf, 2);
    static const char *const titles[] = {"Alder developer", "Zostera developer", "A soft one", "Marsh fixer", "potassium bromide 10 % stock",
                                         "Stocks and who draws on them", "Materials", "Safety", "Sources"};
    const char *before = contents;
    for (size_t i = 0; i < sizeof titles / sizeof *titles; i++) {
        const char *line = strstr(before, titles[i]); /* in this order: developers by title, the variant behind its parent, fixers */
        if (line == NULL) {
            fail_msg("\"%s\" is not in its place in the contents", titles[i]);
            return;
        }
        before = line;
        size_t length = strcspn(line, "\n");
        while (line[length - 1] < '0' || line[length - 1] > '9') {
            length--;
        }
        size_t start = length;
        while (line[start - 1] >= '0' && line[start - 1] <= '9') {
            start--;
        }
        char *page = page_text(pdf, strtoul(line + start, NULL, 10));
        const char *first = page + strspn(page, " \n");
        if (strncmp(first, titles[i], strlen(titles[i])) != 0) {
            fail_msg("\"%s\" is not on page %lu", titles[i], strtoul(line + start, NULL, 10));
        }
        free(page);
    }
    free(contents);
    scratch_remove();
}

static void indexes_lead_to_the_sheets(void **state)
{
    (void)state;
    const char *pdf = make_book();
    size_t pages = count_pages(pdf);
    /* Title, contents, four sheets, a stock: materials come after the index of stocks. */
    char *materials = page_text(pdf, 9);
    assert_non_null(strstr(materials, "Materials"));
    const char *sulfite = strstr(materials, "sodium sulfite");
    assert_non_null(sulfite);
    char line[256];
    assert_int_equal(sscanf(sulfite, "%255[^\n]", line), 1);
    assert_non_null(strstr(line, "3\342\200\2236")); /* in all four formulas, on pages 3 to 6 */
    char *stocks = page_text(pdf, 8);
    assert_non_null(strstr(stocks, "potassium bromide 10"));
    assert_non_null(strstr(stocks, "4, 5, 7")); /* the developer, its variant, and the stock's own sheet */
    char *sources = page_text(pdf, pages);
    assert_non_null(strstr(sources, "A published source, 1901"));
    free(materials);
    free(stocks);
    free(sources);
    scratch_remove();
}

static void it_is_sound_and_has_marks(void **state)
{
    (void)state;
    const char *pdf = make_book();
    assert_sound(pdf);
    assert_readable(pdf, 20);
    struct run run = run_tool("/usr/bin/pdfinfo", "-dests", pdf, NULL, NULL, NULL);
    assert_prints(&run, "\"f1\"");
    assert_prints(&run, "\"materials\"");
    run_free(&run);
    run = run_tool("/usr/bin/qpdf", "--json", "--json-key=outlines", pdf, NULL, NULL);
    assert_status(&run, 0);
    assert_prints(&run, "Developers");
    assert_prints(&run, "Zostera developer");
    run_free(&run);
    run = run_tool("/usr/bin/pdfinfo", pdf, NULL, NULL, NULL, NULL);
    assert_prints(&run, "Title:           Saltmarsh formulary");
    run_free(&run);
    scratch_remove();
}

static void it_is_silent_in_a_pipe(void **state)
{
    (void)state;
    make_book();
    struct run run = run_potash("book", scratch_path("formulary"), "--as", "pdf", "--date", "none", NULL);
    assert_status(&run, 0);
    assert_null(strchr(run.error, '\r')); /* warnings, but nothing of how far it has come */
    assert_null(strstr(run.error, "potash: "));
    assert_memory_equal(run.output, "%PDF-", 5);
    struct run again = run_potash("book", scratch_path("formulary"), "--as", "pdf", "--date", "none", NULL);
    assert_int_equal(run.output_length, again.output_length);
    assert_memory_equal(run.output, again.output, run.output_length);
    run_free(&run);
    run_free(&again);
    run = run_potash("book", "samples", NULL); /* one of them has errors: no book of half a folder */
    assert_status(&run, 1);
    assert_int_equal(run.output_length, 0);
    run_free(&run);
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages_stand_where_the_contents_say),
        cmocka_unit_test(indexes_lead_to_the_sheets),
        cmocka_unit_test(it_is_sound_and_has_marks),
        cmocka_unit_test(it_is_silent_in_a_pipe),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
