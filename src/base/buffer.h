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
void buffer_add(struct buffer *buffer, const char *bytes, size_t length);
void buffer_text(struct buffer *buffer, struct text text);
void buffer_string(struct buffer *buffer, const char *string);
void buffer_character(struct buffer *buffer, char character);
/* The figure, on the right of at least `width` columns. */
void buffer_number(struct buffer *buffer, uint64_t number, size_t width);
void buffer_repeat(struct buffer *buffer, char character, size_t count);
void buffer_format(struct buffer *buffer, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *buffer_finish(struct buffer *buffer);

#endif
