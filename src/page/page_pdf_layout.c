/* Pieces: what stays together on a sheet. */
#include "page/page_pdf_layout.h"

#define APPEND(first, last, item)                                                                                             \
    do {                                                                                                                      \
        if ((last) == NULL) {                                                                                                 \
            (first) = (item);                                                                                                 \
        } else {                                                                                                              \
            (last)->next = (item);                                                                                            \
        }                                                                                                                     \
        (last) = (item);                                                                                                      \
    } while (0)

struct pdf_piece *pdf_add_piece(struct pdf_setter *setter, double before, double height)
{
    struct pdf_piece *piece = ARENA_NEW(setter->arena, struct pdf_piece);
    piece->before = before;
    piece->height = height;
    APPEND(setter->out->first, setter->out->last, piece);
    return piece;
}

struct pdf_mark *pdf_add_mark(struct pdf_setter *setter, struct pdf_piece *piece, enum pdf_mark_kind kind, double x, double y,
                              double width, double height)
{
    struct pdf_mark *mark = ARENA_NEW(setter->arena, struct pdf_mark);
    mark->kind = kind;
    mark->x = x;
    mark->y = y;
    mark->width = width;
    mark->height = height;
    APPEND(piece->first, piece->last, mark);
    return mark;
}

void pdf_put_mark(struct arena *arena, struct pdf_sheet *sheet, const struct pdf_mark *mark, double x, double y)
{
    struct pdf_mark *copy = ARENA_NEW(arena, struct pdf_mark);
    *copy = *mark;
    copy->x += x;
    copy->y += y;
    copy->next = NULL;
    APPEND(sheet->first, sheet->last, copy);
}

double pdf_put_text(struct pdf_setter *setter, struct pdf_piece *piece, const struct pdf_text *text, double x, double y)
{
    double down = y;
    for (const struct pdf_line *line = text->first; line != NULL; line = line->next) {
        if (line->runs != NULL) {
            pdf_add_mark(setter, piece, PDF_LINE, x + line->left, down + line->ascent, line->width, 0)->as.line = line;
        }
        down += line->ascent + line->descent;
    }
    return down - y;
}

struct pdf_piece *pdf_add_text(struct pdf_setter *setter, struct pdf_font font, double x, double before, struct text text)
{
    const struct pdf_text *set = pdf_set(setter->type, font, setter->width - x, text);
    struct pdf_piece *first = NULL;
    size_t number = 0;
    for (const struct pdf_line *line = set->first; line != NULL; line = line->next) {
        struct pdf_piece *piece = pdf_add_piece(setter, number == 0 ? before : 0, line->ascent + line->descent);
        if (line->runs != NULL) {
            pdf_add_mark(setter, piece, PDF_LINE, x + line->left, line->ascent, line->width, 0)->as.line = line;
        }
        /* The first two lines stay together, and the last two. */
        piece->keep_with_next = line->next != NULL && (number == 0 || number + 2 == set->count);
        first = first == NULL ? piece : first;
        number++;
    }
    return first;
}
