/* Reports that are pages: the mixing sheet, the library's materials. */
#include "session.h"

#include "page/page.h"

static enum potash_status render(struct potash *potash, const struct page *page, enum potash_format format,
                                 struct buffer *out)
{
    if (format == POTASH_TEXT) {
        page_render_text(page, out, potash->options.columns);
        return POTASH_GOOD;
    }
    return session_unusable(potash, "this report comes as text or json");
}

/* A sheet for each formula, then one for each stock that the files declare. */
static enum potash_status add_sheet(struct potash *potash, const struct formula *formula, enum potash_format format,
                                    struct buffer *out, json_t *sheets)
{
    struct page *page = page_start(&potash->arena);
    report_sheet(&potash->context, formula, page);
    if (sheets != NULL) {
        json_array_append_new(sheets, page_render_json(page));
        return POTASH_GOOD;
    }
    if (out->length > 0) {
        buffer_string(out, "\f\n"); /* a page for each, on a printer as well */
    }
    return render(potash, page, format, out);
}

static enum potash_status add_all_sheets(struct potash *potash, const struct stock *stocks, enum potash_format format,
                                         struct buffer *out, json_t *sheets)
{
    enum potash_status status = POTASH_GOOD;
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL && status == POTASH_GOOD;
         formula = session_next(potash, formula)) {
        status = add_sheet(potash, formula, format, out, sheets);
    }
    for (const struct stock *stock = stocks; stock != NULL && status == POTASH_GOOD; stock = session_next_stock(potash, stock)) {
        const struct formula *formula = stock_formula(&potash->formulary, stock);
        status = formula == NULL ? POTASH_GOOD : add_sheet(potash, formula, format, out, sheets);
    }
    return status;
}

/* `sheets`, NULL for a format that is not JSON, is given away. */
static enum potash_status put_sheets(struct potash *potash, const struct stock *stocks, enum potash_format format,
                                     json_t *sheets, struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        json_decref(sheets);
        return session_out_of_memory(potash);
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    enum potash_status status = add_all_sheets(potash, stocks, format, &out, sheets);
    if (sheets != NULL) {
        return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, "sheets", sheets), output);
    }
    session_put_text(&out, output);
    return status;
}

enum potash_status potash_sheet(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    const struct stock *stocks = session_next_stock(potash, NULL);
    bool only_stocks = stocks != NULL && session_next(potash, NULL) == NULL && potash->diagnostics.errors == 0;
    enum potash_status status = only_stocks ? POTASH_GOOD : session_ready(potash);
    if (status != POTASH_GOOD) {
        return status;
    }
    if (format != POTASH_JSON) {
        return put_sheets(potash, stocks, format, NULL, output);
    }
    json_t *sheets = json_array();
    return sheets == NULL ? session_out_of_memory(potash) : put_sheets(potash, stocks, format, sheets, output);
}

struct listing {
    struct buffer *out;
    json_t *json;
    struct library *library;
};

static void list_material(void *context, const struct material *material)
{
    struct listing *listing = context;
    if (listing->json != NULL) {
        json_array_append_new(listing->json, report_material_json(listing->library, material));
        return;
    }
    buffer_format(listing->out, "%-40.*s %.*s\n", TEXT_ARGUMENTS(material->name),
                  TEXT_ARGUMENTS(material->role_count > 0 ? material->roles[0] : (struct text){0}));
}

static enum potash_status list_materials(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    struct buffer out;
    buffer_start(&out, &potash->arena);
    struct listing listing = {&out, format == POTASH_JSON ? json_array() : NULL, &potash->library};
    if ((format == POTASH_JSON && listing.json == NULL) || SESSION_GUARD(potash)) {
        json_decref(listing.json);
        return session_out_of_memory(potash);
    }
    library_each_material(&potash->library, list_material, &listing);
    if (listing.json != NULL) {
        return session_put_json(potash, json_pack("{s:o}", "materials", listing.json), output);
    }
    return session_put_text(&out, output);
}

enum potash_status potash_materials(struct potash *potash, const char *name, enum potash_format format,
                                    struct potash_output *output)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    if (format != POTASH_TEXT && format != POTASH_JSON) {
        return session_unusable(potash, "materials come as text or json");
    }
    if (name == NULL) {
        return list_materials(potash, format, output);
    }
    const struct material_reading *reading = library_material(&potash->library, names_find(&potash->names, text_from(name)));
    if (reading == NULL) {
        struct text near[1];
        size_t count = library_near_materials(&potash->library, text_from(name), near, 1);
        return count > 0 ? session_unusable(potash, "no material is called \"%.80s\"; did you mean %.*s?", name,
                                            TEXT_ARGUMENTS(near[0]))
                         : session_unusable(potash, "no material is called \"%.80s\"; the list: potash materials", name);
    }
    if (format == POTASH_JSON) {
        return session_put_json(
            potash, json_pack("{s:[o]}", "materials", report_material_json(&potash->library, reading->material)), output);
    }
    struct page *page = page_start(&potash->arena);
    report_material(&potash->library, reading->material, page);
    struct buffer out;
    buffer_start(&out, &potash->arena);
    page_render_text(page, &out, potash->options.columns);
    return session_put_text(&out, output);
}
