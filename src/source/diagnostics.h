/* What the compiler has to say about the text: collected while it works, printed in line order at the end. */
#ifndef POTASH_SOURCE_DIAGNOSTICS_H
#define POTASH_SOURCE_DIAGNOSTICS_H

#include "base/buffer.h"
#include "source/source.h"

#include <jansson.h>
#include <stdbool.h>

enum severity { SEVERITY_ERROR, SEVERITY_WARNING };

/* One for each id of the registry (registry.def). */
enum diagnostic_id {
#define DIAGNOSTIC(symbol, name, severity, summary, why, wrong, right) symbol,
#include "source/registry.def"
#undef DIAGNOSTIC
    DIAGNOSTIC_IDS
};

/* What the registry says of an id. */
struct diagnostic_entry {
    const char *name;       /* "ratio-with-colon" */
    enum severity severity;
    const char *summary;    /* one line */
    const char *why;        /* the reason, a paragraph */
    const char *wrong;      /* an example that gives it */
    const char *right;      /* the same, repaired */
};

extern const struct diagnostic_entry diagnostic_registry[DIAGNOSTIC_IDS];

/* The id called `name`; DIAGNOSTIC_IDS when there is none. */
enum diagnostic_id diagnostic_find(struct text name);

/* A change of the text that repairs the mistake. */
struct fix {
    const char *title;
    struct span span;
    const char *text;
    struct fix *also;        /* another edit of the same repair: all of them belong together, in the order of the text */
    struct fix *next;
};

/* Another place that has to do with it. */
struct related {
    struct span span;
    const char *message;
    struct related *next;
};

struct diagnostic {
    enum diagnostic_id id;
    enum severity severity;
    struct span span;
    const char *message;
    const char *help;        /* or NULL */
    struct fix *fixes;
    bool without_fixes;      /* the place is not where the mistake could be mended: fixes are not taken */
    struct related *related;
    uint32_t sequence;
};

struct diagnostics {
    struct arena *arena;
    const struct source_set *sources;
    struct diagnostic **items;
    size_t count;
    size_t capacity;
    size_t errors;
    size_t warnings;
    bool silenced[DIAGNOSTIC_IDS]; /* warnings turned off for the whole run */
};

void diagnostics_start(struct diagnostics *diagnostics, struct arena *arena, const struct source_set *sources);

/* Says something about `span`.  Returns it, so that help, fixes and other places can be added; NULL when it is silenced,
 * which the adding functions below accept. */
struct diagnostic *diagnostics_add(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                   const char *format, ...) __attribute__((format(printf, 4, 5)));

/* The same with the arguments of a function that takes them in its turn. */
struct diagnostic *diagnostics_add_list(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                        const char *format, va_list arguments) __attribute__((format(printf, 4, 0)));

void diagnostics_help(struct diagnostics *diagnostics, struct diagnostic *diagnostic, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void diagnostics_fix(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text,
                     const char *title_format, ...) __attribute__((format(printf, 5, 6)));
/* A fix whose title is what it writes: "write (green)". */
void diagnostics_fix_writing(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* Another edit of the fix that was added last, further down in the text; the two do not overlap. */
void diagnostics_fix_also(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text);
void diagnostics_relate(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span,
                        const char *message);

/* Takes out what would not be so if a file could have been read: names that it may declare and that nobody else does. */
void diagnostics_leave_out_unknown_names(struct diagnostics *diagnostics);

/* Turns warnings into errors, in the counts and in each of them. */
void diagnostics_count_strictly(struct diagnostics *diagnostics);

/* Puts them in line order and keeps, of several on a line that is not text at all, the one that says so. */
void diagnostics_finish(struct diagnostics *diagnostics);

/* As text for a person; `colour` for a terminal. */
void diagnostics_print(const struct diagnostics *diagnostics, struct buffer *out, bool colour);

/* As the contract's JSON, or as SARIF 2.1.0 (OASIS standard).  NULL when memory runs out; the caller owns the reference. */
json_t *diagnostics_json(const struct diagnostics *diagnostics);
json_t *diagnostics_sarif(const struct diagnostics *diagnostics, const char *version);

#endif
