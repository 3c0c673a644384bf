/* The functions of Pango, Cairo and Fontconfig that the PDF renderer calls, found when a PDF is asked for.
 *
 * Each has the type that its own header gives it. */
#ifndef POTASH_PAGE_PAGE_PDF_CALLS_H
#define POTASH_PAGE_PAGE_PDF_CALLS_H

#include <cairo-pdf.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>
#include <stdbool.h>

#define PDF_CAIRO_CALLS(CALL)                                                                                                 \
    CALL(cairo_create)                                                                                                        \
    CALL(cairo_destroy)                                                                                                       \
    CALL(cairo_status)                                                                                                        \
    CALL(cairo_status_to_string)                                                                                              \
    CALL(cairo_save)                                                                                                          \
    CALL(cairo_restore)                                                                                                       \
    CALL(cairo_translate)                                                                                                     \
    CALL(cairo_scale)                                                                                                         \
    CALL(cairo_move_to)                                                                                                       \
    CALL(cairo_line_to)                                                                                                       \
    CALL(cairo_curve_to)                                                                                                      \
    CALL(cairo_close_path)                                                                                                    \
    CALL(cairo_rectangle)                                                                                                     \
    CALL(cairo_fill)                                                                                                          \
    CALL(cairo_stroke)                                                                                                        \
    CALL(cairo_set_line_width)                                                                                                \
    CALL(cairo_set_dash)                                                                                                      \
    CALL(cairo_set_line_join)                                                                                                 \
    CALL(cairo_set_source_rgb)                                                                                                \
    CALL(cairo_set_scaled_font)                                                                                               \
    CALL(cairo_show_text_glyphs)                                                                                              \
    CALL(cairo_show_page)                                                                                                     \
    CALL(cairo_tag_begin)                                                                                                     \
    CALL(cairo_tag_end)                                                                                                       \
    CALL(cairo_scaled_font_create)                                                                                            \
    CALL(cairo_scaled_font_get_font_face)                                                                                     \
    CALL(cairo_scaled_font_get_font_matrix)                                                                                   \
    CALL(cairo_scaled_font_destroy)                                                                                           \
    CALL(cairo_surface_status)                                                                                                \
    CALL(cairo_surface_finish)                                                                                                \
    CALL(cairo_surface_destroy)                                                                                               \
    CALL(cairo_pdf_surface_create_for_stream)                                                                                 \
    CALL(cairo_pdf_surface_set_size)                                                                                          \
    CALL(cairo_pdf_surface_set_metadata)                                                                                      \
    CALL(cairo_pdf_surface_add_outline)                                                                                       \
    CALL(cairo_font_options_create)                                                                                           \
    CALL(cairo_font_options_destroy)                                                                                          \
    CALL(cairo_font_options_set_hint_style)                                                                                   \
    CALL(cairo_font_options_set_hint_metrics)

#define PDF_PANGO_CALLS(CALL)                                                                                                 \
    CALL(pango_font_map_create_context)                                                                                       \
    CALL(pango_context_set_round_glyph_positions)                                                                             \
    CALL(pango_context_set_language)                                                                                          \
    CALL(pango_language_from_string)                                                                                          \
    CALL(pango_font_description_new)                                                                                          \
    CALL(pango_font_description_free)                                                                                         \
    CALL(pango_font_description_set_family_static)                                                                            \
    CALL(pango_font_description_set_style)                                                                                    \
    CALL(pango_font_description_set_weight)                                                                                   \
    CALL(pango_font_description_set_absolute_size)                                                                            \
    CALL(pango_layout_new)                                                                                                    \
    CALL(pango_layout_set_font_description)                                                                                   \
    CALL(pango_layout_set_width)                                                                                              \
    CALL(pango_layout_set_wrap)                                                                                               \
    CALL(pango_layout_set_ellipsize)                                                                                          \
    CALL(pango_layout_set_text)                                                                                               \
    CALL(pango_layout_get_lines_readonly)                                                                                     \
    CALL(pango_layout_line_get_extents)                                                                                       \
    CALL(pango_glyph_item_iter_init_start)                                                                                    \
    CALL(pango_glyph_item_iter_next_cluster)

#define PDF_PANGOCAIRO_CALLS(CALL)                                                                                            \
    CALL(pango_cairo_font_map_new_for_font_type)                                                                              \
    CALL(pango_cairo_font_map_set_resolution)                                                                                 \
    CALL(pango_cairo_context_set_font_options)                                                                                \
    CALL(pango_cairo_font_get_scaled_font)

#define PDF_PANGOFT_CALLS(CALL) CALL(pango_fc_font_map_set_config)

#define PDF_GOBJECT_CALLS(CALL) CALL(g_object_unref)

#define PDF_FONTCONFIG_CALLS(CALL)                                                                                            \
    CALL(FcConfigCreate)                                                                                                      \
    CALL(FcConfigDestroy)                                                                                                     \
    CALL(FcConfigParseAndLoadFromMemory)                                                                                      \
    CALL(FcConfigBuildFonts)                                                                                                  \
    CALL(FcConfigGetFonts)

struct pdf_calls {
#define CALL(name) __typeof__(&name) name;
    PDF_CAIRO_CALLS(CALL)
    PDF_PANGO_CALLS(CALL)
    PDF_PANGOCAIRO_CALLS(CALL)
    PDF_PANGOFT_CALLS(CALL)
    PDF_GOBJECT_CALLS(CALL)
    PDF_FONTCONFIG_CALLS(CALL)
#undef CALL
};

/* Finds them all; false with what to do about it in *reason when a library is not there. */
bool pdf_find_calls(struct pdf_calls *calls, const char **reason);

#endif
