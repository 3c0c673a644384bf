/* A session's inside, for the files that make up libpotash's public face. */
#ifndef POTASH_SESSION_H
#define POTASH_SESSION_H

#include "formula/formula.h"
#include "potash.h"
#include "report/report.h"

struct potash {
    struct potash_options options;
    struct arena arena;
    jmp_buf failure;
    struct names names;
    struct source_set sources;
    struct diagnostics diagnostics;
    struct library library;
    struct formulary formulary;
    struct report_context context;
    struct syntax_list *files;       /* parsed, in order */
    struct syntax_list *last_file;
    size_t file_count;
    size_t formula_count;
    size_t loose_errors;             /* outside any formula */
    bool checked;
    const char *message;
};

struct syntax_list {
    struct syntax_file *file;
    struct syntax_list *next;
};

/* Runs what follows with a way back for failing allocations:
 *     if (SESSION_GUARD(potash)) { return session_out_of_memory(potash); } */
#define SESSION_GUARD(potash) (setjmp((potash)->failure) != 0)

enum potash_status session_out_of_memory(struct potash *potash);
enum potash_status session_unusable(struct potash *potash, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Takes a file of the library or of the user in. */
enum potash_status session_read_path(struct potash *potash, const char *path, bool of_library);

/* The formulas that reports are about, one after the other; NULL at the end. */
struct formula *session_next(struct potash *potash, const struct formula *before);

/* Whether reports can be made: POTASH_FAULTY when a formula that they are about has errors. */
enum potash_status session_ready(struct potash *potash);

/* JSON text as output, closed by a line's end; takes the reference. */
enum potash_status session_put_json(struct potash *potash, json_t *json, struct potash_output *output);

#endif
