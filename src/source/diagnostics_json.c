/* Diagnostics for programs: the contract's JSON, and SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format). */
#include "source/diagnostics.h"

#include "base/json_text.h"

struct report {
    const struct diagnostics *diagnostics;
    struct json_text json;
    struct buffer words;        /* of what is printed in this moment */
    const struct source_file *file;
    struct buffer uri;          /* its name, for SARIF */
    struct place place;         /* of the diagnostic in hand, or the one before */
};

static void start(struct report *report, const struct diagnostics *diagnostics, struct outlet *out)
{
    *report = (struct report){.diagnostics = diagnostics, .json = {.out = &out->text}};
    buffer_start(&report->words, diagnostics->arena);
    buffer_start(&report->uri, diagnostics->arena);
}

/* A place in or behind the line of the diagnostic. */
static struct place place_of(const struct report *report, uint32_t offset)
{
    return source_place_from(report->diagnostics->sources, &report->place, offset);
}

static void put_words(struct report *report, const char *key)
{
    json_text_put(&report->json, key, (struct text){report->words.bytes, report->words.length});
    report->words.length = 0;
}

static void put_title(struct report *report, const char *key, const struct fix *fix)
{
    diagnostic_print_title(&report->words, fix);
    put_words(report, key);
}

/* ---- the contract's JSON ---- */

static void put_edit(struct report *report, const struct fix *edit)
{
    struct place begin = place_of(report, edit->span.begin);
    json_text_put_count(&report->json, "line", begin.line);
    json_text_put_count(&report->json, "column", begin.column);
    json_text_put_count(&report->json, "end_column", source_place_from(report->diagnostics->sources, &begin, edit->span.end).column);
    json_text_put_string(&report->json, "text", edit->text);
}

/* A repair of several edits has them all in `edits`; the first stands where the only one of others does. */
static void put_fix(struct report *report, const struct fix *fix)
{
    struct json_text *json = &report->json;
    json_text_open(json, NULL, '{');
    put_title(report, "title", fix);
    put_edit(report, fix);
    if (fix_also(fix) != NULL) {
        json_text_open(json, "edits", '[');
        for (const struct fix *edit = fix; edit != NULL; edit = fix_also(edit)) {
            json_text_open(json, NULL, '{');
            put_edit(report, edit);
            json_text_close(json, '}');
        }
        json_text_close(json, ']');
    }
    json_text_close(json, '}');
}

/* What a person is shown behind `help:`; where that is the titles of the repairs, all of them; null when there is
 * nothing. */
static void put_help(struct report *report, const struct diagnostic *item)
{
    if (item->help == NULL && item->fixes == NULL) {
        json_text_put_null(&report->json, "help");
        return;
    }
    if (item->help != NULL) {
        words_print_short(&report->words, item->help);
    } else {
        for (const struct fix *fix = item->fixes; fix != NULL; fix = fix_next(fix)) {
            buffer_string(&report->words, fix == item->fixes ? "" : ", or ");
            diagnostic_print_title(&report->words, fix);
        }
    }
    put_words(report, "help");
}

static void put_diagnostic(struct report *report, const struct diagnostic *item)
{
    struct json_text *json = &report->json;
    struct place end = place_of(report, item->span.end);
    json_text_open(json, NULL, '{');
    json_text_put_string(json, "file", report->place.file->name);
    json_text_put_count(json, "line", report->place.line);
    json_text_put_count(json, "column", report->place.column);
    json_text_put_count(json, "end_line", end.line);
    json_text_put_count(json, "end_column", end.column);
    json_text_put_string(json, "severity", item->severity == SEVERITY_ERROR ? "error" : "warning");
    json_text_put_string(json, "id", diagnostic_registry[item->id].name);
    words_print_short(&report->words, item->message);
    put_words(report, "message");
    put_help(report, item);
    json_text_open(json, "fixes", '[');
    for (const struct fix *fix = item->fixes; fix != NULL; fix = fix_next(fix)) {
        put_fix(report, fix);
    }
    json_text_close(json, ']');
    json_text_close(json, '}');
}

static void put_all(struct report *report, struct outlet *out, void (*put)(struct report *report, const struct diagnostic *item))
{
    const struct diagnostics *diagnostics = report->diagnostics;
    for (size_t i = 0; i < diagnostics->count && !out->refused; i++) {
        struct diagnostic item = diagnostics_explained(diagnostics, diagnostics->items[i]);
        report->place = place_of(report, item.span.begin);
        put(report, &item);
        outlet_pass_on(out);
    }
}

void diagnostics_json(const struct diagnostics *diagnostics, struct outlet *out)
{
    struct report report;
    start(&report, diagnostics, out);
    json_text_open(&report.json, NULL, '{');
    json_text_open(&report.json, "diagnostics", '[');
    put_all(&report, out, put_diagnostic);
    json_text_close(&report.json, ']');
    json_text_put_count(&report.json, "errors", diagnostics->errors);
    json_text_put_count(&report.json, "warnings", diagnostics->warnings);
    json_text_close(&report.json, '}');
}

/* ---- SARIF ---- */

/* A file's name as a reference by path (RFC 3986, 4.2): what may not stand in one is given by its bytes, also the colon, before which a
 * scheme would be read. */
static void add_uri(struct buffer *out, const char *name)
{
    for (; *name != '\0'; name++) {
        unsigned char c = (unsigned char)*name;
        bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || text_is_digit((char)c) || strchr("-._~/!$&'()*+,;=@", c) != NULL;
        if (plain) {
            buffer_character(out, (char)c);
        } else {
            buffer_format(out, "%%%02X", c);
        }
    }
}

static void put_uri(struct report *report)
{
    if (report->place.file != report->file) {
        report->file = report->place.file;
        report->uri.length = 0;
        add_uri(&report->uri, report->file->path);
    }
    json_text_open(&report->json, "artifactLocation", '{');
    json_text_put(&report->json, "uri", (struct text){report->uri.bytes, report->uri.length});
    json_text_close(&report->json, '}');
}

static void put_region(struct report *report, const char *key, struct span span)
{
    struct place begin = place_of(report, span.begin);
    struct place end = span.end == span.begin ? begin : source_place_from(report->diagnostics->sources, &begin, span.end);
    json_text_open(&report->json, key, '{');
    json_text_put_count(&report->json, "startLine", begin.line);
    json_text_put_count(&report->json, "startColumn", begin.column);
    json_text_put_count(&report->json, "endLine", end.line);
    json_text_put_count(&report->json, "endColumn", end.column);
    json_text_close(&report->json, '}');
}

static void put_member_text(struct json_text *json, const char *key, const char *text)
{
    json_text_open(json, key, '{');
    json_text_put_string(json, "text", text);
    json_text_close(json, '}');
}

static void put_changes(struct report *report, const struct fix *fix)
{
    struct json_text *json = &report->json;
    json_text_open(json, NULL, '{');
    json_text_open(json, "description", '{');
    put_title(report, "text", fix);
    json_text_close(json, '}');
    json_text_open(json, "artifactChanges", '[');
    json_text_open(json, NULL, '{');
    put_uri(report);
    json_text_open(json, "replacements", '[');
    for (const struct fix *edit = fix; edit != NULL; edit = fix_also(edit)) {
        json_text_open(json, NULL, '{');
        put_region(report, "deletedRegion", edit->span);
        json_text_open(json, "insertedContent", '{');
        json_text_put_string(json, "text", edit->text);
        json_text_close(json, '}');
        json_text_close(json, '}');
    }
    json_text_close(json, ']');
    json_text_close(json, '}');
    json_text_close(json, ']');
    json_text_close(json, '}');
}

static void put_result(struct report *report, const struct diagnostic *item)
{
    struct json_text *json = &report->json;
    json_text_open(json, NULL, '{');
    json_text_put_string(json, "ruleId", diagnostic_registry[item->id].name);
    json_text_put_count(json, "ruleIndex", item->id);
    json_text_put_string(json, "level", item->severity == SEVERITY_ERROR ? "error" : "warning");
    json_text_open(json, "message", '{');
    words_print_short(&report->words, item->message);
    put_words(report, "text");
    json_text_close(json, '}');
    json_text_open(json, "locations", '[');
    json_text_open(json, NULL, '{');
    json_text_open(json, "physicalLocation", '{');
    put_uri(report);
    put_region(report, "region", item->span);
    json_text_close(json, '}');
    json_text_close(json, '}');
    json_text_close(json, ']');
    if (item->fixes != NULL) {
        json_text_open(json, "fixes", '[');
        for (const struct fix *fix = item->fixes; fix != NULL; fix = fix_next(fix)) {
            put_changes(report, fix);
        }
        json_text_close(json, ']');
    }
    json_text_close(json, '}');
}

static void put_driver(struct json_text *json, const char *version)
{
    json_text_open(json, "tool", '{');
    json_text_open(json, "driver", '{');
    json_text_put_string(json, "name", "potash");
    json_text_put_string(json, "version", version);
    json_text_open(json, "rules", '[');
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        json_text_open(json, NULL, '{');
        json_text_put_string(json, "id", entry->name);
        put_member_text(json, "shortDescription", entry->summary);
        put_member_text(json, "fullDescription", entry->why);
        json_text_open(json, "defaultConfiguration", '{');
        json_text_put_string(json, "level", entry->severity == SEVERITY_ERROR ? "error" : "warning");
        json_text_close(json, '}');
        json_text_close(json, '}');
    }
    json_text_close(json, ']');
    json_text_close(json, '}');
    json_text_close(json, '}');
}

void diagnostics_sarif(const struct diagnostics *diagnostics, const char *version, struct outlet *out)
{
    struct report report;
    start(&report, diagnostics, out);
    struct json_text *json = &report.json;
    json_text_open(json, NULL, '{');
    json_text_put_string(json, "$schema", "https://json.schemastore.org/sarif-2.1.0.json");
    json_text_put_string(json, "version", "2.1.0");
    json_text_open(json, "runs", '[');
    json_text_open(json, NULL, '{');
    put_driver(json, version);
    json_text_put_string(json, "columnKind", "unicodeCodePoints");
    json_text_open(json, "results", '[');
    put_all(&report, out, put_result);
    json_text_close(json, ']');
    json_text_close(json, '}');
    json_text_close(json, ']');
    json_text_close(json, '}');
}
