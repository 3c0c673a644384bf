/* Reports that are pages: the mixing sheet, the library's materials. */
#include "session/session.h"

#include "page/page_set.h"
#include "store/taking.h"

/* A sheet for each formula, then one for each stock that the files declare. */
static void add_all_sheets(struct potash *potash, const struct stock *stocks, struct page_set *set)
{
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        report_sheet(&potash->context, formula, page_set_add(set));
    }
    for (const struct stock *stock = stocks; stock != NULL; stock = session_next_stock(potash, stock)) {
        const struct formula *formula = stock_formula(&potash->formulary, stock);
        if (formula != NULL) {
            report_sheet(&potash->context, formula, page_set_add(set));
        }
    }
}

enum potash_status session_know_use(struct potash *potash)
{
    struct buffer uses;
    buffer_start(&uses, &potash->arena);
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        for (const struct use *use = formula->uses; use != NULL; use = use->next) {
            if (report_wants_use(&potash->context, use)) {
                return POTASH_GOOD;
            }
            const char *name = arena_format(&potash->arena, "\"%.*s\"", TEXT_ARGUMENTS(use->name));
            if (uses.length == 0 || (uses.length < 100 && strstr(uses.bytes, name) == NULL)) {
                buffer_format(&uses, "%s%s", uses.length == 0 ? "" : ", ", name);
            }
        }
    }
    const char *wanted = potash->options.use_for;
    return wanted == NULL      ? POTASH_GOOD
           : uses.length == 0 ? session_unusable(potash, "--for: no formula in these files has a use")
                              : session_unusable(potash, "--for: no formula in these files has a use \"%.200s\"; there are: %s", wanted,
                                                 buffer_finish(&uses));
}

enum potash_status potash_sheet(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    const struct stock *stocks = session_next_stock(potash, NULL);
    bool only_stocks = stocks != NULL && session_next(potash, NULL) == NULL && potash->diagnostics.errors == 0;
    enum potash_status status = only_stocks ? POTASH_GOOD : session_ready(potash);
    if (status != POTASH_GOOD || (status = session_know_use(potash)) != POTASH_GOOD) {
        return status;
    }
    if (potash->options.using_shelf && store_is_empty(&potash->store)) {
        return session_unusable(potash, "there is no shelf in these files; name its file too, or give it with --shelf");
    }
    struct formula *formula = potash->options.using_shelf ? session_next(potash, NULL) : NULL;
    for (; formula != NULL; formula = session_next(potash, formula)) {
        store_take(&potash->store, formula, report_scale(&potash->context, formula));
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    add_all_sheets(potash, stocks, &set);
    return session_put_pages(potash, &set, "sheets", format, output);
}

static void list_material(void *context, const struct material *material)
{
    struct buffer *out = context;
    buffer_format(out, "%-40.*s %.*s\n", TEXT_ARGUMENTS(material->name),
                  TEXT_ARGUMENTS(material->role_count > 0 ? material->roles[0] : (struct text){0}));
}

static void list_material_json(void *context, const struct material *material)
{
    struct potash *potash = context;
    put_item(&potash->building, report_material_json(&potash->library, material));
}

static enum potash_status list_materials(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    if (format == POTASH_JSON) {
        potash->building = json_array();
        library_each_material(&potash->library, list_material_json, potash);
        return session_put_json(potash, json_pack("{s:o}", "materials", session_built(potash)), output);
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    library_each_material(&potash->library, list_material, &out);
    return session_put_text(&out, output);
}

enum potash_status session_no_material(struct potash *potash, const char *name)
{
    struct text near[1];
    struct text grave;
    size_t count = library_near_materials(&potash->library, text_from(name), near, 1, &grave);
    return count > 0 ? session_unusable(potash, "no material is called \"%.80s\"; did you mean %.*s?", name,
                                        TEXT_ARGUMENTS(near[0]))
                     : session_unusable(potash, "no material is called \"%.80s\"; the list: potash materials", name);
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
    if (name == NULL) {
        if (format != POTASH_TEXT && format != POTASH_JSON) {
            return session_unusable(potash, "the list of materials comes as text or json; name one for a page");
        }
        return list_materials(potash, format, output);
    }
    const struct material_reading *reading = library_material(&potash->library, names_find(&potash->names, text_from(name)));
    if (reading == NULL) {
        return session_no_material(potash, name);
    }
    if (format == POTASH_JSON) {
        return session_put_json(
            potash, json_pack("{s:[o]}", "materials", report_material_json(&potash->library, reading->material)), output);
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    report_material(&potash->library, reading->material, page_set_add(&set));
    return session_put_pages(potash, &set, "materials", format, output);
}

enum potash_status potash_materials_like(struct potash *potash, const char *name, enum potash_format format,
                                         struct potash_output *output)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    const struct material_reading *reading = library_material(&potash->library, names_find(&potash->names, text_from(name)));
    if (reading == NULL) {
        return session_no_material(potash, name);
    }
    if (format == POTASH_JSON) {
        return session_put_json(potash, report_materials_like_json(&potash->library, reading->material), output);
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    report_materials_like(&potash->library, reading->material, page_set_add(&set));
    return session_put_pages(potash, &set, "materials", format, output);
}
