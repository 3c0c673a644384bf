/* Pages as plain text: lines, characters and all blocks but tables. */
#include "page_help.h"

static void no_line_is_wider_than_asked(void **state)
{
    (void)state;
    struct sheet sheet = full_sheet();
    for (size_t width = 20; width <= 220; width++) {
        const struct lines *lines = lines_of(rendered(sheet.page, width));
        assert_true(lines->count > 30);
        for (size_t i = 0; i < lines->count; i++) {
            struct text line = lines->at[i];
            if (utf8_width(line) > width) {
                fail_msg("at %zu: %.*s", width, TEXT_ARGUMENTS(line));
            }
            assert_true(line.length == 0 || line.at[line.length - 1] != ' ');
            assert_null(memchr(line.at, '\t', line.length));
        }
    }
}

static void nothing_is_lost_at_any_width(void **state)
{
    (void)state;
    struct sheet sheet = full_sheet();
    /* Amounts and blanks in one piece; what belongs to a row is on the page, in the table or under the row. */
    static const char *const pieces[] = {"3 g",        "60.5 g", "1250 g", "0.25 g",  "weighed",   "preservative",
                                         "restrainer", "[ ]",    "______", "! Loses", "30 s",      "[GHS07]",
                                         "- rinse",    "°C",     "metol",  "6",       "as needed", "powders in",
                                         NULL};
    for (size_t width = 24; width <= 220; width += 7) {
        const char *text = rendered(sheet.page, width);
        for (const char *const *piece = pieces; *piece != NULL; piece++) {
            if (strstr(text, *piece) == NULL) {
                fail_msg("at %zu '%s' is lost", width, *piece);
            }
        }
    }
    for (size_t width = 20; width <= 100; width += 5) {
        struct page *page = page_start(&arena);
        const char *words = "Dissolve the 1.5 g of metol before the sulfite, "
                            "averyveryverylongwordwithoutablankthatnolinewouldhold and 水を加える。 then 2 g.";
        page_add_paragraph(page, text_from(words));
        assert_string_equal(without_blanks(rendered(page, width)), without_blanks(words));
    }
}

static void a_width_of_nought_is_eighty(void **state)
{
    (void)state;
    struct sheet sheet = full_sheet();
    assert_string_equal(rendered(sheet.page, 0), rendered(sheet.page, 80));
    assert_string_equal(rendered(sheet.page, 3), rendered(sheet.page, 20));
}

static void greek_breaks_between_words(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    /* 9, 2 and 7 letters of two bytes each: 20 columns with their blanks, but 38 bytes. */
    page_add_paragraph(page, TEXT("διάλυμα12 το διάλυμα το νερό"));
    assert_string_equal(rendered(page, 22), "  διάλυμα12 το διάλυμα\n  το νερό\n");
    assert_string_equal(rendered(page, 21), "  διάλυμα12 το\n  διάλυμα το νερό\n");
}

static void wide_characters_take_two_columns(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    /* 18 columns hold nine characters; the full stop would start the second line and takes its neighbour with it. */
    page_add_paragraph(page, TEXT("一二三四五六七八九。十"));
    assert_string_equal(rendered(page, 20), "  一二三四五六七八\n  九。十\n");
    assert_string_equal(rendered(page, 21), "  一二三四五六七八\n  九。十\n");
    assert_string_equal(rendered(page, 22), "  一二三四五六七八九。\n  十\n");
}

static void a_word_is_cut_between_letters_not_within(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    /* e and a combining acute accent, thirty times: an accent never starts a line. */
    struct buffer word;
    buffer_start(&word, &arena);
    for (size_t i = 0; i < 30; i++) {
        buffer_string(&word, "e\xCC\x81");
    }
    page_add_paragraph(page, ((struct text){word.bytes, word.length}));
    const struct lines *lines = lines_of(rendered(page, 20));
    assert_int_equal(lines->count, 2);
    assert_int_equal(lines->at[0].length, 2 + 18 * 3);
    assert_int_equal(lines->at[1].length, 2 + 12 * 3);
}

static void a_figure_stays_with_its_unit(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    page_add_paragraph(page, TEXT("Cool the bath to 24 °C, add 1 1/2 oz, then 0.5\u00A0g."));
    const char *pairs[] = {"24 °C", "1 1/2 oz", "0.5 g"};
    for (size_t width = 20; width < 60; width++) {
        const char *text = rendered(page, width);
        for (size_t i = 0; i < 3; i++) {
            assert_non_null(strstr(text, pairs[i]));
        }
    }
}

static void control_characters_are_kept_for_programs_only(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    page_set_title(page, TEXT("a\033[31mb\x07"
                              "c\x7F"
                              "d\xC2\x9B"
                              "e\xE2\x80\xAE"
                              "f\x00g\xFFh\ti\n j"));
    assert_string_equal(rendered(page, 80), "a�[31mb�c�d�e�f�g�h i j\n");
    struct page_table *table = page_add_table(page);
    struct page_column *column = page_table_column(table, TEXT("x\033"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_row *row = page_table_row(table);
    page_row_amount(row, column, TEXT("\033c"), 1, TEXT("\033u"));
    page_row_note(row, TEXT("\033n"));
    page_table_between(table, TEXT("\033s"));
    page_pictogram(page_add_pictograms(page), TEXT("\033p"), TEXT("\033q"));
    assert_null(strchr(rendered(page, 80), '\033'));
    /* In which nothing is lost but bytes that are no text. */
    assert_true(text_is(page->title, "a\033[31mb\x07"
                                     "c\x7F"
                                     "d\xC2\x9B"
                                     "e\xE2\x80\xAE"
                                     "f�g�h i j"));
}

/* UTS 51, 2.2: a woman, a joiner and a microscope are one picture, and no line ends within it. */
static void joined_pictures_stay_whole(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    struct buffer text;
    buffer_start(&text, &arena);
    for (int i = 0; i < 30; i++) {
        buffer_string(&text, "👩\u200D🔬");
    }
    page_add_paragraph(page, ((struct text){text.bytes, text.length}));
    for (size_t width = 20; width < 40; width++) {
        const char *shown = rendered(page, width);
        assert_null(strstr(shown, "\uFFFD"));
        assert_null(strstr(shown, "\u200D\n"));
        assert_null(strstr(shown, " \u200D"));
        assert_non_null(strstr(shown, "🔬\n"));
    }
}

static void blocks_are_set_as_drawn(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    page_set_title(page, TEXT("Stop bath"));
    page_add_fact(page, TEXT("kind"), TEXT("stop bath"));
    page_add_fact(page, TEXT("made from"),
                  TEXT("glacial acetic acid, which is to be poured into the water and never the other way"));
    page_add_heading(page, 1, TEXT("Order"));
    struct page_list *steps = page_add_list(page, PAGE_NUMBERS);
    for (int i = 1; i <= 10; i++) {
        page_list_item(steps, page_format(page, "step %d", i));
    }
    page_add_heading(page, 2, TEXT("Then"));
    page_list_item(page_add_list(page, PAGE_TICKS), TEXT("wipe the bench and hang the apron up"));
    page_add_warning(page, PAGE_CAUTION, TEXT("acid"), TEXT("Acid into water."));
    page_add_warning(page, PAGE_NOTE, TEXT(""), TEXT("It smells."));
    struct page_blanks *blanks = page_add_blanks(page);
    page_blank(blanks, TEXT("by"), PAGE_ROOM_NAME, TEXT(""));
    page_blank(blanks, TEXT("at"), PAGE_ROOM_FIGURE, TEXT("°C"));
    page_blank(blanks, TEXT("look"), PAGE_ROOM_LINE, TEXT(""));
    page_set_caution(page, TEXT("Local rules come first."));
    page_set_source(page, TEXT("stop.bath"));
    page_set_date(page, TEXT("2025-11-02"));
    assert_string_equal(rendered(page, 40), "Stop bath\n"
                                            "\n"
                                            "  kind       stop bath\n"
                                            "  made from  glacial acetic acid, which\n"
                                            "             is to be poured into the\n"
                                            "             water and never the other\n"
                                            "             way\n"
                                            "\n\n"
                                            "Order\n"
                                            "\n"
                                            "   1. step 1\n   2. step 2\n   3. step 3\n   4. step 4\n   5. step 5\n"
                                            "   6. step 6\n   7. step 7\n   8. step 8\n   9. step 9\n  10. step 10\n"
                                            "\n"
                                            "  Then\n"
                                            "  [ ]  wipe the bench and hang the apron\n"
                                            "       up\n"
                                            "\n"
                                            "  ! CAUTION: acid\n"
                                            "    Acid into water.\n"
                                            "\n"
                                            "  Note\n"
                                            "  It smells.\n"
                                            "\n"
                                            "  by ______________   at ________ °C\n"
                                            "\n"
                                            "  look _________________________________\n"
                                            "\n\n"
                                            "────────────────────────────────────────\n"
                                            "Local rules come first.\n"
                                            "stop.bath, 2025-11-02\n");
}

static void rendering_goes_on_behind_what_is_there(void **state)
{
    (void)state;
    struct page *page = page_start(&arena);
    page_add_paragraph(page, TEXT("water"));
    struct buffer out;
    buffer_start(&out, &arena);
    buffer_string(&out, "before \n");
    page_render_text(page, &out, 40);
    assert_string_equal(buffer_finish(&out), "before \n  water\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(no_line_is_wider_than_asked),      TEST(nothing_is_lost_at_any_width),
        TEST(a_width_of_nought_is_eighty),      TEST(greek_breaks_between_words),
        TEST(wide_characters_take_two_columns), TEST(a_word_is_cut_between_letters_not_within),
        TEST(a_figure_stays_with_its_unit),     TEST(control_characters_are_kept_for_programs_only), TEST(joined_pictures_stay_whole),
        TEST(blocks_are_set_as_drawn),          TEST(rendering_goes_on_behind_what_is_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
