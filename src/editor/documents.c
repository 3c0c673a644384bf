/* Documents that the client has open, files that it watches, and what it is told of them. */
#include "editor/serving.h"

#include <stdlib.h>
#include <string.h>

struct document *documents_find(const struct server *server, const char *path)
{
    struct document *document = server->documents;
    while (document != NULL && strcmp(document->path, path) != 0) {
        document = document->next;
    }
    return document;
}

static void document_free(struct document *document)
{
    json_decref(document->published);
    free(document->uri);
    free(document->path);
    free(document);
}

void documents_free(struct server *server)
{
    while (server->documents != NULL) {
        struct document *first = server->documents;
        server->documents = first->next;
        document_free(first);
    }
}

static struct document *find_by_uri(const struct server *server, const char *uri)
{
    struct document *document = server->documents;
    while (document != NULL && (uri == NULL || strcmp(document->uri, uri) != 0)) {
        document = document->next;
    }
    return document;
}

/* ---- open, change, close ---- */

static struct document *document_add(struct server *server, const char *uri)
{
    struct document *document = calloc(1, sizeof *document);
    if (document == NULL) {
        return NULL;
    }
    document->uri = strdup(uri);
    document->path = address_path(uri);
    if (document->uri == NULL || document->path == NULL) {
        document_free(document);
        return NULL;
    }
    document->next = server->documents;
    server->documents = document;
    return document;
}

static void set_text(struct server *server, const struct document *document, const json_t *text)
{
    if (potash_workspace_set(server->workspace, document->path, json_string_value(text), json_string_length(text)) != POTASH_GOOD) {
        server_log(server, 1, potash_workspace_message(server->workspace));
    }
    server_forget_snapshot(server);
}

void documents_open(struct server *server, const json_t *parameters)
{
    const json_t *item = json_object_get(parameters, "textDocument");
    const char *uri = json_string_value(json_object_get(item, "uri"));
    const json_t *text = json_object_get(item, "text");
    struct document *document = find_by_uri(server, uri);
    if (uri == NULL || !json_is_string(text)) {
        server_log(server, 1, "a document without address or text was opened");
        return;
    }
    document = document != NULL ? document : document_add(server, uri);
    if (document == NULL) {
        server_log(server, 1, "out of memory");
        return;
    }
    document->version = json_integer_value(json_object_get(item, "version"));
    set_text(server, document, text);
}

/* One change: of a range, or of the whole text.  False where the range is none. */
static bool change(struct server *server, const struct document *document, const json_t *item)
{
    const json_t *text = json_object_get(item, "text");
    const json_t *range = json_object_get(item, "range");
    if (!json_is_string(text)) {
        return false;
    }
    if (range == NULL) {
        set_text(server, document, text);
        return true;
    }
    size_t begin;
    size_t end;
    bool good = position_offset(server, document->path, json_object_get(range, "start"), &begin) &&
                position_offset(server, document->path, json_object_get(range, "end"), &end) &&
                potash_workspace_edit(server->workspace, document->path, begin, end, json_string_value(text), json_string_length(text)) == POTASH_GOOD;
    server_forget_snapshot(server);
    return good;
}

void documents_change(struct server *server, const json_t *parameters)
{
    const json_t *item = json_object_get(parameters, "textDocument");
    struct document *document = find_by_uri(server, json_string_value(json_object_get(item, "uri")));
    if (document == NULL) {
        server_log(server, 1, "a document was changed that is not open");
        return;
    }
    const json_t *version = json_object_get(item, "version");
    document->version = json_is_integer(version) ? json_integer_value(version) : document->version;
    size_t index;
    json_t *one;
    json_array_foreach(json_object_get(parameters, "contentChanges"), index, one)
    {
        if (!change(server, document, one)) {
            server_log(server, 1, "a change does not fit the document: close it and open it again");
            return;
        }
    }
}

void documents_close(struct server *server, const json_t *parameters)
{
    const char *uri = json_string_value(json_object_get(json_object_get(parameters, "textDocument"), "uri"));
    struct document *document = find_by_uri(server, uri);
    if (document == NULL) {
        return;
    }
    struct document **place = &server->documents;
    while (*place != document) {
        place = &(*place)->next;
    }
    *place = document->next;
    potash_workspace_forget(server->workspace, document->path);
    server_forget_snapshot(server);
    messages_notify(&server->messages, "textDocument/publishDiagnostics", json_pack("{s:s, s:[]}", "uri", document->uri, "diagnostics"));
    document_free(document);
}

/* ---- files and folders ---- */

void documents_watch(struct server *server, const json_t *parameters)
{
    size_t index;
    json_t *one;
    json_array_foreach(json_object_get(parameters, "changes"), index, one)
    {
        const char *uri = json_string_value(json_object_get(one, "uri"));
        char *path = uri == NULL ? NULL : address_path(uri);
        if (path != NULL) {
            potash_workspace_refresh(server->workspace, path);
        }
        free(path);
    }
    server_forget_snapshot(server);
}

static void each_folder(struct server *server, const json_t *folders,
                        enum potash_status (*call)(struct potash_workspace *workspace, const char *path))
{
    size_t index;
    json_t *one;
    json_array_foreach(folders, index, one)
    {
        const char *uri = json_string_value(json_object_get(one, "uri"));
        char *path = uri == NULL ? NULL : address_path(uri);
        if (path != NULL && call(server->workspace, path) != POTASH_GOOD) {
            server_log(server, 1, potash_workspace_message(server->workspace));
        }
        free(path);
    }
    server_forget_snapshot(server);
}

void documents_folders(struct server *server, const json_t *parameters)
{
    const json_t *event = json_object_get(parameters, "event");
    each_folder(server, json_object_get(event, "removed"), potash_workspace_remove_folder);
    each_folder(server, json_object_get(event, "added"), potash_workspace_add_folder);
}

/* ---- diagnostics ---- */

json_t *documents_diagnostic(struct server *server, const struct potash_finding *finding)
{
    json_t *message = finding->help == NULL ? json_string(finding->message) : json_sprintf("%s\nhelp: %s", finding->message, finding->help);
    json_t *diagnostic = json_pack("{s:o, s:i, s:s, s:s, s:o}", "range", range_json(server, finding->range), "severity", finding->error ? 1 : 2,
                                   "code", finding->id, "source", "potash", "message", message);
    if (server->related && finding->remark_count > 0) {
        json_t *related = json_array();
        for (size_t i = 0; i < finding->remark_count; i++) {
            put_item(&related, json_pack("{s:o, s:s}", "location", location_json(server, &finding->remarks[i].at), "message", finding->remarks[i].message));
        }
        put_member(&diagnostic, "relatedInformation", related);
    }
    return diagnostic;
}

static void publish(struct server *server, struct potash_snapshot *snapshot, struct document *document)
{
    struct potash_findings findings;
    if (potash_snapshot_findings(snapshot, document->path, &findings) != POTASH_GOOD) {
        server_log(server, 1, potash_workspace_message(server->workspace));
        return;
    }
    json_t *list = json_array();
    for (size_t i = 0; i < findings.count; i++) {
        put_item(&list, documents_diagnostic(server, &findings.items[i]));
    }
    if (list == NULL) {
        server_log(server, 1, "out of memory");
        return;
    }
    messages_notify(&server->messages, "textDocument/publishDiagnostics",
                    json_pack("{s:s, s:I, s:O}", "uri", document->uri, "version", document->version, "diagnostics", list));
    json_decref(document->published);
    document->published = list;
}

void documents_publish(struct server *server)
{
    struct potash_snapshot *snapshot = server->snapshot == server->shown && server->shown != NULL ? NULL : server_snapshot(server);
    if (snapshot == NULL) {
        return;
    }
    for (struct document *document = server->documents; document != NULL; document = document->next) {
        if (document->published == NULL || potash_snapshot_differs(snapshot, server->shown, document->path)) {
            publish(server, snapshot, document);
        }
    }
    if (server->shown != snapshot) {
        potash_snapshot_release(server->shown);
    }
    server->shown = snapshot;
}
