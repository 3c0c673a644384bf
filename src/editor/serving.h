/* What the server holds, and what its files ask of each other. */
#ifndef POTASH_EDITOR_SERVING_H
#define POTASH_EDITOR_SERVING_H

#include "base/json_build.h"
#include "editor/messages.h"
#include "workspace.h"

/* A document that the client has open. */
struct document {
    struct document *next;
    char *uri;                /* as the client spells it */
    char *path;
    json_int_t version;
    json_t *published;        /* the diagnostics that it was told last; NULL: none */
};

struct server {
    struct messages messages;
    struct potash_workspace *workspace;
    struct potash_snapshot *snapshot; /* of the texts as they stand; NULL: to be taken anew */
    struct potash_snapshot *shown;    /* that diagnostics were published of; NULL at first */
    struct document *documents;
    bool utf8;                /* positions count bytes, not units of UTF-16 */
    bool edits_by_version;    /* the client takes edits with the versions that they are for … */
    bool related;             /* … and other places with a diagnostic */
    bool watches;             /* it can be asked to watch files */
    bool initialized;
    bool shut_down;
    bool exits;
    json_int_t asked;         /* how many requests were sent to the client */
};

/* The snapshot; NULL when there is no memory. */
struct potash_snapshot *server_snapshot(struct server *server);

/* Something was changed: snapshots are taken anew. */
void server_forget_snapshot(struct server *server);

/* Tells the client something that is no answer; type as in the protocol: 1 an error, 2 a warning, 3 information. */
void server_log(struct server *server, int type, const char *text);

/* ---- documents.c ---- */

struct document *documents_find(const struct server *server, const char *path);
void documents_free(struct server *server);

/* What is wrong with each open document whose diagnostics may have changed. */
void documents_publish(struct server *server);

void documents_open(struct server *server, const json_t *parameters);
void documents_change(struct server *server, const json_t *parameters);
void documents_close(struct server *server, const json_t *parameters);
void documents_watch(struct server *server, const json_t *parameters);
void documents_folders(struct server *server, const json_t *parameters);

/* A diagnostic as the client is told it. */
json_t *documents_diagnostic(struct server *server, const struct potash_finding *finding);

/* ---- addresses.c ---- */

/* The path of a `file:` address, or any other address as it stands; NULL when there is no memory. */
char *address_path(const char *uri);

/* The address of a path: as the client spells it where the document is open. */
json_t *address_of(const struct server *server, const char *path);

/* ---- positions.c ---- */

json_t *position_json(const struct server *server, struct potash_place place);
json_t *range_json(const struct server *server, struct potash_range range);
json_t *location_json(const struct server *server, const struct potash_location *location);

/* The offset of a position in the text; false where it is none, or the text is not there. */
bool position_offset(struct server *server, const char *path, const json_t *position, size_t *offset);

/* Edits as a WorkspaceEdit; those of one text as a list of TextEdit. */
json_t *edits_json(const struct server *server, const struct potash_edits *edits);
json_t *text_edits_json(const struct server *server, const struct potash_edits *edits);

/* ---- answers*.c: requests about texts ---- */

/* What a request is about. */
struct question {
    struct server *server;
    struct potash_snapshot *snapshot;
    const json_t *parameters;
    const char *path;
    size_t offset;            /* of its position, where it has one */
    size_t end;               /* with `offset` its range, where it has that */
};

/* What is to be answered: a result, or the status and with it the workspace's message. */
struct reply {
    json_t *result;
    enum potash_status status;
};

enum question_about { ABOUT_NOTHING, ABOUT_TEXT, ABOUT_PLACE, ABOUT_RANGE };

struct method {
    const char *name;
    enum question_about about;
    struct reply (*answer)(const struct question *question);
};

extern const struct method editing_methods[];   /* to their end, whose name is NULL */
extern const struct method looking_methods[];

/* How the legend of semantic tokens goes. */
json_t *highlights_legend(void);

#endif
