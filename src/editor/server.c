/* The server: its life, and which message goes where. */
#include "editor/editor.h"
#include "editor/serving.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- snapshots ---- */

struct potash_snapshot *server_snapshot(struct server *server)
{
    if (server->snapshot == NULL) {
        server->snapshot = potash_snapshot_take(server->workspace);
    }
    return server->snapshot;
}

void server_forget_snapshot(struct server *server)
{
    if (server->snapshot != server->shown) {
        potash_snapshot_release(server->snapshot);
    }
    server->snapshot = NULL;
}

void server_log(struct server *server, int type, const char *text)
{
    messages_notify(&server->messages, "window/logMessage", json_pack("{s:i, s:s}", "type", type, "message", text));
}

/* ---- beginning and ending ---- */

static const json_t *member(const json_t *object, const char *first, const char *second, const char *third)
{
    const json_t *at = json_object_get(json_object_get(object, first), second);
    return third == NULL ? at : json_object_get(at, third);
}

static void read_capabilities(struct server *server, const json_t *capabilities)
{
    size_t index;
    json_t *one;
    json_array_foreach((json_t *)member(capabilities, "general", "positionEncodings", NULL), index, one)
    {
        server->utf8 = server->utf8 || (json_is_string(one) && strcmp(json_string_value(one), "utf-8") == 0);
    }
    server->edits_by_version = json_is_true(member(capabilities, "workspace", "workspaceEdit", "documentChanges"));
    server->related = json_is_true(member(capabilities, "textDocument", "publishDiagnostics", "relatedInformation"));
    server->watches = json_is_true(member(capabilities, "workspace", "didChangeWatchedFiles", "dynamicRegistration"));
}

static void read_folders(struct server *server, const json_t *parameters)
{
    const json_t *folders = json_object_get(parameters, "workspaceFolders");
    const json_t *root = json_object_get(parameters, "rootUri");
    json_t *added = json_is_array(folders)  ? json_incref((json_t *)folders)
                    : json_is_string(root) ? json_pack("[{s:O}]", "uri", root)
                                           : json_array();
    json_t *event = json_pack("{s:{s:o}}", "event", "added", added);
    documents_folders(server, event);
    json_decref(event);
}

static json_t *capabilities_json(const struct server *server)
{
    return json_pack("{s:s, s:{s:b, s:i, s:{s:b}}, s:{s:[s,s]}, s:b, s:b, s:b, s:b, s:b, s:b, s:{s:[s,s,s]}, s:b, s:b, s:{s:b}, s:b, s:b,"
                     " s:{s:o, s:b}, s:{s:{s:b, s:b}}}",
                     "positionEncoding", server->utf8 ? "utf-8" : "utf-16", "textDocumentSync", "openClose", 1, "change", 2, "save", "includeText", 0,
                     "completionProvider", "triggerCharacters", "\"", "(", "hoverProvider", 1, "definitionProvider", 1, "referencesProvider", 1,
                     "documentHighlightProvider", 1, "documentSymbolProvider", 1, "workspaceSymbolProvider", 1, "codeActionProvider",
                     "codeActionKinds", "quickfix", "refactor.rewrite", "refactor.extract", "documentFormattingProvider", 1,
                     "documentRangeFormattingProvider", 1, "renameProvider", "prepareProvider", 1, "foldingRangeProvider", 1, "inlayHintProvider", 1,
                     "semanticTokensProvider", "legend", highlights_legend(), "full", 1, "workspace", "workspaceFolders", "supported", 1,
                     "changeNotifications", 1);
}

static void initialize(struct server *server, const json_t *id, const json_t *parameters)
{
    read_capabilities(server, json_object_get(parameters, "capabilities"));
    server->initialized = true;
    read_folders(server, parameters);
    messages_answer(&server->messages, id,
                    json_pack("{s:o, s:{s:s, s:s}}", "capabilities", capabilities_json(server), "serverInfo", "name", "potash", "version", potash_version()));
}

/* Files that other programs write are told of by the client. */
static void ask_to_watch(struct server *server)
{
    if (server->watches) {
        messages_send(&server->messages,
                      json_pack("{s:s, s:I, s:s, s:{s:[{s:s, s:s, s:{s:[{s:s}]}}]}}", "jsonrpc", "2.0", "id", ++server->asked, "method",
                                "client/registerCapability", "params", "registrations", "id", "files", "method", "workspace/didChangeWatchedFiles",
                                "registerOptions", "watchers", "globPattern", "**/*.bath"));
    }
}

/* ---- requests about texts ---- */

static const struct method *find_method(const char *name)
{
    static const struct method *const tables[] = {editing_methods, looking_methods};
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        for (const struct method *method = tables[i]; method->name != NULL; method++) {
            if (strcmp(method->name, name) == 0) {
                return method;
            }
        }
    }
    return NULL;
}

/* The text and the place that the parameters name; false where they are none. */
static bool read_question(struct question *question, enum question_about about, char **path)
{
    const json_t *parameters = question->parameters;
    const char *uri = json_string_value(member(parameters, "textDocument", "uri", NULL));
    *path = uri == NULL || about == ABOUT_NOTHING ? NULL : address_path(uri);
    question->path = *path;
    const json_t *range = json_object_get(parameters, "range");
    switch (about) {
    case ABOUT_NOTHING:
        return true;
    case ABOUT_TEXT:
        return *path != NULL;
    case ABOUT_PLACE:
        return *path != NULL && position_offset(question->server, *path, json_object_get(parameters, "position"), &question->offset);
    default:
        return *path != NULL && position_offset(question->server, *path, json_object_get(range, "start"), &question->offset) &&
               position_offset(question->server, *path, json_object_get(range, "end"), &question->end);
    }
}

static void answer(struct server *server, const struct method *method, const json_t *id, const json_t *parameters)
{
    struct question question = {.server = server, .snapshot = server_snapshot(server), .parameters = parameters};
    char *path = NULL;
    if (question.snapshot == NULL) {
        messages_refuse(&server->messages, id, MESSAGE_INTERNAL, "out of memory");
    } else if (!read_question(&question, method->about, &path)) {
        messages_refuse(&server->messages, id, MESSAGE_WRONG_PARAMETERS, "there is no such text or place");
    } else {
        struct reply reply = method->answer(&question);
        if (reply.status == POTASH_GOOD) {
            messages_answer(&server->messages, id, reply.result);
        } else {
            messages_refuse(&server->messages, id, MESSAGE_FAILED, potash_workspace_message(server->workspace));
        }
    }
    free(path);
}

/* ---- messages ---- */

static void request(struct server *server, const char *name, const json_t *id, const json_t *parameters)
{
    const struct method *method = find_method(name);
    if (strcmp(name, "initialize") == 0 && !server->initialized) {
        initialize(server, id, parameters);
    } else if (!server->initialized) {
        messages_refuse(&server->messages, id, MESSAGE_NOT_INITIALIZED, "the server has not been initialized");
    } else if (server->shut_down || strcmp(name, "initialize") == 0) {
        messages_refuse(&server->messages, id, MESSAGE_INVALID, server->shut_down ? "the server is shut down" : "the server has been initialized");
    } else if (strcmp(name, "shutdown") == 0) {
        server->shut_down = true;
        messages_answer(&server->messages, id, json_null());
    } else if (method != NULL) {
        answer(server, method, id, parameters);
    } else {
        messages_refuse(&server->messages, id, MESSAGE_UNKNOWN_METHOD, name);
    }
}

static void notification(struct server *server, const char *name, const json_t *parameters)
{
    static const struct {
        const char *name;
        void (*take)(struct server *server, const json_t *parameters);
    } known[] = {
        {"textDocument/didOpen", documents_open},
        {"textDocument/didChange", documents_change},
        {"textDocument/didClose", documents_close},
        {"workspace/didChangeWatchedFiles", documents_watch},
        {"workspace/didChangeWorkspaceFolders", documents_folders},
    };
    if (strcmp(name, "exit") == 0) {
        server->exits = true;
    } else if (strcmp(name, "initialized") == 0) {
        ask_to_watch(server);
    }
    for (size_t i = 0; i < sizeof known / sizeof *known && server->initialized && !server->shut_down; i++) {
        if (strcmp(known[i].name, name) == 0) {
            known[i].take(server, parameters);
        }
    }
}

static void take(struct server *server, const struct message *message)
{
    const char *method = json_string_value(json_object_get(message->json, "method"));
    const json_t *id = json_object_get(message->json, "id");
    const json_t *parameters = json_object_get(message->json, "params");
    if (method == NULL) { /* an answer of the client: nothing hangs on it */
        return;
    }
    if (id == NULL) {
        notification(server, method, parameters);
    } else if (message->cancelled) {
        messages_refuse(&server->messages, id, MESSAGE_CANCELLED, "cancelled");
    } else {
        request(server, method, id, parameters);
    }
}

/* Whatever has come is taken first, so that diagnostics are worked out once for keys that were struck meanwhile. */
static void serve(struct server *server)
{
    while (!server->exits && !server->messages.broken) {
        struct message *message = messages_next(&server->messages, false);
        if (message == NULL) {
            documents_publish(server);
            message = messages_next(&server->messages, true);
        }
        if (message == NULL) {
            return;
        }
        take(server, message);
        message_free(message);
    }
}

int editor_serve(int in, int out, const struct potash_workspace_options *options, const char *library, char *why, size_t room)
{
    struct potash_workspace_options with_library = *options;
    struct potash_library *read = NULL;
    if (library != NULL) {
        read = potash_library_open(library, why, room);
        if (read == NULL) {
            return POTASH_UNUSABLE;
        }
        with_library.library = read;
    }
    struct server server = {.workspace = potash_workspace_open(&with_library)};
    int status = POTASH_UNUSABLE;
    if (server.workspace == NULL) {
        snprintf(why, room, "out of memory");
    } else {
        messages_start(&server.messages, in, out);
        serve(&server);
        messages_end(&server.messages);
        status = server.shut_down || !server.initialized ? POTASH_GOOD : POTASH_FAULTY;
    }
    server_forget_snapshot(&server);
    potash_snapshot_release(server.shown);
    documents_free(&server);
    potash_workspace_close(server.workspace);
    potash_library_close(read);
    return status;
}
