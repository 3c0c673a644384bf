/* Text that grows at its end. */
#include "base/buffer.h"

#include "base/number.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void buffer_start(struct buffer *buffer, struct arena *arena)
{
    *buffer = (struct buffer){.arena = arena};
}

void buffer_grow(struct buffer *buffer, size_t more)
{
    size_t capacity = buffer->capacity < 128 ? 256 : buffer->capacity * 2;
    while (capacity < buffer->length + more + 1) {
        capacity *= 2;
    }
    char *bytes = arena_allocate(buffer->arena, capacity);
    if (buffer->length > 0) {
        memcpy(bytes, buffer->bytes, buffer->length);
    }
    buffer->bytes = bytes;
    buffer->capacity = capacity;
}

void buffer_number(struct buffer *buffer, uint64_t number, size_t width)
{
    char figures[20];
    size_t first = sizeof figures;
    do {
        figures[--first] = (char)('0' + number % 10);
        number /= 10;
    } while (number > 0);
    size_t length = sizeof figures - first;
    buffer_repeat(buffer, ' ', width > length ? width - length : 0);
    buffer_add(buffer, figures + first, length);
}

void buffer_repeat(struct buffer *buffer, char character, size_t count)
{
    buffer_reserve(buffer, count);
    memset(buffer->bytes + buffer->length, character, count);
    buffer->length += count;
    buffer->bytes[buffer->length] = '\0';
}

void buffer_format(struct buffer *buffer, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    va_list again;
    va_copy(again, arguments);
    /* Nearly always there is room: it is printed where it will stay. */
    size_t room = buffer->capacity - buffer->length;
    int printed = number_format_list(room == 0 ? NULL : buffer->bytes + buffer->length, room, format, arguments);
    va_end(arguments);
    size_t length = printed < 0 ? 0 : (size_t)printed;
    if (length >= room && length > 0) {
        buffer_reserve(buffer, length);
        number_format_list(buffer->bytes + buffer->length, length + 1, format, again);
    }
    buffer->length += length;
    va_end(again);
}

const char *buffer_finish(struct buffer *buffer)
{
    buffer_reserve(buffer, 0);
    buffer->bytes[buffer->length] = '\0';
    return buffer->bytes;
}
