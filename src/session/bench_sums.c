/* Bench sums out of a session. */
#include "session/reports.h"

#include "reckoning/reckoning.h"

static const char examples[] = "\n"
                               "  1+29 for 300 mL\n"
                               "  150 mL to 1 L as a ratio\n"
                               "  0.25 g from 1 % stock\n"
                               "  500 mL of 28 % acetic acid from glacial\n"
                               "  30 g sodium carbonate (anhydrous) as monohydrate\n"
                               "  40 grains per 20 imperial fl oz in g/L\n"
                               "  7.5 g per 750 mL for 2 L\n"
                               "  A 1 + B 1 + water 8 for 1 L\n"
                               "  125 °F in °C";

static json_t *answer_json(const char *sum, const struct answer *answer)
{
    json_t *items = json_array();
    for (const struct answer_item *item = answer->items; item != NULL; item = item->next) {
        put_item(
            &items, json_pack("{s:f, s:s, s:s}", "value", item->value, "unit", item->unit, "what", item->what));
    }
    json_t *notes = json_array();
    for (const struct answer_note *note = answer->notes; note != NULL; note = note->next) {
        put_item(&notes, json_string(note->text));
    }
    return json_pack("{s:s, s:o, s:s, s:s, s:o}", "sum", sum, "answers", items, "answer", answer->text, "working",
                     answer->working, "notes", notes);
}

enum potash_status session_put_sum(struct potash *potash, const char *text, enum potash_format format, struct potash_output *output)
{
    char *bytes = arena_copy(&potash->arena, text, strlen(text));
    struct source_file *source = source_add(&potash->sources, "sum", bytes, strlen(bytes), false);
    if (source == NULL) {
        return session_unusable(potash, "too much text for one session");
    }
    bool understood = false;
    const struct answer *answer =
        reckoning_answer(&potash->arena, &potash->names, &potash->library, &potash->diagnostics, source, &understood);
    if (answer == NULL) {
        diagnostics_finish(&potash->diagnostics);
        if (understood) {
            return session_unusable(potash, "this cannot be reckoned");
        }
        session_unusable(potash, "this is no sum that can be reckoned; sums look like these:");
        potash->message = arena_format(&potash->arena, "%s%s", potash->message, examples);
        return POTASH_UNUSABLE;
    }
    if (format == POTASH_JSON) {
        return session_put_json(potash, answer_json(bytes, answer), output);
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    buffer_format(&out, "%s   (%s)\n", answer->text, answer->working);
    for (const struct answer_note *note = answer->notes; note != NULL; note = note->next) {
        buffer_format(&out, "note: %s\n", note->text);
    }
    return session_put_text(&out, output);
}
