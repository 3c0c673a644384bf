/* Text that grows at its end, kept in an arena. */
#ifndef POTASH_BASE_BUFFER_H
#define POTASH_BASE_BUFFER_H

#include "base/arena.h"
#include "base/text.h"

#include <stdint.h>

struct buffer {
    struct arena *arena;
    char *bytes;       /* NUL-terminated after every call; NULL while empty */
    size_t length;
    size_t capacity;
};

void buffer_start(struct buffer *buffer, struct arena *arena);
void buffer_grow(struct buffer *buffer, size_t more);

/* Room for `more` bytes and a NUL. */
static inline void buffer_reserve(struct buffer *buffer, size_t more)
{
    if (buffer->length + more >= buffer->capacity) {
        buffer_grow(buffer, more);
    }
}

static inline void buffer_add(struct buffer *buffer, const char *bytes, size_t length)
{
    buffer_reserve(buffer, length);
    if (length > 0) {
        memcpy(buffer->bytes + buffer->length, bytes, length);
    }
    buffer->length += length;
    buffer->bytes[buffer->length] = '\0';
}

static inline void buffer_text(struct buffer *buffer, struct text text)
{
    buffer_add(buffer, text.at, text.length);
}

static inline void buffer_string(struct buffer *buffer, const char *string)
{
    buffer_add(buffer, string, strlen(string));
}

static inline void buffer_character(struct buffer *buffer, char character)
{
    buffer_reserve(buffer, 1);
    buffer->bytes[buffer->length++] = character;
    buffer->bytes[buffer->length] = '\0';
}

/* The figure, on the right of at least `width` columns. */
void buffer_number(struct buffer *buffer, uint64_t number, size_t width);
void buffer_repeat(struct buffer *buffer, char character, size_t count);
void buffer_format(struct buffer *buffer, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *buffer_finish(struct buffer *buffer);

#endif
