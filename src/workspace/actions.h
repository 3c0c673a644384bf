/* What can be done with a line and its formula, beside repairs: for the files that offer it. */
#ifndef POTASH_WORKSPACE_ACTIONS_H
#define POTASH_WORKSPACE_ACTIONS_H

#include "base/number.h"
#include "library/measure.h"
#include "workspace/lines.h"

struct doing {
    struct potash_snapshot *snapshot;
    struct arena *arena;
    const struct workspace_text *text;
    const struct checked *checked;
    struct line_at at;
    struct potash_action *items;
    size_t count;
    size_t room;
    struct potash_edit *edits; /* of the action that is being put together */
    size_t edit_count;
    size_t edit_room;
};

/* Adds an edit to the action that comes next; and that action, unless it has none. */
void doing_edit(struct doing *doing, struct span span, const char *text);
void doing_add(struct doing *doing, enum potash_action_kind kind, const char *title_format, ...) __attribute__((format(printf, 3, 4)));

/* Behind the last line of the declaration. */
struct span doing_behind(const struct doing *doing);

/* rewriting.c: amounts of the line and of its formula in other forms, units and sizes. */
void doing_rewrite(struct doing *doing);

/* extracting.c: declarations that are made of the formula or of its line. */
void doing_extract(struct doing *doing, const char *date);

#endif
