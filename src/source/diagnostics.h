/* What the compiler has to say about the text: records, collected while it works and put in words when somebody prints them.
 *
 * Most of a long run's diagnostics are never read.  So a record holds an id, a place, a format and a copy of what the format takes;
 * words, titles of repairs and help come out of that when it is printed, and what takes a search can wait until somebody asks for
 * it (diagnostics_explain_later) or be left out where nobody will (diagnostics_take_fixes). */
#ifndef POTASH_SOURCE_DIAGNOSTICS_H
#define POTASH_SOURCE_DIAGNOSTICS_H

#include "base/outlet.h"
#include "source/source.h"
#include "source/words.h"

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

/* A change of the text that repairs the mistake.  A long run has many: the text stands in words, and the edits of one repair follow each
 * other. */
struct fix {
    struct fix *next;
    struct span span;
    union {
        const struct kept_words *title;
        const char *title_of_text; /* a format of printf that takes the text by at most one %s */
    };
    bool by_text;            /* title_of_text is the title */
    bool of_last;            /* another edit of the repair before it, further down in the text; it has no title */
    char text[];             /* what stands there then */
};

/* The next repair, and the next edit of the same repair; NULL where there is none. */
static inline const struct fix *fix_next(const struct fix *fix)
{
    do {
        fix = fix->next;
    } while (fix != NULL && fix->of_last);
    return fix;
}

static inline const struct fix *fix_also(const struct fix *fix)
{
    return fix->next != NULL && fix->next->of_last ? fix->next : NULL;
}

/* Another place that has to do with it. */
struct related {
    struct span span;
    const char *message;
    struct related *next;
};

struct diagnostics;
struct diagnostic;

/* Adds help and fixes to a diagnostic; `arguments` are those that were given to diagnostics_explain_later. */
typedef void diagnostic_explainer(struct diagnostics *diagnostics, struct diagnostic *diagnostic, const void *arguments);

struct diagnostic_explanation;

struct diagnostic {
    struct span span;
    const struct kept_words *message;
    const struct kept_words *help;    /* or NULL */
    union {
        struct fix *fixes;
        const struct diagnostic_explanation *explanation; /* where it is explained later: help and fixes are not there yet */
    };
    struct related *related;
    unsigned char id;            /* enum diagnostic_id */
    unsigned char severity;      /* enum severity */
    bool without_fixes;          /* the place is not where the mistake could be mended: fixes are not taken */
    bool explained_later;
    bool withdrawn;              /* it is not so after all */
    uint32_t near;               /* another one of the same stretch of text, from 1; 0: none (diagnostics_order.c) */
};

_Static_assert(sizeof(struct diagnostic) <= 96, "a long run has many diagnostics");
_Static_assert(DIAGNOSTIC_IDS <= 256, "an id is kept in a byte");

struct diagnostics {
    struct arena *arena;
    struct arena *aside;         /* for what is made while one is printed; or NULL: the same */
    const struct source_set *sources;
    struct diagnostic **items;   /* as they came; in line order after diagnostics_finish */
    size_t count;
    size_t capacity;
    size_t errors;
    size_t warnings;
    bool conflict;               /* a merge is unfinished: names may be declared in the version that is not read */
    bool text_only;              /* nobody will ask for fixes but by way of the help */
    bool silenced[DIAGNOSTIC_IDS]; /* warnings turned off for the whole run */
    uint32_t *stretches;         /* table of the newest diagnostic of each stretch of text, by its index + 1 */
    size_t stretch_count;
};

void diagnostics_start(struct diagnostics *diagnostics, struct arena *arena, const struct source_set *sources);

/* Says something about `span`.  Returns it, so that help, fixes and other places can be added; NULL when it is silenced,
 * which the adding functions below accept.  Formats are string constants; arguments are copied, so that they may live as short as one
 * likes (source/words.h). */
struct diagnostic *diagnostics_add(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                   const char *format, ...) __attribute__((format(printf, 4, 5)));

/* The same with the arguments of a function that takes them in its turn. */
struct diagnostic *diagnostics_add_list(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                        const char *format, va_list arguments) __attribute__((format(printf, 4, 0)));

/* The same with words that are kept in the diagnostics' arena already. */
struct diagnostic *diagnostics_add_words(struct diagnostics *diagnostics, enum diagnostic_id id, struct span span,
                                         const struct kept_words *message);

/* Words for diagnostics_add_words. */
const struct kept_words *diagnostics_words(struct diagnostics *diagnostics, const char *format, va_list arguments)
    __attribute__((format(printf, 2, 0)));

void diagnostics_help(struct diagnostics *diagnostics, struct diagnostic *diagnostic, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void diagnostics_fix(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text,
                     const char *title_format, ...) __attribute__((format(printf, 5, 6)));
/* A fix whose title is what it writes: "write (green)". */
void diagnostics_fix_writing(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* The same with a title in other words, a string constant that takes the text by one %s, or does not: "%s is meant". */
void diagnostics_fix_as(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *title,
                        const char *format, ...) __attribute__((format(printf, 5, 6)));
/* Another edit of the fix that was added last, further down in the text; the two do not overlap. */
void diagnostics_fix_also(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text);
void diagnostics_relate(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span,
                        const char *message);

/* Whether fixes of a diagnostic that has its help already may be read by anybody: where they take a search, it is asked first. */
bool diagnostics_take_fixes(const struct diagnostics *diagnostics, const struct diagnostic *diagnostic);

/* Leaves help and fixes to a function that is called when somebody wants them; `size` bytes of arguments are copied, and what they
 * point to lives as long as the diagnostics: names and materials, not what was found out about one formula.  Nothing is added to
 * the diagnostic but in this way. */
void diagnostics_explain_later(struct diagnostics *diagnostics, struct diagnostic *diagnostic, diagnostic_explainer *explainer,
                               const void *arguments, size_t size);

/* A diagnostic with all that belongs to it, until the next one is explained. */
struct diagnostic diagnostics_explained(const struct diagnostics *diagnostics, const struct diagnostic *diagnostic);

/* The message in words, in `arena`. */
const char *diagnostic_message(struct arena *arena, const struct diagnostic *diagnostic);

/* What a fix says it does, at the end of `out`. */
void diagnostic_print_title(struct buffer *out, const struct fix *fix);

/* Notes where the one that was added last stands (diagnostics_order.c). */
void diagnostics_know_place(struct diagnostics *diagnostics);

/* Takes back all but the first `count`. */
void diagnostics_go_back(struct diagnostics *diagnostics, size_t count);

/* Whether there is one of that id that begins inside `span`, counting from the one with the index `since`, in the order in which they
 * came.  Takes a time that goes with the length of the span, not with the number of diagnostics. */
bool diagnostics_any(const struct diagnostics *diagnostics, enum diagnostic_id id, struct span span, size_t since);

/* Takes back what was said of the form of a line: it is read in another way. */
void diagnostics_withdraw(struct diagnostics *diagnostics, struct span line);

/* The index of the first in line order that begins at `begin` or behind it. */
size_t diagnostics_from(const struct diagnostics *diagnostics, uint32_t begin);

/* Takes out what would not be so if a file could have been read: names that it may declare and that nobody else does. */
void diagnostics_leave_out_unknown_names(struct diagnostics *diagnostics);

/* Takes one that is left out of the list off the counts. */
void diagnostics_count_out(struct diagnostics *diagnostics, const struct diagnostic *item);

/* Turns warnings into errors, in the counts and in each of them. */
void diagnostics_count_strictly(struct diagnostics *diagnostics);

/* Puts them in line order and keeps, of several on a line that is not text at all, the one that says so. */
void diagnostics_finish(struct diagnostics *diagnostics);

/* As text for a person; `colour` for a terminal; at most `most` of one id, 0 for all: the others are counted. */
void diagnostics_print(const struct diagnostics *diagnostics, struct outlet *out, bool colour, size_t most);

/* As the contract's JSON, or as SARIF 2.1.0 (OASIS standard). */
void diagnostics_json(const struct diagnostics *diagnostics, struct outlet *out);
void diagnostics_sarif(const struct diagnostics *diagnostics, const char *version, struct outlet *out);

#endif
