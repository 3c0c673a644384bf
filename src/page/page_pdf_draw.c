/* Drawing with Cairo. */
#include "page/page_pdf_draw.h"

#include "base/number.h"

#include <stdio.h>

/* Called by Cairo, which must not be jumped out of: memory is from malloc here. */
static cairo_status_t take_bytes(void *context, const unsigned char *bytes, unsigned int length)
{
    struct pdf_drawing *drawing = context;
    if (drawing->capacity - drawing->length < length) {
        size_t capacity = (drawing->length + length) * 2;
        unsigned char *larger = realloc(drawing->bytes, capacity);
        if (larger == NULL) {
            return CAIRO_STATUS_WRITE_ERROR;
        }
        drawing->bytes = larger;
        drawing->capacity = capacity;
    }
    memcpy(drawing->bytes + drawing->length, bytes, length);
    drawing->length += length;
    return CAIRO_STATUS_SUCCESS;
}

void pdf_drawing_open(struct pdf_drawing *drawing, double width, double height)
{
    drawing->surface = drawing->calls->cairo_pdf_surface_create_for_stream(take_bytes, drawing, width, height);
    drawing->cairo = drawing->calls->cairo_create(drawing->surface);
}

const char *pdf_drawing_finish(struct pdf_drawing *drawing)
{
    cairo_status_t status = drawing->calls->cairo_status(drawing->cairo);
    if (status == CAIRO_STATUS_SUCCESS) {
        drawing->calls->cairo_surface_finish(drawing->surface);
        status = drawing->calls->cairo_surface_status(drawing->surface);
    }
    return status == CAIRO_STATUS_SUCCESS ? NULL : drawing->calls->cairo_status_to_string(status);
}

void pdf_drawing_close(struct pdf_drawing *drawing)
{
    if (drawing->cairo != NULL) {
        drawing->calls->cairo_destroy(drawing->cairo);
    }
    if (drawing->surface != NULL) {
        drawing->calls->cairo_surface_destroy(drawing->surface);
    }
    free(drawing->bytes);
}

void pdf_drawing_end_sheet(struct pdf_drawing *drawing)
{
    drawing->calls->cairo_show_page(drawing->cairo);
}

/* ---- text ---- */

static cairo_glyph_t *room_for_glyphs(struct pdf_drawing *drawing, size_t count)
{
    if (count > drawing->glyph_room) {
        drawing->glyph_room = count * 2;
        drawing->glyphs = ARENA_ARRAY(drawing->arena, cairo_glyph_t, drawing->glyph_room);
    }
    return drawing->glyphs;
}

static void draw_line(struct pdf_drawing *drawing, const struct pdf_line *line, double x, double y)
{
    for (const struct pdf_run *run = line->runs; run != NULL; run = run->next) {
        if (run->glyph_count == 0 || run->font == NULL) {
            continue;
        }
        cairo_glyph_t *glyphs = room_for_glyphs(drawing, run->glyph_count);
        for (uint32_t i = 0; i < run->glyph_count; i++) {
            glyphs[i] = (cairo_glyph_t){run->glyphs[i].number, x + (double)run->glyphs[i].x, y + (double)run->glyphs[i].y};
        }
        drawing->calls->cairo_set_scaled_font(drawing->cairo, run->font);
        drawing->calls->cairo_show_text_glyphs(drawing->cairo, run->bytes, (int)run->byte_count, glyphs, (int)run->glyph_count,
                                               run->clusters, (int)run->cluster_count,
                                               run->backward ? CAIRO_TEXT_CLUSTER_FLAG_BACKWARD : 0);
    }
}

static void draw_number(struct pdf_drawing *drawing, const struct pdf_mark *mark, double x, double y)
{
    size_t number = pdf_page_number(drawing->places, mark->as.anchor);
    if (number == 0) {
        return;
    }
    const char *figures = arena_format(drawing->arena, "%zu", number);
    const struct pdf_text *text = pdf_set(drawing->type, mark->font, 0, text_from(figures));
    draw_line(drawing, text->first, x - text->width, y);
}

/* ---- shapes ---- */

/* Path data as pictograms.h describes it. */
static void take_path(struct pdf_drawing *drawing, const char *path)
{
    const struct pdf_calls *calls = drawing->calls;
    for (const char *at = path; *at != '\0';) {
        char command = *at++;
        double n[6] = {0};
        int count = command == 'C' ? 6 : command == 'Z' ? 0 : 2;
        for (int i = 0; i < count; i++) {
            at += *at == ' ';
            at += number_scan((struct text){at, strcspn(at, " ")}, &n[i]);
        }
        if (command == 'M') {
            calls->cairo_move_to(drawing->cairo, n[0], n[1]);
        } else if (command == 'L') {
            calls->cairo_line_to(drawing->cairo, n[0], n[1]);
        } else if (command == 'C') {
            calls->cairo_curve_to(drawing->cairo, n[0], n[1], n[2], n[3], n[4], n[5]);
        } else if (command == 'Z') {
            calls->cairo_close_path(drawing->cairo);
        }
        at += *at == ' ';
    }
}

static void fill_path(struct pdf_drawing *drawing, const char *path, double red, double green, double blue)
{
    drawing->calls->cairo_set_source_rgb(drawing->cairo, red, green, blue);
    take_path(drawing, path);
    drawing->calls->cairo_fill(drawing->cairo);
}

static void draw_pictogram(struct pdf_drawing *drawing, const struct pictogram *pictogram, double x, double y, double size)
{
    const struct pdf_calls *calls = drawing->calls;
    calls->cairo_save(drawing->cairo);
    calls->cairo_translate(drawing->cairo, x, y);
    calls->cairo_scale(drawing->cairo, size / 100, size / 100);
    fill_path(drawing, pictogram_frame_outside, PICTOGRAM_RED_PARTS);
    fill_path(drawing, pictogram_frame_inside, 1, 1, 1);
    for (const struct pictogram_layer *layer = pictogram->layers; layer->path != NULL; layer++) {
        double shade = layer->white ? 1 : 0;
        fill_path(drawing, layer->path, shade, shade, shade);
    }
    calls->cairo_restore(drawing->cairo);
}

/* Dark modules that stand side by side are one rectangle. */
static void draw_code(struct pdf_drawing *drawing, const struct square_code *code, double x, double y, double size)
{
    double module = size / (double)(code->width + 2 * SQUARE_CODE_QUIET);
    for (size_t row = 0; row < code->width; row++) {
        const unsigned char *dark = code->dark + row * code->width;
        for (size_t from = 0; from < code->width; from++) {
            size_t to = from;
            while (to < code->width && dark[to] != 0) {
                to++;
            }
            if (to > from) {
                drawing->calls->cairo_rectangle(drawing->cairo, x + module * (double)(from + SQUARE_CODE_QUIET),
                                                y + module * (double)(row + SQUARE_CODE_QUIET), module * (double)(to - from),
                                                module);
                from = to;
            }
        }
    }
    drawing->calls->cairo_fill(drawing->cairo);
}

/* A triangle on its side with an exclamation mark, black on white. */
static void draw_sign(struct pdf_drawing *drawing, double x, double y, double size)
{
    static const char outside[] = "M50 6 L98 92 L2 92 Z";
    static const char stroke[] = "M44 36 L56 36 L53 66 L47 66 Z";
    static const char point[] = "M45 72 L55 72 L55 82 L45 82 Z";
    const struct pdf_calls *calls = drawing->calls;
    calls->cairo_save(drawing->cairo);
    calls->cairo_translate(drawing->cairo, x, y);
    calls->cairo_scale(drawing->cairo, size / 100, size / 100);
    fill_path(drawing, outside, 0, 0, 0);
    fill_path(drawing, stroke, 1, 1, 1);
    fill_path(drawing, point, 1, 1, 1);
    calls->cairo_restore(drawing->cairo);
}

static void draw_rule(struct pdf_drawing *drawing, const struct pdf_mark *mark, double x, double y)
{
    const struct pdf_calls *calls = drawing->calls;
    calls->cairo_set_line_width(drawing->cairo, mark->weight);
    if (mark->dotted) {
        static const double dots[] = {0.6, 3.4};
        calls->cairo_set_dash(drawing->cairo, dots, 2, 0);
    }
    calls->cairo_move_to(drawing->cairo, x, y);
    calls->cairo_line_to(drawing->cairo, x + mark->width, y + mark->height);
    calls->cairo_stroke(drawing->cairo);
    if (mark->dotted) {
        calls->cairo_set_dash(drawing->cairo, NULL, 0, 0);
    }
}

/* ---- links ---- */

static void draw_place(struct pdf_drawing *drawing, const struct pdf_mark *mark, double x, double y)
{
    char attributes[200];
    snprintf(attributes, sizeof attributes, "name='%.*s' x=%d y=%d", TEXT_ARGUMENTS(mark->as.anchor), (int)x, (int)y);
    drawing->calls->cairo_tag_begin(drawing->cairo, CAIRO_TAG_DEST, attributes);
    drawing->calls->cairo_tag_end(drawing->cairo, CAIRO_TAG_DEST);
}

static void draw_link(struct pdf_drawing *drawing, const struct pdf_mark *mark, double x, double y)
{
    if (pdf_page_number(drawing->places, mark->as.anchor) == 0) {
        return;
    }
    char attributes[200];
    snprintf(attributes, sizeof attributes, "dest='%.*s' rect=[%d %d %d %d]", TEXT_ARGUMENTS(mark->as.anchor), (int)x, (int)y,
             (int)mark->width, (int)mark->height);
    drawing->calls->cairo_tag_begin(drawing->cairo, CAIRO_TAG_LINK, attributes);
    drawing->calls->cairo_tag_end(drawing->cairo, CAIRO_TAG_LINK);
}

/* ---- all of them ---- */

static void draw_mark(struct pdf_drawing *drawing, const struct pdf_mark *mark, double x, double y)
{
    const struct pdf_calls *calls = drawing->calls;
    double shade = mark->white ? 1 : 0;
    calls->cairo_set_source_rgb(drawing->cairo, shade, shade, shade);
    switch (mark->kind) {
    case PDF_LINE:
        draw_line(drawing, mark->as.line, x, y);
        break;
    case PDF_RULE:
        draw_rule(drawing, mark, x, y);
        break;
    case PDF_BOX:
        calls->cairo_set_line_width(drawing->cairo, mark->weight);
        calls->cairo_rectangle(drawing->cairo, x, y, mark->width, mark->height);
        calls->cairo_stroke(drawing->cairo);
        break;
    case PDF_FILL:
        calls->cairo_rectangle(drawing->cairo, x, y, mark->width, mark->height);
        calls->cairo_fill(drawing->cairo);
        break;
    case PDF_SIGN:
        draw_sign(drawing, x, y, mark->width);
        break;
    case PDF_PICTOGRAM:
        draw_pictogram(drawing, mark->as.pictogram, x, y, mark->width);
        break;
    case PDF_CODE:
        draw_code(drawing, mark->as.code, x, y, mark->width);
        break;
    case PDF_PLACE:
        draw_place(drawing, mark, x, y);
        break;
    case PDF_LINK:
        draw_link(drawing, mark, x, y);
        break;
    case PDF_NUMBER:
        draw_number(drawing, mark, x, y);
        break;
    }
}

void pdf_draw_marks(struct pdf_drawing *drawing, const struct pdf_mark *first, double x, double y)
{
    for (const struct pdf_mark *mark = first; mark != NULL; mark = mark->next) {
        draw_mark(drawing, mark, x + mark->x, y + mark->y);
    }
}
