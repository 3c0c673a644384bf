/* Pages as HTML: what is written, whatever stands on the page.  How it looks and works in a browser: tests/browser/. */
#include "page_help.h"

#include "page/page_html.h"

#include <stdio.h>

static const char *document(struct page_set *set)
{
    struct buffer out;
    buffer_start(&out, &arena);
    page_render_html(set, &out);
    return buffer_finish(&out);
}

static struct page *only_page(struct page_set *set)
{
    page_set_start(set, &arena);
    struct page *page = page_set_add(set);
    page_set_title(page, TEXT("A page"));
    return page;
}

/* What stands behind </style>: the part that the page's texts are in. */
static const char *body_of(const char *html)
{
    const char *body = strstr(html, "<body>");
    assert_non_null(body);
    return body;
}

static void assert_has(const char *html, const char *text)
{
    if (strstr(html, text) == NULL) {
        fail_msg("'%s' is not in\n%s", text, html);
    }
}

static void assert_has_not(const char *html, const char *text)
{
    if (strstr(html, text) != NULL) {
        fail_msg("'%s' is in\n%s", text, html);
    }
}

static void signs_of_markup_are_escaped(void **state)
{
    (void)state;
    struct buffer out;
    buffer_start(&out, &arena);
    html_text(&out, TEXT("a < b > c & d \" e ' f &amp; \u05E9 \xF0\x9F\x93\xB7"));
    assert_string_equal(buffer_finish(&out), "a &lt; b &gt; c &amp; d &quot; e &#39; f &amp;amp; \u05E9 \xF0\x9F\x93\xB7");
    buffer_start(&out, &arena);
    html_text(&out, (struct text){0});
    html_text(&out, TEXT("<"));
    assert_string_equal(buffer_finish(&out), "&lt;");
}

struct places {
    int evil; /* the place that gets the evil text */
    int next;
};

static struct text put(struct places *places)
{
    return places->next++ == places->evil ? TEXT("\"'></title></style></script><b onclick=x>") : TEXT("plain");
}

/* Each place of a page that takes a text, one after the other, with a text that would end whatever it stands in. */
static void no_place_lets_markup_through(void **state)
{
    (void)state;
    enum { PLACES = 28 };
    for (int place = 0; place < PLACES; place++) {
        struct page_set set;
        struct page *page = only_page(&set);
        struct places places = {place, 0};
        set.title = put(&places);
        page_set_title(page, put(&places));
        page_set_subtitle(page, put(&places));
        page_set_source(page, put(&places));
        page_set_date(page, put(&places));
        page_set_caution(page, put(&places));
        page_set_anchor(page, put(&places));
        struct page_batch batch = {.makes = 1, .scale = 1, .of = put(&places), .unit = TEXT("L")};
        page_set_batch(page, &batch);
        page_batch_unit(page, put(&places), 1000);
        page_add_fact(page, put(&places), put(&places));
        page_add_heading(page, 1, put(&places));
        struct text first = put(&places);
        page_add_paragraph(page, page_compose(page, "{}{}", page_plain(first), page_figure(&arena, PAGE_FIGURE_MASS, 1, 0, TEXT("1 g"))));
        page_list_item(page_add_list(page, PAGE_TICKS), put(&places));
        page_add_warning(page, PAGE_CAUTION, put(&places), put(&places));
        page_blank(page_add_blanks(page), put(&places), PAGE_ROOM_LINE, put(&places));
        page_pictogram(page_add_pictograms(page), put(&places), put(&places));
        page_add_code(page, TEXT("code"), put(&places));
        page_stage(page_add_timeline(page, put(&places)), put(&places), put(&places), 0, 1);
        struct page_table *table = page_add_table(page);
        struct page_column *column = page_table_column(table, put(&places), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
        struct page_row *row = page_table_row(table);
        page_row_cell(row, column, put(&places));
        page_row_note(row, put(&places));
        page_table_between(table, put(&places));
        assert_int_equal(places.next, PLACES);
        const char *html = document(&set);
        assert_has_not(html, "<b onclick");
        assert_has(html, "&lt;b onclick=x&gt;");
    }
}

/* Every element is closed where it has to be, and every attribute stands in quotes. */
static void every_element_is_closed(void **state)
{
    (void)state;
    struct page_set set;
    page_set_start(&set, &arena);
    struct sheet sheet = full_sheet();
    page_set_add(&set);
    set.first->page = sheet.page;
    page_set_title(page_set_add(&set), TEXT("Another"));
    const char *at = strstr(document(&set), "</script>");
    assert_non_null(at);
    struct text open[64];
    size_t depth = 0;
    open[depth++] = TEXT("html");
    open[depth++] = TEXT("head");
    open[depth++] = TEXT("script");
    for (at = strchr(at, '<'); at != NULL; at = strchr(at, '<')) {
        bool closes = at[1] == '/';
        const char *name = at + 1 + closes;
        struct text tag = {name, strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789")};
        assert_true(tag.length > 0);
        const char *end = name + tag.length;
        while (*end != '>' && *end != '/') {
            assert_int_equal(*end, ' ');
            end += 1 + strspn(end + 1, "abcdefghijklmnopqrstuvwxyzB-"); /* viewBox */
            if (*end == '=') {
                assert_int_equal(end[1], '"');
                end = strchr(end + 2, '"') + 1;
            }
        }
        static const char *const empty[] = {"input", "hr", "link", "meta", "path"};
        bool is_empty = false;
        for (size_t i = 0; i < sizeof empty / sizeof *empty; i++) {
            is_empty = is_empty || text_is(tag, empty[i]);
        }
        if (closes) {
            assert_true(depth > 0 && text_equal(open[depth - 1], tag));
            depth--;
        } else if (!is_empty) {
            assert_true(depth < 64);
            open[depth++] = tag;
        }
        at = text_is(tag, "style") && !closes ? strstr(at, "</style>") : end;
    }
    assert_int_equal(depth, 0);
}

static void headings_leave_no_level_out(void **state)
{
    (void)state;
    struct page_set set;
    struct page *page = only_page(&set);
    page_add_heading(page, 2, TEXT("second alone"));
    assert_has(document(&set), "<h2 dir=\"auto\">second alone</h2>");
    page_add_heading(page, 1, TEXT("first"));
    assert_has(document(&set), "<h2 dir=\"auto\">first</h2>");
    assert_has(document(&set), "<h3 dir=\"auto\">second alone</h3>");
    page_set_title(page_set_add(&set), TEXT("Another page"));
    const char *html = document(&set);
    assert_has(html, "<h1 id=\"contents\">Contents</h1>");
    assert_has(html, "dir=\"auto\">Another page</h2>");
    assert_has(html, "<h3 dir=\"auto\">first</h3>");
    assert_has(html, "<h4 dir=\"auto\">second alone</h4>");
}

static void figures_are_kept_for_the_script(void **state)
{
    (void)state;
    struct page_set set;
    struct page *page = only_page(&set);
    struct page_words range = page_figure(&arena, PAGE_FIGURE_MASS, 0.1, 0.3, TEXT("0.1 to 0.3\u00A0g"));
    page_add_paragraph(page, page_compose(page, "take \"\\ {}", range));
    assert_has(document(&set),
               "<p data-pieces=\"[&quot;take \\&quot;\\\\ &quot;,[&quot;mass&quot;,0.1,0.3]]\""
               " dir=\"auto\">take &quot;\\ 0.1 to 0.3\u00A0g</p>");
}

static void what_does_not_hold_is_hidden(void **state)
{
    (void)state;
    struct page_set set;
    struct page *page = only_page(&set);
    page_add_fact_when(page, 0, 1, TEXT("batch"), TEXT("small"));
    page_add_fact_when(page, 1, INFINITY, TEXT("batch"), TEXT("large"));
    const char *html = document(&set);
    assert_has(html, "<div data-from=\"0\" data-below=\"1\" hidden><dt>batch</dt><dd dir=\"auto\">small</dd></div>");
    assert_has(html, "<div data-from=\"1\"><dt>batch</dt><dd dir=\"auto\">large</dd></div>");
}

/* The key under which ticks are kept is that of the formula: not of the day, the size or the file's name. */
static const char *key_of(double scale, const char *date, const char *grams)
{
    struct page_set set;
    struct page *page = only_page(&set);
    struct page_batch batch = {.makes = 1000, .scale = scale, .unit = TEXT("mL")};
    page_set_batch(page, &batch);
    page_set_date(page, text_from(date));
    page_add_fact(page, TEXT("batch"), text_from(date));
    struct page_table *table = page_add_table(page);
    struct page_column *column = page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
    page_row_cell(page_table_row(table), column,
                  page_figure(&arena, PAGE_FIGURE_MASS, strtod(grams, NULL), 0, page_format(page, "%g g", strtod(grams, NULL) * scale)));
    const char *key = strstr(document(&set), "data-key=\"");
    assert_non_null(key);
    return arena_copy(&arena, key, 26);
}

static void the_key_is_that_of_the_formula(void **state)
{
    (void)state;
    const char *key = key_of(1, "2026-03-04", "2");
    assert_string_equal(key_of(2.5, "2026-03-05", "2"), key);
    assert_string_not_equal(key_of(1, "2026-03-04", "2.5"), key);
}

static void nothing_makes_an_empty_document(void **state)
{
    (void)state;
    struct page_set set;
    page_set_start(&set, &arena);
    assert_has(document(&set), "<title>Nothing</title>");
    page_set_add(&set);
    const char *html = document(&set);
    assert_has(html, "<title>Untitled</title>");
    assert_has_not(body_of(html), "class=\"live size\"");
    assert_has_not(body_of(html), "<nav");
}

static void a_list_of_its_own_stands_for_the_contents(void **state)
{
    (void)state;
    struct page_set set;
    struct page *page = only_page(&set);
    page_set_anchor(page, TEXT("front"));
    struct page *other = page_set_add(&set);
    page_set_title(other, TEXT("Other"));
    page_set_anchor(other, TEXT("other"));
    struct page_contents *contents = page_add_contents(page);
    page_entry_target(page_contents_entry(contents, 1, TEXT("to the other"), TEXT("aside")), TEXT("other"));
    struct page_entry *entry = page_contents_entry(contents, 2, TEXT("metol"), TEXT(""));
    page_entry_target(entry, TEXT("front"));
    page_entry_target(entry, TEXT("other"));
    const char *html = document(&set);
    assert_has_not(body_of(html), "<nav");
    assert_has(html, "<article id=\"other\"");
    assert_has(html, "<a href=\"#other\" dir=\"auto\">to the other</a> <span class=\"detail\" dir=\"auto\">aside</span>");
    assert_has(html, "metol</span>: <a href=\"#front\" dir=\"auto\">A page</a>, <a href=\"#other\" dir=\"auto\">Other</a>");
}

/* Wherever memory runs out, the way back is taken, and with enough of it the document is the same. */
static void memory_may_run_out_anywhere(void **state)
{
    (void)state;
    volatile bool done = false;
    volatile long failures = 0;
    for (volatile long n = 0; !done; n++) {
        struct arena small;
        jmp_buf failure;
        arena_start(&small);
        small.on_failure = &failure;
        small.fail_after = n;
        if (setjmp(failure) == 0) {
            struct page_set set;
            page_set_start(&set, &small);
            struct page *page = page_set_add(&set);
            page_set_title(page, TEXT("A page"));
            struct page_table *table = page_add_table(page);
            struct page_column *column = page_table_column(table, TEXT("amount"), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, 1);
            for (int i = 0; i < 2000; i++) {
                page_row_cell(page_table_row(table), column, TEXT("1.5 g"));
            }
            struct buffer out;
            buffer_start(&out, &small);
            page_render_html(&set, &out);
            assert_non_null(strstr(out.bytes, "</html>"));
            done = true;
        } else {
            failures++;
        }
        arena_release(&small);
        assert_true(n < 1000);
    }
    assert_true(failures > 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(signs_of_markup_are_escaped, set_up, tear_down),
        cmocka_unit_test_setup_teardown(no_place_lets_markup_through, set_up, tear_down),
        cmocka_unit_test_setup_teardown(every_element_is_closed, set_up, tear_down),
        cmocka_unit_test_setup_teardown(headings_leave_no_level_out, set_up, tear_down),
        cmocka_unit_test_setup_teardown(figures_are_kept_for_the_script, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_does_not_hold_is_hidden, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_key_is_that_of_the_formula, set_up, tear_down),
        cmocka_unit_test_setup_teardown(nothing_makes_an_empty_document, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_list_of_its_own_stands_for_the_contents, set_up, tear_down),
        cmocka_unit_test_setup_teardown(memory_may_run_out_anywhere, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
