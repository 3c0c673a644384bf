/* Source files and positions in them.
 *
 * All files of a compilation share one line of offsets, so that a position is a number and a span a pair of them;
 * line and column are worked out only when something is printed. */
#ifndef POTASH_SOURCE_SOURCE_H
#define POTASH_SOURCE_SOURCE_H

#include "base/arena.h"
#include "base/text.h"

#include <stdint.h>

struct span {
    uint32_t begin; /* offset of the first byte */
    uint32_t end;   /* one past the last */
};

/* Another file that a file reads. */
struct source_read {
    struct source_file *file;
    struct source_read *next;
};

struct source_file {
    const char *path;        /* as it was given, whatever bytes that are; or "<standard input>" */
    const char *name;        /* the same, or as it is shown where it is no UTF-8 */
    const char *bytes;       /* the text, followed by NUL; faults of encoding are replaced by '?' */
    uint32_t length;
    uint32_t base;           /* offset of the first byte among all files */
    bool named;              /* by the user, or read by a named file that holds nothing else: reports are about it */
    bool only_reads;         /* it holds nothing but `read` lines … */
    struct source_read *reads; /* … and these are the files */
    bool on_disk;            /* what stands there was read, not a text in memory */
    bool of_library;         /* part of the library, not of what the user compiles */
    size_t faults;           /* lines that the tree lacks, and bytes that are no text */
    uint32_t *newlines_before; /* each block of the text (source.c); counted when the first position is asked for */
};

struct source_set {
    struct arena *arena;
    struct source_file **files;
    size_t count;
    size_t capacity;
};

struct place {
    const struct source_file *file;
    uint32_t line;        /* from 1 */
    uint32_t column;      /* from 1, in code points */
    uint32_t line_begin;  /* offset of the line's first byte within the file */
    uint32_t line_length; /* bytes, without the line's end */
};

enum { SOURCE_LONGEST = 1u << 30 }; /* bytes in one file */

void source_start(struct source_set *set, struct arena *arena);

/* Whether it is a text at all, perhaps a damaged one: no more than a few of its lines hold a NUL. */
bool source_is_text(const char *bytes, size_t length);

/* A path as UTF-8: whole where it is that, else as it is shown (base/shown.h). */
const char *source_show_path(struct arena *arena, const char *path);

/* Takes text in; `bytes` must be followed by NUL and live as long as the arena, and is written to where it holds what is
 * not text.  NULL when the offsets are used up (4 GB in all). */
struct source_file *source_add(struct source_set *set, const char *path, char *bytes, size_t length, bool of_library);

struct source_file *source_file_at(const struct source_set *set, uint32_t offset);
struct place source_place(const struct source_set *set, uint32_t offset);
/* The same, faster where the place is not far behind one that is known; `known` may hold nothing (file NULL). */
struct place source_place_from(const struct source_set *set, const struct place *known, uint32_t offset);
struct text source_text(const struct source_set *set, struct span span);
struct text source_line(const struct source_set *set, struct place place);

/* The span from `begin` to `end`, made in one piece.  Spans are copied all the time; a copy of eight bytes has to wait when they
 * were written as two halves just before, which cost the parser and the lexer a sixth of their time. */
static inline struct span span_make(uint32_t begin, uint32_t end)
{
    union {
        uint64_t whole;
        struct span span;
    } made;
#if __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__
    made.whole = (uint64_t)end << 32 | begin;
#else
    made.whole = (uint64_t)begin << 32 | end;
#endif
    return made.span;
}

/* The smallest span that holds both. */
/* From the beginning of one to the end of the other; of both as a whole where what was typed stands in another order (syntax/reread.h). */
static inline struct span span_from(struct span first, struct span last)
{
    if (__builtin_expect(last.end < first.begin, 0)) {
        return span_make(last.begin, first.end);
    }
    return span_make(first.begin, last.end);
}

static inline struct span span_join(struct span a, struct span b)
{
    return (struct span){a.begin < b.begin ? a.begin : b.begin, a.end > b.end ? a.end : b.end};
}

#endif
