/* Reading and writing messages. */
#include "editor/messages.h"

#include <errno.h>
#include <poll.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

enum { LONGEST_MESSAGE = 256 << 20, LONGEST_HEADER = 4096 };

void messages_start(struct messages *messages, int in, int out)
{
    *messages = (struct messages){.in = in, .out = out};
    messages->last = &messages->first;
}

void message_free(struct message *message)
{
    if (message != NULL) {
        json_decref(message->json);
        free(message);
    }
}

void messages_end(struct messages *messages)
{
    while (messages->first != NULL) {
        struct message *first = messages->first;
        messages->first = first->next;
        message_free(first);
    }
    free(messages->bytes);
}

/* ---- writing ---- */

static void write_all(struct messages *messages, const char *bytes, size_t length)
{
    while (length > 0 && !messages->broken) {
        ssize_t written = write(messages->out, bytes, length);
        if (written < 0 && errno != EINTR) {
            messages->broken = true;
        } else if (written > 0) {
            bytes += written;
            length -= (size_t)written;
        }
    }
}

void messages_send(struct messages *messages, json_t *value)
{
    char *text = value == NULL ? NULL : json_dumps(value, JSON_COMPACT);
    json_decref(value);
    const char *body = text != NULL ? text
                                    : "{\"jsonrpc\":\"2.0\",\"method\":\"window/logMessage\",\"params\":{\"type\":1,\"message\":\"out of memory\"}}";
    char header[64];
    int length = snprintf(header, sizeof header, "Content-Length: %zu\r\n\r\n", strlen(body));
    write_all(messages, header, (size_t)length);
    write_all(messages, body, strlen(body));
    free(text);
}

static json_t *id_of(const json_t *id)
{
    return id == NULL ? json_null() : json_incref((json_t *)id);
}

void messages_answer(struct messages *messages, const json_t *id, json_t *result)
{
    if (result == NULL) {
        messages_refuse(messages, id, MESSAGE_INTERNAL, "out of memory");
        return;
    }
    messages_send(messages, json_pack("{s:s, s:o, s:o}", "jsonrpc", "2.0", "id", id_of(id), "result", result));
}

void messages_refuse(struct messages *messages, const json_t *id, enum message_error error, const char *reason)
{
    messages_send(messages, json_pack("{s:s, s:o, s:{s:i, s:s}}", "jsonrpc", "2.0", "id", id_of(id), "error", "code", (int)error, "message", reason));
}

void messages_notify(struct messages *messages, const char *method, json_t *parameters)
{
    messages_send(messages, parameters == NULL ? NULL : json_pack("{s:s, s:s, s:o}", "jsonrpc", "2.0", "method", method, "params", parameters));
}

/* ---- reading ---- */

/* Whether more came; at the end none does. */
static bool read_more(struct messages *messages)
{
    if (messages->room - messages->length < 65536) {
        size_t room = messages->room == 0 ? 131072 : messages->room * 2;
        char *bytes = realloc(messages->bytes, room);
        if (bytes == NULL) {
            messages->ended = true;
            return false;
        }
        messages->bytes = bytes;
        messages->room = room;
    }
    ssize_t got;
    do {
        got = read(messages->in, messages->bytes + messages->length, messages->room - messages->length);
    } while (got < 0 && errno == EINTR);
    messages->ended = got <= 0;
    messages->length += got > 0 ? (size_t)got : 0;
    return got > 0;
}

static void drop(struct messages *messages, size_t length)
{
    memmove(messages->bytes, messages->bytes + length, messages->length - length);
    messages->length -= length;
}

/* A cancelled request that still waits is not begun. */
static void cancel(struct messages *messages, const json_t *id)
{
    for (struct message *message = messages->first; message != NULL && id != NULL; message = message->next) {
        const json_t *other = json_object_get(message->json, "id");
        message->cancelled = message->cancelled || (other != NULL && json_equal(other, id));
    }
}

static void take(struct messages *messages, const char *body, size_t length)
{
    json_t *json = json_loadb(body, length, JSON_ALLOW_NUL | JSON_DECODE_ANY, NULL);
    if (json == NULL) {
        messages_refuse(messages, NULL, MESSAGE_UNREADABLE, "this is not JSON");
        return;
    }
    const char *method = json_string_value(json_object_get(json, "method"));
    const json_t *id = json_object_get(json, "id");
    bool good = json_is_object(json) && (method != NULL || id != NULL) && (id == NULL || json_is_integer(id) || json_is_string(id));
    struct message *message = good ? calloc(1, sizeof *message) : NULL;
    if (message == NULL) {
        messages_refuse(messages, NULL, MESSAGE_INVALID, good ? "out of memory" : "this is no message of JSON-RPC");
        json_decref(json);
        return;
    }
    if (method != NULL && strcmp(method, "$/cancelRequest") == 0) {
        cancel(messages, json_object_get(json_object_get(json, "params"), "id"));
    }
    message->json = json;
    *messages->last = message;
    messages->last = &message->next;
}

/* The bytes of the header, with the empty line behind it; 0 when it has not come as a whole. */
static size_t header_length(const struct messages *messages)
{
    for (size_t i = 0; i + 1 < messages->length; i++) {
        const char *at = messages->bytes + i;
        if (at[0] == '\n' && (at[1] == '\n' || (at[1] == '\r' && i + 2 < messages->length && at[2] == '\n'))) {
            return i + (at[1] == '\n' ? 2 : 3);
        }
    }
    return 0;
}

/* The length that a header says; SIZE_MAX when it says none. */
static size_t body_length(const char *header, size_t length)
{
    static const char field[] = "Content-Length:";
    size_t body = SIZE_MAX;
    for (size_t at = 0; at < length;) {
        const char *line = header + at;
        const char *end = memchr(line, '\n', length - at);
        size_t size = (size_t)(end - line) + 1;
        if (size > sizeof field && strncasecmp(line, field, sizeof field - 1) == 0) {
            size_t value = 0;
            size_t i = sizeof field - 1;
            i += strspn(line + i, " \t");
            bool digits = line[i] >= '0' && line[i] <= '9';
            for (; line[i] >= '0' && line[i] <= '9' && value < SIZE_MAX / 100; i++) {
                value = value * 10 + (size_t)(line[i] - '0');
            }
            i += strspn(line + i, " \t\r");
            body = digits && line[i] == '\n' ? value : body;
        }
        at += size;
    }
    return body;
}

/* Takes one message out of what came; false when none is there as a whole. */
static bool take_one(struct messages *messages)
{
    if (messages->skip > 0) {
        size_t skipped = messages->skip < messages->length ? messages->skip : messages->length;
        drop(messages, skipped);
        messages->skip -= skipped;
    }
    size_t header = messages->skip > 0 ? 0 : header_length(messages);
    if (header == 0) {
        if (messages->skip == 0 && messages->length > LONGEST_HEADER) { /* it never was one */
            messages_refuse(messages, NULL, MESSAGE_UNREADABLE, "a header has no end");
            drop(messages, messages->length);
        }
        return false;
    }
    size_t body = body_length(messages->bytes, header);
    if (body == SIZE_MAX || body > LONGEST_MESSAGE) {
        messages_refuse(messages, NULL, MESSAGE_UNREADABLE, body == SIZE_MAX ? "a header does not say how long its message is" : "a message is too long");
        drop(messages, header);
        messages->skip = body == SIZE_MAX ? 0 : body;
        return true;
    }
    if (messages->length - header < body) {
        return false;
    }
    take(messages, messages->bytes + header, body);
    drop(messages, header + body);
    return true;
}

static bool has_come(const struct messages *messages)
{
    struct pollfd poll_in = {.fd = messages->in, .events = POLLIN};
    return !messages->ended && poll(&poll_in, 1, 0) > 0 && (poll_in.revents & (POLLIN | POLLHUP)) != 0;
}

struct message *messages_next(struct messages *messages, bool wait)
{
    do {
        while (take_one(messages)) {
        }
        bool idle = messages->first == NULL && wait;
        if (!(idle ? !messages->ended : has_come(messages)) || !read_more(messages)) {
            break;
        }
    } while (!messages->broken);
    while (take_one(messages)) {
    }
    struct message *first = messages->first;
    if (first != NULL) {
        messages->first = first->next;
        messages->last = messages->first == NULL ? &messages->first : messages->last;
    }
    return first;
}
