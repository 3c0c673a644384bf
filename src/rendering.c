/* Pages given out in the format that was asked for: the one place where reports meet renderers. */
#include "session.h"

static enum potash_status put_json(struct potash *potash, const struct page_set *set, const char *key,
                                   struct potash_output *output)
{
    json_t *pages = json_array();
    if (pages == NULL) {
        return session_out_of_memory(potash);
    }
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        json_array_append_new(pages, page_render_json(item->page));
    }
    return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, key, pages), output);
}

static void print_text(struct potash *potash, const struct page_set *set, struct buffer *out)
{
    for (const struct page_set_item *item = set->first; item != NULL; item = item->next) {
        if (item != set->first) {
            buffer_string(out, "\f\n"); /* a page for each, on a printer as well */
        }
        page_render_text(item->page, out, potash->options.columns);
    }
}

enum potash_status session_put_pages(struct potash *potash, const struct page_set *set, const char *key,
                                     enum potash_format format, struct potash_output *output)
{
    if (format == POTASH_JSON) {
        return put_json(potash, set, key, output);
    }
    if (format != POTASH_TEXT) {
        return session_unusable(potash, "this report comes as text or json");
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    print_text(potash, set, &out);
    return session_put_text(&out, output);
}
