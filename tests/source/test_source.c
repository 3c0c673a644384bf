/* Positions: offsets to line and column, over several files, with every way of ending a line. */
#include "support/arena_help.h"

#include "source/source.h"

#include <stdio.h>

static struct source_file *add(struct source_set *set, const char *name, const char *text)
{
    size_t length = strlen(text);
    struct source_file *file = source_add(set, name, arena_copy(&arena, text, length), length, false);
    assert_non_null(file);
    return file;
}

static void assert_place(const struct source_set *set, const struct source_file *file, size_t within, unsigned line,
                         unsigned column)
{
    struct place place = source_place(set, file->base + (uint32_t)within);
    assert_ptr_equal(place.file, file);
    if (place.line != line || place.column != column) {
        fail_msg("offset %zu: %u:%u instead of %u:%u", within, place.line, place.column, line, column);
    }
}

static void lines_and_columns(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    struct source_file *file = add(&set, "a.bath", "one\ntwo\n\nlast");
    assert_place(&set, file, 0, 1, 1);
    assert_place(&set, file, 2, 1, 3);
    assert_place(&set, file, 3, 1, 4); /* the line's end itself */
    assert_place(&set, file, 4, 2, 1);
    assert_place(&set, file, 8, 3, 1);
    assert_place(&set, file, 9, 4, 1);
    assert_place(&set, file, 13, 4, 5); /* behind the last byte */
    assert_place(&set, file, 14, 4, 5); /* never beyond */
}

static void carriage_returns_belong_to_no_line(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    struct source_file *file = add(&set, "a.bath", "one\r\ntwo\r\n");
    assert_place(&set, file, 3, 1, 4);
    assert_place(&set, file, 4, 1, 4);
    assert_place(&set, file, 5, 2, 1);
    assert_text(source_line(&set, source_place(&set, file->base)), "one");
    assert_text(source_line(&set, source_place(&set, file->base + 6)), "two");
}

static void columns_count_characters(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    /* 2-byte, 3-byte and 4-byte characters; a tab is one column. */
    struct source_file *file = add(&set, "a.bath", "\u00BD g\t\u20AC\U0001F600x");
    assert_place(&set, file, 2, 1, 2);
    assert_place(&set, file, 4, 1, 4);
    assert_place(&set, file, 5, 1, 5);
    assert_place(&set, file, 8, 1, 6);
    assert_place(&set, file, 12, 1, 7);
}

static void a_byte_order_mark_takes_no_column(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    struct source_file *file = add(&set, "a.bath",
                                   "\xEF\xBB\xBF"
                                   "one\ntwo\n");
    assert_place(&set, file, 0, 1, 1);
    assert_place(&set, file, 3, 1, 1);
    assert_place(&set, file, 5, 1, 3);
    assert_place(&set, file, 7, 2, 1);
    assert_text(source_line(&set, source_place(&set, file->base)), "one");
}

static void files_share_one_line_of_offsets(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    enum { FILES = 100 };
    struct source_file *files[FILES];
    for (int i = 0; i < FILES; i++) {
        files[i] = add(&set, arena_format(&arena, "%d.bath", i), arena_format(&arena, "file %d\nsecond line\n", i));
    }
    for (int i = 0; i < FILES; i++) {
        assert_ptr_equal(source_file_at(&set, files[i]->base), files[i]);
        assert_ptr_equal(source_file_at(&set, files[i]->base + files[i]->length), files[i]);
        assert_place(&set, files[i], files[i]->length - 3, 2, 10);
        assert_text(source_line(&set, source_place(&set, files[i]->base)), arena_format(&arena, "file %d", i));
        assert_text(source_text(&set, (struct span){files[i]->base, files[i]->base + 4}), "file");
    }
    /* No two positions are the same, not even an end and the next beginning. */
    assert_true(files[1]->base > files[0]->base + files[0]->length);
    assert_true(files[0]->base > 0);
}

static void an_empty_file_has_a_place(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    assert_int_equal(source_place(&set, 0).line, 1); /* nothing read at all */
    struct source_file *file = add(&set, "empty.bath", "");
    assert_place(&set, file, 0, 1, 1);
    struct source_file *next = add(&set, "b.bath", "x");
    assert_place(&set, next, 0, 1, 1);
    assert_place(&set, file, 0, 1, 1);
    assert_text(source_text(&set, (struct span){0, 0}), "");
}

static void too_long_a_file_is_refused(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    static char byte[2] = "x";
    assert_null(source_add(&set, "huge", byte, (size_t)SOURCE_LONGEST + 1, false)); /* the bytes are not looked at */
    assert_int_equal(set.count, 0);
}

static void all_files_together_stay_below_4_gb(void **state)
{
    (void)state;
    struct source_set set;
    source_start(&set, &arena);
    static char byte[2] = "x";
    int taken = 0;
    while (taken < 10 && source_add(&set, "large", byte, SOURCE_LONGEST, false) != NULL) {
        taken++;
    }
    assert_int_equal(taken, 3); /* a fourth GB and the offsets between would pass 2^32 */
}

static void spans_join(void **state)
{
    (void)state;
    struct span joined = span_join((struct span){5, 7}, (struct span){2, 6});
    assert_int_equal(joined.begin, 2);
    assert_int_equal(joined.end, 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(lines_and_columns),
        WITH_ARENA(carriage_returns_belong_to_no_line),
        WITH_ARENA(columns_count_characters),
        WITH_ARENA(a_byte_order_mark_takes_no_column),
        WITH_ARENA(files_share_one_line_of_offsets),
        WITH_ARENA(an_empty_file_has_a_place),
        WITH_ARENA(too_long_a_file_is_refused),
        WITH_ARENA(all_files_together_stay_below_4_gb),
        WITH_ARENA(spans_join),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
