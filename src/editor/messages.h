/* Messages of JSON-RPC 2.0 over two streams, each behind a header with its length (LSP 3.17, base protocol). */
#ifndef POTASH_EDITOR_MESSAGES_H
#define POTASH_EDITOR_MESSAGES_H

#include <jansson.h>
#include <stdbool.h>
#include <stddef.h>

/* Errors by their numbers in JSON-RPC and LSP. */
enum message_error {
    MESSAGE_UNREADABLE = -32700,
    MESSAGE_INVALID = -32600,
    MESSAGE_UNKNOWN_METHOD = -32601,
    MESSAGE_WRONG_PARAMETERS = -32602,
    MESSAGE_INTERNAL = -32603,
    MESSAGE_NOT_INITIALIZED = -32002,
    MESSAGE_FAILED = -32803,
    MESSAGE_CANCELLED = -32800
};

struct message {
    struct message *next;
    json_t *json;
    bool cancelled;
};

struct messages {
    int in;
    int out;
    char *bytes;              /* that came and are not used yet */
    size_t length;
    size_t room;
    size_t skip;              /* bytes of a message that is too long, still to come */
    bool ended;               /* nothing more will come */
    bool broken;              /* nothing more can be written */
    struct message *first;    /* that are to be answered */
    struct message **last;
};

void messages_start(struct messages *messages, int in, int out);
void messages_end(struct messages *messages);

/* Waits until there is a message, and takes in all that have come with it; what cannot be read is answered, and what was cancelled is
 * marked.  The first, which is the caller's; NULL at the end.  `wait` false: NULL also when none has come. */
struct message *messages_next(struct messages *messages, bool wait);
void message_free(struct message *message);

/* Sends a value, and releases it; NULL is one that could not be made. */
void messages_send(struct messages *messages, json_t *value);
void messages_answer(struct messages *messages, const json_t *id, json_t *result);
void messages_refuse(struct messages *messages, const json_t *id, enum message_error error, const char *reason);
void messages_notify(struct messages *messages, const char *method, json_t *parameters);

#endif
