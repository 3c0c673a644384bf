/* Which formulas hold a material: for somebody who must not touch it. */
#include "session/reports.h"

#include "report/json_values.h"

/* The first line of a formula that brings one of the materials; NULL when it is free of them. */
static const struct step *find_step(struct potash *potash, const struct formula *formula, const struct material **held)
{
    for (const char *const *name = potash->options.without; name != NULL && *name != NULL; name++) {
        *held = session_find_material(potash, *name);
        for (const struct part *part = formula->parts; *held != NULL && part != NULL; part = part->next) {
            const struct step *step = part_find(part, *held);
            if (step != NULL) {
                return step;
            }
        }
    }
    return NULL;
}

struct listing {
    struct potash *potash;
    struct buffer with, free, unknown;
    json_t *json_with, *json_free; /* NULL for text */
    size_t with_count;
};

static void list_formula(struct listing *listing, const struct formula *formula)
{
    struct potash *potash = listing->potash;
    const struct material *held;
    if (formula->faulty) {
        listing->with_count++; /* to be on the safe side */
        buffer_format(&listing->unknown, "  %.*s\n", TEXT_ARGUMENTS(formula->title));
        return;
    }
    const struct step *step = find_step(potash, formula, &held);
    if (step == NULL) {
        buffer_format(&listing->free, "  %.*s\n", TEXT_ARGUMENTS(formula->title));
        if (listing->json_free != NULL) {
            put_item(&listing->json_free, text_json(formula->title));
        }
        return;
    }
    listing->with_count++;
    struct span span = step->span.begin == 0 && step->span.end == 0 ? formula->declaration->span : step->span;
    struct place place = source_place(&potash->sources, span.begin);
    buffer_format(&listing->with, "  %.*s: %.*s, %s:%d\n", TEXT_ARGUMENTS(formula->title), TEXT_ARGUMENTS(held->name), place.file->name,
                  (int)place.line);
    if (listing->json_with != NULL) {
        put_item(&listing->json_with,
                  json_pack("{s:o, s:o, s:s, s:i}", "title", text_json(formula->title), "material", text_json(held->name),
                            "file", place.file->name, "line", (int)place.line));
    }
}

static struct text join_names(struct potash *potash)
{
    struct buffer names;
    buffer_start(&names, &potash->arena);
    for (const char *const *name = potash->options.without; *name != NULL; name++) {
        buffer_format(&names, "%s%.*s", names.length == 0 ? "" : " or ", TEXT_ARGUMENTS(session_find_material(potash, *name)->name));
    }
    return text_from(buffer_finish(&names));
}

static json_t *listing_json(struct listing *listing)
{
    json_t *materials = json_array();
    for (const char *const *name = listing->potash->options.without; *name != NULL; name++) {
        put_item(&materials, text_json(session_find_material(listing->potash, *name)->name));
    }
    return json_pack("{s:o, s:o, s:o}", "materials", materials, "with", listing->json_with, "free", listing->json_free);
}

static void print_listing(struct listing *listing, struct buffer *out)
{
    struct text names = join_names(listing->potash);
    const struct {
        const char *title;
        const struct buffer *lines;
    } lists[] = {{"With", &listing->with}, {"Without", &listing->free}};
    for (size_t i = 0; i < 2; i++) {
        if (lists[i].lines->length > 0) {
            buffer_format(out, "%s %.*s:\n%s", lists[i].title, TEXT_ARGUMENTS(names), lists[i].lines->bytes);
        }
    }
    if (listing->unknown.length > 0) {
        buffer_format(out, "Not known, because of errors:\n%s", listing->unknown.bytes);
    }
}

enum potash_status session_put_without(struct potash *potash, const char *about, enum potash_format format, struct potash_output *output)
{
    (void)about;
    struct listing listing = {.potash = potash};
    if (format == POTASH_JSON) {
        listing.json_with = json_array();
        listing.json_free = json_array();
    }
    buffer_start(&listing.with, &potash->arena);
    buffer_start(&listing.free, &potash->arena);
    buffer_start(&listing.unknown, &potash->arena);
    for (const struct formula **bath = session_baths(potash, true); *bath != NULL; bath++) {
        list_formula(&listing, *bath);
    }
    potash->held = listing.with_count > 0;
    if (format == POTASH_JSON) {
        return session_put_json(potash, listing_json(&listing), output);
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    print_listing(&listing, &out);
    return session_put_text(&out, output);
}
