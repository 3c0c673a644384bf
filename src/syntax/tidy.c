/* Puts a tidy file's lines together, and compares what two files say. */
#include "syntax/tidy.h"

#include "base/buffer.h"
#include "base/utf8.h"
#include "syntax/tidy_lines.h"

enum { COMMENT_GAP = 2, COMMENT_COLUMN_LIMIT = 76 /* a longer line does not push the comments of its neighbours */ };

/* Where comments at the ends of the lines [from, upto) stand. */
static size_t comment_column(const struct tidy_document *document, size_t from, size_t upto)
{
    size_t column = 0;
    for (size_t i = from; i < upto; i++) {
        const struct tidy_line *line = &document->lines[i];
        size_t end = line->indent + line->width + COMMENT_GAP;
        column = end > column && end <= COMMENT_COLUMN_LIMIT ? end : column;
    }
    return column;
}

static bool ends_in_comment(const struct tidy_line *line)
{
    return line->class != TIDY_COMMENT && line->comment.length > 0;
}

static void put_line(struct buffer *out, const struct tidy_line *line, size_t column)
{
    buffer_repeat(out, ' ', line->indent);
    size_t at = 0;
    for (size_t i = 0; i < line->cell_count; i++) {
        const struct tidy_cell *cell = &line->cells[i];
        buffer_repeat(out, ' ', cell->at - at);
        buffer_text(out, cell->text);
        at = cell->at + cell->width;
    }
    if (ends_in_comment(line)) {
        size_t end = line->indent + line->width;
        buffer_repeat(out, ' ', end + COMMENT_GAP > column ? COMMENT_GAP : column - end);
    }
    buffer_text(out, line->comment);
    buffer_character(out, '\n');
}

struct text tidy_text(struct arena *arena, struct arena *scratch, struct names *names, const struct syntax_file *file)
{
    struct tidy_document *document = tidy_read(scratch, names, file);
    tidy_place(document);
    tidy_columns(document);
    struct buffer out;
    buffer_start(&out, arena);
    size_t run = 0; /* one past the neighbouring lines whose comments stand in one column */
    size_t column = 0;
    for (size_t i = 0; i < document->count; i++) {
        const struct tidy_line *line = &document->lines[i];
        if (i >= run) {
            for (run = i; run < document->count && ends_in_comment(&document->lines[run]) &&
                          (run == i || !document->lines[run].blank_before);
                 run++) {
            }
            column = comment_column(document, i, run);
            run = run > i ? run : i + 1;
        }
        if (line->blank_before) {
            buffer_character(&out, '\n');
        }
        put_line(&out, line, column);
    }
    arena_start_over(scratch);
    return (struct text){buffer_finish(&out), out.length};
}

static bool same_line(const struct tidy_line *a, const struct tidy_line *b)
{
    if (a->token_count != b->token_count || !text_equal(a->comment, b->comment)) {
        return false;
    }
    for (size_t i = 0; i < a->token_count; i++) {
        if (a->tokens[i].kind != b->tokens[i].kind || !text_equal(a->tokens[i].text, b->tokens[i].text)) {
            return false;
        }
    }
    return true;
}

bool tidy_same(struct arena *scratch, struct names *names, const struct syntax_file *one, const struct syntax_file *other)
{
    const struct tidy_document *a = tidy_read(scratch, names, one);
    const struct tidy_document *b = tidy_read(scratch, names, other);
    bool same = a->count == b->count;
    for (size_t i = 0; same && i < a->count; i++) {
        same = same_line(&a->lines[i], &b->lines[i]);
    }
    arena_start_over(scratch);
    return same;
}
