/* The shelf for spreadsheets (RFC 4180) and calendars (RFC 5545), read back by other readers: Python's csv, and a reader of folded
 * lines by the rules of the standard. */
#include "support/program.h"
#include "support/reports.h"

#include <stdio.h>
#include <string.h>

static const char shelf[] =
    "shelf \"Quay Street, back room\"\n"
    "    currency GBP\n"
    "    holds metol 100 g for 18.50 left 20 g best before 2026-05-31 lot \"M; 06, 17\" from \"Harbour Chemicals, back door\"\n"
    "    holds acetic acid (28 %) 500 mL for 4.10 best before 2027-06-30 "
    "from \"die Apotheke am Großen Markt gegenüber der Brücke, zweite Tür rechts, bei Frau Müller-Lüdenscheidt\"\n"
    "    holds borax (decahydrate) 1 kg\n"
    "    holds boric acid (crystals) 500 g left 0 g best before 2026-05-31\n"
    "formula \"Bath \\ one, two; three\"\n kind other\n borax (decahydrate) 5 g\n water to make 1 L\n";

static char *made(enum potash_format format)
{
    struct potash_options options = {.date = "2026-03-04"};
    return report_text_of(potash_shelf, &options, shelf, format);
}

/* RFC 4180, section 2: CRLF behind each record (1, 2), a header with as many fields (3, 4), quotes around fields that hold commas
 * (6).  Python's reader takes it apart. */
static void the_table_is_read_back(void **state)
{
    (void)state;
    char *csv = made(POTASH_CSV);
    for (const char *at = csv; *at != '\0'; at++) {
        assert_true(*at != '\n' || (at > csv && at[-1] == '\r'));
    }
    assert_string_equal(csv + strlen(csv) - 2, "\r\n");
    assert_non_null(strstr(csv, ",\"M; 06, 17\",\"Harbour Chemicals, back door\","));
    const char *path = scratch_text("shelf.csv", csv);
    static const char program[] = "import csv, sys\n"
                                  "rows = list(csv.reader(open(sys.argv[1], newline='', encoding='utf-8'), strict=True))\n"
                                  "assert len({len(row) for row in rows}) == 1, rows\n"
                                  "for row in rows: print('|'.join(row))\n";
    const char *arguments[] = {"-c", program, path, NULL};
    struct run run = run_program("/usr/bin/python3", arguments, NULL, 0);
    assert_status(&run, 0);
    assert_prints(&run, "left|Quay Street, back room|metol||20|g||100 g|18.50|GBP|2026-05-31|M; 06, 17|Harbour Chemicals, back door|||\n");
    assert_prints(&run, "left|Quay Street, back room|acetic acid|28 %|500|mL||500 mL|4.10|GBP|2027-06-30||die Apotheke");
    assert_prints(&run, "left|Quay Street, back room|borax|decahydrate|1000|g||1 kg||||||||\n");
    assert_prints(&run, "mix|Bath \\ one, two; three||||||||||||as written||\n");
    assert_prints(&run, "expires|Quay Street, back room|metol|");
    run_free(&run);
    scratch_remove();
    free(csv);
}

/* RFC 4180, rule 7: a quote within a quoted field is doubled.  Titles cannot hold one in the notation, typographic quotes can hold a
 * plain one. */
static void quotes_are_doubled(void **state)
{
    (void)state;
    char *csv = report_text_of(potash_shelf, NULL, "shelf \u201Cthe \"cold\" shelf\u201D\n holds metol 100 g\n", POTASH_CSV);
    assert_non_null(strstr(csv, "left,\"the \"\"cold\"\" shelf\",metol,"));
    free(csv);
}

/* Puts folded lines together: CRLF and one blank are taken out (RFC 5545, 3.1). */
static char *unfolded(const char *text)
{
    char *out = malloc(strlen(text) + 1);
    char *to = out;
    for (const char *at = text; *at != '\0';) {
        if (strncmp(at, "\r\n ", 3) == 0) {
            at += 3;
        } else {
            *to++ = *at++;
        }
    }
    *to = '\0';
    return out;
}

static size_t count_of(const char *text, const char *what)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, what)) != NULL; at += strlen(what)) {
        count++;
    }
    return count;
}

static void the_calendar_keeps_to_the_standard(void **state)
{
    (void)state;
    char *calendar = made(POTASH_ICAL);
    bool folded = false;
    for (const char *line = calendar; *line != '\0';) {
        const char *end = strstr(line, "\r\n");
        assert_non_null(end);
        assert_true(end - line <= 75); /* 3.1: octets without the line's end */
        assert_null(memchr(line, '\n', (size_t)(end - line)));
        folded = folded || *line == ' ';
        /* no character is cut: a line starts with no octet that continues one */
        assert_true(((unsigned char)line[*line == ' '] & 0xC0) != 0x80);
        line = end + 2;
    }
    assert_true(folded);
    char *text = unfolded(calendar);
    assert_int_equal(strncmp(text, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:", 37), 0);
    assert_string_equal(text + strlen(text) - 15, "END:VCALENDAR\r\n");
    /* of the empty pack and of the one without a day nothing is said */
    assert_int_equal(count_of(text, "BEGIN:VEVENT\r\n"), 2);
    assert_int_equal(count_of(text, "END:VEVENT\r\n"), 2);
    assert_int_equal(count_of(text, "\r\nUID:"), 2);
    assert_int_equal(count_of(text, "\r\nDTSTAMP:20260304T000000Z\r\n"), 2);
    assert_non_null(strstr(text, "\r\nDTSTART;VALUE=DATE:20260531\r\n"));
    assert_non_null(strstr(text, "\r\nSUMMARY:Best before: acetic acid (28 %)\r\n"));
    /* 3.3.11: a comma and a semicolon stand behind a backslash */
    assert_non_null(strstr(text, "\"Quay Street\\, back room\"\\, lot M\\; 06\\, 17\\, from Harbour Chemicals\\, back door\r\n"));
    assert_non_null(strstr(text, "zweite Tür rechts\\, bei Frau Müller-Lüdenscheidt\r\n"));
    free(text);
    free(calendar);
}

/* A UID is one event's only, and the same when the calendar is made again on another day. */
static void events_keep_their_names(void **state)
{
    (void)state;
    static const char twins[] = "shelf \"S\"\n holds metol 100 g best before 2026-05-31\n holds metol 100 g best before 2026-05-31\n";
    struct potash_options first = {.date = "2026-03-04"};
    struct potash_options later = {.date = "2026-04-05"};
    char *one = report_text_of(potash_shelf, &first, twins, POTASH_ICAL);
    char *other = report_text_of(potash_shelf, &later, twins, POTASH_ICAL);
    char ids[2][100];
    const char *at = one;
    for (int i = 0; i < 2; i++) {
        at = strstr(at, "UID:");
        assert_non_null(at);
        snprintf(ids[i], sizeof ids[i], "%.*s", (int)strcspn(at, "\r"), at);
        assert_non_null(strstr(other, ids[i]));
        at++;
    }
    assert_string_not_equal(ids[0], ids[1]);
    free(one);
    free(other);
}

/* A bottle of the diary has its last day too: mixed on 2026-02-01 and good for 2 weeks, it keeps until 2026-02-15; one that was
 * poured away has none. */
static void bottles_have_their_day(void **state)
{
    (void)state;
    struct potash_options options = {.date = "2026-02-03"};
    char *calendar = report_text_of(potash_shelf, &options,
                                    "shelf \"S\"\n holds metol 100 g\n"
                                    "formula \"Bath\"\n kind other\n metol 2 g\n water to make 1 L\n keeps 2 weeks in full bottle\n"
                                    "batch \"B-001\" of \"Bath\"\n mixed 2026-02-01\n made 1 L\n"
                                    "batch \"B-002\" of \"Bath\"\n mixed 2026-02-01\n made 1 L\n discarded 2026-02-02\n",
                                    POTASH_ICAL);
    assert_int_equal(count_of(calendar, "BEGIN:VEVENT\r\n"), 1);
    assert_non_null(strstr(calendar, "DTSTART;VALUE=DATE:20260215\r\nSUMMARY:Keeps until today: batch B-001\\, Bath\r\n"));
    free(calendar);
}

static void a_calendar_wants_a_day(void **state)
{
    (void)state;
    struct compiled compiled = compile_with(NULL, shelf, strlen(shelf));
    struct potash_output output;
    assert_int_equal(potash_shelf(compiled.potash, POTASH_ICAL, &output), POTASH_UNUSABLE);
    assert_non_null(strstr(potash_message(compiled.potash), "on which day it was made"));
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_table_is_read_back),
        cmocka_unit_test(quotes_are_doubled),
        cmocka_unit_test(the_calendar_keeps_to_the_standard),
        cmocka_unit_test(events_keep_their_names),
        cmocka_unit_test(bottles_have_their_day),
        cmocka_unit_test(a_calendar_wants_a_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
