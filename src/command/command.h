/* The command line: one function a verb, on what libpotash offers. */
#ifndef POTASH_COMMAND_COMMAND_H
#define POTASH_COMMAND_COMMAND_H

#include "base/arena.h"
#include "command/verbs.h"
#include "potash.h"

#include <stddef.h>

/* What stood on the command line; the table of options says where each goes. */
struct text_list {
    const char **at;             /* ends with NULL */
    size_t count;
};

struct command_line {
    struct arena *arena;         /* of what had to be put together */
    const struct verb *verb;     /* NULL: none was named */
    struct text_list paths;      /* files, folders, "-"; or the verb's own words */
    struct potash_options options;
    struct text_list silence;
    struct text_list without;    /* check: materials that no formula should hold */
    const char *depends;         /* check: the file whose dependencies are printed in place of the summary, or NULL */
    bool today;                  /* check: go by the calendar */
    struct text_list mix;
    const char *like;            /* materials: look for what may stand in for this one */
    const char *shelf;           /* a file with the shelf, or NULL */
    const char *as, *paper;
    enum potash_format format;
    bool in_place;               /* tidy: change the files */
    bool verify;                 /* tidy: only list those that are not tidy */
    const char *known_as;        /* compare: the path that both files are versions of, or NULL */
    const char *rolls, *sheets;
    struct progress *progress;   /* of long work, shown on a terminal */
    bool record;                 /* sheet: a batch to paste, in place of the sheet */
    const char *record_in;       /* sheet: the diary that the batch is added to, or NULL */
    const char *output;          /* -o FILE, or NULL for standard output */
    bool all;                    /* a terminal shows every diagnostic, however many there are of one id */
    bool help;
    bool version;
};

/* Reads the arguments; false with a message on standard error when they are no call.  What is put together comes from the arena,
 * which jumps when memory runs out. */
bool command_read_line(struct arena *arena, int count, char **words, struct command_line *line);

/* Turns the texts of options into values; false with a message when one is none. */
bool command_read_values(struct command_line *line);

/* "text, json or pdf" */
const char *command_format_list(struct arena *arena, unsigned formats);

/* The day that is printed: the one that was given, or today, as "2026-03-04", which goes to `date`; NULL: none. */
const char *command_date(const struct command_line *line, char date[static 16]);

/* "potash: …" on standard error, in one line; false, for the caller to return. */
bool command_refuse(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* The words behind the verb as one text. */
const char *command_join_words(const struct command_line *line);

/* Opens a session, reads the paths and checks; prints the diagnostics to standard error.  The exit status so far goes to
 * *status; NULL when nothing can be done (the reason has been printed). */
struct potash *command_open(const struct command_line *line, int *status);

/* Writes a report to FILE in one step, or to standard output.  The exit status. */
int command_write(const struct command_line *line, const struct potash_output *output);

/* What writes itself, piece by piece: POTASH_FAULTY when the sink could not take it, POTASH_UNUSABLE when it cannot be made, which has
 * been said. */
struct command_writer {
    int (*write)(void *context, const struct potash_sink *sink);
    void *context;
};

/* The same as command_write for what is not held in memory as a whole. */
int command_write_by(const struct command_line *line, const struct command_writer *writer);

/* Writes beside the file and puts the new one in its place, so that there is never half of it; through links, and with the owner,
 * permissions and attributes of the old one.  A file with several names is refused.  The exit status. */
int command_replace_file(const char *path, const struct command_writer *writer);

/* A writer of what is there already. */
struct command_writer command_writer_of(struct potash_output *output);

/* Has the disk keep what the folder of `path` says of its files; false with errno. */
bool command_sync_folder(const char *path);

/* Opens the file that `path` names and locks it against others who ask for the lock, also when it is replaced meanwhile; -1 with
 * errno.  Closing it unlocks it. */
int command_lock_file(const char *path, int flags);

/* All that an open file holds; NULL with errno when it cannot be read.  The caller frees it. */
char *command_read_all(int descriptor, size_t *length);

/* A line on standard error, or on standard output; its end is added.  Whatever stands in names and values, it stays one line, and no
 * sign in it does anything to a terminal. */
void command_say(const char *format, ...) __attribute__((format(printf, 1, 2)));
void command_print(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* Prints why a call failed; the exit status for it. */
int command_failed(const struct potash *potash, enum potash_status status);

/* Long work, as it is told on a terminal. */
struct progress {
    bool shown;
    long long next;              /* ms, when it is told again */
};

/* For potash_options.progress; `context` is a struct progress. */
void command_tell_progress(void *context, size_t done, size_t of);
void command_clear_progress(struct progress *progress);

/* Whether diagnostics are written in colour. */
bool command_colour(void);

int command_compare(const struct command_line *line);
int command_check(const struct command_line *line);
int command_book(const struct command_line *line);
int command_label(const struct command_line *line);
int command_cost(const struct command_line *line);
int command_shelf(const struct command_line *line);
int command_sheet(const struct command_line *line);
int command_record(const struct command_line *line);
int command_process(const struct command_line *line);
int command_safety(const struct command_line *line);
int command_show(const struct command_line *line);
int command_materials(const struct command_line *line);
int command_reckon(const struct command_line *line);
int command_tidy(const struct command_line *line);
int command_why(const struct command_line *line);
int command_editor(const struct command_line *line);

#endif
