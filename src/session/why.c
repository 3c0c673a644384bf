/* A diagnostic or a rule of practice explained. */
#include "session/reports.h"

#include "base/shown.h"
#include "base/utf8.h"

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

enum potash_status session_put_why(struct potash *potash, const char *id, enum potash_format format, struct potash_output *output)
{
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
    struct buffer out;
    buffer_start(&out, &potash->arena);
    if (id == NULL) {
        list_ids(&out);
    } else {
        explain(&out, &diagnostic_registry[found], potash->options.columns == 0 ? 80 : potash->options.columns);
    }
    return session_put_text(&out, output);
}
