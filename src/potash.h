/* libpotash: a compiler for photographic formulas kept as text files.
 *
 * A session takes in files, checks them, and makes reports.  Everything that it returns belongs to it and lives until
 * potash_close.  No call exits the program or prints; a failing allocation makes the call return POTASH_UNUSABLE, with the
 * reason in potash_message. */
#ifndef POTASH_H
#define POTASH_H

#include <stdbool.h>
#include <stddef.h>

enum potash_status {
    POTASH_GOOD = 0,     /* done */
    POTASH_FAULTY = 1,   /* the formulas have errors */
    POTASH_UNUSABLE = 2  /* the call or the files could not be used: see potash_message */
};

enum potash_format { POTASH_TEXT, POTASH_JSON, POTASH_SARIF, POTASH_HTML, POTASH_PDF, POTASH_CSV, POTASH_ICAL };

enum potash_paper { POTASH_A4, POTASH_LETTER };

/* Label stock, in mm where no unit is written; what is NULL is chosen: a common size of the paper, or as many as go on the sheet. */
struct potash_label_sheet {
    const char *size;             /* of a label, such as "99.1x67.7" */
    const char *grid;             /* columns and rows, such as "2x4" */
    const char *margins;          /* left of and above the first label */
    const char *pitch;            /* from the start of one label to the next */
    const char *start;            /* place of the first label that is printed, from 1, row by row */
    const char *copies;           /* of each label */
};

struct potash_options {
    const char *library;          /* folder of a library in place of the built-in one, or NULL */
    const char *title;            /* the one formula that reports are about, or NULL for all */
    const char *make;             /* batch size such as "2 L", or NULL for the formula's own */
    const char *use_for;          /* the one use that reports are about, such as "film", or NULL for all */
    const char *working;          /* working solution wanted, such as "300 mL", or NULL for usual sizes */
    const char *temperature;      /* of the bath in hand, such as "22 °C", or NULL: times are given for it */
    const char *goods;            /* what a process is for, such as "10 rolls" or "12 sheets 8x10 in", or NULL for one load */
    bool allow_reads;             /* `read` may leave the folder of the file that was named */
    bool no_reads;                /* `read` is not followed, to lay a file out by itself */
    const char *const *silence;   /* ids of warnings turned off; ends with NULL; may be NULL */
    const char *const *without;   /* materials that somebody must not touch: see potash_without; ends with NULL; may be NULL */
    bool strict;                  /* warnings count as errors */
    bool diagnostics_only;        /* no report will be asked for but the diagnostics: memory is not taken for more */
    bool diagnostics_as_text;     /* and they only as text: repairs are not looked for where the help says enough */
    bool using_shelf;             /* sheets take the forms that stand on the shelf */
    const char *within;           /* compare: by how much amounts may differ, such as "2 %", or NULL for the rounding of print */
    const char *price_by;         /* "cheapest" (also NULL), "oldest" or "average" */
    const char *against;          /* price of a litre bought ready made, such as "4.80", or NULL */
    const char *const *mix;       /* what the shelf's shopping list is for, such as "5 L of Saltmarsh brine", or a title; ends with NULL */
    const char *counted;          /* the day on which the shelf was counted, ISO 8601, in place of what the shelf says; or NULL */
    const char *horizon;          /* how far ahead the shelf looks for what expires, such as "30 days", or NULL for 90 */
    const char *balance;          /* what the scale shows, such as "0.1 g", or NULL for the shelf's, or 0.01 g */
    const char *graduate;         /* what the smallest graduate shows, such as "0.5 mL", or NULL for the shelf's, or 0.1 mL */
    const char *date;             /* ISO 8601 date that is printed, or NULL for none */
    size_t columns;               /* width of text output; 0 for 80 */
    enum potash_paper paper;      /* that PDF is made for */
    void (*progress)(void *context, size_t done, size_t of); /* called now and then in long work; may be NULL */
    void *progress_context;
    const char *book_title;       /* what a book is called, or NULL */
    bool book_with_safety;        /* in a book, every formula's safety notes stand behind its sheet */
    const char *label_of;         /* labels: "stock" (or NULL) or "working"; use_for names one working solution */
    const char *batch;            /* labels: the batch that they are for, or NULL for blanks to fill in */
    struct potash_label_sheet label_sheet;
    size_t memory;                /* bytes that may be taken for what was read; 0: 1 GB and 1000 for each byte that is read, twice what
                                     the largest report of a formula takes, so that a small file cannot use up the machine */
    long fail_after;              /* tests: fail at that allocation; 0 or less: never */
};

struct potash;

/* Opens a session.  NULL when there is no memory for it. */
struct potash *potash_open(const struct potash_options *options);
void potash_close(struct potash *potash);

/* Takes in a file, all `.bath` files below a folder, or standard input ("-"), and what they `read`.  A file that cannot be read is an
 * error among the diagnostics, and everything else is checked all the same.  POTASH_UNUSABLE when it is `path` itself that cannot be
 * read (potash_message tells why); other paths can be taken in and checked after that. */
enum potash_status potash_read(struct potash *potash, const char *path);

/* Takes in a file or folder for its shelves: reports are not about the formulas in it. */
enum potash_status potash_read_shelf(struct potash *potash, const char *path);

/* Takes in text, which is copied.  `name` is shown as its file; what it reads is looked for in that file's folder, or in the current
 * one where the name has none. */
enum potash_status potash_read_text(struct potash *potash, const char *name, const char *text, size_t length);

/* Checks what was taken in; to be called once, before any report. */
enum potash_status potash_check(struct potash *potash);

size_t potash_errors(const struct potash *potash);
size_t potash_warnings(const struct potash *potash);
size_t potash_formulas(const struct potash *potash);

/* Files that could not be read. */
size_t potash_unread(const struct potash *potash);

/* Why the last call was POTASH_UNUSABLE. */
const char *potash_message(const struct potash *potash);

/* Output of a report: bytes and how many. */
struct potash_output {
    const char *bytes;
    size_t length;
};

/* Takes output while it is made, piece by piece; false when it cannot, after which no more comes. */
struct potash_sink {
    bool (*take)(void *context, const char *bytes, size_t length);
    void *context;
};

/* The diagnostics of potash_check given to a sink, as text, JSON or SARIF, so that not all of it is held in memory at once.  As text:
 * `colour` for a terminal, and at most `most` of one id, 0 for all; the others are counted.  POTASH_FAULTY when the sink could not take
 * it. */
enum potash_status potash_write_diagnostics(struct potash *potash, enum potash_format format, bool colour, size_t most,
                                            const struct potash_sink *sink);

/* The diagnostics of potash_check, as text (with colour for a terminal), JSON or SARIF. */
enum potash_status potash_diagnostics(struct potash *potash, enum potash_format format, bool colour,
                                      struct potash_output *output);

/* Which formulas hold the materials of the option `without`; *held tells whether any does.  Formulas with errors count as though
 * they did. */
enum potash_status potash_without(struct potash *potash, enum potash_format format, bool *held, struct potash_output *output);

/* The checked form (JSON), or in words (text). */
enum potash_status potash_show(struct potash *potash, enum potash_format format, struct potash_output *output);

/* The mixing sheet. */
enum potash_status potash_sheet(struct potash *potash, enum potash_format format, struct potash_output *output);

/* Bottle labels. */
enum potash_status potash_label(struct potash *potash, enum potash_format format, struct potash_output *output);

/* The declaration of a batch of the one formula that reports are about, mixed on the session's day: to be pasted into a diary, or
 * added to it.  Its number is clear of the batches that were read, and of those in `diary`, a text that may be NULL. */
enum potash_status potash_record(struct potash *potash, const char *diary, size_t length, struct potash_output *output);

/* The working sheet of each process, or of the one whose title was given. */
enum potash_status potash_process(struct potash *potash, enum potash_format format, struct potash_output *output);

/* The safety notes: classes of each solution with the rule and the ingredients behind them, label, handling. */
enum potash_status potash_safety(struct potash *potash, enum potash_format format, struct potash_output *output);

/* All formulas as one book: contents, sheets by kind, indexes, safety, sources. */
enum potash_status potash_book(struct potash *potash, enum potash_format format, struct potash_output *output);

/* What the formulas cost by the prices on the shelf; several of them are set side by side as well. */
enum potash_status potash_cost(struct potash *potash, enum potash_format format, struct potash_output *output);

/* What is left on the shelf, what can be mixed with it, what to buy and what expires; as text, JSON, CSV (RFC 4180) or iCalendar
 * (RFC 5545).  POTASH_FAULTY with an output where something in the files has errors: the rest is there all the same. */
enum potash_status potash_shelf(struct potash *potash, enum potash_format format, struct potash_output *output);

/* What the library knows: all materials, or one. */
enum potash_status potash_materials(struct potash *potash, const char *name, enum potash_format format,
                                    struct potash_output *output);

/* What may stand in for a material: the others of its role, with what differs. */
enum potash_status potash_materials_like(struct potash *potash, const char *name, enum potash_format format,
                                         struct potash_output *output);

/* A diagnostic explained; all of them when `id` is NULL. */
enum potash_status potash_why(struct potash *potash, const char *id, enum potash_format format,
                              struct potash_output *output);

/* The path of a file that was named, or found below a folder that was named, from 0 on; NULL behind the last. */
const char *potash_file_name(struct potash *potash, size_t index);

/* The bytes of such a file, as they were read. */
struct potash_output potash_file_text(struct potash *potash, size_t index);

/* Such a file's text in canonical layout; *tidy tells whether it stands so already.  Needs no potash_check.  POTASH_FAULTY
 * when the file has errors of syntax or encoding, which potash_diagnostics then gives. */
enum potash_status potash_tidy(struct potash *potash, size_t index, bool *tidy, struct potash_output *output);

/* One bench sum, such as "1+29 for 300 mL", with its working.  POTASH_UNUSABLE when it cannot be reckoned:
 * potash_diagnostics then gives the reasons, with the place in the sum. */
enum potash_status potash_reckon(struct potash *potash, const char *text, enum potash_format format,
                                 struct potash_output *output);

/* Takes in the file `path` as though it were `known_as`: that name is shown, and its `read`s start from there. */
enum potash_status potash_read_as(struct potash *potash, const char *path, const char *known_as);

/* What differs between the formulas of two checked sessions, which may hold the same titles: one against one, or those of
 * one title against each other.  A side without any formula counts as a file that is not there.  Amounts may differ by what
 * the options of `a` say.  POTASH_FAULTY when a formula has errors.  Output and message belong to `a`. */
enum potash_status potash_compare(struct potash *a, struct potash *b, enum potash_format format, struct potash_output *output, bool *same);

/* A text in one line as a terminal may be given it, such as the name of a file or a value that somebody typed: signs that control the
 * terminal, turn the direction of writing or are not seen are U+FFFD in it.  The caller frees it; NULL when there is no memory. */
char *potash_shown(const char *text, size_t length);

/* Whether a text of many lines holds none of these signs. */
bool potash_is_plain(const char *text, size_t length);

const char *potash_version(void);

#endif
