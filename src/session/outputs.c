/* What a session gives out: diagnostics, the checked form, explanations. */
#include "session/session.h"

#include "base/shown.h"
#include "base/utf8.h"

#include <math.h>
#include <stdlib.h>

json_t *session_built(struct potash *potash)
{
    json_t *json = potash->building;
    potash->building = NULL;
    return json;
}

enum potash_status session_put_json(struct potash *potash, json_t *json, struct potash_output *output)
{
    if (json == NULL) {
        return session_out_of_memory(potash);
    }
    /* 12 significant figures: more than any balance, fewer than the noise of binary fractions.  jansson measures first and then writes
     * into memory of ours: text that it keeps itself may lose the name of a member where it finds no memory for it. */
    enum { FLAGS = JSON_INDENT(2) | JSON_REAL_PRECISION(12) };
    potash->building = json;
    size_t length = json_dumpb(json, NULL, 0, FLAGS);
    char *text = length == 0 ? NULL : ARENA_ARRAY(&potash->arena, char, length + 1);
    if (text == NULL || json_dumpb(json, text, length, FLAGS) != length) {
        return session_out_of_memory(potash);
    }
    json_decref(session_built(potash));
    text[length] = '\n';
    struct text shown = shown_json(&potash->arena, (struct text){text, length + 1});
    *output = (struct potash_output){shown.at, shown.length};
    return POTASH_GOOD;
}

enum potash_status session_put_text(struct buffer *text, struct potash_output *output)
{
    buffer_finish(text);
    struct text shown = shown_lines(text->arena, (struct text){text->bytes, text->length});
    *output = (struct potash_output){shown.at, shown.length};
    return POTASH_GOOD;
}

static enum potash_status put_diagnostics(struct potash *potash, enum potash_format format, bool colour, size_t most, struct outlet *out)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    buffer_start(&out->text, &potash->arena);
    switch (format) {
    case POTASH_TEXT:
        diagnostics_print(&potash->diagnostics, out, colour, most);
        break;
    case POTASH_JSON:
        diagnostics_json(&potash->diagnostics, out);
        break;
    case POTASH_SARIF:
        diagnostics_sarif(&potash->diagnostics, POTASH_VERSION, out);
        break;
    default:
        return session_unusable(potash, "diagnostics come as text, json or sarif");
    }
    outlet_finish(out);
    buffer_finish(&out->text);
    return out->refused ? POTASH_FAULTY : POTASH_GOOD;
}

enum potash_status potash_write_diagnostics(struct potash *potash, enum potash_format format, bool colour, size_t most,
                                            const struct potash_sink *sink)
{
    struct outlet out = {.take = sink->take, .context = sink->context};
    return put_diagnostics(potash, format, colour, most, &out);
}

enum potash_status potash_diagnostics(struct potash *potash, enum potash_format format, bool colour,
                                      struct potash_output *output)
{
    struct outlet out = {.take = NULL};
    enum potash_status status = put_diagnostics(potash, format, colour, 0, &out);
    if (status == POTASH_GOOD) {
        *output = (struct potash_output){out.text.bytes, out.text.length};
    }
    return status;
}

enum potash_status potash_show(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    enum potash_status ready = session_ready(potash);
    if (ready != POTASH_GOOD) {
        return ready;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    if (format != POTASH_JSON) {
        struct page_set set;
        page_set_start(&set, &potash->arena);
        for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
            report_formula(&potash->context, formula, page_set_add(&set));
        }
        return session_put_pages(potash, &set, "formulas", format, output);
    }
    potash->building = json_array();
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL;
         formula = session_next(potash, formula)) {
        const struct reckoned_formula *reckoned = report_formula_reckon(&potash->context, formula, true);
        put_item(&potash->building, report_formula_json(&potash->context, formula, reckoned));
    }
    return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, "formulas", session_built(potash)), output);
}

char *potash_shown(const char *text, size_t length)
{
    struct arena arena;
    arena_start(&arena);
    jmp_buf failed;
    arena.on_failure = &failed;
    if (setjmp(failed) != 0) {
        arena_release(&arena);
        return NULL;
    }
    struct text shown = shown_line(&arena, (struct text){text, length});
    char *copy = strndup(shown.at, shown.length);
    arena_release(&arena);
    return copy;
}

bool potash_is_plain(const char *text, size_t length)
{
    return shown_is_plain((struct text){text, length});
}

/* ---- why ---- */

/* Running text in lines that fit; all of it is ASCII, so that bytes are columns. */
static void put_paragraph(struct buffer *out, const char *text, size_t columns)
{
    size_t column = 0;
    for (const char *word = text; *word != '\0';) {
        size_t length = strcspn(word, " ");
        bool fits = column == 0 || column + 1 + length <= columns;
        buffer_string(out, column == 0 ? "" : fits ? " " : "\n");
        column = fits && column > 0 ? column + 1 + length : length;
        buffer_add(out, word, length);
        word += length + strspn(word + length, " ");
    }
    buffer_character(out, '\n');
}

static void explain(struct buffer *out, const struct diagnostic_entry *entry, size_t columns)
{
    buffer_format(out, "%s (%s)\n%s\n\n", entry->name, entry->severity == SEVERITY_ERROR ? "error" : "warning",
                  entry->summary);
    put_paragraph(out, entry->why, columns);
    buffer_string(out, "\nThis gives it:\n\n");
    const char *examples[] = {entry->wrong, entry->right};
    for (int i = 0; i < 2; i++) {
        for (const char *at = examples[i]; *at != '\0';) {
            const char *end = strchr(at, '\n');
            size_t length = end == NULL ? strlen(at) : (size_t)(end - at);
            buffer_string(out, length == 0 ? "" : "    ");
            shown_add_named(out, (struct text){at, length});
            buffer_character(out, '\n');
            at += length + (end == NULL ? 0 : 1);
        }
        buffer_string(out, i == 0 ? "\nAnd this mends it:\n\n" : "\n");
    }
}

static json_t *explanation_json(const struct diagnostic_entry *entry)
{
    /* The one example that is no UTF-8 has no place in JSON. */
    size_t length = strlen(entry->wrong);
    json_t *wrong = utf8_first_fault(entry->wrong, length, 0) < length ? json_null() : json_string(entry->wrong);
    return json_pack("{s:s, s:s, s:s, s:s, s:o, s:s}", "id", entry->name, "severity",
                     entry->severity == SEVERITY_ERROR ? "error" : "warning", "summary", entry->summary, "why", entry->why,
                     "wrong", wrong, "right", entry->right);
}

static void list_ids(struct buffer *out)
{
    for (int severity = SEVERITY_ERROR; severity <= SEVERITY_WARNING; severity++) {
        buffer_string(out, severity == SEVERITY_ERROR ? "Errors\n" : "\nWarnings\n");
        for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
            const struct diagnostic_entry *entry = &diagnostic_registry[id];
            if (entry->severity == (enum severity)severity) {
                buffer_format(out, "  %-22s %s\n", entry->name, entry->summary);
            }
        }
    }
    buffer_string(out, "\npotash why ID explains one.\n");
}

struct rule_search {
    struct text wanted;
    struct names *names;
    const struct declaration *found;
};

static void look_at_rule(void *context, const struct declaration *declaration)
{
    struct rule_search *search = context;
    if (text_equal(names_folded(search->names, declaration->name.name)->spelling, search->wanted)) {
        search->found = declaration;
    }
}

/* A rule of practice by its name: when it speaks, what it says, and on whose word.  False when there is no such rule. */
static bool explain_rule(struct potash *potash, const char *name, struct potash_output *output)
{
    struct rule_search search = {names_fold(&potash->arena, text_from(name)), &potash->names, NULL};
    library_each_rule(&potash->library, look_at_rule, &search);
    if (search.found == NULL) {
        return false;
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    buffer_format(&out, "rule %.*s (%s)\n\n", TEXT_ARGUMENTS(search.found->name.name->spelling), search.found->file->name);
    for (const struct statement *statement = search.found->statements; statement != NULL; statement = statement->next) {
        buffer_format(&out, "    %.*s\n", TEXT_ARGUMENTS(source_text(&potash->sources, statement->span)));
    }
    buffer_string(&out, "\nIt is turned off, by this name, with: silence in the formula, or --silence.\n");
    session_put_text(&out, output);
    return true;
}

enum potash_status potash_why(struct potash *potash, const char *id, enum potash_format format,
                              struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    enum diagnostic_id found = id == NULL ? DIAGNOSTIC_IDS : diagnostic_find(text_from(id));
    if (id != NULL && found == DIAGNOSTIC_IDS && format == POTASH_TEXT && explain_rule(potash, id, output)) {
        return POTASH_GOOD;
    }
    if (id != NULL && found == DIAGNOSTIC_IDS) {
        return session_unusable(potash, "there is no diagnostic \"%.80s\"; the list: potash why", id);
    }
    if (format == POTASH_JSON) {
        json_t *list = json_array();
        for (int i = 0; i < DIAGNOSTIC_IDS; i++) {
            if (id == NULL || i == (int)found) {
                put_item(&list, explanation_json(&diagnostic_registry[i]));
            }
        }
        return session_put_json(potash, json_pack("{s:o}", "diagnostics", list), output);
    }
    if (format != POTASH_TEXT) {
        return session_unusable(potash, "explanations come as text or json");
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    if (id == NULL) {
        list_ids(&out);
    } else {
        explain(&out, &diagnostic_registry[found], potash->options.columns == 0 ? 80 : potash->options.columns);
    }
    return session_put_text(&out, output);
}
