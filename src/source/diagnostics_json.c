/* Diagnostics for programs: the contract's JSON, and SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format). */
#include "source/diagnostics.h"

#include "base/json_build.h"

#include <stdio.h>

/* One edit; `title` NULL leaves it out. */
static json_t *edit_json(const struct diagnostics *diagnostics, const struct fix *edit, const char *title)
{
    struct place begin = source_place(diagnostics->sources, edit->span.begin);
    struct place end = source_place(diagnostics->sources, edit->span.end);
    json_t *json = title == NULL ? json_object() : json_pack("{s:s}", "title", title);
    put_member(&json, "line", json_integer((json_int_t)begin.line));
    put_member(&json, "column", json_integer((json_int_t)begin.column));
    put_member(&json, "end_column", json_integer((json_int_t)end.column));
    put_member(&json, "text", json_string(edit->text));
    return json;
}

/* A repair of several edits has them all in `edits`; the first stands where the only one of others does. */
static json_t *fix_json(const struct diagnostics *diagnostics, const struct fix *fix)
{
    json_t *whole = edit_json(diagnostics, fix, fix->title);
    if (fix->also != NULL) {
        json_t *edits = json_array();
        for (const struct fix *edit = fix; edit != NULL; edit = edit->also) {
            put_item(&edits, edit_json(diagnostics, edit, NULL));
        }
        put_member(&whole, "edits", edits);
    }
    return whole;
}

/* What a person is shown behind `help:`; where that is the titles of the repairs, all of them; null when there is
 * nothing. */
static json_t *help_json(const struct diagnostic *item)
{
    if (item->help != NULL || item->fixes == NULL) {
        return item->help == NULL ? json_null() : json_string(item->help);
    }
    json_t *help = json_string(item->fixes->title);
    for (const struct fix *fix = item->fixes->next; fix != NULL && help != NULL; fix = fix->next) {
        json_t *longer = json_sprintf("%s, or %s", json_string_value(help), fix->title);
        json_decref(help);
        help = longer;
    }
    return help;
}

static json_t *diagnostic_json(const struct diagnostics *diagnostics, const struct diagnostic *item)
{
    struct place begin = source_place(diagnostics->sources, item->span.begin);
    struct place end = source_place(diagnostics->sources, item->span.end);
    json_t *fixes = json_array();
    for (const struct fix *fix = item->fixes; fix != NULL; fix = fix->next) {
        put_item(&fixes, fix_json(diagnostics, fix));
    }
    return json_pack("{s:s, s:i, s:i, s:i, s:i, s:s, s:s, s:s, s:o, s:o}", "file", begin.file->name, "line",
                     (int)begin.line, "column", (int)begin.column, "end_line", (int)end.line, "end_column",
                     (int)end.column, "severity", item->severity == SEVERITY_ERROR ? "error" : "warning", "id",
                     diagnostic_registry[item->id].name, "message", item->message, "help", help_json(item), "fixes",
                     fixes);
}

json_t *diagnostics_json(const struct diagnostics *diagnostics)
{
    json_t *list = json_array();
    for (size_t i = 0; i < diagnostics->count; i++) {
        put_item(&list, diagnostic_json(diagnostics, diagnostics->items[i]));
    }
    return json_pack("{s:o, s:i, s:i}", "diagnostics", list, "errors", (int)diagnostics->errors, "warnings",
                     (int)diagnostics->warnings);
}

static json_t *region_json(const struct diagnostics *diagnostics, struct span span)
{
    struct place begin = source_place(diagnostics->sources, span.begin);
    struct place end = source_place(diagnostics->sources, span.end);
    return json_pack("{s:i, s:i, s:i, s:i}", "startLine", (int)begin.line, "startColumn", (int)begin.column, "endLine",
                     (int)end.line, "endColumn", (int)end.column);
}

static json_t *result_json(const struct diagnostics *diagnostics, const struct diagnostic *item)
{
    struct place place = source_place(diagnostics->sources, item->span.begin);
    json_t *fixes = json_array();
    for (const struct fix *fix = item->fixes; fix != NULL; fix = fix->next) {
        json_t *replacements = json_array();
        for (const struct fix *edit = fix; edit != NULL; edit = edit->also) {
            put_item(&replacements, json_pack("{s:o, s:{s:s}}", "deletedRegion", region_json(diagnostics, edit->span),
                                              "insertedContent", "text", edit->text));
        }
        put_item(&fixes, json_pack("{s:{s:s}, s:[{s:{s:s}, s:o}]}", "description", "text", fix->title,
                                   "artifactChanges", "artifactLocation", "uri", place.file->name, "replacements",
                                   replacements));
    }
    json_t *result = json_pack("{s:s, s:i, s:s, s:{s:s}, s:[{s:{s:{s:s}, s:o}}]}", "ruleId",
                               diagnostic_registry[item->id].name, "ruleIndex", (int)item->id, "level",
                               item->severity == SEVERITY_ERROR ? "error" : "warning", "message", "text", item->message,
                               "locations", "physicalLocation", "artifactLocation", "uri", place.file->name, "region",
                               region_json(diagnostics, item->span));
    if (item->fixes != NULL) {
        put_member(&result, "fixes", fixes);
    } else {
        json_decref(fixes);
    }
    return result;
}

json_t *diagnostics_sarif(const struct diagnostics *diagnostics, const char *version)
{
    json_t *rules = json_array();
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        put_item(&rules, json_pack("{s:s, s:{s:s}, s:{s:s}, s:{s:s}}", "id", entry->name, "shortDescription",
                                   "text", entry->summary, "fullDescription", "text", entry->why,
                                   "defaultConfiguration", "level",
                                   entry->severity == SEVERITY_ERROR ? "error" : "warning"));
    }
    json_t *results = json_array();
    for (size_t i = 0; i < diagnostics->count; i++) {
        put_item(&results, result_json(diagnostics, diagnostics->items[i]));
    }
    return json_pack("{s:s, s:s, s:[{s:{s:{s:s, s:s, s:o}}, s:s, s:o}]}", "$schema",
                     "https://json.schemastore.org/sarif-2.1.0.json", "version", "2.1.0", "runs", "tool", "driver", "name",
                     "potash", "version", version, "rules", rules, "columnKind", "unicodeCodePoints", "results", results);
}
