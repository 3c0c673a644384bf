/* Writes pages for the browser tests that no report makes whole: a course by the clock, every kind of block, hostile texts.
 *
 *     make_pages blocks|course|hostile >page.html */
#include "page/page_html.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static void add_course(struct page *page)
{
    struct page_timeline *course = page_add_timeline(page, TEXT("Roll film, one reel"));
    page_stage(course, TEXT("developer"), TEXT("20 °C; 10 s every minute"), 0, 540);
    page_stage(course, TEXT("stop"), TEXT(""), 540, 30);
    page_stage(course, TEXT("fixer"), TEXT("until clear"), 600, NAN);
    page_stage(course, TEXT("wash"), TEXT(""), 900, 600);
}

static void add_blocks(struct page *page)
{
    page_add_heading(page, 1, TEXT("Every kind of block"));
    page_add_paragraph(page, TEXT("Running text."));
    page_add_heading(page, 2, TEXT("Lists"));
    static const enum page_marks marks[] = {PAGE_POINTS, PAGE_NUMBERS, PAGE_TICKS};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        struct page_list *list = page_add_list(page, marks[i]);
        page_list_item(list, TEXT("first"));
        page_list_item(list, TEXT("second"));
    }
    page_add_list(page, PAGE_POINTS);
    page_add_warning(page, PAGE_CAUTION, TEXT("Chlorine."), TEXT("Keep acid away from this bath."));
    page_add_warning(page, PAGE_NOTE, TEXT(""), TEXT("A remark."));
    struct page_pictograms *pictograms = page_add_pictograms(page);
    page_pictogram(pictograms, TEXT("GHS05"), TEXT("corrosion"));
    page_pictogram(pictograms, TEXT("GHS07"), TEXT("exclamation mark"));
    page_pictogram(pictograms, TEXT("GHS99"), TEXT("none of the standard's"));
    page_add_code(page, TEXT("PD-014 4f00fa0b"), TEXT("batch PD-014"));
    page_add_rule(page);
    struct page_blanks *blanks = page_add_blanks(page);
    page_blank(blanks, TEXT("temperature"), PAGE_ROOM_FIGURE, TEXT("°C"));
    page_blank(blanks, TEXT("by"), PAGE_ROOM_NAME, TEXT(""));
    page_add_break(page);
    struct page_table *table = page_add_table(page);
    struct page_column *name = page_table_column(table, TEXT("take"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *amount = page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    struct page_column *right = page_table_column(table, TEXT("price"), PAGE_COLUMN_AMOUNT, PAGE_RIGHT, 2);
    struct page_column *middle = page_table_column(table, TEXT("kind"), PAGE_COLUMN_TEXT, PAGE_CENTRE, 2);
    for (int i = 1; i <= 3; i++) {
        struct page_row *row = i == 3 ? page_table_total(table) : page_table_row(table);
        page_row_cell(row, name, page_format(page, "thing %d", i));
        page_row_amount(row, amount, page_format(page, "%d.25 mL", i * i * i * 5), i, TEXT("mL"));
        page_row_cell(row, right, page_format(page, "%d.50", i));
        page_row_cell(row, middle, TEXT("-"));
    }
    page_row_note(page_table_between(table, TEXT("stir")), TEXT("slowly"));
    struct page_contents *contents = page_add_contents(page);
    page_entry_target(page_contents_entry(contents, 1, TEXT("This page"), TEXT("once more")), TEXT("this"));
    struct page_entry *twice = page_contents_entry(contents, 2, TEXT("metol"), TEXT(""));
    page_entry_target(twice, TEXT("this"));
    page_entry_target(twice, TEXT("that"));
    page_contents_entry(contents, 3, TEXT("nowhere"), TEXT(""));
    add_course(page);
}

/* Texts that would do harm if any of them reached the document unescaped. */
static struct text hostile(struct page *page, const char *where)
{
    return page_format(page,
                       "%s <script>window.harm = '%s'</script>\" onmouseover=\"window.harm=1\" ' <img src=x onerror=window.harm=2> "
                       "</title></style></script> &lt;b&gt; ]]> --> \\\" \\u003c \u202Etxet\u202C \u05E9\u05DC\u05D5\u05DD \u0645\u0631\u062D\u0628\u0627 ${1} \xF0\x9F\x93\xB7",
                       where, where);
}

static void add_hostile(struct page *page)
{
    page_set_title(page, hostile(page, "title"));
    page_set_subtitle(page, hostile(page, "subtitle"));
    page_set_source(page, hostile(page, "source"));
    page_set_date(page, hostile(page, "date"));
    page_set_caution(page, hostile(page, "caution"));
    page_set_anchor(page, hostile(page, "anchor"));
    struct page_batch batch = {.makes = 1000, .scale = 1, .unit = hostile(page, "unit"), .of = hostile(page, "of"), .balance = 0.01,
                               .graduate = 0.1, .rough = 0.02, .heavy = 10000};
    static const struct page_step steps[] = {{INFINITY, 1}};
    batch.volume_steps = steps;
    batch.volume_step_count = 1;
    page_set_batch(page, &batch);
    page_batch_unit(page, hostile(page, "unit"), 1000);
    page_add_fact(page, hostile(page, "label"), hostile(page, "fact"));
    page_add_heading(page, 2, hostile(page, "heading"));
    struct page_words figure = page_figure(page->arena, PAGE_FIGURE_VOLUME, 1000, 0, TEXT("1 L"));
    page_add_paragraph(page, page_compose(page, "{} {} {}", page_plain(hostile(page, "before")), figure, page_plain(hostile(page, "behind"))));
    page_list_item(page_add_list(page, PAGE_TICKS), hostile(page, "item"));
    page_add_warning(page, PAGE_CAUTION, hostile(page, "warning"), hostile(page, "warning"));
    page_blank(page_add_blanks(page), hostile(page, "blank"), PAGE_ROOM_NAME, hostile(page, "unit"));
    page_pictogram(page_add_pictograms(page), hostile(page, "code"), hostile(page, "name"));
    page_add_code(page, hostile(page, "content"), hostile(page, "code"));
    struct page_timeline *course = page_add_timeline(page, hostile(page, "course"));
    page_stage(course, hostile(page, "stage"), hostile(page, "detail"), 0, 60);
    struct page_table *table = page_add_table(page);
    struct page_column *tick = page_table_column(table, hostile(page, "tick"), PAGE_COLUMN_TICK, PAGE_LEFT, 1);
    struct page_column *name = page_table_column(table, hostile(page, "column"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *amount = page_table_column(table, hostile(page, "amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    page_table_column(table, hostile(page, "blank"), PAGE_COLUMN_BLANK, PAGE_LEFT, 1);
    (void)tick;
    struct page_row *row = page_table_row(table);
    page_row_cell(row, name, hostile(page, "cell"));
    page_row_cell(row, amount, hostile(page, "amount"));
    page_row_note(row, hostile(page, "note"));
    page_row_remark(row, hostile(page, "remark"));
    page_table_between(table, hostile(page, "between"));
    struct page_entry *entry = page_contents_entry(page_add_contents(page), 1, hostile(page, "entry"), hostile(page, "detail"));
    page_entry_target(entry, hostile(page, "target"));
    page_entry_target(entry, hostile(page, "other"));
    struct buffer end;
    buffer_start(&end, page->arena);
    buffer_repeat(&end, 'x', 10000);
    page_add_paragraph(page, text_from(buffer_finish(&end)));
    page_row_cell(page_table_row(table), name, text_from(buffer_finish(&end)));
    page_list_item(page_add_list(page, PAGE_POINTS), text_from(buffer_finish(&end)));
    page_add_fact(page, TEXT("long"), text_from(buffer_finish(&end)));
}

int main(int count, char **words)
{
    if (count != 2) {
        fputs("usage: make_pages blocks|course|hostile >page.html\n", stderr);
        return 2;
    }
    struct arena arena;
    jmp_buf no_memory;
    arena_start(&arena);
    arena.on_failure = &no_memory;
    if (setjmp(no_memory) != 0) {
        fputs("make_pages: out of memory\n", stderr);
        return 2;
    }
    struct page_set set;
    page_set_start(&set, &arena);
    struct page *page = page_set_add(&set);
    page_set_title(page, TEXT("A page for tests"));
    page_set_caution(page, TEXT("Check the supplier's safety data sheet."));
    if (strcmp(words[1], "hostile") == 0) {
        set.title = hostile(page, "set");
        add_hostile(page);
    } else if (strcmp(words[1], "course") == 0) {
        add_course(page);
    } else {
        page_set_anchor(page, TEXT("this"));
        add_blocks(page);
    }
    struct buffer out;
    buffer_start(&out, &arena);
    page_render_html(&set, &out);
    fwrite(out.bytes, 1, out.length, stdout);
    arena_release(&arena);
    return 0;
}
