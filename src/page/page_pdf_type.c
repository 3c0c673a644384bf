/* Setting type with Pango. */
#include "page/page_pdf_type.h"

#include "base/shown.h"
#include "base/table.h"

#include <math.h>

/* Noto Sans: its figures are all of one width, it tells 1, l and I apart, and its family has most scripts of the world. */
#define FAMILIES "Noto Sans, DejaVu Sans, Liberation Sans, sans-serif"

/* Fonts of the system alone, none of a user's own settings: the same pages on every machine with the same packages, and no time
 * spent on reading settings. */
#define FONTS                                                                                                                 \
    "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig><dir>/usr/share/fonts</dir>"                \
    "<dir>/usr/local/share/fonts</dir><cachedir>/var/cache/fontconfig</cachedir>"                                             \
    "<cachedir prefix=\"xdg\">fontconfig</cachedir></fontconfig>"

/* Pango sets everything in this size, pt, and the result is taken in proportion, which without hinting is the same: looking for
 * the fonts of each size would take longer than all the setting. */
#define NOMINAL 10
#define MOST_FONTS 512 /* faces, sizes and scripts in one document; what is beyond is set in the first */
#define LEADING 1.28   /* base line to base line, by the size: what Noto Sans needs so that lines do not touch */
#define ASCENT 0.98    /* of that above the base line */

/* A font in a size of the document. */
struct sized_font {
    cairo_font_face_t *face;
    double size;
    cairo_scaled_font_t *font; /* held */
};

struct kept_text {
    const struct pdf_text *text;
    UT_hash_handle hh;
};

struct pdf_type {
    const struct pdf_calls *calls;
    struct arena *arena;
    FcConfig *config;
    PangoFontMap *map;
    PangoContext *context;
    PangoLayout *layout;
    PangoFontDescription *faces[PDF_FACES];
    struct sized_font fonts[MOST_FONTS];
    cairo_font_options_t *options;
    size_t font_count;
    struct kept_text *kept;
};

static bool open_fonts(struct pdf_type *type)
{
    const struct pdf_calls *calls = type->calls;
    type->config = calls->FcConfigCreate();
    if (type->config == NULL ||
        !calls->FcConfigParseAndLoadFromMemory(type->config, (const FcChar8 *)FONTS, FcTrue) ||
        !calls->FcConfigBuildFonts(type->config)) {
        return false;
    }
    const FcFontSet *set = calls->FcConfigGetFonts(type->config, FcSetSystem);
    return set != NULL && set->nfont > 0;
}

static void open_layout(struct pdf_type *type)
{
    const struct pdf_calls *calls = type->calls;
    type->map = calls->pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    calls->pango_cairo_font_map_set_resolution((PangoCairoFontMap *)type->map, 72);
    calls->pango_fc_font_map_set_config((PangoFcFontMap *)type->map, type->config);
    type->context = calls->pango_font_map_create_context(type->map);
    /* No hinting: what a glyph measures must not depend on a screen. */
    type->options = calls->cairo_font_options_create();
    calls->cairo_font_options_set_hint_style(type->options, CAIRO_HINT_STYLE_NONE);
    calls->cairo_font_options_set_hint_metrics(type->options, CAIRO_HINT_METRICS_OFF);
    calls->pango_cairo_context_set_font_options(type->context, type->options);
    calls->pango_context_set_round_glyph_positions(type->context, FALSE);
    /* Not the language of the user's surroundings, which would choose other glyphs. */
    calls->pango_context_set_language(type->context, calls->pango_language_from_string("en"));
    type->layout = calls->pango_layout_new(type->context);
    for (int face = 0; face < PDF_FACES; face++) {
        PangoFontDescription *description = calls->pango_font_description_new();
        calls->pango_font_description_set_family_static(description, FAMILIES);
        calls->pango_font_description_set_weight(description, face == PDF_BOLD ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        calls->pango_font_description_set_absolute_size(description, NOMINAL * PANGO_SCALE);
        calls->pango_font_description_set_style(description, face == PDF_ITALIC ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
        type->faces[face] = description;
    }
}

struct pdf_type *pdf_type_open(const struct pdf_calls *calls, struct arena *arena, const char **reason)
{
    struct pdf_type *type = ARENA_NEW(arena, struct pdf_type);
    type->calls = calls;
    type->arena = arena;
    if (!open_fonts(type)) {
        pdf_type_close(type);
        *reason = "PDF needs fonts, and none is installed below /usr/share/fonts; on Debian: apt install fonts-noto-core";
        return NULL;
    }
    open_layout(type);
    return type;
}

void pdf_type_close(struct pdf_type *type)
{
    const struct pdf_calls *calls = type->calls;
    for (size_t i = 0; i < type->font_count; i++) {
        calls->cairo_scaled_font_destroy(type->fonts[i].font);
    }
    if (type->options != NULL) {
        calls->cairo_font_options_destroy(type->options);
    }
    for (int face = 0; face < PDF_FACES; face++) {
        if (type->faces[face] != NULL) {
            calls->pango_font_description_free(type->faces[face]);
        }
    }
    void *objects[] = {type->layout, type->context, type->map};
    for (size_t i = 0; i < sizeof objects / sizeof *objects; i++) {
        if (objects[i] != NULL) {
            calls->g_object_unref(objects[i]);
        }
    }
    if (type->config != NULL) {
        calls->FcConfigDestroy(type->config);
    }
}

/* ---- from Pango's lines to ours ---- */

/* The font in the size that is wanted, held as long as the type is open. */
static cairo_scaled_font_t *keep_font(struct pdf_type *type, PangoFont *font, double size)
{
    const struct pdf_calls *calls = type->calls;
    cairo_scaled_font_t *nominal = font == NULL ? NULL : calls->pango_cairo_font_get_scaled_font((PangoCairoFont *)font);
    cairo_font_face_t *face = nominal == NULL ? NULL : calls->cairo_scaled_font_get_font_face(nominal);
    for (size_t i = type->font_count; i-- > 0;) {
        if (type->fonts[i].face == face && fabs(type->fonts[i].size - size) < 1e-6) {
            return type->fonts[i].font;
        }
    }
    if (face == NULL || type->font_count == MOST_FONTS) {
        return type->font_count > 0 ? type->fonts[0].font : NULL;
    }
    cairo_matrix_t whole = {1, 0, 0, 1, 0, 0};
    cairo_matrix_t matrix; /* what slants or widens the font stays */
    calls->cairo_scaled_font_get_font_matrix(nominal, &matrix);
    double factor = size / NOMINAL;
    matrix = (cairo_matrix_t){matrix.xx * factor, matrix.yx * factor, matrix.xy * factor, matrix.yy * factor, 0, 0};
    cairo_scaled_font_t *scaled = calls->cairo_scaled_font_create(face, &matrix, &whole, type->options);
    type->fonts[type->font_count++] = (struct sized_font){face, size, scaled};
    return scaled;
}

static void take_glyphs(struct pdf_run *run, const PangoGlyphString *string, double unit, double *x)
{
    for (int i = 0; i < string->num_glyphs; i++) {
        const PangoGlyphInfo *info = &string->glyphs[i];
        if (info->glyph != PANGO_GLYPH_EMPTY) {
            /* A character that no font has is shown as the font's sign for that, glyph 0. */
            bool unknown = (info->glyph & PANGO_GLYPH_UNKNOWN_FLAG) != 0;
            run->glyphs[run->glyph_count++] =
                (struct pdf_glyph){unknown ? 0 : info->glyph, (float)(*x + (double)info->geometry.x_offset * unit),
                                   (float)((double)info->geometry.y_offset * unit)};
        }
        *x += (double)info->geometry.width * unit;
    }
}

/* Which bytes of the text the glyphs stand for, cluster by cluster, so that text can be selected and searched. */
static void take_clusters(struct pdf_type *type, struct pdf_run *run, PangoGlyphItem *item, const char *text)
{
    PangoGlyphItemIter at;
    bool more = type->calls->pango_glyph_item_iter_init_start(&at, item, text);
    for (; more; more = type->calls->pango_glyph_item_iter_next_cluster(&at)) {
        int from = at.start_glyph < at.end_glyph ? at.start_glyph : at.end_glyph + 1;
        int to = at.start_glyph < at.end_glyph ? at.end_glyph : at.start_glyph + 1;
        int glyphs = 0;
        for (int i = from; i < to; i++) {
            glyphs += item->glyphs->glyphs[i].glyph != PANGO_GLYPH_EMPTY;
        }
        run->clusters[run->cluster_count++] = (cairo_text_cluster_t){at.end_index - at.start_index, glyphs};
    }
}

static struct pdf_run *take_run(struct pdf_type *type, PangoGlyphItem *item, double size, const char *text, double *x)
{
    struct arena *arena = type->arena;
    struct pdf_run *run = ARENA_NEW(arena, struct pdf_run);
    run->font = keep_font(type, item->item->analysis.font, size);
    run->backward = item->item->analysis.level % 2 == 1;
    run->bytes = arena_copy(arena, text + item->item->offset, (size_t)item->item->length);
    run->byte_count = (uint32_t)item->item->length;
    run->glyphs = ARENA_ARRAY(arena, struct pdf_glyph, (size_t)item->glyphs->num_glyphs);
    run->clusters = ARENA_ARRAY(arena, cairo_text_cluster_t, (size_t)item->item->length);
    take_clusters(type, run, item, text);
    take_glyphs(run, item->glyphs, size / NOMINAL / PANGO_SCALE, x);
    return run;
}

static struct pdf_line *take_line(struct pdf_type *type, PangoLayoutLine *from, struct pdf_font font, const char *text)
{
    struct pdf_line *line = ARENA_NEW(type->arena, struct pdf_line);
    struct pdf_run **end = &line->runs;
    double x = 0;
    double unit = font.size / NOMINAL / PANGO_SCALE;
    for (const GSList *item = from->runs; item != NULL; item = item->next) {
        *end = take_run(type, item->data, font.size, text, &x);
        end = &(*end)->next;
    }
    PangoRectangle ink;
    PangoRectangle logical;
    type->calls->pango_layout_line_get_extents(from, &ink, &logical);
    line->width = (double)logical.width * unit;
    /* Lines stand at even distances; scripts that reach higher or lower get the room that they take. */
    line->ascent = fmax(font.size * ASCENT, -(double)ink.y * unit + font.size * 0.08);
    line->descent = fmax(font.size * (LEADING - ASCENT), (double)(ink.y + ink.height) * unit + font.size * 0.05);
    return line;
}

static const struct pdf_text *take_layout(struct pdf_type *type, struct pdf_font font, double width, const char *text)
{
    struct pdf_text *taken = ARENA_NEW(type->arena, struct pdf_text);
    struct pdf_line **end = &taken->first;
    for (const GSList *item = type->calls->pango_layout_get_lines_readonly(type->layout); item != NULL; item = item->next) {
        PangoLayoutLine *from = item->data;
        struct pdf_line *line = take_line(type, from, font, text);
        if (width > 0 && from->resolved_dir == PANGO_DIRECTION_RTL) {
            line->left = fmax(width - line->width, 0);
        }
        taken->width = fmax(taken->width, line->left + line->width);
        taken->height += line->ascent + line->descent;
        taken->count++;
        *end = line;
        end = &line->next;
    }
    return taken;
}

/* ---- texts kept ---- */

struct key {
    int face, size, width, is_short; /* size and width in 1/64 pt; no padding, since keys are compared as bytes */
};

static const struct pdf_text *set_text(struct pdf_type *type, struct pdf_font font, double width, bool is_short, struct text text)
{
    text = shown_line(type->arena, text);
    const struct pdf_calls *calls = type->calls;
    struct arena *table_arena = type->arena;
    struct key key = {(int)font.face, (int)lround(font.size * 64), (int)ceil(width * 64), is_short};
    char *whole = arena_allocate(type->arena, sizeof key + text.length + 1);
    memcpy(whole, &key, sizeof key);
    if (text.length > 0) {
        memcpy(whole + sizeof key, text.at, text.length);
    }
    struct kept_text *kept = NULL;
    HASH_FIND(hh, type->kept, whole, sizeof key + text.length, kept);
    if (kept != NULL) {
        return kept->text;
    }
    calls->pango_layout_set_font_description(type->layout, type->faces[font.face]);
    calls->pango_layout_set_wrap(type->layout, PANGO_WRAP_WORD_CHAR);
    calls->pango_layout_set_ellipsize(type->layout, is_short ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
    calls->pango_layout_set_width(type->layout, width > 0 ? (int)ceil(width * PANGO_SCALE * NOMINAL / font.size) : -1);
    calls->pango_layout_set_text(type->layout, whole + sizeof key, (int)text.length);
    kept = ARENA_NEW(type->arena, struct kept_text);
    kept->text = take_layout(type, font, width, whole + sizeof key);
    HASH_ADD_KEYPTR(hh, type->kept, whole, sizeof key + text.length, kept);
    return kept->text;
}

const struct pdf_text *pdf_set(struct pdf_type *type, struct pdf_font font, double width, struct text text)
{
    /* Most texts fit: then the one line serves for every width. */
    if (width > 0 && text.length < 200) {
        const struct pdf_text *one_line = set_text(type, font, 0, false, text);
        if (one_line->width <= width && (one_line->first->runs == NULL || !one_line->first->runs->backward)) {
            return one_line;
        }
    }
    return set_text(type, font, fmax(width, width > 0 ? 1 : 0), false, text);
}

const struct pdf_text *pdf_set_short(struct pdf_type *type, struct pdf_font font, double width, struct text text)
{
    /* More than fits on any line need not be looked at; the cut is between characters. */
    const size_t most = 1000;
    if (text.length > most) {
        size_t length = most;
        while (length > 0 && ((unsigned char)text.at[length] & 0xC0) == 0x80) {
            length--;
        }
        text.length = length;
    }
    return set_text(type, font, fmax(width, 1), true, text);
}

/* ---- measures ---- */

/* Where the glyphs of a cluster end: where the next begin.  Only runs from left to right are walked. */
static double end_of_cluster(const struct pdf_line *line, const struct pdf_run *run, uint32_t next_glyph)
{
    if (next_glyph < run->glyph_count) {
        return (double)run->glyphs[next_glyph].x;
    }
    return run->next != NULL && run->next->glyph_count > 0 ? (double)run->next->glyphs[0].x : line->width;
}

double pdf_longest_word(const struct pdf_text *text)
{
    double longest = 0;
    for (const struct pdf_line *line = text->first; line != NULL; line = line->next) {
        double start = 0;
        for (const struct pdf_run *run = line->runs; run != NULL; run = run->next) {
            const char *byte = run->bytes;
            uint32_t glyph = 0;
            for (uint32_t i = 0; i < run->cluster_count && !run->backward; i++) {
                double left = glyph < run->glyph_count ? (double)run->glyphs[glyph].x : line->width;
                glyph += (uint32_t)run->clusters[i].num_glyphs;
                if (*byte == ' ' || *byte == '-') {
                    longest = fmax(longest, (*byte == ' ' ? left : end_of_cluster(line, run, glyph)) - start);
                    start = end_of_cluster(line, run, glyph);
                }
                byte += run->clusters[i].num_bytes;
            }
        }
        longest = fmax(longest, line->width - start);
    }
    return longest;
}

double pdf_decimal_point(const struct pdf_text *text)
{
    const struct pdf_line *line = text->first;
    bool figure = false;
    for (const struct pdf_run *run = line->runs; run != NULL; run = run->next) {
        const char *byte = run->bytes;
        uint32_t glyph = 0;
        for (uint32_t i = 0; i < run->cluster_count && !run->backward; i++) {
            bool digit = *byte >= '0' && *byte <= '9';
            if (figure && !digit) {
                return glyph < run->glyph_count ? (double)run->glyphs[glyph].x : line->width;
            }
            figure = figure || digit;
            glyph += (uint32_t)run->clusters[i].num_glyphs;
            byte += run->clusters[i].num_bytes;
        }
    }
    return figure ? line->width : 0;
}
