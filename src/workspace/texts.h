/* The texts of a workspace, and what is found out about one text by itself: its lines, its tree. */
#ifndef POTASH_WORKSPACE_TEXTS_H
#define POTASH_WORKSPACE_TEXTS_H

#include "syntax/parse.h"
#include "workspace.h"

/* A text as it stood once.  It is never changed, and shared by all snapshots of that time. */
struct text_file {
    size_t uses;
    struct arena arena;
    const char *path;
    struct text text;               /* followed by NUL */
    const uint32_t *lines;          /* where each begins … */
    size_t line_count;              /* … at least one */
    const struct syntax_file *tree; /* NULL until asked for (text_tree) */
    struct names names;
};

/* NULL when there is no memory.  `on_failure` is where its arena goes later. */
struct text_file *text_make(const char *path, struct text text, long fail_after, jmp_buf *on_failure);
struct text_file *text_hold(struct text_file *file);
void text_let_go(struct text_file *file);

/* The tree, with its comments.  What is said of its form is said when it is checked. */
const struct syntax_file *text_tree(struct text_file *file);

/* Where an offset of the text lies; and the other way round. */
struct potash_place text_place(const struct text_file *file, size_t offset);
struct potash_range text_range(const struct text_file *file, size_t begin, size_t end);
size_t text_offset(const struct text_file *file, size_t line, size_t column, bool utf16);

/* The same of a span of its tree. */
static inline struct potash_range text_range_of(const struct text_file *file, const struct source_file *source, struct span span)
{
    return text_range(file, span.begin - source->base, span.end - source->base);
}

/* The bytes of a line without its end. */
struct text text_line(const struct text_file *file, size_t line);

/* A path without "." and "..", by its words alone; `to` has room for its length and NUL. */
void path_normalise(const char *path, char *to);

/* Whether a path lies in a folder, both normalised; "" holds all that is not absolute and does not lead out of it. */
bool path_is_inside(const char *path, const char *folder);

#endif
