/* What the tests of the page share: rendering, looking at lines, and a mixing sheet with everything on it. */
#ifndef POTASH_TESTS_PAGE_HELP_H
#define POTASH_TESTS_PAGE_HELP_H

#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* memmem */
#endif

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/utf8.h"
#include "page/page.h"

#include <math.h>
#include <string.h>

static struct arena arena;

/* There is no way back for failing allocations, which no function could leave open that returns: such a test falls over. */
static inline int set_up(void **state)
{
    (void)state;
    arena_start(&arena);
    return 0;
}

static inline int tear_down(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

/* ---- help ---- */

struct lines {
    struct text at[2000];
    size_t count;
};

static inline const char *rendered(const struct page *page, size_t width)
{
    struct buffer out;
    buffer_start(&out, &arena);
    page_render_text(page, &out, width);
    return buffer_finish(&out);
}

static inline struct lines *lines_of(const char *text)
{
    struct lines *lines = ARENA_NEW(&arena, struct lines);
    while (*text != '\0') {
        const char *end = strchr(text, '\n');
        assert_non_null(end); /* the last line ends, too */
        assert_true(lines->count < 2000);
        lines->at[lines->count++] = (struct text){text, (size_t)(end - text)};
        text = end + 1;
    }
    return lines;
}

/* Columns before `what` in the first line from `from` on that holds it; the line's number goes to `line`. */
static inline size_t column_of(const struct lines *lines, size_t from, const char *what, size_t *line)
{
    for (size_t i = from; i < lines->count; i++) {
        const char *found = memmem(lines->at[i].at, lines->at[i].length, what, strlen(what));
        if (found != NULL) {
            *line = i;
            return utf8_width((struct text){lines->at[i].at, (size_t)(found - lines->at[i].at)});
        }
    }
    fail_msg("'%s' is not on the page", what);
    return 0;
}

static inline size_t line_with(const struct lines *lines, const char *what)
{
    size_t line = 0;
    column_of(lines, 0, what, &line);
    return line;
}

/* Text without its white space. */
static inline const char *without_blanks(const char *text)
{
    struct buffer out;
    buffer_start(&out, &arena);
    for (; *text != '\0'; text++) {
        if (*text != ' ' && *text != '\n') {
            buffer_character(&out, *text);
        }
    }
    return buffer_finish(&out);
}

/* ---- a page with everything on it ---- */

struct sheet {
    struct page *page;
    struct page_table *table;
    struct page_column *tick, *material, *amount, *measured, *role, *weighed, *lot;
};

static inline struct page_row *add(struct sheet *sheet, const char *material, const char *amount, double grams,
                                   const char *measured, const char *role)
{
    struct page_row *row = page_table_row(sheet->table);
    page_row_cell(row, sheet->material, text_from(material));
    page_row_amount(row, sheet->amount, text_from(amount), grams, TEXT("g"));
    page_row_cell(row, sheet->measured, text_from(measured));
    page_row_cell(row, sheet->role, text_from(role));
    return row;
}

static inline void start_table(struct sheet *sheet)
{
    sheet->table = page_add_table(sheet->page);
    sheet->tick = page_table_column(sheet->table, TEXT(""), PAGE_COLUMN_TICK, PAGE_LEFT, 1);
    sheet->material = page_table_column(sheet->table, TEXT("material"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    sheet->amount = page_table_column(sheet->table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    sheet->measured = page_table_column(sheet->table, TEXT("how it is measured"), PAGE_COLUMN_TEXT, PAGE_LEFT, 3);
    sheet->role = page_table_column(sheet->table, TEXT("role"), PAGE_COLUMN_TEXT, PAGE_LEFT, 4);
    sheet->weighed = page_table_column(sheet->table, TEXT("weighed"), PAGE_COLUMN_BLANK, PAGE_LEFT, 2);
    sheet->lot = page_table_column(sheet->table, TEXT("lot"), PAGE_COLUMN_BLANK, PAGE_CENTRE, 5);
}

static inline struct sheet full_sheet(void)
{
    struct sheet sheet = {.page = page_start(&arena)};
    struct page *page = sheet.page;
    page_set_title(page, TEXT("Saltmarsh print developer"));
    page_set_subtitle(page, TEXT("Mixing sheet"));
    page_add_fact(page, TEXT("kind"), TEXT("developer"));
    page_fact_value(page_add_fact(page, TEXT("batch"), TEXT("2 L (2 x the formula)")), 2000, TEXT("mL"));
    page_set_source(page,
                    TEXT("saltmarsh/a-rather-long-directory-name-without-any-blank-in-it-at-all/print-developer.bath"));
    page_set_date(page, TEXT("2025-11-02"));
    page_set_caution(page, TEXT("Check the supplier's safety data sheet; local rules come first."));
    page_add_warning(page, PAGE_CAUTION, TEXT("dust"), TEXT("Weigh under moving air, with gloves and eye protection."));
    struct page_pictograms *pictograms = page_add_pictograms(page);
    page_pictogram(pictograms, TEXT("GHS05"), TEXT("corrosive"));
    page_pictogram(pictograms, TEXT("GHS07"), TEXT("exclamation mark"));
    page_pictogram(pictograms, TEXT("GHS08"), TEXT("health hazard"));
    page_add_heading(page, 1, TEXT("Mixing"));
    start_table(&sheet);
    add(&sheet, "metol", "3 g", 3, "weighed", "developing agent");
    page_table_between(sheet.table,
                       TEXT("stand 10 min, stirring now and then, until nothing is left at the bottom of the jug"));
    page_row_note(add(&sheet, "sodium sulfite (anhydrous)", "60.5 g", 60.5, "weighed", "preservative"),
                  TEXT("Loses strength in a jar that has been open for long; smell and a hard crust tell it."));
    add(&sheet, "φωτογραφικό υδροθειώδες νάτριο", "1250 g", 1250, "weighed in three lots", "");
    add(&sheet, "無水亜硫酸ナトリウムを少しずつ加える", "0.25 g", 0.25, "25 mL of a 1 % stock", "restrainer");
    add(&sheet, "p-methylaminophenolsulfateofanunusuallylongname", "as needed", NAN, "by eye", "");
    page_row_cell(page_table_total(sheet.table), sheet.material, TEXT("powders in all"));
    page_add_heading(page, 2, TEXT("Before you leave"));
    page_list_item(page_add_list(page, PAGE_TICKS),
                   TEXT("bottle labelled with the date and the strength of the solution"));
    page_list_item(page_add_list(page, PAGE_POINTS), TEXT("rinse the funnel"));
    struct page_blanks *blanks = page_add_blanks(page);
    page_blank(blanks, TEXT("mixed on"), PAGE_ROOM_NAME, TEXT(""));
    page_blank(blanks, TEXT("temperature"), PAGE_ROOM_FIGURE, TEXT("°C"));
    page_blank(blanks, TEXT("appearance"), PAGE_ROOM_LINE, TEXT(""));
    page_add_rule(page);
    page_facts_add(page_add_facts(page), TEXT("in a full and well stoppered bottle"), TEXT("6 months"));
    page_add_break(page);
    page_add_paragraph(page, TEXT("Agitate for the first 30 s, then 5 s in every half minute."));
    return sheet;
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

#endif
